// Every fault and doubt in the inputs, and how much data there is. Writes nothing.
#pragma once

#include "cli/command_line.h"
#include "cli/outcome.h"

namespace winterfolio {

Outcome run_check(const CheckCommand& command);

}  // namespace winterfolio
