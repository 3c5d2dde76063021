// Amounts as bars with their numbers on them: the gain of each week, winters in order of their
// cold, and one tree's need.
#include <algorithm>

#include "charts/kinds.h"
#include "charts/labels.h"
#include "charts/marks.h"

namespace winterfolio {
namespace {

constexpr double kWeeksHeight = 78.0;
constexpr double kFigureLine = 9.0;                 // between figures over neighbouring bars
constexpr Length kFigureGap = Length::points(1.5);  // beside them
constexpr double kRankPitch = 12.2;
constexpr double kRankBar = 8.6;

/// Whether neighbouring weeks' figures are too wide to stand side by side, so that every other one
/// must stand a line higher.
bool crowded(const WeeklyGain& c, const TimeScale& x, const Pen& pen) {
  double before = -1e9;  // where the figure of the week before ends
  for (const auto& week : c.weeks) {
    const double mid = (x.clamped(x(week.days.from)) + x.clamped(x.end(week.days.to))) / 2.0;
    const double half = pen.width(pen.say(week.figure), pen.style.tiny) / 2.0;
    if (mid - half < before + kFigureGap.pt()) return true;
    before = mid + half;
  }
  return false;
}

}  // namespace

Frame draw(const WeeklyGain& c, Size room, const Pen& pen) {
  const Style& style = pen.style;
  const double height = room.height > Length{} ? room.height.pt() : kWeeksHeight + kTimeAxisHeight;
  const TimeScale x{c.days.from, c.days.to, DayAxis::kLeft, room.width.pt() - DayAxis::kRight};
  const double bottom = height - kTimeAxisHeight;
  const double top = pen.cap(style.note) + 5.0 + (crowded(c, x, pen) ? kFigureLine : 0.0);
  double most = 1e-9;
  for (const auto& week : c.weeks)
    most = std::max({most, week.gain.high, week.median.value_or(0.0)});
  const Scale y{0.0, most, bottom, top};

  Frame frame({room.width, Length::points(height)});
  FreeRoom figures({{}, frame.size()});
  for (const auto& week : c.weeks) {
    const double left = x.clamped(x(week.days.from)), right = x.clamped(x.end(week.days.to));
    const double air = (right - left) * 0.09;
    const double x0 = left + air, x1 = right - air, mid = (left + right) / 2.0;
    const double recorded = y(std::max(0.0, week.gain.low)),
                 possible = y(std::max(0.0, week.gain.high));
    if (bottom - recorded > 0.3) bar_mark(frame, x0, recorded, x1, bottom, style.violet);
    if (recorded - possible > 0.8)
      hatched_bar(frame, x0, possible, x1, recorded, style.violet, style);
    double label = std::min(recorded, possible);
    if (week.median) {
      const double m = y(std::max(0.0, *week.median));
      frame.line(pt_at(left + air * 0.3, m), pt_at(right - air * 0.3, m),
                 {Length::points(3.0), style.white});
      frame.line(pt_at(left + air * 0.3, m), pt_at(right - air * 0.3, m),
                 {Length::points(1.2), style.black});
      label = std::min(label, m - 0.6);
    }
    const std::string figure = pen.say(week.figure);
    const TextStyle look =
        pen.width(figure, style.note) <= right - left - kFigureGap.pt() ? style.note : style.tiny;
    // A figure wider than its week stands a line higher where its neighbour's is in the way.
    const double w = pen.width(figure, look), cap = pen.cap(look);
    const double lowest = label - 3.0 - cap;
    const std::vector<Point> places = {pt_at(mid - w / 2.0, lowest),
                                       pt_at(mid - w / 2.0, lowest - kFigureLine),
                                       pt_at(mid - w / 2.0, lowest - 2.0 * kFigureLine)};
    const auto box = figures.take(places, {Length::points(w), Length::points(cap)}, kFigureGap);
    if (box) pen.write(frame, box->left().pt(), box->bottom().pt(), Align::left, figure, look);
  }
  time_axis(frame, bottom, x, pen);
  return frame;
}

Frame draw(const RankedWinters& c, Size room, const Pen& pen) {
  const Style& style = pen.style;
  double names = 0.0, figures = 0.0, most = 1e-9;
  for (const auto& row : c.rows) {
    const TextStyle look = row.at_hand ? style.note.bold() : style.note;
    names = std::max(names, pen.width(pen.say(row.name), look));
    figures = std::max(figures, pen.width(pen.say(row.figure), look));
    most = std::max(most, row.amount.high);
  }
  const double left = names + 6.0, right = room.width.pt() - figures - 6.0;
  const double height = kRankPitch * static_cast<double>(c.rows.size()) + 2.0;
  const Scale x{0.0, most, left, std::max(left + 10.0, right)};
  Frame frame({room.width, Length::points(height)});
  double middle = 1.0 + kRankPitch / 2.0;
  for (const auto& row : c.rows) {
    const TextStyle look = row.at_hand ? style.note.bold() : style.note;
    const Colour ink = row.at_hand ? style.violet : style.past;
    const double baseline = middle + pen.cap(look) / 2.0, y0 = middle - kRankBar / 2.0,
                 y1 = middle + kRankBar / 2.0;
    pen.write(frame, names, baseline, Align::right, pen.say(row.name), look);
    // A sum below nothing has no bar; its figure stands where bars begin.
    double end = x(std::max(0.0, row.amount.low));
    const double possible = x(std::max(0.0, row.amount.high));
    if (end > left) bar_mark(frame, left, y0, end, y1, ink);
    if (possible - end > 0.8) {
      hatched_bar(frame, end, y0, possible, y1, ink, style);
      end = possible;
    }
    pen.write(frame, end + 4.0, baseline, Align::left, pen.say(row.figure), look);
    middle += kRankPitch;
  }
  frame.line(pt_at(left, 0.0), pt_at(left, height), style.axis);
  return frame;
}

std::optional<std::pair<RankedWinters, RankedWinters>> parted(const RankedWinters& c, Size room,
                                                              const Pen&) {
  const auto fits = static_cast<std::size_t>(std::max(0.0, (room.height.pt() - 2.0) / kRankPitch));
  if (fits == 0 || fits >= c.rows.size()) return std::nullopt;
  const auto cut = c.rows.begin() + static_cast<std::ptrdiff_t>(fits);
  return std::pair{RankedWinters{{c.rows.begin(), cut}}, RankedWinters{{cut, c.rows.end()}}};
}

Frame draw(const NeedBar& c, Size room, const Pen& pen) {
  const Style& style = pen.style;
  const double width = room.width.pt();
  constexpr double kTop = 11.5, kBar = 6.0, kHeight = 29.5;
  const double bottom = kTop + kBar, under = bottom + 4.5 + pen.cap(style.note);
  const Scale x{0.0, c.scale_end, 0.0, width};
  const auto at = [&](double amount) { return std::clamp(x(amount), 0.0, width); };

  Frame frame({room.width, Length::points(kHeight)}, Length::points(under));
  frame.line(pt_at(0.0, bottom), pt_at(width, bottom), {Length::points(0.4), style.secondary});
  bar_mark(frame, 0.0, kTop, at(c.has.low), bottom, style.violet);
  if (at(c.has.high) - at(c.has.low) > 0.8)
    hatched_bar(frame, at(c.has.low), kTop, at(c.has.high), bottom, style.violet, style);
  if (c.likely) {
    const double from = at(c.likely->low),
                 to = std::max(at(c.likely->high), at(c.likely->low) + 1.5);
    const double has = at(c.has.high);
    if (from - has > 2.0)
      frame.line(pt_at(has + 2.0, kTop + kBar / 2.0), pt_at(from, kTop + kBar / 2.0),
                 style.no_date);
    outlined_bar(frame, from, kTop, to, bottom, {Length::points(0.7), style.violet, Dash{1, 1}});
  }
  if (c.utmost && at(c.utmost->high) - at(c.utmost->low) > 2.0)
    error_mark(frame, at(c.utmost->low), at(c.utmost->high), kTop + kBar / 2.0, style);
  double making_end = 0.0;
  if (!c.making.empty())
    making_end = pen.write(frame, 0.0, kTop - 5.0, Align::left, pen.say(c.making),
                           style.note.in(style.secondary))
                     .right()
                     .pt() +
                 6.0;
  if (c.need) {
    const double from = at(c.need->low), to = at(c.need->high);
    const Stroke stroke = c.need_from_memory ? style.bracket_unsure : style.bracket;
    if (to - from < 2.0)
      frame.line(pt_at(from, kTop - 3.0), pt_at(from, bottom + 2.5), stroke);
    else
      bracket_mark(frame, from, to, kTop - 3.0, bottom + 2.5, stroke);
    const std::string label = pen.say(c.need_label);
    const double half = pen.width(label, style.note) / 2.0;
    const double least = std::min(making_end + half, width - half);
    pen.write(frame, std::clamp((from + to) / 2.0, least, std::max(least, width - half)),
              kTop - 5.0, Align::centre, label, style.note);
  }

  // Under the bar: the measure at the left, what is likely at its place, what there is between them
  // where it fits.
  const std::string measure = pen.say(c.measure), has = pen.say(c.has_label),
                    likely = pen.say(c.likely_label);
  double free_from =
      pen.write(frame, 0.0, under, Align::left, measure, style.note.in(style.secondary))
          .right()
          .pt() +
      6.0;
  double free_to = width;
  const double has_width = pen.width(has, style.note);
  const double likely_width = pen.width(likely, style.note);
  if (c.likely && !likely.empty() && free_from + has_width + 6.0 + likely_width <= width) {
    const double w = likely_width;
    const double middle = (at(c.likely->low) + at(c.likely->high)) / 2.0;
    const double left =
        std::clamp(middle - w / 2.0, std::min(free_from + has_width + 6.0, width - w), width - w);
    pen.write(frame, left, under, Align::left, likely, style.note);
    free_to = left - 6.0;
  }
  const double w = pen.width(has, style.note);
  if (free_to - free_from >= w) {
    pen.write(frame, std::clamp(at(c.has.low) - w / 2.0, free_from, free_to - w), under,
              Align::left, has, style.note);
  }
  return frame;
}

}  // namespace winterfolio
