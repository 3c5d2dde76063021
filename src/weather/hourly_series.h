// A run of clock hours with their air temperatures: what every measure of cold and warmth is worked
// out from.
//
// Hours are consecutive from first(); an hour without a temperature is there, but empty, so that
// holes keep their length. Times are local standard time. Beside the mean, the lowest reading
// within the hour is kept for frost.
#pragma once

#include <cstdint>
#include <optional>
#include <vector>

#include "base/dates.h"
#include "base/units.h"

namespace winterfolio {

/// Where an hour's temperature came from.
enum class HourOrigin : std::uint8_t {
  missing,         ///< no temperature
  observed,        ///< mean of readings stamped within the hour
  line,            ///< up to three missing hours, bridged by a straight line
  nearby,          ///< from a nearby station, through a fitted offset
  daily_extremes,  ///< Linvill's curve through the day's minimum and maximum
  forecast,
};

struct HourReading {
  Celsius mean;
  Celsius lowest;
  HourOrigin origin;
};

class HourlySeries {
 public:
  HourlySeries() = default;
  explicit HourlySeries(LocalHour first) : first_(first) {}

  bool empty() const { return mean_.empty(); }
  /// Number of hours from first() to the last one, missing ones included.
  std::int32_t size() const { return static_cast<std::int32_t>(mean_.size()); }
  LocalHour first() const { return first_; }
  LocalHour last() const { return first_ + (size() - 1); }  ///< Requires: not empty
  LocalHour end() const { return first_ + size(); }         ///< one past the last

  /// The hour's reading; nothing where it is missing or outside the series.
  std::optional<HourReading> at(LocalHour hour) const {
    const auto i =
        static_cast<std::size_t>(hour - first_);  // before first(): wraps to beyond the end
    if (i >= mean_.size() || origin_[i] == HourOrigin::missing) return std::nullopt;
    return HourReading{Celsius(mean_[i]),
                       Celsius(mean_[i] - static_cast<double>(lowest_below_mean_[i])), origin_[i]};
  }

  /// Sets one hour, growing the series with missing hours as needed, at either end.
  void set(LocalHour hour, HourReading reading);
  /// Takes an hour's temperature away; the hour itself stays.
  void clear(LocalHour hour);

  /// Hours without a temperature in [from, to), those outside the series counted as missing.
  std::int32_t missing_in(LocalHour from, LocalHour to) const;
  /// Hours of one origin in [from, to).
  std::int32_t count_in(LocalHour from, LocalHour to, HourOrigin origin) const;

  void reserve(std::int32_t hours);

 private:
  LocalHour first_;
  std::vector<double> mean_;
  std::vector<float> lowest_below_mean_;  ///< mean - lowest [°C], never negative
  std::vector<HourOrigin> origin_;
};

/// Bridges holes of at most `longest` hours between two known hours by a straight line; returns how
/// many hours it set.
std::int32_t fill_short_gaps(HourlySeries& series, std::int32_t longest = 3);

}  // namespace winterfolio
