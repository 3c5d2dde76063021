// Every rule has its printed words, short enough for a crew sheet, and its sources can be looked
// up.
#include <algorithm>
#include <map>
#include <set>
#include <sstream>

#include "base/csv_table.h"
#include "base/embedded_files.h"
#include "pruning/cautions.h"
#include "pruning/cuts.h"
#include "pruning/hygiene.h"
#include "pruning/labour.h"
#include "pruning/limits.h"
#include "pruning/shortfall.h"
#include "pruning/window_rules.h"
#include "support/catch.h"

using namespace winterfolio;

namespace {

/// Ids and words of the families that these tables print: keys nested by two blanks, words in
/// quotes.
const std::map<std::string, std::string>& words() {
  static const std::map<std::string, std::string> read = [] {
    std::map<std::string, std::string> found;
    std::vector<std::string> path;
    std::istringstream lines{std::string(embedded_file("templates/words/en.yaml"))};
    for (std::string line; std::getline(lines, line);) {
      const std::size_t indent = line.find_first_not_of(' ');
      if (indent == std::string::npos || line[indent] == '#' || indent % 2 != 0) continue;
      const std::size_t colon = line.find(':', indent);
      if (colon == std::string::npos) continue;
      path.resize(std::min(path.size(), indent / 2));
      path.push_back(line.substr(indent, colon - indent));
      const std::size_t quote = line.find('"', colon);
      if (quote == std::string::npos || line.back() != '"') continue;
      std::string id;
      for (const std::string& key : path) id += (id.empty() ? "" : ".") + key;
      found[id] = line.substr(quote + 1, line.size() - quote - 2);
    }
    return found;
  }();
  return read;
}

int count_of_words(const std::string& text) {
  std::istringstream in(text);
  int count = 0;
  for (std::string word; in >> word;) ++count;
  return count;
}

/// Collects the ids asked for, so that words nobody asks for are noticed too.
class Asked {
 public:
  const std::string& text(const std::string& id) {
    INFO(id);
    REQUIRE(words().count(id) == 1);
    asked_.insert(id);
    CHECK_FALSE(words().at(id).empty());
    return words().at(id);
  }
  void check_none_left(std::string_view family) const {
    for (const auto& [id, text] : words()) {
      INFO(id);
      if (id.starts_with(family)) CHECK(asked_.count(id) == 1);
    }
  }

 private:
  std::set<std::string> asked_;
};

const char* const kTables[] = {
    "src/pruning/tables/windows.csv",          "src/pruning/tables/cuts.csv",
    "src/pruning/tables/canopy_shares.csv",    "src/pruning/tables/tool_hygiene.csv",
    "src/pruning/tables/volunteer_limits.csv", "src/pruning/tables/workday_overheads.csv",
    "src/pruning/tables/labour.csv",           "src/pruning/tables/shortfall_effects.csv",
    "src/report/tables/cautions.csv"};

}  // namespace

TEST_CASE("every window and every line of advice has its reason in words") {
  Asked asked;
  for (const WindowRule& rule : window_rules()) asked.text("window." + rule.id + ".reason");
  for (const AdviceRule& rule : advice_rules()) asked.text("advice." + rule.id + ".text");
  asked.check_none_left("window.");
  asked.check_none_left("advice.");
}

TEST_CASE("every cut says what to do and where to stop in at most fourteen words each") {
  Asked asked;
  const auto short_enough = [&](const std::string& id) {
    INFO(id);
    CHECK(count_of_words(asked.text(id)) <= 14);
  };
  const auto in_a_line = [&](const std::string& rule, const std::string& until) {
    INFO(rule);
    CHECK(asked.text("cut." + rule + ".brief").size() +
              asked.text("cut." + rule + "." + until).size() <=
          34);
  };
  for (const CutRule& rule : cut_rules()) {
    short_enough("cut." + rule.words + ".do");
    short_enough("cut." + rule.words + ".stop");
    if (rule.stop_names_share) short_enough("cut." + rule.words + ".stop_fifth");
    // In a card's line: the wood and its limit.
    in_a_line(rule.words, "until");
    if (rule.stop_names_share) in_a_line(rule.words, "until_fifth");
  }
  short_enough("cut.leaves_held.stop");
  asked.text("cut.leaves_held.until");
  short_enough("cut.no_heavy_cut.stop");
  asked.text("cut.no_heavy_cut.until");
  asked.check_none_left("cut.");
}

TEST_CASE("every stop rule can be counted or seen: none, so many, or until a thing that shows") {
  for (const CutRule& rule : cut_rules()) {
    const std::string& stop = words().at("cut." + rule.words + ".stop");
    INFO(rule.id << ": " << stop);
    bool countable = false;
    for (const char* begins :
         {"No ", "Stop ", "Keep ", "Leave ", "One ", "Take no more than ", "Ordinary cuts only"})
      countable = countable || stop.starts_with(begins);
    CHECK(countable);
    // Words and figures agree on whether heavy cuts are counted.
    CHECK(rule.allows_heavy_cuts ==
          (stop.find("heavy cut") != std::string::npos && !stop.starts_with("No live")));
    const bool share =
        stop.find("quarter") != std::string::npos || stop.find("in four") != std::string::npos;
    if (rule.limit.of == "canopy_share_pct") CHECK(rule.stop_names_share == share);
  }
}

TEST_CASE("hygiene, limits, shortfalls and cautions have their words") {
  Asked asked;
  for (const HygieneRule& rule : hygiene_rules()) {
    asked.text(rule.plan_words());
    asked.text(rule.why_words());
    if (!rule.strength_words().empty()) asked.text(rule.strength_words());
    if (!rule.caution_words().empty()) asked.text(rule.caution_words());
    if (rule.agent != "none") asked.text("hygiene.agent." + rule.agent);
    asked.text("hygiene.when." + std::string(id_of(rule.when)));
    for (const std::string& way : rule.brush) asked.text("hygiene.brush." + way);
  }
  for (const LimitRule& rule : limit_rules()) {
    asked.text(rule.why);
    if (!rule.in_short.empty()) asked.text(rule.in_short);
  }
  for (const ShortfallEffect& effect : shortfall_effects())
    for (const char* matter : {"leafing", "bloom", "fruit_set", "fruit", "keeper_can", "do_not"})
      asked.text(effect.words(matter));
  for (const Caution& caution : caution_table()) {
    asked.text(caution.text_words());
    if (!caution.figure_words().empty()) asked.text(caution.figure_words());
  }
  for (const LabourRule& rule : labour_rules()) asked.text("labour." + rule.id + ".size");
  for (const char* family : {"hygiene.", "limit.", "shortfall.", "caution.", "labour."})
    asked.check_none_left(family);
}

TEST_CASE("no words speak of a spray, a rate or a rest-breaking agent") {
  // Chemical choices belong to the label and to licensed practice: common practice, no source.
  for (const auto& [id, text] : words()) {
    INFO(id << ": " << text);
    for (const char* never :
         {"hydrogen cyanamide", "cyanamide", "copper", "per acre", "per litre", "fungicide"})
      CHECK(text.find(never) == std::string::npos);
  }
}

TEST_CASE("every code of every table stands in the list of sources, and every source is used") {
  std::set<std::string> used;
  for (const char* path : kTables) {
    const CsvTable table = CsvTable::embedded(path);
    std::string all = table.comment();
    for (const CsvRow row : table) {
      INFO(path << ":" << row.line());
      CHECK_FALSE(row.text("source").empty());
      CHECK_NOTHROW(rule_mark_named(row.text("mark")));
      CHECK(row.text("source").find("section") == std::string::npos);
      all += row.text("source");
      for (const std::string& code : source_codes(row.text("source"))) used.insert(code);
    }
    for (const std::string& code : source_codes(all)) {
      INFO(path << " " << code);
      CHECK(find_source_page(code) != nullptr);
    }
  }
  for (const SourcePage& page : source_pages()) {
    INFO(page.code);
    CHECK_FALSE(page.reference.empty());
    CHECK(page.page.starts_with("http"));
  }
  CHECK(used.size() > 80);
  CHECK(find_source_page("S999") == nullptr);
}

TEST_CASE("a source reads without its codes") {
  CHECK(without_codes("Penn State 2016 [S10]; Rutgers [S1]") == "Penn State 2016; Rutgers");
  CHECK(without_codes("never more than a third [S28], [S29]; ours") ==
        "never more than a third; ours");
  CHECK(without_codes("OSHA [S79] (10 ft)") == "OSHA (10 ft)");
  CHECK(without_codes("common practice, no source") == "common practice, no source");
  CHECK(source_codes("a [S1], [S10]; b [S1]") == std::vector<std::string>{"S1", "S10"});
  CHECK(source_codes("an open bracket [S1").empty());
}
