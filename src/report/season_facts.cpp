// Puts the findings and the plan of one winter together.
#include "report/season_facts.h"

#include <algorithm>
#include <map>
#include <utility>

#include "orchard/species.h"
#include "orchard/tree_dates.h"

namespace winterfolio {
namespace {

constexpr std::size_t kMostShown = 2;
constexpr int kAtHand = 30;  ///< days before the next winter

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

/// How the tree's cold is expected to stand when its cutting ends: what is short today may be met
/// by then.
VerdictState expected_state(const TreeSeason& season, const Today& today) {
  const Verdict& verdict = season.verdict.leading().verdict;
  const bool may_come =
      verdict.state == VerdictState::short_of && verdict.so_far && !today.winter_over();
  return may_come && season.chance && season.chance->middle ? VerdictState::met : verdict.state;
}

/// Lets the years of a tree of one cultivar bracket its need, and judges it anew by the bracket.
void heed_own_years(TreeSeason& season, const Standing& at) {
  if (season.other_kind || season.verdict.parts.size() != 1) return;
  PartVerdict& part = season.verdict.parts.front();
  const ChillMeasure measure =
      part.part.deciding ? part.part.deciding->measure : at.shown->front().measure;
  OwnEvidence evidence = own_evidence(*season.tree, measure, *at.outlook);
  if (evidence.years.empty()) return;
  const BracketedNeed bracketed = with_own_evidence(part.part.deciding, evidence);
  season.bracket = bracketed.use;
  season.evidence = std::move(evidence);
  if (bracketed.use == BracketUse::none || bracketed.use == BracketUse::agrees) return;
  part.part.deciding = bracketed.need;
  part.verdict = verdict_on(part.part, at.reduced ? *at.reduced : *at.chill);
}

/// What is expected of the buds, for pruning windows that close by them.
TreeDates expected_dates(const TreeSeason& season) {
  TreeDates dates;
  if (season.bloom.expected && season.bloom.method != BloomMethod::seen) {
    dates.first_bloom = EventDate{*season.bloom.expected, DateKind::estimated};
  }
  return dates;
}

/// The nights at the tree's thermometer; what the keeper knows of its block counts where that does
/// not hang in it.
NightsAtTree nights_at(const Tree& tree, const Standing& at, const Orchard& orchard) {
  return {at.nights, at.place ? CelsiusDelta(0.0) : frost_offset_of(tree, orchard),
          orchard.southern()};
}

/// What cold nights did to the tree, or may have done.
void add_frost(TreeSeason& season, const Standing& at, const Orchard& orchard, const Today& today) {
  const Tree& tree = *season.tree;
  const NightsAtTree nights = nights_at(tree, at, orchard);
  season.odd = odd_signs(tree, today, orchard.southern());
  season.frost = frost_of(tree, season.bloom, nights, today);
  const std::vector<StageFrom> stages =
      stages_of(tree, today.winter, orchard.southern(), season.bloom);
  season.dormant = dormant_cold(tree, nights, today,
                                stages.empty() ? std::nullopt : std::optional(stages.front().from));
  if (at.nights->now.empty()) return;
  std::optional<Date> in_leaf_until = season.odd.leaves_held;
  if (season.dates.leaf_fall) in_leaf_until = season.dates.leaf_fall->on;
  if (!in_leaf_until) return;
  season.freezes_in_leaf =
      freezes_before_leaf_fall(at.nights->now, at.nights->now.front().evening, *in_leaf_until);
}

/// Whether a reading may be that of a sensor in the sun.
bool bump_at(const std::vector<ReadingsFile>& files, LocalHour hour) {
  return std::any_of(files.begin(), files.end(), [&](const ReadingsFile& file) {
    return std::any_of(
        file.doubts.begin(), file.doubts.end(), [&](const ReadingsFile::Doubt& doubt) {
          return doubt.kind == "sensor_in_sun" && doubt.from <= hour && hour <= doubt.to;
        });
  });
}

/// Great swings since the tree's rest ended. Trees of one thermometer whose rest ended on one day
/// share them.
void add_swings(SeasonFacts& facts) {
  std::map<std::pair<const WeatherRecord*, Date>, std::vector<Swing>> since;
  for (TreeSeason& tree : facts.trees) {
    if (!tree.bloom.rest_ended) continue;
    const std::pair key(facts.standing_of(*tree.tree).record, *tree.bloom.rest_ended);
    auto found = since.find(key);
    if (found == since.end())
      found = since.emplace(key, swings_after(*key.first, key.second, facts.today)).first;
    if (!tree.odd.leaves_held) tree.swings = found->second;
    std::erase_if(tree.swings, [&](const Swing& swing) {
      return bump_at(facts.files, swing.from) || bump_at(facts.files, swing.to);
    });
  }
}

/// What lacking cold does to the part that leads; a forecast of it only by past winters'
/// remainders.
std::optional<TreeShortfall> shortfall_at(const TreeSeason& season, const Standing& at) {
  if (season.other_kind) return std::nullopt;
  const PartVerdict& part = season.verdict.leading();
  const auto measure = shortfall_measure(part, *at.chill);
  const ShownMeasure* shown = measure ? at.find(*measure) : nullptr;
  return shortfall_of(season.tree->species, part, at.chill_for(part.verdict),
                      shown ? &shown->to_come_for(part.verdict) : nullptr);
}

/// Whether the tree's chill is not met and will not be.
bool stays_short(const TreeSeason& season) {
  const Verdict& verdict = season.verdict.leading().verdict;
  if (verdict.state != VerdictState::short_of) return false;
  return !verdict.so_far ||
         (season.chance && season.chance->winters > 0 && season.chance->reaching_low == 0);
}

void add_partners(SeasonFacts& facts) {
  std::vector<BloomingTree> trees;
  for (const TreeSeason& season : facts.trees) {
    const TreeNight* worst = season.frost.worst();
    trees.push_back({.tree = season.tree,
                     .bloom = &season.bloom,
                     .cultivar = season.verdict.leading().part.cultivar,
                     .state = season.plan.state,
                     .chill_short = stays_short(season),
                     .buds_killed = worst && worst->level == FrostLevel::ninety_percent});
  }
  for (const Tree* tree : facts.lost)
    trees.push_back({.tree = tree, .cultivar = tree->cultivar, .lost = true});
  std::vector<TreePartners> found = partners_of(trees, *facts.orchard, facts.today);
  for (std::size_t i = 0; i < facts.trees.size(); ++i)
    facts.trees[i].partners = std::move(found[i]);
}

void add_site(SeasonFacts& facts) {
  std::vector<SiteTree> trees;
  for (const TreeSeason& season : facts.trees) {
    if (season.other_kind) continue;
    const Standing at = facts.standing_of(*season.tree);
    for (const PartVerdict& part : season.verdict.parts) {
      const ShownMeasure* shown =
          part.part.deciding ? at.find(part.part.deciding->measure) : nullptr;
      trees.push_back({season.tree, &part,
                       &part == &season.verdict.leading() ? &season.bloom : nullptr,
                       shown ? &shown->years : nullptr, at.outlook});
    }
  }
  SiteWeather weather{{}, &facts.outlook, &facts.chill, &facts.nights};
  for (const ShownMeasure& shown : facts.shown) weather.years.push_back(&shown.years);
  facts.site = site_of(trees, weather, *facts.orchard);
}

TreeSeason tree_season(const Tree& tree, const Orchard& orchard, const SeasonFacts& facts) {
  TreeSeason season;
  season.tree = &tree;
  season.other_kind = tree.species == kOtherSpecies;
  const Standing at = facts.standing_of(tree);
  season.verdict = verdict_on(tree, orchard, *at.chill);
  heed_own_years(season, at);
  const auto& leading = season.verdict.leading();
  if (leading.part.deciding) {
    if (const ShownMeasure* shown = at.find(leading.part.deciding->measure)) {
      season.chance =
          chance_of_meeting(shown->to_come_for(leading.verdict), *leading.part.deciding);
    }
  }
  season.bloom = bloom_of(tree, orchard, leading, *at.outlook);
  season.stages = other_stages(tree, orchard, leading, *at.outlook);
  season.dates =
      with_estimates(observed_dates(tree, orchard, facts.today.winter.year, facts.today.as_of),
                     expected_dates(season));
  TreeFacts known;
  known.dates = season.dates;
  known.chill = expected_state(season, facts.today);
  known.as_of = facts.today.as_of;
  season.plan = plan_tree(tree, known, orchard, facts.today.winter.year);
  add_frost(season, at, orchard, facts.today);
  season.shortfall = shortfall_at(season, at);
  return season;
}

/// The winter at one thermometer, the orchard's or a block's.
struct Reckoning {
  WinterChill chill;
  std::optional<WinterChill> reduced;
  SpringOutlook outlook;
  std::vector<ShownMeasure> shown;
};

/// The place's own score at looking ahead, where it has the winters to tell.
std::optional<HindcastScore> own_hindcast(ChillMeasure measure, const WeatherRecord& record,
                                          const Today& today) {
  if (today.winter_over() ||
      winters_on_record(record, today.window, today.winter.year).size() < kWintersForHindcast)
    return std::nullopt;
  const HindcastScore score =
      hindcast(measure, record, today.window, hindcast_days(today.winter), today.winter.year);
  return score.winters >= kWintersForHindcast ? std::optional(score) : std::nullopt;
}

/// The measures shown first, then the others that verdicts need.
Reckoning reckon(const Orchard& orchard, const WeatherRecord& record, const Today& today,
                 const std::vector<PastWinterTotal>& bare_totals) {
  const std::vector<ChillMeasure> counted = measures_to_count(orchard);
  Reckoning found;
  found.chill = winter_chill(record, today, counted);
  std::optional<WinterChill> by_days;
  if (comparison_basis(record, today).detail == WinterDetail::daily_extremes)
    by_days = winter_chill(reduced_to_extremes(record), by_whole_days(today), counted);
  const bool is_reduced = by_days && found.chill.detail != WinterDetail::daily_extremes;
  found.outlook = spring_outlook(record, found.chill, is_reduced ? &*by_days : nullptr);
  std::vector<ChillMeasure> with_years = measures_to_show(orchard);
  for (const ChillMeasure measure : counted) {
    if (std::find(with_years.begin(), with_years.end(), measure) == with_years.end())
      with_years.push_back(measure);
  }
  for (const ChillMeasure measure : with_years) {
    YearsFinding years =
        years_of(measure, record, found.chill, bare_totals, by_days ? &*by_days : nullptr);
    PastCurves past = past_curves(years, record, found.chill);
    ShownMeasure shown{
        measure, std::move(years), *found.outlook.still_to_come_of(measure, WinterDetail::hourly),
        {},      std::move(past),  own_hindcast(measure, record, today)};
    if (is_reduced)
      shown.to_come_by_extremes =
          *found.outlook.still_to_come_of(measure, WinterDetail::daily_extremes);
    found.shown.push_back(std::move(shown));
  }
  if (is_reduced) found.reduced = std::move(by_days);
  return found;
}

/// The winter of a block. Bare totals are the orchard's and not counted among its winters.
PlaceSeason place_season(const Orchard& orchard, const PlaceWeather& weather, const Today& today) {
  PlaceSeason place;
  place.weather = &weather;
  place.silent = !anything_known(weather, today.winter.begin(), today.counted_to());
  if (place.silent) return place;
  Reckoning found = reckon(orchard, weather.record, today, {});
  place.chill = std::move(found.chill);
  place.reduced = std::move(found.reduced);
  place.outlook = std::move(found.outlook);
  place.shown = std::move(found.shown);
  place.nights = winter_nights(weather.record, today);
  for (const Winter& past : winters_on_record(weather.record, today.window, today.winter.year)) {
    (mostly_own(weather, past.begin(), past.end()) ? place.own_winters : place.moved_winters) += 1;
  }
  return place;
}

const ShownMeasure* find_in(const std::vector<ShownMeasure>& shown, ChillMeasure measure) {
  for (const ShownMeasure& one : shown) {
    if (one.measure == measure) return &one;
  }
  return nullptr;
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

const StillToCome& ShownMeasure::to_come_for(const Verdict& verdict) const {
  const bool reduced = verdict.need && verdict.basis == WinterDetail::daily_extremes;
  return reduced && to_come_by_extremes ? *to_come_by_extremes : to_come;
}

const WinterChill& Standing::chill_for(const Verdict& verdict) const {
  const bool by_extremes = verdict.need && verdict.basis == WinterDetail::daily_extremes;
  return by_extremes && reduced ? *reduced : *chill;
}

bool SeasonFacts::looking_back() const {
  const Date next = winter_of(today.window, today.winter.year + 1).from;
  if (today.as_of >= plus_days(next, -kAtHand)) return true;
  const LocalHour begin = LocalHour::at(next, 0);
  return record->hours.end() > begin &&
         record->hours.missing_in(today.now, begin) == begin - today.now;
}

const ShownMeasure* SeasonFacts::find(ChillMeasure measure) const {
  return find_in(shown, measure);
}

const ShownMeasure* Standing::find(ChillMeasure measure) const { return find_in(*shown, measure); }

Standing SeasonFacts::standing_of(const Tree& tree) const {
  for (const PlaceSeason& place : places) {
    if (place.silent || place.weather->block != tree.block) continue;
    return {&place,         &place.weather->record,
            &place.chill,   place.reduced ? &*place.reduced : nullptr,
            &place.outlook, &place.shown,
            &place.nights};
  }
  return {nullptr, record, &chill, reduced ? &*reduced : nullptr, &outlook, &shown, &nights};
}

std::vector<const TreeSeason*> SeasonFacts::resting() const {
  std::vector<const TreeSeason*> result;
  for (const TreeSeason& tree : trees) {
    if (!tree.other_kind) result.push_back(&tree);
  }
  return result;
}

SeasonFacts season_facts(const Orchard& orchard, const WeatherRecord& record, const Today& today,
                         std::vector<ReadingsFile> files, std::optional<int> utc_offset_minutes,
                         std::span<const PlaceWeather> places) {
  SeasonFacts facts;
  facts.orchard = &orchard;
  facts.record = &record;
  facts.today = today;
  facts.files = std::move(files);
  facts.utc_offset_minutes = utc_offset_minutes;
  Reckoning found = reckon(orchard, record, today, orchard.past_winters);
  facts.chill = std::move(found.chill);
  facts.reduced = std::move(found.reduced);
  facts.outlook = std::move(found.outlook);
  facts.shown = std::move(found.shown);
  for (const PlaceWeather& place : places)
    facts.places.push_back(place_season(orchard, place, today));
  facts.nights = winter_nights(record, today);
  facts.last_frosts = last_frosts(facts.nights, today, facts.southern());
  facts.warm = warm_hours(record, facts.chill);
  for (const Tree& tree : orchard.trees) {
    if (stands_on(tree, today.as_of)) {
      facts.trees.push_back(tree_season(tree, orchard, facts));
    } else if (tree.lost && on_map_of_year_to(tree, today.as_of)) {
      facts.lost.push_back(&tree);
    }
  }
  add_swings(facts);
  add_partners(facts);
  add_site(facts);
  facts.frost_nights = frost_nights(facts.nights, today);
  return facts;
}

}  // namespace winterfolio
