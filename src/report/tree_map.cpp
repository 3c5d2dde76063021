// Measured places where every tree has one; else rows and places.
#include "report/tree_map.h"

#include <algorithm>
#include <cmath>

#include "report/speak.h"

namespace winterfolio {
namespace {

constexpr int kFewestTrees = 3;  ///< that a map tells anything of

bool has_place(const Tree& tree, bool measured) {
  return measured ? tree.measured_place.has_value() : tree.row_place.has_value();
}

OrchardMap::Tree mark_of_tree(const Tree& tree, bool measured) {
  OrchardMap::Tree mark;
  mark.id = tree.id;
  if (measured) {
    mark.east = tree.measured_place->east.metres();
    mark.north = tree.measured_place->north.metres();
  } else {
    mark.east = tree.row_place->place;
    mark.north = -tree.row_place->row;
  }
  return mark;
}

/// A round length of about a quarter of the map's width.
OrchardMap::ScaleBar scale_bar(const Orchard& orchard, double width_metres) {
  const bool feet = orchard.lengths == LengthUnits::feet;
  const double quarter = feet ? Metres(width_metres / 4).feet() : width_metres / 4;
  double step = std::pow(10.0, std::floor(std::log10(std::max(quarter, 1.0))));
  for (const double factor : {5.0, 2.0}) {
    if (step * factor <= quarter) {
      step *= factor;
      break;
    }
  }
  const Metres bar = feet ? Metres::from_feet(step) : Metres(step);
  return {bar.metres(), value_text(number(step, 0, feet ? "feet" : "metres"))};
}

std::vector<OrchardMap::Area> areas_of(const Orchard& orchard,
                                       const std::vector<const Tree*>& drawn) {
  std::vector<OrchardMap::Area> areas;
  for (const OrchardBlock& block : orchard.blocks) {
    OrchardMap::Area area;
    area.name = literal(block.name.empty() ? block.id : block.name);
    for (std::size_t i = 0; i < drawn.size(); ++i) {
      if (drawn[i]->block == block.id) area.trees.push_back(i);
    }
    if (!area.trees.empty()) areas.push_back(std::move(area));
  }
  return areas;
}

}  // namespace

std::optional<OrchardMap> orchard_map(const SeasonFacts& facts, const Tree* highlighted) {
  std::vector<const Tree*> standing;
  for (const TreeSeason& season : facts.trees) standing.push_back(season.tree);
  const auto placed = [&](bool measured) {
    return std::count_if(standing.begin(), standing.end(),
                         [&](const Tree* tree) { return has_place(*tree, measured); });
  };
  OrchardMap map;
  map.measured = placed(true) > 0 && placed(true) >= placed(false);
  if (placed(map.measured) < kFewestTrees) return std::nullopt;
  map.thumbnail = highlighted != nullptr;
  std::vector<const Tree*> drawn;
  for (const TreeSeason& season : facts.trees) {
    if (!has_place(*season.tree, map.measured)) continue;
    OrchardMap::Tree mark = mark_of_tree(*season.tree, map.measured);
    mark.highlighted = season.tree == highlighted;
    if (!map.thumbnail && !season.other_kind)
      mark.state = winterfolio::mark_of(season.verdict.leading().verdict.state);
    map.trees.push_back(mark);
    drawn.push_back(season.tree);
  }
  for (const Tree* tree : facts.lost) {
    if (map.thumbnail || !has_place(*tree, map.measured)) continue;
    OrchardMap::Tree mark = mark_of_tree(*tree, map.measured);
    mark.lost = true;
    map.trees.push_back(mark);
    drawn.push_back(tree);
  }
  if (map.thumbnail) return map;
  map.areas = areas_of(*facts.orchard, drawn);
  if (map.measured) {
    const auto [west, east] =
        std::minmax_element(map.trees.begin(), map.trees.end(),
                            [](const auto& a, const auto& b) { return a.east < b.east; });
    if (east->east > west->east) map.scale_bar = scale_bar(*facts.orchard, east->east - west->east);
    map.north_label = say("map.north");
  }
  return map;
}

}  // namespace winterfolio
