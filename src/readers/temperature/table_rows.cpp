// Tries the usual delimiters, and takes the one under which most lines are rows with a date.
#include "readers/temperature/table_rows.h"

#include <algorithm>

#include "readers/temperature/fixed_number.h"
#include "readers/temperature/header_words.h"
#include "readers/temperature/plain_words.h"
#include "readers/temperature/stamp.h"

namespace winterfolio {
namespace {

constexpr std::size_t kLinesLookedAt = 400;

bool is_clock_like(std::string_view cell) {
  const bool separated =
      cell.find(':') != std::string_view::npos || cell.find('h') != std::string_view::npos;
  return separated && cell.size() <= 16 && parse_clock_time(cell).has_value();
}

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
void find_parts_by_words(const Cells& cells, TableCut& result) {
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

bool has_date_in(const Cells& cells, const TableCut& table) {
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

void look_at_cell(std::string_view cell, char decimal, bool serial, ColumnProfile& profile) {
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

TableCut attempt(const std::vector<HeadLine>& lines, char delimiter, char decimal,
                 bool serial = false) {
  TableCut result;
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

/// How well a cut explains the lines: rows that have a date and, beside it, a number.
int worth(const TableCut& a) {
  int numbers = 0;
  for (std::size_t c = 0; c < a.columns.size(); ++c) {
    const ColumnProfile& p = a.columns[c];
    if (a.is_part(c)) continue;
    if (p.dates * 2 > p.rows || p.clocks * 2 > p.rows) continue;
    numbers = std::max(numbers, p.numbers > 0 ? p.numbers : p.blanks == p.rows ? 1 : 0);
  }
  return numbers == 0 ? 0 : static_cast<int>(a.rows.size()) + numbers;
}

/// The decimal mark of cells cut by anything but a comma: by the numbers that only one of them
/// explains.
char likely_decimal(const std::vector<HeadLine>& lines, char delimiter) {
  int points = 0;
  int commas = 0;
  Cells cells;
  for (const HeadLine& line : lines) {
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

}  // namespace

std::vector<HeadLine> lines_of(std::string_view head) {
  std::vector<HeadLine> lines;
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

std::optional<TableCut> best_cut(const std::vector<HeadLine>& lines,
                                 const TemperatureOptions& options) {
  const auto any_holds = [&](char mark) {
    return std::any_of(lines.begin(), lines.end(), [&](const HeadLine& line) {
      return line.text.find(mark) != std::string_view::npos;
    });
  };
  std::optional<TableCut> best;
  int best_worth = 0;
  for (const char delimiter : {'\t', ';', '|', ',', '\0'}) {
    if (delimiter != '\0' && !any_holds(delimiter)) continue;
    const char decimal = options.decimal    ? (*options.decimal == DecimalMark::comma ? ',' : '.')
                         : delimiter == ',' ? '.'
                                            : likely_decimal(lines, delimiter);
    TableCut tried = attempt(lines, delimiter, decimal);
    // Quoted decimal commas between comma delimiters: "7,5","3,2".
    if (delimiter == ',' && !options.decimal && any_holds('"')) {
      if (TableCut other = attempt(lines, delimiter, ','); worth(other) > worth(tried))
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

}  // namespace winterfolio
