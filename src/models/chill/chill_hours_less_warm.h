// Chill hours between 32 and 45 °F less the hours above 60 °F: a grower's rule for winters with
// warm spells. The total can fall, and in a warm place below nought.
#pragma once

#include "models/chill/running_total.h"

namespace winterfolio {

/// Units of one hour with mean temperature `mean`. Source: tables/chill_hours_less_warm.csv.
ChillHoursLessWarm chill_hours_less_warm_of_hour(Celsius mean);

/// Running total from nought, one value for each hour of [from, to); element i includes hour i. A
/// missing hour adds nothing: callers say how many there were.
std::vector<ChillHoursLessWarm> chill_hours_less_warm_running_total(const HourlySeries& series,
                                                                    LocalHour from, LocalHour to);

/// The measure's row in the registry.
void run_on_chill_hours_less_warm(const KnownHours& hours, ChillState& state,
                                  std::span<double> curve);

}  // namespace winterfolio
