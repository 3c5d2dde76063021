// Chill hours at or below 45 °F, the count that most planting lists mean. Freezing hours are
// included; warm hours take nothing away, so the total never falls.
#pragma once

#include "models/chill/running_total.h"

namespace winterfolio {

/// Units of one hour with mean temperature `mean`. Source: tables/chill_hours.csv.
ChillHours chill_hours_of_hour(Celsius mean);

/// Running total from nought, one value for each hour of [from, to); element i includes hour i. A
/// missing hour adds nothing: callers say how many there were.
std::vector<ChillHours> chill_hours_running_total(const HourlySeries& series, LocalHour from,
                                                  LocalHour to);

/// The measure's row in the registry.
void run_on_chill_hours(const KnownHours& hours, ChillState& state, std::span<double> curve);

}  // namespace winterfolio
