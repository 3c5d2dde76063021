// Adds up Utah units day by day, days below nought as nought.
#include "models/chill/utah_daily_positive.h"

#include <algorithm>

#include "models/chill/step_table.h"
#include "models/constants.h"

namespace winterfolio {
namespace {

const StepTable& weights() {
  static const StepTable table("src/models/chill/tables/utah.csv");
  return table;
}

double least_of_a_day() {
  static const double least =
      constant("src/models/chill/tables/utah_daily_positive.csv", "least_units_of_a_day");
  return least;
}

}  // namespace

std::vector<UtahDailyPositiveUnits> utah_daily_positive_running_total(const HourlySeries& series,
                                                                      LocalHour from,
                                                                      LocalHour to) {
  return running_total<ChillMeasure::utah_daily_positive>(run_on_utah_daily_positive, series, from,
                                                          to);
}

void run_on_utah_daily_positive(const KnownHours& hours, ChillState& state,
                                std::span<double> curve) {
  const StepTable& table = weights();
  const double least = least_of_a_day();
  const std::int32_t into_day = hours.from().hour_of_day();
  std::int32_t day_ends =
      into_day == 0 ? 0
                    : 24 - into_day;  // places from here on belong to a later day than `carried`
  double days_before = state.total - std::max(least, state.carried);
  run_over(hours, state.total, curve, [&](double celsius, std::int32_t place) {
    if (place >= day_ends) {
      days_before += std::max(least, state.carried);
      state.carried = 0.0;
      day_ends += 24 * ((place - day_ends) / 24 + 1);
    }
    state.carried += table.weight(celsius);
    state.total = days_before + std::max(least, state.carried);
  });
  if (hours.hours() > day_ends)
    state.carried = 0.0;  // the stretch ends on a later day, of which nothing is known
}

}  // namespace winterfolio
