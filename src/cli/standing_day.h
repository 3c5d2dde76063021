// Which winter of an orchard is spoken of, and from which day: as --winter and --as-of have it.
#pragma once

#include <optional>

#include "base/diagnostic.h"
#include "cli/load.h"

namespace winterfolio {

/// The day spoken from and the winter, or a fault that says why there is none. Of a winter without
/// a single reading every word would be wrong: it would pass for the coldest or the mildest.
std::optional<Today> today_of(const LoadedOrchard& loaded, std::optional<int> winter,
                              std::optional<Date> as_of, Diagnostics& diagnostics);

}  // namespace winterfolio
