// The orchard file's reading keys as options of the command line.
#pragma once

#include <optional>
#include <string>

#include "cli/command_line.h"
#include "readers/temperature/temperature_file.h"

namespace winterfolio {

/// The keys as reading options; nothing, with `fault` saying why, where one of them will not do.
std::optional<TemperatureOptions> options_of(const ReadingKeys& keys, std::string& fault);

}  // namespace winterfolio
