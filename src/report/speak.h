// How the pages name trees, temperatures, amounts of cold and states: one way each, so that a
// reader meets the same word for the same thing everywhere.
#pragma once

#include <string>
#include <vector>

#include "document/state.h"
#include "document/text.h"
#include "findings/verdict.h"
#include "orchard/orchard.h"

namespace winterfolio {

struct PlaceAmongWinters;  // report/reckoning.h

/// "apple"; of a tree of another kind what the keeper calls it.
Text species_text(const Tree& tree);
/// "Granny Smith"; the grafts of a tree with several; words for an unknown one.
Text cultivar_text(const Tree& tree);
/// "*A4* Granny Smith".
Text tree_text(const Tree& tree);
/// "A1, A5 and B2".
TextList tree_ids(const std::vector<const Tree*>& trees,
                  TextList::Joined joined = TextList::Joined::with_and);
/// "A1, A5, B2", or the first `most` of them "and others".
Text some_tree_ids(std::vector<const Tree*> trees, std::size_t most);

/// On the scale of the pages.
Number temperature(const Orchard& orchard, Celsius temperature, int decimals = 1);
/// One of the trade's lines (32, 45, 60 °F), as short as it can be told: "45°F", "7.2°C".
Number line_temperature(const Orchard& orchard, Celsius line);
/// "14 ft" or "4.2 m".
/// How much one temperature differs from another, as short as it can be told: "0.9°F", "20°C".
Number difference(const Orchard& orchard, CelsiusDelta by);
Number length(const Orchard& orchard, Metres length);

Text measure_text(ChillMeasure measure);
/// The same to begin a sentence with.
Text measure_title(ChillMeasure measure);
int decimals_of(ChillMeasure measure);
/// An amount without its measure's name.
Number amount(ChillMeasure measure, double amount);
NumberRange amount(ChillMeasure measure, const Range& range);
/// A requirement, in whole numbers where it has none behind the point.
Text need_text(const DecidingNeed& need);

MarkState mark_of(VerdictState state);

/// "Third mildest of thirteen winters so far".
Text place_text(const PlaceAmongWinters& place, bool winter_over);

/// The day of a source's reading, or several of them, as short words for a table.
Text winter_text(int began, bool southern);
WinterYears winter_years(int began, bool southern);

}  // namespace winterfolio
