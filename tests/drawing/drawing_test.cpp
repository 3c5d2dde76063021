// Frames put together, hatches cut at their edges, marks that are all equally large.
#include <algorithm>
#include <cmath>
#include <optional>

#include "drawing/hatch.h"
#include "drawing/style.h"
#include "support/catch.h"
#include "support/half_em_metrics.h"

using namespace winterfolio;
using namespace winterfolio::literals;
using winterfolio::test::HalfEmMetrics;

namespace {

const HalfEmMetrics kMetrics;
const TextStyle kTenPoint{Face::regular, 10_pt, 13_pt, Colour{}};

const TextRun& run_at(const Frame& frame, std::size_t i) {
  return std::get<TextRun>(frame.items().at(i).item);
}

}  // namespace

TEST_CASE("A stack keeps the upper baseline and adds heights and gap") {
  Frame above({30_pt, 10_pt}, 8_pt), below({50_pt, 20_pt}, 15_pt);
  below.fill_rect({{1_pt, 2_pt}, {3_pt, 4_pt}}, Colour{});
  const Frame both = stack(std::move(above), std::move(below), 5_pt);
  CHECK(both.size() == Size{50_pt, 35_pt});
  CHECK(both.baseline() == 8_pt);
  CHECK(both.items().at(0).at == Point{0_pt, 15_pt});
}

TEST_CASE("Frames beside each other stand on one baseline") {
  Frame left = text_line("ab", kTenPoint, kMetrics);
  Frame right({20_pt, 30_pt}, 28_pt);
  const Length left_baseline = left.baseline();
  const Frame both = beside(std::move(left), std::move(right), 4_pt);
  CHECK(both.width() == 34_pt);  // two letters of half 10 pt, the gap, 20
  CHECK(both.baseline() == 28_pt);
  CHECK(both.items().at(0).at.y.pt() == Approx(28.0));
  CHECK(left_baseline < 28_pt);
}

TEST_CASE("Overlaying keeps the lower frame's size") {
  Frame under({10_pt, 10_pt}), over({99_pt, 99_pt});
  over.line({}, {5_pt, 5_pt}, {1_pt});
  CHECK(overlay(under, over).size() == Size{10_pt, 10_pt});
  CHECK(overlay(under, over).items().size() == 1);
}

TEST_CASE("Text is placed by its left end, middle or right end") {
  Frame frame({100_pt, 20_pt});
  add_text(frame, {50_pt, 10_pt}, Align::left, "four", kTenPoint, kMetrics);
  add_text(frame, {50_pt, 10_pt}, Align::centre, "four", kTenPoint, kMetrics);
  const Rect box = add_text(frame, {50_pt, 10_pt}, Align::right, "four", kTenPoint, kMetrics);
  CHECK(frame.items().at(0).at.x == 50_pt);
  CHECK(frame.items().at(1).at.x == 40_pt);  // four letters are 20 pt wide
  CHECK(frame.items().at(2).at.x == 30_pt);
  CHECK(box == Rect{{30_pt, 1_pt}, {20_pt, 11_pt}});  // 9 up, 2 down
  CHECK(run_at(frame, 0).width == 20_pt);
}

TEST_CASE("Empty text adds nothing") {
  Frame frame;
  add_text(frame, {}, Align::left, "", kTenPoint, kMetrics);
  CHECK(frame.empty());
}

TEST_CASE("A letter of two bytes is one letter wide") {
  CHECK(text_run("°é–", kTenPoint, kMetrics).width == 15_pt);
}

TEST_CASE("Hatch lines rise at 45 degrees, end at the box and lie one pitch apart") {
  const Rect box{{3_pt, 5_pt}, {40_pt, 17_pt}};
  const Path lines = hatch_lines(box, 2.2_pt);
  REQUIRE(lines.points().size() > 20);
  std::optional<double> before;
  for (std::size_t i = 0; i + 1 < lines.points().size(); i += 2) {
    const Point a = lines.points()[i], b = lines.points()[i + 1];
    CHECK((b.x - a.x).pt() == Approx((a.y - b.y).pt()));
    for (const Point& p : {a, b}) {
      CHECK(p.x >= box.left() - 0.001_pt);
      CHECK(p.x <= box.right() + 0.001_pt);
      CHECK(p.y >= box.top() - 0.001_pt);
      CHECK(p.y <= box.bottom() + 0.001_pt);
    }
    const double across =
        (a.x + a.y).pt() / std::sqrt(2.0);  // distance from the origin across the lines
    if (before) CHECK(across - *before == Approx(2.2));
    before = across;
  }
}

TEST_CASE("Hatching of neighbouring boxes runs on without a step") {
  const Path left = hatch_lines({{0_pt, 0_pt}, {10_pt, 10_pt}}, 2_pt),
             right = hatch_lines({{10_pt, 0_pt}, {10_pt, 10_pt}}, 2_pt);
  // Where a line leaves the left box at its right edge, one enters the right box at the same
  // height.
  int met = 0;
  for (std::size_t i = 1; i < left.points().size(); i += 2) {
    const Point end = left.points()[i];
    if (!nearly_equal(end.x, 10_pt)) continue;
    for (std::size_t k = 0; k < right.points().size(); k += 2)
      if (nearly_equal(right.points()[k].x, 10_pt) && nearly_equal(right.points()[k].y, end.y))
        ++met;
  }
  CHECK(met >= 3);
}

TEST_CASE("The four marks fill the same box") {
  const Style style;
  const Rect box{{7_pt, 9_pt}, {11.5_pt, 11.5_pt}};
  for (MarkFill fill : {MarkFill::solid, MarkFill::hatched, MarkFill::outlined, MarkFill::dotted}) {
    Frame frame;
    mark_box(frame, box, fill, style.violet, style);
    Length left = 1000_pt, right, top = 1000_pt, bottom;
    for (const Placed& placed : frame.items()) {
      const auto& drawn = std::get<DrawnPath>(placed.item);
      const Rect b = drawn.path.bounds();
      Length pen = drawn.stroke ? drawn.stroke->width / 2.0 : 0_pt;
      if (drawn.stroke && drawn.stroke->width == style.small_hatch.stroke.width &&
          fill == MarkFill::hatched)
        pen = pen * std::sqrt(0.5);  // the corner of a slanted line's end
      left = std::min(left, b.left() - pen);
      top = std::min(top, b.top() - pen);
      right = std::max(right, b.right() + pen);
      bottom = std::max(bottom, b.bottom() + pen);
    }
    INFO(static_cast<int>(fill));
    CHECK(left.pt() == Approx(box.left().pt()));
    CHECK(right.pt() == Approx(box.right().pt()));
    CHECK(top.pt() == Approx(box.top().pt()));
    CHECK(bottom.pt() == Approx(box.bottom().pt()));
  }
}

TEST_CASE("A circle's Bézier keeps its radius") {
  const Path circle = circle_path({50_pt, 50_pt}, 10_pt);
  const auto points = circle.points();
  for (std::size_t i = 0; i + 3 < points.size();
       i += 3) {  // the middle of each quarter, by the curve's formula at 1/2
    const auto middle = [&](auto of) {
      return (of(points[i]) + 3 * of(points[i + 1]) + 3 * of(points[i + 2]) + of(points[i + 3])) /
             8;
    };
    const double x = middle([](Point p) { return p.x.pt(); }) - 50,
                 y = middle([](Point p) { return p.y.pt(); }) - 50;
    CHECK(std::hypot(x, y) == Approx(10.0).epsilon(0.0005));
  }
}

TEST_CASE("The inks stay four steps apart on a grey photocopy") {
  // Luma weights of ITU-R BT.601; contrast as WCAG 2.1 defines it.
  const Style style;
  CHECK(luma(style.violet) < 60);
  CHECK(luma(style.orange) - luma(style.violet) > 45);
  CHECK(luma(style.tint) - luma(style.orange) > 45);
  CHECK(luma(style.white) - luma(style.tint) > 35);
  const auto linear = [](std::uint8_t v) {
    const double c = v / 255.0;
    return c <= 0.03928 ? c / 12.92 : std::pow((c + 0.055) / 1.055, 2.4);
  };
  for (Colour ink : {style.secondary, style.violet, style.orange}) {
    const double light =
        0.2126 * linear(ink.red) + 0.7152 * linear(ink.green) + 0.0722 * linear(ink.blue);
    CHECK(1.05 / (light + 0.05) >= 4.5);
  }
}

TEST_CASE("The grid: twelve columns and their gutters fill the measure") {
  for (const PageGeometry& page : {letter_geometry(), a4_geometry()}) {
    CHECK(page.width_of(12).pt() == Approx(page.measure().pt()));
    CHECK((page.width_of(6) * 2 + page.gutter).pt() == Approx(page.measure().pt()));
    CHECK((page.width_of(4) * 3 + page.gutter * 2).pt() == Approx(page.measure().pt()));
    CHECK((page.offset_of(3) + page.width_of(9)).pt() == Approx(page.measure().pt()));
    CHECK(page.paper.height - page.line * page.last_line >= Length::millimetres(17.9));
    CHECK(page.foot > page.line * page.last_line);
  }
}
