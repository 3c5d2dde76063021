// The square that stands with a tree's state, wherever the word does.
#pragma once

#include "document/state.h"
#include "layout/tools.h"

namespace winterfolio {

MarkFill fill_of(MarkState state);

/// Draws the small square of a line of text whose baseline starts at `at`, as high as its letters.
void draw_state(Frame& frame, Point at, MarkState state, const Tools& tools);

}  // namespace winterfolio
