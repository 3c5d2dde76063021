// Spans and sentences of one tree.
#include "report/tree_season.h"

#include <algorithm>

#include "report/speak.h"
#include "report/tasks.h"

namespace winterfolio {
namespace {

constexpr int kYear = 365;
constexpr int kDaysAfterWinter = 75;
constexpr int kDaysOfBloom = 6;  ///< the least width of a bar of bloom

/// Rest begins when the leaves are down: as seen, else with the month in which the kind usually
/// drops them.
Date rest_begins(const SeasonFacts& facts, const TreeSeason& tree) {
  const Date first = season_days(facts).from;
  if (tree.dates.leaf_fall) return std::max(first, tree.dates.leaf_fall->on);
  return first;
}

Text reason_text(const Verdict& verdict) {
  return verdict.reasons.empty() ? Text{} : say_one_of("reason", id_of(verdict.reasons.front()));
}

}  // namespace

DaySpan season_days(const SeasonFacts& facts) {
  return {facts.today.winter.from, plus_days(facts.today.winter.to, kDaysAfterWinter)};
}

namespace {

/// As the cold tells it, and the bloom that is reckoned.
std::vector<PhaseSpan> reckoned_phases(const SeasonFacts& facts, const TreeSeason& tree) {
  const Verdict& verdict = tree.verdict.leading().verdict;
  const DaySpan shown = season_days(facts);
  const Date today = facts.today.as_of;
  const BloomFinding& bloom = tree.bloom;
  std::vector<PhaseSpan> phases;
  const auto add = [&](BudPhase phase, Date from, Date to) {
    if (from <= to) phases.push_back({phase, {from, std::min(to, shown.to)}});
  };
  Date at = rest_begins(facts, tree);
  const bool met = verdict.state == VerdictState::met && verdict.met_on;
  const bool likely = !met && tree.chance && tree.chance->early && tree.chance->late;
  Date waiting_from = plus_days(today, 1);
  if (met) {
    add(BudPhase::resting, at, plus_days(*verdict.met_on, -1));
    waiting_from = std::max(at, *verdict.met_on);
  } else if (likely) {
    add(BudPhase::resting, at, std::max(today, plus_days(*tree.chance->early, -1)));
    add(BudPhase::likely_met, *tree.chance->early, *tree.chance->late);
    waiting_from = plus_days(*tree.chance->late, 1);
  } else {
    add(BudPhase::resting, at, today);
  }
  if (!bloom.expected) {
    if (met) add(BudPhase::met, waiting_from, today);
    add(BudPhase::no_date, std::max(waiting_from, plus_days(today, 1)), shown.to);
    return phases;
  }
  const Date blooms = std::max(waiting_from, bloom.early.value_or(*bloom.expected));
  add(met || likely ? BudPhase::met : BudPhase::no_date, waiting_from, plus_days(blooms, -1));
  const Date to = bloom.late.value_or(*bloom.expected);
  add(bloom.method == BloomMethod::species_elsewhere ? BudPhase::bloom_estimated : BudPhase::bloom,
      blooms, std::max(to, plus_days(blooms, kDaysOfBloom)));
  return phases;
}

/// Cuts off what lies from `day` on.
void end_before(std::vector<PhaseSpan>& phases, Date day) {
  std::erase_if(phases, [&](const PhaseSpan& phase) { return phase.days.from >= day; });
  for (PhaseSpan& phase : phases) phase.days.to = std::min(phase.days.to, plus_days(day, -1));
}

}  // namespace

std::vector<PhaseSpan> bud_phases(const SeasonFacts& facts, const TreeSeason& tree) {
  std::vector<PhaseSpan> phases = reckoned_phases(facts, tree);
  const BloomFinding& bloom = tree.bloom;
  const Date last = season_days(facts).to;
  // What was seen ends rest, whatever the cold lets expect.
  if (bloom.method == BloomMethod::seen) {
    end_before(phases, *bloom.expected);
    const Date to = std::min(plus_days(*bloom.expected, kDaysOfBloom), last);
    if (*bloom.expected <= to) phases.push_back({BudPhase::bloom, {*bloom.expected, to}});
  } else if (bloom.last_seen && bloom.last_seen->on <= last) {
    std::vector<PhaseSpan> later = phases;
    const Date today = std::max(facts.today.as_of, bloom.last_seen->on);
    end_before(phases, bloom.last_seen->on);
    const Date moving_to =
        bloom.expected ? plus_days(bloom.early.value_or(*bloom.expected), -1) : today;
    const Date to = std::min(std::max(moving_to, bloom.last_seen->on), last);
    phases.push_back({BudPhase::swelling, {bloom.last_seen->on, to}});
    for (PhaseSpan& phase : later) {
      phase.days.from = std::max(phase.days.from, plus_days(to, 1));
      if (phase.phase >= BudPhase::bloom && phase.days.from <= phase.days.to)
        phases.push_back(phase);
    }
  }
  return phases;
}

std::optional<DaySpan> pruning_span(const SeasonFacts& facts, const TreeSeason& tree) {
  const PruningWindow& window = tree.plan.window;
  if (!window.is_winter_work() || window.holds_no_day()) return std::nullopt;
  const DaySpan shown = season_days(facts);
  const DaySpan span{std::max(window.opens.on, shown.from), std::min(window.closes.on, shown.to)};
  return span.from <= span.to ? std::optional(span) : std::nullopt;
}

std::vector<WorkMark> work_marks(const SeasonFacts& facts, const TreeSeason& tree) {
  std::vector<WorkMark> marks;
  for (const Observation& seen : tree.tree->observed) {
    if (seen.what == "pruned" && seen.on.day && seen.on.earliest() >= facts.today.winter.from &&
        seen.on.earliest() <= facts.today.as_of) {
      marks.push_back({seen.on.earliest(), true});
    }
  }
  if (!marks.empty()) return marks;
  for (const Workday& workday : facts.orchard->workdays) {
    if (!is_coming(workday, facts.today)) continue;
    for (const TreeSeason* cut : trees_to_cut_on(facts, workday.on)) {
      if (cut->tree == tree.tree) return {{workday.on, false}};
    }
  }
  return marks;
}

Text when_pruned(const SeasonFacts& facts, const TreeSeason& tree) {
  const std::vector<WorkMark> marks = work_marks(facts, tree);
  if (!marks.empty() && marks.front().done) return say("when.done");
  switch (tree.plan.work) {
    case TreeWork::arborist:
      return say(near_wires(tree.plan) ? "when.wires" : "when.arborist");
    case TreeWork::lead_first:
      return say("when.lead-first");
    case TreeWork::dry_summer:
      return say("when.summer");
    case TreeWork::no_day:
      return say("when.no-day");
    case TreeWork::no_window:
      return say("when.no-window");
    case TreeWork::crew:
      break;
  }
  if (!marks.empty()) return value_text(day(marks.front().on, DateForm::brief));
  if (tree.plan.window.closes.on < facts.today.as_of) return say("when.past");
  return say(
      "when.from",
      {{"day", day(std::max(tree.plan.window.opens.on, facts.today.as_of), DateForm::brief)}});
}

Text verdict_line(const SeasonFacts& facts, const TreeSeason& tree) {
  const Verdict& verdict = tree.verdict.leading().verdict;
  switch (verdict.state) {
    case VerdictState::met:
      if (verdict.fell_since) return say("verdict.met-fell", {{"day", day(*verdict.met_on)}});
      return verdict.met_on ? say("verdict.met", {{"day", day(*verdict.met_on)}})
                            : say("verdict.met-no-day");
    case VerdictState::nearly:
    case VerdictState::short_of: {
      const bool nearly = verdict.state == VerdictState::nearly;
      const std::string id = nearly ? (verdict.so_far ? "verdict.nearly" : "verdict.nearly-over")
                             : verdict.so_far ? "verdict.short-so-far"
                                              : "verdict.short";
      const Text likely = likely_text(facts, tree);
      std::vector<NamedValue> values = {
          {"by", range(verdict.short_by->low, verdict.short_by->high)}};
      if (likely.empty()) return say(id, std::move(values));
      values.push_back({"likely", likely});
      return say(id + "-and", std::move(values));
    }
    case VerdictState::undecided:
      return say("verdict.undecided", {{"reason", reason_text(verdict)}});
    case VerdictState::unknown:
      break;
  }
  return say("verdict.unknown", {{"reason", reason_text(verdict)}});
}

const Observation* leafing_noted(const SeasonFacts& facts, const TreeSeason& tree) {
  const Date from = spring_buds_from(facts.today.winter, facts.southern());
  const Date to = std::min(facts.today.as_of, plus_days(facts.today.winter.from, kYear - 1));
  for (const char* what : {"leafed_unevenly", "leafed_out"}) {
    for (const Observation& seen : tree.tree->observed) {
      if (seen.what == what && seen.on.day && from <= seen.on.earliest() &&
          seen.on.earliest() <= to)
        return &seen;
    }
  }
  return nullptr;
}

Text likely_text(const SeasonFacts& facts, const TreeSeason& tree) {
  if (facts.today.winter_over() || !tree.chance || tree.chance->winters == 0) return {};
  const ChanceOfMeeting& chance = *tree.chance;
  if (chance.early && chance.late) {
    return say("verdict.likely-between", {{"days", days(*chance.early, *chance.late)}});
  }
  const int low = chance.fewest();
  // Where only an upper bound is known, less may have been enough.
  const auto& need = tree.verdict.leading().verdict.need;
  const std::string sure = need && !need->low ? "verdict.sure-share" : "verdict.likely-share";
  if (low < chance.reaching_low_at_best) {
    return say(sure + "-between", {{"low", count(low)},
                                   {"high", count(chance.reaching_low_at_best)},
                                   {"all", count(chance.winters)}});
  }
  return say(sure, {{"n", count(low)}, {"all", count(chance.winters)}});
}

std::vector<const TreeSeason*> from_worst_to_best(const SeasonFacts& facts) {
  std::vector<const TreeSeason*> trees = facts.resting();
  const auto place = [](const TreeSeason* tree) {
    const Verdict& verdict = tree->verdict.leading().verdict;
    switch (verdict.state) {
      case VerdictState::short_of:
        return std::pair(0, verdict.share().value_or(1.0));
      case VerdictState::nearly:
        return std::pair(1, verdict.share().value_or(1.0));
      case VerdictState::undecided:
        return std::pair(2, verdict.share().value_or(1.0));
      case VerdictState::unknown:
        return std::pair(3, 0.0);
      case VerdictState::met:
        break;
    }
    return std::pair(4, verdict.share().value_or(1.0));
  };
  std::stable_sort(trees.begin(), trees.end(),
                   [&](const TreeSeason* a, const TreeSeason* b) { return place(a) < place(b); });
  return trees;
}

}  // namespace winterfolio
