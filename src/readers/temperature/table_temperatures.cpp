// Which columns of a table hold the air temperature, or a day's lowest and highest, and in what
// unit.
#include "readers/temperature/column_finder.h"

#include <fmt/format.h>

#include <algorithm>

#include "base/csv_table.h"
#include "readers/temperature/fixed_number.h"
#include "readers/temperature/messages.h"
#include "readers/temperature/plain_words.h"

namespace winterfolio {

bool ColumnFinder::holds_numbers(std::size_t c) const {
  const ColumnProfile& p = profile(c);
  // Words over a column count for more than a few faulty cells in it.
  return !is_taken(c) && (p.numbers > 0 || p.blanks == p.rows);
}

bool ColumnFinder::best_of(ColumnRole wanted, const char* key, const char* words, Column& found) {
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

std::string ColumnFinder::mend_columns(const char* key, std::size_t column) const {
  const std::string name = column < layout_.header.size() && !layout_.header[column].empty()
                               ? layout_.header[column]
                               : fmt::format("{}", column + 1);
  return fmt::format(
      "choose one: 'columns: {{{0}: {1}}}' for this file in the orchard file, or --columns "
      "'{0}={1}'",
      key, name);
}

bool ColumnFinder::find_quantity() {
  if (layout_.temperature || layout_.minimum || layout_.maximum) return true;
  for (std::size_t c = 0; c < width(); ++c) {
    if (is_taken(c) || role(c) != ColumnRole::unknown || profile(c).numbers > 0) continue;
    std::map<std::string, HeaderMeaning> kinds = kinds_in(c);
    const std::size_t all = kinds.size();
    std::erase_if(kinds, [](const auto& kind) {
      return kind.second.role != ColumnRole::temperature || kind.first.size() < 3;
    });
    if (kinds.empty() || all < 2) continue;
    const auto by_rank = [](const auto& a, const auto& b) { return a.second.rank < b.second.rank; };
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

std::map<std::string, HeaderMeaning> ColumnFinder::kinds_in(std::size_t column) const {
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

std::size_t ColumnFinder::reading_row() const {
  Cells cells;
  for (const std::size_t row : table_.rows) {
    cells.cut(lines_[row].text, table_.delimiter);
    if (!layout_.quantity || trimmed(cells[*layout_.quantity]) == layout_.air_temperature)
      return row;
  }
  return table_.rows.front();
}

bool ColumnFinder::find_temperatures() {
  const bool named_extremes = layout_.minimum || layout_.maximum;
  if (layout_.daily || named_extremes) {
    layout_.daily = layout_.daily || named_extremes;
    if (!best_of(ColumnRole::minimum, "minimum", "the day's lowest temperature", layout_.minimum))
      return false;
    if (!best_of(ColumnRole::maximum, "maximum", "the day's highest temperature", layout_.maximum))
      return false;
    if (layout_.minimum || layout_.maximum) {
      list_others();
      return true;
    }
    return fail_daily();
  }
  if (!best_of(ColumnRole::temperature, "temperature", "the air temperature", layout_.temperature))
    return false;
  if (!layout_.temperature && !find_temperature_by_content()) return false;
  list_others();
  return true;
}

bool ColumnFinder::fail_daily() {
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

bool ColumnFinder::hours_side_by_side() const {
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

bool ColumnFinder::find_temperature_by_content() {
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

std::optional<TemperatureUnit> ColumnFinder::degrees_over(std::size_t column) const {
  if (column >= layout_.header.size()) return std::nullopt;
  const std::string plain = plain_word(layout_.header[column]);
  if (plain.find("*c") != std::string::npos) return TemperatureUnit::celsius;
  if (plain.find("*f") != std::string::npos) return TemperatureUnit::fahrenheit;
  return std::nullopt;
}

bool ColumnFinder::settle_commas() {
  const std::size_t names = layout_.header.size();
  if (layout_.delimiter != ',' || names < 2 || table_.width != names + 1 || !layout_.temperature ||
      *layout_.temperature != names - 1 || names >= width()) {
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

void ColumnFinder::find_unit_elsewhere() {
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
    if (start == std::string::npos || name.empty() || plain.compare(start, name.size(), name) != 0)
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

void ColumnFinder::list_others() {
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

}  // namespace winterfolio
