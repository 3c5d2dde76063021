// Puts together what the rules say of one tree.
#include "pruning/tree_plan.h"

#include <algorithm>

#include "orchard/tree_dates.h"

namespace winterfolio {
namespace {

/// Above this a tree is not reached from the ground: a pole or a ladder comes in (labour.csv, first
/// size of most kinds).
constexpr Metres kReachFromGround{2.5};

bool lists(const std::vector<std::string>& ids, std::string_view id) {
  return std::find(ids.begin(), ids.end(), id) != ids.end();
}

AdviceFacts advice_facts(const Tree& tree, const TreeFacts& facts) {
  AdviceFacts advice;
  advice.other_species = tree.species == "other";
  advice.leaves_held = facts.dates.leaves_held.has_value();
  advice.chill_met = facts.chill == VerdictState::met;
  advice.dangerous_wood = lists(tree.see_to, "dead") || lists(tree.see_to, "damaged") ||
                          lists(tree.hazards, "heavy_limb");
  advice.freeze_coming = facts.freeze_coming;
  return advice;
}

TreeWork work_at(const TreePlan& plan) {
  if (!plan.limits.for_volunteers()) return TreeWork::arborist;
  if (!plan.window.exists()) return TreeWork::no_window;
  if (plan.hygiene.not_cut || plan.limits.holds_activity("cutting")) return TreeWork::lead_first;
  if (plan.window.holds_no_day()) return TreeWork::no_day;
  return plan.window.is_winter_work() ? TreeWork::crew : TreeWork::dry_summer;
}

/// Whether the workday that takes the tree comes before its heavy cuts may begin.
bool too_early_for_heavy_cuts(const TreePlan& plan, const TreeFacts& facts,
                              const Orchard& orchard) {
  const HeavyCuts& heavy = plan.window.heavy_cuts;
  if (!facts.as_of || heavy.when != HeavyCuts::When::from) return false;
  std::optional<Date> first;
  for (const Workday& day : orchard.workdays)
    if (day.on > *facts.as_of && plan.window.holds(day.on))
      first = std::min(first.value_or(day.on), day.on);
  return first && heavy.from && *first < *heavy.from;
}

PlaceInLine place_of(const TreePlan& plan) {
  return {plan.window.closes.on, plan.window.order_rank, plan.state, plan.hygiene.last_in_round};
}

}  // namespace

bool near_wires(const TreePlan& plan) {
  const auto& hits = plan.limits.arborist;
  return std::any_of(hits.begin(), hits.end(), [](const LimitHit& hit) {
    return hit.rule->limit == "wires" || hit.rule->limit == "wire_distance";
  });
}

TreePlan plan_tree(const Tree& tree, const TreeFacts& facts, const Orchard& orchard,
                   int winter_year) {
  const RuleYear year(orchard, winter_year);
  TreePlan plan;
  plan.tree = &tree;
  plan.state = state_on(tree, year.winter_begins(), orchard.southern());
  plan.window = window_for(tree, plan.state, facts.dates, orchard, winter_year);
  const bool summer = plan.window.season == WindowSeason::dry_summer;
  // Light cuts wait until live buds show; by summer they have shown.
  CutFacts cut_facts{summer ? VerdictState::unknown : facts.chill, std::nullopt};
  if (!plan.window.ever_allows_heavy_cuts() || too_early_for_heavy_cuts(plan, facts, orchard))
    cut_facts.no_heavy_cuts = plan.window.because;
  plan.advice = advice_for(advice_facts(tree, facts));
  for (const Advice& advice : plan.advice)
    if (!summer && advice.text == "advice.leaves-held.text") cut_facts.leaves_held = advice.because;
  plan.cuts = cuts_for(tree, plan.state, cut_facts);
  plan.limits = limits_of(tree);
  plan.hygiene = hygiene_for(tree, summer ? GrowthSeason::growing : GrowthSeason::dormant);
  plan.work = work_at(plan);
  return plan;
}

std::vector<const TreePlan*> working_order(std::span<const TreePlan> plans) {
  std::vector<const TreePlan*> order;
  for (const TreePlan& plan : plans)
    if (plan.work == TreeWork::crew) order.push_back(&plan);
  std::stable_sort(order.begin(), order.end(), [](const TreePlan* a, const TreePlan* b) {
    return goes_before(place_of(*a), place_of(*b));
  });
  return order;
}

CautionFacts caution_facts(std::span<const TreePlan> plans, const Orchard& orchard) {
  CautionFacts facts;
  for (const TreePlan& plan : plans) {
    facts.power_line |= lists(plan.tree->hazards, "wires");
    if (plan.work != TreeWork::crew) continue;
    facts.saw = true;
    facts.cold |= plan.window.is_winter_work();
    facts.disinfectant |= plan.hygiene.uses_disinfectant();
    // A tree whose height nobody has written down may need a ladder.
    const bool out_of_reach = !plan.tree->height || *plan.tree->height > kReachFromGround;
    facts.ladder |= out_of_reach;
    facts.pole |= out_of_reach;
  }
  for (const Workday& day : orchard.workdays) {
    facts.ladder |= day.ladders > 0;
    facts.chainsaw |= day.saw_hands > 0;
    facts.minors |= day.minors > 0;
  }
  facts.wind = facts.ladder || facts.pole;
  facts.ice = facts.cold && facts.ladder;
  return facts;
}

}  // namespace winterfolio
