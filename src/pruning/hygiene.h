// How a tree's tools are cleaned: with what, when, and where the brush goes, by the disease the
// keeper has named.
//
// Label and safety sheet come first; sap and sawdust come off before any agent works; adults only.
#pragma once

#include <optional>
#include <span>
#include <string>
#include <string_view>
#include <vector>

#include "orchard/orchard.h"
#include "pruning/evidence.h"

namespace winterfolio {

enum class GrowthSeason { dormant, growing };  ///< no leaves open; in leaf
enum class CleaningTime { between_cuts, between_trees, between_species, end_of_day };
std::string_view id_of(CleaningTime time);

/// First to plan with, second only where the first is not to be had, also in addition.
enum class HygienePreference { first, second, also };

struct HygieneRule {
  std::string id;
  std::string disease;                 ///< "none" and "unknown" included
  std::optional<GrowthSeason> season;  ///< nothing: any
  CleaningTime when = CleaningTime::end_of_day;
  std::string agent;  ///< "alcohol", "bleach", "soap_and_water", "heat", "none"
  int contact_seconds = 0;
  std::vector<std::string> brush;  ///< in order of choice: "burn", "chip", "bin", "leave"
  bool has_caution = false;
  HygienePreference preference = HygienePreference::first;
  Evidence because;

  /// Ids of words: strength (empty without an agent), plan, why, and the agent's caution (empty
  /// without one).
  std::string strength_words() const;
  std::string plan_words() const;
  std::string why_words() const;
  std::string caution_words() const;
};

std::span<const HygieneRule> hygiene_rules();

struct HygienePlan {
  const HygieneRule* first = nullptr;      ///< never null
  std::vector<const HygieneRule*> also;    ///< in addition
  std::vector<const HygieneRule*> second;  ///< where the first agent is not to be had
  bool last_in_round = false;              ///< diseased: after all healthy trees
  bool not_cut = false;                    ///< the disease has no name: nothing is cut

  /// Whether a disinfectant is handled, which is for adults only.
  bool uses_disinfectant() const;
};

/// The plan for a disease as the orchard file names it; empty for none. A named disease without
/// rules counts as unknown, and so does wood flagged as diseased without a name.
HygienePlan hygiene_for(std::string_view disease, bool flagged_diseased, GrowthSeason season);
HygienePlan hygiene_for(const Tree& tree, GrowthSeason season);

}  // namespace winterfolio
