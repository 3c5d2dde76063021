// What a tree's own past says of its need: winters after which it leafed well were enough, winters
// after which it leafed badly were not. Together they bracket the requirement, and the bracket
// outranks the table.
//
//   chill of a winter   38        44      47   |   52      58
//   leafed              badly             badly    well    well
//                                  too little  |  enough         -> between 47 and 52
//
// All winters are taken in one making (see comparison_basis); the verdict that uses the bracket
// must be, too.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "findings/bloom.h"
#include "findings/needs.h"

namespace winterfolio {

enum class Leafing {
  well,   ///< "leafed out", and nothing said of unevenness that spring
  badly,  ///< "leafed unevenly"
  not_noted,
};

struct EvidenceYear {
  int year = 0;  ///< in which the winter began
  std::string name;
  double chill = 0.0;  ///< at that winter's end
  Leafing leafing = Leafing::not_noted;
  std::optional<Date> first_bloom;
  std::string harvest;  ///< as written; empty: not noted
};

struct OwnEvidence {
  ChillMeasure measure;
  WinterDetail basis = WinterDetail::hourly;
  std::vector<EvidenceYear> years;   ///< past winters in which anything was noted, by year
  std::optional<double> too_little;  ///< the most chill after which it leafed badly
  std::optional<double> enough;      ///< the least after which it leafed well
  bool contradicts_itself =
      false;  ///< it leafed badly after more than was enough in another year: no bracket then
};
/// Empty if the outlook did not count the measure.
OwnEvidence own_evidence(const Tree& tree, ChillMeasure measure, const SpringOutlook& outlook);

/// How the bracket and the table's figure go together.
enum class BracketUse {
  none,       ///< no bracket: the table's figure stands
  alone,      ///< no figure that decides: the bracket is all there is
  agrees,     ///< the table's figure lies within the bracket and stands as it is
  narrows,    ///< both agree; the range is where they overlap, with an end or both from the bracket
  overrules,  ///< they contradict each other: the tree is believed, and the conflict is told
};
struct BracketedNeed {
  std::optional<DecidingNeed> need;
  BracketUse use = BracketUse::none;
};
/// The keeper's own figure for the tree stands as it is. A need with no end from the table names
/// none of its sources.
BracketedNeed with_own_evidence(const std::optional<DecidingNeed>& table,
                                const OwnEvidence& evidence);

}  // namespace winterfolio
