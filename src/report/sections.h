// The sections of a report: each a function from the facts of a winter to blocks. Templates call
// them by id; the list is in registry.cpp.
#pragma once

#include <string>
#include <vector>

#include "document/block.h"
#include "report/season_facts.h"

namespace winterfolio {

Blocks front_section(const SeasonFacts& facts);
Blocks guide_section(const SeasonFacts& facts);
Blocks hours_section(const SeasonFacts& facts);
Blocks years_section(const SeasonFacts& facts);
Blocks trees_section(const SeasonFacts& facts);
Blocks calendar_section(const SeasonFacts& facts);
Blocks frost_section(const SeasonFacts& facts);
Blocks explained_section(const SeasonFacts& facts);
Blocks cautions_section(const SeasonFacts& facts);
Blocks readings_section(const SeasonFacts& facts);
Blocks method_section(const SeasonFacts& facts);

/// What too little cold does to the trees that are short: a part of the section on frost and bloom.
Blocks shortfall_blocks(const SeasonFacts& facts);
/// What its note names by codes.
std::vector<std::string> shortfall_sources(const SeasonFacts& facts);

}  // namespace winterfolio
