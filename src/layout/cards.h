// Cards: everything about one tree in one place, always in the same order, so that the eye learns
// it once. From the rule down: id and name, a quiet line of particulars with a thumbnail beside it,
// the verdict with its mark, then the body in small type. A card is never broken over pages.
#pragma once

#include "layout/blocks.h"

namespace winterfolio {

Slices set_cards(const Cards& cards, Room room, Setting& setting);

}  // namespace winterfolio
