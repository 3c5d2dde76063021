// Labels in a column move as little as possible and never collide; single labels take only free
// places.
#include <cmath>
#include <numeric>
#include <random>

#include "charts/labels.h"
#include "support/catch.h"

using namespace winterfolio;

namespace {

double moved(const std::vector<double>& places, const std::vector<double>& wanted) {
  double sum = 0;
  for (std::size_t i = 0; i < places.size(); ++i)
    sum += (places[i] - wanted[i]) * (places[i] - wanted[i]);
  return sum;
}

}  // namespace

TEST_CASE("a column of labels moves apart, worked by hand") {
  using V = std::vector<double>;
  CHECK(pool_labels(V{}, 10, 0, 100).empty());
  CHECK(pool_labels(V{50}, 10, 0, 100) == V{50});
  CHECK(pool_labels(V{-5}, 10, 0, 100) == V{0});
  CHECK(pool_labels(V{20, 40}, 10, 0, 100) == V{20, 40});
  // Two at one place share the move; a third that is near is drawn in.
  CHECK(pool_labels(V{50, 50}, 10, 0, 100) == V{45, 55});
  CHECK(pool_labels(V{50, 50, 56}, 10, 0, 100) == V{42, 52, 62});
  // At the edge the whole pool is pushed in.
  CHECK(pool_labels(V{98, 99}, 10, 0, 100) == V{90, 100});
  // Too many for the room: the gap gives way.
  CHECK(pool_labels(V{50, 50, 50}, 80, 0, 100) == V{0, 50, 100});
}

TEST_CASE("pooled labels keep order, distance and bounds, and no other way moves them less") {
  std::mt19937 dice(2);
  std::uniform_real_distribution<double> place(-20, 320), nudge(-12, 12);
  for (int round = 0; round < 400; ++round) {
    const int n = 1 + static_cast<int>(dice() % 20);
    std::vector<double> wanted(static_cast<std::size_t>(n));
    for (double& w : wanted) w = place(dice);
    std::sort(wanted.begin(), wanted.end());
    const double gap = 12.2, low = 0, high = 300;
    const std::vector<double> got = pool_labels(wanted, gap, low, high);
    REQUIRE(got.size() == wanted.size());
    for (std::size_t i = 0; i < got.size(); ++i) {
      CHECK(got[i] >= low - 1e-9);
      CHECK(got[i] <= high + 1e-9);
      if (i > 0) CHECK(got[i] - got[i - 1] >= gap - 1e-9);
    }
    // Other placings that keep the same rules, made by nudging and pushing apart: none is better.
    const double best = moved(got, wanted);
    for (int other = 0; other < 60; ++other) {
      std::vector<double> v = got;
      for (double& x : v) x += nudge(dice);
      for (std::size_t i = 0; i < v.size(); ++i)
        v[i] = std::max(v[i], i == 0 ? low : v[i - 1] + gap);
      for (std::size_t i = v.size(); i-- > 0;)
        v[i] = std::min(v[i], i + 1 == v.size() ? high : v[i + 1] - gap);
      if (v.front() < low) continue;
      CHECK(moved(v, wanted) >= best - 1e-6);
    }
  }
}

TEST_CASE("a line crosses a box only where points of it lie inside") {
  std::mt19937 dice(3);
  std::uniform_real_distribution<double> at(0, 100), size(1, 40);
  for (int i = 0; i < 2000; ++i) {
    const Rect box{pt_at(at(dice), at(dice)),
                   {Length::points(size(dice)), Length::points(size(dice))}};
    const Point a = pt_at(at(dice), at(dice)), b = pt_at(at(dice), at(dice));
    bool inside = false;
    for (int k = 0; k <= 2000; ++k) {
      const Point p = a + pt_at((b.x - a.x).pt() * k / 2000.0, (b.y - a.y).pt() * k / 2000.0);
      inside = inside ||
               (p.x > box.left() && p.x < box.right() && p.y > box.top() && p.y < box.bottom());
    }
    if (inside) CHECK(crosses(a, b, box));
    // A box grown by more than the sampling step settles the other way.
    if (crosses(a, b, box) && !inside) {
      bool near_by = false;
      const Rect wide = grown(box, Length::points(0.1));
      for (int k = 0; k <= 2000; ++k) {
        const Point p = a + pt_at((b.x - a.x).pt() * k / 2000.0, (b.y - a.y).pt() * k / 2000.0);
        near_by = near_by || (p.x > wide.left() && p.x < wide.right() && p.y > wide.top() &&
                              p.y < wide.bottom());
      }
      CHECK(near_by);
    }
  }
}

TEST_CASE("labels that find a place are clear of each other, of lines and of the edge") {
  std::mt19937 dice(4);
  std::uniform_real_distribution<double> at(-10, 210), wide(10, 60);
  for (int round = 0; round < 100; ++round) {
    const Rect bounds{{}, {Length::points(200), Length::points(150)}};
    FreeRoom room(bounds);
    const std::vector<Point> line = {pt_at(0, at(dice)), pt_at(100, at(dice)),
                                     pt_at(200, at(dice))};
    room.occupy_line(line);
    std::vector<Rect> taken;
    for (int label = 0; label < 25; ++label) {
      std::vector<Point> places;
      for (int k = 0; k < 20; ++k) places.push_back(pt_at(at(dice), at(dice)));
      const auto box =
          room.take(places, {Length::points(wide(dice)), Length::points(9)}, Length::points(1.5));
      if (!box) continue;
      CHECK(box->left() >= bounds.left());
      CHECK(box->right() <= bounds.right());
      CHECK(box->top() >= bounds.top());
      CHECK(box->bottom() <= bounds.bottom());
      for (const Rect& other : taken)
        CHECK_FALSE(overlap(grown(*box, Length::points(1.49)), other));
      CHECK_FALSE(crosses(line[0], line[1], *box));
      CHECK_FALSE(crosses(line[1], line[2], *box));
      taken.push_back(*box);
    }
    CHECK(taken.size() > 5);
  }
}
