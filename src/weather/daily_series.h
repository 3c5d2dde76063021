// Days with their lowest and highest temperature, as most old records have them.
#pragma once

#include <optional>
#include <vector>

#include "base/dates.h"
#include "base/units.h"

namespace winterfolio {

struct DailyExtremes {
  Celsius minimum;
  Celsius maximum;  ///< never under the minimum
};

/// Consecutive days from first(); a day without both extremes is there, but empty.
class DailySeries {
 public:
  bool empty() const { return days_.empty(); }
  int size() const { return static_cast<int>(days_.size()); }
  Date first() const { return first_; }
  Date last() const { return plus_days(first_, size() - 1); }  ///< Requires: not empty
  /// The day's extremes; nothing where they are missing or the day lies outside the series.
  std::optional<DailyExtremes> at(Date day) const;
  /// Sets one day, growing the series with missing days as needed, at either end.
  void set(Date day, std::optional<DailyExtremes> extremes);

 private:
  Date first_ = date_of(1970, 1, 1);
  std::vector<std::optional<DailyExtremes>> days_;
};

}  // namespace winterfolio
