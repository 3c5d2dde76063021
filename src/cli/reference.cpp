// Lists the embedded tables of facts and the temperature formats.
#include "cli/reference.h"

#include <fmt/format.h>

#include <algorithm>
#include <cctype>
#include <map>

#include "base/csv_table.h"
#include "base/embedded_files.h"
#include "cli/formats.h"

namespace winterfolio {
namespace {

constexpr std::size_t kTextWidth = 100;

std::string table_name(std::string_view path) {
  const std::size_t slash = path.rfind('/');
  return std::string(path.substr(slash + 1, path.size() - slash - 5));
}

/// Every table by its name: those that are files, and the list of temperature formats.
std::map<std::string, CsvTable> all_tables() {
  std::map<std::string, CsvTable> tables;
  for (const EmbeddedFile& file : embedded_files()) {
    if (file.path.ends_with(".csv"))
      tables.emplace(table_name(file.path), CsvTable(std::string(file.path), file.bytes));
  }
  tables.emplace("formats", formats_table());
  return tables;
}

std::string lower(std::string_view text) {
  std::string result(text);
  std::transform(result.begin(), result.end(), result.begin(),
                 [](unsigned char c) { return static_cast<char>(std::tolower(c)); });
  return result;
}

bool holds(const CsvRow& row, const std::string& lower_word) {
  return std::any_of(row.cells().begin(), row.cells().end(), [&](const std::string& cell) {
    return lower(cell).find(lower_word) != std::string::npos;
  });
}

/// Breaks a text into lines of at most kTextWidth characters, each after the first set in by
/// `indent`.
std::string wrapped(const std::string& text, const std::string& indent) {
  std::string lines;
  std::string line;
  std::size_t start = 0;
  while (start < text.size()) {
    std::size_t end = text.find(' ', start);
    if (end == std::string::npos) end = text.size();
    const std::string word = text.substr(start, end - start);
    if (!line.empty() && line.size() + 1 + word.size() > kTextWidth) {
      lines += line + "\n";
      line = indent + word;
    } else {
      line += (line.empty() ? "" : " ") + word;
    }
    start = end + 1;
  }
  return lines + line + "\n";
}

std::string row_as_text(const CsvTable& table, const CsvRow& row) {
  std::string text = wrapped(row.cells().front(), "  ");
  for (std::size_t i = 1; i < table.columns().size(); ++i) {
    if (!row.cells()[i].empty())
      text += wrapped(fmt::format("  {}: {}", table.columns()[i], row.cells()[i]), "    ");
  }
  return text;
}

std::string csv_cell(const std::string& cell) {
  if (cell.find_first_of(",\"\n") == std::string::npos) return cell;
  std::string quoted = "\"";
  for (const char c : cell) quoted += c == '"' ? std::string("\"\"") : std::string(1, c);
  return quoted + "\"";
}

std::string csv_line(const std::vector<std::string>& cells) {
  std::string line;
  for (std::size_t i = 0; i < cells.size(); ++i) line += (i > 0 ? "," : "") + csv_cell(cells[i]);
  return line + "\n";
}

std::string list_of(const std::map<std::string, CsvTable>& tables, OutputAs as) {
  std::string out = as == OutputAs::csv ? "table,rows,what\n" : "";
  for (const auto& [name, table] : tables) {
    const std::string what = table.header("what");
    out += as == OutputAs::csv ? csv_line({name, fmt::format("{}", table.size()), what})
                               : wrapped(fmt::format("{:<26} {:>4}  {}", name, table.size(), what),
                                         std::string(33, ' '));
  }
  return out;
}

std::string rows_of(const CsvTable& table, const std::string& asked, OutputAs as) {
  const std::string word = lower(asked);
  bool any = false;
  std::string out = as == OutputAs::csv ? table.comment() + csv_line(table.columns()) : "";
  if (as == OutputAs::text) {
    for (const char* key : {"what", "source", "units"}) {
      out += wrapped(fmt::format("{}: {}", key, table.header(key)), "  ");
    }
    out += "\n";
  }
  for (const CsvRow row : table) {
    if (!word.empty() && !holds(row, word)) continue;
    out += as == OutputAs::csv ? csv_line(row.cells()) : row_as_text(table, row) + "\n";
    any = true;
  }
  if (!any && as == OutputAs::text) out += fmt::format("no row of this table holds '{}'\n", asked);
  return out;
}

}  // namespace

Outcome run_reference(const ReferenceCommand& command) {
  Outcome outcome;
  const std::map<std::string, CsvTable> tables = all_tables();
  if (command.table.empty()) {
    outcome.out = list_of(tables, command.as);
    return outcome;
  }
  const auto found = tables.find(command.table);
  if (found == tables.end()) {
    std::vector<std::string> names;
    for (const auto& entry : tables) names.push_back(entry.first);
    Diagnostic fault;
    fault.id = "cli.unknown-table";
    fault.message = fmt::format("there is no table '{}'", command.table);
    fault.expected = "a name of the list that 'winterfolio reference' prints" +
                     did_you_mean(nearest_name(command.table, names));
    fault.mend = "write one of those names, or none for the list";
    outcome.diagnostics.add(fault);
    outcome.status = kWrongCommandLine;
    return outcome;
  }
  outcome.out = rows_of(found->second, command.word, command.as);
  return outcome;
}

}  // namespace winterfolio
