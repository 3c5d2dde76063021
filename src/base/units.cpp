// The ids of the chill measures, in one list.
#include "base/units.h"

namespace winterfolio {
namespace {

constexpr std::array<std::string_view, kChillMeasureCount> kMeasureIds = {
    "chill_hours",    "chill_hours_32_45",   "chill_hours_less_warm",
    "utah",           "utah_daily_positive", "utah_smoothed",
    "north_carolina", "low_chill",           "portions",
};

}  // namespace

std::string_view id_of(ChillMeasure measure) {
  return kMeasureIds.at(static_cast<std::size_t>(measure));
}

std::optional<ChillMeasure> chill_measure_named(std::string_view id) {
  for (const ChillMeasure measure : kChillMeasures) {
    if (id_of(measure) == id) return measure;
  }
  return std::nullopt;
}

}  // namespace winterfolio
