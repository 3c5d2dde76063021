#include "charts/labels.h"

#include <algorithm>

namespace winterfolio {

std::vector<double> pool_labels(std::span<const double> wanted, double gap, double low,
                                double high) {
  const std::size_t n = wanted.size();
  if (n == 0) return {};
  if (n > 1) gap = std::min(gap, std::max(0.0, (high - low) / static_cast<double>(n - 1)));
  // Take the gaps out: then the places need only not fall, which pooling neighbours that do
  // achieves with least squares.
  struct Pool {
    double sum = 0.0;
    std::size_t count = 0;
    double mean() const { return sum / static_cast<double>(count); }
  };
  std::vector<Pool> pools;
  for (std::size_t i = 0; i < n; ++i) {
    pools.push_back({wanted[i] - gap * static_cast<double>(i), 1});
    while (pools.size() > 1 && pools[pools.size() - 2].mean() > pools.back().mean()) {
      const Pool last = pools.back();
      pools.pop_back();
      pools.back().sum += last.sum;
      pools.back().count += last.count;
    }
  }
  const double highest = high - gap * static_cast<double>(n - 1);
  std::vector<double> places;
  places.reserve(n);
  for (const Pool& pool : pools) {
    // Holding pools within the ends keeps the least squares: bounded isotonic regression is the
    // clamped free one.
    const double at = std::max(low, std::min(highest, pool.mean()));
    for (std::size_t i = 0; i < pool.count; ++i)
      places.push_back(at + gap * static_cast<double>(places.size()));
  }
  return places;
}

bool overlap(Rect a, Rect b) {
  return a.left() < b.right() && b.left() < a.right() && a.top() < b.bottom() &&
         b.top() < a.bottom();
}

Rect grown(Rect box, Length by) {
  return {{box.left() - by, box.top() - by},
          {box.size.width + by * 2.0, box.size.height + by * 2.0}};
}

bool crosses(Point from, Point to, Rect box) {
  // Liang-Barsky: keep the part of the line that lies on the inner side of each edge.
  double enter = 0.0, leave = 1.0;
  const double dx = (to.x - from.x).pt(), dy = (to.y - from.y).pt();
  const double edges[4][2] = {{-dx, (from.x - box.left()).pt()},
                              {dx, (box.right() - from.x).pt()},
                              {-dy, (from.y - box.top()).pt()},
                              {dy, (box.bottom() - from.y).pt()}};
  for (const auto& [direction, distance] : edges) {
    if (direction == 0.0) {
      if (distance < 0.0) return false;
      continue;
    }
    const double t = distance / direction;
    if (direction < 0.0)
      enter = std::max(enter, t);
    else
      leave = std::min(leave, t);
    if (enter > leave) return false;
  }
  return true;
}

void FreeRoom::occupy_line(std::span<const Point> line) {
  for (std::size_t i = 1; i < line.size(); ++i) segments_.push_back({line[i - 1], line[i]});
}

bool FreeRoom::is_free(Rect box, Length air) const {
  if (box.left() < bounds_.left() || box.right() > bounds_.right()) return false;
  if (box.top() < bounds_.top() || box.bottom() > bounds_.bottom()) return false;
  const Rect wide = grown(box, air);
  for (const Rect& other : boxes_) {
    if (overlap(wide, other)) return false;
  }
  for (const Segment& s : segments_) {
    if (crosses(s.from, s.to, wide)) return false;
  }
  return true;
}

bool FreeRoom::meets_box(Point from, Point to) const {
  for (const Rect& box : boxes_) {
    if (crosses(from, to, box)) return true;
  }
  return false;
}

std::optional<Rect> FreeRoom::take(std::span<const Point> places, Size size, Length air) {
  for (const Point& place : places) {
    const Rect box{place, size};
    if (!is_free(box, air)) continue;
    occupy(box);
    return box;
  }
  return std::nullopt;
}

}  // namespace winterfolio
