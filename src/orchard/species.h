// The kinds of tree the program knows, each with the span of what its cultivars are published to
// need.
//
// A span covers early and late cultivars, mild and cold climates, and several ways of counting: it
// can set a scale and fill a table of what is known, never judge a single tree.
#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "orchard/orchard.h"

namespace winterfolio {

/// The id of trees the program does not know; they are mapped and walked to, and get no verdict.
inline constexpr std::string_view kOtherSpecies = "other";

/// A published span; one end may be missing where the source gives a bound only.
struct PublishedRange {
  std::optional<double> low;
  std::optional<double> high;
};

struct SpeciesRow {
  std::string id;
  std::string latin_name;
  std::optional<PublishedRange> chill_hours;     ///< [h, definitions mixed]
  std::optional<PublishedRange> chill_portions;  ///< [portions]
  std::optional<PublishedRange> heat;            ///< [growing degree hours, °C h, methods mixed]
  int usual_bloom_order = 0;                     ///< 1 = first, ties allowed
  SelfFertile self_fertile = SelfFertile::no;
  unsigned leaf_fall_month = 11;  ///< as north of the equator; see leaf_fall_month_at()
  std::vector<std::string> sources;
};

const std::vector<SpeciesRow>& species_table();

/// The species that `text` names by its id, capitals, blanks and hyphens aside ("Japanese plum");
/// nullptr if none.
const SpeciesRow* find_species(std::string_view text);

/// The ids in the table's order, without "other".
std::vector<std::string> species_ids();

/// 1 to 12, the month in which the kind usually drops its leaves on that side of the equator.
unsigned leaf_fall_month_at(const SpeciesRow& species, bool southern);

}  // namespace winterfolio
