// What the season does to a tree, as bars along the days: the strip of its card, the row of a
// calendar, and the key that says what the bars mean.
#include <algorithm>

#include "charts/kinds.h"
#include "charts/marks.h"

namespace winterfolio {
namespace {

constexpr double kBar = 4.6;    // height of a phase
constexpr double kBloom = 6.6;  // bloom stands out
constexpr double kStripRow = 10.8;
constexpr double kStripLabel = 33.0;
constexpr double kRow = 13.0;  // of a calendar
constexpr double kGroupGap = 6.5;
constexpr double kHead = 26.0;  // months and workdays over the rows
constexpr double kFoot = 14.0;  // names of lines under them

/// One phase of the buds as a bar about `y`.
void phase_mark(Frame& frame, BudPhase phase, double x0, double x1, double y, const Style& style) {
  if (x1 - x0 < 0.4) return;
  const double h = kBar / 2.0, b = kBloom / 2.0;
  switch (phase) {
    case BudPhase::resting:
      // White inside, so that lines behind the rows do not read as part of it.
      bar_mark(frame, x0, y - h, x1, y + h, style.white);
      outlined_bar(frame, x0, y - h, x1, y + h, style.outline(style.violet));
      break;
    case BudPhase::likely_met: {
      bar_mark(frame, x0, y - h, x1, y + h, style.white);
      Hatch hatch = style.small_hatch;
      hatch.stroke.colour = style.violet;
      hatch_rect(frame, {pt_at(x0, y - h), {Length::points(x1 - x0), Length::points(2.0 * h)}},
                 hatch);
      break;
    }
    case BudPhase::met:
      bar_mark(frame, x0, y - h, x1, y + h, style.violet);
      break;
    case BudPhase::swelling:
      tinted_bar(frame, x0, y - h, x1, y + h, style);
      break;
    case BudPhase::bloom:
      bar_mark(frame, x0, y - b, x1, y + b, style.orange);
      break;
    case BudPhase::bloom_estimated:
      hatched_bar(frame, x0, y - b, x1, y + b, style.orange, style);
      break;
    case BudPhase::no_date:
      frame.line(pt_at(x0, y), pt_at(x1, y), style.no_date);
      break;
  }
}

void phases(Frame& frame, const std::vector<PhaseSpan>& spans, const TimeScale& x, double y,
            const Style& style) {
  for (const PhaseSpan& span : spans) {
    if (span.days.to < x.first || span.days.from > x.last) continue;
    phase_mark(frame, span.phase, x.clamped(x(span.days.from)), x.clamped(x.end(span.days.to)), y,
               style);
  }
}

void frost_mark(Frame& frame, double x, double width, double y, const Style& style) {
  // Nights in a row stay apart, to be counted.
  const double w = std::max(0.7, std::min(2.4, width * 0.62));
  bar_mark(frame, x - w / 2.0, y - 4.0, x + w / 2.0, y + 4.0, style.orange);
}

void work_mark(Frame& frame, double x, double y, bool done, double side, const Style& style) {
  const double h = side / 2.0;
  if (done) {
    bar_mark(frame, x - h, y - h, x + h, y + h, style.black);
    return;
  }
  frame.add(DrawnPath{rectangle_path({pt_at(x - h + 0.5, y - h + 0.5),
                                      {Length::points(side - 1.0), Length::points(side - 1.0)}}),
                      style.white, Stroke{Length::points(1.0), style.black}});
}

void window_mark(Frame& frame, const DaySpan& window, const TimeScale& x, double y, double half,
                 const Style& style) {
  if (window.to < x.first || window.from > x.last) return;
  span_mark(frame, x.clamped(x(window.from)), x.clamped(x.end(window.to)), y, half, style.bracket);
}

}  // namespace

Frame draw(const SeasonStrip& c, Size room, const Pen& pen) {
  const Style& style = pen.style;
  const double labels = std::max({kStripLabel, pen.width(pen.say(c.buds_label), style.note) + 6.0,
                                  pen.width(pen.say(c.frost_label), style.note) + 6.0,
                                  pen.width(pen.say(c.work_label), style.note) + 6.0});
  const TimeScale x{c.days.from, c.days.to, labels, room.width.pt()};
  const double buds = kStripRow / 2.0, frost = buds + kStripRow, work = frost + kStripRow,
               axis = 3.0 * kStripRow + 2.0;
  const double height = axis + 11.0;
  const double half_cap = pen.cap(style.note) / 2.0;

  Frame frame({room.width, Length::points(height)},
              Length::points(axis + 3.0 + pen.cap(style.note)));
  pen.write(frame, 0.0, buds + half_cap, Align::left, pen.say(c.buds_label),
            style.note.in(style.secondary));
  pen.write(frame, 0.0, frost + half_cap, Align::left, pen.say(c.frost_label),
            style.note.in(style.secondary));
  pen.write(frame, 0.0, work + half_cap, Align::left, pen.say(c.work_label),
            style.note.in(style.secondary));
  const std::string words = pen.say(c.work_words);
  const double words_left = x.right - pen.width(words, style.note);
  for (const MonthPart& part : months_of(x.first, x.last)) {
    const double at = x(part.first);
    // Month lines stop above words that stand in the last row.
    frame.line(pt_at(at, 0.0),
               pt_at(at, !words.empty() && at > words_left - 3.0 ? work - kStripRow / 2.0 : axis),
               style.month_line);
    const std::string name = pen.words.month_brief(static_cast<unsigned>(part.first.month()));
    if (pen.width(name, style.note) <= x.end(part.last) - at - 2.0) {
      pen.write(frame, (at + x.end(part.last)) / 2.0, axis + 3.0 + pen.cap(style.note),
                Align::centre, name, style.note);
    }
  }
  frame.line(pt_at(x.right, 0.0), pt_at(x.right, words.empty() ? axis : work - kStripRow / 2.0),
             style.month_line);

  phases(frame, c.buds, x, buds, style);
  if (c.frost_possible && c.frost_possible->to >= x.first && c.frost_possible->from <= x.last) {
    frame.line(pt_at(x.clamped(x(c.frost_possible->from)), frost),
               pt_at(x.clamped(x.end(c.frost_possible->to)), frost), style.frost_possible);
  }
  for (const Date night : c.frost_nights) {
    if (x.holds(night)) frost_mark(frame, x.middle(night), x.day_width(), frost, style);
  }
  if (!words.empty()) {
    pen.write(frame, x.right, work + half_cap, Align::right, words, style.note);
  } else if (c.pruning) {
    window_mark(frame, *c.pruning, x, work, 3.0, style);
  }
  if (c.last_reading && x.holds(*c.last_reading)) {
    const double at = x.end(*c.last_reading);
    const bool on_words = !words.empty() && at > words_left - 3.0;
    frame.line(pt_at(at, 0.0), pt_at(at, on_words ? work - kStripRow / 2.0 : axis),
               style.last_reading);
  }
  for (const WorkMark& mark : c.work) {
    if (words.empty() && x.holds(mark.on))
      work_mark(frame, x.middle(mark.on), work, mark.done, 5.0, style);
  }
  return frame;
}

Frame draw(const SeasonCalendar& c, Size room, const Pen& pen) {
  const Style& style = pen.style;
  double species = 0.0, ids = 0.0, names = 0.0;
  double when = pen.width(pen.say(c.right_head), style.unit_line);
  std::size_t rows = 0;
  for (const auto& group : c.groups) {
    species = std::max(species, pen.width(pen.say(group.species), style.note));
    for (const auto& row : group.rows) {
      ids = std::max(ids, pen.width(row.id, style.note.bold()));
      names = std::max(names, pen.width(pen.say(row.name), style.note));
      when = std::max(when, pen.width(pen.say(row.when), style.note));
    }
    rows += group.rows.size();
  }
  const double width = room.width.pt();
  // Long names give way before the days do.
  names =
      std::min(names, std::max(50.0, std::min(width * 0.21, width * 0.5 - species - ids - when)));
  const double id_left = species + 12.0, name_left = id_left + ids + 7.0;
  const TimeScale x{c.days.from, c.days.to, name_left + names + 9.0, width - when - 8.0};
  const double groups_height =
      kRow * static_cast<double>(rows) +
      kGroupGap * static_cast<double>(c.groups.empty() ? 0 : c.groups.size() - 1);
  const double top = kHead, first = top + 6.0, bottom = first + groups_height + 1.0;
  const bool has_foot = c.last_reading || !c.last_frosts.empty();
  const double height = bottom + (has_foot ? kFoot : 1.0);
  Frame frame({room.width, Length::points(height)});

  // Behind the rows: months, frosts of past winters, workdays, the last reading.
  for (const MonthPart& part : months_of(x.first, x.last)) {
    const double at = x(part.first), to = x.end(part.last);
    frame.line(pt_at(at, 0.0), pt_at(at, bottom), style.month_line);
    const std::string name = pen.words.month_brief(static_cast<unsigned>(part.first.month()));
    if (pen.width(name, style.note) <= to - at - 4.0)
      pen.write(frame, (at + to) / 2.0, 9.0, Align::centre, name, style.note);
  }
  const double label_y = top - 4.0;
  // Words over the rows, on white where they cross a month's line.
  const auto over_lines = [&](double at, Align align, const std::string& label,
                              const TextStyle& look) {
    const double w = pen.width(label, look), left = align == Align::centre ? at - w / 2.0 : at;
    bar_mark(frame, left - 1.0, label_y - pen.cap(look) - 2.0, left + w + 1.0, label_y + 2.5,
             style.white);
    pen.write(frame, left, label_y, Align::left, label, look);
  };
  double taken_to = -1e9, taken_from = 1e9;
  for (const auto& line : c.workdays) {
    if (!x.holds(line.on)) continue;
    const double at = x.middle(line.on);
    frame.line(pt_at(at, top), pt_at(at, bottom), style.workday_line);
    const std::string label = pen.say(line.label);
    const double half = pen.width(label, style.note.bold()) / 2.0;
    if (at - half < taken_to + 3.0) continue;
    over_lines(at, Align::centre, label, style.note.bold());
    taken_to = at + half;
    taken_from = std::min(taken_from, at - half);
  }
  const std::string workdays = pen.say(c.workdays_label);
  if (taken_to > 0.0 && taken_to + 5.0 + pen.width(workdays, style.note) < x.right) {
    over_lines(taken_to + 5.0, Align::left, workdays, style.note);
    taken_to += 5.0 + pen.width(workdays, style.note);
  }
  if (!c.frost_nights.empty()) {
    double first_frost = 1e9, last_frost = -1e9;
    for (const Date night : c.frost_nights) {
      if (!x.holds(night)) continue;
      frost_mark(frame, x.middle(night), x.day_width(), label_y - 3.0, style);
      first_frost = std::min(first_frost, x(night));
      last_frost = std::max(last_frost, x.end(night));
    }
    // Before the first night, else behind the last one, wherever no workday's words stand.
    const std::string label = pen.say(c.frost_label);
    const double w = pen.width(label, style.note);
    for (const double left : {first_frost - 4.0 - w, last_frost + 4.0}) {
      const bool clear = left + w + 3.0 < taken_from || left > taken_to + 3.0;
      if (first_frost >= 1e9 || left <= x.left || left + w >= x.right || !clear) continue;
      over_lines(left, Align::left, label, style.note);
      break;
    }
  }
  double foot_free = -1e9;
  const auto foot_label = [&](double at, const Text& text) {
    const std::string label = pen.say(text);
    const double w = pen.width(label, style.note);
    // The last reading's words end at its line; the others stand centred, each clear of the one
    // before.
    const double left = std::max(at - w / 2.0, foot_free + 6.0);
    if (left + w > width || left > at) return;  // away from its line it would lie
    pen.write(frame, left, bottom + 3.5 + pen.cap(style.note), Align::left, label, style.note);
    foot_free = left + w;
  };
  if (c.last_reading && x.holds(c.last_reading->on)) {
    const double at = x.end(c.last_reading->on);
    const std::string label = pen.say(c.last_reading->label);
    pen.write(frame, at, bottom + 3.5 + pen.cap(style.note), Align::right, label, style.note);
    foot_free = at;
  }
  for (const auto& line : c.last_frosts) {
    if (!x.holds(line.on)) continue;
    frame.line(pt_at(x.middle(line.on), top), pt_at(x.middle(line.on), bottom),
               style.last_frost_line);
    foot_label(x.middle(line.on), line.label);
  }
  if (c.last_reading && x.holds(c.last_reading->on)) {
    frame.line(pt_at(x.end(c.last_reading->on), top), pt_at(x.end(c.last_reading->on), bottom),
               Stroke{Length::points(1.2)});
  }

  // The rows.
  double y = first + kRow / 2.0;
  const double half_cap = pen.cap(style.note) / 2.0;
  for (const auto& group : c.groups) {
    pen.write(frame, 0.0, y + half_cap, Align::left, pen.say(group.species), style.note);
    for (const auto& row : group.rows) {
      pen.write(frame, id_left, y + half_cap, Align::left, row.id, style.note.bold());
      pen.write(frame, name_left, y + half_cap, Align::left,
                pen.shortened(pen.say(row.name), names, style.note), style.note);
      pen.write(frame, width, y + half_cap, Align::right, pen.say(row.when), style.note);
      const double bar = y - 1.6, bracket = y + 3.4;
      if (row.evergreen)
        frame.line(pt_at(x.left, bar), pt_at(x.right, bar),
                   Stroke{Length::points(0.8), style.secondary, Dash{1, 2}});
      phases(frame, row.buds, x, bar, style);
      if (row.pruning) window_mark(frame, *row.pruning, x, bracket, 1.9, style);
      for (const WorkMark& mark : row.work) {
        if (x.holds(mark.on)) work_mark(frame, x.middle(mark.on), bracket, mark.done, 4.4, style);
      }
      y += kRow;
    }
    y += kGroupGap;
  }
  pen.write(frame, 0.0, label_y, Align::left, pen.say(c.left_head), style.unit_line);
  pen.write(frame, width, label_y, Align::right, pen.say(c.right_head), style.unit_line);
  frame.line(pt_at(0.0, top), pt_at(width, top), style.rule);
  frame.line(pt_at(0.0, bottom), pt_at(width, bottom), style.rule);
  return frame;
}

std::optional<std::pair<SeasonCalendar, SeasonCalendar>> parted(const SeasonCalendar& c, Size room,
                                                                const Pen&) {
  double left = room.height.pt() - kHead - 6.0 - 1.0 - kFoot;
  SeasonCalendar head = c, tail = c;
  head.groups.clear();
  tail.groups.clear();
  for (const auto& group : c.groups) {
    if (!tail.groups.empty()) {
      tail.groups.push_back(group);
      continue;
    }
    const double gap = head.groups.empty() ? 0.0 : kGroupGap;
    const double needs = gap + kRow * static_cast<double>(group.rows.size());
    if (needs <= left) {
      head.groups.push_back(group);
      left -= needs;
      continue;
    }
    // A species parts where at least three of its rows stand on either side, or where it is alone.
    auto fits = static_cast<std::ptrdiff_t>(std::max(0.0, (left - gap) / kRow));
    const auto all = static_cast<std::ptrdiff_t>(group.rows.size());
    if (!head.groups.empty() && (fits < 3 || all < 6)) fits = 0;
    if (!head.groups.empty() && all - fits < 3) fits = std::max<std::ptrdiff_t>(0, all - 3);
    if (fits > 0) {
      head.groups.push_back({group.species, {group.rows.begin(), group.rows.begin() + fits}});
      tail.groups.push_back({group.species, {group.rows.begin() + fits, group.rows.end()}});
    } else {
      tail.groups.push_back(group);
    }
  }
  if (head.groups.empty() || tail.groups.empty()) return std::nullopt;
  return std::pair{std::move(head), std::move(tail)};
}

Frame draw(const SeasonKey& c, Size room, const Pen& pen) {
  using Mark = SeasonKey::Mark;
  const Style& style = pen.style;
  constexpr double kLine = 13.0, kSample = 21.0, kAfter = 5.0, kBetween = 13.0;
  double x = 0.0, y = kLine / 2.0;
  Frame frame({room.width, {}});
  for (const auto& entry : c.entries) {
    const std::string label = pen.say(entry.label);
    const bool narrow = entry.mark == Mark::last_reading || entry.mark == Mark::done ||
                        entry.mark == Mark::planned || entry.mark == Mark::last_frost;
    const bool sign = entry.mark == Mark::sign;
    const double sample = sign ? 0.0 : narrow ? 6.0 : kSample;
    const double after = sign ? 0.0 : kAfter;
    const double whole = sample + after + pen.width(label, style.note);
    if (x > 0.0 && x + whole > room.width.pt()) {
      x = 0.0;
      y += kLine;
    }
    const double end = x + sample, mid = (x + end) / 2.0;
    switch (entry.mark) {
      case Mark::resting:
        phase_mark(frame, BudPhase::resting, x, end, y, style);
        break;
      case Mark::likely_met:
        phase_mark(frame, BudPhase::likely_met, x, end, y, style);
        break;
      case Mark::met:
        phase_mark(frame, BudPhase::met, x, end, y, style);
        break;
      case Mark::swelling:
        phase_mark(frame, BudPhase::swelling, x, end, y, style);
        break;
      case Mark::bloom:
        phase_mark(frame, BudPhase::bloom, x, end, y, style);
        break;
      case Mark::bloom_estimated:
        phase_mark(frame, BudPhase::bloom_estimated, x, end, y, style);
        break;
      case Mark::no_date:
        phase_mark(frame, BudPhase::no_date, x, end, y, style);
        break;
      case Mark::frost:
        for (int i = 0; i < 3; ++i) frost_mark(frame, x + 1.5 + 2.6 * i, 2.0, y, style);
        frame.line(pt_at(x + 9.5, y), pt_at(end, y), style.frost_possible);
        break;
      case Mark::last_reading:
        frame.line(pt_at(mid, y - 5.0), pt_at(mid, y + 5.0), style.last_reading);
        break;
      case Mark::pruning:
        span_mark(frame, x, end, y, 3.0, style.bracket);
        break;
      case Mark::done:
        work_mark(frame, mid, y, true, 5.0, style);
        break;
      case Mark::planned:
        work_mark(frame, mid, y, false, 5.0, style);
        break;
      case Mark::last_frost:
        frame.line(pt_at(mid, y - 5.5), pt_at(mid, y + 5.5), style.last_frost_line);
        break;
      case Mark::thermometer:
        bar_mark(frame, x, y - 3.0, mid + 4.0, y + 3.0, style.violet);
        error_mark(frame, mid - 4.0, end - 1.0, y, style);
        break;
      case Mark::sign:
        break;
    }
    pen.write(frame, end + after, y + pen.cap(style.note) / 2.0, Align::left, label, style.note);
    x += whole + kBetween;
  }
  const double height = c.entries.empty() ? 0.0 : y + kLine / 2.0;
  frame.set_size({room.width, Length::points(height)});
  frame.set_baseline(Length::points(std::max(0.0, y + pen.cap(style.note) / 2.0)));
  return frame;
}

}  // namespace winterfolio
