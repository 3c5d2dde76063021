#include "charts/charts.h"

#include <type_traits>

#include "charts/kinds.h"

namespace winterfolio {

namespace {

template <typename Kind, typename... Kinds>
constexpr bool kOneOf = (std::is_same_v<Kind, Kinds> || ...);

/// The kinds that shrink and grow with their room.
template <typename Kind>
constexpr bool kTakesHeight =
    kOneOf<Kind, ChillBuildUp, WeeklyGain, HourRaster, DailyRange, OrchardMap>;

}  // namespace

Frame draw_chart(const Chart& chart, Size room, const FontMetrics& metrics, const Style& style,
                 const Words& words) {
  const Pen pen{metrics, style, words};
  return std::visit([&](const auto& kind) { return draw(kind, room, pen); }, chart.kind);
}

bool takes_height(const Chart& chart) {
  return std::visit(
      [](const auto& kind) { return kTakesHeight<std::remove_cvref_t<decltype(kind)>>; },
      chart.kind);
}

Length chart_height(const Chart& chart, Length width, const FontMetrics& metrics,
                    const Style& style, const Words& words) {
  const Pen pen{metrics, style, words};
  return std::visit(
      [&](const auto& kind) {
        if constexpr (requires { own_height(kind); })
          return own_height(kind);
        else
          return draw(kind, {width, {}}, pen).height();
      },
      chart.kind);
}

std::optional<std::pair<std::shared_ptr<const Chart>, std::shared_ptr<const Chart>>> break_chart(
    const Chart& chart, Size room, const FontMetrics& metrics, const Style& style,
    const Words& words) {
  const Pen pen{metrics, style, words};
  return std::visit(
      [&](const auto& kind)
          -> std::optional<std::pair<std::shared_ptr<const Chart>, std::shared_ptr<const Chart>>> {
        if constexpr (requires { parted(kind, room, pen); }) {
          auto parts = parted(kind, room, pen);
          if (!parts) return std::nullopt;
          return std::pair{std::make_shared<const Chart>(Chart{std::move(parts->first)}),
                           std::make_shared<const Chart>(Chart{std::move(parts->second)})};
        } else {
          return std::nullopt;
        }
      },
      chart.kind);
}

}  // namespace winterfolio
