// Adds up growing degree days.
#include "models/heat/degree_days.h"

#include <algorithm>

namespace winterfolio {

GrowingDegreeDays degree_days(DailyExtremes day, Celsius base, DegreeDayMethod method) {
  double low = day.minimum.degrees();
  double high = day.maximum.degrees();
  if (method == DegreeDayMethod::extremes_then_mean) {
    low = std::max(low, base.degrees());
    high = std::max(high, base.degrees());
  }
  return GrowingDegreeDays(std::max(0.0, (low + high) / 2.0 - base.degrees()));
}

GrowingDegreeDays degree_days(const DailySeries& series, Date from, Date last, Celsius base,
                              DegreeDayMethod method) {
  double sum = 0.0;
  for (Date day = from; day <= last; day = plus_days(day, 1)) {
    if (const auto extremes = series.at(day))
      sum += degree_days(*extremes, base, method).degree_days();
  }
  return GrowingDegreeDays(sum);
}

}  // namespace winterfolio
