// The published rules on when each kind of tree may be cut, and which of them speaks for a tree.
//
// A rule names a species or any, a state or any, and may hold only where a disease is about. The
// one that names most wins: species 4, state 2, district 1. The table is made so that two never
// tie.
#pragma once

#include <optional>
#include <span>
#include <string>
#include <string_view>
#include <vector>

#include "base/dates.h"
#include "base/units.h"
#include "orchard/orchard.h"
#include "pruning/event_dates.h"
#include "pruning/evidence.h"

namespace winterfolio {

enum class WindowSeason {
  none,         ///< no window is kept for the tree
  winter,       ///< from leaf fall on
  late_winter,  ///< after the worst cold, toward bud swell
  dry_summer,   ///< not winter work at all
};
std::string_view id_of(WindowSeason season);
std::string_view id_of(TreeState state);  ///< "planted", "formative", "bearing", "neglected"

/// One condition of a rule: any of the keys is yes (unknown counts as yes), or the one key is no.
struct DistrictClause {
  std::vector<District DistrictPressures::*> keys;
  bool yes = true;
  bool holds(const DistrictPressures& district) const;
};

/// When cuts thicker than a wrist (about 5 cm) may be made within a window.
enum class HeavyCutRule { none, from_day, allowed };

struct WindowRule {
  std::string id;
  std::string species;  ///< "any" for all
  std::string state;    ///< "any" for all
  std::vector<DistrictClause> when;
  WindowSeason season = WindowSeason::none;
  PlantEvent opens_event = PlantEvent::month_day;
  int opens_offset_days = 0;
  MonthDay opens_fallback;
  PlantEvent closes_event = PlantEvent::month_day;
  int closes_offset_days = 0;
  MonthDay closes_fallback;
  RuleMark dates_mark = RuleMark::estimate;
  int order_rank = 0;  ///< 1 = early in the winter; 40 and more = not winter work
  int dry_days_before = 0;
  int dry_days_after = 0;
  RuleMark dry_mark = RuleMark::estimate;
  std::optional<Celsius> min_temperature;  ///< below it, wait; nothing: not limiting
  std::optional<RuleMark> min_temperature_mark;
  HeavyCutRule heavy_cuts = HeavyCutRule::none;
  MonthDay heavy_cuts_from;
  Evidence because;  ///< of season and reason

  bool matches(std::string_view tree_species, std::string_view tree_state,
               const DistrictPressures& district) const;
  int score() const;  ///< 0 to 7
};

/// Every rule that is a window, in the order of the table.
std::span<const WindowRule> window_rules();

/// The rule for a tree of a species in a state; nullptr for the species "other", which has none.
const WindowRule* window_rule_for(std::string_view species, TreeState state,
                                  const DistrictPressures& district);

/// A line of advice that is no window. Its words stand under advice.<id>.
struct AdviceRule {
  std::string id;  ///< "leaves-held", "chill-met", "dangerous-wood", "freeze-coming", "other"
  Evidence because;
};
std::span<const AdviceRule> advice_rules();

}  // namespace winterfolio
