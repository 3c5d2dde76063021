// Every number behind an orchard's pages, as JSON or CSV. Keys and units are described in
// templates/figures.schema.json.
#pragma once

#include <string>

#include "cli/command_line.h"
#include "cli/outcome.h"
#include "report/figure_tree.h"

namespace winterfolio {

/// An orchard with a fault gives no figures: half of them would pass for the whole.
Outcome run_figures(const FiguresCommand& command);

/// The tree as JSON, a line a figure, short series on one line; what is not known is null.
std::string figures_as_json(const FigureNode& figures);

/// The same in long form: a row a figure, its path, its value and what it is counted in.
///
/// The path is the figure's JSON Pointer (RFC 6901) in the JSON form; what is not known is an empty
/// value; a list or map without members has no row.
std::string figures_as_csv(const FigureNode& figures);

}  // namespace winterfolio
