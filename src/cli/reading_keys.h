// The orchard file's reading keys as options of the command line.
#pragma once

#include <optional>

#include "base/diagnostic.h"
#include "cli/command_line.h"
#include "readers/temperature/temperature_file.h"

namespace winterfolio {

/// The keys as reading options. Every key that will not do is a fault; then nothing is returned.
std::optional<TemperatureOptions> options_of(const ReadingKeys& keys, Diagnostics& diagnostics);

}  // namespace winterfolio
