// Places and sizes on paper: the origin is the top left corner of a frame or page, y grows
// downward, as one reads.
#pragma once

#include "base/units.h"

namespace winterfolio {

struct Point {
  Length x;
  Length y;
  constexpr bool operator==(const Point&) const = default;
  constexpr Point operator+(Point other) const { return {x + other.x, y + other.y}; }
  constexpr Point operator-(Point other) const { return {x - other.x, y - other.y}; }
};

struct Size {
  Length width;
  Length height;
  constexpr bool operator==(const Size&) const = default;
};

struct Rect {
  Point at;  ///< its top left corner
  Size size;
  constexpr Length left() const { return at.x; }
  constexpr Length top() const { return at.y; }
  constexpr Length right() const { return at.x + size.width; }
  constexpr Length bottom() const { return at.y + size.height; }
  constexpr bool operator==(const Rect&) const = default;
};

/// A point from bare numbers of points [pt]; for the insides of marks, where units would drown the
/// figure.
constexpr Point pt_at(double x, double y) { return {Length::points(x), Length::points(y)}; }

/// Two lengths that a printer could not tell apart (a fiftieth of a point).
constexpr bool nearly_equal(Length a, Length b) {
  const double difference = a.pt() - b.pt();
  return difference < 0.02 && difference > -0.02;
}

}  // namespace winterfolio
