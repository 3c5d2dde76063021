// Every number behind the pages under the key by which it is known: what `winterfolio figures`
// prints. Keys and units are described in templates/figures.schema.json; a test proves that the
// pages show no number that does not stand here.
//
// To add a figure, set it in the branch where it belongs (figure_branches.h lists them) and
// describe its key in the schema.
#pragma once

#include "report/figure_tree.h"
#include "report/season_facts.h"

namespace winterfolio {

/// A map of branches; its keys have the same order in every run.
///
/// hourly    also the hour-by-hour temperatures and the running total of every measure
/// units     temperatures are Celsius and lengths metres, whatever the pages print; amounts of cold
///           are in the units of their measure
FigureNode figures_of(const SeasonFacts& facts, bool hourly = false);

}  // namespace winterfolio
