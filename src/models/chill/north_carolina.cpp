// Adds up North Carolina units.
#include "models/chill/north_carolina.h"

#include "models/chill/step_table.h"

namespace winterfolio {
namespace {

const StepTable& weights() {
  static const StepTable table("src/models/chill/tables/north_carolina.csv");
  return table;
}

}  // namespace

NorthCarolinaUnits north_carolina_of_hour(Celsius mean) {
  return NorthCarolinaUnits(weights().weight(mean.degrees()));
}

std::vector<NorthCarolinaUnits> north_carolina_running_total(const HourlySeries& series,
                                                             LocalHour from, LocalHour to) {
  return running_total<NorthCarolinaUnits::measure>(run_on_north_carolina, series, from, to);
}

void run_on_north_carolina(const KnownHours& hours, ChillState& state, std::span<double> curve) {
  const StepTable& table = weights();
  run_over(hours, state.total, curve,
           [&](double celsius, std::int32_t) { state.total += table.weight(celsius); });
}

}  // namespace winterfolio
