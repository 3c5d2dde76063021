// The cold of a stretch of hours by all nine measures at once, and by one measure hour by hour or
// day by day.
#pragma once

#include <array>
#include <optional>
#include <vector>

#include "models/chill/chill_amount.h"
#include "models/chill/registry.h"
#include "models/chill/running_total.h"

namespace winterfolio {

/// The totals of all measures over one stretch, and where each stands at its end.
class ChillTally {
 public:
  std::int32_t hours = 0;          ///< known and missing
  std::int32_t missing_hours = 0;  ///< add nothing; the Dynamic Model holds its state over them

  template <ChillMeasure M>
  Chill<M> total() const {
    return Chill<M>(state(M).total);
  }
  ChillAmount total(ChillMeasure measure) const { return {measure, state(measure).total}; }
  const ChillState& state(ChillMeasure measure) const {
    return states[static_cast<std::size_t>(measure)];
  }

  std::array<ChillState, kChillMeasureCount> states{};  ///< in the order of the measures
};

/// Tallies [from, to), or runs `start` on over it; `start` must end at `from`.
ChillTally tally_chill(const HourlySeries& series, LocalHour from, LocalHour to,
                       const ChillTally& start = {});

/// One measure's running total over consecutive hours.
class ChillCurve {
 public:
  ChillCurve(ChillMeasure measure, LocalHour from, std::vector<double> totals, ChillState start,
             ChillState end)
      : measure_(measure), from_(from), totals_(std::move(totals)), start_(start), end_(end) {}

  ChillMeasure measure() const { return measure_; }
  LocalHour from() const { return from_; }
  LocalHour to() const { return from_ + static_cast<std::int32_t>(totals_.size()); }
  /// The total once the hours before `hour` have passed; the start's before the curve, the last one
  /// after it.
  ChillAmount before(LocalHour hour) const;
  /// The total at midnight after `day`.
  ChillAmount end_of(Date day) const { return before(LocalHour::at(day, 0) + 24); }
  /// One total for each day of the curve, at the day's end, the last day as far as the curve goes.
  std::vector<double> by_day() const;
  const std::vector<double>& by_hour() const { return totals_; }
  const ChillState& end_state() const { return end_; }

 private:
  ChillMeasure measure_;
  LocalHour from_;
  std::vector<double> totals_;  ///< in the measure's units
  ChillState start_;
  ChillState end_;
};

ChillCurve chill_curve(ChillMeasure measure, const HourlySeries& series, LocalHour from,
                       LocalHour to, ChillState start = {});
ChillCurve chill_curve(ChillMeasure measure, const KnownHours& hours, ChillState start = {});

}  // namespace winterfolio
