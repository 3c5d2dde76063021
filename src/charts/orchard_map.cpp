// Where the trees stand: a small one for a card, on which one tree is black, and a large one with
// every tree's name, the grounds that are spoken of, north and a scale.
#include <algorithm>
#include <cmath>

#include "charts/kinds.h"
#include "charts/labels.h"
#include "charts/marks.h"

namespace winterfolio {
namespace {

using Area = OrchardMap::Area;
using Tree = OrchardMap::Tree;

/// A tree's id may stand close to a ring; another tree's id or name stays further off.
constexpr Length kAirAboutIds = Length::points(0.6);
constexpr Length kTextGap = Length::points(1.8);  // round letters stand a little over capitals

/// From places on the ground to places on paper, true to scale where the ground was measured.
struct Ground {
  double west = 0.0, south = 0.0, scale_x = 1.0, scale_y = 1.0, left = 0.0, bottom = 0.0;
  double x(double east) const { return left + (east - west) * scale_x; }
  double y(double north) const { return bottom - (north - south) * scale_y; }
};

struct Extent {
  double west = 0.0, east = 0.0, south = 0.0, north = 0.0;
  double width() const { return east - west; }
  double height() const { return north - south; }
};

Extent extent_of(const std::vector<Tree>& trees) {
  Extent e{1e300, -1e300, 1e300, -1e300};
  for (const Tree& tree : trees) {
    e.west = std::min(e.west, tree.east);
    e.east = std::max(e.east, tree.east);
    e.south = std::min(e.south, tree.north);
    e.north = std::max(e.north, tree.north);
  }
  return e;
}

/// The scale at which no two neighbours stand farther apart than two thumbs on paper, so that
/// two trees do not fill a page.
double widest_scale(const std::vector<Tree>& trees) {
  constexpr double kFarthest = 100.0;
  double nearest = 1e300;
  for (std::size_t i = 0; i < trees.size(); ++i) {
    for (std::size_t k = i + 1; k < trees.size(); ++k) {
      const double apart =
          std::hypot(trees[i].east - trees[k].east, trees[i].north - trees[k].north);
      if (apart > 0.0) nearest = std::min(nearest, apart);
    }
  }
  return kFarthest / nearest;
}

/// Fits the trees into a box; the smallest of the scales serves for both ways, and what is left
/// over is shared out.
Ground fit(const Extent& e, Rect box, double widest = 1e9) {
  const double wide = box.size.width.pt(), high = box.size.height.pt();
  const double scale = std::min(
      {e.width() > 0 ? wide / e.width() : 1e9, e.height() > 0 ? high / e.height() : 1e9, widest});
  const double s = scale < 1e9 ? scale : 1.0;
  return {e.west,
          e.south,
          s,
          s,
          box.left().pt() + (wide - e.width() * s) / 2.0,
          box.bottom().pt() - (high - e.height() * s) / 2.0};
}

Frame draw_thumbnail(const OrchardMap& c, Size room, const Pen& pen) {
  const Style& style = pen.style;
  const double width = room.width.pt();
  const double height = room.height > Length{} ? room.height.pt() : width * 0.63;
  Frame frame({room.width, Length::points(height)});
  if (c.trees.empty()) return frame;
  const Ground ground =
      fit(extent_of(c.trees),
          {pt_at(3.0, 3.0), {Length::points(width - 6.0), Length::points(height - 6.0)}});
  // Many trees ask for smaller rings.
  const double radius = std::clamp(
      std::sqrt((width - 6.0) * (height - 6.0) / static_cast<double>(c.trees.size())) * 0.19, 0.5,
      1.5);
  Path rings;
  for (const Tree& tree : c.trees) {
    if (tree.highlighted || tree.lost) continue;
    const Path ring =
        circle_path(pt_at(ground.x(tree.east), ground.y(tree.north)), Length::points(radius));
    frame.add(DrawnPath{ring, std::nullopt, Stroke{Length::points(0.35), style.secondary}});
  }
  for (const Tree& tree : c.trees) {
    if (tree.highlighted)
      dot_mark(frame, ground.x(tree.east), ground.y(tree.north), 2.7, style.black);
  }
  return frame;
}

/// The smallest convex shape around points, its corners in order. Andrew's monotone chain.
std::vector<Point> hull_of(std::vector<Point> points) {
  std::sort(points.begin(), points.end(),
            [](Point a, Point b) { return a.x != b.x ? a.x < b.x : a.y < b.y; });
  points.erase(std::unique(points.begin(), points.end()), points.end());
  if (points.size() < 3) return points;
  const auto turn = [](Point o, Point a, Point b) {
    return (a.x - o.x).pt() * (b.y - o.y).pt() - (a.y - o.y).pt() * (b.x - o.x).pt();
  };
  std::vector<Point> hull;
  for (int pass = 0; pass < 2; ++pass) {
    const std::size_t start = hull.size();
    for (const Point p : points) {
      while (hull.size() >= start + 2 && turn(hull[hull.size() - 2], hull.back(), p) <= 0.0)
        hull.pop_back();
      hull.push_back(p);
    }
    hull.pop_back();
    std::reverse(points.begin(), points.end());
  }
  return hull;
}

/// A soft outline `away` from every tree of an area: the hull of circles around them.
std::vector<Point> outline_around(const std::vector<Point>& trees, double away) {
  std::vector<Point> around;
  constexpr int kPieces = 24;
  for (const Point t : trees) {
    for (int i = 0; i < kPieces; ++i) {
      const double angle = 2.0 * 3.14159265358979323846 * i / kPieces;
      around.push_back(pt_at(t.x.pt() + away * std::cos(angle), t.y.pt() + away * std::sin(angle)));
    }
  }
  return hull_of(std::move(around));
}

/// How near the nearest tree outside a ground stands to one inside.
double nearest_other(const std::vector<Point>& places, const std::vector<std::size_t>& inside) {
  double nearest = 1e9;
  for (std::size_t other = 0; other < places.size(); ++other) {
    if (std::find(inside.begin(), inside.end(), other) != inside.end()) continue;
    for (const std::size_t i : inside) {
      if (i >= places.size()) continue;
      nearest = std::min(nearest, std::hypot((places[i].x - places[other].x).pt(),
                                             (places[i].y - places[other].y).pt()));
    }
  }
  return nearest;
}

/// The map with its list of names that found no place below it; `room` has a height, which the list
/// adds to. Fills `listed` with the height of the list.
Frame draw_large(const OrchardMap& c, Size room, const Pen& pen, Length& listed) {
  const Style& style = pen.style;
  const double width = room.width.pt();
  constexpr double kMargin = 20.0, kRing = 2.3, kAway = 15.0;
  const Extent e = c.trees.empty() ? Extent{} : extent_of(c.trees);
  const bool has_side = c.measured && (c.scale_bar || !c.north_label.empty());
  const double side = has_side ? 44.0 : 0.0;
  const double widest = widest_scale(c.trees);

  double height = room.height.pt();
  if (height <= 0.0) {
    const double wide = width - 2.0 * kMargin - side;
    const double scale = e.width() > 0 ? std::min(wide / e.width(), widest) : widest;
    height = std::clamp(e.height() * std::min(scale, 1e6) + 2.0 * kMargin + 6.0, 60.0, width * 1.1);
  }
  Frame frame({room.width, Length::points(height)});
  frame.stroke_rect({pt_at(0.3, 0.3), {Length::points(width - 0.6), Length::points(height - 0.6)}},
                    style.rule);
  if (c.trees.empty()) return frame;
  const Ground ground = fit(e,
                            {pt_at(kMargin, kMargin),
                             {Length::points(width - 2.0 * kMargin - side),
                              Length::points(height - 2.0 * kMargin - 6.0)}},
                            widest);

  const Rect inside{pt_at(2.0, 2.0),
                    {Length::points(width - 4.0 - side), Length::points(height - 4.0)}};
  // Words keep clear of the outlines of grounds where they can (strict), and always of trees and
  // each other (free).
  FreeRoom free(inside), strict(inside);
  std::vector<Point> places;
  for (const Tree& tree : c.trees) {
    places.push_back(pt_at(ground.x(tree.east), ground.y(tree.north)));
    free.occupy(grown({places.back(), {}}, Length::points(kRing)));
    strict.occupy(grown({places.back(), {}}, Length::points(kRing)));
  }

  // Grounds behind the trees; their names wait until the trees have theirs.
  struct Named {
    std::string name;
    std::vector<Point> outline;
  };
  std::vector<Named> named;
  for (const Area& area : c.areas) {
    std::vector<Point> in;
    for (const std::size_t i : area.trees) {
      if (i < places.size()) in.push_back(places[i]);
    }
    if (in.empty()) continue;
    std::vector<Point> outline =
        outline_around(in, std::min(kAway, 0.45 * nearest_other(places, area.trees)));
    for (Point& p : outline) {
      p.x = std::clamp(p.x, Length::points(3.0), Length::points(width - 3.0));
      p.y = std::clamp(p.y, Length::points(3.0), Length::points(height - 3.0));
    }
    frame.stroke(polyline_path(outline, true), {Length::points(0.5), style.orange});
    strict.occupy_line(outline);
    strict.occupy_line(std::vector<Point>{outline.back(), outline.front()});
    named.push_back({pen.say(area.name), std::move(outline)});
  }

  for (std::size_t i = 0; i < c.trees.size(); ++i) {
    const Tree& tree = c.trees[i];
    const Path ring = circle_path(places[i], Length::points(kRing));
    if (tree.lost) {
      const double x = places[i].x.pt(), y = places[i].y.pt(), r = kRing;
      Path cross;
      cross.move_to(pt_at(x - r, y - r))
          .line_to(pt_at(x + r, y + r))
          .move_to(pt_at(x - r, y + r))
          .line_to(pt_at(x + r, y - r));
      frame.stroke(std::move(cross), {Length::points(0.7), style.secondary});
    } else if (tree.state) {
      const double side_half = style.label_square.pt() / 2.0;
      state_mark(frame,
                 {pt_at(places[i].x.pt() - side_half, places[i].y.pt() - side_half),
                  {style.label_square, style.label_square}},
                 *tree.state, style);
    } else {
      frame.add(DrawnPath{ring, style.white, Stroke{Length::points(0.7)}});
    }
    if (tree.highlighted)
      frame.stroke(circle_path(places[i], Length::points(kRing + 3.5)), {Length::points(1.2)});
  }

  // Each tree's name below it, above, or beside, wherever it is free.
  std::vector<std::string> left_out;
  const TextStyle& look = style.tiny;
  const double up = pen.metrics.ascent(look.face, look.size).pt(),
               tall = up + pen.metrics.descent(look.face, look.size).pt();
  const double cap = pen.cap(look);
  for (std::size_t i = 0; i < c.trees.size(); ++i) {
    const double w = pen.width(c.trees[i].id, look), x = places[i].x.pt(), y = places[i].y.pt();
    const double reach = c.trees[i].highlighted ? kRing + 5.0
                         : c.trees[i].state     ? kRing + 2.2
                                                : kRing + 1.4;
    // Boxes are as high as capitals; few ids have letters that go below the line.
    const bool tails = c.trees[i].id.find_first_of("gjpqyQ_/") != std::string::npos;
    const double below = tails ? tall - up : 0.0;
    const std::vector<Point> corners = {
        pt_at(x - w / 2.0, y + reach), pt_at(x - w / 2.0, y - reach - cap - below),
        pt_at(x + reach + 0.8, y - cap / 2.0), pt_at(x - reach - 0.8 - w, y - cap / 2.0)};
    const Size size{Length::points(w), Length::points(cap + below)};
    auto box = strict.take(corners, size, kAirAboutIds);
    if (!box) box = free.take(corners, size, kAirAboutIds);
    if (box) {
      free.occupy(grown(*box, kTextGap - kAirAboutIds));
      strict.occupy(grown(*box, kTextGap - kAirAboutIds));
    }
    if (box)
      pen.write(frame, box->left().pt(), box->top().pt() + cap, Align::left, c.trees[i].id, look);
    else
      left_out.push_back(c.trees[i].id);
  }
  for (const Named& area : named) {
    const TextStyle name_look = look.in(style.orange);
    const double w = pen.width(area.name, name_look);
    std::vector<Point> corners;
    // Along the lower side first, just inside the outline, then anywhere along it.
    std::vector<Point> along = area.outline;
    std::stable_sort(along.begin(), along.end(), [](Point a, Point b) { return a.y > b.y; });
    for (const Point p : along) {
      corners.push_back(pt_at(p.x.pt() - w / 2.0, p.y.pt() - tall - 1.0));
      corners.push_back(pt_at(p.x.pt() - w / 2.0, p.y.pt() + 1.5));
    }
    // Clear of every outline where that can be; else they may touch one, never a tree's words.
    const Size size{Length::points(w), Length::points(tall)};
    auto box = strict.take(corners, size, Length::points(1.0));
    if (!box) box = free.take(corners, size, Length::points(1.0));
    if (box) {
      free.occupy(*box);
      strict.occupy(*box);
    }
    if (box)
      pen.write(frame, box->left().pt(), box->top().pt() + up, Align::left, area.name, name_look);
    else if (!area.name.empty())
      left_out.push_back(area.name);
  }

  if (has_side) {
    const double mid = width - side / 2.0;
    if (!c.north_label.empty()) {
      const double foot = height - 62.0;
      Path arrow;
      arrow.move_to(pt_at(mid, foot)).line_to(pt_at(mid, foot - 22.0));
      arrow.move_to(pt_at(mid - 3.0, foot - 17.0))
          .line_to(pt_at(mid, foot - 22.0))
          .line_to(pt_at(mid + 3.0, foot - 17.0));
      if (foot > 30.0) {
        frame.stroke(std::move(arrow), {Length::points(1.0)});
        pen.write(frame, mid, foot + 9.0, Align::centre, pen.say(c.north_label), look.bold());
      }
    }
    if (c.scale_bar) {
      const double length = c.scale_bar->metres * ground.scale_x;
      const double x0 = std::min(mid - length / 2.0, width - 6.0 - length), y = height - 10.0;
      frame.line(pt_at(x0, y), pt_at(x0 + length, y), {Length::points(1.2)});
      pen.write(frame, x0 + length / 2.0, y - 3.5, Align::centre, pen.say(c.scale_bar->label),
                look);
    }
  }
  if (!left_out.empty()) {
    const std::vector<std::string> tail = left_out_lines(left_out, width, pen);
    const double from = height + 9.0;
    listed = Length::points(11.0 * static_cast<double>(tail.size()) + 2.0);
    frame.set_size({room.width, Length::points(height) + listed});
    for (std::size_t i = 0; i < tail.size(); ++i) {
      pen.write(frame, 0.0, from + 11.0 * static_cast<double>(i), Align::left, tail[i],
                style.unit_line);
    }
  }
  return frame;
}

}  // namespace

Frame draw(const OrchardMap& c, Size room, const Pen& pen) {
  if (c.thumbnail) return draw_thumbnail(c, room, pen);
  Length listed;
  Frame frame = draw_large(c, room, pen, listed);
  // Told how high to be, the map gives way to its list, which may grow as the map shrinks.
  for (int again = 0; again < 4 && room.height > Length{} && frame.height() > room.height;
       ++again) {
    const Length height = std::max(room.height / 2.0, room.height - listed);
    frame = draw_large(c, {room.width, height}, pen, listed);
  }
  return frame;
}

}  // namespace winterfolio
