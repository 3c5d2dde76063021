// Daily positive Utah units: Utah units added up by the day, and a day below nought counts as
// nought, so that one hot spell cannot undo a winter. Made for the mild winters of southern Africa.
// From day to day the total never falls; within a day it shows the day begun as it stands, if that
// is above nought.
#pragma once

#include "models/chill/running_total.h"

namespace winterfolio {

/// Running total from nought, one value for each hour of [from, to); element i includes hour i.
/// Days are local calendar days; a missing hour adds nothing to its day. Source:
/// tables/utah_daily_positive.csv.
std::vector<UtahDailyPositiveUnits> utah_daily_positive_running_total(const HourlySeries& series,
                                                                      LocalHour from, LocalHour to);

/// The measure's row in the registry.
void run_on_utah_daily_positive(const KnownHours& hours, ChillState& state,
                                std::span<double> curve);

}  // namespace winterfolio
