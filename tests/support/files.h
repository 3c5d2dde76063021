// Where tests find files: the project itself, and the real temperature files, if the environment
// names them.
#pragma once

#include <cstdlib>
#include <fstream>
#include <optional>
#include <sstream>
#include <stdexcept>
#include <string>

#include "base/csv_table.h"

namespace winterfolio::test {

inline std::string source_dir() { return WINTERFOLIO_SOURCE_DIR; }

inline std::string read_file(const std::string& path) {
  std::ifstream in(path, std::ios::binary);
  if (!in) throw std::runtime_error("cannot read " + path);
  std::ostringstream bytes;
  bytes << in.rdbuf();
  return bytes.str();
}

/// A table of expected values in tests/published/, with its source in its header.
inline CsvTable published(const std::string& name) {
  return CsvTable("tests/published/" + name, read_file(source_dir() + "/tests/published/" + name));
}

/// The folder of real temperature files named by WINTERFOLIO_TEST_DATA; nothing where it is unset.
/// Callers print "skipped: ..." and return.
inline std::optional<std::string> test_data_dir() {
  const char* dir = std::getenv("WINTERFOLIO_TEST_DATA");
  return dir && *dir ? std::optional<std::string>(dir) : std::nullopt;
}

}  // namespace winterfolio::test
