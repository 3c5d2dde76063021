#include "drawing/path.h"

#include <algorithm>

namespace winterfolio {

Path& Path::move_to(Point to) {
  verbs_.push_back(Verb::move);
  points_.push_back(to);
  return *this;
}

Path& Path::line_to(Point to) {
  verbs_.push_back(Verb::line);
  points_.push_back(to);
  return *this;
}

Path& Path::curve_to(Point control1, Point control2, Point to) {
  verbs_.push_back(Verb::curve);
  points_.insert(points_.end(), {control1, control2, to});
  return *this;
}

Path& Path::close() {
  verbs_.push_back(Verb::close);
  return *this;
}

Rect Path::bounds() const {
  if (points_.empty()) return {};
  Length left = points_.front().x, right = left, top = points_.front().y, bottom = top;
  for (const Point& p : points_) {
    left = std::min(left, p.x);
    right = std::max(right, p.x);
    top = std::min(top, p.y);
    bottom = std::max(bottom, p.y);
  }
  return {{left, top}, {right - left, bottom - top}};
}

void Path::translate(Point by) {
  for (Point& p : points_) p = p + by;
}

Path line_path(Point from, Point to) {
  Path path;
  path.move_to(from).line_to(to);
  return path;
}

Path polyline_path(std::span<const Point> points, bool closed) {
  Path path;
  if (points.size() < 2) return path;
  path.move_to(points.front());
  for (const Point& p : points.subspan(1)) path.line_to(p);
  if (closed) path.close();
  return path;
}

Path rectangle_path(Rect rect) {
  Path path;
  path.move_to(rect.at)
      .line_to({rect.right(), rect.top()})
      .line_to({rect.right(), rect.bottom()})
      .line_to({rect.left(), rect.bottom()})
      .close();
  return path;
}

Path circle_path(Point centre, Length radius) {
  // A quarter circle as one Bézier: the control arm that puts the middle of the curve exactly on
  // the circle.
  const Length arm = radius * 0.5522847498;
  const auto at = [&](Length dx, Length dy) { return Point{centre.x + dx, centre.y + dy}; };
  Path path;
  path.move_to(at(radius, {}))
      .curve_to(at(radius, arm), at(arm, radius), at({}, radius))
      .curve_to(at(-arm, radius), at(-radius, arm), at(-radius, {}))
      .curve_to(at(-radius, -arm), at(-arm, -radius), at({}, -radius))
      .curve_to(at(arm, -radius), at(radius, -arm), at(radius, {}))
      .close();
  return path;
}

}  // namespace winterfolio
