// Finds the band of a shortfall; a band that names the species outranks one for all.
#include "pruning/shortfall.h"

#include <algorithm>
#include <array>
#include <stdexcept>

#include "pruning/table_cells.h"

namespace winterfolio {

std::string ShortfallEffect::words(std::string_view matter) const {
  return "shortfall." + id + "." + std::string(matter);
}

std::span<const ShortfallEffect> shortfall_effects() {
  static const std::vector<ShortfallEffect> effects = [] {
    std::vector<ShortfallEffect> read;
    const CsvTable table = CsvTable::embedded("src/pruning/tables/shortfall_effects.csv");
    for (const CsvRow row : table) {
      ShortfallEffect effect;
      effect.id = row.text("id");
      if (row.text("species") != "any") effect.species = cell_list(row.text("species"), '|');
      effect.short_from = row.required_number("short_from");
      effect.short_below = row.required_number("short_below");
      effect.because = evidence_of(row);
      read.push_back(std::move(effect));
    }
    return read;
  }();
  return effects;
}

const ShortfallEffect& shortfall_effect(std::string_view species, double share_short) {
  const double share = std::clamp(share_short, 0.0, 1.0);
  const ShortfallEffect* best = nullptr;
  for (const ShortfallEffect& effect : shortfall_effects()) {
    if (share < effect.short_from || share >= effect.short_below) continue;
    const bool names_it =
        std::find(effect.species.begin(), effect.species.end(), species) != effect.species.end();
    if (!names_it && !effect.species.empty()) continue;
    if (!best || names_it) best = &effect;
  }
  if (!best) throw std::logic_error("no band for a shortfall");
  return *best;
}

namespace {

constexpr double kNothing = 0.0001;  ///< a share that the table's first band holds

/// What a tree needs, from the least to the most.
struct ToldNeed {
  ChillMeasure measure;
  double low;
  double high;
  bool decides;
};

bool is_counted(const WinterChill& chill, ChillMeasure measure) {
  return std::any_of(chill.measures.begin(), chill.measures.end(),
                     [&](const MeasuredChill& one) { return one.measure == measure; });
}

/// The need that decides; without one the best kind of figure that is told in a measure counted.
std::optional<ToldNeed> told_need(const PartVerdict& part, const WinterChill& chill) {
  if (const auto& need = part.part.deciding) {
    if (!need->low && !need->high) return std::nullopt;
    const double low = need->low.value_or(need->high.value_or(0.0));
    return ToldNeed{need->measure, low, need->high.value_or(low), true};
  }
  for (const NeedKind kind : {NeedKind::memory, NeedKind::set_range, NeedKind::species_range}) {
    std::optional<ToldNeed> told;
    for (const Need& need : part.part.needs) {
      const bool of_kind = need.kind == kind || (kind == NeedKind::memory && need.from_memory &&
                                                 need.kind == NeedKind::published);
      if (!of_kind || !need.measure || !need.low || !is_counted(chill, *need.measure)) continue;
      if (told && told->measure != *need.measure) continue;
      const double high = need.high.value_or(*need.low);
      told = told ? ToldNeed{told->measure, std::min(told->low, *need.low),
                             std::max(told->high, high), false}
                  : ToldNeed{*need.measure, *need.low, high, false};
    }
    if (told) return told;
  }
  return std::nullopt;
}

/// What the winter has given, or would have given by its end; nothing where that is not known.
std::optional<Range> received_by_end(const MeasuredChill& chill, const Today& today,
                                     const StillToCome* to_come) {
  if (chill.coverage() < kLeastCoverage || chill.gaps == GapRange::unknown) return std::nullopt;
  const double total = chill.total().amount();
  if (today.winter_over()) return chill.gaps == GapRange::known ? chill.range : Range{total, total};
  if (!to_come || to_come->paths.empty()) return std::nullopt;
  return Range{to_come->at_end.low, to_come->at_end.high};
}

double share_short(double need, double received) {
  return need <= 0.0 ? 0.0 : std::clamp((need - received) / need, 0.0, 1.0);
}

}  // namespace

std::string_view id_of(TreeShortfall::Standing standing) {
  constexpr std::array<std::string_view, 3> ids = {"ended", "expected", "look_for"};
  return ids.at(static_cast<std::size_t>(standing));
}

std::optional<ChillMeasure> shortfall_measure(const PartVerdict& part, const WinterChill& chill) {
  const auto need = told_need(part, chill);
  return need ? std::optional(need->measure) : std::nullopt;
}

std::optional<TreeShortfall> shortfall_of(std::string_view species, const PartVerdict& part,
                                          const WinterChill& chill, const StillToCome* to_come) {
  if (part.verdict.state == VerdictState::met) return std::nullopt;
  const auto need = told_need(part, chill);
  if (!need || !is_counted(chill, need->measure)) return std::nullopt;
  const auto received = received_by_end(chill.for_verdict(need->measure), chill.today, to_come);
  if (!received) return std::nullopt;
  TreeShortfall shortfall;
  shortfall.share = {share_short(need->low, received->high),
                     share_short(need->high, received->low)};
  if (shortfall.share.high < kNothing) return std::nullopt;
  if (!need->decides && shortfall.share.low < kNothing) return std::nullopt;
  shortfall.standing = !need->decides              ? TreeShortfall::Standing::look_for
                       : chill.today.winter_over() ? TreeShortfall::Standing::ended
                                                   : TreeShortfall::Standing::expected;
  shortfall.at_least = &shortfall_effect(species, shortfall.share.low);
  shortfall.at_most = &shortfall_effect(species, shortfall.share.high);
  return shortfall;
}

}  // namespace winterfolio
