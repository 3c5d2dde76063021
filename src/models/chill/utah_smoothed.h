// Smoothed Utah units: the Utah model's steps drawn as a sine, nought at freezing, one at 7 °C,
// nought at 14 °C and minus one from 21 °C up. The total can fall. Defined for every temperature.
#pragma once

#include "models/chill/running_total.h"

namespace winterfolio {

/// Units of one hour with mean temperature `mean`. Source: tables/utah_smoothed.csv.
UtahSmoothedUnits utah_smoothed_of_hour(Celsius mean);

/// Running total from nought, one value for each hour of [from, to); element i includes hour i. A
/// missing hour adds nothing: callers say how many there were.
std::vector<UtahSmoothedUnits> utah_smoothed_running_total(const HourlySeries& series,
                                                           LocalHour from, LocalHour to);

/// The measure's row in the registry.
void run_on_utah_smoothed(const KnownHours& hours, ChillState& state, std::span<double> curve);

}  // namespace winterfolio
