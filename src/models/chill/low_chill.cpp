// Adds up low-chill units.
#include "models/chill/low_chill.h"

#include "models/chill/step_table.h"

namespace winterfolio {
namespace {

const StepTable& weights() {
  static const StepTable table("src/models/chill/tables/low_chill.csv");
  return table;
}

}  // namespace

LowChillUnits low_chill_of_hour(Celsius mean) {
  return LowChillUnits(weights().weight(mean.degrees()));
}

std::vector<LowChillUnits> low_chill_running_total(const HourlySeries& series, LocalHour from,
                                                   LocalHour to) {
  return running_total<LowChillUnits::measure>(run_on_low_chill, series, from, to);
}

void run_on_low_chill(const KnownHours& hours, ChillState& state, std::span<double> curve) {
  const StepTable& table = weights();
  run_over(hours, state.total, curve,
           [&](double celsius, std::int32_t) { state.total += table.weight(celsius); });
}

}  // namespace winterfolio
