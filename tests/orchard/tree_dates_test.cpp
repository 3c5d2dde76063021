// How old a tree is and whether it stands. Ages are this program's own choice
// (tables/bearing_ages.csv, common practice, no source); the dates here are counted by hand.
#include "orchard/tree_dates.h"

#include "base/csv_table.h"
#include "orchard/species.h"
#include "support/catch.h"

using namespace winterfolio;

namespace {

Tree tree_of(const char* species, const char* planted) {
  Tree tree;
  tree.id = "A1";
  tree.species = species;
  if (*planted != '\0') tree.planted = parse_partial_date(planted);
  return tree;
}

constexpr bool kNorth = false;
constexpr bool kSouth = true;

}  // namespace

TEST_CASE("growing seasons end with October, south of the equator with April") {
  CHECK(growing_seasons_between(date_of(2019, 2, 1), date_of(2019, 10, 30), kNorth) == 0);
  CHECK(growing_seasons_between(date_of(2019, 2, 1), date_of(2019, 10, 31), kNorth) == 1);
  CHECK(growing_seasons_between(date_of(2018, 11, 20), date_of(2019, 2, 1), kNorth) == 0);
  CHECK(growing_seasons_between(date_of(2019, 2, 1), date_of(2022, 12, 1), kNorth) == 4);
  CHECK(growing_seasons_between(date_of(2019, 7, 1), date_of(2020, 4, 29), kSouth) == 0);
  CHECK(growing_seasons_between(date_of(2019, 7, 1), date_of(2020, 4, 30), kSouth) == 1);
  CHECK(growing_seasons_between(date_of(2022, 1, 1), date_of(2019, 1, 1), kNorth) == 0);
}

TEST_CASE("a tree is planted, then formative, then bearing") {
  const Tree apple = tree_of("apple", "2019-02");
  CHECK(state_on(apple, date_of(2019, 2, 1), kNorth) == TreeState::planted);
  CHECK(state_on(apple, date_of(2019, 10, 30), kNorth) == TreeState::planted);
  CHECK(state_on(apple, date_of(2019, 10, 31), kNorth) == TreeState::formative);
  CHECK(state_on(apple, date_of(2022, 10, 30), kNorth) == TreeState::formative);
  CHECK(state_on(apple, date_of(2022, 10, 31), kNorth) == TreeState::bearing);  // four seasons
  const Tree fig = tree_of("fig", "2019-02");
  CHECK(state_on(fig, date_of(2020, 11, 1), kNorth) == TreeState::bearing);
  const Tree pecan = tree_of("pecan", "2019-02");
  CHECK(state_on(pecan, date_of(2024, 11, 1), kNorth) == TreeState::formative);
  CHECK(state_on(pecan, date_of(2025, 11, 1), kNorth) == TreeState::bearing);
  CHECK(state_on(tree_of("other", "2019-02"), date_of(2022, 11, 1), kNorth) == TreeState::bearing);
}

TEST_CASE("autumn and the spring after it are one planting winter") {
  for (const char* planted : {"2018-11-20", "2019-02-10"}) {
    CHECK(state_on(tree_of("apple", planted), date_of(2019, 3, 1), kNorth) == TreeState::planted);
    CHECK(state_on(tree_of("apple", planted), date_of(2019, 12, 1), kNorth) ==
          TreeState::formative);
  }
}

TEST_CASE("what the keeper says of a tree outranks its age, and a tree of unknown age bears") {
  Tree tree = tree_of("apple", "2019-02");
  tree.state = TreeState::neglected;
  CHECK(state_on(tree, date_of(2019, 3, 1), kNorth) == TreeState::neglected);
  CHECK(state_on(tree_of("apple", ""), date_of(2019, 3, 1), kNorth) == TreeState::bearing);
}

TEST_CASE("every kind has a bearing age, and slow nuts the highest") {
  for (const SpeciesRow& species : species_table()) CHECK(bearing_age(species.id) >= 2);
  CHECK(bearing_age("fig") == 2);
  CHECK(bearing_age("pecan") == 7);
  CHECK(bearing_age("no such kind") == bearing_age("any"));
  const CsvTable ages = CsvTable::embedded("src/orchard/tables/bearing_ages.csv");
  for (const CsvRow row : ages) {
    INFO(row.text("species"));
    CHECK((row.text("species") == "any" || find_species(row.text("species")) != nullptr));
  }
}

TEST_CASE("a tree stands from its planting to its loss") {
  Tree tree = tree_of("apple", "2019-02");
  CHECK_FALSE(stands_on(tree, date_of(2019, 1, 31)));
  CHECK(stands_on(tree, date_of(2019, 2, 1)));
  tree.lost = parse_partial_date("2025-08-03");
  CHECK(stands_on(tree, date_of(2025, 8, 2)));
  CHECK_FALSE(stands_on(tree, date_of(2025, 8, 3)));
  CHECK(stands_on(tree_of("apple", ""), date_of(1900, 1, 1)));
}

TEST_CASE("a lost tree stays on the map of the twelve months in which it was lost") {
  Tree tree = tree_of("apple", "2019-02");
  tree.lost = parse_partial_date("2025-08-03");
  CHECK(on_map_of_year_to(tree, date_of(2025, 2, 28)));  // stands
  CHECK(on_map_of_year_to(tree, date_of(2026, 2, 28)));  // lost within the year
  CHECK(on_map_of_year_to(tree, date_of(2026, 8, 2)));   // lost on the first of the twelve months
  CHECK_FALSE(on_map_of_year_to(tree, date_of(2026, 8, 3)));  // a year and a day ago
  CHECK_FALSE(on_map_of_year_to(tree, date_of(2027, 2, 28)));
  CHECK_FALSE(on_map_of_year_to(tree, date_of(2018, 2, 28)));  // not yet planted
  CHECK(on_map_of_year_to(tree, date_of(2024, 2, 29)));        // a leap day ends the year too
  tree.lost = parse_partial_date("2025");
  CHECK(on_map_of_year_to(tree, date_of(2026, 2, 28)));
}

TEST_CASE("trees that stand on a day come in the order of the file") {
  Orchard orchard;
  orchard.trees = {tree_of("apple", "2010"), tree_of("pear", "2030"), tree_of("fig", "")};
  const auto standing = trees_standing_on(orchard, date_of(2026, 1, 1));
  REQUIRE(standing.size() == 2);
  CHECK(standing[0]->species == "apple");
  CHECK(standing[1]->species == "fig");
}

TEST_CASE("files are found beside the orchard file") {
  Orchard orchard;
  orchard.folder = ".";
  CHECK(path_beside(orchard, "a.csv") == "a.csv");
  orchard.folder = "gardens/mill";
  CHECK(path_beside(orchard, "t/a.csv") == "gardens/mill/t/a.csv");
  orchard.folder = "/";
  CHECK(path_beside(orchard, "a.csv") == "/a.csv");
}
