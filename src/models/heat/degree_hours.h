// Warmth that drives buds once rest has ended, hour by hour, in two published forms. Figures found
// with one form never go with the other.
#pragma once

#include "weather/hourly_series.h"

namespace winterfolio {

/// The straight form: degrees above 4.5 °C, 20.5 at 25 °C and over. Source:
/// heat/tables/degree_hours_linear.csv.
GrowingDegreeHours linear_degree_hours(Celsius mean);

/// The curved form: a half cosine up to 25 °C, another down to 36 °C, nought outside 4 to 36 °C.
/// Its stress factor is kept at 1. Source: heat/tables/degree_hours_curved.csv.
GrowingDegreeHours curved_degree_hours(Celsius mean);

using DegreeHoursOfHour = GrowingDegreeHours (*)(Celsius mean);

/// Sum over the known hours of [from, to); a missing hour adds nothing. Two halves of a stretch add
/// up to the whole.
GrowingDegreeHours degree_hours(const HourlySeries& series, LocalHour from, LocalHour to,
                                DegreeHoursOfHour of_hour = linear_degree_hours);

}  // namespace winterfolio
