// How far from its middle what a gap held may lie, judged by the other winters alone.
//
// The spread of a day's gain over the other winters, and how long one cold or mild day keeps
// company, give the spread of any set of days: every day adds its own and what it shares with each
// other day, and nothing is ever taken off. So an hour that comes to be known can only narrow it,
// whatever it was.
//
//   spread^2 = sum over all pairs i, j of missing days:  w_i s_i  w_j s_j  rho^|i-j|
//
//   w_i  square root of the share of the day that is missing: were its hours to go their own ways,
//        a part would spread so much of the whole; more so than in truth, where they go together
//   s_i  standard deviation of the day's gain over the other winters: of the week around it, shared
//        out to its seven days as the same formula has it
//   rho  kLikeTheDayBefore
#pragma once

#include <optional>
#include <span>
#include <vector>

#include "findings/weather_record.h"
#include "models/chill/registry.h"

namespace winterfolio {

/// How much of a day's departure from the usual the next day keeps. Over six hourly winters in a
/// Dublin park and 48 daily ones in New York, daily gains keep five to seven tenths by the measures
/// that weigh each hour, two days on two to five; portions, banked one at a time, keep none. The
/// most is taken, so that gaps of weeks are not told too narrowly.
inline constexpr double kLikeTheDayBefore = 0.7;

/// Half the width of the range that holds nineteen of twenty, at the end of each day: for a draw
/// from a few winters, by Student's t.
///
/// counted_from   the day from which the measure is counted in `winter`
/// missing_by_day  missing hours from counted_from to the end of each day
/// returns        one for each day; nothing on a day up to which hours are missing that fewer than
///                two other winters can speak for; 0 where none is missing
std::vector<std::optional<double>> gap_half_widths(ChillMeasure measure,
                                                   const WeatherRecord& record,
                                                   const Winter& winter,
                                                   std::span<const Winter> others,
                                                   Date counted_from,
                                                   std::span<const std::int32_t> missing_by_day);

/// tables/student_t.csv; the row at or below. Requires: degrees_of_freedom >= 1.
double student_t(int degrees_of_freedom);

}  // namespace winterfolio
