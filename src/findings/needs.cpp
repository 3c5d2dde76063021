// Gathers the figures for a tree's need of cold, and picks those that decide.
#include "findings/needs.h"

#include <algorithm>
#include <array>

#include "orchard/names.h"
#include "orchard/species.h"

namespace winterfolio {
namespace {

/// Which measure speaks first where several are known.
constexpr std::array<ChillMeasure, kChillMeasureCount> kPreference = {
    ChillMeasure::portions,
    ChillMeasure::utah,
    ChillMeasure::chill_hours,
    ChillMeasure::chill_hours_32_45,
    ChillMeasure::chill_hours_less_warm,
    ChillMeasure::utah_daily_positive,
    ChillMeasure::utah_smoothed,
    ChillMeasure::north_carolina,
    ChillMeasure::low_chill,
};

NeedKind kind_of(CultivarMark mark) {
  switch (mark) {
    case CultivarMark::seen:
      return NeedKind::published;
    case CultivarMark::memory:
      return NeedKind::memory;
    case CultivarMark::set_range:
      return NeedKind::set_range;
    case CultivarMark::constant_temperature:
      break;
  }
  return NeedKind::constant_temperature;
}

void add_own(std::vector<Need>& needs, NeedKind kind, const ChillNeeds& own,
             const std::string& from_where) {
  for (const ChillMeasure measure : kPreference) {
    const auto at = own.find(measure);
    if (at == own.end()) continue;
    needs.push_back({.kind = kind,
                     .measure = measure,
                     .low = at->second.low,
                     .high = at->second.high,
                     .source = from_where,
                     .note = {}});
  }
}

void add_published(std::vector<Need>& needs, NeedKind kind, std::optional<ChillMeasure> measure,
                   const std::optional<PublishedRange>& range, const CultivarRow& row) {
  if (!range) return;
  needs.push_back({.kind = kind,
                   .measure = measure,
                   .low = range->low,
                   .high = range->high,
                   .from_memory = row.from_memory,
                   .source = row.source,
                   .note = row.note});
}

void add_row(std::vector<Need>& needs, const CultivarRow& row) {
  const NeedKind kind = kind_of(row.mark);
  // A cold room's hours decide nothing; portions or units of the same row were counted outdoors and
  // stand.
  const NeedKind others = kind == NeedKind::constant_temperature ? NeedKind::published : kind;
  add_published(needs, others, ChillMeasure::portions, row.portions, row);
  add_published(needs, others, ChillMeasure::utah, row.utah, row);
  const std::size_t before = needs.size();
  add_published(needs, kind, row.hours_measure, row.chill_hours, row);
  if (needs.size() > before) needs.back().assumed = row.hours_assumed;
}

void add_species(std::vector<Need>& needs, const SpeciesRow& species) {
  const auto add = [&](ChillMeasure measure, const std::optional<PublishedRange>& range,
                       bool assumed) {
    if (!range) return;
    std::string keys;
    for (const std::string& source : species.sources) keys += (keys.empty() ? "" : ";") + source;
    needs.push_back({.kind = NeedKind::species_range,
                     .measure = measure,
                     .low = range->low,
                     .high = range->high,
                     .assumed = assumed,
                     .source = keys,
                     .note = {}});
  };
  add(ChillMeasure::portions, species.chill_portions, false);
  add(ChillMeasure::chill_hours, species.chill_hours, true);
}

/// The hull of the deciding figures of one kind and measure; nothing if there is none.
std::optional<DecidingNeed> hull(const std::vector<Need>& needs, NeedKind kind,
                                 ChillMeasure measure) {
  std::optional<DecidingNeed> deciding;
  for (const Need& need : needs) {
    if (need.kind != kind || need.measure != measure || !need.may_decide()) continue;
    if (!deciding) deciding = DecidingNeed{measure, need.low, need.high, kind, false, {}};
    if (need.low) deciding->low = deciding->low ? std::min(*deciding->low, *need.low) : *need.low;
    if (need.high)
      deciding->high = deciding->high ? std::max(*deciding->high, *need.high) : *need.high;
    deciding->assumed = deciding->assumed || need.assumed;
    if (std::find(deciding->sources.begin(), deciding->sources.end(), need.source) ==
        deciding->sources.end()) {
      deciding->sources.push_back(need.source);
    }
  }
  return deciding;
}

PartNeeds part_of(const Tree& tree, const std::string& cultivar, const Orchard& orchard) {
  PartNeeds part;
  part.cultivar = cultivar;
  const SpeciesRow* species = find_species(tree.species);
  add_own(part.needs, NeedKind::tree, tree.needs, tree.from_where);
  for (const OwnCultivar& own : orchard.cultivars) {
    if (own.species == tree.species && same_name(own.name, cultivar)) {
      add_own(part.needs, NeedKind::own_cultivar, own.needs, own.from_where);
    }
  }
  if (!cultivar.empty()) {
    for (const CultivarRow* row : find_cultivar(tree.species, cultivar)) add_row(part.needs, *row);
  }
  if (species) add_species(part.needs, *species);
  std::stable_sort(part.needs.begin(), part.needs.end(),
                   [](const Need& a, const Need& b) { return a.kind < b.kind; });
  const std::vector<DecidingNeed> deciding = deciding_needs(part.needs);
  if (!deciding.empty()) part.deciding = deciding.front();
  return part;
}

}  // namespace

std::string_view id_of(NeedKind kind) {
  constexpr std::array<std::string_view, 8> ids = {
      "tree",   "own_years", "own_cultivar",         "published",
      "memory", "set_range", "constant_temperature", "species_range"};
  return ids.at(static_cast<std::size_t>(kind));
}

bool Need::may_decide() const {
  const bool kind_decides = kind <= NeedKind::published;
  return kind_decides && measure && (low || high) && !from_memory;
}

std::vector<PartNeeds> needs_of(const Tree& tree, const Orchard& orchard) {
  std::vector<PartNeeds> parts;
  for (const std::string& graft : tree.grafts) parts.push_back(part_of(tree, graft, orchard));
  if (parts.empty()) parts.push_back(part_of(tree, tree.cultivar, orchard));
  return parts;
}

std::vector<Need> published_needs(std::span<const CultivarRow* const> rows) {
  std::vector<Need> needs;
  for (const CultivarRow* row : rows) add_row(needs, *row);
  return needs;
}

std::vector<DecidingNeed> deciding_needs(const std::vector<Need>& needs) {
  std::vector<DecidingNeed> found;
  for (const NeedKind kind : {NeedKind::tree, NeedKind::own_cultivar, NeedKind::published}) {
    for (const ChillMeasure measure : kPreference) {
      if (auto one = hull(needs, kind, measure)) found.push_back(std::move(*one));
    }
    if (!found.empty()) break;
  }
  return found;
}

std::vector<ChillMeasure> measures_in_use(const Orchard& orchard) {
  std::array<int, kChillMeasureCount> uses{};
  for (const Tree& tree : orchard.trees) {
    for (const PartNeeds& part : needs_of(tree, orchard)) {
      if (part.deciding) ++uses[static_cast<std::size_t>(part.deciding->measure)];
    }
  }
  std::vector<ChillMeasure> measures;
  for (const ChillMeasure measure : kPreference) {
    if (uses[static_cast<std::size_t>(measure)] > 0) measures.push_back(measure);
  }
  std::stable_sort(measures.begin(), measures.end(), [&](ChillMeasure a, ChillMeasure b) {
    return uses[static_cast<std::size_t>(a)] > uses[static_cast<std::size_t>(b)];
  });
  return measures;
}

}  // namespace winterfolio
