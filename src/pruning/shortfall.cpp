// Finds the band of a shortfall; a band that names the species outranks one for all.
#include "pruning/shortfall.h"

#include <algorithm>
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

}  // namespace winterfolio
