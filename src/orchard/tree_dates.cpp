// Works out a tree's age and whether it stands.
#include "orchard/tree_dates.h"

#include <algorithm>
#include <map>

#include "base/csv_table.h"

namespace winterfolio {
namespace {

constexpr std::string_view kAnySpecies = "any";

const std::map<std::string, int, std::less<>>& bearing_ages() {
  static const std::map<std::string, int, std::less<>> ages = [] {
    std::map<std::string, int, std::less<>> found;
    const CsvTable table = CsvTable::embedded("src/orchard/tables/bearing_ages.csv");
    for (const CsvRow row : table) {
      found.emplace(row.text("species"), static_cast<int>(row.required_number("growing_seasons")));
    }
    return found;
  }();
  return ages;
}

/// The last day a partly known date can mean.
Date latest_of(const PartialDate& date) {
  const unsigned month = date.month.value_or(12);
  return date_of(date.year, month, date.day.value_or(last_day_of(date.year, month)));
}

}  // namespace

int growing_seasons_between(Date planted, Date day, bool southern) {
  const auto season_end = [southern](int year) {
    return southern ? date_of(year, 4, 30) : date_of(year, 10, 31);
  };
  const auto ended_before = [&](Date date) {
    const int year = int{date.year()};
    return season_end(year) <= date ? year : year - 1;
  };
  return std::max(0, ended_before(day) - ended_before(planted));
}

int bearing_age(std::string_view species) {
  const auto found = bearing_ages().find(species);
  return found == bearing_ages().end() ? bearing_ages().at(std::string(kAnySpecies))
                                       : found->second;
}

TreeState state_on(const Tree& tree, Date day, bool southern) {
  if (tree.state) return *tree.state;
  if (!tree.planted) return TreeState::bearing;
  const int seasons = growing_seasons_between(tree.planted->earliest(), day, southern);
  if (seasons == 0) return TreeState::planted;
  return seasons < bearing_age(tree.species) ? TreeState::formative : TreeState::bearing;
}

bool stands_on(const Tree& tree, Date day) {
  const bool planted = !tree.planted || tree.planted->earliest() <= day;
  const bool lost = tree.lost && tree.lost->earliest() <= day;
  return planted && !lost;
}

bool on_map_of_year_to(const Tree& tree, Date last_day) {
  if (stands_on(tree, last_day)) return true;
  if (tree.planted && tree.planted->earliest() > last_day) return false;
  const Date day_after = plus_days(last_day, 1);
  const Date year_begins = MonthDay{unsigned{day_after.month()}, unsigned{day_after.day()}}.in_year(
      int{day_after.year()} - 1);
  return tree.lost && latest_of(*tree.lost) >= year_begins;
}

std::vector<const Tree*> trees_standing_on(const Orchard& orchard, Date day) {
  std::vector<const Tree*> standing;
  for (const Tree& tree : orchard.trees) {
    if (stands_on(tree, day)) standing.push_back(&tree);
  }
  return standing;
}

}  // namespace winterfolio
