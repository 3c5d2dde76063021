// Reads the embedded tables of facts.
#include "base/csv_table.h"

#include <fmt/format.h>

#include <algorithm>
#include <charconv>
#include <cmath>
#include <stdexcept>

#include "base/embedded_files.h"

namespace winterfolio {

std::vector<std::string> read_csv_record(std::string_view bytes, std::size_t& position, int& lines,
                                         bool* open_quote) {
  std::vector<std::string> cells(1);
  bool quoted = false;
  while (position < bytes.size()) {
    // Characters that are only text are taken as a run.
    const std::size_t special =
        std::min(quoted ? bytes.find('"', position) : bytes.find_first_of("\",\r\n", position),
                 bytes.size());
    const std::string_view plain = bytes.substr(position, special - position);
    cells.back() += plain;
    if (quoted) lines += static_cast<int>(std::count(plain.begin(), plain.end(), '\n'));
    position = special;
    if (position == bytes.size()) break;
    const char c = bytes[position++];
    if (quoted) {
      if (position < bytes.size() && bytes[position] == '"') {
        cells.back().push_back(bytes[position++]);
      } else {
        quoted = false;
      }
    } else if (c == '"') {
      if (cells.back().empty()) {
        quoted = true;
      } else {
        cells.back().push_back(c);
      }
    } else if (c == ',') {
      cells.emplace_back();
    } else if (c == '\n') {
      ++lines;
      break;
    }
  }
  if (open_quote) *open_quote = quoted;
  return cells;
}

std::optional<double> parse_number(std::string_view text) {
  if (!text.empty() && text.front() == '+') text.remove_prefix(1);
  double value = 0.0;
  const auto [end, error] = std::from_chars(text.data(), text.data() + text.size(), value);
  if (error != std::errc{} || end != text.data() + text.size() || !std::isfinite(value))
    return std::nullopt;
  return value;
}

std::optional<int> parse_integer(std::string_view text) {
  int value = 0;
  const auto [end, error] = std::from_chars(text.data(), text.data() + text.size(), value);
  if (error != std::errc{} || end != text.data() + text.size()) return std::nullopt;
  return value;
}

CsvTable::CsvTable(std::string path, std::string_view bytes) : path_(std::move(path)) {
  std::size_t position = 0;
  int line = 1;
  if (bytes.substr(0, 3) == "\xEF\xBB\xBF") position = 3;
  while (position < bytes.size() && bytes[position] == '#') {
    const std::size_t end = std::min(bytes.find('\n', position), bytes.size());
    comment_ += std::string(bytes.substr(position, end - position)) + "\n";
    position = end + 1;
    ++line;
  }
  columns_ = read_csv_record(bytes, position, line);
  while (position < bytes.size()) {
    const int starts = line;
    std::vector<std::string> cells = read_csv_record(bytes, position, line);
    if (cells.size() == 1 && cells[0].empty()) continue;
    if (cells.size() != columns_.size()) {
      throw std::logic_error(fmt::format("{}:{}: {} cells, the head has {}", path_, starts,
                                         cells.size(), columns_.size()));
    }
    rows_.push_back(std::move(cells));
    lines_.push_back(starts);
  }
}

CsvTable CsvTable::embedded(std::string_view path) {
  return CsvTable(std::string(path), embedded_file(path));
}

std::string CsvTable::header(std::string_view key) const {
  std::string found;
  bool inside = false;
  std::size_t start = 0;
  while (start < comment_.size()) {
    const std::size_t end = comment_.find('\n', start);
    std::string_view text = std::string_view(comment_).substr(start, end - start);
    start = end + 1;
    text.remove_prefix(1);
    const bool continues = text.substr(0, 2) == "  ";
    while (!text.empty() && text.front() == ' ') text.remove_prefix(1);
    while (!text.empty() && (text.back() == ' ' || text.back() == '\r')) text.remove_suffix(1);
    if (text.substr(0, key.size()) == key && text.substr(key.size(), 1) == ":") {
      inside = true;
      text.remove_prefix(key.size() + 1);
      while (!text.empty() && text.front() == ' ') text.remove_prefix(1);
      found = text;
    } else if (inside && continues) {
      found += " " + std::string(text);
    } else {
      inside = false;
    }
  }
  return found;
}

CsvRow CsvTable::row(std::size_t index) const { return CsvRow(*this, index); }
CsvTable::Iterator CsvTable::begin() const { return Iterator(*this, 0); }
CsvTable::Iterator CsvTable::end() const { return Iterator(*this, rows_.size()); }

const std::string& CsvRow::text(std::string_view column) const {
  for (std::size_t i = 0; i < table_->columns_.size(); ++i) {
    if (table_->columns_[i] == column) return table_->rows_[index_][i];
  }
  throw std::logic_error(fmt::format("{} has no column '{}'", table_->path_, column));
}

std::optional<double> CsvRow::number(std::string_view column) const {
  const std::string& cell = text(column);
  if (cell.empty()) return std::nullopt;
  if (const auto value = parse_number(cell)) return value;
  throw std::logic_error(
      fmt::format("{}:{}: '{}' in column {} is no number", table_->path_, line(), cell, column));
}

double CsvRow::required_number(std::string_view column) const {
  if (const auto value = number(column)) return *value;
  throw std::logic_error(fmt::format("{}:{}: column {} is empty", table_->path_, line(), column));
}

int CsvRow::line() const { return table_->lines_[index_]; }
const std::vector<std::string>& CsvRow::cells() const { return table_->rows_[index_]; }

}  // namespace winterfolio
