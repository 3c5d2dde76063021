// Utah chill units: each hour is weighted by how well its temperature breaks rest.
//
// Warm hours count against the winter, so the total can fall, and depends on the day from which it
// is counted (see autumn_minimum.h). In mild winters read portions instead.
#pragma once

#include "models/chill/running_total.h"

namespace winterfolio {

/// Units of one hour with mean temperature `mean`. Source: tables/utah.csv.
UtahUnits utah_of_hour(Celsius mean);

/// The same by the whole-degree Fahrenheit table, whose edges lie a little elsewhere: 65 °F takes a
/// half here and one there. Source: tables/utah_fahrenheit.csv.
UtahUnits utah_of_hour_by_fahrenheit_table(Celsius mean);

/// Running total from nought, one value for each hour of [from, to); element i includes hour i. A
/// missing hour adds nothing: callers say how many there were.
std::vector<UtahUnits> utah_running_total(const HourlySeries& series, LocalHour from, LocalHour to);
std::vector<UtahUnits> utah_running_total_by_fahrenheit_table(const HourlySeries& series,
                                                              LocalHour from, LocalHour to);

/// The measure's row in the registry.
void run_on_utah(const KnownHours& hours, ChillState& state, std::span<double> curve);

}  // namespace winterfolio
