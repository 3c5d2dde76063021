// Reads tables whose rows are an id and the words for it; used by the tables of this room only.
#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "orchard/names.h"

namespace winterfolio {

/// The parts of a cell that a table separates by `mark`.
std::vector<std::string> cell_parts(std::string_view cell, char mark);

/// The embedded table src/orchard/tables/<name>.csv with columns id and words.
std::vector<WordRow> read_word_table(std::string_view name);

}  // namespace winterfolio
