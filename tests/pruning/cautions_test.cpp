// Cautions: always those that put local rules first, then those for what a plan involves.
#include "pruning/cautions.h"

#include <algorithm>
#include <map>
#include <optional>
#include <set>

#include "support/catch.h"

using namespace winterfolio;

namespace {

bool has(const std::vector<const Caution*>& cautions, std::string_view id) {
  return std::any_of(cautions.begin(), cautions.end(),
                     [&](const Caution* c) { return c->id == id; });
}

CautionFacts everything() { return {true, true, true, true, true, true, true, true, true, true}; }

}  // namespace

TEST_CASE("local rules, the label and licensed practice come first on every page") {
  for (const CautionFacts& facts : {CautionFacts{}, everything()}) {
    for (std::optional<int> room :
         {std::optional<int>(), std::optional<int>(0), std::optional<int>(10)}) {
      const auto chosen = cautions_for(facts, room);
      for (const char* id : {"local-rules", "arborist", "general-guidance"}) {
        INFO(id);
        CHECK(has(chosen, id));
      }
      CHECK(chosen.at(0)->id == "general-guidance");
      for (std::size_t i = 0; i < 3; ++i) CHECK(chosen.at(i)->importance == 1);
      if (room) CHECK(chosen.size() == static_cast<std::size_t>(std::max(3, *room)));
    }
  }
}

TEST_CASE("a caution stands on the page when, and only when, its matter is involved") {
  for (const Caution& caution : caution_table()) {
    INFO(caution.id);
    CHECK(has(cautions_for(everything()), caution.id));
    CHECK(has(cautions_for({}), caution.id) == (caution.applies_when == CautionFor::any));
    CHECK_FALSE(caution.because.source.empty());
  }
  CHECK(cautions_for(everything()).size() == caution_table().size());
  CautionFacts ladder;
  ladder.ladder = true;
  // WAC 296-307-05505 [S71] and OSHA fact sheet [S72]: nobody on the top two steps, seen.
  CHECK(has(cautions_for(ladder), "ladder-top-steps"));
  CHECK_FALSE(has(cautions_for(ladder), "minors-no-ladder"));
  CHECK_FALSE(has(cautions_for(ladder), "chainsaw-ladder"));
}

TEST_CASE("where there is room for ten, nothing involved goes without its foremost caution") {
  CautionFacts day;
  day.ladder = day.saw = day.cold = day.disinfectant = day.minors = true;
  day.power_line = day.chainsaw = day.pole = day.wind = day.ice = true;
  const auto ten = cautions_for(day, 10);
  REQUIRE(ten.size() == 10);
  std::set<CautionFor> covered;
  for (const Caution* caution : ten) covered.insert(caution->applies_when);
  for (CautionFor what :
       {CautionFor::ladder, CautionFor::saw, CautionFor::cold, CautionFor::disinfectant,
        CautionFor::minors, CautionFor::power_line, CautionFor::chainsaw}) {
    INFO(id_of(what));
    CHECK(covered.count(what) == 1);
  }
  for (std::size_t i = 1; i < ten.size(); ++i) CHECK(ten[i - 1]->importance <= ten[i]->importance);
}

TEST_CASE("every matter has one foremost caution") {
  std::map<CautionFor, int> foremost;
  for (const Caution& caution : caution_table()) {
    CHECK((caution.importance >= 1 && caution.importance <= 4));
    foremost[caution.applies_when] += caution.importance == 2;
  }
  for (const auto& [what, count] : foremost) {
    INFO(id_of(what));
    CHECK(count == 1);
  }
}

TEST_CASE("what most likely hurts somebody ranks before the rest") {
  // Nobody on the top steps, no chain saw on a ladder, 10 ft from wires, a drop zone of twice the
  // height, bleach mixed with nothing: [S71], [S83], [S79], [S68], seen; their rank is ours.
  for (const char* id : {"ladder-top-steps", "chainsaw-ladder", "line-distance", "drop-zone",
                         "disinfect-never-mix", "minors-no-ladder"}) {
    INFO(id);
    const auto& table = caution_table();
    const auto found =
        std::find_if(table.begin(), table.end(), [&](const auto& c) { return c.id == id; });
    REQUIRE(found != table.end());
    CHECK(found->importance == 2);
  }
}
