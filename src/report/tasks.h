// What to do now: the few things that the rest of this winter asks for, each with its days, its reason and its trees.
#pragma once

#include <vector>

#include "document/text.h"
#include "report/season_facts.h"

namespace winterfolio {

struct Task {
  Text when;
  Text what;  ///< what and why, a sentence or two
  Text which;
};

/// The workdays still to come, the windows that close before the next one, what to look at, and what is not winter
/// work; in the order of their days, at most `most`.
std::vector<Task> tasks_now(const SeasonFacts& facts, std::size_t most);

/// The trees a crew could cut on a day, in working order.
std::vector<const TreeSeason*> trees_to_cut_on(const SeasonFacts& facts, Date day);

}  // namespace winterfolio
