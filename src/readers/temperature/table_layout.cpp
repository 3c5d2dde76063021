// Finds which column of a table holds what: by the words over the rows, else by what stands in
// them.
#include "readers/temperature/table_layout.h"

#include <fmt/format.h>

#include <algorithm>
#include <map>
#include <set>

#include "base/csv_table.h"
#include "readers/temperature/fixed_number.h"
#include "readers/temperature/messages.h"
#include "readers/temperature/plain_words.h"
#include "readers/temperature/table_header.h"

namespace winterfolio {
namespace {

/// Finds what the columns hold, with the words over them and what stands in them.
class ColumnFinder {
 public:
  ColumnFinder(const std::vector<HeadLine>& lines, const TableCut& table, const std::string& file,
               const TemperatureOptions& options, Diagnostics& diagnostics)
      : lines_(lines),
        table_(table),
        file_(file),
        options_(options),
        diagnostics_(diagnostics),
        header_(header_over(lines, table)) {
    layout_.delimiter = table.delimiter;
    layout_.decimal = table.decimal;
    layout_.serial = table.serial;
    layout_.first_row = lines[table.rows.front()].number;
    layout_.header = header_.names;
  }

  std::optional<TableLayout> find() {
    if (!take_named_columns()) return std::nullopt;
    find_times();
    if (!has_time()) {
      fail("no-time-column", "no column with dates was found",
           "a column of dates, or of dates and times",
           "name it under 'columns' for this file in the orchard file, or with --columns time=1");
      return std::nullopt;
    }
    find_half_of_day();
    decide_daily();
    if (!find_quantity() || !find_temperatures() || !settle_commas()) return std::nullopt;
    find_unit_elsewhere();
    find_station();
    find_orders();
    return layout_;
  }

 private:
  void fail(std::string_view id, std::string message, std::string expected, std::string mend) {
    const HeadLine& shown = header_.line ? *header_.line : lines_[table_.rows.front()];
    diagnostics_.add(about_line(Severity::error, id, file_, shown.number, shown.text, {},
                                std::move(message), std::move(expected), std::move(mend)));
  }

  ColumnRole role(std::size_t column) const { return header_.role(column); }
  const HeaderMeaning& meaning(std::size_t column) const { return header_.meaning(column); }
  const ColumnProfile& profile(std::size_t column) const { return table_.columns[column]; }
  std::size_t width() const { return table_.columns.size(); }

  /// Columns that the person named, by number from 1 or by the words over them.
  bool take_named_columns() {
    for (const auto& [role, name] : options_.columns) {
      const Column column = column_named(name);
      if (!column) {
        std::vector<std::string> known = layout_.header;
        if (known.empty()) known.push_back(fmt::format("numbers from 1 to {}", width()));
        std::string list;
        for (const std::string& word : known)
          list += fmt::format("{}{}", list.empty() ? "" : ", ", word);
        fail("unknown-column", fmt::format("has no column '{}', which is named for {}", name, role),
             fmt::format(
                 "one of: {}{}", list,
                 did_you_mean(nearest_name(name, std::span<const std::string>(layout_.header)))),
             "correct 'columns' for this file in the orchard file, or --columns");
        return false;
      }
      if (role == "time")
        named_time_ = column;
      else if (role == "date")
        layout_.date = column;
      else if (role == "temperature")
        layout_.temperature = column;
      else if (role == "minimum")
        layout_.minimum = column;
      else if (role == "maximum")
        layout_.maximum = column;
    }
    if (named_time_) (layout_.date ? layout_.time : layout_.stamp) = named_time_;
    return true;
  }

  Column column_named(const std::string& name) const {
    for (std::size_t c = 0; c < layout_.header.size(); ++c) {
      if (layout_.header[c] == name) return c;
    }
    for (std::size_t c = 0; c < layout_.header.size(); ++c) {
      if (plain_word(layout_.header[c]) == plain_word(name)) return c;
    }
    const auto number = parse_integer(name);
    if (number && *number >= 1 && static_cast<std::size_t>(*number) <= width())
      return static_cast<std::size_t>(*number - 1);
    return std::nullopt;
  }

  bool has_time() const {
    return layout_.stamp || layout_.date ||
           (layout_.year && (layout_.day_of_year || (layout_.month && layout_.day)));
  }

  /// A stamp's column by header, else the first with dates; and the time of day beside it.
  void find_times() {
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
      rank += (p.with_time > 0 ? 4 : 0) + (meaning(c).local_standard ? 2 : 0) -
              (meaning(c).utc ? 1 : 0);
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

  void find_parts_by_header() {
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

  void find_time_of_parts(std::size_t next) {
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

  /// A date without a time of day: the time may stand in a column of its own.
  void settle_stamp() {
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

  /// Whether the same text stands in a column of most neighbouring rows.
  bool rows_share(std::size_t column) const {
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

  void find_time_beside(std::size_t column) {
    for (std::size_t c = 0; c < width(); ++c) {
      if (c == column) continue;
      const bool by_word = role(c) == ColumnRole::time || role(c) == ColumnRole::hour;
      const bool by_content =
          role(c) == ColumnRole::unknown && profile(c).mostly(profile(c).clocks);
      if (!by_word && !by_content) continue;
      const bool same_clock = meaning(c).utc == meaning(column).utc &&
                              meaning(c).local_standard == meaning(column).local_standard;
      if (!layout_.time || same_clock) layout_.time = c;
      if (same_clock) break;
    }
  }

  void find_half_of_day() {
    for (std::size_t c = 0; c < width() && !layout_.half_of_day; ++c) {
      if (profile(c).mostly(profile(c).halves)) layout_.half_of_day = c;
    }
  }

  /// A table is daily if its rows have no time of day, or all the same.
  void decide_daily() {
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

  bool is_taken(std::size_t c) const {
    for (const Column& column :
         {layout_.stamp, layout_.date, layout_.time, layout_.year, layout_.month, layout_.day,
          layout_.hour, layout_.minute, layout_.day_of_year, layout_.half_of_day}) {
      if (column && *column == c) return true;
    }
    return false;
  }

  bool holds_numbers(std::size_t c) const {
    const ColumnProfile& p = profile(c);
    // Words over a column count for more than a few faulty cells in it.
    return !is_taken(c) && (p.numbers > 0 || p.blanks == p.rows);
  }

  /// The best column of a role. False, with an error, if two are equally good.
  bool best_of(ColumnRole wanted, const char* key, const char* words, Column& found) {
    if (found) {
      layout_.unit = meaning(*found).unit ? meaning(*found).unit : layout_.unit;
      layout_.tenths = layout_.tenths || meaning(*found).tenths;
      return true;
    }
    Column second;
    for (std::size_t c = 0; c < width(); ++c) {
      if (role(c) != wanted || !holds_numbers(c)) continue;
      // The same quantity in two units: degrees Celsius need no conversion.
      const auto rank = [&](std::size_t k) {
        return meaning(k).rank * 2 + (meaning(k).unit == TemperatureUnit::celsius ? 1 : 0);
      };
      if (!found || rank(c) > rank(*found)) {
        if (found && rank(c) / 2 != rank(*found) / 2) second.reset();
        found = c;
      } else if (rank(c) == rank(*found)) {
        second = c;
      }
    }
    if (found && second && meaning(*second).rank == meaning(*found).rank) {
      fail("two-columns",
           fmt::format("{} and {} could both be {}", layout_.name_of(*found),
                       layout_.name_of(*second), words),
           fmt::format("one column of {}", words), mend_columns(key, *found));
      return false;
    }
    if (!found) return true;
    layout_.unit = meaning(*found).unit ? meaning(*found).unit : layout_.unit;
    layout_.tenths = layout_.tenths || meaning(*found).tenths;
    return true;
  }

  std::string mend_columns(const char* key, std::size_t column) const {
    const std::string name = column < layout_.header.size() && !layout_.header[column].empty()
                                 ? layout_.header[column]
                                 : fmt::format("{}", column + 1);
    return fmt::format(
        "choose one: 'columns: {{{0}: {1}}}' for this file in the orchard file, or --columns "
        "'{0}={1}'",
        key, name);
  }

  /// A column in which each row says what it measures ("air_temperature", "relative_humidity"):
  /// only the rows of the air temperature are readings. False, with an error, if two kinds of rows
  /// could be meant.
  bool find_quantity() {
    if (layout_.temperature || layout_.minimum || layout_.maximum) return true;
    for (std::size_t c = 0; c < width(); ++c) {
      if (is_taken(c) || role(c) != ColumnRole::unknown || profile(c).numbers > 0) continue;
      std::map<std::string, HeaderMeaning> kinds = kinds_in(c);
      const std::size_t all = kinds.size();
      std::erase_if(kinds, [](const auto& kind) {
        return kind.second.role != ColumnRole::temperature || kind.first.size() < 3;
      });
      if (kinds.empty() || all < 2) continue;
      const auto by_rank = [](const auto& a, const auto& b) {
        return a.second.rank < b.second.rank;
      };
      const auto best = std::max_element(kinds.begin(), kinds.end(), by_rank);
      for (const auto& kind : kinds) {
        if (kind.first == best->first || kind.second.rank < best->second.rank) continue;
        fail("two-quantities",
             fmt::format("rows of '{}' and of '{}' could both be the air temperature", kind.first,
                         best->first),
             "one kind of rows that are air temperatures",
             "take the rows of the other kind out, or save each kind to a file of its own");
        return false;
      }
      layout_.quantity = c;
      layout_.air_temperature = best->first;
      layout_.unit = best->second.unit;
      return true;
    }
    return true;
  }

  std::map<std::string, HeaderMeaning> kinds_in(std::size_t column) const {
    constexpr std::size_t kMostKinds = 30;
    std::map<std::string, HeaderMeaning> kinds;
    Cells cells;
    for (const std::size_t row : table_.rows) {
      cells.cut(lines_[row].text, table_.delimiter);
      const std::string kind(trimmed(cells[column]));
      if (kinds.size() < kMostKinds) kinds.emplace(kind, meaning_of(kind));
    }
    return kinds;
  }

  /// The first row that is a reading of the air temperature.
  std::size_t reading_row() const {
    Cells cells;
    for (const std::size_t row : table_.rows) {
      cells.cut(lines_[row].text, table_.delimiter);
      if (!layout_.quantity || trimmed(cells[*layout_.quantity]) == layout_.air_temperature)
        return row;
    }
    return table_.rows.front();
  }

  bool find_temperatures() {
    const bool named_extremes = layout_.minimum || layout_.maximum;
    if (layout_.daily || named_extremes) {
      layout_.daily = layout_.daily || named_extremes;
      if (!best_of(ColumnRole::minimum, "minimum", "the day's lowest temperature", layout_.minimum))
        return false;
      if (!best_of(ColumnRole::maximum, "maximum", "the day's highest temperature",
                   layout_.maximum))
        return false;
      if (layout_.minimum || layout_.maximum) {
        list_others();
        return true;
      }
      return fail_daily();
    }
    if (!best_of(ColumnRole::temperature, "temperature", "the air temperature",
                 layout_.temperature))
      return false;
    if (!layout_.temperature && !find_temperature_by_content()) return false;
    list_others();
    return true;
  }

  bool fail_daily() {
    if (table_.rows.size() == 1 && (layout_.stamp || layout_.time)) layout_.daily = false;
    Column mean;
    for (std::size_t c = 0; c < width() && !mean; ++c) {
      if (role(c) == ColumnRole::temperature && holds_numbers(c)) mean = c;
    }
    if (mean) {
      fail("daily-means",
           fmt::format("{} holds one temperature a day, and hours cannot be told from that",
                       layout_.name_of(*mean)),
           "the lowest and the highest temperature of each day, or readings at least every few "
           "hours",
           "use a file with daily minimum and maximum; or name their columns: --columns "
           "minimum=... --columns maximum=...");
      return false;
    }
    if (hours_side_by_side()) {
      fail("hours-side-by-side", "its rows hold the hours of a day side by side",
           "one time and one air temperature in each row",
           "turn it in a spreadsheet so that each hour has a row of its own: date and time, "
           "temperature");
      return false;
    }
    fail("no-temperature-column", "no column of daily minimum or maximum temperature was found",
         "columns of the lowest and the highest temperature of each day",
         "name them: 'columns: {minimum: ..., maximum: ...}' for this file in the orchard file, or "
         "--columns minimum=... --columns maximum=...");
    return false;
  }

  /// Over two dozen columns stand times of day: "00:00", "H07", "13".
  bool hours_side_by_side() const {
    std::size_t hours = 0;
    for (const std::string& word : layout_.header) {
      std::string digits;
      for (const char c : word) {
        if (c >= '0' && c <= '9') digits += c;
      }
      const auto hour = parse_integer(digits.substr(0, 2));
      hours += word.size() <= 8 && hour && *hour <= 24;
    }
    return hours >= 23;
  }

  /// Without words: the one column of numbers that is neither a running number nor always the same.
  bool find_temperature_by_content() {
    std::vector<std::size_t> candidates;
    for (std::size_t c = 0; c < width(); ++c) {
      const ColumnProfile& p = profile(c);
      if (role(c) != ColumnRole::unknown || is_taken(c) || !p.mostly(p.numbers)) continue;
      const bool constant = p.values.size() == 1 && p.whole == p.numbers && p.rows > 2;
      if ((p.counting && p.whole == p.numbers && p.rows > 2) || constant) continue;
      candidates.push_back(c);
    }
    if (candidates.empty()) {
      fail("no-temperature-column", "no column of air temperature was found",
           "a column of numbers, with a word such as 'temperature' over it",
           "name it: 'columns: {temperature: ...}' for this file in the orchard file, or --columns "
           "temperature=...");
      return false;
    }
    // Words of a language that is not known may still name a unit.
    std::vector<std::size_t> in_degrees;
    for (const std::size_t c : candidates) {
      if (degrees_over(c)) in_degrees.push_back(c);
    }
    if (!in_degrees.empty()) candidates = std::move(in_degrees);
    if (candidates.size() > 1) {
      std::string list;
      for (std::size_t i = 0; i < candidates.size(); ++i) {
        list += fmt::format("{}{}",
                            i == 0                       ? ""
                            : i + 1 == candidates.size() ? " and "
                                                         : ", ",
                            layout_.name_of(candidates[i]));
      }
      fail("two-columns",
           fmt::format("{} could {} be the air temperature", list,
                       candidates.size() == 2 ? "both" : "all"),
           "one column of the air temperature", mend_columns("temperature", candidates.front()));
      return false;
    }
    layout_.temperature = candidates.front();
    if (!layout_.unit) layout_.unit = degrees_over(candidates.front());
    return true;
  }

  /// The unit in a column's header where nothing but that is understood.
  std::optional<TemperatureUnit> degrees_over(std::size_t column) const {
    if (column >= layout_.header.size()) return std::nullopt;
    const std::string plain = plain_word(layout_.header[column]);
    if (plain.find("*c") != std::string::npos) return TemperatureUnit::celsius;
    if (plain.find("*f") != std::string::npos) return TemperatureUnit::fahrenheit;
    return std::nullopt;
  }

  /// Rows with one cell more than the header, whole numbers in the last two: decimal commas between
  /// commas.
  bool settle_commas() {
    const std::size_t names = layout_.header.size();
    if (layout_.delimiter != ',' || names < 2 || table_.width != names + 1 ||
        !layout_.temperature || *layout_.temperature != names - 1 || names >= width()) {
      return true;
    }
    const ColumnProfile& whole = profile(names - 1);
    const ColumnProfile& decimals = profile(names);
    if (whole.whole != whole.numbers || decimals.whole != decimals.numbers || decimals.numbers == 0)
      return true;
    if (options_.decimal) {
      layout_.comma_everywhere = *options_.decimal == DecimalMark::comma;
      return true;
    }
    fail("decimal-in-doubt",
         "its rows have one cell more than its header, as if the commas in numbers were decimal "
         "commas",
         "the decimal mark", fmt::format("set {}", key_or_option("decimal", "comma")));
    return false;
  }

  /// A unit that stands in a column of its own, or in a line before the rows that explains the
  /// column's word.
  void find_unit_elsewhere() {
    if (layout_.unit) return;
    Cells cells;
    cells.cut(lines_[reading_row()].text, table_.delimiter);
    for (std::size_t c = 0; c < layout_.header.size() && !layout_.unit; ++c) {
      if (names_units(layout_.header[c])) layout_.unit = unit_named(cells[c]);
    }
    if (layout_.unit) return;
    const Column column = layout_.temperature ? layout_.temperature
                          : layout_.minimum   ? layout_.minimum
                                              : layout_.maximum;
    if (column) layout_.unit = read_temperature_cell(cells[*column], layout_.decimal).unit;
    if (layout_.unit || !column || *column >= layout_.header.size()) return;
    const std::string name = plain_word(layout_.header[*column]);
    for (const HeadLine& line : lines_) {
      if (header_.line && line.number >= header_.line->number) break;
      const std::string plain = plain_word(line.text);
      const std::size_t start = plain.find_first_of("abcdefghijklmnopqrstuvwxyz");
      if (start == std::string::npos || name.empty() ||
          plain.compare(start, name.size(), name) != 0)
        continue;
      const std::size_t after = start + name.size();
      if (after >= plain.size() ||
          std::string_view(" \t:;,=-").find(plain[after]) == std::string_view::npos)
        continue;
      const HeaderMeaning said = meaning_of("temperature " + plain.substr(after));
      for (const std::string& token : header_tokens(plain.substr(after))) {
        if (const auto unit = unit_named(token); unit && token != "grad") layout_.unit = unit;
      }
      layout_.tenths = layout_.tenths || said.tenths;
      return;
    }
  }

  void list_others() {
    for (std::size_t c = 0; c < width() && c < layout_.header.size(); ++c) {
      const bool used = (layout_.temperature && *layout_.temperature == c) ||
                        (layout_.minimum && *layout_.minimum == c) ||
                        (layout_.maximum && *layout_.maximum == c);
      const ColumnRole r = role(c);
      const bool thermal =
          r == ColumnRole::temperature || r == ColumnRole::minimum || r == ColumnRole::maximum;
      if (thermal && !used) layout_.other_temperatures.push_back(layout_.header[c]);
    }
  }

  void find_station() {
    int best = -100;
    for (std::size_t c = 0; c < width(); ++c) {
      if (role(c) != ColumnRole::station || is_taken(c) || meaning(c).rank <= best) continue;
      best = meaning(c).rank;
      layout_.station = c;
    }
  }

  /// Which orders its dates may have: from the header, or all that the first rows leave.
  void find_orders() {
    const Column column = layout_.stamp ? layout_.stamp : layout_.date;
    for (const Column& c : {column, layout_.time}) {
      if (!c) continue;
      if (meaning(*c).utc && !meaning(*c).utc_offset_minutes) layout_.clock = Clock::utc;
      if (meaning(*c).local_standard) layout_.clock = Clock::standard;
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

  const std::vector<HeadLine>& lines_;
  const TableCut& table_;
  const std::string& file_;
  const TemperatureOptions& options_;
  Diagnostics& diagnostics_;
  TableLayout layout_;
  TableHeader header_;
  Column named_time_;
};

}  // namespace

std::size_t TableLayout::columns_needed() const {
  std::size_t needed = 0;
  for (const Column& column : {stamp, date, time, year, month, day, hour, minute, day_of_year,
                               temperature, minimum, maximum, station, quantity}) {
    if (column) needed = std::max(needed, *column + 1);
  }
  return needed;
}

std::string TableLayout::name_of(std::size_t column) const {
  if (column < header.size() && !header[column].empty())
    return fmt::format("column {} ({})", column + 1, header[column]);
  return fmt::format("column {}", column + 1);
}

bool looks_like_table(std::string_view head) {
  const std::vector<HeadLine> lines = lines_of(head);
  const auto best = best_cut(lines, TemperatureOptions());
  return best && !best->rows.empty();
}

std::optional<TableLayout> find_table_layout(std::string_view head, const std::string& file,
                                             const TemperatureOptions& options,
                                             Diagnostics& diagnostics) {
  const std::vector<HeadLine> lines = lines_of(head);
  const auto best = best_cut(lines, options);
  if (!best || best->rows.empty()) return std::nullopt;
  return ColumnFinder(lines, *best, file, options, diagnostics).find();
}

}  // namespace winterfolio
