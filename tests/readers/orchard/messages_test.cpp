// The cases of tests/messages/ that are about an orchard file, read without the program around the
// reader.
#include "support/messages.h"

#include <unistd.h>

#include "base/diagnostic.h"
#include "readers/orchard/orchard_reader.h"
#include "readers/temperature/registry.h"
#include "support/catch.h"

using namespace winterfolio;

namespace {

/// Names in messages are those the person wrote, so the case is read from within its folder.
class WithinFolder {
 public:
  explicit WithinFolder(const std::string& folder) : before_(std::filesystem::current_path()) {
    std::filesystem::current_path(folder);
  }
  ~WithinFolder() { std::filesystem::current_path(before_); }
  WithinFolder(const WithinFolder&) = delete;
  WithinFolder& operator=(const WithinFolder&) = delete;

 private:
  std::filesystem::path before_;
};

bool is_about_an_orchard_file(const test::MessageCase& one) {
  for (const char* room : {"orchard.", "yaml.", "records."}) {
    if (one.name.starts_with(room) && one.arguments.starts_with("check ")) return true;
  }
  return false;
}

std::string diagnostics_of(const std::string& file) {
  std::vector<std::string_view> formats;
  for (const TemperatureFormat& format : temperature_formats()) formats.push_back(format.id);
  Diagnostics diagnostics;
  const bool read = read_orchard(file, diagnostics, {formats}).has_value();
  CHECK(read == !diagnostics.has_errors());
  std::string text;
  for (const Diagnostic& diagnostic : diagnostics.all()) text += to_text(diagnostic);
  return text;
}

}  // namespace

TEST_CASE("faults of an orchard file are told to the last character") {
  const std::filesystem::path scratch = std::filesystem::temp_directory_path() /
                                        ("winterfolio-messages-" + std::to_string(::getpid()));
  for (const test::MessageCase& one : test::message_cases()) {
    if (!is_about_an_orchard_file(one)) continue;
    INFO(one.name);
    std::filesystem::remove_all(scratch);
    std::filesystem::create_directory(scratch);
    test::lay_out(one, scratch.string());
    const WithinFolder within(scratch.string());
    const std::string text = diagnostics_of(one.arguments.substr(one.arguments.find(' ') + 1));
    CHECK(text == one.expected);
    const std::string severity = one.status == 0 ? ": error: " : ": no such severity: ";
    CHECK(text.find(severity) == std::string::npos);
  }
  std::filesystem::remove_all(scratch);
}

TEST_CASE("every fault that can be mended says what was expected and how to mend it") {
  for (const test::MessageCase& one : test::message_cases()) {
    if (one.expected.find(": error: ") == std::string::npos) continue;
    INFO(one.name);
    CHECK(one.expected.find("\n  expected: ") != std::string::npos);
    CHECK(one.expected.find("\n  mend:     ") != std::string::npos);
  }
}
