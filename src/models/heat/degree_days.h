// Growing degree days from a day's lowest and highest temperature, in the two readings of one
// formula that are in use.
#pragma once

#include <optional>

#include "weather/daily_series.h"

namespace winterfolio {

enum class DegreeDayMethod {
  mean_then_base,      ///< the day's mean less the base, not below nought
  extremes_then_mean,  ///< extremes below the base count as the base; then the mean less the base
};

/// Degree days of one day. The methods differ when the base lies between the extremes: the first
/// then gives less. Source: McMaster, G.S. & Wilhelm, W.W. 1997. Growing degree-days: one equation,
/// two interpretations. Agric. For. Meteorol. 87:291-300.
GrowingDegreeDays degree_days(DailyExtremes day, Celsius base, DegreeDayMethod method);

/// Sum over the days of [from, last]; a day without extremes adds nothing.
GrowingDegreeDays degree_days(const DailySeries& series, Date from, Date last, Celsius base,
                              DegreeDayMethod method);

}  // namespace winterfolio
