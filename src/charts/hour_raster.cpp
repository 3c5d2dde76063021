// Every hour of the winter as a cell, dark for cold. A column runs from one noon to the next, so
// that a night is one body; the lines that the trade counts by run exactly along the edges of
// cells.
#include <algorithm>

#include "charts/cells.h"
#include "charts/kinds.h"
#include "charts/marks.h"

namespace winterfolio {
namespace {

constexpr int kHours = 24;
constexpr double kTop = 3.0;
constexpr double kOwnHeight = 206.0;  // of the cells, where the chart may choose
constexpr double kKeyHeight = 26.0;
constexpr double kKeyBox = 33.0;  // width of one class in the key

/// An hour on an edge belongs to the colder class, with the slack that makes 7.2, 7.22 and 45 °F
/// one line.
int class_of(Celsius t, const std::vector<HourRaster::Edge>& edges) {
  int colder = 0;
  for (const auto& edge : edges) {
    if (t > edge.at + kLineSlack) ++colder;
  }
  return colder;
}

/// Hours before the first and after the last reading are paper; those between without one are
/// holes.
CellGrid grid_of(const HourRaster& c) {
  CellGrid grid{days_between(c.days.from, c.days.to) + 1, kHours, {}};
  const std::size_t cells = static_cast<std::size_t>(grid.columns) * kHours;
  grid.classes.assign(cells, CellGrid::kOutside);
  const auto known = [](const std::optional<Celsius>& t) { return t.has_value(); };
  const auto first = std::find_if(c.hours.begin(), c.hours.end(), known);
  const auto last = std::find_if(c.hours.rbegin(), c.hours.rend(), known).base();
  for (auto hour = first; hour < last; ++hour) {
    const auto cell = static_cast<std::size_t>(hour - c.hours.begin());
    if (cell < cells) grid.classes[cell] = *hour ? class_of(**hour, c.edges) : CellGrid::kMissing;
  }
  return grid;
}

/// The ink of a class; fewer classes than inks are spread over them.
Colour ink_of(int cell_class, std::size_t edges, const Style& style) {
  const std::size_t inks = style.cold_classes.size();
  if (edges == 0) return style.cold_classes[inks / 2];
  const std::size_t at = static_cast<std::size_t>(cell_class) * (inks - 1) / edges;
  return style.cold_classes[std::min(at, inks - 1)];
}

std::optional<Stroke> stroke_of(HourRaster::Line line, const Style& style) {
  switch (line) {
    case HourRaster::Line::freezing:
      return style.freezing_border;
    case HourRaster::Line::chill:
      return style.chill_border;
    case HourRaster::Line::warm:
      return style.warm_border;
    case HourRaster::Line::none:
      break;
  }
  return std::nullopt;
}

struct CellPlaces {
  double left, top, column, row;
  Point operator()(Corner c) const { return pt_at(left + column * c.column, top + row * c.row); }
};

Path path_of(const std::vector<Loop>& loops, const CellPlaces& place, bool closed) {
  Path path;
  for (const Loop& loop : loops) {
    const bool ring = closed || (loop.size() > 3 && loop.front() == loop.back());
    const std::size_t n = ring && !closed ? loop.size() - 1 : loop.size();
    path.move_to(place(loop[0]));
    for (std::size_t i = 1; i < n; ++i) path.line_to(place(loop[i]));
    if (ring) path.close();
  }
  return path;
}

void draw_cells(Frame& frame, const HourRaster& c, const CellGrid& grid, const CellPlaces& place,
                const Style& style) {
  // From the warmest down, each colour under all that is colder: neighbours of one class share no
  // seam, and where two classes meet the colder lies on the warmer, so that no paper shows between
  // them.
  for (int warmest = static_cast<int>(c.edges.size()); warmest >= 0; --warmest) {
    const auto loops = outlines(grid, [&](int k) { return k >= 0 && k <= warmest; });
    frame.fill(path_of(loops, place, true), ink_of(warmest, c.edges.size(), style));
  }
  for (const CellBox& hole : boxes(grid, CellGrid::kMissing)) {
    const Point at = place({hole.column, hole.row});
    const Point end = place({hole.column + hole.columns, hole.row + hole.rows});
    hatch_rect(frame, {at, {end.x - at.x, end.y - at.y}}, style.area_hatch);
  }
  for (std::size_t i = c.edges.size(); i-- > 0;) {
    const auto stroke = stroke_of(c.edges[i].line, style);
    if (stroke) frame.stroke(path_of(borders(grid, static_cast<int>(i)), place, false), *stroke);
  }
}

void draw_sun(Frame& frame, const std::vector<double>& hours, const Text& label,
              const CellPlaces& place, double right, const Pen& pen) {
  std::vector<Point> line;
  for (std::size_t night = 0; night < hours.size(); ++night) {
    const double x = place.left + place.column * (static_cast<double>(night) + 0.5);
    if (x < right) line.push_back(pt_at(x, place.top + place.row * hours[night]));
  }
  if (line.empty()) return;
  line_mark(frame, line, pen.style.sun_case);
  line_mark(frame, line, pen.style.sun_line);
  pen.write(frame, right + 5.0, line.back().y.pt() + pen.cap(pen.style.note) / 2.0, Align::left,
            pen.say(label), pen.style.note);
}

void draw_hours(Frame& frame, const CellPlaces& place, const Pen& pen) {
  Path path;
  path.move_to(pt_at(place.left, place.top))
      .line_to(pt_at(place.left, place.top + place.row * kHours));
  for (int hour = 0; hour <= kHours; hour += 6) {
    const double y = place.top + place.row * hour;
    path.move_to(pt_at(place.left - pen.style.tick.pt(), y)).line_to(pt_at(place.left, y));
    pen.write(frame, place.left - pen.style.tick.pt() - 2.0, y + pen.cap(pen.style.note) / 2.0,
              Align::right, pen.words.hour((12 + hour) % 24), pen.style.note);
  }
  frame.stroke(std::move(path), pen.style.axis);
}

/// The classes in a row, their edges named below; edges that are drawn in the raster are bold.
void draw_key(Frame& frame, const HourRaster& c, double top, double left, double right,
              const Pen& pen) {
  const Style& style = pen.style;
  const std::string colder = pen.say(c.colder), warmer = pen.say(c.warmer);
  const double count = static_cast<double>(c.edges.size() + 1);
  const double words =
      pen.width(colder, style.unit_line) + pen.width(warmer, style.unit_line) + 12.0;
  const double box = std::max(8.0, std::min(kKeyBox, (right - left - words) / count));
  const double start = left + pen.width(colder, style.unit_line) + 6.0 +
                       std::max(0.0, (right - left - words - box * count) / 2.0);
  const double height = 7.5, bottom = top + height,
               baseline = top + height / 2.0 + pen.cap(style.note) / 2.0;
  for (int k = 0; k <= static_cast<int>(c.edges.size()); ++k) {
    bar_mark(frame, start + box * k, top, start + box * (k + 1), bottom,
             ink_of(k, c.edges.size(), style));
  }
  outlined_bar(frame, start, top, start + box * count, bottom, {Length::points(0.4), style.black});
  double taken = start - 100.0;
  for (std::size_t i = 0; i < c.edges.size(); ++i) {
    const double x = start + box * static_cast<double>(i + 1);
    frame.line(pt_at(x, bottom - 2.5), pt_at(x, bottom + 3.0), style.axis);
    const bool drawn = c.edges[i].line != HourRaster::Line::none;
    const TextStyle look = drawn ? style.note.bold() : style.note;
    const std::string label = pen.say(c.edges[i].label);
    const double half = pen.width(label, look) / 2.0;
    if (!drawn && x - half < taken + 3.0) continue;
    pen.write(frame, x, bottom + 4.5 + pen.cap(look), Align::centre, label, look);
    taken = x + half;
  }
  pen.write(frame, start - 5.0, baseline, Align::right, colder, style.unit_line);
  pen.write(frame, start + box * count + 5.0, baseline, Align::left, warmer, style.unit_line);
}

}  // namespace

Length own_height(const HourRaster&) {
  return Length::points(kTop + kOwnHeight + kTimeAxisHeight + kKeyHeight);
}

Frame draw(const HourRaster& c, Size room, const Pen& pen) {
  const double height = (room.height > Length{} ? room.height : own_height(c)).pt();
  const double bottom = height - kTimeAxisHeight - kKeyHeight;
  const TimeScale x{c.days.from, c.days.to, DayAxis::kLeft, room.width.pt() - DayAxis::kRight};
  const CellPlaces place{x.left, kTop, x.day_width(), (bottom - kTop) / kHours};
  const CellGrid grid = grid_of(c);

  Frame frame({room.width, Length::points(height)});
  draw_cells(frame, c, grid, place, pen.style);
  draw_sun(frame, c.sunset, c.sunset_label, place, x.right, pen);
  draw_sun(frame, c.sunrise, c.sunrise_label, place, x.right, pen);
  draw_hours(frame, place, pen);
  time_axis(frame, bottom, x, pen);
  draw_key(frame, c, bottom + kTimeAxisHeight + 3.0, x.left, room.width.pt(), pen);
  return frame;
}

}  // namespace winterfolio
