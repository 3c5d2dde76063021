// Every key of the orchard file, in one table a section: what belongs there, an example, and how it
// is read. A new key is one row in keys.cpp.
#pragma once

#include <string_view>
#include <vector>

#include "readers/orchard/draft.h"
#include "readers/orchard/reading.h"

namespace winterfolio {

/// One key, for listings and tests.
struct KeyInfo {
  std::string_view
      section;  ///< file, orchard, district, winter, temperature, columns, past winter, block, ...
  std::string_view key;
  std::string_view expected;
  std::string_view example;
  bool must = false;
};

/// Every key, section by section.
std::vector<KeyInfo> orchard_file_keys();

/// Reads the whole tree; faults go to `reading`.
Draft read_keys(Reading& reading, const YamlNode& root);

/// Reads one observation's cells or keys that both kinds of file have; false if it cannot stand.
bool read_what(Reading& reading, const Given& given, Observation& observation);
void read_amount(Reading& reading, const Given& given, Observation& observation);

}  // namespace winterfolio
