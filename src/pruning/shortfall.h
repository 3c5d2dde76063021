// What a winter too mild does to a tree and what its keeper can do, by how much of its need went
// without.
//
// The symptoms are published; where they stand on the scale is our own estimate, and marked so.
#pragma once

#include <span>
#include <string>
#include <string_view>
#include <vector>

#include "pruning/evidence.h"

namespace winterfolio {

struct ShortfallEffect {
  std::string id;
  std::vector<std::string> species;  ///< empty: any
  double short_from = 0.0;           ///< share of the need, included
  double short_below = 0.0;          ///< excluded
  Evidence because;

  /// Id of the words for one matter: "leafing", "bloom", "fruit_set", "fruit", "keeper_can",
  /// "do_not".
  std::string words(std::string_view matter) const;
};

std::span<const ShortfallEffect> shortfall_effects();

/// The effect for a species that went without `share_short` of its need.
///
/// share_short  (need - received) / need, both by one measure; below 0 counts as 0, above 1 as 1.
/// Of a range of needs
///              the low end says the worst that can be said for sure, the high end the best.
/// source       tables/shortfall_effects.csv
const ShortfallEffect& shortfall_effect(std::string_view species, double share_short);

}  // namespace winterfolio
