// The cases of tests/messages/: a bad input, and the exact text of what is said about it.
//
// One folder a case, named after the diagnostic's id and a number:
// tests/messages/orchard.unknown-key-1/. Every id that the program can give has at least two. A
// folder holds
//
//   orchard.yaml, ...   the input, and whatever files it names
//   expected.txt        everything that is printed to standard error, to the last character
//   command             arguments of the program, started within the folder; without it: check
//                       orchard.yaml
//   status              the exit status; without it: 1
//   grow                "FILE BYTES": a file to be made that large with lines of comment before the
//                       run, so that large files need not be kept
//
// The folder is copied before the run and never written to. shown_elsewhere.csv beside the folders
// lists the few faults that no kept file can bring about.
#pragma once

#include <algorithm>
#include <filesystem>
#include <fstream>
#include <string>
#include <vector>

#include "base/csv_table.h"
#include "support/files.h"

namespace winterfolio::test {

struct MessageCase {
  std::string name;  ///< "orchard.unknown-key-1"
  std::string folder;
  std::string arguments = "check orchard.yaml";
  int status = 1;
  std::string expected;

  /// "orchard.unknown-key"
  std::string id() const { return name.substr(0, name.rfind('-')); }
  bool is_plain_check() const { return arguments == MessageCase().arguments; }
};

inline std::string without_line_end(std::string text) {
  while (!text.empty() && (text.back() == '\n' || text.back() == ' ')) text.pop_back();
  return text;
}

/// Every case, by name.
inline std::vector<MessageCase> message_cases() {
  namespace fs = std::filesystem;
  std::vector<MessageCase> cases;
  for (const auto& entry : fs::directory_iterator(source_dir() + "/tests/messages")) {
    if (!entry.is_directory()) continue;
    MessageCase one;
    one.name = entry.path().filename().string();
    one.folder = entry.path().string();
    const auto file = [&](const char* name) { return one.folder + "/" + name; };
    if (fs::exists(file("command"))) one.arguments = without_line_end(read_file(file("command")));
    if (fs::exists(file("status")))
      one.status = parse_integer(without_line_end(read_file(file("status")))).value();
    if (fs::exists(file("expected.txt"))) one.expected = read_file(file("expected.txt"));
    cases.push_back(std::move(one));
  }
  std::sort(cases.begin(), cases.end(),
            [](const MessageCase& a, const MessageCase& b) { return a.name < b.name; });
  return cases;
}

/// Copies a case's files into `folder`, growing the one that is to be large.
inline void lay_out(const MessageCase& one, const std::string& folder) {
  namespace fs = std::filesystem;
  fs::copy(one.folder, folder, fs::copy_options::recursive | fs::copy_options::overwrite_existing);
  if (!fs::exists(one.folder + "/grow")) return;
  const std::string grow = without_line_end(read_file(one.folder + "/grow"));
  const std::size_t blank = grow.find(' ');
  const std::string path = folder + "/" + grow.substr(0, blank);
  std::string bytes = read_file(path);
  const auto size = static_cast<std::size_t>(parse_integer(grow.substr(blank + 1)).value());
  while (bytes.size() < size) bytes += "# a line of comment\n";
  bytes.resize(size);
  std::ofstream(path, std::ios::binary) << bytes;
}

}  // namespace winterfolio::test
