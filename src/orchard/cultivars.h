// What is published of single cultivars: the winter cold each needs, the warmth to bloom, its bloom
// group and pollen.
//
// One row is one cultivar after one source. Rows of a cultivar that disagree are shown side by
// side, never averaged, and no measure is turned into another. Some rows cannot decide anything
// about a tree; mark and from_memory say which.
#pragma once

#include <optional>
#include <span>
#include <string>
#include <string_view>
#include <vector>

#include "base/units.h"
#include "orchard/species.h"

namespace winterfolio {

/// What kind of figure a row holds. Only `seen` rows may decide a verdict.
enum class CultivarMark {
  seen,                  ///< the cultivar's own figure, read on a page
  memory,                ///< general knowledge, checked on no page
  set_range,             ///< the span over a group of cultivars, not this one's own
  constant_temperature,  ///< hours in a cold room, not comparable with hours outdoors
};

struct CultivarRow {
  std::string species;   ///< id of the species table
  std::string cultivar;  ///< as the table writes it
  std::optional<PublishedRange> chill_hours;
  std::string hours_definition;  ///< the source's words
  std::optional<ChillMeasure>
      hours_measure;           ///< which of our measures those hours are; nothing: none of them
  bool hours_assumed = false;  ///< the definition is our reading, not the source's statement
  std::optional<PublishedRange> portions;
  std::optional<PublishedRange> utah;
  std::optional<PublishedRange> heat;  ///< [growing degree hours, °C h]
  std::string bloom_group;             ///< very_early, early, mid, late, very_late; empty: not said
  std::optional<SelfFertile> self_fertile;
  std::string note;
  std::string source;  ///< key of the sources table, _SET taken off; "memory"
  CultivarMark mark = CultivarMark::seen;
  bool from_memory = false;  ///< also true for spans that are themselves remembered
};

/// All rows, in the order of the table: by species, then by cultivar.
const std::vector<CultivarRow>& cultivars_table();

/// The rows of one cultivar; empty if the table has none. Names as in same_name(); `species` is an
/// id.
std::vector<const CultivarRow*> find_cultivar(std::string_view species, std::string_view name);

/// Every cultivar name of a species, once each, in the table's order.
std::vector<std::string> cultivar_names(std::string_view species);

struct CultivarSource {
  std::string key;
  std::string reference;
};

const std::vector<CultivarSource>& cultivar_sources_table();

/// The publication behind a row's source key; nullptr for "memory".
const CultivarSource* find_cultivar_source(std::string_view key);

}  // namespace winterfolio
