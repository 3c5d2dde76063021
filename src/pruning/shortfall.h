// What a winter too mild does to a tree and what its keeper can do, by how much of its need went
// without.
//
// The symptoms are published; where they stand on the scale is our own estimate, and marked so.
#pragma once

#include <optional>
#include <span>
#include <string>
#include <string_view>
#include <vector>

#include "findings/still_to_come.h"
#include "findings/verdict.h"
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

/// What the cold that one tree went without does to it.
struct TreeShortfall {
  /// How its words are to be read.
  enum class Standing {
    ended,     ///< the winter is over: this is what to expect
    expected,  ///< the winter goes on: so it would end after nine in ten to one in ten past winters
    look_for,  ///< no figure may decide: what to look for, not what will come
  };
  Standing standing = Standing::ended;
  Range share;  ///< of the need, 0 to 1: the least it may have gone without, and the most
  const ShortfallEffect* at_least = nullptr;  ///< the worst that can be said for sure
  const ShortfallEffect* at_most = nullptr;   ///< may be the same band
};
std::string_view id_of(TreeShortfall::Standing standing);

/// Nothing where the need is met or will be, where too few hours are known, where the winter goes
/// on and no past winter tells how it may end, and where no figure tells.
///
/// chill        what was received, by the measure of the need
/// to_come      of the same measure; nullptr: not known
/// without deciding figures
///              the lowest need that is told must be unmet before anything is said at all
std::optional<TreeShortfall> shortfall_of(std::string_view species, const PartVerdict& part,
                                          const WinterChill& chill, const StillToCome* to_come);

/// The measure by which shortfall_of() compares: of the need that decides, or of the one told;
/// nothing where it will say nothing.
std::optional<ChillMeasure> shortfall_measure(const PartVerdict& part, const WinterChill& chill);

}  // namespace winterfolio
