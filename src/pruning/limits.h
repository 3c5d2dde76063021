// What a volunteer crew does not do: the limits of height, thickness, wires, slope, wind, cold, age
// and numbers, and which trees they send to an arborist.
//
// Every limit is tested; all that hold apply together, and the stricter wins. They are planning
// limits: a stricter local code, site rule or label on ladder or tool outranks every one of them.
#pragma once

#include <map>
#include <optional>
#include <set>
#include <span>
#include <string>
#include <string_view>
#include <vector>

#include "orchard/orchard.h"
#include "pruning/evidence.h"

namespace winterfolio {

enum class LimitCompare { above, below, at_or_above, at_or_below, present, absent };

/// What follows where a limit holds, mildest first.
enum class Consequence {
  no_minors,      ///< adults only
  hold,           ///< that activity stops, or does not start, until the limit no longer holds
  arborist_list,  ///< on no crew sheet: a qualified arborist's, or for wires the line owner's crew
  go_home,        ///< the day ends for everyone outdoors
};
std::string_view id_of(Consequence consequence);

struct LimitRule {
  std::string id;
  std::string limit;  ///< what is looked at: "tree_height", "wires", "wind"
  LimitCompare compare = LimitCompare::present;
  std::optional<double> figure;  ///< [unit]; nothing for present and absent
  std::string unit;
  std::vector<std::string> applies_to;  ///< "tree", "limb", or the activities that are held
  Consequence consequence = Consequence::hold;
  std::string why;       ///< id of the words, "limit.tree-height.why"
  std::string in_short;  ///< id of a few words for a tree's card; empty where the limit is of a day
                         ///< or a crew
  Evidence because;
};

std::span<const LimitRule> limit_rules();

/// What is known on a day or of a tree. What stands in none of the three is not known.
struct LimitFacts {
  std::map<std::string, double, std::less<>> figures;  ///< in the table's units
  std::set<std::string, std::less<>> present;
  std::set<std::string, std::less<>> absent;
};

/// Whether a limit holds; nothing where its value is not known.
std::optional<bool> holds(const LimitRule& rule, const LimitFacts& facts);

/// The limits that hold for sure, in the order of the table.
std::vector<const LimitRule*> limits_that_hold(const LimitFacts& facts);

struct LimitHit {
  const LimitRule* rule = nullptr;
  bool assumed = false;  ///< not measured, but the keeper named the hazard
};

/// What the limits say of one tree before anybody has walked up to it.
struct TreeLimits {
  std::vector<LimitHit> arborist;  ///< not empty: the tree is on no crew sheet
  std::vector<LimitHit> held;      ///< activities held at this tree (cutting, ladder)
  std::vector<LimitHit> adults_only;
  std::vector<const LimitRule*> check_on_site;  ///< not known: for the lead to look at first

  bool for_volunteers() const { return arborist.empty(); }
  /// Whether an activity ("cutting", "ladder") is held at this tree.
  bool holds_activity(std::string_view activity) const;
};

/// source    tables/volunteer_limits.csv, each row its own
TreeLimits limits_of(const Tree& tree);

}  // namespace winterfolio
