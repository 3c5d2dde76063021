// Counts hours between 32 and 45 °F and takes off those above 60 °F.
#include "models/chill/chill_hours_less_warm.h"

#include "models/chill/step_table.h"

namespace winterfolio {
namespace {

const StepTable& weights() {
  static const StepTable table("src/models/chill/tables/chill_hours_less_warm.csv");
  return table;
}

}  // namespace

ChillHoursLessWarm chill_hours_less_warm_of_hour(Celsius mean) {
  return ChillHoursLessWarm(weights().weight(mean.degrees()));
}

std::vector<ChillHoursLessWarm> chill_hours_less_warm_running_total(const HourlySeries& series,
                                                                    LocalHour from, LocalHour to) {
  return running_total<ChillHoursLessWarm::measure>(run_on_chill_hours_less_warm, series, from, to);
}

void run_on_chill_hours_less_warm(const KnownHours& hours, ChillState& state,
                                  std::span<double> curve) {
  const StepTable& table = weights();
  run_over(hours, state.total, curve,
           [&](double celsius, std::int32_t) { state.total += table.weight(celsius); });
}

}  // namespace winterfolio
