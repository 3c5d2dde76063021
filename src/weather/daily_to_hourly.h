// Hours between a day's lowest and highest temperature: old records hold nothing else, and chill is
// counted in hours.
//
// Linvill's curve: from sunrise a sine that peaks two hours after noon, from sunset a logarithm
// down to the next morning's minimum at sunrise.
//
//   maximum        .-.
//                 .   .
//                .     .  sunset
//               .        ' . .
//   minimum    .               ' ' - - . . _   next minimum
//           sunrise                         sunrise
#pragma once

#include "weather/daily_series.h"
#include "weather/hourly_series.h"

namespace winterfolio {

/// Hourly temperatures at 0, 1, ... 23 hours of local solar time for every day that has both
/// extremes.
///
/// days      minimum and maximum of each day [°C]
/// latitude  degrees, south negative; day length by FAO-56
/// returns   24 hours a day, origin daily_extremes, lowest equal to the mean; hours that would need
/// a missing day's
///           extremes fall back on the day's own: the first morning uses its own afternoon, the
///           last night its own minimum
/// gaps      a day without extremes has 24 missing hours
/// edges     day of 23 hours or more: the sine only; no day at all: a sine from minimum at midnight
/// to maximum at noon;
///           in the first hour after sunset, where the logarithm would rise, sunset's temperature
///           holds
/// source    Linvill 1990, HortScience 25:14-16; tests/published/linvill_check_hourly.csv
HourlySeries hourly_from_daily(const DailySeries& days, double latitude);

/// Minimum and maximum of each day that has all its 24 hours, from the hours' means: what a daily
/// record would have kept, so that an hourly winter can be compared with daily ones.
DailySeries daily_from_hourly(const HourlySeries& hours);

}  // namespace winterfolio
