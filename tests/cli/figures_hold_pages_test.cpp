// The pages show no number that `figures` does not hold: every count, amount, day, hour and name of
// the season report, and everything its charts draw, is looked up among the figures of the same
// winter. Which figures may stand behind which words says printed_figures.csv beside this file.
#include <set>
#include <string>

#include "base/embedded_files.h"
#include "cli/load.h"
#include "cli/standing_day.h"
#include "readers/template_reader.h"
#include "report/figures.h"
#include "report/registry.h"
#include "support/catch.h"
#include "support/edge_orchards.h"
#include "support/files.h"
#include "support/held_figures.h"
#include "support/program.h"

using namespace winterfolio;
using namespace winterfolio::test;

namespace {

CsvTable rules() {
  const std::string path = "tests/cli/printed_figures.csv";
  return CsvTable(path, read_file(source_dir() + "/" + path));
}

/// An orchard as the program reads it, standing on one day.
class Stand {
 public:
  Stand(const std::string& file, std::optional<int> winter, std::optional<Date> as_of) {
    Diagnostics diagnostics;
    loaded_ = load_orchard(file, diagnostics).value();
    today_ = today_of(loaded_, winter, as_of, diagnostics).value();
  }
  void speak(TemperatureUnits temperatures, LengthUnits lengths) {
    loaded_.orchard.units = temperatures;
    loaded_.orchard.lengths = lengths;
  }
  SeasonFacts facts() const {
    return season_facts(loaded_.orchard, loaded_.record, today_, loaded_.files,
                        loaded_.utc_offset_minutes, loaded_.places);
  }

 private:
  LoadedOrchard loaded_;
  Today today_;
};

/// Every section there is, whether a report asks for it today or not.
Document whole_document(const SeasonFacts& facts) {
  ReportTemplate all;
  all.name = "season";
  for (const SectionRow& row : report_sections()) {
    TemplateSection section;
    section.id = std::string(row.id);
    all.sections.push_back(section);
  }
  return report_document(all, facts);
}

/// What is printed and not held, each fault once.
std::set<std::string> faults_of(const PrintedValues& printed, HeldFigures& held) {
  std::set<std::string> faults;
  for (const Printed& one : printed.all()) {
    if (auto fault = held.missing(one)) faults.insert(std::move(*fault));
  }
  return faults;
}

void check_held(const SeasonFacts& facts) {
  HeldFigures held(figures_of(facts, true), rules());
  const PrintedValues printed(whole_document(facts));
  for (const std::string& fault : faults_of(printed, held)) FAIL_CHECK(fault);
}

void check_held_in_both_units(const std::string& file, std::optional<int> winter = {},
                              std::optional<Date> as_of = {}) {
  INFO(file << " " << winter.value_or(0) << " " << (as_of ? iso_date(*as_of) : ""));
  Stand stand(file, winter, as_of);
  stand.speak(TemperatureUnits::fahrenheit, LengthUnits::feet);
  check_held(stand.facts());
  stand.speak(TemperatureUnits::celsius, LengthUnits::metres);
  check_held(stand.facts());
}

Blocks saying(Text text) {
  Blocks blocks;
  blocks.emplace_back(Paragraph{Role::body, std::move(text)});
  return blocks;
}

const std::string kSample = source_dir() + "/sample-orchard/orchard.yaml";
const std::string kSeattle = source_dir() + "/tests/data/seattle/orchard.yaml";

}  // namespace

TEST_CASE("figures hold every number on the sample's pages, at its day") {
  check_held_in_both_units(kSample);
}

TEST_CASE("figures hold every number on the sample's pages early in the winter and after it") {
  check_held_in_both_units(kSample, {}, date_of(2026, 12, 5));
  check_held_in_both_units(kSample, 2020);
  check_held_in_both_units(kSample, {}, date_of(2027, 2, 15));  // after the last reading
}

TEST_CASE("figures hold every number on the pages of the orchard at Seattle") {
  check_held_in_both_units(kSeattle);
}

TEST_CASE("figures hold every number on the pages of orchards at the edge") {
  for (const EdgeOrchard& one : edge_orchards()) {
    INFO(one.what);
    const ScratchFolder scratch;
    const std::string file = scratch.write("orchard.yaml", one.orchard);
    scratch.write("w.csv", one.readings);
    check_held_in_both_units(file);
  }
}

TEST_CASE("nothing that is printed escapes the walk through a document") {
  // As many values as a season of the sample has at least, a tree's card alone having a dozen.
  CHECK(PrintedValues(whole_document(Stand(kSample, {}, {}).facts())).all().size() > 3000);
}

TEST_CASE("a number that the figures do not hold is found") {
  const Stand stand(kSample, {}, {});
  const SeasonFacts facts = stand.facts();
  HeldFigures held(figures_of(facts, true), rules());
  const auto faults = [&](Text text) {
    return faults_of(PrintedValues(saying(std::move(text))), held).size();
  };
  const NightLow& night = facts.frost_nights.front();
  const double lowest = night.lowest.fahrenheit();
  const long met = static_cast<long>(facts.resting().size());

  // What is held passes, and a little beside it does not.
  CHECK(faults(say("figure.coldest", {{"lowest", number(lowest, 1, "fahrenheit")}})) == 0);
  CHECK(faults(say("figure.coldest", {{"lowest", number(lowest + 0.02, 1, "fahrenheit")}})) == 1);
  CHECK(faults(say("figure.coldest", {{"hour", HourOfDay{night.at, {}}}})) == 0);
  CHECK(faults(say("figure.coldest", {{"hour", HourOfDay{night.at + 2, {}}}})) == 1);
  CHECK(faults(say("front.met", {{"all", count(met)}})) == 0);
  CHECK(faults(say("front.met", {{"all", count(met + 1)}})) == 1);
  // A day of some tree's year; one long before any of them.
  CHECK(faults(say("bloom.seen", {{"day", day(facts.today.as_of)}})) == 0);
  CHECK(faults(say("bloom.seen", {{"day", day(date_of(1999, 1, 1))}})) == 1);
  // Ends that are held, but not of one range.
  const Percentiles& end = facts.shown.front().to_come.at_end;
  CHECK(faults(say("bar.likely", {{"amount", range(end.low, end.high)}})) == 0);
  CHECK(faults(say("bar.likely", {{"amount", range(end.low, end.middle)}})) == 1);
  // A count in words that nobody has told where it is from, though the number stands somewhere.
  CHECK(faults(say("front.brand-new", {{"n", count(met)}})) == 1);
  // A name with a figure in it.
  CHECK(faults(say("tree.named", {{"id", literal(facts.trees.front().tree->id)}})) == 0);
  CHECK(faults(say("tree.named", {{"id", literal("Z99")}})) == 1);
  CHECK(faults(literal("made up in 1903")) == 1);
}

TEST_CASE("no rule stands twice, and none names a figure that cannot be") {
  std::set<std::pair<std::string, std::string>> seen;
  for (const CsvRow row : rules()) {
    INFO("line " << row.line());
    CHECK(seen.emplace(row.text("message"), row.text("value")).second);
    const bool page_only = row.text("figures") == "page-only";
    CHECK((page_only ? !row.text("why").empty() : row.text("figures").front() == '/'));
  }
}
