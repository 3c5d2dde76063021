// Reads cells of tables and says which one is wrong.
#include "pruning/table_cells.h"

#include <fmt/format.h>

#include <algorithm>
#include <stdexcept>

namespace winterfolio {

void unknown_cell(const CsvRow& row, std::string_view column) {
  throw std::logic_error(fmt::format("a pruning table's line {}: '{}' will not do for {}",
                                     row.line(), row.text(column), column));
}

std::vector<std::string> cell_list(std::string_view cell, char mark) {
  std::vector<std::string> parts;
  for (std::size_t start = 0; start < cell.size();) {
    const std::size_t end = std::min(cell.find(mark, start), cell.size());
    parts.emplace_back(cell.substr(start, end - start));
    start = end + 1;
  }
  return parts;
}

int whole_number(const CsvRow& row, std::string_view column) {
  const auto number = parse_integer(row.text(column));
  if (!number) unknown_cell(row, column);
  return *number;
}

Evidence evidence_of(const CsvRow& row) {
  return {row.text("id"), row.text("source"), rule_mark_named(row.text("mark"))};
}

}  // namespace winterfolio
