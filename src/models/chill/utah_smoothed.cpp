// Adds up the smoothed Utah curve.
#include "models/chill/utah_smoothed.h"

#include <numbers>

#include "models/constants.h"

namespace winterfolio {
namespace {

constexpr std::string_view kTable = "src/models/chill/tables/utah_smoothed.csv";

struct Curve {
  double turn_per_degree = 2.0 * std::numbers::pi / constant(kTable, "wave");
  double lowest_point = constant(kTable, "lowest_point");
  double weight(double celsius) const {
    if (celsius <= 0.0) return 0.0;
    if (celsius > lowest_point) return -1.0;
    return std::sin(turn_per_degree * celsius);
  }
};

const Curve& curve_constants() {
  static const Curve constants;
  return constants;
}

}  // namespace

UtahSmoothedUnits utah_smoothed_of_hour(Celsius mean) {
  return UtahSmoothedUnits(curve_constants().weight(mean.degrees()));
}

std::vector<UtahSmoothedUnits> utah_smoothed_running_total(const HourlySeries& series,
                                                           LocalHour from, LocalHour to) {
  return running_total<ChillMeasure::utah_smoothed>(run_on_utah_smoothed, series, from, to);
}

void run_on_utah_smoothed(const KnownHours& hours, ChillState& state, std::span<double> curve) {
  const Curve& constants = curve_constants();
  run_over(hours, state.total, curve,
           [&](double celsius, std::int32_t) { state.total += constants.weight(celsius); });
}

}  // namespace winterfolio
