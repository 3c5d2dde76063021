// Two thermometers' hours as one series: the one named first is believed, the other only fills its
// missing hours.
#pragma once

#include <cstdint>

#include "weather/hourly_series.h"

namespace winterfolio {

/// What joining found where both had a temperature.
struct SharedHours {
  std::int32_t shared = 0;     ///< hours both have
  std::int32_t differing = 0;  ///< of them, by more than 0.05 °C
  double largest = 0.0;        ///< largest difference [°C]
  std::int32_t added = 0;      ///< hours taken from the second
};

/// Adds to `first` every hour that only `second` has.
SharedHours join_series(HourlySeries& first, const HourlySeries& second);

}  // namespace winterfolio
