// Days of one thermometer that another can stand in for: how the lowest and the highest of a day
// differ between the two, and the days moved by it.
//
// Nights differ between two places otherwise than noons do, and in some months more than in others:
// each extreme has an offset of its own, by month where enough days of it were read at both.
#pragma once

#include <array>
#include <optional>

#include "base/units.h"
#include "weather/daily_series.h"
#include "weather/hourly_series.h"

namespace winterfolio {

/// How a day's extremes differ between two thermometers, from the days both have.
struct ExtremesFit {
  int shared_days = 0;
  CelsiusDelta minimum{0.0};  ///< of all shared days together: own less the other
  CelsiusDelta maximum{0.0};
  /// Root mean square of what the offsets miss, both extremes together, on days left out of the
  /// fit.
  CelsiusDelta error{0.0};
};

/// What to add to the other's extremes so that they read like one's own.
struct ExtremesOffsets {
  ExtremesFit fit;
  std::array<double, 12> minimum{};  ///< by month [°C]
  std::array<double, 12> maximum{};

  /// A day of the other as it would have been read here; never a minimum over the maximum.
  DailyExtremes moved(Date day, const DailyExtremes& theirs) const;
};

inline constexpr int kFewestSharedDays = 10;

/// The extremes of every day: as a daily thermometer kept them, else from the hours of a day that
/// has all 24.
DailySeries extremes_of(const HourlySeries& hours, const DailySeries& kept);

/// Days that both have.
int shared_days(const DailySeries& own, const DailySeries& theirs);

/// returns  nothing if fewer than kFewestSharedDays days are shared
/// fit      by month from ten shared days on, else one for the year
std::optional<ExtremesOffsets> fit_extremes(const DailySeries& own, const DailySeries& theirs);

struct NearbyDaysFill {
  ExtremesFit fit;
  int filled = 0;  ///< days set
};

/// Sets every missing day of `days` that `nearby` holds, through the fitted offsets, and lengthens
/// it at neither end. Days that are there are never changed.
///
/// own      the days as they were read here, and those whose 24 hours were: the fit is taken from
///          these, and a day known here is not filled
/// nearby   days of the other thermometer
/// returns  nothing, and sets nothing, where fit_extremes() finds no offsets
std::optional<NearbyDaysFill> fill_days_from_nearby(DailySeries& days, const DailySeries& own,
                                                    const DailySeries& nearby);

}  // namespace winterfolio
