// What to cut on a tree, in working order, and where to stop: at most four lines that a volunteer
// can follow and count.
//
// First dead, diseased and damaged wood, then the fruit left hanging, then what crowds, crosses or
// forks narrowly, then what grows inward, upright or from the root, then the aim of the form, last
// the wood that carries fruit. After a winter too mild for the tree everything living is cut
// lightly, and fruiting wood waits until live buds show.
#pragma once

#include <optional>
#include <span>
#include <string>
#include <string_view>
#include <vector>

#include "findings/verdict.h"
#include "orchard/orchard.h"
#include "pruning/evidence.h"

namespace winterfolio {

/// Whether to cut as after a poor winter: where the tree fell short, or may have. A need within a
/// tenth counts as enough, and what is not known changes nothing.
bool calls_for_light_cuts(VerdictState chill);

/// What a figure counts, and the figure itself.
struct CutLimit {
  std::string of;  ///< "thick_cuts", "canopy_share_pct", ...; "none"
  std::optional<Range> figure;
};

struct CutRule {
  std::string id;
  std::string
      words;     ///< under which its words stand: its own id, or that of a rule that says the same
  int rank = 0;  ///< 1 = first; the same for all rules of one wood
  std::string wood;
  std::string species;  ///< "any" for all; so too form, state, disease
  std::string form;
  std::string state;
  std::string disease;
  CutLimit limit;
  bool stop_names_share = false;   ///< the stop rule says "a quarter" in words
  bool allows_heavy_cuts = false;  ///< the stop rule counts cuts thicker than a wrist
  Evidence because;

  bool matches(std::string_view tree_species, std::string_view tree_form,
               std::string_view tree_state, std::string_view tree_disease) const;
  int score() const;  ///< 0 to 15
};

/// Every rule, in the order of the table.
std::span<const CutRule> cut_rules();

/// The rule that names most of a tree: disease 8, species 4, form 2, state 1. An empty form or
/// disease is not given. nullptr for a wood that is none of the table's.
const CutRule* cut_rule_for(std::string_view wood, std::string_view species, std::string_view form,
                            TreeState state, std::string_view disease);

/// The largest share of a living crown to take in one year [%]; nothing for a species without a
/// row.
std::optional<double> max_canopy_share(std::string_view species);

/// One line of a cut list. Ids of words, never words.
struct CutLine {
  std::string rule;   ///< "crowded-neglected"
  std::string words;  ///< as in its rule
  std::string wood;   ///< "crowded"
  int rank = 0;
  std::string what;  ///< "cut.crowded-neglected.do"
  std::string stop;  ///< "cut.crowded-neglected.stop", or that of what caps it
  CutLimit limit;    ///< as it holds for this tree, caps included
  Evidence because;
  std::optional<Evidence> capped_by;  ///< what made the stop rule stricter than the rule's own
};

struct CutList {
  std::vector<CutLine> lines;  ///< at most four, in working order
  std::vector<CutLine> later;  ///< what else was flagged and found no line
  bool wait_for_lead =
      false;  ///< a disease nobody has named: nothing is cut until the lead has looked
};

struct CutFacts {
  /// How the cold stands against the need when the window closes; before that, how it is expected
  /// to stand then.
  VerdictState chill = VerdictState::unknown;
  /// The window's rule where it allows no cut thicker than a wrist.
  std::optional<Evidence> no_heavy_cuts;
  /// Who says so, where the tree still holds its leaves: no thick cut until they drop.
  std::optional<Evidence> leaves_held{};
};

constexpr int kCutLinesATree = 4;

/// The cut list of one tree. Empty for species "other", for which nothing is known.
///
/// source    tables/cuts.csv, each row its own
CutList cuts_for(const Tree& tree, TreeState state, const CutFacts& facts);

}  // namespace winterfolio
