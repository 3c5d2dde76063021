// The built-in tables, to read and to check: each row with its source.
#pragma once

#include "cli/command_line.h"
#include "cli/outcome.h"

namespace winterfolio {

/// Without a table: the list of tables. With one: its rows, or those that hold a word.
Outcome run_reference(const ReferenceCommand& command);

}  // namespace winterfolio
