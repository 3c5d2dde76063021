// Fills long holes of the orchard's own record from a thermometer nearby, once it is known how the
// two differ.
//
// A valley floor is colder than the airport at dawn and warmer at noon, more so in some months than
// in others: the offset is fitted by hour of day and month where both were recorded often enough,
// else more coarsely, and its error is told.
#pragma once

#include <array>
#include <cstdint>
#include <optional>

#include "base/units.h"
#include "weather/daily_series.h"
#include "weather/hourly_series.h"

namespace winterfolio {

/// How one record differs from another, from the hours both observed.
struct NearbyFit {
  std::int32_t shared_hours = 0;
  CelsiusDelta offset{0.0};  ///< of all shared hours together: own minus nearby
  /// Root mean square of what the fitted offset misses, on days that were left out of the fit [°C].
  CelsiusDelta error{0.0};
  std::int32_t fine_hours =
      0;  ///< shared hours whose own hour of day and month had enough for an offset of their own
};

/// What to add to the nearby record's hours so that they read like one's own.
struct NearbyOffsets {
  NearbyFit fit;
  std::array<std::array<double, 24>, 12> own_less_nearby{};  ///< by month and hour of day [°C]

  CelsiusDelta at(LocalHour hour) const;
};

/// Ten days of shared hours.
inline constexpr std::int32_t kFewestShared = 240;

/// own      observed hours only are used, of either record
/// returns  nothing if fewer than kFewestShared hours are shared: an offset from less is a guess
/// fit      by hour of day and month from 30 shared hours on; else by month and hour apart; else
/// one for all
std::optional<NearbyOffsets> fit_nearby(const HourlySeries& own, const HourlySeries& nearby);

struct NearbyFill {
  NearbyFit fit;
  std::int32_t filled = 0;  ///< hours set, origin `nearby`
};

/// Sets every missing hour of `series` that `nearby` holds, through the fitted offset, and
/// lengthens it at neither end.
///
/// series   short holes may be bridged before; hours that are there are never changed
/// nearby   observed hours only are used
/// returns  nothing, and sets nothing, where fit_nearby() finds no offset
std::optional<NearbyFill> fill_from_nearby(HourlySeries& series, const HourlySeries& nearby);

/// The same from a thermometer of which only the days' extremes are known: its hours are drawn by
/// the curve of daily_to_hourly.h. The offset by hour of day also takes out what the curve as a
/// rule misses, and the error tells the rest.
///
/// known     days whose extremes were read here; their hours are left to be drawn from those
/// latitude  of the orchard, degrees, south negative
std::optional<NearbyFill> fill_from_nearby(HourlySeries& series, const DailySeries& nearby,
                                           const DailySeries& known, double latitude);

/// Hours that both observed.
std::int32_t shared_hours(const HourlySeries& a, const HourlySeries& b);

}  // namespace winterfolio
