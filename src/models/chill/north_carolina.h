// North Carolina units, made for apple: like Utah units, but very warm hours take away up to two.
// The total can fall. The table is from memory, and pages that use it say so.
#pragma once

#include "models/chill/running_total.h"

namespace winterfolio {

/// Units of one hour with mean temperature `mean`. Source: tables/north_carolina.csv.
NorthCarolinaUnits north_carolina_of_hour(Celsius mean);

/// Running total from nought, one value for each hour of [from, to); element i includes hour i. A
/// missing hour adds nothing: callers say how many there were.
std::vector<NorthCarolinaUnits> north_carolina_running_total(const HourlySeries& series,
                                                             LocalHour from, LocalHour to);

/// The measure's row in the registry.
void run_on_north_carolina(const KnownHours& hours, ChillState& state, std::span<double> curve);

}  // namespace winterfolio
