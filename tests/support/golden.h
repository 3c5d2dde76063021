// Goldens: what the program made when a person last looked at it and agreed. They prove steadiness,
// not truth.
//
// A test that no longer makes the same fails and leaves what it made beside the golden as
// <name>.now. Look at the two; if the new one is right, approve it by running the test with
// WINTERFOLIO_APPROVE=1.
#pragma once

#include <cstdlib>
#include <filesystem>
#include <fstream>
#include <string>

#include "support/catch.h"
#include "support/files.h"

namespace winterfolio::test {

/// Compares with tests/goldens/<name>.
inline void check_golden(const std::string& name, const std::string& made) {
  namespace fs = std::filesystem;
  const fs::path path = fs::path(source_dir()) / "tests/goldens" / name;
  const fs::path now = fs::path(path).concat(".now");
  const char* approve = std::getenv("WINTERFOLIO_APPROVE");
  if (approve && std::string(approve) == "1") {
    fs::create_directories(path.parent_path());
    std::ofstream(path, std::ios::binary) << made;
    fs::remove(now);
    return;
  }
  const std::string agreed = fs::exists(path) ? read_file(path.string()) : "";
  if (made == agreed) {
    fs::remove(now);
    return;
  }
  std::ofstream(now, std::ios::binary) << made;
  FAIL_CHECK("not as agreed: compare " << path.string() << " with " << now.filename().string());
}

}  // namespace winterfolio::test
