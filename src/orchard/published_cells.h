// Reads cells that the species and the cultivars table share; used in this room only.
#pragma once

#include <optional>
#include <string>
#include <string_view>

#include "base/csv_table.h"
#include "orchard/species.h"

namespace winterfolio {

/// The columns <name>_low and <name>_high of a row; nothing where both are empty.
std::optional<PublishedRange> published_range(const CsvRow& row, const std::string& name);

/// yes, no or partial; nothing for an empty cell.
std::optional<SelfFertile> published_self_fertility(std::string_view cell);

}  // namespace winterfolio
