// Ids of states and kinds that have no name elsewhere, for figures. Each is a word of the lists in
// templates/figures.schema.json.
#pragma once

#include <string_view>

#include "document/chart.h"
#include "pruning/labour.h"
#include "report/season_facts.h"

namespace winterfolio::figures {

std::string_view name(GapRange gaps);
std::string_view name(WinterDetail detail);
std::string_view name(TrendWord word);
std::string_view name(BracketUse use);
std::string_view name(Leafing leafing);
std::string_view name(StandsFor stands_for);
std::string_view name(DateKind kind);
std::string_view name(EdgeBasis basis);
std::string_view name(HeavyCuts::When when);
std::string_view name(TreeWork work);
std::string_view name(LabourWay way);
std::string_view name(BudPhase phase);
std::string_view name(HourOrigin origin);
std::string_view name(SourceMark mark);
std::string_view name(TemperatureUnits units);
std::string_view name(LengthUnits lengths);
std::string_view name(District pressure);
std::string_view name(HygienePreference preference);
std::string_view name(BloomOverlap::KnownBy known_by);

}  // namespace winterfolio::figures
