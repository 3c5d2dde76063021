// Counts hours between 32 and 45 °F.
#include "models/chill/chill_hours_32_45.h"

#include "models/chill/step_table.h"

namespace winterfolio {
namespace {

const StepTable& weights() {
  static const StepTable table("src/models/chill/tables/chill_hours_32_45.csv");
  return table;
}

}  // namespace

ChillHours32To45 chill_hours_32_45_of_hour(Celsius mean) {
  return ChillHours32To45(weights().weight(mean.degrees()));
}

std::vector<ChillHours32To45> chill_hours_32_45_running_total(const HourlySeries& series,
                                                              LocalHour from, LocalHour to) {
  return running_total<ChillHours32To45::measure>(run_on_chill_hours_32_45, series, from, to);
}

void run_on_chill_hours_32_45(const KnownHours& hours, ChillState& state, std::span<double> curve) {
  const StepTable& table = weights();
  run_over(hours, state.total, curve,
           [&](double celsius, std::int32_t) { state.total += table.weight(celsius); });
}

}  // namespace winterfolio
