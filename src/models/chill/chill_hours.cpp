// Counts hours at or below 45 °F.
#include "models/chill/chill_hours.h"

#include "models/chill/step_table.h"

namespace winterfolio {
namespace {

const StepTable& weights() {
  static const StepTable table("src/models/chill/tables/chill_hours.csv");
  return table;
}

}  // namespace

ChillHours chill_hours_of_hour(Celsius mean) {
  return ChillHours(weights().weight(mean.degrees()));
}

std::vector<ChillHours> chill_hours_running_total(const HourlySeries& series, LocalHour from,
                                                  LocalHour to) {
  return running_total<ChillHours::measure>(run_on_chill_hours, series, from, to);
}

void run_on_chill_hours(const KnownHours& hours, ChillState& state, std::span<double> curve) {
  const StepTable& table = weights();
  run_over(hours, state.total, curve,
           [&](double celsius, std::int32_t) { state.total += table.weight(celsius); });
}

}  // namespace winterfolio
