// Loads the lists of words that describe a tree.
#include "orchard/tree_words.h"

#include "base/csv_table.h"
#include "orchard/word_tables.h"

namespace winterfolio {

std::vector<std::string> cell_parts(std::string_view cell, char mark) {
  std::vector<std::string> parts;
  while (!cell.empty()) {
    const std::size_t end = cell.find(mark);
    parts.emplace_back(cell.substr(0, end));
    cell = end == std::string_view::npos ? std::string_view() : cell.substr(end + 1);
  }
  return parts;
}

std::vector<WordRow> read_word_table(std::string_view name) {
  std::vector<WordRow> rows;
  const CsvTable table = CsvTable::embedded("src/orchard/tables/" + std::string(name) + ".csv");
  for (const CsvRow row : table)
    rows.push_back({row.text("id"), cell_parts(row.text("words"), '|')});
  return rows;
}

const std::vector<WordRow>& forms_table() {
  static const std::vector<WordRow> table = read_word_table("forms");
  return table;
}

const std::vector<WordRow>& see_to_table() {
  static const std::vector<WordRow> table = read_word_table("see_to");
  return table;
}

const std::vector<WordRow>& hazards_table() {
  static const std::vector<WordRow> table = read_word_table("hazards");
  return table;
}

const std::vector<WordRow>& diseases_table() {
  static const std::vector<WordRow> table = read_word_table("diseases");
  return table;
}

}  // namespace winterfolio
