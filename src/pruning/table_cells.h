// Reading the cells of this room's tables: words that must be known, lists, whole numbers, the
// evidence of a row. A table is ours, so a wrong cell is a fault of the program and throws.
#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "base/csv_table.h"
#include "pruning/evidence.h"

namespace winterfolio {

[[noreturn]] void unknown_cell(const CsvRow& row, std::string_view column);

/// The parts of a cell that stand between `mark`s; none for an empty cell.
std::vector<std::string> cell_list(std::string_view cell, char mark);

int whole_number(const CsvRow& row, std::string_view column);

/// From columns id, source and mark.
Evidence evidence_of(const CsvRow& row);

/// The value that a list of (name, value) pairs gives to a cell's word.
template <class Names>
auto named_cell(const Names& names, const CsvRow& row, std::string_view column) {
  for (const auto& [name, value] : names)
    if (name == row.text(column)) return value;
  unknown_cell(row, column);
}

/// The name in a list of (name, value) pairs. Requires: the value is in the list.
template <class Names, class Value>
std::string_view name_in(const Names& names, Value value) {
  for (const auto& [name, known] : names)
    if (known == value) return name;
  return {};
}

}  // namespace winterfolio
