// Lays what cultivars need beside what winters here have brought.
#include "findings/site.h"

#include <algorithm>
#include <array>
#include <map>
#include <set>
#include <utility>

#include "findings/statistics.h"
#include "orchard/cultivars.h"
#include "orchard/names.h"
#include "orchard/species.h"

namespace winterfolio {
namespace {

constexpr std::size_t kFewWinters = 10;
constexpr double kTenth = 0.1;
constexpr double kSameAmount = 1e-9;

/// Utah units of past winters as verdicts count them; this one is left out until it is past.
std::vector<double> utah_totals(const SpringOutlook& outlook) {
  std::vector<double> totals;
  for (const PastSpring& past : outlook.past) {
    for (const PastSpring::Chill& chill : past.chill) {
      if (chill.measure == ChillMeasure::utah && chill.known_enough && !chill.by_day.empty())
        totals.push_back(chill.by_day.back());
    }
  }
  return totals;
}

std::vector<double> whole_totals(const YearsFinding& years) {
  std::vector<double> totals;
  for (const PastWinterChill& past : years.winters) {
    if (past.whole) totals.push_back(*past.whole);
  }
  // This winter is among the whole ones once it is over.
  if (years.whole_winters > static_cast<int>(totals.size())) totals.push_back(years.now);
  return totals;
}

const SiteChill* find_chill(const std::vector<SiteChill>& chill, ChillMeasure measure) {
  for (const SiteChill& one : chill) {
    if (one.measure == measure) return &one;
  }
  return nullptr;
}

/// One cultivar that might be planted.
struct Candidate {
  std::string species;
  std::string cultivar;
  std::vector<Need> needs;
  bool own_heat = false;  ///< warmth to bloom is known for the cultivar itself
};

/// The table's cultivars, over which the keeper's own rows stand, and those that only the keeper
/// knows.
std::vector<Candidate> candidates(const Orchard& orchard) {
  std::vector<Candidate> found;
  const auto& table = cultivars_table();
  for (auto row = table.begin(); row != table.end();) {
    const auto end = std::find_if(row, table.end(), [&](const CultivarRow& other) {
      return other.species != row->species || other.cultivar != row->cultivar;
    });
    std::vector<const CultivarRow*> rows;
    Candidate candidate{row->species, row->cultivar, {}};
    for (; row != end; ++row) {
      rows.push_back(&*row);
      candidate.own_heat = candidate.own_heat || (row->heat && row->mark == CultivarMark::seen);
    }
    candidate.needs = published_needs(rows);
    found.push_back(std::move(candidate));
  }
  for (const OwnCultivar& own : orchard.cultivars) {
    auto at = std::find_if(found.begin(), found.end(), [&](const Candidate& one) {
      return one.species == own.species && same_name(one.cultivar, own.name);
    });
    if (at == found.end()) at = found.insert(found.end(), {own.species, own.name, {}});
    for (const auto& [measure, range] : own.needs) {
      at->needs.push_back({.kind = NeedKind::own_cultivar,
                           .measure = measure,
                           .low = range.low,
                           .high = range.high,
                           .source = own.from_where,
                           .note = {}});
    }
    at->own_heat = at->own_heat || own.heat_to_bloom;
  }
  return found;
}

/// The need that speaks first among the measures of which winters enough are known.
std::optional<DecidingNeed> comparable(const std::vector<Need>& needs,
                                       const std::vector<SiteChill>& chill) {
  for (DecidingNeed& need : deciding_needs(needs)) {
    if (find_chill(chill, need.measure)) return std::move(need);
  }
  return std::nullopt;
}

/// When a cultivar would bloom this spring, and how past springs went from there on.
class BloomAndFrost {
 public:
  BloomAndFrost(const SiteWeather& weather, const Orchard& orchard)
      : weather_(weather), orchard_(orchard) {}

  /// `here`: a tree of it that stands here; nullptr: none.
  void judge(SuitedCultivar& cultivar, const Candidate& candidate, const SiteTree* here) {
    const std::optional<BloomFinding> bloom = bloom_for(cultivar, candidate, here);
    if (!bloom || !bloom->expected) return;
    cultivar.bloom_by = bloom->method;
    const CriticalTemperature* stage = first_bloom_temperature(cultivar.species);
    if (!stage) return;
    const NightsAtTree at{weather_.nights, CelsiusDelta(0.0), orchard_.southern()};
    cultivar.after_bloom = later_frosts(*stage, *bloom->expected, at, weather_.outlook->today);
    const auto& later = cultivar.after_bloom;
    if (!later || later->springs < kLeastWintersOfSite) return;
    cultivar.frost = later->with_damage <= kTenth * later->springs + kSameAmount
                         ? FrostEscape::escapes
                         : FrostEscape::at_risk;
  }

 private:
  std::optional<BloomFinding> bloom_for(const SuitedCultivar& cultivar, const Candidate& candidate,
                                        const SiteTree* here) {
    if (here && here->bloom && here->bloom->expected) return *here->bloom;
    const auto known = of_kind_.find(cultivar.species);
    if (!candidate.own_heat && known != of_kind_.end()) return known->second;
    Tree tree;
    tree.species = cultivar.species;
    tree.cultivar = cultivar.cultivar;
    PartVerdict part;
    part.part.cultivar = cultivar.cultivar;
    part.part.deciding = cultivar.need;
    part.verdict = verdict_on(part.part, *weather_.chill);
    BloomFinding bloom = bloom_of(tree, orchard_, part, *weather_.outlook);
    // An estimate for the kind is the same for all its cultivars.
    if (!candidate.own_heat && (bloom.method == BloomMethod::species_elsewhere ||
                                bloom.why_none == NoBloomDate::no_figure))
      of_kind_.emplace(cultivar.species, bloom);
    return bloom;
  }

  const SiteWeather& weather_;
  const Orchard& orchard_;
  std::map<std::string, BloomFinding, std::less<>> of_kind_;
};

std::vector<SuitedCultivar> suited(std::span<const SiteTree> trees, const SiteWeather& weather,
                                   const Orchard& orchard, const std::vector<SiteChill>& chill) {
  std::vector<SuitedCultivar> found;
  BloomAndFrost frost(weather, orchard);
  std::map<std::pair<std::string, std::string>, const SiteTree*> grown;
  std::set<std::string> kinds;
  for (const SiteTree& here : trees) {
    kinds.insert(here.tree->species);
    const SiteTree*& known = grown[{here.tree->species, folded_name(here.part->part.cultivar)}];
    if (!known || (!known->bloom && here.bloom)) known = &here;
  }
  for (const Candidate& candidate : candidates(orchard)) {
    const auto need = comparable(candidate.needs, chill);
    if (!need || !need->high) continue;  // a bound from below says nothing of the most it may need
    const double amount = find_chill(chill, need->measure)->exceeded_in_nine_of_ten;
    if (*need->high > amount + kSameAmount) continue;
    SuitedCultivar cultivar{candidate.species, candidate.cultivar, *need, amount - *need->high};
    cultivar.kind_grown_here = kinds.count(cultivar.species) > 0;
    const auto here = grown.find({cultivar.species, folded_name(cultivar.cultivar)});
    cultivar.grown_here = here != grown.end();
    frost.judge(cultivar, candidate, cultivar.grown_here ? here->second : nullptr);
    found.push_back(std::move(cultivar));
  }
  return found;
}

std::optional<FailingTree> failing(const SiteTree& here) {
  const auto& need = here.part->part.deciding;
  if (!need || !need->low || !here.years || !here.outlook) return std::nullopt;
  const auto chill = site_chill(*here.years, *here.outlook);
  if (!chill || chill->measure != need->measure) return std::nullopt;
  FailingTree tree{here.tree, here.part->part.cultivar, *need};
  tree.winters = static_cast<int>(chill->totals.size());
  // Unless it is the table's, the least of a bracket is the chill of a winter after which the tree
  // leafed badly.
  const bool was_too_little =
      need->kind == NeedKind::own_years &&
      std::none_of(
          here.part->part.needs.begin(), here.part->part.needs.end(),
          [&](const Need& one) { return one.measure == need->measure && one.low == need->low; });
  const double over = was_too_little ? kSameAmount : -kSameAmount;
  tree.enough =
      static_cast<int>(std::count_if(chill->totals.begin(), chill->totals.end(),
                                     [&](double total) { return total >= *need->low + over; }));
  tree.few_winters = chill->few_winters;
  if (2 * tree.enough >= tree.winters) return std::nullopt;
  return tree;
}

}  // namespace

std::string_view id_of(FrostEscape word) {
  constexpr std::array<std::string_view, 3> ids = {"not_known", "escapes", "at_risk"};
  return ids.at(static_cast<std::size_t>(word));
}

std::optional<SiteChill> site_chill(const YearsFinding& years, const SpringOutlook& outlook) {
  SiteChill chill{years.measure, {}};
  const bool utah = years.measure == ChillMeasure::utah;
  chill.totals = utah ? utah_totals(outlook) : whole_totals(years);
  chill.basis = utah ? outlook.basis : years.basis;
  chill.few_winters = chill.totals.size() < kFewWinters;
  if (static_cast<int>(chill.totals.size()) < kLeastWintersOfSite) return std::nullopt;
  chill.exceeded_in_nine_of_ten = quantile(chill.totals, kTenth);
  return chill;
}

SiteFinding site_of(std::span<const SiteTree> trees, const SiteWeather& weather,
                    const Orchard& orchard) {
  SiteFinding site;
  for (const YearsFinding* years : weather.years) {
    if (auto chill = site_chill(*years, *weather.outlook)) site.chill.push_back(std::move(*chill));
  }
  for (const SiteTree& here : trees) {
    if (auto tree = failing(here)) site.failing.push_back(std::move(*tree));
  }
  for (const SiteChill& chill : site.chill)
    site.few_winters = site.few_winters || chill.few_winters;
  if (!site.chill.empty()) site.suited = suited(trees, weather, orchard, site.chill);
  return site;
}

}  // namespace winterfolio
