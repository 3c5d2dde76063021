// Which figure decides for a tree, and which never may.
#include "findings/needs.h"

#include "orchard/cultivars.h"
#include "support/catch.h"

using namespace winterfolio;

namespace {

Tree tree_of(const std::string& species, const std::string& cultivar) {
  Tree tree;
  tree.id = "T1";
  tree.species = species;
  tree.cultivar = cultivar;
  return tree;
}

PartNeeds only_part(const Tree& tree, const Orchard& orchard = {}) {
  const auto parts = needs_of(tree, orchard);
  REQUIRE(parts.size() == 1);
  return parts.front();
}

bool has_kind(const PartNeeds& part, NeedKind kind) {
  for (const Need& need : part.needs) {
    if (need.kind == kind) return true;
  }
  return false;
}

}  // namespace

TEST_CASE(
    "the tree's own figure comes first, then the keeper's cultivar row, then the published one") {
  // Lapins: 35 portions, UC compilation after Erez 2000 (seen).
  Orchard orchard;
  Tree tree = tree_of("sweet_cherry", "Lapins");
  CHECK(only_part(tree, orchard).deciding->kind == NeedKind::published);
  CHECK(only_part(tree, orchard).deciding->measure == ChillMeasure::portions);
  OwnCultivar own;
  own.species = "sweet_cherry";
  own.name = "LAPINS";
  own.needs[ChillMeasure::chill_hours] = {400, 450};
  own.from_where = "ten years of notes";
  orchard.cultivars.push_back(own);
  CHECK(only_part(tree, orchard).deciding->kind == NeedKind::own_cultivar);
  CHECK(only_part(tree, orchard).deciding->measure == ChillMeasure::chill_hours);
  tree.needs[ChillMeasure::utah] = {700, 700};
  tree.needs[ChillMeasure::chill_hours] = {500, 500};
  const auto deciding = only_part(tree, orchard).deciding;
  CHECK(deciding->kind == NeedKind::tree);
  CHECK(deciding->measure == ChillMeasure::utah);
  CHECK(deciding->low == 700.0);
}

TEST_CASE("of published figures portions speak before Utah units, and those before chill hours") {
  int compared = 0;
  for (const CultivarRow& row : cultivars_table()) {
    if (row.mark != CultivarMark::seen || row.from_memory) continue;
    const auto deciding = only_part(tree_of(row.species, row.cultivar)).deciding;
    INFO(row.species << " " << row.cultivar);
    if (row.portions) CHECK(deciding->measure == ChillMeasure::portions);
    if (!row.portions && row.utah) CHECK(deciding->measure <= ChillMeasure::portions);
    ++compared;
  }
  CHECK(compared > 50);
}

TEST_CASE("figures from memory, group spans, cold rooms and species spans never decide") {
  for (const CultivarRow& row : cultivars_table()) {
    const PartNeeds part = only_part(tree_of(row.species, row.cultivar));
    INFO(row.species << " " << row.cultivar);
    for (const Need& need : part.needs) {
      if (need.may_decide()) CHECK(need.kind == NeedKind::published);
      if (need.source == "memory") CHECK_FALSE(need.may_decide());
    }
  }
  const PartNeeds unknown = only_part(tree_of("apple", ""));
  CHECK_FALSE(unknown.deciding.has_value());
  CHECK(has_kind(unknown, NeedKind::species_range));
  const PartNeeds remembered = only_part(tree_of("apple", "Arkansas Black"));
  CHECK_FALSE(remembered.deciding.has_value());
  CHECK(has_kind(remembered, NeedKind::memory));
}

TEST_CASE("sources that disagree are taken as one range, never averaged") {
  // Walnut 'Chandler': 45-50 and 71.5 portions in two compilations (both seen).
  const auto deciding = only_part(tree_of("walnut", "Chandler")).deciding;
  REQUIRE(deciding.has_value());
  CHECK(deciding->low == 45.0);
  CHECK(deciding->high == 71.5);
  CHECK(deciding->sources.size() == 2);
}

TEST_CASE("every graft of a tree has needs of its own") {
  Tree tree = tree_of("apple", "");
  tree.grafts = {"Anna", "Golden Delicious"};
  const auto parts = needs_of(tree, {});
  REQUIRE(parts.size() == 2);
  CHECK(parts[0].cultivar == "Anna");
  CHECK(parts[0].deciding->measure == ChillMeasure::chill_hours);
  CHECK(parts[1].deciding->measure == ChillMeasure::portions);
}

TEST_CASE("a kind the tables do not know has no needs") {
  Tree tree = tree_of("other", "");
  tree.other = "lemon";
  const PartNeeds part = only_part(tree);
  CHECK(part.needs.empty());
  CHECK_FALSE(part.deciding.has_value());
}

TEST_CASE("the measures in use are those that decide, the commonest first") {
  Orchard orchard;
  orchard.trees = {tree_of("sweet_cherry", "Lapins"), tree_of("sweet_cherry", "Brooks"),
                   tree_of("apple", "Anna"), tree_of("apple", "")};
  CHECK(measures_in_use(orchard) ==
        std::vector<ChillMeasure>{ChillMeasure::portions, ChillMeasure::chill_hours});
  CHECK(measures_in_use({}).empty());
}
