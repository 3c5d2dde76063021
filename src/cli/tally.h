// The chill of each winter in bare temperature files, by every measure.
#pragma once

#include "cli/command_line.h"
#include "cli/outcome.h"

namespace winterfolio {

/// Every file on its own clock, or all of them joined to one series. A file that cannot be read is
/// a fault; the others are tallied all the same.
Outcome run_tally(const TallyCommand& command);

}  // namespace winterfolio
