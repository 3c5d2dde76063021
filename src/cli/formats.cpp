// The registry of temperature formats as a table like any other.
#include "cli/formats.h"

#include <fmt/format.h>

#include "readers/temperature/registry.h"

namespace winterfolio {

CsvTable formats_table() {
  std::string bytes =
      "# what:   temperature formats that are read, in the order in which they are tried\n"
      "# source: the program\n"
      "# units:  none\n"
      "format,what_it_is\n";
  for (const TemperatureFormat& format : temperature_formats()) {
    bytes += fmt::format("{},\"{}\"\n", format.id, format.description);
  }
  return CsvTable("formats", bytes);
}

}  // namespace winterfolio
