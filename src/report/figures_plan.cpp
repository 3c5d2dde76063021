// What is planned: each tree's window, cuts, limits, cleaning and labour with the rules behind
// them, the tasks of the pages, and the cautions that go with the work.
#include "pruning/labour.h"
#include "report/figure_branches.h"
#include "report/figure_ids.h"
#include "report/reckoning.h"
#include "report/tasks.h"
#include "report/tree_season.h"

namespace winterfolio::figures {
namespace {

namespace unit = figure_unit;

// ---- windows
// -------------------------------------------------------------------------------------------

FigureNode edge(const WindowEdge& one) {
  return FigureNode::map()
      .set("on", date_figure(one.on))
      .set("basis", id_figure(name(one.basis)))
      .set("event", id_figure(id_of(one.event)));
}

FigureNode window(const PruningWindow& one) {
  const bool any = one.exists();
  return FigureNode::map()
      .set("season", id_figure(id_of(one.season)))
      .set("opens", any ? edge(one.opens) : FigureNode::none())
      .set("closes", any ? edge(one.closes) : FigureNode::none())
      .set("holds_no_day", yes_no_figure(one.holds_no_day()))
      .set("dates_mark", id_figure(id_of(one.dates_mark)))
      .set("heavy_cuts", id_figure(name(one.heavy_cuts.when)))
      .set("heavy_cuts_from", date_figure(one.heavy_cuts.from))
      .set("least_temperature", temperature_figure(one.min_temperature))
      .set("dry_days_before", amount_figure(one.dry_days_before, unit::kDays))
      .set("dry_days_after", amount_figure(one.dry_days_after, unit::kDays))
      .set("order_rank", count_figure(one.order_rank, unit::kPlace))
      .set("reason", id_figure(one.reason))
      .set("because", source(one.because));
}

// ---- cuts, limits, cleaning, labour
// --------------------------------------------------------------------

FigureNode cut(const CutLine& one) {
  return FigureNode::map()
      .set("rule", id_figure(one.rule))
      .set("wood", id_figure(one.wood))
      .set("rank", count_figure(one.rank, unit::kPlace))
      .set("limit_of", id_figure(one.limit.of))
      .set("limit", range(one.limit.figure, unit::kFigureOfRule))
      .set("because", source(one.because))
      .set("capped_by", if_known(one.capped_by, source));
}

FigureNode cuts(const std::vector<CutLine>& lines) {
  FigureNode list = FigureNode::list();
  for (const CutLine& line : lines) list.append(cut(line));
  return list;
}

FigureNode limit(const LimitRule& rule, bool assumed) {
  return FigureNode::map()
      .set("rule", id_figure(rule.id))
      .set("limit", id_figure(rule.limit))
      .set("figure", amount_figure(rule.figure, unit::kFigureOfRule))
      .set("unit", text_figure(rule.unit))
      .set("consequence", id_figure(id_of(rule.consequence)))
      .set("assumed", yes_no_figure(assumed))
      .set("because", source(rule.because));
}

FigureNode hits(const std::vector<LimitHit>& all) {
  FigureNode list = FigureNode::list();
  for (const LimitHit& hit : all) list.append(limit(*hit.rule, hit.assumed));
  return list;
}

FigureNode limits(const TreeLimits& one) {
  FigureNode check = FigureNode::list();
  for (const LimitRule* rule : one.check_on_site) check.append(limit(*rule, false));
  return FigureNode::map()
      .set("arborist", hits(one.arborist))
      .set("held", hits(one.held))
      .set("adults_only", hits(one.adults_only))
      .set("check_on_site", std::move(check));
}

FigureNode cleaning(const HygieneRule& rule) {
  return FigureNode::map()
      .set("rule", id_figure(rule.id))
      .set("when", id_figure(id_of(rule.when)))
      .set("agent", id_figure(rule.agent))
      .set("contact", count_figure(rule.contact_seconds, unit::kSeconds))
      .set("brush", ids_figure(rule.brush))
      .set("preference", id_figure(name(rule.preference)))
      .set("because", source(rule.because));
}

FigureNode hygiene(const HygienePlan& plan) {
  FigureNode rules = FigureNode::list();
  rules.append(cleaning(*plan.first));
  for (const HygieneRule* rule : plan.also) rules.append(cleaning(*rule));
  for (const HygieneRule* rule : plan.second) rules.append(cleaning(*rule));
  return FigureNode::map()
      .set("rules", std::move(rules))
      .set("last_in_round", yes_no_figure(plan.last_in_round))
      .set("not_cut", yes_no_figure(plan.not_cut));
}

FigureNode labour(const LabourEstimate& one) {
  FigureNode because = FigureNode::list();
  for (const Evidence& evidence : one.because) because.append(source(evidence));
  return FigureNode::map()
      .set("minutes", range(one.minutes, unit::kMinutes))
      .set("people", count_figure(one.people, unit::kPeople))
      .set("way", id_figure(name(one.way)))
      .set("because", std::move(because));
}

FigureNode advice(const std::vector<Advice>& all) {
  FigureNode list = FigureNode::list();
  for (const Advice& one : all) {
    list.append(
        FigureNode::map().set("advice", id_figure(one.text)).set("because", source(one.because)));
  }
  return list;
}

FigureNode work_days(const SeasonFacts& facts, const TreeSeason& tree) {
  FigureNode list = FigureNode::list();
  for (const WorkMark& mark : work_marks(facts, tree)) {
    list.append(
        FigureNode::map().set("on", date_figure(mark.on)).set("done", yes_no_figure(mark.done)));
  }
  return list;
}

FigureNode task(const PlannedTask& one) {
  std::vector<std::string> ids;
  for (const TreeSeason* tree : one.trees) ids.push_back(tree->tree->id);
  FigureNode kinds = FigureNode::list();
  for (const KindCount& kind : kinds_among(one.trees)) {
    kinds.append(FigureNode::map()
                     .set("species", id_figure(kind.tree->species))
                     .set("other", text_figure(kind.tree->other))
                     .set("trees", count_figure(kind.trees, unit::kTrees)));
  }
  return FigureNode::map()
      .set("kind", id_figure(id_of(one.kind)))
      .set("from", date_figure(one.from))
      .set("to", date_figure(one.to))
      .set("light", yes_no_figure(one.light))
      .set("number_of_trees",
           count_figure(static_cast<std::int64_t>(one.trees.size()), unit::kTrees))
      .set("kinds", std::move(kinds))
      .set("trees", ids_figure(ids));
}

/// Ladder, saw, cold, disinfectant and minors come into every winter's work; the plan adds the
/// rest.
CautionFacts involved(const SeasonFacts& facts) {
  std::vector<TreePlan> plans;
  for (const TreeSeason& tree : facts.trees) plans.push_back(tree.plan);
  CautionFacts found = caution_facts(plans, *facts.orchard);
  found.ladder = found.saw = found.cold = found.disinfectant = found.minors = true;
  return found;
}

}  // namespace

FigureNode pruning(const SeasonFacts& facts, const TreeSeason& tree) {
  const TreePlan& plan = tree.plan;
  const auto shown = pruning_span(facts, tree);
  return FigureNode::map()
      .set("work", id_figure(name(plan.work)))
      .set("days", work_days(facts, tree))
      .set("window", window(plan.window))
      .set("window_in_season", shown ? period(shown->from, shown->to) : FigureNode::none())
      .set("cuts", cuts(plan.cuts.lines))
      .set("cuts_later", cuts(plan.cuts.later))
      .set("wait_for_lead", yes_no_figure(plan.cuts.wait_for_lead))
      .set("most_of_crown", amount_figure(max_canopy_share(tree.tree->species), unit::kPercent))
      .set("limits", limits(plan.limits))
      .set("cleaning", hygiene(plan.hygiene))
      .set("advice", advice(plan.advice))
      .set("labour", if_known(labour_for(*tree.tree, plan.state), labour));
}

FigureNode work(const SeasonFacts& facts) {
  const WorkToDo to_do = work_to_do(facts);
  FigureNode found = FigureNode::map();
  found.set("still_to_cut", count_figure(to_do.still_to_cut, unit::kTrees));
  for (const TreeWork kind : {TreeWork::crew, TreeWork::arborist, TreeWork::lead_first,
                              TreeWork::dry_summer, TreeWork::no_day, TreeWork::no_window}) {
    const auto trees = to_do.trees.find(kind);
    found.set(std::string(name(kind)),
              count_figure(trees == to_do.trees.end() ? 0 : trees->second, unit::kTrees));
  }
  return found;
}

FigureNode tasks(const SeasonFacts& facts) {
  FigureNode list = FigureNode::list();
  for (const PlannedTask& one : planned_tasks(facts)) list.append(task(one));
  return list;
}

FigureNode cautions(const SeasonFacts& facts) {
  FigureNode list = FigureNode::list();
  for (const Caution* caution : cautions_for(involved(facts))) {
    list.append(FigureNode::map()
                    .set("id", id_figure(caution->id))
                    .set("for", id_figure(id_of(caution->applies_when)))
                    .set("importance", count_figure(caution->importance, unit::kPlace))
                    .set("source", text_figure(caution->because.source))
                    .set("mark", id_figure(id_of(caution->because.mark))));
  }
  return list;
}

}  // namespace winterfolio::figures
