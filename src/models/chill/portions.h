// Chill portions by the Dynamic Model: cold first makes an intermediate that warmth can undo; once
// enough of it has gathered, a portion is banked for good. The total never falls.
//
// Step 1, within an hour of constant temperature: the intermediate x follows dx/dt = k0 - k1 x, so
// that
//   x_end = xs - (xs - x_start) exp(-k1),  xs = k0 / k1,  k0 = a0 exp(-e0/TK),  k1 = a1
//   exp(-e1/TK).
// Step 2, at the end of the hour: where x_end has reached 1, the share xi = sr / (1 + sr) of it is
// banked and the rest is
//   left, sr = exp(slope Tf (TK - Tf) / TK). TK is °C + 273, the offset that goes with Tf = 277 K.
// x starts at nought, and the first reading acts for one hour. A missing hour leaves x as it is.
// Holds for every temperature air can have; the constants were fitted to peach, 0 to 24 °C.
#pragma once

#include "models/chill/running_total.h"

namespace winterfolio {

/// What one hour of a given temperature does, worked out once, so that a winter can be run on from
/// many states.
struct DynamicHour {
  double steady = 0.0;  ///< xs, the intermediate's level at rest
  double kept = 1.0;    ///< exp(-k1), the share of the way to it that is not gone in the hour
  double banked = 0.0;  ///< xi, the share that goes into the bank when the threshold is reached
};

DynamicHour dynamic_hour(Celsius mean);

/// The hours of a stretch as the Dynamic Model sees them; missing ones are left out, for they hold
/// its state.
std::vector<DynamicHour> dynamic_hours(const KnownHours& hours);

/// Runs on over `hours` from `state` (total: portions; carried: x).
ChillState run_on_dynamic(std::span<const DynamicHour> hours, ChillState state);

/// Running total from nought, one value for each hour of [from, to); element i includes hour i.
std::vector<ChillPortions> portions_running_total(const HourlySeries& series, LocalHour from,
                                                  LocalHour to);

/// The measure's row in the registry.
void run_on_portions(const KnownHours& hours, ChillState& state, std::span<double> curve);

}  // namespace winterfolio
