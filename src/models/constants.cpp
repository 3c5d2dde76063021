// Looks a constant up where it stands with its source.
#include "models/constants.h"

#include <fmt/format.h>

#include <stdexcept>

#include "base/csv_table.h"

namespace winterfolio {

double constant(std::string_view path, std::string_view name) {
  const CsvTable table = CsvTable::embedded(path);
  for (const CsvRow row : table) {
    if (row.text("name") == name) return row.required_number("value");
  }
  throw std::logic_error(fmt::format("{} has no '{}'", path, name));
}

}  // namespace winterfolio
