// Invented trees and orchards for tests of the pruning rules.
#pragma once

#include <string>
#include <utility>
#include <vector>

#include "orchard/orchard.h"

namespace winterfolio::test {

inline Tree tree_of(std::string species, TreeState state = TreeState::bearing) {
  Tree tree;
  tree.id = "T1";
  tree.species = std::move(species);
  tree.state = state;
  return tree;
}

inline Observation seen_on(Date on, std::string what) {
  Observation observation;
  observation.on = {int{on.year()}, unsigned{on.month()}, unsigned{on.day()}};
  observation.what = std::move(what);
  return observation;
}

inline Orchard orchard_at(double latitude) {
  Orchard orchard;
  orchard.id = "test";
  orchard.name = "Test orchard";
  orchard.latitude = latitude;
  return orchard;
}
inline Orchard northern_orchard() { return orchard_at(40.0); }
inline Orchard southern_orchard() { return orchard_at(-35.0); }

/// The same answer to every question about diseases.
inline DistrictPressures district_all(District answer) {
  return {answer, answer, answer, answer, answer};
}

inline const std::vector<TreeState>& tree_states() {
  static const std::vector<TreeState> states = {TreeState::planted, TreeState::formative,
                                                TreeState::bearing, TreeState::neglected};
  return states;
}

/// All 243 answers to the five questions.
inline std::vector<DistrictPressures> all_districts() {
  constexpr District kAnswers[] = {District::yes, District::no, District::unknown};
  std::vector<DistrictPressures> all;
  for (District a : kAnswers)
    for (District b : kAnswers)
      for (District c : kAnswers)
        for (District d : kAnswers)
          for (District e : kAnswers) all.push_back({a, b, c, d, e});
  return all;
}

}  // namespace winterfolio::test
