// Notices that the stamps of a file follow summer time though nothing says so: on the night on
// which clocks go forward an hour is missing, and nothing else is.
#pragma once

#include <optional>

#include "base/time_zone.h"
#include "weather/hourly_series.h"

namespace winterfolio {

/// The first hour that the stamps of `hours` skip as a wall clock does in spring; nothing where
/// they show no sign of that.
///
/// hours  as stamped, before any hole is filled
/// zone   known: every night on which its clocks go forward must show the hole, and no other hour
///        of it a reading. Not known: a lone hole between midnight and four on a Sunday of March,
///        April, September or October, in a file with hardly another
/// ends   stamps tell the end of their hour, so that the hole stands an hour earlier
std::optional<LocalHour> hour_skipped_in_spring(const HourlySeries& hours,
                                                const std::optional<TimeZone>& zone, bool ends);

}  // namespace winterfolio
