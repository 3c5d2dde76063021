// Finds the low point of the autumn's Utah sum.
#include "models/chill/autumn_minimum.h"

#include "models/chill/tally.h"

namespace winterfolio {

std::optional<Date> utah_start(const HourlySeries& series, Date from, Date last) {
  const KnownHours hours(series, LocalHour::at(from, 0), LocalHour::at(last, 0) + 24);
  if (hours.celsius().empty()) return std::nullopt;
  const std::vector<double> sums = chill_curve(ChillMeasure::utah, hours).by_day();
  double lowest = 0.0;
  int days_passed = 0;
  for (std::size_t day = 0; day < sums.size(); ++day) {
    if (sums[day] < 0.0 && sums[day] <= lowest) {
      lowest = sums[day];
      days_passed = static_cast<int>(day) + 1;
    }
  }
  return plus_days(from, days_passed);
}

AutumnDays autumn_days(bool southern, int year) {
  if (southern) return {date_of(year, 3, 1), date_of(year, 6, 30)};
  return {date_of(year, 9, 1), date_of(year, 12, 31)};
}

}  // namespace winterfolio
