// Pairs the trees.
#include "findings/partners.h"

#include <algorithm>
#include <array>
#include <map>

#include "base/csv_table.h"
#include "findings/frost.h"
#include "orchard/cultivars.h"
#include "orchard/names.h"
#include "orchard/species.h"

namespace winterfolio {
namespace {

constexpr int kLongestBloom = 60;  ///< a longer stretch between two notes is a slip

// --- what is known of pollen
// -------------------------------------------------------------------------------------------

struct PollenRow {
  std::string species;
  std::string cultivar;  ///< folded, as all names here
  bool none = false;
  std::vector<std::string> served_by;
  std::vector<std::string> not_served_by;
  std::string source;
  PollenSource kind() const {
    return source == "memory" ? PollenSource::memory : PollenSource::published;
  }
};

std::vector<std::string> folded_list(std::string_view cell) {
  std::vector<std::string> names;
  while (!cell.empty()) {
    const auto bar = std::min(cell.find('|'), cell.size());
    names.push_back(folded_name(cell.substr(0, bar)));
    cell.remove_prefix(std::min(bar + 1, cell.size()));
  }
  return names;
}

const std::vector<PollenRow>& pollen_table() {
  static const std::vector<PollenRow> table = [] {
    std::vector<PollenRow> rows;
    const CsvTable cells = CsvTable::embedded("src/findings/tables/pollen.csv");
    for (const CsvRow row : cells) {
      rows.push_back({row.text("species"), folded_name(row.text("cultivar")),
                      row.text("pollen") == "none", folded_list(row.text("served_by")),
                      folded_list(row.text("not_served_by")), row.text("source")});
    }
    return rows;
  }();
  return table;
}

bool holds(const std::vector<std::string>& names, const std::string& name) {
  return std::find(names.begin(), names.end(), name) != names.end();
}

/// Peaches and nectarines are one species.
std::string_view kind_of(const Tree& tree) {
  return tree.species == "nectarine" ? std::string_view("peach") : std::string_view(tree.species);
}

constexpr std::array<std::string_view, 5> kGroups = {"very_early", "early", "mid", "late",
                                                     "very_late"};

// --- one cultivar on one tree
// ------------------------------------------------------------------------------------------

struct Part {
  const BloomingTree* at = nullptr;
  std::string name;    ///< as written
  std::string folded;  ///< empty: unknown
  std::optional<std::size_t> group;
  std::optional<BloomSpan> span;
  const OwnCultivar* own = nullptr;
  std::vector<const CultivarRow*> rows;
  const PollenRow* no_pollen = nullptr;
};

std::optional<std::size_t> group_of(const std::vector<const CultivarRow*>& rows) {
  for (const bool memory : {false, true}) {
    for (const CultivarRow* row : rows) {
      const auto at = std::find(kGroups.begin(), kGroups.end(), row->bloom_group);
      if (at != kGroups.end() && row->from_memory == memory)
        return static_cast<std::size_t>(at - kGroups.begin());
    }
  }
  return std::nullopt;
}

Part part_of(const BloomingTree& at, const std::string& name, const Orchard& orchard,
             const std::optional<BloomSpan>& span) {
  Part part;
  part.at = &at;
  part.name = name;
  part.folded = folded_name(name);
  if (same_name(name, at.cultivar)) part.span = span;
  if (part.folded.empty()) return part;
  for (const OwnCultivar& own : orchard.cultivars) {
    if (own.species == at.tree->species && same_name(own.name, name)) part.own = &own;
  }
  part.rows = find_cultivar(at.tree->species, name);
  part.group = group_of(part.rows);
  for (const PollenRow& row : pollen_table()) {
    if (row.none && row.species == at.tree->species && row.cultivar == part.folded)
      part.no_pollen = &row;
  }
  return part;
}

void set_need(PartPartners& finding, const Part& part) {
  const auto as_need = [](SelfFertile fertile) {
    return fertile == SelfFertile::yes      ? PartnerNeed::alone
           : fertile == SelfFertile::partly ? PartnerNeed::better_with
                                            : PartnerNeed::needed;
  };
  if (part.own && part.own->self_fertile) {
    finding.need = as_need(*part.own->self_fertile);
    finding.need_source = PollenSource::keeper;
    finding.need_key = part.own->from_where;
    return;
  }
  for (const bool memory : {false, true}) {
    for (const CultivarRow* row : part.rows) {
      if (!row->self_fertile || row->from_memory != memory) continue;
      finding.need = as_need(*row->self_fertile);
      finding.need_source = memory ? PollenSource::memory : PollenSource::published;
      finding.need_key = row->source;
      return;
    }
  }
  // Without pollen of its own none sets fruit alone, whatever its kind does.
  if (part.no_pollen) {
    finding.need = PartnerNeed::needed;
    finding.need_source = part.no_pollen->kind();
    finding.need_key = part.no_pollen->source;
    return;
  }
  if (const SpeciesRow* species = find_species(part.at->tree->species))
    finding.need = as_need(species->self_fertile);
}

// --- bloom
// -------------------------------------------------------------------------------------------------------------

struct Noted {
  Date on;
  bool fall;
};

/// Days from first bloom to petal fall in past springs.
std::vector<int> lengths_of(const Tree& tree, Date spring) {
  std::vector<int> lengths;
  std::optional<Date> first;
  for (const Observation& seen : tree.observed) {
    if (!seen.on.day || seen.on.earliest() >= spring) continue;
    if (seen.what == "first_bloom") first = seen.on.earliest();
    if (seen.what != "petal_fall" || !first) continue;
    const int days = days_between(*first, seen.on.earliest()) + 1;
    if (days >= 1 && days <= kLongestBloom) lengths.push_back(days);
    first.reset();
  }
  return lengths;
}

int middle(std::vector<int> values) {
  std::sort(values.begin(), values.end());
  return values[values.size() / 2];
}

std::optional<Date> petal_fall_seen(const Tree& tree, Date from, Date as_of) {
  for (const Observation& seen : tree.observed) {
    if (seen.what != "petal_fall" || !seen.on.day) continue;
    const Date on = seen.on.earliest();
    if (from <= on && on <= as_of) return on;
  }
  return std::nullopt;
}

/// Estimates from elsewhere are the same for every cultivar of a kind: they cannot tell two apart.
bool tells_cultivars_apart(BloomMethod method) {
  return method != BloomMethod::none && method != BloomMethod::species_elsewhere;
}

using KindLengths = std::map<std::string_view, std::vector<int>>;

std::optional<BloomSpan> span_of(const BloomingTree& tree, const KindLengths& kinds, Date spring,
                                 const Today& today) {
  const BloomFinding* bloom = tree.bloom;
  if (!bloom || !bloom->expected || !tells_cultivars_apart(bloom->method)) return std::nullopt;
  BloomSpan span{*bloom->expected, *bloom->expected};
  span.seen = bloom->method == BloomMethod::seen;
  if (const auto fallen = petal_fall_seen(*tree.tree, span.from, today.as_of)) {
    span.to = *fallen;
    span.length = BloomSpan::Length::seen;
    return span;
  }
  int days = kDaysInBloom;
  const std::vector<int> own = lengths_of(*tree.tree, spring);
  const auto kind = kinds.find(kind_of(*tree.tree));
  if (!own.empty()) {
    days = middle(own);
    span.length = BloomSpan::Length::own_years;
  } else if (kind != kinds.end() && !kind->second.empty()) {
    days = middle(kind->second);
    span.length = BloomSpan::Length::kind_here;
  }
  span.to = plus_days(span.from, days - 1);
  return span;
}

BloomOverlap overlap_of(const Part& tree, const Part& other) {
  BloomOverlap overlap;
  if (tree.span && other.span) {
    const Date from = std::max(tree.span->from, other.span->from);
    const Date to = std::min(tree.span->to, other.span->to);
    overlap.known_by = BloomOverlap::KnownBy::dates;
    overlap.expected = !tree.span->seen || !other.span->seen;
    overlap.days = std::max(0, days_between(from, to) + 1);
    if (overlap.days > 0) overlap.from = from;
    return overlap;
  }
  // Groups are relative within a species.
  if (tree.group && other.group && tree.at->tree->species == other.at->tree->species) {
    overlap.known_by = BloomOverlap::KnownBy::groups;
    const auto [low, high] = std::minmax(*tree.group, *other.group);
    overlap.groups_meet = high - low <= 1;
  }
  return overlap;
}

// --- pairs
// -------------------------------------------------------------------------------------------------------------

void judge_pollen(Partner& partner, const Part& tree, const Part& other) {
  if (!other.folded.empty() && other.folded == tree.folded) {
    partner.bar = PartnerBar::same_cultivar;
    return;
  }
  if (tree.own) {
    for (const std::string& name : tree.own->partners) {
      if (!same_name(name, other.name)) continue;
      partner.named = true;
      partner.source = PollenSource::keeper;
      partner.source_key = tree.own->from_where;
      return;
    }
  }
  if (other.no_pollen) {
    partner.bar = PartnerBar::no_pollen;
    partner.source = other.no_pollen->kind();
    partner.source_key = other.no_pollen->source;
    return;
  }
  if (tree.folded.empty() || other.folded.empty()) return;
  for (const PollenRow& row : pollen_table()) {
    if (row.species != tree.at->tree->species || row.cultivar != tree.folded) continue;
    const bool barren = holds(row.not_served_by, other.folded);
    if (!barren && !holds(row.served_by, other.folded)) continue;
    partner.named = !barren;
    if (barren) partner.bar = PartnerBar::does_not_serve;
    partner.source = row.kind();
    partner.source_key = row.source;
    if (barren) return;
  }
}

/// Flowers that the keeper saw on both trees tell more than what the cold let expect.
bool flowers_seen_together(const BloomOverlap& overlap) {
  return overlap.known_by == BloomOverlap::KnownBy::dates && overlap.meets() && !overlap.expected;
}

void judge_year(Partner& partner, const Part& other) {
  if (partner.bar != PartnerBar::none) return;
  const BloomingTree& at = *other.at;
  if (at.lost) {
    partner.bar = PartnerBar::lost;
  } else if (at.state == TreeState::planted || at.state == TreeState::formative) {
    partner.bar = PartnerBar::too_young;
  } else if (at.buds_killed) {
    partner.bar = PartnerBar::buds_killed;
  } else if (at.chill_short && !flowers_seen_together(partner.overlap)) {
    partner.bar = PartnerBar::chill_short;
  } else if (partner.overlap.known_by != BloomOverlap::KnownBy::nothing &&
             !partner.overlap.meets()) {
    partner.bar = PartnerBar::bloom_apart;
  }
}

/// Named and dated partners first, those barred last.
bool better(const Partner& a, const Partner& b) {
  const auto rank = [](const Partner& partner) {
    return std::array<int, 4>{partner.bar == PartnerBar::none ? 0 : 1,
                              partner.overlap.known_by == BloomOverlap::KnownBy::dates    ? 0
                              : partner.overlap.known_by == BloomOverlap::KnownBy::groups ? 1
                                                                                          : 2,
                              partner.named ? 0 : 1, -partner.overlap.days};
  };
  return rank(a) < rank(b);
}

PartnerState state_of(const PartPartners& finding, const Part& part) {
  if (part.at->state == TreeState::planted || part.at->state == TreeState::formative)
    return PartnerState::not_bearing;
  if (finding.need == PartnerNeed::alone) return PartnerState::sets_alone;
  bool perhaps = false;
  bool likely = false;
  bool this_year = false;
  for (const Partner& partner : finding.partners) {
    if (partner.bar == PartnerBar::none) {
      const bool two_cultivars =
          partner.named || (!part.folded.empty() && !partner.cultivar.empty());
      if (two_cultivars && partner.overlap.known_by == BloomOverlap::KnownBy::dates)
        return PartnerState::served;
      likely =
          likely || (two_cultivars && partner.overlap.known_by == BloomOverlap::KnownBy::groups);
      perhaps = true;
    }
    this_year = this_year || partner.bar >= PartnerBar::lost;
  }
  if (likely) return PartnerState::likely;
  if (perhaps) return PartnerState::not_known;
  return this_year ? PartnerState::none_this_year : PartnerState::none_here;
}

PartPartners partners_of_part(const Part& part, const std::vector<Part>& all) {
  PartPartners finding;
  finding.cultivar = part.name;
  set_need(finding, part);
  for (const Part& other : all) {
    if (&other == &part || kind_of(*other.at->tree) != kind_of(*part.at->tree)) continue;
    Partner partner;
    partner.tree = other.at->tree;
    partner.cultivar = other.name;
    partner.same_tree = other.at == part.at;
    partner.overlap = overlap_of(part, other);
    judge_pollen(partner, part, other);
    judge_year(partner, other);
    finding.partners.push_back(std::move(partner));
  }
  std::stable_sort(finding.partners.begin(), finding.partners.end(), better);
  finding.state = state_of(finding, part);
  return finding;
}

}  // namespace

std::string_view id_of(BloomSpan::Length length) {
  constexpr std::array<std::string_view, 4> ids = {"seen", "own_years", "kind_here", "common"};
  return ids.at(static_cast<std::size_t>(length));
}

std::string_view id_of(PartnerNeed need) {
  constexpr std::array<std::string_view, 4> ids = {"alone", "better_with", "needed", "not_known"};
  return ids.at(static_cast<std::size_t>(need));
}

std::string_view id_of(PollenSource source) {
  constexpr std::array<std::string_view, 3> ids = {"keeper", "published", "memory"};
  return ids.at(static_cast<std::size_t>(source));
}

std::string_view id_of(PartnerBar bar) {
  constexpr std::array<std::string_view, 9> ids = {
      "none",      "same_cultivar", "no_pollen",   "does_not_serve", "lost",
      "too_young", "chill_short",   "buds_killed", "bloom_apart"};
  return ids.at(static_cast<std::size_t>(bar));
}

std::string_view id_of(PartnerState state) {
  constexpr std::array<std::string_view, 7> ids = {
      "sets_alone", "not_bearing", "served", "likely", "not_known", "none_this_year", "none_here"};
  return ids.at(static_cast<std::size_t>(state));
}

const Partner* PartPartners::best() const {
  return partners.empty() || partners.front().bar != PartnerBar::none ? nullptr : &partners.front();
}

const PartPartners* TreePartners::leading() const {
  const PartPartners* worst = nullptr;
  for (const PartPartners& part : parts) {
    if (!worst || part.state > worst->state) worst = &part;
  }
  return worst;
}

std::vector<TreePartners> partners_of(std::span<const BloomingTree> trees, const Orchard& orchard,
                                      const Today& today) {
  const Date spring = spring_buds_from(today.winter, orchard.southern());
  KindLengths kinds;
  for (const BloomingTree& tree : trees) {
    std::vector<int>& lengths = kinds[kind_of(*tree.tree)];
    for (const int days : lengths_of(*tree.tree, spring)) lengths.push_back(days);
  }
  std::vector<TreePartners> findings(trees.size());
  std::vector<Part> parts;
  std::vector<std::size_t> owner;
  for (std::size_t i = 0; i < trees.size(); ++i) {
    const Tree& tree = *trees[i].tree;
    if (!find_species(tree.species)) continue;
    if (!trees[i].lost) findings[i].span = span_of(trees[i], kinds, spring, today);
    const std::vector<std::string> names =
        tree.grafts.empty() ? std::vector<std::string>{tree.cultivar} : tree.grafts;
    for (const std::string& name : names) {
      parts.push_back(part_of(trees[i], name, orchard, findings[i].span));
      owner.push_back(i);
    }
  }
  for (std::size_t i = 0; i < parts.size(); ++i) {
    if (!parts[i].at->lost) findings[owner[i]].parts.push_back(partners_of_part(parts[i], parts));
  }
  return findings;
}

}  // namespace winterfolio
