// Tables: columns as wide as their content asks within the room there is, numbers on their
// decimals, rules above, below the head and at the end, a half line of air every five rows.
#pragma once

#include "layout/slice.h"

namespace winterfolio {

Slices set_table(const Table& table, Room room, const Tools& tools);

}  // namespace winterfolio
