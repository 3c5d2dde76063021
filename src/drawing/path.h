// Lines and areas: a path is where the pen goes, a stroke what line it leaves, a fill the ink
// inside.
#pragma once

#include <cstdint>
#include <initializer_list>
#include <optional>
#include <span>
#include <vector>

#include "drawing/colour.h"
#include "drawing/geometry.h"

namespace winterfolio {

/// Lengths of dash and gap in whole points (the PDF library takes no fractions); `on` 0 means a
/// solid line.
struct Dash {
  std::uint16_t on = 0;
  std::uint16_t off = 0;
  constexpr bool operator==(const Dash&) const = default;
};

enum class LineCap : std::uint8_t { butt, round, square };
enum class LineJoin : std::uint8_t { mitre, round, bevel };

struct Stroke {
  Length width;
  Colour colour{};
  Dash dash{};
  LineCap cap = LineCap::butt;
  LineJoin join = LineJoin::mitre;
  constexpr bool operator==(const Stroke&) const = default;
};

/// Where the pen goes. Curves are cubic Béziers. Coordinates are relative to the place the path is
/// put at.
class Path {
 public:
  enum class Verb : std::uint8_t { move, line, curve, close };  ///< they take 1, 1, 3 and 0 points

  Path& move_to(Point to);
  Path& line_to(Point to);
  Path& curve_to(Point control1, Point control2, Point to);
  Path& close();

  bool empty() const { return verbs_.empty(); }
  std::span<const Verb> verbs() const { return verbs_; }
  std::span<const Point> points() const { return points_; }
  /// The box around all points (control points too).
  Rect bounds() const;
  void translate(Point by);

 private:
  std::vector<Verb> verbs_;
  std::vector<Point> points_;
};

/// Straight from `from` to `to`.
Path line_path(Point from, Point to);
/// Through the points in order; closed if asked. Empty for fewer than two points.
Path polyline_path(std::span<const Point> points, bool closed = false);
Path rectangle_path(Rect rect);
Path circle_path(Point centre, Length radius);

/// A path as drawn: filled, stroked or both (fill first).
struct DrawnPath {
  Path path;
  std::optional<Colour> fill;
  std::optional<Stroke> stroke;
};

}  // namespace winterfolio
