// One tree's winter as spans of days and short sentences: what cards and the season calendar both
// show.
#pragma once

#include <optional>
#include <vector>

#include "document/chart.h"
#include "report/season_facts.h"

namespace winterfolio {

/// The days that strips and the calendar cover: from the winter's first month to ten weeks after
/// its end.
DaySpan season_days(const SeasonFacts& facts);

/// What the buds are doing as far as it is known: rest, cold likely met, cold met.
std::vector<PhaseSpan> bud_phases(const SeasonFacts& facts, const TreeSeason& tree);

/// The pruning window within the days shown; nothing for summer work or none at all.
std::optional<DaySpan> pruning_span(const SeasonFacts& facts, const TreeSeason& tree);

/// Days on which the tree was pruned, and the first coming workday that could take it.
std::vector<WorkMark> work_marks(const SeasonFacts& facts, const TreeSeason& tree);

/// When it is cut, in a word or two: "done", "13 Feb", "summer".
Text when_pruned(const SeasonFacts& facts, const TreeSeason& tree);

/// The verdict as a line: "*Short by 18–21 so far;* enough in 1 of 12 winters".
Text verdict_line(const SeasonFacts& facts, const TreeSeason& tree);

/// The keeper's note of how the tree leafed in the spring after this winter, an uneven leafing
/// before an even one; nullptr where nothing is noted yet.
const Observation* leafing_noted(const SeasonFacts& facts, const TreeSeason& tree);

/// How likely its need is still to be met, or when: "enough in 5–8 of 12 winters"; empty where the
/// winter is over or no past winter tells.
Text likely_text(const SeasonFacts& facts, const TreeSeason& tree);

/// The trees that have a verdict, the farthest from their need first, then those of which nothing
/// is known, then met.
std::vector<const TreeSeason*> from_worst_to_best(const SeasonFacts& facts);

}  // namespace winterfolio
