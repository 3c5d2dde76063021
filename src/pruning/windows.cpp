// Turns a rule and a tree's dates into the days of a window.
#include "pruning/windows.h"

#include <algorithm>
#include <tuple>

namespace winterfolio {
namespace {

constexpr std::string_view kOther = "other";

EdgeBasis basis_of(DateKind kind) {
  switch (kind) {
    case DateKind::seen:
      return EdgeBasis::seen;
    case DateKind::by_then:
      return EdgeBasis::by_then;
    case DateKind::estimated:
      break;
  }
  return EdgeBasis::estimated;
}

std::optional<WindowEdge> event_edge(PlantEvent event, int offset_days, const TreeDates& dates) {
  const auto found = dates.of(event);
  if (!found) return std::nullopt;
  return WindowEdge{plus_days(found->on, offset_days), basis_of(found->kind), event};
}

WindowEdge opening(const WindowRule& rule, const TreeDates& dates, const RuleYear& year) {
  const Date day = year.day(rule.opens_fallback);
  if (rule.opens_event == PlantEvent::month_day)
    return {day, EdgeBasis::calendar, rule.opens_event};
  const WindowEdge fallback{day, EdgeBasis::fallback, rule.opens_event};
  const auto event = event_edge(rule.opens_event, rule.opens_offset_days, dates);
  // A harvest counts once it is on record; one that is only expected may still be rained on.
  if (rule.opens_event == PlantEvent::harvest)
    return event && event->basis == EdgeBasis::seen ? *event : fallback;
  const WindowEdge earlier = event && event->on < day ? *event : fallback;
  if (earlier.on < year.winter_begins())
    return {year.winter_begins(), EdgeBasis::winter_begins, rule.opens_event};
  return earlier;
}

WindowEdge closing(const WindowRule& rule, const TreeDates& dates, const RuleYear& year) {
  const Date day = year.day(rule.closes_fallback);
  if (rule.closes_event == PlantEvent::month_day)
    return {day, EdgeBasis::calendar, rule.closes_event};
  if (const auto event = event_edge(rule.closes_event, rule.closes_offset_days, dates))
    return *event;
  // Buds have swollen before they bloom: where only bloom is dated, the time is over by then.
  if (rule.closes_event == PlantEvent::bud_swell) {
    const auto bloom = event_edge(PlantEvent::first_bloom, 0, dates);
    if (bloom && bloom->on < day) return *bloom;
  }
  return {day, EdgeBasis::fallback, rule.closes_event};
}

HeavyCuts heavy_cuts(const WindowRule& rule, const TreeDates& dates, const RuleYear& year) {
  if (rule.heavy_cuts == HeavyCutRule::none) return {HeavyCuts::When::never, std::nullopt};
  if (dates.leaves_held && rule.season != WindowSeason::dry_summer)
    return {HeavyCuts::When::when_leaves_drop, std::nullopt};
  if (rule.heavy_cuts == HeavyCutRule::from_day)
    return {HeavyCuts::When::from, year.day(rule.heavy_cuts_from)};
  return {HeavyCuts::When::always, std::nullopt};
}

const AdviceRule& advice_rule(std::string_view id) {
  const auto rules = advice_rules();
  return *std::find_if(rules.begin(), rules.end(), [&](const auto& rule) { return rule.id == id; });
}

std::string advice_words(std::string_view id) { return "advice." + std::string(id) + ".text"; }

bool is_young(TreeState state) {
  return state == TreeState::planted || state == TreeState::formative;
}

}  // namespace

bool PruningWindow::ever_allows_heavy_cuts() const {
  if (!exists() || holds_no_day() || heavy_cuts.when == HeavyCuts::When::never) return false;
  return !heavy_cuts.from || *heavy_cuts.from <= closes.on;
}

PruningWindow window_for(const Tree& tree, TreeState state, const TreeDates& dates,
                         const Orchard& orchard, int winter_year) {
  PruningWindow window;
  const WindowRule* rule = window_rule_for(tree.species, state, orchard.district);
  if (!rule) {
    window.because = advice_rule(kOther).because;
    window.reason = advice_words(kOther);
    return window;
  }
  const RuleYear year(orchard, winter_year);
  window.season = rule->season;
  window.opens = opening(*rule, dates, year);
  window.closes = closing(*rule, dates, year);
  window.heavy_cuts = heavy_cuts(*rule, dates, year);
  window.min_temperature = rule->min_temperature;
  window.min_temperature_mark = rule->min_temperature_mark;
  window.dry_days_before = rule->dry_days_before;
  window.dry_days_after = rule->dry_days_after;
  window.dry_mark = rule->dry_mark;
  window.order_rank = rule->order_rank;
  window.dates_mark = rule->dates_mark;
  window.because = rule->because;
  window.reason = "window." + rule->id + ".reason";
  return window;
}

std::vector<Advice> advice_for(const AdviceFacts& facts) {
  const auto called_for = [&](std::string_view id) {
    return (id == "leaves-held" && facts.leaves_held) || (id == "chill-met" && facts.chill_met) ||
           (id == "dangerous-wood" && facts.dangerous_wood) ||
           (id == "freeze-coming" && facts.freeze_coming) || (id == kOther && facts.other_species);
  };
  std::vector<Advice> advice;
  for (const AdviceRule& rule : advice_rules())
    if (called_for(rule.id)) advice.push_back({advice_words(rule.id), rule.because});
  return advice;
}

bool goes_before(const PlaceInLine& a, const PlaceInLine& b) {
  const auto key = [](const PlaceInLine& tree) {
    return std::tuple(tree.closes, tree.order_rank, is_young(tree.state), tree.diseased);
  };
  return key(a) < key(b);
}

}  // namespace winterfolio
