// Chill hours between 32 and 45 °F, both counted: the count that leaves freezing hours out. The
// total never falls.
#pragma once

#include "models/chill/running_total.h"

namespace winterfolio {

/// Units of one hour with mean temperature `mean`. Source: tables/chill_hours_32_45.csv.
ChillHours32To45 chill_hours_32_45_of_hour(Celsius mean);

/// Running total from nought, one value for each hour of [from, to); element i includes hour i. A
/// missing hour adds nothing: callers say how many there were.
std::vector<ChillHours32To45> chill_hours_32_45_running_total(const HourlySeries& series,
                                                              LocalHour from, LocalHour to);

/// The measure's row in the registry.
void run_on_chill_hours_32_45(const KnownHours& hours, ChillState& state, std::span<double> curve);

}  // namespace winterfolio
