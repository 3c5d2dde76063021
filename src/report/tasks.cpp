// Turns plans and workdays into a short list of things to do.
#include "report/tasks.h"

#include <algorithm>
#include <map>
#include <set>

#include "report/reckoning.h"
#include "report/speak.h"
#include "report/tree_season.h"

namespace winterfolio {
namespace {

constexpr std::size_t kMostIds = 8;
constexpr int kYear = 365;         ///< days in which a winter's work is done
constexpr int kBudsMayMove = 60;   ///< days into the winter; decided here
constexpr int kLeafingSeen = 240;  ///< days from the winter's first to late June
constexpr int kSoon = 21;          ///< days in which a closing window is urgent

/// "A1, A5 and B2", or how many where they are many.
Text which_trees(const std::vector<const Tree*>& trees) {
  if (trees.size() > kMostIds)
    return say("task.so-many-trees", {{"n", count(static_cast<long>(trees.size()))}});
  return value_text(tree_ids(trees, TextList::Joined::plain));
}

Text which_trees(const std::vector<const TreeSeason*>& seasons) {
  std::vector<const Tree*> trees;
  for (const TreeSeason* season : seasons) trees.push_back(season->tree);
  return which_trees(trees);
}

/// The same as words: "two apples and one fig".
TextList kinds_of(const std::vector<const TreeSeason*>& seasons) {
  TextList list;
  for (const KindCount& kind : kinds_among(seasons)) {
    list.items.push_back(
        kind.tree->species == "other"
            ? literal(kind.tree->other)
            : say_one_of("species-count", kind.tree->species, {{"n", count(kind.trees)}}));
  }
  return list;
}

bool to_be_cut(const TreeSeason& season) { return season.plan.work == TreeWork::crew; }

bool cut_already(const TreeSeason& season, const SeasonFacts& facts) {
  for (const Observation& seen : season.tree->observed) {
    if (seen.what == "pruned" && seen.on.day && seen.on.earliest() >= facts.today.winter.from &&
        seen.on.earliest() <= facts.today.as_of) {
      return true;
    }
  }
  return false;
}

std::vector<const TreeSeason*> select(const SeasonFacts& facts, auto wanted) {
  std::vector<const TreeSeason*> found;
  for (const TreeSeason& season : facts.trees) {
    if (wanted(season)) found.push_back(&season);
  }
  return found;
}

std::vector<Date> coming_workdays(const SeasonFacts& facts) {
  std::vector<Date> days;
  for (const Workday& workday : facts.orchard->workdays) {
    if (is_coming(workday, facts.today)) days.push_back(workday.on);
  }
  std::sort(days.begin(), days.end());
  return days;
}

/// One task for each coming workday: each tree on the first of them that its window holds.
std::vector<PlannedTask> workday_tasks(const SeasonFacts& facts,
                                       std::set<const TreeSeason*>& placed) {
  std::vector<PlannedTask> tasks;
  for (const Date day : coming_workdays(facts)) {
    PlannedTask task{TaskKind::workday, day, day};
    for (const TreeSeason* season : trees_to_cut_on(facts, day)) {
      if (placed.insert(season).second) {
        task.trees.push_back(season);
        task.light = task.light || calls_for_light_cuts(season->verdict.leading().verdict.state);
      }
    }
    tasks.push_back(std::move(task));
  }
  return tasks;
}

/// Trees whose window closes soon and before any workday that could take them.
std::optional<PlannedTask> closing_task(const SeasonFacts& facts,
                                        std::set<const TreeSeason*>& placed) {
  const Date soon = plus_days(facts.today.as_of, kSoon);
  PlannedTask task{TaskKind::closing};
  task.trees = select(facts, [&](const TreeSeason& season) {
    return to_be_cut(season) && !cut_already(season, facts) && placed.count(&season) == 0 &&
           season.plan.window.closes.on >= facts.today.as_of &&
           season.plan.window.opens.on <= soon && season.plan.window.closes.on <= soon;
  });
  if (task.trees.empty()) return std::nullopt;
  Date first = task.trees.front()->plan.window.closes.on;
  for (const TreeSeason* season : task.trees) {
    first = std::min(first, season->plan.window.closes.on);
    placed.insert(season);
  }
  task.to = first;
  return task;
}

/// Trees that no coming workday can take, and whose window is still open or yet to open: one task
/// for all that share their days.
std::vector<PlannedTask> unplaced_tasks(const SeasonFacts& facts,
                                        std::set<const TreeSeason*>& placed) {
  std::vector<PlannedTask> tasks;
  for (const TreeSeason* season : select(facts, [&](const TreeSeason& one) {
         return to_be_cut(one) && !cut_already(one, facts) && placed.count(&one) == 0 &&
                one.plan.window.closes.on >= facts.today.as_of;
       })) {
    placed.insert(season);
    const Date from = std::max(season->plan.window.opens.on, facts.today.as_of);
    const Date to = season->plan.window.closes.on;
    auto same = std::find_if(tasks.begin(), tasks.end(), [&](const PlannedTask& task) {
      return task.from == from && task.to == to;
    });
    if (same == tasks.end())
      same = tasks.insert(tasks.end(), PlannedTask{TaskKind::no_workday, from, to});
    same->trees.push_back(season);
  }
  std::stable_sort(tasks.begin(), tasks.end(), [](const PlannedTask& a, const PlannedTask& b) {
    return std::pair(a.from, a.to) < std::pair(b.from, b.to);
  });
  return tasks;
}

/// Trees of one lot that asks for no day of its own.
std::optional<PlannedTask> lot(TaskKind kind, std::vector<const TreeSeason*> trees) {
  if (trees.empty()) return std::nullopt;
  PlannedTask task{kind};
  task.trees = std::move(trees);
  return task;
}

std::vector<const TreeSeason*> with_work(const SeasonFacts& facts, TreeWork work) {
  return select(facts, [&](const TreeSeason& season) { return season.plan.work == work; });
}

/// Trees that only their leafing can settle, as long as it may still be seen; once buds may move.
std::vector<const TreeSeason*> not_settled(const SeasonFacts& facts) {
  const Date first = facts.today.winter.from;
  if (facts.today.as_of > plus_days(first, kLeafingSeen) ||
      facts.today.as_of < plus_days(first, kBudsMayMove))
    return {};
  return select(facts, [&](const TreeSeason& season) {
    const Verdict& verdict = season.verdict.leading().verdict;
    const bool gap = std::find(verdict.reasons.begin(), verdict.reasons.end(),
                               VerdictReason::gap_could_turn) != verdict.reasons.end();
    const bool open = verdict.state == VerdictState::unknown ||
                      (verdict.state == VerdictState::undecided && !gap);
    return !season.other_kind && open && !leafing_noted(facts, season);
  });
}

Task in_words(const PlannedTask& task, const SeasonFacts& facts) {
  const Text which = which_trees(task.trees);
  switch (task.kind) {
    case TaskKind::workday: {
      const Text when = value_text(day(*task.from, DateForm::weekday_month));
      if (task.trees.empty()) return {when, say("task.workday-none"), {}};
      return {when,
              say(task.light ? "task.workday-light" : "task.workday",
                  {{"kinds", kinds_of(task.trees)}}),
              which};
    }
    case TaskKind::closing:
      return {say("task.by", {{"day", day(*task.to)}}),
              say("task.closing", {{"kinds", kinds_of(task.trees)}}), which};
    case TaskKind::no_workday:
      return {value_text(days(*task.from, *task.to)),
              say("task.without-workday", {{"kinds", kinds_of(task.trees)},
                                           {"n", count(static_cast<long>(task.trees.size()))}}),
              which};
    case TaskKind::watch:
      return {say("task.twice-a-week"),
              say("task.watch", {{"n", count(static_cast<long>(task.trees.size()))}}), which};
    case TaskKind::lead_first:
      return {say("task.before-cutting"), say("task.lead-first"), which};
    case TaskKind::frost: {
      const TreeNight& night = *coldest_coming(facts);
      const bool severe = night.level == FrostLevel::ninety_percent;
      return {say("task.night-of", {{"day", day(night.night.at.date())}}),
              say(severe ? "task.frost-severe" : "task.frost",
                  {{"low", temperature(*facts.orchard, night.at_tree)}}),
              which};
    }
    case TaskKind::wires:
      return {say("task.near-wires"), say("task.wires"), which};
    case TaskKind::arborist:
      return {say("task.not-volunteers"), say("task.arborist"), which};
    case TaskKind::summer:
      return {say("task.not-this-winter"), say("task.summer", {{"kinds", kinds_of(task.trees)}}),
              which};
  }
  return {};
}

}  // namespace

bool is_coming(const Workday& workday, const Today& today) {
  return workday.on > today.as_of && workday.on < plus_days(today.winter.from, kYear);
}

std::string_view id_of(TaskKind kind) {
  switch (kind) {
    case TaskKind::workday:
      return "workday";
    case TaskKind::closing:
      return "closing";
    case TaskKind::no_workday:
      return "no_workday";
    case TaskKind::watch:
      return "watch";
    case TaskKind::lead_first:
      return "lead_first";
    case TaskKind::frost:
      return "frost";
    case TaskKind::wires:
      return "wires";
    case TaskKind::arborist:
      return "arborist";
    case TaskKind::summer:
      return "summer";
  }
  return {};
}

std::vector<KindCount> kinds_among(const std::vector<const TreeSeason*>& trees) {
  std::vector<KindCount> kinds;
  for (const TreeSeason* season : trees) {
    const auto found = std::find_if(kinds.begin(), kinds.end(), [&](const KindCount& kind) {
      return kind.tree->species == season->tree->species && kind.tree->other == season->tree->other;
    });
    if (found == kinds.end()) {
      kinds.push_back({season->tree, 1});
    } else {
      ++found->trees;
    }
  }
  std::stable_sort(kinds.begin(), kinds.end(),
                   [](const KindCount& a, const KindCount& b) { return a.trees > b.trees; });
  return kinds;
}

std::vector<const TreeSeason*> trees_to_cut_on(const SeasonFacts& facts, Date day) {
  std::vector<TreePlan> plans;
  std::vector<const TreeSeason*> trees;
  for (const TreeSeason& season : facts.trees) {
    if (to_be_cut(season) && !cut_already(season, facts) && season.plan.window.holds(day))
      plans.push_back(season.plan);
  }
  for (const TreePlan* plan : working_order(plans)) {
    for (const TreeSeason& season : facts.trees) {
      if (season.tree == plan->tree) trees.push_back(&season);
    }
  }
  return trees;
}

std::vector<PlannedTask> planned_tasks(const SeasonFacts& facts) {
  if (facts.looking_back()) return {};
  std::set<const TreeSeason*> placed;
  std::vector<PlannedTask> tasks;
  const auto add = [&](std::optional<PlannedTask> task) {
    if (task) tasks.push_back(std::move(*task));
  };
  add(lot(TaskKind::frost,
          select(facts, [](const TreeSeason& season) { return season.frost.coming.has_value(); })));
  std::vector<PlannedTask> workdays = workday_tasks(facts, placed);
  add(closing_task(facts, placed));
  for (PlannedTask& task : workdays) tasks.push_back(std::move(task));
  for (PlannedTask& task : unplaced_tasks(facts, placed)) tasks.push_back(std::move(task));
  add(lot(TaskKind::watch, not_settled(facts)));
  add(lot(TaskKind::lead_first, with_work(facts, TreeWork::lead_first)));
  add(lot(TaskKind::wires,
          select(facts, [](const TreeSeason& season) { return near_wires(season.plan); })));
  add(lot(TaskKind::arborist, select(facts, [](const TreeSeason& season) {
            return season.plan.work == TreeWork::arborist && !near_wires(season.plan);
          })));
  add(lot(TaskKind::summer, with_work(facts, TreeWork::dry_summer)));
  return tasks;
}

std::vector<Task> tasks_now(const SeasonFacts& facts) {
  std::vector<Task> tasks;
  for (const PlannedTask& task : planned_tasks(facts)) tasks.push_back(in_words(task, facts));
  return tasks;
}

Table tasks_table(const SeasonFacts& facts, std::size_t first, std::size_t last) {
  Table table;
  table.air = Table::Air::airy;
  table.columns = {{{}, ColumnKind::words, 3, true, false},
                   {{}, ColumnKind::words, 6, false, false},
                   {{}, ColumnKind::words, 3, false, false}};
  TableGroup group;
  std::vector<Task> tasks = tasks_now(facts);
  for (std::size_t i = first; i < std::min(last, tasks.size()); ++i) {
    TableRow row;
    row.cells.push_back({std::move(tasks[i].when), {}, {}});
    row.cells.push_back({std::move(tasks[i].what), {}, {}});
    row.cells.push_back(
        {tasks[i].which.empty() ? literal(" ") : std::move(tasks[i].which), {}, {}});
    group.rows.push_back(std::move(row));
  }
  table.groups.push_back(std::move(group));
  return table;
}

}  // namespace winterfolio
