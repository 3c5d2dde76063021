// Printing, as a person meets it: a fault leaves the old pages whole, a good orchard does not wait
// for a bad one, and the same files give the same bytes everywhere. What other programs make of the
// pages is asked of qpdf and the poppler tools where they are installed.
#include <algorithm>
#include <filesystem>
#include <optional>
#include <string>
#include <vector>

#include "support/catch.h"
#include "support/program.h"

using namespace winterfolio::test;
namespace fs = std::filesystem;

namespace {

const char* const kSeason = "larkfold-bend-2026-27-season.pdf";

/// A copy of the sample orchard, so that nothing is printed beside the one that is kept.
class Sample {
 public:
  Sample() { fs::copy(source_dir() + "/sample-orchard", path(), fs::copy_options::recursive); }
  std::string path() const { return scratch_.path() + "/sample"; }
  std::string file(const std::string& name) const { return path() + "/" + name; }
  ProgramRun print(const std::string& more = "", const std::string& before = "") const {
    return run_program("print orchard.yaml " + more, path(), before);
  }

 private:
  ScratchFolder scratch_;
};

/// A day of readings and one tree: the least that is printed.
std::string small_orchard(const std::string& id, const std::string& species = "apple") {
  return "version: 1\norchard: {id: " + id + ", name: " + id +
         ", latitude: 45, longitude: 10}\n"
         "temperatures:\n  - {file: w.csv, unit: C}\n"
         "trees:\n  - {id: A1, species: " +
         species + ", cultivar: Granny Smith}\n";
}

/// 1 December 2026, from 3 °C at midnight up and down by a degree an hour.
std::string day_of_readings() {
  std::string text = "time,temp_c\n";
  for (int hour = 0; hour < 24; ++hour) {
    const int degrees = 3 + (hour < 12 ? hour : 24 - hour) / 2;
    text += std::string("2026-12-01 ") + (hour < 10 ? "0" : "") + std::to_string(hour) + ":00," +
            std::to_string(degrees) + "\n";
  }
  return text;
}

/// Two orchards a.yaml and b.yaml beside one file of readings.
class Pair {
 public:
  Pair(const std::string& a, const std::string& b) {
    scratch_.write("w.csv", day_of_readings());
    scratch_.write("a.yaml", a);
    scratch_.write("b.yaml", b);
  }
  std::string path() const { return scratch_.path(); }
  ProgramRun print(const std::string& arguments) const {
    return run_program("print " + arguments, path());
  }
  /// The names of what lies in the folder besides the inputs.
  std::vector<std::string> printed() const {
    std::vector<std::string> names;
    for (const auto& entry : fs::directory_iterator(path())) {
      const std::string name = entry.path().filename().string();
      if (name != "w.csv" && name != "a.yaml" && name != "b.yaml") names.push_back(name);
    }
    std::sort(names.begin(), names.end());
    return names;
  }

 private:
  ScratchFolder scratch_;
};

int count_of(const std::string& text, const std::string& part) {
  int count = 0;
  for (std::size_t at = 0; (at = text.find(part, at)) != std::string::npos; at += part.size())
    ++count;
  return count;
}

struct ToolRun {
  std::string out;
  std::string err;
  int status = -1;
};

/// Runs a tool of the system; nothing, with a word, where it is not installed.
std::optional<ToolRun> run_tool(const std::string& tool, const std::string& arguments) {
  if (std::system(("command -v " + tool + " >/dev/null 2>&1").c_str()) != 0) {
    WARN("skipped: " << tool << " is not installed");
    return std::nullopt;
  }
  const ScratchFolder scratch;
  const std::string line =
      tool + " " + arguments + " >'" + scratch.path() + "/out' 2>'" + scratch.path() + "/err'";
  const int result = std::system(line.c_str());
  return ToolRun{read_file(scratch.path() + "/out"), read_file(scratch.path() + "/err"),
                 WIFEXITED(result) ? WEXITSTATUS(result) : -1};
}

/// What stands behind a name in pdfinfo's list.
std::string line_behind(const std::string& text, const std::string& name) {
  const std::size_t at = text.find(name + ":");
  if (at == std::string::npos) return {};
  const std::size_t value = text.find_first_not_of(' ', at + name.size() + 1);
  return text.substr(value, text.find('\n', value) - value);
}

}  // namespace

TEST_CASE("an orchard with a fault prints nothing and leaves the old pages byte for byte") {
  const Pair orchards(small_orchard("one"), small_orchard("one", "aple"));
  const std::string pdf = orchards.path() + "/one-2026-27-season.pdf";
  std::ofstream(pdf, std::ios::binary) << "the old pages";
  const ProgramRun bad = orchards.print("b.yaml");
  CHECK(bad.status == 1);
  CHECK(bad.out.empty());
  CHECK(bad.err.find("did you mean 'apple'?") != std::string::npos);
  CHECK(read_file(pdf) == "the old pages");
  CHECK(orchards.printed() == std::vector<std::string>{"one-2026-27-season.pdf"});

  // Mended, it prints over them.
  REQUIRE(orchards.print("a.yaml").status == 0);
  CHECK(read_file(pdf).starts_with("%PDF-"));
  CHECK(orchards.printed() == std::vector<std::string>{"one-2026-27-season.pdf"});
}

TEST_CASE("a good orchard is printed beside a bad one, in either order, and the status is 1") {
  for (const char* arguments : {"a.yaml b.yaml", "b.yaml a.yaml"}) {
    INFO(arguments);
    const Pair orchards(small_orchard("good"), small_orchard("bad", "aple"));
    const ProgramRun run = orchards.print(arguments);
    CHECK(run.status == 1);
    CHECK(run.out == "./good-2026-27-season.pdf\n");
    CHECK(count_of(run.err, "error: ") == 1);
    CHECK(orchards.printed() == std::vector<std::string>{"good-2026-27-season.pdf"});
  }
}

TEST_CASE("two good orchards are two files, named on standard output in their order") {
  const Pair orchards(small_orchard("first"), small_orchard("second"));
  const ProgramRun run = orchards.print("b.yaml a.yaml");
  CHECK(run.status == 0);
  CHECK(run.out == "./second-2026-27-season.pdf\n./first-2026-27-season.pdf\n");
}

TEST_CASE("two orchards of one id into one folder: status 2 and nothing is written") {
  const Pair orchards(small_orchard("same"), small_orchard("same"));
  const ProgramRun run = orchards.print("a.yaml b.yaml");
  CHECK(run.status == 2);
  CHECK(run.out.empty());
  CHECK(count_of(run.err, "error: ") == 1);
  CHECK(run.err.find("a.yaml and b.yaml would both be printed as ./same-2026-27-season.pdf") !=
        std::string::npos);
  CHECK(orchards.printed().empty());
}

TEST_CASE("a folder that cannot be written into is status 4 and one message") {
  const Pair orchards(small_orchard("one"), small_orchard("two"));
  for (const char* into : {"w.csv", "w.csv/below", "not/there"}) {
    INFO(into);
    const ProgramRun run = orchards.print(std::string("a.yaml b.yaml --into ") + into);
    CHECK(run.status == 4);
    CHECK(run.out.empty());
    CHECK(count_of(run.err, "error: ") == 1);
    CHECK(run.err.find(std::string("error: cannot write ") + into + "/one-2026-27-season.pdf: ") !=
          std::string::npos);
    CHECK(orchards.printed().empty());
  }
  CHECK(read_file(orchards.path() + "/w.csv") == day_of_readings());
}

TEST_CASE("a disk that fills up while pages are written leaves the old ones whole: status 4") {
  const Pair orchards(small_orchard("one"), small_orchard("two"));
  const std::string pdf = orchards.path() + "/one-2026-27-season.pdf";
  std::ofstream(pdf, std::ios::binary) << "the old pages";
  // No file may grow beyond 16 KiB, which no report stays below: writing stops in the middle, as it
  // does on a full disk. The signal that goes with this limit is ignored; a disk sends none.
  const ProgramRun run =
      run_program("print a.yaml", orchards.path(), "trap '' XFSZ; ulimit -f 32;");
  CHECK(run.status == 4);
  CHECK(run.out.empty());
  CHECK(count_of(run.err, "error: ") == 1);
  CHECK(run.err.find("cannot write ./one-2026-27-season.pdf: File too large") != std::string::npos);
  CHECK(read_file(pdf) == "the old pages");
  CHECK(orchards.printed() == std::vector<std::string>{"one-2026-27-season.pdf"});
}

TEST_CASE("an unknown report is a wrong command line, with the nearest name, and nothing is read") {
  const ScratchFolder empty;
  const ProgramRun run = run_program("print no-such.yaml --report saeson", empty.path());
  CHECK(run.status == 2);
  CHECK(run.out.empty());
  CHECK(run.err.find("there is no report 'saeson'") != std::string::npos);
  CHECK(run.err.find("did you mean 'season'?") != std::string::npos);
  // The words printed on the pages lie in the program too; they are no report.
  CHECK(run_program("print no-such.yaml --report words/en", empty.path()).status == 2);
  // A template without an end is refused as too large, not read for ever.
  const ProgramRun endless = run_program("print no-such.yaml --report /dev/zero", empty.path());
  CHECK(endless.status == 1);
  CHECK(endless.err.size() < 1000);
}

TEST_CASE("a keeper's own template prints under its own name, and is no fault of the program") {
  const Pair orchards(small_orchard("one"), small_orchard("two"));
  std::ofstream(orchards.path() + "/mine.yaml") << "sections:\n  - front\n  - cautions\n";
  const ProgramRun run = orchards.print("a.yaml --report mine.yaml");
  CHECK(run.status == 0);
  CHECK(run.out == "./one-2026-27-mine.pdf\n");
}

TEST_CASE("the winter, the day and the paper asked for are those printed") {
  const Sample sample;
  REQUIRE(sample.print("--into .").status == 0);
  REQUIRE(sample.print("--winter 2020 --paper a4").out == "./larkfold-bend-2020-21-season.pdf\n");
  REQUIRE(fs::create_directory(sample.file("early")));
  REQUIRE(sample.print("--as-of 2027-01-10 --into early").status == 0);
  const auto season = run_tool("pdfinfo", sample.file(kSeason));
  if (!season) return;
  CHECK(line_behind(season->out, "Title") == "Larkfold Bend Orchard, winter 2026–27");
  CHECK(line_behind(season->out, "Page size") == "612 x 792 pts (letter)");
  const auto past = run_tool("pdfinfo", sample.file("larkfold-bend-2020-21-season.pdf"));
  CHECK(line_behind(past->out, "Title") == "Larkfold Bend Orchard, winter 2020–21");
  CHECK(line_behind(past->out, "Page size").ends_with("(A4)"));
  const std::string early = sample.file(std::string("early/") + kSeason);
  // The file's own date is the day spoken from, in the zone-free form of the tool.
  const auto dated = run_tool("pdfinfo", "-isodates " + early);
  CHECK(line_behind(dated->out, "CreationDate").starts_with("2027-01-10"));
  if (const auto words = run_tool("pdftotext", early + " -")) {
    CHECK(words->out.find("Readings to Sunday 10 January 2027") != std::string::npos);
    CHECK(words->out.find("Readings to Sunday 7 February 2027") == std::string::npos);
  }
}

TEST_CASE("a winter without a reading is refused: it would pass for the coldest of all") {
  const Pair orchards(small_orchard("one"), small_orchard("two"));
  for (const char* when :
       {"--winter 2031", "--winter 1990", "--as-of 2031-01-01", "--as-of 2026-11-30"}) {
    INFO(when);
    const ProgramRun run = orchards.print(std::string("a.yaml ") + when);
    CHECK(run.status == 1);
    CHECK(run.err.find("they go from 2026-12-01 to 2026-12-01") != std::string::npos);
    CHECK(orchards.printed().empty());
  }
  CHECK(orchards.print("a.yaml --winter 2026 --as-of 2026-12-24").status == 0);
}

TEST_CASE("the same files give the same bytes, whatever the locale, the time zone and the umask") {
  const Sample sample;
  REQUIRE(sample.print().status == 0);
  const std::string first = read_file(sample.file(kSeason));
  REQUIRE(sample.print().status == 0);
  CHECK(read_file(sample.file(kSeason)) == first);
  REQUIRE(sample.print("", "umask 077; LC_ALL=de_DE.UTF-8 TZ=Asia/Tokyo").status == 0);
  CHECK(read_file(sample.file(kSeason)) == first);
  CHECK((fs::status(sample.file(kSeason)).permissions() & fs::perms::mask) ==
        (fs::perms::owner_read | fs::perms::owner_write));
  // Nothing of the place where it was printed, or of the day, is in it.
  CHECK(first.find(sample.path()) == std::string::npos);
}

TEST_CASE("the printed sample passes the checks of other programs") {
  const Sample sample;
  REQUIRE(sample.print().status == 0);
  const std::string pdf = sample.file(kSeason);
  if (const auto checked = run_tool("qpdf", "--check " + pdf)) {
    CHECK(checked->status == 0);  // 3 would be warnings
    CHECK(checked->err.empty());
  }
  if (const auto fonts = run_tool("pdffonts", pdf)) {
    CHECK(fonts->err.empty());
    // Two lines of heading, then a font a line: embedded, a subset, with a map to Unicode.
    const int lines = count_of(fonts->out, "\n");
    CHECK(lines > 2);
    CHECK(count_of(fonts->out, "yes yes yes") == lines - 2);
  }
  if (const auto words = run_tool("pdftotext", pdf + " -")) {
    CHECK(words->status == 0);
    CHECK(words->err.empty());
    CHECK(words->out.find("Larkfold Bend Orchard") != std::string::npos);
    CHECK(words->out.find("\uFFFD") == std::string::npos);
  }
}
