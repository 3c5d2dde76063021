// Which columns of a table tell the time, in how many parts, and whether its rows are days.
#include "readers/temperature/column_finder.h"

#include <fmt/format.h>

#include <algorithm>
#include <set>

#include "readers/temperature/fixed_number.h"
#include "readers/temperature/plain_words.h"

namespace winterfolio {

bool ColumnFinder::has_time() const {
  return layout_.stamp || layout_.date ||
         (layout_.year && (layout_.day_of_year || (layout_.month && layout_.day)));
}

void ColumnFinder::find_times() {
  if (has_time()) {
    settle_stamp();
    return;
  }
  Column best;
  int best_rank = -100;
  for (std::size_t c = 0; c < width(); ++c) {
    const ColumnProfile& p = profile(c);
    if (!p.mostly(p.dates)) continue;
    const ColumnRole r = role(c);
    int rank = 0;
    if (r == ColumnRole::date || r == ColumnRole::time)
      rank = 20 + meaning(c).rank;
    else if (r != ColumnRole::unknown && r != ColumnRole::day && r != ColumnRole::hour)
      continue;
    // Among several, one on local standard time with its time of day is what chill is counted in.
    rank +=
        (p.with_time > 0 ? 4 : 0) + (meaning(c).local_standard ? 2 : 0) - (meaning(c).utc ? 1 : 0);
    if (rank > best_rank) {
      best = c;
      best_rank = rank;
    }
  }
  if (best) {
    layout_.date = best;
    settle_stamp();
    return;
  }
  if (table_.date_in_parts) {
    layout_.year = table_.year;
    layout_.month = table_.month;
    layout_.day = table_.day;
    layout_.day_of_year = table_.day_of_year;
    if (!header_.understood()) find_time_of_parts(*table_.year + 3);
  }
  find_parts_by_header();
}

void ColumnFinder::find_parts_by_header() {
  for (std::size_t c = 0; c < width(); ++c) {
    switch (role(c)) {
      case ColumnRole::year:
        if (!layout_.year) layout_.year = c;
        break;
      case ColumnRole::month:
        // "YY MM DD hh mm": behind the hour the same letters are minutes.
        if (!layout_.month)
          layout_.month = c;
        else if (*layout_.month != c && layout_.hour && !layout_.minute)
          layout_.minute = c;
        break;
      case ColumnRole::day:
        if (!layout_.day) layout_.day = c;
        break;
      case ColumnRole::day_of_year:
        if (!layout_.day_of_year && !layout_.day) layout_.day_of_year = c;
        break;
      case ColumnRole::hour:
        if (!layout_.hour && !layout_.time) layout_.hour = c;
        break;
      case ColumnRole::minute:
        if (!layout_.minute && layout_.hour) layout_.minute = c;
        break;
      case ColumnRole::time:
        if (!layout_.time && !layout_.hour) layout_.time = c;
        break;
      default:
        break;
    }
  }
  if (!layout_.year) layout_.day_of_year.reset();
}

void ColumnFinder::find_time_of_parts(std::size_t next) {
  if (next >= width()) return;
  const ColumnProfile& p = profile(next);
  const ColumnRole r = role(next);
  if (r == ColumnRole::time || (r != ColumnRole::hour && p.mostly(p.clocks))) {
    layout_.time = next;
    return;
  }
  // Without words, whole numbers of 0 to 24 that follow the day are hours.
  const bool hours =
      p.mostly(p.whole) && std::all_of(p.values.begin(), p.values.end(), [](std::int64_t v) {
        return v >= 0 && v <= 24 * kPartsPerDegree;
      });
  if (r == ColumnRole::hour || (!header_.understood() && hours)) {
    layout_.hour = next;
    if (role(next + 1) == ColumnRole::minute) layout_.minute = next + 1;
  }
}

void ColumnFinder::settle_stamp() {
  const Column column = layout_.stamp ? layout_.stamp : layout_.date;
  if (!column) return;
  if (*column < width() && profile(*column).with_time > 0 && !layout_.time) {
    layout_.stamp = column;
    layout_.date.reset();
    return;
  }
  if (layout_.stamp) {
    layout_.date = layout_.stamp;
    layout_.stamp.reset();
  }
  if (layout_.time) return;
  find_time_beside(*column);
  if (!layout_.time && !header_.understood() && rows_share(*column))
    find_time_of_parts(*column + 1);
}

bool ColumnFinder::rows_share(std::size_t column) const {
  Cells cells;
  std::string last;
  std::size_t same = 0;
  for (const std::size_t row : table_.rows) {
    cells.cut(lines_[row].text, table_.delimiter);
    const std::string_view cell = trimmed(cells[column]);
    same += cell == last;
    last = cell;
  }
  return 2 * same > table_.rows.size();
}

void ColumnFinder::find_time_beside(std::size_t column) {
  for (std::size_t c = 0; c < width(); ++c) {
    if (c == column) continue;
    const bool by_word = role(c) == ColumnRole::time || role(c) == ColumnRole::hour;
    const bool by_content = role(c) == ColumnRole::unknown && profile(c).mostly(profile(c).clocks);
    if (!by_word && !by_content) continue;
    const bool same_clock = meaning(c).utc == meaning(column).utc &&
                            meaning(c).local_standard == meaning(column).local_standard;
    if (!layout_.time || same_clock) layout_.time = c;
    if (same_clock) break;
  }
}

void ColumnFinder::find_half_of_day() {
  for (std::size_t c = 0; c < width() && !layout_.half_of_day; ++c) {
    if (profile(c).mostly(profile(c).halves)) layout_.half_of_day = c;
  }
}

void ColumnFinder::decide_daily() {
  const bool timed = layout_.stamp || layout_.time || layout_.hour;
  if (!timed) {
    layout_.daily = true;
    return;
  }
  Cells cells;
  std::set<std::string> times;
  std::set<std::int32_t> days;
  for (const std::size_t row : table_.rows) {
    cells.cut(lines_[row].text, table_.delimiter);
    if (layout_.stamp) {
      const auto stamp = parse_stamp(cells[*layout_.stamp]);
      if (!stamp) continue;
      times.insert(fmt::format("{}", stamp->second_of_day.value_or(0)));
      const DateOrders orders = stamp->date.orders;
      days.insert(stamp->date.in(orders.has(DateOrder::ymd)   ? DateOrder::ymd
                                 : orders.has(DateOrder::dmy) ? DateOrder::dmy
                                                              : DateOrder::mdy));
    } else {
      times.insert(std::string(trimmed(cells[layout_.time ? *layout_.time : *layout_.hour])));
      if (layout_.date) {
        if (const auto stamp = parse_stamp(cells[*layout_.date]))
          days.insert(stamp->date.day[0] + stamp->date.day[1] + stamp->date.day[2]);
      } else if (layout_.day) {
        days.insert(small_integer(cells[*layout_.day]).value_or(0));
      } else if (layout_.day_of_year) {
        days.insert(small_integer(cells[*layout_.day_of_year]).value_or(0));
      }
    }
  }
  layout_.daily = times.size() <= 1 && days.size() > 2;
}

void ColumnFinder::find_orders() {
  const Column column = layout_.stamp ? layout_.stamp : layout_.date;
  for (const Column& c : {column, layout_.time}) {
    if (!c) continue;
    if (meaning(*c).utc && !meaning(*c).utc_offset_minutes) layout_.clock = Clock::utc;
    if (meaning(*c).utc_offset_minutes) layout_.utc_offset_minutes = meaning(*c).utc_offset_minutes;
    if (!meaning(*c).local_standard) continue;
    layout_.clock = Clock::standard;
    for (const std::string& word : header_tokens(layout_.header[*c])) {
      if (!layout_.zone_letters) layout_.zone_letters = zone_lettered(word);
    }
  }
  if (!column) return;
  if (meaning(*column).date_order) {
    layout_.orders = DateOrders::only(*meaning(*column).date_order);
    return;
  }
  Cells cells;
  bool matters = false;
  DateOrders seen;
  for (const std::size_t row : table_.rows) {
    cells.cut(lines_[row].text, table_.delimiter);
    const auto stamp = parse_stamp(cells[*column]);
    if (!stamp) continue;
    const bool certain = stamp->date.orders == DateOrders::all() && !stamp->date.matters;
    if (certain) continue;
    matters = true;
    seen = seen | stamp->date.orders;
  }
  if (matters) layout_.orders = seen;
}

}  // namespace winterfolio
