// Gathers the minimum and maximum of days, which may stand in any order, on one line or on two.
#pragma once

#include <cstdint>
#include <map>
#include <optional>
#include <utility>

#include "readers/temperature/hour_collector.h"
#include "weather/daily_series.h"

namespace winterfolio {

class DayCollector {
 public:
  explicit DayCollector(TemperatureUnit unit) : limits_(PartsLimits::of(unit)) {}

  void add_minimum(std::int32_t day, std::int64_t parts, std::int64_t line) {
    add(false, day, parts, line);
  }
  void add_maximum(std::int32_t day, std::int64_t parts, std::int64_t line) {
    add(true, day, parts, line);
  }

  std::int64_t faults() const { return impossible_ + duplicates_; }
  std::int64_t impossible() const { return impossible_; }
  std::int64_t impossible_high() const { return impossible_high_; }
  std::int64_t impossible_kelvin() const { return impossible_kelvin_; }
  std::int64_t duplicates() const { return duplicates_; }
  std::int64_t differing() const { return differing_; }
  FirstPlace first_impossible() const { return first_impossible_; }
  FirstPlace first_duplicate() const { return first_duplicate_; }
  FirstPlace first_inverted() const { return first_inverted_; }
  std::int64_t inverted() const { return inverted_; }
  double walked() const { return walked_; }
  std::int64_t minima() const { return minima_; }
  std::int64_t maxima() const { return maxima_; }

  /// Share of the cooler half-year's days whose middle, as written, lies between 30 and 70.
  double share_between_30_and_70() const;

  /// Sets days aside whose minimum is over their maximum. Call once, before the others below.
  void finish();
  DailySeries series(TemperatureUnit unit) const;
  /// The days of the one extreme that the file holds.
  std::map<std::int32_t, Celsius> half(bool maximum, TemperatureUnit unit) const;
  std::int64_t complete_days() const;
  std::optional<std::int32_t> first_day() const;  ///< with all that the file holds of a day
  std::optional<std::int32_t> last_day() const;
  std::int64_t line_of(std::int32_t day) const;

 private:
  struct Day {
    std::optional<std::int64_t> minimum;
    std::optional<std::int64_t> maximum;
    std::int64_t line = 0;
    bool complete() const { return minimum && maximum; }
  };
  void add(bool maximum, std::int32_t day, std::int64_t parts, std::int64_t line);

  PartsLimits limits_;
  std::map<std::int32_t, Day> days_;
  std::int64_t impossible_ = 0;
  std::int64_t impossible_high_ = 0;
  std::int64_t impossible_kelvin_ = 0;
  std::int64_t duplicates_ = 0;
  std::int64_t differing_ = 0;
  std::int64_t inverted_ = 0;
  std::pair<std::int32_t, std::int64_t> last_duplicate_{INT32_MIN, 0};
  bool last_differs_ = false;
  std::int64_t minima_ = 0;
  std::int64_t maxima_ = 0;
  std::optional<std::int32_t> last_added_;
  double walked_ = 0.0;
  FirstPlace first_impossible_;
  FirstPlace first_duplicate_;
  FirstPlace first_inverted_;
};

}  // namespace winterfolio
