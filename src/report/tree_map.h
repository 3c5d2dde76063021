// Where the trees stand, as the charts want it.
#pragma once

#include <optional>

#include "document/chart.h"
#include "report/season_facts.h"

namespace winterfolio {

/// The map of the orchard; nothing where no tree has a place. `highlighted` stands out, and makes
/// it a thumbnail.
std::optional<OrchardMap> orchard_map(const SeasonFacts& facts, const Tree* highlighted = nullptr);

}  // namespace winterfolio
