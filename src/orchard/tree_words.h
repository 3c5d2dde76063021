// The closed lists a keeper chooses from when describing a tree: its form, the wood to see to,
// hazards, diseases.
#pragma once

#include <string_view>
#include <vector>

#include "orchard/names.h"

namespace winterfolio {

/// Shapes to which trees are trained: open_centre, central_leader, ... natural.
const std::vector<WordRow>& forms_table();

/// Wood that wants seeing to, in working order: dead, diseased, damaged, ... mummies.
const std::vector<WordRow>& see_to_table();

/// What makes work at a tree dangerous: wires, hollow_trunk, ... water.
const std::vector<WordRow>& hazards_table();

/// Diseases for which cuts and tool cleaning are known, and "unknown".
const std::vector<WordRow>& diseases_table();

}  // namespace winterfolio
