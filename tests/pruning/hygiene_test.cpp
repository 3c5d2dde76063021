// Tool cleaning: one agent to plan with for every disease and season, and the published rules kept.
#include "pruning/hygiene.h"

#include <set>

#include "base/csv_table.h"
#include "orchard/tree_words.h"
#include "support/catch.h"
#include "support/trees.h"

using namespace winterfolio;
using namespace winterfolio::test;

namespace {

constexpr GrowthSeason kSeasons[] = {GrowthSeason::dormant, GrowthSeason::growing};

}  // namespace

TEST_CASE("every disease has one agent to plan with in each season, and every row is reached") {
  const CsvTable table = CsvTable::embedded("src/pruning/tables/tool_hygiene.csv");
  std::vector<std::string> diseases = {""};
  for (const WordRow& row : diseases_table()) diseases.push_back(row.id);
  std::set<std::string> reached;
  for (const std::string& disease : diseases) {
    for (GrowthSeason season : kSeasons) {
      INFO(disease);
      int preferred = 0;
      for (const CsvRow row : table) {
        const std::string& when = row.text("season");
        const bool now = when == "any" || (when == "dormant") == (season == GrowthSeason::dormant);
        preferred += row.text("disease") == (disease.empty() ? "none" : disease) && now &&
                     row.text("prefer") == "yes";
      }
      CHECK(preferred == 1);
      const HygienePlan plan = hygiene_for(disease, false, season);
      reached.insert(plan.first->id);
      for (const auto* rule : plan.also) reached.insert(rule->id);
      for (const auto* rule : plan.second) reached.insert(rule->id);
      CHECK(plan.last_in_round == !disease.empty());
      CHECK(plan.not_cut == (disease == "unknown"));
    }
  }
  for (const HygieneRule& rule : hygiene_rules()) {
    INFO(rule.id);
    CHECK(reached.count(rule.id) == 1);
    CHECK_FALSE(rule.brush.empty());
  }
}

TEST_CASE("flagged wood without a name, and names without rules, count as unknown") {
  CHECK(hygiene_for("", true, GrowthSeason::dormant).first->id == "unknown");
  CHECK(hygiene_for("purple wilt", false, GrowthSeason::dormant).first->id == "unknown");
  CHECK(hygiene_for("", false, GrowthSeason::dormant).first->id == "none");
  Tree tree = tree_of("apple");
  tree.see_to = {"dead"};
  CHECK(hygiene_for(tree, GrowthSeason::dormant).first->id == "none");
  tree.see_to = {"dead", "diseased"};
  CHECK(hygiene_for(tree, GrowthSeason::dormant).not_cut);
}

TEST_CASE("cleaning follows the published rules") {
  // Iowa State: 10 % bleach, ten minutes; alcohol not recommended for fire blight [S63], seen.
  const HygienePlan blight = hygiene_for("fire_blight", true, GrowthSeason::growing);
  CHECK(blight.first->agent == "bleach");
  CHECK(blight.first->contact_seconds >= 600);
  CHECK(blight.first->when == CleaningTime::between_cuts);
  // Illinois: no disinfecting needed between dormant cuts [S35], seen; between trees is the careful
  // choice.
  CHECK(hygiene_for("fire_blight", true, GrowthSeason::dormant).first->when ==
        CleaningTime::between_trees);
  // WSU: after every cut into sweet cherry canker [S38], seen.
  CHECK(hygiene_for("bacterial_canker", true, GrowthSeason::dormant).first->when ==
        CleaningTime::between_cuts);
  // Penn State: disinfectant does not work through dirt, so washing comes in any case [S64], seen.
  const HygienePlan healthy = hygiene_for("", false, GrowthSeason::dormant);
  REQUIRE(healthy.also.size() == 1);
  CHECK(healthy.also[0]->agent == "soap_and_water");
  CHECK(healthy.uses_disinfectant());
  CHECK_FALSE(hygiene_for("unknown", false, GrowthSeason::dormant).uses_disinfectant());
  // Burning is always one choice among others, since it needs the local permit: common practice, no
  // source.
  for (const HygieneRule& rule : hygiene_rules())
    CHECK((rule.brush.size() > 1 || rule.brush[0] != "burn"));
}
