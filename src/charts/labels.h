// Labels that do not run into each other: a column of them beside an axis, moved as little as
// possible, and single ones that look for a free place near what they name.
#pragma once

#include <optional>
#include <span>
#include <vector>

#include "drawing/geometry.h"

namespace winterfolio {

/// Moves a column of labels apart: each as near as can be (by squares of the moves, taken together)
/// to where it wants to be, in the same order, at least `gap` apart, all within [low, high]. Pool
/// adjacent violators, isotonic regression.
///
/// wanted   places in rising order [pt]
/// Requires: wanted is sorted and (n - 1) * gap fits between low and high, else the gap shrinks
/// until it does.
std::vector<double> pool_labels(std::span<const double> wanted, double gap, double low,
                                double high);

/// Where things already are, so that words find a free place. All in one frame's coordinates [pt].
class FreeRoom {
 public:
  explicit FreeRoom(Rect bounds) : bounds_(bounds) {}
  void occupy(Rect box) { boxes_.push_back(box); }
  /// A line that words may not cross.
  void occupy_line(std::span<const Point> line);
  /// Whether a box lies within the bounds, clear of everything by `air`.
  bool is_free(Rect box, Length air) const;
  /// Whether a straight line meets any occupied box.
  bool meets_box(Point from, Point to) const;
  /// The first of `places` (top left corners, the best first) where a box of this size is free; it
  /// is then occupied.
  std::optional<Rect> take(std::span<const Point> places, Size size, Length air);

 private:
  struct Segment {
    Point from, to;
  };
  Rect bounds_;
  std::vector<Rect> boxes_;
  std::vector<Segment> segments_;
};

/// Whether a straight line touches a box.
bool crosses(Point from, Point to, Rect box);
bool overlap(Rect a, Rect b);
Rect grown(Rect box, Length by);

}  // namespace winterfolio
