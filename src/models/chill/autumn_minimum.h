// From which day Utah units are counted for a verdict: the day after their running sum is at its
// lowest in autumn, for warm autumn days take away what no tree ever had.
#pragma once

#include <optional>

#include "weather/hourly_series.h"

namespace winterfolio {

/// The day on which counting begins: the one after the last day on which the running sum of daily
/// Utah units, counted from `from`, is lowest; `from` itself if the sum never falls below nought.
/// Days are looked at through `last`. Nothing where the series has no reading on those days.
/// Source: Richardson, Seeley & Walker 1974 (from memory).
std::optional<Date> utah_start(const HourlySeries& series, Date from, Date last);

/// Days on which the search begins and ends, for the winter that begins in `year`: 1 September to
/// 31 December, south of the equator 1 March to 30 June (decided here: later a low sum is a warm
/// spell, not autumn).
struct AutumnDays {
  Date from;
  Date last;
};
AutumnDays autumn_days(bool southern, int year);

}  // namespace winterfolio
