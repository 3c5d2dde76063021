// What to do now: the few things that the rest of this winter asks for, each with its days, its
// reason and its trees.
#pragma once

#include <vector>

#include "document/block.h"
#include "report/season_facts.h"

namespace winterfolio {

/// How many tasks the front page takes; the others stand on the next one.
inline constexpr std::size_t kTasksInFront = 3;

struct Task {
  Text when;
  Text what;  ///< what and why, a sentence or two
  Text which;
};

/// The workdays still to come, the windows that close before the next one, what to look at, and
/// what is not winter work, in the order of their days.
std::vector<Task> tasks_now(const SeasonFacts& facts);

/// Tasks number `first` (from 0) to before `last` as a table of when, what and which; no rows where
/// there are none.
Table tasks_table(const SeasonFacts& facts, std::size_t first, std::size_t last);

/// The trees a crew could cut on a day, in working order.
std::vector<const TreeSeason*> trees_to_cut_on(const SeasonFacts& facts, Date day);

}  // namespace winterfolio
