// Cuts lines into cells, and reads a number with what stands behind it.
#include "readers/temperature/cells.h"

#include <algorithm>
#include <set>
#include <string>

#include "base/csv_table.h"
#include "readers/temperature/fixed_number.h"
#include "readers/temperature/header_words.h"
#include "readers/temperature/plain_words.h"

namespace winterfolio {
namespace {

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

/// The same within quotes: =""5.3"".
std::string_view without_formula(std::string_view cell) {
  constexpr std::string_view kFront = "=\"\"";
  constexpr std::string_view kBack = "\"\"";
  if (cell.size() < kFront.size() + kBack.size() || !cell.starts_with(kFront) ||
      !cell.ends_with(kBack))
    return cell;
  cell.remove_prefix(kFront.size());
  cell.remove_suffix(kBack.size());
  return cell;
}

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
    // ="5.3": a spreadsheet's way to keep a text from being changed.
    if (start + 1 < size && line[start] == '=' && line[start + 1] == '"') ++start;
    if (start < size && line[start] == '"') {
      std::size_t end = start + 1;
      while (end < size && !(line[end] == '"' && (end + 1 >= size || line[end + 1] != '"')))
        end += line[end] == '"' ? 2 : 1;
      end = std::min(end, size);
      cells_[count_++] = without_formula(line.substr(start + 1, end - start - 1));
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

}  // namespace winterfolio
