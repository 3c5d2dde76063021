// Cold as it adds up: one winter's curve among the past ones, with every cultivar's need at the
// edge of the plot and a leader to its line in a table that is the chart's label set too.
//
//   80 |                                 ___---   needs   when
//      |                      ___---....|  | o ── [ ] Andross         63   in 1 of 12
//   40 |           ___---=====o         |  |────  [#] Rainier         45   31 Jan
//    0 |___---=====__________________|__|  | ───  [#] Earligrande     12   17 Dec
//       November  December   January   Feb
#include <algorithm>
#include <array>
#include <cmath>

#include "charts/kinds.h"
#include "charts/labels.h"
#include "charts/marks.h"

namespace winterfolio {
namespace {

using Points = std::vector<Point>;

constexpr double kHeadRoom = 13.0;  // over the plot, for the table's head
constexpr double kLanePitch = 4.0;  // from one column of need bars to the next
constexpr int kLanes = 3;
constexpr double kLeaderRoom = 24.0;  // from the last lane to the table
/// The winter counted as past ones are, beside the line by its hours.
constexpr double kThinner = 0.35;
constexpr double kNoteLeading = 10.5;
constexpr Length kTickRoom = Length::points(30);  // between the numbers of the axis, at least

/// What the plot measures: its edges and its two scales.
struct Plot {
  TimeScale x;
  Scale y;
  double top = 0.0;
  double bottom = 0.0;
};

/// A line of the table of needs.
struct NeedLine {
  const ChillBuildUp::Need* need = nullptr;
  std::string name, figure, when;
  Spread amount;
};

double middle(const Spread& s) { return (s.low + s.high) / 2.0; }

/// Highest amount that anything in the plot reaches.
double highest(const ChillBuildUp& c) {
  double top = 1.0;
  const auto curve = [&](const std::vector<double>& values) {
    for (const double v : values) top = std::max(top, v);
  };
  for (const auto& p : c.this_winter) top = std::max(top, p.amount);
  for (const auto& n : c.needs) top = std::max(top, n.amount.high);
  for (const auto& e : c.extremes) curve(e.curve.values);
  if (c.middle_high) curve(c.middle_high->values);
  if (c.median) curve(c.median->values);
  if (c.forecast) curve(c.forecast->high);
  if (c.last && c.last->with_gaps) top = std::max(top, c.last->with_gaps->high);
  return top;
}

/// A day's value stands at the day's end, when its hours are in. The line begins at nothing.
Points curve_points(const std::vector<double>& values, Date first, const Plot& plot) {
  Points out;
  if (!values.empty() && first == plot.x.first) out.push_back(pt_at(plot.x.left, plot.y(0.0)));
  for (std::size_t i = 0; i < values.size(); ++i) {
    const Date day = plus_days(first, static_cast<int>(i));
    if (plot.x.holds(day)) out.push_back(pt_at(plot.x.end(day), plot.y(values[i])));
  }
  return out;
}
Points curve_points(const DailyCurve& curve, const Plot& plot) {
  return curve_points(curve.values, curve.first, plot);
}

/// A forecast begins where the record ends.
Points forecast_points(const ChillBuildUp& c, const std::vector<double>& values, double from_amount,
                       const Plot& plot) {
  Points out;
  if (c.last) out.push_back(pt_at(plot.x(c.last->recorded.at), plot.y(from_amount)));
  for (std::size_t i = 0; i < values.size(); ++i) {
    const Date day = plus_days(c.forecast->first, static_cast<int>(i));
    if (plot.x.holds(day)) out.push_back(pt_at(plot.x.end(day), plot.y(values[i])));
  }
  return out;
}

Points winter_points(const std::vector<ChillBuildUp::Point>& amounts, const Plot& plot) {
  Points out;
  for (const auto& p : amounts) {
    const Point at = pt_at(plot.x.clamped(plot.x(p.at)), plot.y(p.amount));
    // A standstill is one straight stretch: its inner points say nothing.
    const std::size_t n = out.size();
    if (n > 1 && out[n - 1].y == at.y && out[n - 2].y == at.y)
      out.back() = at;
    else
      out.push_back(at);
  }
  return out;
}

/// The height at which a line stands over x; nothing beyond its ends.
std::optional<double> height_at(const Points& line, double x) {
  for (std::size_t i = 1; i < line.size(); ++i) {
    const double x0 = line[i - 1].x.pt(), x1 = line[i].x.pt();
    if (x < x0 || x > x1) continue;
    if (x1 == x0) return line[i].y.pt();
    return line[i - 1].y.pt() + (x - x0) / (x1 - x0) * (line[i].y - line[i - 1].y).pt();
  }
  return std::nullopt;
}

// ---- the table of needs -------------------------------------------------------------------------

std::vector<NeedLine> need_lines(const ChillBuildUp& c, const Pen& pen) {
  std::vector<NeedLine> lines;
  for (const auto& need : c.needs) {
    lines.push_back(
        {&need, pen.say(need.name), pen.say(need.figure), pen.say(need.when), need.amount});
  }
  // From the greatest need down, as they stand on the axis; names settle what is equal.
  std::stable_sort(lines.begin(), lines.end(), [](const NeedLine& a, const NeedLine& b) {
    return middle(a.amount) != middle(b.amount) ? middle(a.amount) > middle(b.amount)
                                                : a.name < b.name;
  });
  return lines;
}

/// Joins neighbours that say the same of themselves, until no more than `most` are left or nothing
/// joins.
void join_equals(std::vector<NeedLine>& lines, std::size_t most) {
  for (std::size_t i = 1; i < lines.size() && lines.size() > most;) {
    NeedLine& above = lines[i - 1];
    const NeedLine& below = lines[i];
    const bool same = above.need->state == below.need->state && above.figure == below.figure &&
                      above.when == below.when &&
                      above.need->from_memory == below.need->from_memory;
    if (!same) {
      ++i;
      continue;
    }
    above.name += ", " + below.name;
    lines.erase(lines.begin() + static_cast<std::ptrdiff_t>(i));
  }
}

/// Leaves out what matters least until `most` are left: needs from memory first, then the least
/// needs, long met.
std::vector<std::string> leave_out(std::vector<NeedLine>& lines, std::size_t most) {
  std::vector<std::string> names;
  while (lines.size() > most) {
    auto goes = std::find_if(lines.rbegin(), lines.rend(),
                             [](const NeedLine& l) { return l.need->from_memory; });
    if (goes == lines.rend()) {
      goes = std::find_if(lines.rbegin(), lines.rend(),
                          [](const NeedLine& l) { return l.need->state == MarkState::met; });
    }
    if (goes == lines.rend()) goes = lines.rbegin();
    names.push_back(goes->name);
    lines.erase(std::next(goes).base());
  }
  return names;
}

/// Widths of the table's columns [pt].
struct TableWidths {
  double name = 0.0, figure = 0.0, when = 0.0;
  static constexpr double kGap = 9.0;
  double total(const Style& style) const {
    return style.label_square.pt() + 4.0 + name + (figure > 0 ? kGap + figure : 0.0) +
           (when > 0 ? kGap + when : 0.0);
  }
};

TableWidths table_widths(const ChillBuildUp& c, const std::vector<NeedLine>& lines, double room,
                         const Pen& pen) {
  const TextStyle& look = pen.style.note;
  TableWidths w;
  w.figure = pen.width(pen.say(c.needs_head), look);
  w.when = pen.width(pen.say(c.when_head), look);
  for (const NeedLine& line : lines) {
    w.name = std::max(w.name, pen.width(line.name, look));
    w.figure = std::max(w.figure, pen.width(line.figure, look));
    w.when = std::max(w.when, pen.width(line.when, look));
  }
  const double others = w.total(pen.style) - w.name;
  w.name = std::min(w.name, std::max(40.0, room * 0.5 - others));
  return w;
}

/// Which lane each need's bar stands in, so that bars that overlap stay beside each other.
std::vector<int> lanes_of(const std::vector<NeedLine>& lines, const Plot& plot) {
  std::vector<int> lanes;
  std::vector<double> filled(kLanes, -1e9);  // how far down each lane is taken
  for (const NeedLine& line : lines) {
    const double top = plot.y(line.amount.high) - 1.5, bottom = plot.y(line.amount.low) + 1.5;
    int lane = 0;
    while (lane < kLanes - 1 && filled[static_cast<std::size_t>(lane)] > top) ++lane;
    filled[static_cast<std::size_t>(lane)] =
        std::max(filled[static_cast<std::size_t>(lane)], bottom);
    lanes.push_back(lane);
  }
  return lanes;
}

void draw_needs(Frame& frame, const std::vector<NeedLine>& lines, const TableWidths& widths,
                double table_left, double table_bottom, const Plot& plot, const Pen& pen) {
  const Style& style = pen.style;
  const double cap = pen.cap(style.note);
  std::vector<double> wanted;
  for (const NeedLine& line : lines) wanted.push_back(plot.y(middle(line.amount)));
  const std::vector<double> rows = pool_labels(
      wanted, style.label_gap.pt(), plot.top + cap / 2.0 + 1.0, table_bottom - cap / 2.0);
  const std::vector<int> lanes = lanes_of(lines, plot);

  const double first_lane = plot.x.right + 5.0;
  const double elbow = first_lane + kLanePitch * (kLanes - 1) + 4.0;
  const double mark = style.label_square.pt();
  for (std::size_t i = 0; i < lines.size(); ++i) {
    const NeedLine& line = lines[i];
    const double x = first_lane + kLanePitch * lanes[i];
    const double low = plot.y(line.amount.low), high = plot.y(line.amount.high);
    const bool one_figure = low - high < 2.0;
    if (line.need->from_memory) {
      frame.stroke(line_path(pt_at(x, one_figure ? wanted[i] - 2.5 : high),
                             pt_at(x, one_figure ? wanted[i] + 2.5 : low)),
                   Stroke{Length::points(1.6), style.violet, Dash{1, 1}});
    } else {
      const double from = one_figure ? wanted[i] - 1.0 : high,
                   to = one_figure ? wanted[i] + 1.0 : low;
      bar_mark(frame, one_figure ? x - 2.0 : x - 1.0, from, one_figure ? x + 1.6 : x + 1.0, to,
               style.violet);
    }
    const Points leader = {pt_at(x + 2.0, wanted[i]), pt_at(elbow, wanted[i]),
                           pt_at(table_left - 7.0, rows[i]), pt_at(table_left - 2.5, rows[i])};
    line_mark(frame, leader, style.leader);

    state_mark(frame,
               {pt_at(table_left, rows[i] - mark / 2.0), {style.label_square, style.label_square}},
               line.need->state, style);
    const double baseline = rows[i] + cap / 2.0;
    double left = table_left + mark + 4.0;
    pen.write(frame, left, baseline, Align::left, pen.shortened(line.name, widths.name, style.note),
              style.note);
    left += widths.name;
    if (widths.figure > 0) {
      left += TableWidths::kGap + widths.figure;
      pen.write(frame, left, baseline, Align::right, line.figure, style.note);
    }
    if (widths.when > 0) {
      left += TableWidths::kGap + widths.when;
      pen.write(frame, left, baseline, Align::right, line.when, style.note);
    }
  }
}

// ---- words inside the plot ----------------------------------------------------------------------

/// Lines of words as one block.
struct WordBlock {
  std::vector<std::string> lines;
  double width = 0.0, height = 0.0;
};

WordBlock word_block(const std::vector<Text>& texts, const TextStyle& look, const Pen& pen) {
  WordBlock block;
  for (const Text& text : texts) {
    if (!text.empty()) block.lines.push_back(pen.say(text));
  }
  for (const std::string& line : block.lines)
    block.width = std::max(block.width, pen.width(line, look));
  if (block.lines.empty()) return block;
  block.height =
      kNoteLeading * static_cast<double>(block.lines.size() - 1) +
      (pen.metrics.ascent(look.face, look.size) + pen.metrics.descent(look.face, look.size)).pt();
  return block;
}

void write_block(Frame& frame, const WordBlock& block, Rect box, Align align, const TextStyle& look,
                 const Pen& pen) {
  const double x = align == Align::left    ? box.left().pt()
                   : align == Align::right ? box.right().pt()
                                           : (box.left() + box.right()).pt() / 2.0;
  double y = box.top().pt() + pen.metrics.ascent(look.face, look.size).pt();
  for (const std::string& line : block.lines) {
    pen.write(frame, x, y, align, line, look);
    y += kNoteLeading;
  }
}

/// Places beside a curve, above it at the left or below it at the right, close by or further off;
/// each from near the curve's end to near its start.
std::vector<Point> places_beside(const Points& curve, const WordBlock& block, bool above,
                                 bool far_off, const Plot& plot) {
  static constexpr std::array<double, 4> kNear = {3.0, 6.0, 10.0, 14.0},
                                         kFar = {18.0, 24.0, 34.0, 46.0};
  std::vector<Point> places;
  const double span = plot.x.right - plot.x.left;
  for (const double away : far_off ? kFar : kNear) {
    for (double part = 0.98; part > 0.15; part -= 0.02) {
      const double x = plot.x.left + span * part;
      const std::optional<double> y = height_at(curve, x);
      if (!y) continue;
      const double left = std::min(x + 3.0, plot.x.right - block.width - 1.0);
      places.push_back(above ? pt_at(x - block.width - 3.0, *y - away - block.height + 4.0)
                             : pt_at(left, *y + away - 3.0));
    }
  }
  return places;
}

/// What the chart has already drawn that words keep clear of, twice: lines that may never be
/// crossed, and the band, whose edges are crossed only if nothing else is left.
struct Obstacles {
  FreeRoom strict;
  FreeRoom loose;
  Points way;  ///< kept free for a pointer that is still to come; may be empty
  void line(const Points& points) {
    strict.occupy_line(points);
    loose.occupy_line(points);
  }
  void box(Rect rect) {
    strict.occupy(rect);
    loose.occupy(rect);
  }
  std::optional<Rect> take(std::vector<Point> places, const WordBlock& block, double air) {
    const Size size{Length::points(block.width), Length::points(block.height)};
    if (way.size() == 2) {
      std::erase_if(places, [&](Point p) {
        return crosses(way[0], way[1], grown({p, size}, Length::points(air)));
      });
    }
    std::optional<Rect> found = strict.take(places, size, Length::points(air));
    if (found) {
      loose.occupy(*found);
      return found;
    }
    found = loose.take(places, size, Length::points(air));
    if (found) strict.occupy(*found);
    return found;
  }
};

/// "2015–16, most cold" in one line and, for tight places, in two.
std::vector<WordBlock> in_one_line_or_two(const Text& label, const Pen& pen) {
  const TextStyle& look = pen.style.note;
  std::vector<WordBlock> blocks = {word_block({label}, look, pen)};
  if (blocks[0].lines.empty()) return {};
  std::vector<std::string> two = pen.wrapped(blocks[0].lines[0], blocks[0].width * 0.62, look);
  if (two.size() != 2) return blocks;
  WordBlock block = blocks[0];
  block.width = std::max(pen.width(two[0], look), pen.width(two[1], look));
  block.height += kNoteLeading;
  block.lines = std::move(two);
  blocks.push_back(std::move(block));
  return blocks;
}

/// Straight up or down from a curve to the words about it.
struct Pointer {
  double x = 0.0;
  double from = 0.0;  ///< on the curve
  double to = 0.0;    ///< at the words
};
Pointer way_to(const Points& curve, Point corner, const WordBlock& block, bool above) {
  const double x = std::clamp(corner.x.pt() + block.width * (above ? 0.8 : 0.2),
                              curve.front().x.pt(), curve.back().x.pt());
  return {x, height_at(curve, x).value_or(curve.back().y.pt()),
          above ? corner.y.pt() + block.height : corner.y.pt()};
}

void label_extremes(Frame& frame, const ChillBuildUp& c, const Points& median, const Points& winter,
                    Obstacles& room, const Plot& plot, const Pen& pen,
                    std::vector<std::string>& left_out) {
  constexpr double kPointer = 14.0;  // further off, a pointer says which line is meant
  for (const auto& extreme : c.extremes) {
    const Points curve = curve_points(extreme.curve, plot);
    const std::vector<WordBlock> blocks = in_one_line_or_two(extreme.label, pen);
    if (curve.empty() || blocks.empty()) continue;
    const std::optional<double> usual =
        median.empty() ? std::nullopt : height_at(median, curve.back().x.pt());
    const bool above = !usual || curve.back().y.pt() <= *usual;
    bool placed = false;
    // In one line close by, in two, then the same further off.
    for (const bool far_off : {false, true})
      for (const WordBlock& block : blocks) {
        if (placed) break;
        std::vector<Point> corners;
        for (const Point place : places_beside(curve, block, above, far_off, plot)) {
          // Words beyond this winter's line would seem to speak of it.
          const Pointer way = way_to(curve, place, block, above);
          const std::optional<double> between = height_at(winter, way.x);
          if (between && *between > std::min(way.from, way.to) - 4.0 &&
              *between < std::max(way.from, way.to) + 4.0)
            continue;
          corners.push_back(place);
        }
        const auto box = room.take(corners, block, 1.5);
        if (!box) continue;
        const Pointer way = way_to(curve, box->at, block, above);
        if (std::abs(way.to - way.from) > kPointer) {
          line_mark(frame, {pt_at(way.x, way.from), pt_at(way.x, way.to)}, pen.style.leader);
        }
        write_block(frame, block, *box, Align::left, pen.style.note, pen);
        placed = true;
      }
    if (!placed) left_out.push_back(blocks.front().lines.front());
  }
}

/// A gap as hatching under the standstill it makes in the curve.
std::optional<Rect> gap_box(const ReadingGap& gap, const Points& winter, const Plot& plot) {
  const double x0 = plot.x.clamped(plot.x(gap.from)), x1 = plot.x.clamped(plot.x(gap.until));
  if (x1 - x0 < 0.8) return std::nullopt;  // too short to be seen
  const double top = height_at(winter, (x0 + x1) / 2.0).value_or(plot.bottom) - 9.0;
  return Rect{pt_at(x0, top), {Length::points(x1 - x0), Length::points(plot.bottom - top)}};
}

void draw_gaps(Frame& frame, const ChillBuildUp& c, const Points& winter, Obstacles& room,
               const Plot& plot, const Pen& pen) {
  for (const ReadingGap& gap : c.gaps) {
    const auto box = gap_box(gap, winter, plot);
    if (!box) continue;
    hatch_rect(frame, *box, pen.style.area_hatch);
    room.box(*box);
  }
}

void label_gaps(Frame& frame, const ChillBuildUp& c, const Points& winter, Obstacles& room,
                const Plot& plot, const Pen& pen, std::vector<std::string>& left_out) {
  for (const ReadingGap& gap : c.gaps) {
    const auto hatched = gap_box(gap, winter, plot);
    const WordBlock block = word_block(gap.label, pen.style.note, pen);
    if (!hatched || block.lines.empty()) continue;
    const double mid = (hatched->left() + hatched->right()).pt() / 2.0, top = hatched->top().pt();
    std::vector<Point> places;
    for (double up = 12.0; top - up - block.height > plot.top; up += 3.0) {
      for (const double shift : {0.0, 0.25, -0.25, 0.4, -0.4}) {
        const double left = mid - block.width / 2.0 + shift * block.width;
        places.push_back(pt_at(std::max(left, plot.x.left + 2.0), top - up - block.height));
      }
    }
    const auto box = room.take(places, block, 2.0);
    if (!box) {
      left_out.insert(left_out.end(), block.lines.begin(), block.lines.end());
      continue;
    }
    const Points pointer = {pt_at(mid, box->bottom().pt() + 1.0), pt_at(mid, top)};
    line_mark(frame, pointer, pen.style.leader);
    room.line(pointer);
    write_block(frame, block, *box, Align::centre, pen.style.note, pen);
  }
}

/// The last reading: a dot, what missing hours may add, and its words on a pointer below it or
/// above.
void draw_last(Frame& frame, const ChillBuildUp& c, Obstacles& room, const Plot& plot,
               const Pen& pen, std::vector<std::string>& left_out) {
  const auto& last = *c.last;
  const double x = plot.x.clamped(plot.x(last.recorded.at)), y = plot.y(last.recorded.amount);
  const TextStyle look = pen.style.note.bold().in(pen.style.violet);
  const WordBlock block = word_block(last.label, look, pen);
  std::vector<Point> places;
  const auto offer = [&](double top) {
    for (const double share : {0.5, 0.7, 0.3, 0.9, 0.1, 1.0, 0.0}) {
      const double left = std::min(x - block.width * share, plot.x.right - block.width - 1.0);
      places.push_back(pt_at(std::max(left, plot.x.left + 2.0), top));
    }
  };
  for (double down = 16.0; y + down + block.height < plot.bottom - 1.0; down += 3.0)
    offer(y + down);
  for (double up = 14.0; y - up - block.height > plot.top; up += 3.0) offer(y - up - block.height);
  // A pointer through other words would join what does not belong together.
  std::erase_if(places, [&](Point p) {
    const double end = p.y.pt() > y ? p.y.pt() : p.y.pt() + block.height;
    return room.strict.meets_box(pt_at(x, y), pt_at(x, end));
  });
  if (!block.lines.empty()) {
    if (const auto box = room.take(places, block, 2.0)) {
      const bool below = box->top().pt() > y;
      const double end = below ? box->top().pt() - 1.0 : box->bottom().pt() + 1.0;
      line_mark(frame, {pt_at(x, y), pt_at(x, end)}, pen.style.leader);
      write_block(frame, block, *box, Align::centre, look, pen);
    } else {
      left_out.insert(left_out.end(), block.lines.begin(), block.lines.end());
    }
  }
  if (last.with_gaps) {
    whisker_mark(frame, x, plot.y(last.with_gaps->high), y, 2.5,
                 {Length::points(0.9), pen.style.violet});
  }
  dot_mark(frame, x, y, 2.5, pen.style.violet);
}

// ---- the whole ----------------------------------------------------------------------------------

/// Everything inside the plot, from the back to the front.
void draw_plot(Frame& frame, const ChillBuildUp& c, const Plot& plot, const Pen& pen,
               std::vector<std::string>& left_out) {
  const Style& style = pen.style;
  const Rect inside{pt_at(plot.x.left + 2.0, plot.top - 6.0),
                    {Length::points(plot.x.right - plot.x.left - 2.0),
                     Length::points(plot.bottom - plot.top + 5.0)}};
  Obstacles room{FreeRoom(inside), FreeRoom(inside), {}};

  const Points median = c.median ? curve_points(*c.median, plot) : Points{};
  if (c.middle_low && c.middle_high) {
    const Points upper = curve_points(*c.middle_high, plot),
                 lower = curve_points(*c.middle_low, plot);
    band_mark(frame, upper, lower, style.band);
    room.strict.occupy_line(upper);
    room.strict.occupy_line(lower);
  }
  for (const auto& extreme : c.extremes) {
    const Points curve = curve_points(extreme.curve, plot);
    line_mark(frame, curve, style.extreme);
    room.line(curve);
  }
  line_mark(frame, median, style.median);
  room.line(median);

  const Points winter = winter_points(c.this_winter, plot);
  room.line(winter);
  const Points as_past_winters = winter_points(c.as_past_winters, plot);
  room.line(as_past_winters);
  if (c.forecast) {
    // From what the winter may have had by now, its gaps with it.
    const double recorded = c.last ? c.last->recorded.amount : 0.0;
    const double low = c.last && c.last->with_gaps ? c.last->with_gaps->low : recorded;
    const double high = c.last && c.last->with_gaps ? c.last->with_gaps->high : recorded;
    const auto fan = [&](const std::vector<double>& values, double from, const Stroke& stroke) {
      const Points line = forecast_points(c, values, from, plot);
      line_mark(frame, line, stroke);
      room.line(line);
    };
    fan(c.forecast->low, low, style.forecast_edge);
    fan(c.forecast->middle, (low + high) / 2.0, style.forecast_middle);
    fan(c.forecast->high, high, style.forecast_edge);
  }
  draw_gaps(frame, c, winter, room, plot, pen);
  // Words with the fewest places to choose from go first; they leave the way down from the last
  // reading free.
  if (c.last) {
    room.way = {pt_at(plot.x.clamped(plot.x(c.last->recorded.at)), plot.y(c.last->recorded.amount)),
                pt_at(plot.x.clamped(plot.x(c.last->recorded.at)), plot.bottom)};
  }
  label_extremes(frame, c, median, winter, room, plot, pen, left_out);
  room.way.clear();
  label_gaps(frame, c, winter, room, plot, pen, left_out);
  if (c.last) draw_last(frame, c, room, plot, pen, left_out);

  Stroke pencil = style.this_winter;
  pencil.join = LineJoin::round;
  line_mark(frame, winter, pencil);
  pencil.width = style.this_winter.width * kThinner;
  line_mark(frame, as_past_winters, pencil);
  for (const auto& need : c.needs) {
    if (need.met)
      ring_mark(frame, plot.x.clamped(plot.x(need.met->at)), plot.y(need.met->amount), style);
  }
}

/// One try at the whole with `foot` kept free under the axis; fills `left_out` with what found no
/// place.
Frame compose(const ChillBuildUp& c, Size room, double foot, const Pen& pen,
              std::vector<std::string>& left_out) {
  const Style& style = pen.style;
  const double width = room.width.pt();
  std::vector<NeedLine> lines = need_lines(c, pen);
  const TableWidths widths = lines.empty() ? TableWidths{} : table_widths(c, lines, width, pen);
  const double table_width = lines.empty() ? 0.0 : widths.total(style);
  const double table_left = width - table_width;
  const std::vector<std::string> note =
      pen.wrapped(pen.say(c.note), lines.empty() ? width : table_width, style.note);
  const double note_height =
      note.empty() ? 0.0 : 4.0 + kNoteLeading * static_cast<double>(note.size());

  double height = room.height.pt();
  if (height <= 0.0) {
    const double table =
        kHeadRoom + style.label_gap.pt() * static_cast<double>(lines.size()) + note_height + foot;
    height = std::max(width * 0.46, std::min(table, width));
  }
  const double table_bottom = height - foot - note_height;
  const auto capacity = static_cast<std::size_t>(std::max(
      1.0,
      std::floor((table_bottom - kHeadRoom - pen.cap(style.note)) / style.label_gap.pt()) + 1.0));
  join_equals(lines, capacity);
  left_out = leave_out(lines, capacity);

  // The scale is found before the plot's left edge, which depends on how wide the numbers are.
  Plot plot;
  plot.top = kHeadRoom;
  plot.bottom = height - foot - kTimeAxisHeight;
  const Length tall = Length::points(std::max(20.0, plot.bottom - plot.top));
  const double end = round_end(0.0, highest(c), tall, kTickRoom);
  const Ticks marks = ticks(0.0, end, tall, kTickRoom);
  plot.y = {0.0, end, plot.bottom, plot.top};
  const double left = value_axis_width(marks, pen);
  const double right =
      lines.empty() ? width - 3.0 : table_left - kLeaderRoom - kLanePitch * (kLanes - 1) - 5.0;
  plot.x = {c.days.from, c.days.to, left, right};

  Frame frame({room.width, Length::points(height)});
  draw_plot(frame, c, plot, pen, left_out);
  value_axis(frame, left, plot.y, marks, pen);
  time_axis(frame, plot.bottom, plot.x, pen);
  if (lines.empty()) return frame;

  const double head = kHeadRoom - 4.0;
  double at = table_left + style.label_square.pt() + 4.0 + widths.name;
  if (widths.figure > 0) {
    at += TableWidths::kGap + widths.figure;
    pen.write(frame, at, head, Align::right, pen.say(c.needs_head), style.unit_line);
  }
  if (widths.when > 0) {
    at += TableWidths::kGap + widths.when;
    pen.write(frame, at, head, Align::right, pen.say(c.when_head), style.unit_line);
  }
  draw_needs(frame, lines, widths, table_left, table_bottom, plot, pen);
  double y = table_bottom + 4.0 + 7.5;
  for (const std::string& line : note) {
    pen.write(frame, table_left, y, Align::left, line, style.unit_line);
    y += kNoteLeading;
  }
  return frame;
}

}  // namespace

Frame draw(const ChillBuildUp& c, Size room, const Pen& pen) {
  // What finds no place is listed under the chart, which takes room from it: tried until the list
  // fits.
  double foot = 0.0;
  for (int attempt = 0;; ++attempt) {
    std::vector<std::string> left_out;
    Frame frame = compose(c, room, foot, pen, left_out);
    const std::vector<std::string> tail = left_out_lines(left_out, room.width.pt(), pen);
    const double needed = kNoteLeading * static_cast<double>(tail.size());
    if (needed > foot && attempt < 3) {
      foot = needed;
      continue;
    }
    double y = frame.height().pt() - foot + 8.0;
    for (const std::string& line : tail) {
      if (y > frame.height().pt()) break;
      pen.write(frame, 0.0, y, Align::left, line, pen.style.unit_line);
      y += kNoteLeading;
    }
    return frame;
  }
}

}  // namespace winterfolio
