#include "charts/marks.h"

#include <algorithm>

namespace winterfolio {
namespace {

Rect rect_of(double x0, double y0, double x1, double y1) {
  return {
      pt_at(std::min(x0, x1), std::min(y0, y1)),
      {Length::points(x1 > x0 ? x1 - x0 : x0 - x1), Length::points(y1 > y0 ? y1 - y0 : y0 - y1)}};
}

Rect inset(Rect box, Length by) {
  return {{box.left() + by, box.top() + by},
          {box.size.width - by * 2.0, box.size.height - by * 2.0}};
}

}  // namespace

void line_mark(Frame& frame, const std::vector<Point>& points, const Stroke& stroke) {
  frame.stroke(polyline_path(points), stroke);
}

void band_mark(Frame& frame, const std::vector<Point>& upper, const std::vector<Point>& lower,
               Colour ink) {
  if (upper.size() < 2 || lower.size() < 2) return;
  std::vector<Point> around = upper;
  around.insert(around.end(), lower.rbegin(), lower.rend());
  frame.fill(polyline_path(around, true), ink);
}

void bar_mark(Frame& frame, double x0, double y0, double x1, double y1, Colour ink) {
  frame.fill_rect(rect_of(x0, y0, x1, y1), ink);
}

void outlined_bar(Frame& frame, double x0, double y0, double x1, double y1, const Stroke& stroke) {
  frame.stroke_rect(inset(rect_of(x0, y0, x1, y1), stroke.width / 2.0), stroke);
}

void hatched_bar(Frame& frame, double x0, double y0, double x1, double y1, Colour ink,
                 const Style& style) {
  mark_box(frame, rect_of(x0, y0, x1, y1), MarkFill::hatched, ink, style);
}

void tinted_bar(Frame& frame, double x0, double y0, double x1, double y1, const Style& style) {
  const Stroke outline = style.outline(style.orange);
  const Rect inner = inset(rect_of(x0, y0, x1, y1), outline.width / 2.0);
  frame.add(DrawnPath{rectangle_path(inner), style.tint, outline});
}

void whisker_mark(Frame& frame, double x, double y0, double y1, double half_width,
                  const Stroke& stroke) {
  Path path;
  path.move_to(pt_at(x, y0)).line_to(pt_at(x, y1));
  for (const double y : {y0, y1})
    path.move_to(pt_at(x - half_width, y)).line_to(pt_at(x + half_width, y));
  frame.stroke(std::move(path), stroke);
}

void span_mark(Frame& frame, double x0, double x1, double y, double half_height,
               const Stroke& stroke) {
  Path path;
  path.move_to(pt_at(x0, y)).line_to(pt_at(x1, y));
  for (const double x : {x0, x1})
    path.move_to(pt_at(x, y - half_height)).line_to(pt_at(x, y + half_height));
  frame.stroke(std::move(path), stroke);
}

void bracket_mark(Frame& frame, double x0, double x1, double top, double foot,
                  const Stroke& stroke) {
  const std::vector<Point> corners = {pt_at(x0, foot), pt_at(x0, top), pt_at(x1, top),
                                      pt_at(x1, foot)};
  line_mark(frame, corners, stroke);
}

void error_mark(Frame& frame, double x0, double x1, double y, const Style& style) {
  constexpr double kCap = 1.6;
  const auto draw = [&](const Stroke& stroke) {
    frame.line(pt_at(x0, y), pt_at(x1, y), stroke);
    for (const double x : {x0, x1}) frame.line(pt_at(x, y - kCap), pt_at(x, y + kCap), stroke);
  };
  draw({Length::points(2.2), style.white});  // so that it stands out of the bar it lies in
  draw({Length::points(0.8), style.black});
}

void ring_mark(Frame& frame, double x, double y, const Style& style) {
  frame.add(DrawnPath{circle_path(pt_at(x, y), style.ring), style.white,
                      Stroke{Length::points(0.9), style.violet}});
}

void dot_mark(Frame& frame, double x, double y, double radius, Colour ink) {
  frame.fill(circle_path(pt_at(x, y), Length::points(radius)), ink);
}

double value_axis_width(const Ticks& ticks, const Pen& pen) {
  double widest = 0.0;
  for (const double v : ticks.values) {
    widest = std::max(widest, pen.width(pen.words.number(v, ticks.decimals), pen.style.note));
  }
  return widest + pen.style.tick.pt() + 2.0;
}

void value_axis(Frame& frame, double x, const Scale& y, const Ticks& ticks, const Pen& pen) {
  const Style& style = pen.style;
  Path path;
  path.move_to(pt_at(x, y.at_from)).line_to(pt_at(x, y.at_to));
  const double tick = style.tick.pt();
  const double half_step = ticks.step / 2.0;
  for (const double v : ticks.values) {
    path.move_to(pt_at(x - tick, y(v))).line_to(pt_at(x, y(v)));
    const double between = v + half_step;
    if (between < y.to)
      path.move_to(pt_at(x - tick * 0.6, y(between))).line_to(pt_at(x, y(between)));
    pen.write(frame, x - tick - 2.0, y(v) + pen.cap(style.note) / 2.0, Align::right,
              pen.words.number(v, ticks.decimals), style.note);
  }
  frame.stroke(std::move(path), style.axis);
}

std::vector<MonthPart> months_of(Date first, Date last) {
  std::vector<MonthPart> parts;
  for (Date at = first; at <= last;) {
    const int year = static_cast<int>(at.year());
    const unsigned month = static_cast<unsigned>(at.month());
    const Date end = std::min(last, date_of(year, month, last_day_of(year, month)));
    parts.push_back({at, end});
    at = plus_days(end, 1);
  }
  return parts;
}

std::string month_label(const MonthPart& part, double room, const TextStyle& look, const Pen& pen) {
  const unsigned month = static_cast<unsigned>(part.first.month());
  for (const std::string& name : {pen.words.month(month), pen.words.month_brief(month)}) {
    if (pen.width(name, look) <= room - 4.0) return name;
  }
  return {};
}

void time_axis(Frame& frame, double y, const TimeScale& x, const Pen& pen) {
  const Style& style = pen.style;
  Path months, weeks;
  months.move_to(pt_at(x.left, y)).line_to(pt_at(x.right, y));
  const auto tick = [y](Path& path, double at, Length long_by) {
    path.move_to(pt_at(at, y)).line_to(pt_at(at, y + long_by.pt()));
  };
  for (const MonthPart& part : months_of(x.first, x.last)) {
    const double from = x(part.first), to = x.end(part.last);
    tick(months, from, style.month_tick);
    pen.write(frame, (from + to) / 2.0, y + 5.0 + pen.cap(style.note), Align::centre,
              month_label(part, to - from, style.note, pen), style.note);
  }
  tick(months, x.right, style.month_tick);
  for (int day = 7; day < x.days(); day += 7)
    tick(weeks, x(plus_days(x.first, day)), style.week_tick);
  frame.stroke(std::move(months), style.axis);
  frame.stroke(std::move(weeks), style.week_mark);
}

}  // namespace winterfolio
