// Turns plans and workdays into a short list of things to do.
#include "report/tasks.h"

#include <algorithm>
#include <map>
#include <set>

#include "report/speak.h"

namespace winterfolio {
namespace {

constexpr std::size_t kMostIds = 8;
constexpr int kSoon = 21;  ///< days in which a closing window is urgent

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

/// The kinds among some trees, most trees first, as words.
TextList kinds_of(const std::vector<const TreeSeason*>& seasons) {
  std::vector<std::pair<const Tree*, long>> kinds;
  for (const TreeSeason* season : seasons) {
    const auto same = [&](const auto& kind) {
      return kind.first->species == season->tree->species &&
             kind.first->other == season->tree->other;
    };
    const auto found = std::find_if(kinds.begin(), kinds.end(), same);
    if (found == kinds.end()) {
      kinds.emplace_back(season->tree, 1);
    } else {
      ++found->second;
    }
  }
  std::stable_sort(kinds.begin(), kinds.end(),
                   [](const auto& a, const auto& b) { return a.second > b.second; });
  TextList list;
  for (const auto& [tree, number] : kinds) {
    list.items.push_back(tree->species == "other"
                             ? literal(tree->other)
                             : say_one_of("species-count", tree->species, {{"n", count(number)}}));
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
    if (workday.on > facts.today.as_of) days.push_back(workday.on);
  }
  std::sort(days.begin(), days.end());
  return days;
}

/// One task for each coming workday: each tree on the first of them that its window holds.
std::vector<Task> workday_tasks(const SeasonFacts& facts, std::set<const TreeSeason*>& placed) {
  std::vector<Task> tasks;
  for (const Date day : coming_workdays(facts)) {
    std::vector<const TreeSeason*> trees;
    bool light = false;
    for (const TreeSeason* season : trees_to_cut_on(facts, day)) {
      if (placed.insert(season).second) {
        trees.push_back(season);
        light = light || calls_for_light_cuts(season->verdict.leading().verdict.state);
      }
    }
    if (trees.empty()) {
      tasks.push_back({value_text(winterfolio::day(day, DateForm::weekday_month)),
                       say("task.workday-none"),
                       {}});
      continue;
    }
    tasks.push_back(
        {value_text(winterfolio::day(day, DateForm::weekday_month)),
         say(light ? "task.workday-light" : "task.workday", {{"kinds", kinds_of(trees)}}),
         which_trees(trees)});
  }
  return tasks;
}

/// Trees whose window closes soon and before any workday that could take them.
std::optional<Task> closing_task(const SeasonFacts& facts, std::set<const TreeSeason*>& placed) {
  const Date soon = plus_days(facts.today.as_of, kSoon);
  std::vector<const TreeSeason*> trees = select(facts, [&](const TreeSeason& season) {
    return to_be_cut(season) && !cut_already(season, facts) && placed.count(&season) == 0 &&
           season.plan.window.closes.on >= facts.today.as_of &&
           season.plan.window.opens.on <= soon && season.plan.window.closes.on <= soon;
  });
  if (trees.empty()) return std::nullopt;
  Date first = trees.front()->plan.window.closes.on;
  for (const TreeSeason* season : trees) {
    first = std::min(first, season->plan.window.closes.on);
    placed.insert(season);
  }
  return Task{say("task.by", {{"day", day(first)}}),
              say("task.closing", {{"kinds", kinds_of(trees)}}), which_trees(trees)};
}

/// Trees that no coming workday can take, and whose window is still open or yet to open.
std::optional<Task> unplaced_task(const SeasonFacts& facts, std::set<const TreeSeason*>& placed) {
  std::vector<const TreeSeason*> trees = select(facts, [&](const TreeSeason& season) {
    return to_be_cut(season) && !cut_already(season, facts) && placed.count(&season) == 0 &&
           season.plan.window.closes.on >= facts.today.as_of;
  });
  if (trees.empty()) return std::nullopt;
  Date opens = trees.front()->plan.window.opens.on;
  Date closes = trees.front()->plan.window.closes.on;
  for (const TreeSeason* season : trees) {
    opens = std::min(opens, season->plan.window.opens.on);
    closes = std::max(closes, season->plan.window.closes.on);
    placed.insert(season);
  }
  opens = std::max(opens, facts.today.as_of);
  return Task{value_text(days(opens, closes)),
              say("task.without-workday", {{"kinds", kinds_of(trees)}}), which_trees(trees)};
}

std::optional<Task> watch_task(const SeasonFacts& facts) {
  const auto trees = select(facts, [](const TreeSeason& season) {
    const VerdictState state = season.verdict.leading().verdict.state;
    return !season.other_kind &&
           (state == VerdictState::unknown || state == VerdictState::undecided);
  });
  if (trees.empty()) return std::nullopt;
  return Task{say("task.twice-a-week"),
              say("task.watch", {{"n", count(static_cast<long>(trees.size()))}}),
              which_trees(trees)};
}

std::optional<Task> lead_task(const SeasonFacts& facts) {
  const auto trees = select(
      facts, [](const TreeSeason& season) { return season.plan.work == TreeWork::lead_first; });
  if (trees.empty()) return std::nullopt;
  return Task{say("task.before-cutting"), say("task.lead-first"), which_trees(trees)};
}

std::optional<Task> arborist_task(const SeasonFacts& facts) {
  const auto trees = select(
      facts, [](const TreeSeason& season) { return season.plan.work == TreeWork::arborist; });
  if (trees.empty()) return std::nullopt;
  return Task{say("task.not-volunteers"), say("task.arborist"), which_trees(trees)};
}

std::optional<Task> summer_task(const SeasonFacts& facts) {
  const auto trees = select(
      facts, [](const TreeSeason& season) { return season.plan.work == TreeWork::dry_summer; });
  if (trees.empty()) return std::nullopt;
  return Task{say("task.not-this-winter"), say("task.summer", {{"kinds", kinds_of(trees)}}),
              which_trees(trees)};
}

}  // namespace

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

std::vector<Task> tasks_now(const SeasonFacts& facts) {
  std::set<const TreeSeason*> placed;
  std::vector<Task> tasks;
  const auto add = [&](std::optional<Task> task) {
    if (task) tasks.push_back(std::move(*task));
  };
  std::vector<Task> workdays = workday_tasks(facts, placed);
  add(closing_task(facts, placed));
  for (Task& task : workdays) tasks.push_back(std::move(task));
  add(unplaced_task(facts, placed));
  add(watch_task(facts));
  add(lead_task(facts));
  add(arborist_task(facts));
  add(summer_task(facts));
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
