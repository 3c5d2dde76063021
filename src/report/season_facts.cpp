// Puts the findings and the plan of one winter together.
#include "report/season_facts.h"

#include <algorithm>

#include "orchard/species.h"
#include "orchard/tree_dates.h"

namespace winterfolio {
namespace {

constexpr std::size_t kMostShown = 2;

/// Chill of every measure that a page shows or a verdict needs.
std::vector<ChillMeasure> measures_to_count(const Orchard& orchard) {
  std::vector<ChillMeasure> wanted = measures_to_show(orchard);
  for (const ChillMeasure measure : measures_in_use(orchard)) wanted.push_back(measure);
  std::vector<ChillMeasure> in_order;
  for (const ChillMeasure measure : kChillMeasures) {
    if (std::find(wanted.begin(), wanted.end(), measure) != wanted.end())
      in_order.push_back(measure);
  }
  return in_order;
}

std::vector<FrostNight> frost_nights(const WeatherRecord& record, const Today& today) {
  std::vector<FrostNight> nights;
  for (Date evening = plus_days(today.winter.from, -1);
       LocalHour::at(evening, 12) < today.counted_to(); evening = plus_days(evening, 1)) {
    const LocalHour noon = LocalHour::at(evening, 12);
    std::optional<FrostNight> night;
    for (LocalHour hour = std::max(noon, today.winter.begin());
         hour < std::min(noon + 24, today.counted_to()); hour = hour + 1) {
      const auto reading = record.hours.at(hour);
      if (!reading || reading->lowest > kFreezing + kLineSlack) continue;
      if (!night || reading->lowest < night->lowest)
        night = FrostNight{evening, reading->lowest, hour};
    }
    if (night) nights.push_back(*night);
  }
  return nights;
}

/// How the tree's cold is expected to stand when its cutting ends: what is short today may be met
/// by then.
VerdictState expected_state(const TreeSeason& season, const Today& today) {
  const Verdict& verdict = season.verdict.leading().verdict;
  const bool may_come =
      verdict.state == VerdictState::short_of && verdict.so_far && !today.winter_over();
  return may_come && season.chance && season.chance->middle ? VerdictState::met : verdict.state;
}

/// Lets the years of a tree of one cultivar bracket its need, and judges it anew by the bracket.
void heed_own_years(TreeSeason& season, const SeasonFacts& facts) {
  if (season.other_kind || season.verdict.parts.size() != 1) return;
  PartVerdict& part = season.verdict.parts.front();
  const ChillMeasure measure =
      part.part.deciding ? part.part.deciding->measure : facts.shown.front().measure;
  OwnEvidence evidence = own_evidence(*season.tree, measure, facts.outlook);
  if (evidence.years.empty()) return;
  const BracketedNeed bracketed = with_own_evidence(part.part.deciding, evidence);
  season.bracket = bracketed.use;
  season.evidence = std::move(evidence);
  if (bracketed.use == BracketUse::none) return;
  part.part.deciding = bracketed.need;
  part.verdict = verdict_on(part.part, facts.reduced ? *facts.reduced : facts.chill);
}

/// What is expected of the buds, for pruning windows that close by them.
TreeDates expected_dates(const TreeSeason& season) {
  TreeDates dates;
  if (season.bloom.expected && season.bloom.method != BloomMethod::seen) {
    dates.first_bloom = EventDate{*season.bloom.expected, DateKind::estimated};
  }
  return dates;
}

TreeSeason tree_season(const Tree& tree, const Orchard& orchard, const SeasonFacts& facts) {
  TreeSeason season;
  season.tree = &tree;
  season.other_kind = tree.species == kOtherSpecies;
  season.verdict = verdict_on(tree, orchard, facts.chill);
  heed_own_years(season, facts);
  const auto& leading = season.verdict.leading();
  if (leading.part.deciding) {
    if (const ShownMeasure* shown = facts.find(leading.part.deciding->measure)) {
      season.chance = chance_of_meeting(shown->to_come, *leading.part.deciding);
    }
  }
  season.bloom = bloom_of(tree, orchard, leading, facts.outlook);
  season.dates =
      with_estimates(observed_dates(tree, orchard, facts.today.winter.year, facts.today.as_of),
                     expected_dates(season));
  TreeFacts known;
  known.dates = season.dates;
  known.chill = expected_state(season, facts.today);
  season.plan = plan_tree(tree, known, orchard, facts.today.winter.year);
  return season;
}

}  // namespace

std::vector<ChillMeasure> measures_to_show(const Orchard& orchard) {
  if (!orchard.measures.empty()) return orchard.measures;
  std::vector<ChillMeasure> shown = measures_in_use(orchard);
  if (shown.size() > kMostShown) shown.resize(kMostShown);
  if (std::find(shown.begin(), shown.end(), ChillMeasure::chill_hours) == shown.end()) {
    shown.push_back(ChillMeasure::chill_hours);
  }
  return shown;
}

const ShownMeasure* SeasonFacts::find(ChillMeasure measure) const {
  for (const ShownMeasure& one : shown) {
    if (one.measure == measure) return &one;
  }
  return nullptr;
}

std::vector<const TreeSeason*> SeasonFacts::resting() const {
  std::vector<const TreeSeason*> result;
  for (const TreeSeason& tree : trees) {
    if (!tree.other_kind) result.push_back(&tree);
  }
  return result;
}

SeasonFacts season_facts(const Orchard& orchard, const WeatherRecord& record, const Today& today,
                         std::vector<ReadingsFile> files, std::optional<int> utc_offset_minutes) {
  SeasonFacts facts;
  facts.orchard = &orchard;
  facts.record = &record;
  facts.today = today;
  facts.files = std::move(files);
  facts.utc_offset_minutes = utc_offset_minutes;
  const std::vector<ChillMeasure> counted = measures_to_count(orchard);
  facts.chill = winter_chill(record, today, counted);
  facts.outlook = spring_outlook(record, facts.chill);
  if (facts.outlook.basis != facts.chill.detail)
    facts.reduced = winter_chill(reduced_to_extremes(record), today, counted);
  std::vector<ChillMeasure> with_years = measures_to_show(orchard);
  for (const ChillMeasure measure : counted) {
    if (std::find(with_years.begin(), with_years.end(), measure) == with_years.end())
      with_years.push_back(measure);
  }
  for (const ChillMeasure measure : with_years) {
    YearsFinding years = years_of(measure, record, facts.chill, orchard.past_winters);
    PastCurves past = past_curves(years, record, facts.chill);
    facts.shown.push_back({measure, std::move(years),
                           still_to_come(facts.chill.for_verdict(measure), record, today),
                           std::move(past)});
  }
  for (const Tree& tree : orchard.trees) {
    if (stands_on(tree, today.as_of)) {
      facts.trees.push_back(tree_season(tree, orchard, facts));
    } else if (tree.lost && on_map_of_year_to(tree, today.as_of)) {
      facts.lost.push_back(&tree);
    }
  }
  facts.frost_nights = frost_nights(record, today);
  return facts;
}

}  // namespace winterfolio
