#include "charts/charts.h"

#include "charts/kinds.h"

namespace winterfolio {

Frame draw_chart(const Chart& chart, Size room, const FontMetrics& metrics, const Style& style,
                 const Words& words) {
  const Pen pen{metrics, style, words};
  return std::visit([&](const auto& kind) { return draw(kind, room, pen); }, chart.kind);
}

Length chart_height(const Chart& chart, Length width, const FontMetrics& metrics,
                    const Style& style, const Words& words) {
  return draw_chart(chart, {width, {}}, metrics, style, words).height();
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
