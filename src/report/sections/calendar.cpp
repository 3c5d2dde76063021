// The season of every tree in one chart, a row a tree, in order of pruning.
#include <algorithm>

#include "document/chart.h"
#include "report/reckoning.h"
#include "report/sections.h"
#include "report/speak.h"
#include "report/tree_season.h"

namespace winterfolio {
namespace {

/// When a kind's first tree can be cut: what the rows of the chart are ordered by.
struct Kind {
  Text name;
  std::string id;
  std::vector<const TreeSeason*> trees;
};

int place_in_year(const TreeSeason& tree) {
  const PruningWindow& window = tree.plan.window;
  const int season = !window.exists() ? 2000 : window.is_winter_work() ? 0 : 1000;
  return season + window.order_rank;
}

std::vector<Kind> kinds_in_order(const SeasonFacts& facts) {
  std::vector<Kind> kinds;
  for (const TreeSeason& tree : facts.trees) {
    const std::string id = tree.other_kind ? "other:" + tree.tree->other : tree.tree->species;
    auto found =
        std::find_if(kinds.begin(), kinds.end(), [&](const Kind& kind) { return kind.id == id; });
    if (found == kinds.end())
      found = kinds.insert(kinds.end(), Kind{species_text(*tree.tree), id, {}});
    found->trees.push_back(&tree);
  }
  const auto first = [](const Kind& kind) {
    int least = place_in_year(*kind.trees.front());
    for (const TreeSeason* tree : kind.trees) least = std::min(least, place_in_year(*tree));
    return least;
  };
  for (Kind& kind : kinds) {
    std::stable_sort(kind.trees.begin(), kind.trees.end(),
                     [](const TreeSeason* a, const TreeSeason* b) {
                       return std::pair(place_in_year(*a), a->plan.window.closes.on) <
                              std::pair(place_in_year(*b), b->plan.window.closes.on);
                     });
  }
  std::stable_sort(kinds.begin(), kinds.end(),
                   [&](const Kind& a, const Kind& b) { return first(a) < first(b); });
  return kinds;
}

SeasonCalendar::Row row_of(const SeasonFacts& facts, const TreeSeason& tree) {
  SeasonCalendar::Row row;
  row.id = tree.tree->id;
  row.name = tree.other_kind ? say("calendar.no-rest") : cultivar_text(*tree.tree);
  row.evergreen = tree.other_kind;
  if (!tree.other_kind) row.buds = bud_phases(facts, tree);
  row.pruning = pruning_span(facts, tree);
  row.work = work_marks(facts, tree);
  row.when = when_pruned(facts, tree);
  return row;
}

/// When past springs had their last frost, as far as that is still to come: the middle one and the
/// latest.
std::vector<SeasonCalendar::Line> last_frost_lines(const SeasonFacts& facts) {
  std::vector<SeasonCalendar::Line> lines;
  const auto days = last_frost_days(facts);
  if (!days) return lines;
  const auto add = [&](Date on, const char* id) {
    if (on > facts.today.as_of) lines.push_back({on, say(id, {{"day", day(on, DateForm::brief)}})});
  };
  add(days->middle, "calendar.last-frost-middle");
  add(days->last, "calendar.last-frost-latest");
  return lines;
}

SeasonCalendar calendar_of(const SeasonFacts& facts) {
  SeasonCalendar calendar;
  calendar.days = season_days(facts);
  for (const Kind& kind : kinds_in_order(facts)) {
    SeasonCalendar::Group group;
    group.species = kind.name;
    for (const TreeSeason* tree : kind.trees) group.rows.push_back(row_of(facts, *tree));
    calendar.groups.push_back(std::move(group));
  }
  for (const NightLow& night : facts.frost_nights) calendar.frost_nights.push_back(night.evening);
  if (!calendar.frost_nights.empty()) {
    calendar.frost_label = say("calendar.frost-nights",
                               {{"n", count(static_cast<long>(calendar.frost_nights.size()))}});
  }
  for (const Workday& workday : facts.orchard->workdays) {
    if (workday.on >= calendar.days.from && workday.on <= calendar.days.to) {
      calendar.workdays.push_back({workday.on, value_text(number(unsigned{workday.on.day()}))});
    }
  }
  if (calendar.workdays.size() == 1) {
    SeasonCalendar::Line& only = calendar.workdays.front();
    only.label = say("calendar.workday", {{"day", day(only.on, DateForm::brief)}});
  } else if (!calendar.workdays.empty()) {
    calendar.workdays_label = say("calendar.workdays");
  }
  calendar.last_frosts = last_frost_lines(facts);
  const Date last = last_reading(facts).date();
  calendar.last_reading =
      SeasonCalendar::Line{last, say("calendar.last-reading", {{"day", day(last)}})};
  calendar.left_head = say("calendar.left-head");
  calendar.right_head = say("calendar.right-head");
  return calendar;
}

Text calendar_title(const SeasonFacts& facts) {
  if (facts.looking_back()) return say("calendar.finding-back");
  const WorkToDo work = work_to_do(facts);
  const auto found = work.trees.find(TreeWork::dry_summer);
  const long open = work.still_to_cut, summer = found == work.trees.end() ? 0 : found->second;
  return say(summer > 0 ? "calendar.finding-summer" : "calendar.finding",
             {{"open", count(open)}, {"summer", count(summer)}});
}

SeasonKey key_of_calendar(const SeasonFacts& facts) {
  SeasonKey key;
  using Mark = SeasonKey::Mark;
  const std::pair<Mark, const char*> entries[] = {
      {Mark::resting, "key.resting"}, {Mark::likely_met, "key.likely-met"},
      {Mark::met, "key.met"},         {Mark::swelling, "key.swelling"},
      {Mark::bloom, "key.bloom"},     {Mark::bloom_estimated, "key.bloom-estimated"},
      {Mark::no_date, "key.no-date"}, {Mark::pruning, "key.time-to-prune"},
      {Mark::done, "key.done"},       {Mark::planned, "key.planned"}};
  for (const auto& [mark, words] : entries) key.entries.push_back({mark, say(words)});
  if (!last_frost_lines(facts).empty())
    key.entries.push_back({Mark::last_frost, say("key.last-frost")});
  return key;
}

}  // namespace

Blocks calendar_section(const SeasonFacts& facts) {
  Blocks blocks;
  if (facts.trees.empty()) return blocks;
  blocks.emplace_back(Heading{1, say("calendar.title"), {}}, Importance::essential);
  Figure figure;
  figure.title = calendar_title(facts);
  figure.subtitle = say("calendar.subtitle");
  figure.chart = std::make_shared<const Chart>(Chart{calendar_of(facts)});
  figure.height = FigureHeight::own;
  blocks.emplace_back(std::move(figure), Importance::essential);
  Figure key;
  key.chart = std::make_shared<const Chart>(Chart{key_of_calendar(facts)});
  key.height = FigureHeight::own;
  blocks.emplace_back(std::move(key), Importance::essential);
  return blocks;
}

}  // namespace winterfolio
