// Round numbers for an axis: steps of 1, 2 or 5 times a power of ten, as close as the room allows
// and no closer.
#pragma once

#include <vector>

#include "base/units.h"

namespace winterfolio {

struct Ticks {
  std::vector<double> values;  ///< all within the range, rising
  double step = 1.0;
  int decimals = 0;  ///< that the labels need
};

/// Round values within [low, high] that stand at least `least` apart on an axis `room` long.
/// Requires: low < high, room and least positive. At least one value wherever the range holds a
/// round one.
Ticks ticks(double low, double high, Length room, Length least);

/// The lowest round value at or above `high`, so that an axis from `low` can end on a tick.
double round_end(double low, double high, Length room, Length least);

}  // namespace winterfolio
