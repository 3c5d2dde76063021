// Prints an orchard's reports as PDF files.
#pragma once

#include "cli/command_line.h"
#include "cli/outcome.h"

namespace winterfolio {

/// Each orchard stands alone: the good ones are printed, the status says whether any failed.
/// Nothing is written for an orchard with a fault, and two reports that would have the same name
/// stop everything before the first is written.
Outcome run_print(const PrintCommand& command);

}  // namespace winterfolio
