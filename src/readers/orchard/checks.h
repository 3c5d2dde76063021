// What can only be checked once the whole file is read: names that refer to one another, dates that
// follow one another, things that stand twice. Fills in the defaults that depend on other keys.
#pragma once

#include "readers/orchard/draft.h"
#include "readers/orchard/reading.h"

namespace winterfolio {

void check_draft(Reading& reading, Draft& draft);

/// Faults of one tree's observation against the tree's own dates; `at` is the observation's day in
/// its file.
void check_observed_date(Reading& reading, const Tree& tree, const Observation& observation,
                         SourceSpan at);

}  // namespace winterfolio
