// Tries the usual delimiters, and takes the one under which most lines are rows with a date.
#include "readers/temperature/table_layout.h"

#include <fmt/format.h>

#include <algorithm>
#include <map>
#include <set>

#include "base/csv_table.h"
#include "readers/temperature/fixed_number.h"
#include "readers/temperature/messages.h"
#include "readers/temperature/plain_words.h"

namespace winterfolio {
namespace {

constexpr std::size_t kLinesLookedAt = 400;

struct MissingCodes {
  std::set<std::string, std::less<>> texts;
  std::set<std::int64_t> numbers;
};

const MissingCodes& missing_codes() {
  static const MissingCodes codes = [] {
    MissingCodes all;
    for (const CsvRow row :
         CsvTable::embedded("src/readers/temperature/tables/missing_codes.csv")) {
      if (row.text("kind") == "text") {
        all.texts.insert(row.text("code"));
      } else {
        all.numbers.insert(*parse_parts(row.text("code"), '.'));
      }
    }
    return all;
  }();
  return codes;
}

struct Line {
  std::int64_t number;
  std::string_view text;
};

std::vector<Line> lines_of(std::string_view head) {
  std::vector<Line> lines;
  const char end =
      head.find('\n') == std::string_view::npos && head.find('\r') != std::string_view::npos ? '\r'
                                                                                             : '\n';
  std::int64_t number = 0;
  while (!head.empty() && lines.size() < kLinesLookedAt) {
    const std::size_t length = std::min(head.find(end), head.size());
    std::string_view text = head.substr(0, length);
    head.remove_prefix(std::min(length + 1, head.size()));
    if (!text.empty() && text.back() == '\r') text.remove_suffix(1);
    lines.push_back({++number, text});
  }
  return lines;
}

bool has_digit(std::string_view text) {
  return std::any_of(text.begin(), text.end(), [](char c) { return c >= '0' && c <= '9'; });
}

/// A whole number of at most four digits; nothing otherwise.
std::optional<int> small_integer(std::string_view cell) {
  cell = trimmed(cell);
  if (cell.empty() || cell.size() > 4) return std::nullopt;
  int value = 0;
  for (const char c : cell) {
    if (c < '0' || c > '9') return std::nullopt;
    value = value * 10 + (c - '0');
  }
  return value;
}

bool is_clock_like(std::string_view cell) {
  const bool separated =
      cell.find(':') != std::string_view::npos || cell.find('h') != std::string_view::npos;
  return separated && cell.size() <= 16 && parse_clock_time(cell).has_value();
}

/// What the cells of one column look like, over all rows.
struct Profile {
  int rows = 0;
  int dates = 0;
  int with_time = 0;
  int clocks = 0;
  int halves = 0;   ///< AM or PM
  int numbers = 0;  ///< with the table's decimal mark
  int whole = 0;    ///< numbers without decimals
  int blanks = 0;
  bool counting = true;           ///< each number one more than the one before
  std::set<std::int64_t> values;  ///< up to a few different numbers
  std::optional<std::int64_t> last;

  bool mostly(int part) const { return rows > 0 && part * 5 >= (rows - blanks) * 4 && part > 0; }
};

/// One way to cut the lines, with what came of it.
struct Attempt {
  char delimiter = ',';
  char decimal = '.';
  std::size_t width = 0;          ///< cells of most rows
  std::vector<std::size_t> rows;  ///< indexes into the lines
  std::vector<Profile> columns;
  bool serial = false;         ///< dates are a spreadsheet's serial numbers
  bool date_in_parts = false;  ///< year, month, day stand in columns of their own
  Column year, month, day, day_of_year;

  bool is_part(std::size_t c) const {
    return date_in_parts && (year == Column(c) || month == Column(c) || day == Column(c) ||
                             day_of_year == Column(c));
  }
};

bool is_serial_cell(std::string_view cell, char decimal) {
  return cell.find(decimal) != std::string_view::npos &&
         parse_spreadsheet_serial(cell, decimal).has_value();
}

/// The date that a cell is, with its time of day if it has one; nothing for what is too short, too
/// long or without a digit.
std::optional<ParsedStamp> date_in(std::string_view cell) {
  if (cell.size() < 6 || cell.size() > 48 || !has_digit(cell)) return std::nullopt;
  return parse_stamp(cell);
}

/// Columns of year, month and day, or of year and day of the year, where a line has words for them.
void find_parts_by_words(const Cells& cells, Attempt& result) {
  Column year, month, day, day_of_year;
  for (std::size_t c = 0; c < cells.size(); ++c) {
    if (has_digit(cells[c]) || trimmed(cells[c]).empty()) continue;
    switch (meaning_of(cells[c]).role) {
      case ColumnRole::year:
        if (!year) year = c;
        break;
      case ColumnRole::month:
        if (!month) month = c;
        break;
      case ColumnRole::day:
        if (!day) day = c;
        break;
      case ColumnRole::day_of_year:
        if (!day_of_year) day_of_year = c;
        break;
      default:
        break;
    }
  }
  if (!year || (!(month && day) && !day_of_year && !day)) return;
  // "Year, Day" is year and day of the year.
  if (!month && !day_of_year) std::swap(day, day_of_year);
  result.year = year;
  result.month = month && day ? month : std::nullopt;
  result.day = month && day ? day : std::nullopt;
  result.day_of_year = month && day ? std::nullopt : day_of_year;
}

bool has_date_in(const Cells& cells, const Attempt& table) {
  if (!table.year) return false;
  const auto year = small_integer(cells[*table.year]);
  if (!year || *year < 1700) return false;
  if (table.day_of_year)
    return day_number(*year, small_integer(cells[*table.day_of_year]).value_or(0)).has_value();
  return day_number(*year, small_integer(cells[*table.month]).value_or(0),
                    small_integer(cells[*table.day]).value_or(0))
      .has_value();
}

/// Three neighbouring whole numbers that are a year, a month and a day.
Column year_month_day_at(const Cells& cells) {
  for (std::size_t i = 0; i + 2 < cells.size() && i < 8; ++i) {
    const auto y = small_integer(cells[i]);
    if (!y || trimmed(cells[i]).size() != 4) continue;
    const auto m = small_integer(cells[i + 1]);
    const auto d = small_integer(cells[i + 2]);
    if (m && d && day_number(*y, *m, *d)) return i;
  }
  return std::nullopt;
}

void look_at_cell(std::string_view cell, char decimal, bool serial, Profile& profile) {
  ++profile.rows;
  cell = trimmed(cell);
  if (is_missing_code(cell)) {
    ++profile.blanks;
    return;
  }
  if (serial && is_serial_cell(cell, decimal)) {
    ++profile.dates;
    ++profile.with_time;
    return;
  }
  if (const auto stamp = serial ? std::nullopt : date_in(cell)) {
    ++profile.dates;
    profile.with_time += stamp->second_of_day.has_value();
  }
  profile.clocks += is_clock_like(cell);
  profile.halves += is_half_day(cell);
  const CellValue value = read_temperature_cell(cell, decimal);
  if (value.kind != CellKind::value) return;
  ++profile.numbers;
  profile.whole += cell.find(decimal) == std::string_view::npos;
  if (profile.values.size() < 8) profile.values.insert(value.parts);
  if (profile.last && value.parts != *profile.last + kPartsPerDegree) profile.counting = false;
  profile.last = value.parts;
}

/// A few dates before the rows begin, in a preamble, are no rows: those that no other follows at
/// once are dropped, as long as there are rows that do.
void drop_stray_rows(std::vector<std::pair<std::size_t, bool>>& dated) {
  std::size_t first = 0;
  while (first + 1 < dated.size() && dated[first + 1].first != dated[first].first + 1) ++first;
  if (first + 1 < dated.size())
    dated.erase(dated.begin(), dated.begin() + static_cast<std::ptrdiff_t>(first));
}

Attempt attempt(const std::vector<Line>& lines, char delimiter, char decimal, bool serial = false) {
  Attempt result;
  result.serial = serial;
  result.delimiter = delimiter;
  result.decimal = decimal;
  Cells cells;
  std::map<std::size_t, int> widths;
  std::map<std::size_t, int> part_columns;
  std::vector<std::pair<std::size_t, bool>> dated;  // line, whether its date stands in parts
  for (std::size_t i = 0; i < lines.size(); ++i) {
    if (!lines[i].text.empty() && lines[i].text.front() == '#') continue;
    if (!has_digit(lines[i].text)) {
      if (dated.empty() && !result.year) {
        cells.cut(lines[i].text, delimiter);
        find_parts_by_words(cells, result);
      }
      continue;
    }
    cells.cut(lines[i].text, delimiter);
    if (cells.size() < 2) continue;
    if (result.year) {
      if (!has_date_in(cells, result)) continue;
      dated.emplace_back(i, true);
      ++widths[cells.size()];
      continue;
    }
    bool whole = false;
    for (std::size_t c = 0; c < cells.size() && c < 32 && !whole; ++c) {
      const std::string_view cell = trimmed(cells[c]);
      whole = serial ? is_serial_cell(cell, decimal) : date_in(cell).has_value();
    }
    const Column parts = whole || serial ? std::nullopt : year_month_day_at(cells);
    if (!whole && !parts) continue;
    dated.emplace_back(i, !whole);
    ++widths[cells.size()];
    if (parts) ++part_columns[*parts];
  }
  drop_stray_rows(dated);
  if (dated.empty()) return result;
  const auto most = [](const std::map<std::size_t, int>& counts) {
    return std::max_element(counts.begin(), counts.end(),
                            [](const auto& a, const auto& b) { return a.second < b.second; })
        ->first;
  };
  result.width = most(widths);
  const auto in_parts =
      std::count_if(dated.begin(), dated.end(), [](const auto& d) { return d.second; });
  result.date_in_parts = in_parts * 2 > static_cast<std::ptrdiff_t>(dated.size());
  if (result.date_in_parts && !result.year) {
    result.year = most(part_columns);
    result.month = *result.year + 1;
    result.day = *result.year + 2;
  }
  for (const auto& [line, parts] : dated) {
    if (parts != result.date_in_parts) continue;
    cells.cut(lines[line].text, delimiter);
    result.rows.push_back(line);
    if (cells.size() > result.columns.size())
      result.columns.resize(std::min(cells.size(), Cells::kMost));
    for (std::size_t c = 0; c < cells.size(); ++c)
      look_at_cell(cells[c], decimal, serial, result.columns[c]);
  }
  return result;
}

/// How well an attempt explains the lines: rows that have a date and, beside it, a number.
int worth(const Attempt& a) {
  int numbers = 0;
  for (std::size_t c = 0; c < a.columns.size(); ++c) {
    const Profile& p = a.columns[c];
    if (a.is_part(c)) continue;
    if (p.dates * 2 > p.rows || p.clocks * 2 > p.rows) continue;
    numbers = std::max(numbers, p.numbers > 0 ? p.numbers : p.blanks == p.rows ? 1 : 0);
  }
  return numbers == 0 ? 0 : static_cast<int>(a.rows.size()) + numbers;
}

/// The decimal mark of cells cut by anything but a comma: by the numbers that only one of them
/// explains.
char likely_decimal(const std::vector<Line>& lines, char delimiter) {
  int points = 0;
  int commas = 0;
  Cells cells;
  for (const Line& line : lines) {
    cells.cut(line.text, delimiter);
    for (std::size_t c = 0; c < cells.size(); ++c) {
      std::string_view cell = trimmed(cells[c]);
      if (cell.size() > 12 || !has_digit(cell)) continue;
      // A unit may stand behind the number.
      while (cell.back() < '0' || cell.back() > '9') cell.remove_suffix(1);
      points += cell.find('.') != std::string_view::npos && parse_parts(cell, '.').has_value();
      commas += cell.find(',') != std::string_view::npos && parse_parts(cell, ',').has_value();
    }
  }
  return commas > points ? ',' : '.';
}

std::optional<Attempt> best_attempt(const std::vector<Line>& lines,
                                    const TemperatureOptions& options) {
  const auto any_holds = [&](char mark) {
    return std::any_of(lines.begin(), lines.end(), [&](const Line& line) {
      return line.text.find(mark) != std::string_view::npos;
    });
  };
  std::optional<Attempt> best;
  int best_worth = 0;
  for (const char delimiter : {'\t', ';', '|', ',', '\0'}) {
    if (delimiter != '\0' && !any_holds(delimiter)) continue;
    const char decimal = options.decimal    ? (*options.decimal == DecimalMark::comma ? ',' : '.')
                         : delimiter == ',' ? '.'
                                            : likely_decimal(lines, delimiter);
    Attempt tried = attempt(lines, delimiter, decimal);
    // Quoted decimal commas between comma delimiters: "7,5","3,2".
    if (delimiter == ',' && !options.decimal && any_holds('"')) {
      if (Attempt other = attempt(lines, delimiter, ','); worth(other) > worth(tried))
        tried = std::move(other);
    }
    if (worth(tried) == 0) tried = attempt(lines, delimiter, decimal, true);
    if (worth(tried) > best_worth) {
      best_worth = worth(tried);
      best = std::move(tried);
    }
  }
  return best;
}

/// Finds what the columns hold, with the words over them and what stands in them.
class ColumnFinder {
 public:
  ColumnFinder(const std::vector<Line>& lines, const Attempt& table, const std::string& file,
               const TemperatureOptions& options, Diagnostics& diagnostics)
      : lines_(lines), table_(table), file_(file), options_(options), diagnostics_(diagnostics) {
    layout_.delimiter = table.delimiter;
    layout_.decimal = table.decimal;
    layout_.serial = table.serial;
    layout_.first_row = lines[table.rows.front()].number;
  }

  std::optional<TableLayout> find() {
    find_header();
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
    const Line& shown = header_line_ ? *header_line_ : lines_[table_.rows.front()];
    diagnostics_.add(about_line(Severity::error, id, file_, shown.number, shown.text, {},
                                std::move(message), std::move(expected), std::move(mend)));
  }

  /// How much a word says that its line is the header: a line of "min" and "avg" may stand under
  /// the real one.
  static int words_worth(ColumnRole role) {
    switch (role) {
      case ColumnRole::unknown:
        return 0;
      case ColumnRole::date:
      case ColumnRole::time:
      case ColumnRole::year:
      case ColumnRole::temperature:
        return 3;
      case ColumnRole::minimum:
      case ColumnRole::maximum:
        return 2;
      default:
        return 1;
    }
  }

  /// The line over the first row that has words of times or temperatures; a line of units may stand
  /// between.
  void find_header() {
    const std::size_t first = table_.rows.front();
    Cells cells;
    int best = 0;
    std::size_t best_back = 0;
    for (std::size_t back = 1; back <= 4 && back <= first; ++back) {
      std::string_view text = lines_[first - back].text;
      while (!text.empty() && (text.front() == '#' || text.front() == '%' || text.front() == '!'))
        text.remove_prefix(1);
      cells.cut(trimmed(text), table_.delimiter);
      int worth = 0;
      std::vector<HeaderMeaning> meanings;
      for (std::size_t c = 0; c < cells.size(); ++c) {
        meanings.push_back(meaning_of(cells[c]));
        worth += words_worth(meanings.back().role);
        worth -= unit_named(cells[c]).has_value();
      }
      if (worth <= best || cells.size() < 2) continue;
      best = worth;
      best_back = back;
      header_line_ = lines_[first - back];
      meanings_ = std::move(meanings);
      layout_.header.clear();
      for (std::size_t c = 0; c < cells.size(); ++c) layout_.header.emplace_back(trimmed(cells[c]));
    }
    if (best > 0) {
      take_line_above(first, best_back);
      take_units_line(first, best_back);
      return;
    }
    // No known word: a line of as many texts as the rows have cells still gives the columns their
    // names.
    if (first == 0) return;
    cells.cut(lines_[first - 1].text, table_.delimiter);
    if (cells.size() != table_.width) return;
    for (std::size_t c = 0; c < cells.size(); ++c) {
      if (parse_parts(trimmed(cells[c]), table_.decimal)) return;
    }
    header_line_ = lines_[first - 1];
    for (std::size_t c = 0; c < cells.size(); ++c) layout_.header.emplace_back(trimmed(cells[c]));
  }

  /// Headers of two lines: "Temp" over "Out". Words of the upper line go before those they stand
  /// over.
  void take_line_above(std::size_t first, std::size_t back) {
    if (back + 1 > first) return;
    const Line& upper = lines_[first - back - 1];
    if (has_digit(upper.text) || trimmed(upper.text).empty()) return;
    Cells cells;
    std::vector<std::string> above(layout_.header.size());
    if (table_.delimiter != '\0') {
      cells.cut(upper.text, table_.delimiter);
      if (cells.size() != layout_.header.size() || cells.size() < 3) return;
      for (std::size_t c = 0; c < cells.size(); ++c) above[c] = trimmed(cells[c]);
    } else {
      // Between blanks only the place on the line tells: a word belongs to the lower word whose end
      // is nearest.
      const std::string_view lower = header_line_->text;
      cells.cut(upper.text, '\0');
      Cells below;
      below.cut(lower, '\0');
      for (std::size_t u = 0; u < cells.size(); ++u) {
        const auto end_of = [](std::string_view line, std::string_view cell) {
          return cell.data() + cell.size() - line.data();
        };
        std::size_t nearest = 0;
        for (std::size_t c = 0; c < below.size() && c < above.size(); ++c) {
          const auto gap = [&](std::size_t k) {
            return std::abs(end_of(lower, below[k]) - end_of(upper.text, cells[u]));
          };
          if (gap(c) < gap(nearest)) nearest = c;
        }
        above[nearest] += (above[nearest].empty() ? "" : " ") + std::string(cells[u]);
      }
    }
    const bool thermal = std::any_of(above.begin(), above.end(), [](const std::string& word) {
      const ColumnRole r = meaning_of(word).role;
      return r == ColumnRole::temperature || r == ColumnRole::minimum || r == ColumnRole::maximum;
    });
    if (!thermal) return;
    for (std::size_t c = 0; c < above.size(); ++c) {
      if (above[c].empty()) continue;
      layout_.header[c] = above[c] + " " + layout_.header[c];
      meanings_[c] = meaning_of(layout_.header[c]);
    }
  }

  void take_units_line(std::size_t first, std::size_t back) {
    Cells cells;
    for (std::size_t between = 1; between < back; ++between) {
      cells.cut(lines_[first - between].text, table_.delimiter);
      for (std::size_t c = 0; c < cells.size() && c < meanings_.size(); ++c) {
        if (const auto unit = unit_named(cells[c])) meanings_[c].unit = unit;
        if (const auto order = meaning_of(cells[c]).date_order; order && !meanings_[c].date_order)
          meanings_[c].date_order = order;
      }
    }
  }

  ColumnRole role(std::size_t column) const {
    return column < meanings_.size() ? meanings_[column].role : ColumnRole::unknown;
  }
  const HeaderMeaning& meaning(std::size_t column) const {
    static const HeaderMeaning kNothing;
    return column < meanings_.size() ? meanings_[column] : kNothing;
  }
  const Profile& profile(std::size_t column) const { return table_.columns[column]; }
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
      const Profile& p = profile(c);
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
      if (meanings_.empty()) find_time_of_parts(*table_.year + 3);
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
    const Profile& p = profile(next);
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
    if (r == ColumnRole::hour || (meanings_.empty() && hours)) {
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
    if (!layout_.time && meanings_.empty() && rows_share(*column)) find_time_of_parts(*column + 1);
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
    const Profile& p = profile(c);
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
      const Profile& p = profile(c);
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
    const Profile& whole = profile(names - 1);
    const Profile& decimals = profile(names);
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
      const std::string word = plain_word(layout_.header[c]);
      if (word == "unit" || word == "units" || word == "einheit" || word == "unite" ||
          word == "unidad")
        layout_.unit = unit_named(cells[c]);
    }
    if (layout_.unit) return;
    const Column column = layout_.temperature ? layout_.temperature
                          : layout_.minimum   ? layout_.minimum
                                              : layout_.maximum;
    if (column) layout_.unit = read_temperature_cell(cells[*column], layout_.decimal).unit;
    if (layout_.unit || !column || *column >= layout_.header.size()) return;
    const std::string name = plain_word(layout_.header[*column]);
    for (const Line& line : lines_) {
      if (header_line_ && line.number >= header_line_->number) break;
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

  const std::vector<Line>& lines_;
  const Attempt& table_;
  const std::string& file_;
  const TemperatureOptions& options_;
  Diagnostics& diagnostics_;
  TableLayout layout_;
  std::optional<Line> header_line_;
  std::vector<HeaderMeaning> meanings_;
  Column named_time_;
};

}  // namespace

void Cells::cut(std::string_view line, char delimiter) { cut(line, delimiter, kMost); }

void Cells::cut(std::string_view line, char delimiter, std::size_t enough) {
  count_ = 0;
  enough = std::min(enough, kMost);
  // A row quoted as a whole, as some spreadsheets save text that they took for one cell.
  if (delimiter != '\0' && line.size() > 2 && line.front() == '"' &&
      line.find('"', 1) == line.size() - 1 && line.find(delimiter) != std::string_view::npos) {
    line = line.substr(1, line.size() - 2);
  }
  std::size_t i = 0;
  const std::size_t size = line.size();
  while (count_ < enough) {
    if (delimiter == '\0') {
      while (i < size && (line[i] == ' ' || line[i] == '\t')) ++i;
      if (i >= size) return;
      std::size_t end = i;
      while (end < size && line[end] != ' ' && line[end] != '\t') ++end;
      cells_[count_++] = line.substr(i, end - i);
      i = end;
      continue;
    }
    std::size_t start = i;
    while (start < size && line[start] == ' ') ++start;
    if (start < size && line[start] == '"') {
      std::size_t end = start + 1;
      while (end < size && !(line[end] == '"' && (end + 1 >= size || line[end + 1] != '"')))
        end += line[end] == '"' ? 2 : 1;
      end = std::min(end, size);
      cells_[count_++] = line.substr(start + 1, end - start - 1);
      i = std::min(line.find(delimiter, std::min(end + 1, size)), size);
    } else {
      const std::size_t end = std::min(line.find(delimiter, i), size);
      cells_[count_++] = line.substr(i, end - i);
      i = end;
    }
    if (i >= size) return;
    ++i;
  }
}

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

bool is_missing_code(std::string_view cell) {
  cell = trimmed(cell);
  if (cell.empty()) return true;
  constexpr std::size_t kLongest = 12;
  if (cell.size() > kLongest) return false;
  const char last = cell.back();
  const bool number = last >= '0' && last <= '9';
  if (number || cell.find_first_of("0123456789") != std::string_view::npos) {
    const auto parts = parse_parts(cell, cell.find(',') != std::string_view::npos ? ',' : '.');
    return parts && missing_codes().numbers.count(*parts) > 0;
  }
  return missing_codes().texts.count(plain_word(cell)) > 0;
}

CellValue read_temperature_cell(std::string_view cell, char decimal_mark) {
  cell = trimmed(cell);
  CellValue result;
  if (cell.empty()) {
    result.kind = CellKind::blank;
    return result;
  }
  std::optional<std::int64_t> parts = parse_parts(cell, decimal_mark);
  if (!parts) {
    if (is_missing_code(cell)) {
      result.kind = CellKind::blank;
      return result;
    }
    // A number with something behind it: a unit, a mark.
    std::size_t end = cell.size();
    while (end > 0 && !(cell[end - 1] >= '0' && cell[end - 1] <= '9')) --end;
    constexpr std::size_t kLongestSuffix = 12;
    if (end == 0 || cell.size() - end > kLongestSuffix) return result;
    std::size_t number_end = end;
    if (end < cell.size() && cell[end] == decimal_mark) ++number_end;
    parts = parse_parts(cell.substr(0, number_end), decimal_mark);
    if (!parts) return result;
    result.suffix = trimmed(cell.substr(number_end));
    result.unit = unit_named(result.suffix);
    if (result.unit) result.suffix = {};
  }
  constexpr std::int64_t kFewestCode = 99 * kPartsPerDegree;
  if ((*parts >= kFewestCode || *parts <= -kFewestCode) &&
      missing_codes().numbers.count(*parts) > 0) {
    result.kind = CellKind::blank;
    return result;
  }
  result.kind = CellKind::value;
  result.parts = *parts;
  return result;
}

bool looks_like_table(std::string_view head) {
  const std::vector<Line> lines = lines_of(head);
  const auto best = best_attempt(lines, TemperatureOptions());
  return best && !best->rows.empty();
}

std::optional<TableLayout> find_table_layout(std::string_view head, const std::string& file,
                                             const TemperatureOptions& options,
                                             Diagnostics& diagnostics) {
  const std::vector<Line> lines = lines_of(head);
  const auto best = best_attempt(lines, options);
  if (!best || best->rows.empty()) return std::nullopt;
  return ColumnFinder(lines, *best, file, options, diagnostics).find();
}

}  // namespace winterfolio
