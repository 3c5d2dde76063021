// Everything the plan says of one tree: its window, its cuts, who may do them, how the tools are
// cleaned, and why.
#pragma once

#include <span>
#include <vector>

#include "pruning/cautions.h"
#include "pruning/cuts.h"
#include "pruning/hygiene.h"
#include "pruning/limits.h"
#include "pruning/windows.h"

namespace winterfolio {

/// Who does what at a tree this winter.
enum class TreeWork {
  crew,        ///< on the crew's list
  arborist,    ///< past the limits of volunteer work
  lead_first,  ///< a disease without a name, or cutting held (bees): the lead looks before anybody
               ///< cuts
  dry_summer,  ///< its window is no winter work
  no_day,      ///< its window closes before it opens
  no_window,   ///< no rule is kept for the kind
};

struct TreePlan {
  const Tree* tree = nullptr;  ///< owned by the orchard
  TreeState state = TreeState::bearing;
  PruningWindow window;
  CutList cuts;  ///< what the tree would get; printed for a crew only where `work` says so
  TreeLimits limits;
  HygienePlan hygiene;
  std::vector<Advice> advice;
  TreeWork work = TreeWork::crew;
};

/// Whether wires send it to the line's owner.
bool near_wires(const TreePlan& plan);

/// What is known of a tree besides the orchard file.
struct TreeFacts {
  TreeDates dates;
  VerdictState chill = VerdictState::unknown;  ///< changes the cuts of this winter, never a window
  bool freeze_coming = false;                  ///< a hard freeze is forecast
  std::optional<Date> as_of{};  ///< workdays from then on are to come; nothing: none is
};

/// The plan of one tree that stands in the orchard. `tree` and `orchard` must outlive it.
TreePlan plan_tree(const Tree& tree, const TreeFacts& facts, const Orchard& orchard,
                   int winter_year);

/// The crew's trees of this winter in the order of work: the window that closes first goes first,
/// then the rank, mature before young, healthy before diseased; else as in the file.
std::vector<const TreePlan*> working_order(std::span<const TreePlan> plans);

/// What the crew's plans and the planned workdays involve. Nothing where no crew has anything to
/// do.
CautionFacts caution_facts(std::span<const TreePlan> plans, const Orchard& orchard);

}  // namespace winterfolio
