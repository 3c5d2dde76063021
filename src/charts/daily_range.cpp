// The lowest and highest temperature of each day. What lies under the freezing line, between it and
// the chill line, and over the warm line is told apart by colour, width and place at once; events
// hang in a strip at the foot.
#include <algorithm>
#include <cmath>

#include "charts/kinds.h"
#include "charts/labels.h"
#include "charts/marks.h"

namespace winterfolio {
namespace {

constexpr double kOwnHeight = 160.0;
constexpr double kEventLine = 11.0;  // height of one line of events
constexpr Length kTickRoom = Length::points(20);

double shown(Celsius t, DegreeScale scale) {
  return scale == DegreeScale::fahrenheit ? t.fahrenheit() : t.degrees();
}

/// The lines that matter, on the chart's scale.
struct Lines {
  double freezing, chill, warm;
};

struct Ends {
  double low, high;
};
Ends ends(const DailyRange& c, const Lines& lines) {
  Ends e{lines.freezing, lines.warm};
  for (const auto& day : c.values) {
    e.low = std::min(e.low, shown(day.low, c.scale));
    e.high = std::max(e.high, shown(day.high, c.scale));
  }
  const auto curve = [&](const std::optional<DailyCurve>& usual) {
    if (!usual) return;
    for (const double v : usual->values) {
      e.low = std::min(e.low, shown(Celsius(v), c.scale));
      e.high = std::max(e.high, shown(Celsius(v), c.scale));
    }
  };
  curve(c.usual_low);
  curve(c.usual_high);
  return e;
}

/// A day as up to four pieces: warm on top, a thin stem, cold, frost.
void draw_day(Frame& frame, double low, double high, double x, double width, const Scale& y,
              const Lines& lines, const Style& style) {
  const double mid = x + width / 2.0;
  const double bar = std::min(2.8, std::max(0.8, width * 0.62));
  const auto part = [&](double from, double to) {
    return Ends{std::max(low, from), std::min(high, to)};
  };
  const Ends stem = part(lines.chill, lines.warm);
  if (stem.high > stem.low)
    frame.line(pt_at(mid, y(stem.low)), pt_at(mid, y(stem.high)),
               {Length::points(1.0), style.stem});
  const Ends warm = part(lines.warm, 1e9);
  if (warm.high > warm.low) {
    const double wide = std::min(std::max(bar, 2.2) + 1.0, width * 0.95);
    if (y(warm.low) - y(warm.high) > 1.2)
      tinted_bar(frame, mid - wide / 2.0, y(warm.high), mid + wide / 2.0, y(warm.low), style);
    else
      bar_mark(frame, mid - wide / 2.0, y(warm.high), mid + wide / 2.0, y(warm.low), style.orange);
  }
  const Ends cold = part(lines.freezing, lines.chill);
  if (cold.high > cold.low)
    bar_mark(frame, mid - bar / 2.0, y(cold.high), mid + bar / 2.0, y(cold.low), style.violet);
  const Ends frost = part(-1e9, lines.freezing);
  if (frost.high > frost.low)
    bar_mark(frame, mid - bar / 2.0, y(frost.high), mid + bar / 2.0, y(frost.low), style.orange);
}

std::vector<Point> usual_line(const DailyCurve& curve, DegreeScale scale, const TimeScale& x,
                              const Scale& y) {
  std::vector<Point> line;
  for (std::size_t i = 0; i < curve.values.size(); ++i) {
    const Date day = plus_days(curve.first, static_cast<int>(i));
    if (x.holds(day))
      line.push_back(pt_at(x.middle(day), y(shown(Celsius(curve.values[i]), scale))));
  }
  return line;
}

/// Words in the strip at the foot: an event's beside its pole, a gap's in the middle under its
/// hatch.
struct Flag {
  double x = 0.0;
  std::string label;
  double width = 0.0;
  bool pole = true;
  int line = 0;
  double left = 0.0;
  double right() const { return left + width; }
};

/// Whether two flags can stand as they are. A pole runs from the plot down to its own words, past
/// the lines above them.
bool apart(const Flag& a, const Flag& b) {
  if (a.line == b.line && a.left < b.right() + 5.0 && b.left < a.right() + 5.0) return false;
  const auto pole_hits = [](const Flag& pole, const Flag& words) {
    return pole.pole && words.line <= pole.line && pole.x > words.left - 2.5 &&
           pole.x < words.right() + 2.5;
  };
  return !pole_hits(a, b) && !pole_hits(b, a);
}

/// Finds a place for every flag from `next` on, trying each line and each side; stops at the first
/// way that works, or when `tries` are used up.
bool place_all(std::vector<Flag>& flags, std::size_t next, const TimeScale& x, int lines,
               int& tries) {
  if (next == flags.size()) return true;
  Flag& flag = flags[next];
  const double sides[] = {flag.pole ? flag.x + 3.0 : flag.x - flag.width / 2.0,
                          flag.x - 3.0 - flag.width};
  for (flag.line = 0; flag.line < lines; ++flag.line) {
    for (int side = 0; side < (flag.pole ? 2 : 1); ++side) {
      flag.left = sides[side];
      if (flag.left < x.left + 1.0 || flag.right() > x.right || --tries < 0) continue;
      const bool clear =
          std::all_of(flags.begin(), flags.begin() + static_cast<std::ptrdiff_t>(next),
                      [&](const Flag& other) { return apart(flag, other); });
      if (clear && place_all(flags, next + 1, x, lines, tries)) return true;
    }
  }
  return false;
}

/// Places all flags on as few lines as will do; if three will not, the last events go without, and
/// are returned.
std::vector<std::string> place_flags(std::vector<Flag>& flags, const TimeScale& x) {
  std::vector<std::string> left_out;
  for (;;) {
    for (int lines = 1; lines <= 3; ++lines) {
      int tries = 20000;
      if (place_all(flags, 0, x, lines, tries)) return left_out;
    }
    left_out.insert(left_out.begin(), flags.back().label);
    flags.pop_back();
  }
}

void threshold(Frame& frame, double value, const Text& label, const TimeScale& x, const Scale& y,
               const Pen& pen) {
  frame.line(pt_at(x.left, y(value)), pt_at(x.right, y(value)),
             {Length::points(0.6), pen.style.black});
  pen.write(frame, x.right + 4.0, y(value) + pen.cap(pen.style.note) / 2.0, Align::left,
            pen.say(label), pen.style.note);
}

}  // namespace

Frame draw(const DailyRange& c, Size room, const Pen& pen) {
  const Style& style = pen.style;
  const Lines lines{shown(kFreezing, c.scale), shown(kChillLine, c.scale),
                    shown(kWarmLine, c.scale)};
  const TimeScale x{c.days.from, c.days.to, DayAxis::kLeft, room.width.pt() - DayAxis::kRight};

  std::vector<Flag> flags;
  const auto flag = [&](double at, std::string label, bool pole) {
    const double wide = pen.width(label, style.note);
    if (!label.empty()) flags.push_back({at, std::move(label), wide, pole, 0, 0.0});
  };
  for (const ReadingGap& gap : c.gaps) {
    const double from = x.clamped(x(gap.from)), to = x.clamped(x(gap.until));
    if (to - from >= 0.8 && !gap.label.empty())
      flag((from + to) / 2.0, pen.say(gap.label.front()), false);
  }
  for (const auto& event : c.events) {
    if (x.holds(event.on)) flag(x.middle(event.on), pen.say(event.label), true);
  }
  const std::vector<std::string> tail =
      left_out_lines(place_flags(flags, x), room.width.pt() - x.left, pen);
  int event_lines = 0;
  for (const Flag& f : flags) event_lines = std::max(event_lines, f.line + 1);

  const double foot = kEventLine * static_cast<double>(tail.size());
  const double strip = event_lines > 0 ? kEventLine * event_lines + 4.0 : 3.0;
  const double height =
      room.height > Length{} ? room.height.pt() : kOwnHeight + strip + foot + kTimeAxisHeight;
  const double top = 4.0, axis = height - foot - kTimeAxisHeight, bottom = axis - strip;
  const Ends e = ends(c, lines);
  const Length tall = Length::points(bottom - top);
  const Ticks marks = ticks(e.low, e.high, tall, kTickRoom);
  const double margin = (e.high - e.low) * 0.03;
  const Scale y{e.low - margin, e.high + margin, bottom, top};

  Frame frame({room.width, Length::points(height)});
  for (const ReadingGap& gap : c.gaps) {
    const double from = x.clamped(x(gap.from)), to = x.clamped(x(gap.until));
    if (to - from < 0.8) continue;
    hatch_rect(frame, {pt_at(from, top), {Length::points(to - from), Length::points(bottom - top)}},
               style.area_hatch);
  }
  for (const auto& day : c.values) {
    if (!x.holds(day.date)) continue;
    draw_day(frame, shown(day.low, c.scale), shown(day.high, c.scale), x(day.date), x.day_width(),
             y, lines, style);
  }
  threshold(frame, lines.freezing, c.freezing_label, x, y, pen);
  threshold(frame, lines.chill, c.chill_label, x, y, pen);
  threshold(frame, lines.warm, c.warm_label, x, y, pen);
  if (c.usual_low) line_mark(frame, usual_line(*c.usual_low, c.scale, x, y), style.median);
  if (c.usual_high) line_mark(frame, usual_line(*c.usual_high, c.scale, x, y), style.median);

  for (const Flag& f : flags) {
    const double baseline = bottom + 2.0 + kEventLine * (f.line + 1) - 2.5;
    if (f.pole)
      frame.line(pt_at(f.x, bottom + 1.0), pt_at(f.x, baseline + 2.0),
                 {Length::points(0.8), style.black});
    pen.write(frame, f.left, baseline, Align::left, f.label, style.note);
  }
  value_axis(frame, x.left, y, Ticks{marks.values, 1e9, marks.decimals}, pen);
  frame.line(pt_at(x.left, bottom), pt_at(x.left, axis), style.axis);
  time_axis(frame, axis, x, pen);
  double line_y = height - foot + 8.0;
  for (const std::string& line : tail) {
    pen.write(frame, x.left, line_y, Align::left, line, style.unit_line);
    line_y += kEventLine;
  }
  return frame;
}

}  // namespace winterfolio
