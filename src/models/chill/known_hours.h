// The hours of a stretch that have a temperature: what every measure of cold runs over.
//
// Holes keep their place: each known hour carries its distance from the start, so that running
// totals have one value for each hour of the stretch and a day stays a day.
#pragma once

#include <cstdint>
#include <span>
#include <vector>

#include "weather/hourly_series.h"

namespace winterfolio {

class KnownHours {
 public:
  /// The hours of `series` in [from, to). Hours outside the series are missing.
  KnownHours(const HourlySeries& series, LocalHour from, LocalHour to);

  /// The same hours, had every one been warmer by so much.
  KnownHours warmer_by(CelsiusDelta delta) const;

  LocalHour from() const { return from_; }
  LocalHour to() const { return to_; }
  std::int32_t hours() const { return to_ - from_; }  ///< known and missing
  std::int32_t missing() const { return hours() - static_cast<std::int32_t>(celsius_.size()); }

  std::span<const double> celsius() const {
    return celsius_;
  }  ///< means of the known hours, in order
  std::span<const std::int32_t> place() const {
    return place_;
  }  ///< hours from `from` to each known hour

 private:
  LocalHour from_;
  LocalHour to_;
  std::vector<double> celsius_;
  std::vector<std::int32_t> place_;
};

}  // namespace winterfolio
