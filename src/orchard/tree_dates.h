// What a tree is on a given day: not yet planted, young, bearing, or gone.
//
// Ages are counted in growing seasons gone by since planting, because that is what forms a tree:
// one set in February and one set the November before have both seen one summer by the next leaf
// fall. A season ends on 31 October, south of the equator on 30 April.
//
//   planted    no season gone by yet            one heading cut, nothing else
//   formative  from the first season on         the frame is chosen
//   bearing    from the kind's bearing age on   tables/bearing_ages.csv: fig 2 ... pecan 7
//   neglected  only where the keeper says so
#pragma once

#include <vector>

#include "base/dates.h"
#include "orchard/orchard.h"

namespace winterfolio {

/// Growing seasons that have ended after `planted` and on or before `day`; never negative.
int growing_seasons_between(Date planted, Date day, bool southern);

/// After how many growing seasons a kind counts as bearing.
int bearing_age(std::string_view species);

/// The tree's state on a day: as written, else from `planted` and the kind's bearing age. A date
/// known to the month or year counts from its first day. A tree with neither counts as bearing: it
/// stands, and nobody knows it as young.
TreeState state_on(const Tree& tree, Date day, bool southern);

/// Whether the tree stands in the orchard on a day: planted by then and not lost. Dates known to
/// the month or year count from their first day; a tree without `planted` has always stood.
bool stands_on(const Tree& tree, Date day);

/// Whether the tree belongs on the map of the twelve months that end on `last_day`: it stands then,
/// or was lost in them.
bool on_map_of_year_to(const Tree& tree, Date last_day);

/// The trees that stand on a day, in the order of the file. Refers to the orchard, which must
/// outlive the result.
std::vector<const Tree*> trees_standing_on(const Orchard& orchard, Date day);

}  // namespace winterfolio
