// Every table of facts says what it is, where it comes from and in which units, and its rows are in
// order.
#include <algorithm>
#include <set>

#include "base/embedded_files.h"
#include "support/catch.h"
#include "support/files.h"

using namespace winterfolio;

namespace {

std::vector<CsvTable> tables() {
  std::vector<CsvTable> all;
  for (const EmbeddedFile& file : embedded_files()) {
    if (file.path.ends_with(".csv")) all.emplace_back(std::string(file.path), file.bytes);
  }
  return all;
}

bool has_column(const CsvTable& table, std::string_view name) {
  return std::find(table.columns().begin(), table.columns().end(), name) != table.columns().end();
}

}  // namespace

TEST_CASE("every table opens with what it is, its source and its units") {
  for (const CsvTable& table : tables()) {
    INFO(table.path());
    CHECK_FALSE(table.header("what").empty());
    CHECK_FALSE(table.header("source").empty());
    CHECK_FALSE(table.header("units").empty());
    CHECK(table.size() > 0);
  }
}

TEST_CASE("columns of a table have names of their own, and no cell has blanks at its ends") {
  for (const CsvTable& table : tables()) {
    INFO(table.path());
    const std::set<std::string> names(table.columns().begin(), table.columns().end());
    CHECK(names.size() == table.columns().size());
    CHECK(names.count("") == 0);
    for (const CsvRow row : table) {
      for (const std::string& cell : row.cells()) {
        INFO("line " << row.line() << ": '" << cell << "'");
        CHECK((cell.empty() || (cell.front() != ' ' && cell.back() != ' ')));
      }
    }
  }
}

TEST_CASE("ids are unique, and no row stands twice") {
  for (const CsvTable& table : tables()) {
    INFO(table.path());
    std::set<std::string> ids;
    std::set<std::vector<std::string>> rows;
    for (const CsvRow row : table) {
      INFO("line " << row.line());
      if (has_column(table, "id")) CHECK(ids.insert(row.text("id")).second);
      CHECK(rows.insert(row.cells()).second);
    }
  }
}

TEST_CASE("steps follow one another without overlap or gap") {
  for (const CsvTable& table : tables()) {
    if (!has_column(table, "from_c") || !has_column(table, "to_c")) continue;
    INFO(table.path());
    CHECK_FALSE(table.row(0).number("from_c").has_value());
    CHECK_FALSE(table.row(table.size() - 1).number("to_c").has_value());
    for (std::size_t i = 0; i < table.size(); ++i) {
      INFO("line " << table.row(i).line());
      const auto from = table.row(i).number("from_c");
      const auto to = table.row(i).number("to_c");
      if (from && to) CHECK(*from < *to);
      if (i > 0) CHECK(table.row(i - 1).number("to_c") == from);
    }
  }
}

TEST_CASE("a low end never stands above its high end") {
  for (const CsvTable& table : tables()) {
    INFO(table.path());
    for (const std::string& low : table.columns()) {
      if (!low.ends_with("_low")) continue;
      const std::string high = low.substr(0, low.size() - 4) + "_high";
      if (!has_column(table, high)) continue;
      for (const CsvRow row : table) {
        INFO("line " << row.line() << ", " << low);
        const auto a = parse_number(row.text(low));
        const auto b = parse_number(row.text(high));
        if (a && b) CHECK(*a <= *b);
      }
    }
  }
}
