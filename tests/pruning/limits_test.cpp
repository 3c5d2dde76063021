// Limits of volunteer work: both sides of every figure, and which trees go to an arborist.
#include "pruning/limits.h"

#include <algorithm>

#include "base/csv_table.h"
#include "orchard/tree_words.h"
#include "support/catch.h"
#include "support/trees.h"

using namespace winterfolio;
using namespace winterfolio::test;

namespace {

bool names(const std::vector<LimitHit>& hits, std::string_view id) {
  return std::any_of(hits.begin(), hits.end(),
                     [&](const LimitHit& hit) { return hit.rule->id == id; });
}
bool names(const std::vector<const LimitRule*>& rules, std::string_view id) {
  return std::any_of(rules.begin(), rules.end(),
                     [&](const LimitRule* rule) { return rule->id == id; });
}

Tree with_hazard(std::string hazard) {
  Tree tree = tree_of("apple");
  tree.height = Metres(3.0);
  tree.hazards.push_back(std::move(hazard));
  return tree;
}

}  // namespace

TEST_CASE("every limit holds on its side of the figure, and only there") {
  const CsvTable table = CsvTable::embedded("src/pruning/tables/volunteer_limits.csv");
  REQUIRE(table.size() == limit_rules().size());
  for (std::size_t i = 0; i < table.size(); ++i) {
    const CsvRow row = table.row(i);
    const LimitRule& rule = limit_rules()[i];
    INFO(rule.id);
    REQUIRE(rule.id == row.text("id"));
    CHECK_FALSE(holds(rule, {}).has_value());
    CHECK_FALSE(rule.applies_to.empty());
    const std::string& compare = row.text("compare");
    if (const auto figure = row.number("figure")) {
      const auto at = [&](double value) {
        LimitFacts facts;
        facts.figures[rule.limit] = value;
        return holds(rule, facts).value();
      };
      CHECK(at(*figure - 0.01) == (compare == "below" || compare == "at_or_below"));
      CHECK(at(*figure) == (compare == "at_or_above" || compare == "at_or_below"));
      CHECK(at(*figure + 0.01) == (compare == "above" || compare == "at_or_above"));
    } else {
      LimitFacts there;
      there.present.insert(rule.limit);
      LimitFacts gone;
      gone.absent.insert(rule.limit);
      CHECK(holds(rule, there) == (compare == "present"));
      CHECK(holds(rule, gone) == (compare == "absent"));
    }
  }
}

TEST_CASE("a tree of fifteen feet is past the limit, one of four and a half metres is not") {
  // Trees over 15 to 20 ft are best left to professionals: OregonLive 2011 [S77], seen; careful end
  // taken.
  Tree tree = tree_of("apple");
  tree.height = Metres(4.5);
  CHECK(limits_of(tree).for_volunteers());
  tree.height = Metres::from_feet(15.0);
  const TreeLimits tall = limits_of(tree);
  CHECK_FALSE(tall.for_volunteers());
  REQUIRE(names(tall.arborist, "tree-height"));
  CHECK(tall.arborist[0].rule->why == "limit.tree-height.why");
  tree.height.reset();
  const TreeLimits unknown = limits_of(tree);
  CHECK(unknown.for_volunteers());
  CHECK(names(unknown.check_on_site, "tree-height"));
}

TEST_CASE(
    "hazards the keeper names send a tree to the arborist, hold work, or keep young people away") {
  for (const char* hazard : {"wires", "hollow_trunk", "heavy_limb", "steep_ground"}) {
    INFO(hazard);
    CHECK_FALSE(limits_of(with_hazard(hazard)).for_volunteers());
  }
  const TreeLimits wires = limits_of(with_hazard("wires"));
  CHECK(names(wires.arborist, "wire-named"));
  CHECK(names(wires.arborist, "wire-near"));  // not measured: counts as near
  CHECK(wires.holds_activity("ladder"));
  CHECK(wires.holds_activity("pole"));
  for (const LimitHit& hit : wires.arborist) CHECK(hit.assumed == (hit.rule->id == "wire-near"));

  const TreeLimits bees = limits_of(with_hazard("bees"));
  CHECK(bees.for_volunteers());
  CHECK(bees.holds_activity("cutting"));

  const TreeLimits water = limits_of(with_hazard("water"));
  CHECK(water.for_volunteers());
  CHECK(water.holds_activity("ladder"));
  CHECK_FALSE(water.holds_activity("cutting"));
  CHECK(names(water.adults_only, "water-minors"));
}

TEST_CASE("every hazard of the orchard file is a limit") {
  for (const WordRow& hazard : hazards_table()) {
    INFO(hazard.id);
    const TreeLimits limits = limits_of(with_hazard(hazard.id));
    CHECK(limits.arborist.size() + limits.held.size() + limits.adults_only.size() > 0);
  }
}

TEST_CASE("what nobody has said is for the lead to look at, and holds nothing") {
  Tree tree = tree_of("apple");
  tree.height = Metres(3.0);
  const TreeLimits limits = limits_of(tree);
  CHECK(limits.for_volunteers());
  CHECK(limits.held.empty());
  for (const char* id :
       {"limb-thick", "wire-near", "slope-tree", "trunk-hollow", "crack", "target"}) {
    INFO(id);
    CHECK(names(limits.check_on_site, id));
  }
  CHECK_FALSE(names(limits.check_on_site, "tree-height"));
}

TEST_CASE("all limits that hold apply together") {
  LimitFacts facts;
  facts.figures = {{"wind", 39.0}, {"age", 17.0}, {"tree_height", 2.0}};
  facts.present = {"rain"};
  const auto held = limits_that_hold(facts);
  CHECK(names(held, "wind-ladder"));
  CHECK(names(held, "wind-home"));
  CHECK(names(held, "minor-ladder"));
  CHECK(names(held, "rain"));
  CHECK_FALSE(names(held, "tree-height"));
  // 10 ft for people not qualified: OSHA tree care QuickCard [S79], seen.
  facts.figures = {{"wire_distance", 3.04}};
  CHECK_FALSE(names(limits_that_hold(facts), "wire-near"));
  facts.figures = {{"wire_distance", 2.99}};
  CHECK(names(limits_that_hold(facts), "wire-near"));
  // Too warm never stops work: common practice, no source.
  facts.figures = {{"air_temperature", 35.0}, {"wind_chill", 35.0}};
  facts.present = {};
  CHECK(limits_that_hold(facts).empty());
}

TEST_CASE("consequences are ordered from mild to strict") {
  CHECK(Consequence::no_minors < Consequence::hold);
  CHECK(Consequence::hold < Consequence::arborist_list);
  CHECK(Consequence::arborist_list < Consequence::go_home);
  CHECK(id_of(Consequence::go_home) == "go_home");
}
