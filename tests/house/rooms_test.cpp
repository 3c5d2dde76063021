// The plan of the house holds: rooms include only what the table allows, and link only that.
#include <filesystem>
#include <map>
#include <regex>
#include <set>
#include <sstream>

#include "support/catch.h"
#include "support/files.h"

namespace fs = std::filesystem;
using namespace winterfolio;
using Rooms = std::map<std::string, std::set<std::string>>;

namespace {

std::set<std::string> words_of(const std::string& text) {
  std::istringstream in(text);
  std::set<std::string> words;
  for (std::string word; in >> word;) words.insert(word);
  return words;
}

Rooms table() {
  const CsvTable csv("rooms.csv", test::read_file(test::source_dir() + "/tests/house/rooms.csv"));
  Rooms rooms;
  for (const CsvRow row : csv) rooms[row.text("room")] = words_of(row.text("may_include"));
  return rooms;
}

/// Everything a room reaches, itself included.
std::set<std::string> reach(const Rooms& rooms, const std::string& room) {
  std::set<std::string> reached = {room};
  for (const std::string& next : rooms.at(room)) reached.merge(reach(rooms, next));
  return reached;
}

}  // namespace

TEST_CASE("rooms include only what the table allows") {
  const Rooms rooms = table();
  const std::regex include("#include \"([a-z]+)/[^\"]+\"");
  int includes = 0;
  for (const auto& [room, allowed] : rooms) {
    const std::set<std::string> reached = reach(rooms, room);
    const fs::path folder = fs::path(test::source_dir()) / "src" / room;
    if (!fs::exists(folder)) continue;
    for (const fs::directory_entry& entry : fs::recursive_directory_iterator(folder)) {
      const std::string extension = entry.path().extension().string();
      if (extension != ".h" && extension != ".cpp") continue;
      const std::string text = test::read_file(entry.path().string());
      for (std::sregex_iterator at(text.begin(), text.end(), include), end; at != end; ++at) {
        INFO(entry.path().string() << " includes " << (*at)[0]);
        CHECK(reached.count((*at)[1]) == 1);
        ++includes;
      }
    }
  }
  CHECK(includes > 10);
}

TEST_CASE("every folder of src is a room of the table") {
  const Rooms rooms = table();
  for (const fs::directory_entry& entry :
       fs::directory_iterator(fs::path(test::source_dir()) / "src")) {
    if (!entry.is_directory()) continue;
    INFO(entry.path().filename().string());
    CHECK(rooms.count(entry.path().filename().string()) == 1);
  }
}

TEST_CASE("a room links only rooms that it may include") {
  const Rooms rooms = table();
  const std::string cmake = test::read_file(test::source_dir() + "/src/CMakeLists.txt");
  const std::regex line("\nroom\\(([a-z]+) ?([^)]*)\\)");
  int lines = 0;
  for (std::sregex_iterator at(cmake.begin(), cmake.end(), line), end; at != end; ++at, ++lines) {
    const std::string room = (*at)[1];
    INFO(room << " links " << (*at)[2]);
    REQUIRE(rooms.count(room) == 1);
    const std::set<std::string> reached = reach(rooms, room);
    for (const std::string& linked : words_of((*at)[2])) {
      if (rooms.count(linked) == 1) CHECK(reached.count(linked) == 1);
    }
  }
  CHECK(lines == static_cast<int>(rooms.size()));
}

TEST_CASE("nothing stands at the top but what the plan names") {
  const std::set<std::string> agreed = {"CMakeLists.txt", "CMakePresets.json",
                                        "README.md",      "DEVELOPERS.md",
                                        "LICENSE",        "src",
                                        "templates",      "tests",
                                        "sample-orchard", "output",
                                        "build",          ".ci",
                                        ".git",           ".gitignore",
                                        ".clang-format",  ".clang-tidy"};
  for (const fs::directory_entry& entry : fs::directory_iterator(test::source_dir())) {
    INFO(entry.path().filename().string());
    CHECK(agreed.count(entry.path().filename().string()) == 1);
  }
}
