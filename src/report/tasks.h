// What to do now: the few things that the rest of this winter asks for, each with its days, its
// reason and its trees.
#pragma once

#include <optional>
#include <string_view>
#include <vector>

#include "document/block.h"
#include "report/season_facts.h"

namespace winterfolio {

/// How many tasks the front page takes; the others stand on the next one.
inline constexpr std::size_t kTasksInFront = 3;

/// Why a task stands on the list.
enum class TaskKind {
  workday,     ///< on one of the orchard's days: the trees whose time it is
  closing,     ///< windows that close before any workday
  no_workday,  ///< windows that no workday falls into
  watch,       ///< nothing but looking can settle these trees
  lead_first,  ///< whoever leads the day looks before anybody cuts
  frost,       ///< a night of the forecast against the buds
  wires,       ///< near wires: the line's owner
  arborist,    ///< past the limits of volunteer work
  summer,      ///< in dry summer weather only
};
std::string_view id_of(TaskKind kind);

/// One thing to do, before it is put into words.
struct PlannedTask {
  TaskKind kind = TaskKind::workday;
  std::optional<Date> from{};  ///< the day, or the first of them; nothing where none is named
  std::optional<Date> to{};    ///< the last; the same as `from` for a single day
  bool light = false;          ///< cold fell short for one of them, or may: cut lightly
  std::vector<const TreeSeason*> trees{};
};

/// What the rest of the winter asks for, in the order of the pages.
std::vector<PlannedTask> planned_tasks(const SeasonFacts& facts);

/// A kind among some trees.
struct KindCount {
  const Tree* tree = nullptr;  ///< one of them
  long trees = 0;
};
/// The kinds among some trees, most trees first.
std::vector<KindCount> kinds_among(const std::vector<const TreeSeason*>& trees);

struct Task {
  Text when;
  Text what;  ///< what and why, a sentence or two
  Text which;
};

/// Whether a workday is still to come, and of this winter: not of one years on, looked back from.
bool is_coming(const Workday& workday, const Today& today);

/// The workdays still to come, the windows that close before the next one, what to look at, and
/// what is not winter work, in the order of their days.
std::vector<Task> tasks_now(const SeasonFacts& facts);

/// Tasks number `first` (from 0) to before `last` as a table of when, what and which; no rows where
/// there are none.
Table tasks_table(const SeasonFacts& facts, std::size_t first, std::size_t last);

/// The trees a crew could cut on a day, in working order.
std::vector<const TreeSeason*> trees_to_cut_on(const SeasonFacts& facts, Date day);

}  // namespace winterfolio
