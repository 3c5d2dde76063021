// What can be seen of a tree and written down: leaves, buds, bloom, fruit, damage, work done, loss.
//
// A stage of growth carries its BBCH codes, so that a note "first bloom" can be laid beside frost
// tables and bloom forecasts; the words are those of the orchard file ("pink or white bud"), the
// ids have underscores.
#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "orchard/names.h"

namespace winterfolio {

enum class ObservationKind { leaf_fall, bud_stage, leafing, fruit, damage, work, loss };
enum class AmountKind { none, text, minutes };

struct ObservationRow {
  WordRow name;  ///< id and words
  ObservationKind kind;
  std::optional<int> bbch_low;  ///< first BBCH code it can mean; nothing where it is no stage
  std::optional<int> bbch_high;
  AmountKind amount;
};

const std::vector<ObservationRow>& observations_table();

/// The row that `text` names by its words or its id; nullptr if none does.
const ObservationRow* find_observation(std::string_view text);

/// The word of the file for every row, in the table's order.
std::vector<std::string> observation_words();

}  // namespace winterfolio
