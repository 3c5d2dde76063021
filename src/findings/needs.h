// What cold a tree needs, after whom, and which of those figures may decide whether it got enough.
//
// Figures stay in their own measure and are never converted. The tree's own come first, then the
// keeper's own cultivar rows, then published rows of the cultivar; among equals portions, then Utah
// units, then chill hours. Figures from memory, from trials at constant temperature, and spans over
// a whole group or species are told but never decide.
#pragma once

#include <optional>
#include <span>
#include <string>
#include <string_view>
#include <vector>

#include "orchard/cultivars.h"
#include "orchard/orchard.h"

namespace winterfolio {

enum class NeedKind {
  tree,                  ///< the keeper's figure for this tree
  own_years,             ///< bracketed by how the tree leafed after past winters (own_evidence.h)
  own_cultivar,          ///< the keeper's figure for the cultivar
  published,             ///< the cultivar's own, read on a page
  memory,                ///< general knowledge, checked on no page
  set_range,             ///< span over a group of cultivars
  constant_temperature,  ///< hours in a cold room: comparable with no measure
  species_range,         ///< span over the whole species
};
std::string_view id_of(NeedKind kind);

/// One figure after one source.
struct Need {
  NeedKind kind;
  std::optional<ChillMeasure> measure;  ///< nothing: comparable with no measure
  std::optional<double>
      low;  ///< in the measure's units; one end may be missing where a source gives a bound
  std::optional<double> high;
  bool assumed = false;  ///< which chill hours are meant is our reading, not the source's statement
  bool from_memory = false;
  std::string source;  ///< the keeper's words, or a key of the cultivar sources; "memory"
  std::string note;    ///< the table's remark; may be empty

  bool may_decide() const;
};

/// What a verdict compares with: the hull of the figures that decide, all of one measure.
struct DecidingNeed {
  ChillMeasure measure;
  std::optional<double> low;
  std::optional<double> high;
  NeedKind kind;
  bool assumed = false;              ///< true if any of them is
  std::vector<std::string> sources;  ///< each once
};

/// One cultivar on a tree; a tree with several grafts has several.
struct PartNeeds {
  std::string cultivar;     ///< empty: unknown
  std::vector<Need> needs;  ///< every figure known, those that outrank others first
  std::optional<DecidingNeed> deciding;
};

/// One part for each graft, or one for the tree. A tree of another kind than the table's has one
/// part without needs.
std::vector<PartNeeds> needs_of(const Tree& tree, const Orchard& orchard);

/// The figures that published rows hold, all rows being of one cultivar.
std::vector<Need> published_needs(std::span<const CultivarRow* const> rows);

/// The figures that may decide, one for each measure, the measure that speaks first in front. Of
/// several kinds the highest counts alone.
std::vector<DecidingNeed> deciding_needs(const std::vector<Need>& needs);

/// The measures that the trees' figures use and that can be compared, most used first; for choosing
/// what to show.
std::vector<ChillMeasure> measures_in_use(const Orchard& orchard);

}  // namespace winterfolio
