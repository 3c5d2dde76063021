// The branches of the figures, each a function from the facts of a winter to a map or a list. The
// list in figures.cpp names them in order.
#pragma once

#include <optional>
#include <string>

#include "report/figure_tree.h"
#include "report/season_facts.h"

namespace winterfolio::figures {

// The winter and its readings: figures.cpp.
FigureNode orchard(const SeasonFacts& facts);
FigureNode winter(const SeasonFacts& facts);
FigureNode lines(const SeasonFacts& facts);
FigureNode readings(const SeasonFacts& facts);
FigureNode days(const SeasonFacts& facts);
FigureNode frost(const SeasonFacts& facts);
FigureNode hourly(const SeasonFacts& facts);

// The cold: figures_cold.cpp.
FigureNode cold(const SeasonFacts& facts);
FigureNode weeks(const SeasonFacts& facts);
FigureNode places(const SeasonFacts& facts);

// The trees: figures_trees.cpp, and what is planned for them: figures_plan.cpp.
FigureNode verdicts(const SeasonFacts& facts);
FigureNode trees(const SeasonFacts& facts);
FigureNode lost_trees(const SeasonFacts& facts);
FigureNode work(const SeasonFacts& facts);
FigureNode tasks(const SeasonFacts& facts);
FigureNode cautions(const SeasonFacts& facts);
/// The publications that the sources of all other figures name.
FigureNode sources(const FigureNode& all);
/// Pruning of one tree.
FigureNode pruning(const SeasonFacts& facts, const TreeSeason& tree);

// What else winter and spring mean: figures_findings.cpp.
FigureNode spring(const SeasonFacts& facts);
FigureNode warm_hours(const SeasonFacts& facts);
FigureNode site(const SeasonFacts& facts);
/// Of one tree: frost, freezes, swings, and what lacking cold does.
FigureNode harm(const SeasonFacts& facts, const TreeSeason& tree);
/// Of one tree: its bloom beside that of others.
FigureNode pollination(const TreeSeason& tree);

// Shapes that many branches share.
FigureNode range(const std::optional<Range>& range, FigureUnit unit);
FigureNode period(const std::optional<Date>& from, const std::optional<Date>& to);
FigureNode source(const Evidence& because);
/// A map, or what stands in its place where it is not known.
template <class T, class Make>
FigureNode if_known(const std::optional<T>& value, Make make) {
  return value ? make(*value) : FigureNode::none();
}

}  // namespace winterfolio::figures
