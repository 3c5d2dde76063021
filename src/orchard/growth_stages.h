// Stages of growth by their BBCH codes, and the bud stages of frost tables that go with them.
#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace winterfolio {

struct GrowthStage {
  int code = 0;            ///< BBCH, 0 to 97
  std::string pome_fruit;  ///< in short words; empty: that scale does not use the code
  std::string stone_fruit;
  std::string status;  ///< whether the row was seen on a page or comes from memory
};

const std::vector<GrowthStage>& growth_stages_table();
const GrowthStage* find_growth_stage(int code);

/// One stage of a frost table and the codes it stands for; a working match, not a published one.
struct BudStage {
  std::string species;
  std::string stage;  ///< as frost tables name it: "tight cluster"
  int bbch_low = 0;
  std::optional<int> bbch_high;  ///< nothing: that code and all later ones
};

const std::vector<BudStage>& bud_stages_table();

/// The latest bud stage of `species` that has begun at a BBCH code; nullptr before the first, or
/// for other species.
const BudStage* bud_stage_at(std::string_view species, int bbch);

}  // namespace winterfolio
