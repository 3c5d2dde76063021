// Whatever is wrong with an input is told in the words of tests/messages/, to the last character:
// the program is run on every case there. How a case is laid out stands at the top of
// support/messages.h.
#include "support/messages.h"

#include <map>
#include <regex>
#include <set>

#include "support/catch.h"
#include "support/program.h"

using namespace winterfolio;

namespace {

/// Ids spelt out as they are given to Diagnostic::id. Words of printed pages have ids of the same
/// shape, and so have file names; neither is a fault.
void collect_whole_ids(const std::string& text, std::set<std::string>& ids) {
  static const std::regex id("\"([a-z]+\\.[a-z][a-z0-9-]*)\"");
  static const std::set<std::string> endings = {"yaml", "csv", "json", "pdf",
                                                "txt",  "h",   "ttf",  "icc"};
  for (std::sregex_iterator found(text.begin(), text.end(), id), end; found != end; ++found) {
    const std::string name = (*found)[1];
    // Printed words travel inside the program: no input can be wrong in them.
    if (name.starts_with("words.")) continue;
    if (endings.count(name.substr(name.find('.') + 1)) == 0) ids.insert(name);
  }
}

/// The readers of temperatures name the fault alone; the functions they hand it to put
/// "temperature." before it.
void collect_temperature_ids(const std::string& text, std::set<std::string>& ids) {
  static const std::regex call(
      "\\b(?:about_file|about_line|fault|fail)\\(\\s*(?:Severity::[a-z]+,|[a-z_]+,)?\\s*"
      "\"([a-z]+(?:-[a-z]+)*)\"");
  for (std::sregex_iterator found(text.begin(), text.end(), call), end; found != end; ++found) {
    ids.insert("temperature." + (*found)[1].str());
  }
}

/// Every id that the readers and the command line can give.
std::set<std::string> ids_in_sources() {
  namespace fs = std::filesystem;
  std::set<std::string> ids;
  for (const char* room : {"readers", "cli"}) {
    for (const auto& entry :
         fs::recursive_directory_iterator(test::source_dir() + "/src/" + room)) {
      if (!entry.is_regular_file() || entry.path().extension() != ".cpp") continue;
      const std::string text = test::read_file(entry.path().string());
      collect_whole_ids(text, ids);
      if (entry.path().parent_path().filename() == "temperature") {
        collect_temperature_ids(text, ids);
      }
    }
  }
  return ids;
}

/// Faults that no file kept in a folder can bring about, and the test that shows each instead.
CsvTable shown_elsewhere() {
  const std::string name = "tests/messages/shown_elsewhere.csv";
  return CsvTable(name, test::read_file(test::source_dir() + "/" + name));
}

}  // namespace

TEST_CASE("what is wrong with an input is told to the last character") {
  for (const test::MessageCase& one : test::message_cases()) {
    INFO(one.name);
    const test::ScratchFolder scratch;
    test::lay_out(one, scratch.path());
    const test::ProgramRun run = test::run_program(one.arguments, scratch.path());
    CHECK(run.err == one.expected);
    CHECK(run.status == one.status);
  }
}

TEST_CASE("every id of a diagnostic has two cases in tests/messages") {
  std::map<std::string, int> cases;
  for (const test::MessageCase& one : test::message_cases()) ++cases[one.id()];
  std::set<std::string> ids = ids_in_sources();
  CHECK(ids.size() > 50);
  const CsvTable elsewhere = shown_elsewhere();
  for (const CsvRow row : elsewhere) ids.erase(row.text("id"));
  for (const std::string& id : ids) {
    INFO(id << " has " << cases[id] << " of 2 cases");
    CHECK(cases[id] >= 2);
  }
}

TEST_CASE("no case in tests/messages is left over from an id that is gone") {
  const std::set<std::string> ids = ids_in_sources();
  for (const test::MessageCase& one : test::message_cases()) {
    INFO(one.name);
    CHECK(ids.count(one.id()) == 1);
    CHECK_FALSE(one.expected.empty());
  }
}

TEST_CASE("a fault that no kept file can bring about is shown by the test that is named for it") {
  const std::set<std::string> ids = ids_in_sources();
  const CsvTable elsewhere = shown_elsewhere();
  for (const CsvRow row : elsewhere) {
    const std::string id = row.text("id");
    INFO(id);
    CHECK(ids.count(id) == 1);
    const std::string test = test::read_file(test::source_dir() + "/" + row.text("test"));
    CHECK(test.find(id.substr(id.find('.') + 1)) != std::string::npos);
  }
}
