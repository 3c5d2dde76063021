// From a value or a moment to its place on paper, and back. Insides of charts are reckoned in plain
// points [pt].
#pragma once

#include "base/dates.h"

namespace winterfolio {

/// A straight scale. Either end may be the larger, in values and on paper.
struct Scale {
  double from = 0.0;  ///< value
  double to = 1.0;
  double at_from = 0.0;  ///< its place [pt]
  double at_to = 1.0;
  constexpr double operator()(double value) const {
    return to == from ? at_from : at_from + (value - from) / (to - from) * (at_to - at_from);
  }
  constexpr double value_at(double place) const {
    return at_to == at_from ? from : from + (place - at_from) / (at_to - at_from) * (to - from);
  }
};

/// Days along an axis: the first begins at `left`, the last ends at `right`.
struct TimeScale {
  Date first{};
  Date last{};
  double left = 0.0;
  double right = 1.0;

  int days() const { return days_between(first, last) + 1; }
  double day_width() const { return (right - left) / days(); }
  double operator()(Date date) const {
    return left + day_width() * days_between(first, date);
  }  ///< where it begins
  double operator()(LocalHour hour) const {
    return left + day_width() * (hour - LocalHour::at(first, 0)) / 24.0;
  }
  double middle(Date date) const { return (*this)(date) + day_width() / 2.0; }
  double end(Date date) const { return (*this)(date) + day_width(); }
  bool holds(Date date) const { return date >= first && date <= last; }
  /// A place held within the axis.
  double clamped(double place) const { return place < left ? left : place > right ? right : place; }
};

}  // namespace winterfolio
