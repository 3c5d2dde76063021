// When a tree may be cut this winter, from which day to which, and why then.
//
// A window opens by the calendar, by leaf fall or by what the species' diseases ask, and closes by
// bud swell or bloom. Chill never opens one: no argument here knows it. Mild winters may never
// bring leaf fall or show buds in time, so every event has a day in the calendar to fall back on.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "pruning/window_rules.h"

namespace winterfolio {

/// What settled an end of a window.
enum class EdgeBasis {
  calendar,       ///< the rule names the day
  fallback,       ///< the rule's day, since the event is not known or, for an opening, comes later
  seen,           ///< the event, as the keeper saw it
  by_then,        ///< the event, since a later stage was seen
  estimated,      ///< the event, as worked out from temperatures
  winter_begins,  ///< the event came before the orchard's winter begins
};

struct WindowEdge {
  Date on{};
  EdgeBasis basis = EdgeBasis::calendar;
  PlantEvent event = PlantEvent::month_day;  ///< what the rule waits for
};

/// Cuts thicker than a wrist (about 5 cm) within a window.
struct HeavyCuts {
  enum class When {
    never,             ///< none in this window
    from,              ///< from the day `from` on
    always,            ///< in the whole window
    when_leaves_drop,  ///< leaves are still held: not before they drop or buds swell
  };
  When when = When::never;
  std::optional<Date> from;
};

/// A tree's pruning window. With season `none` there is no window and the dates mean nothing.
struct PruningWindow {
  WindowSeason season = WindowSeason::none;
  WindowEdge opens;
  WindowEdge closes;  ///< the last day, included
  HeavyCuts heavy_cuts;
  std::optional<Celsius> min_temperature;  ///< of the air while cutting; nothing: not limiting
  std::optional<RuleMark> min_temperature_mark;
  int dry_days_before = 0;
  int dry_days_after = 0;
  RuleMark dry_mark = RuleMark::estimate;
  int order_rank = 0;
  RuleMark dates_mark = RuleMark::estimate;
  Evidence because;
  std::string reason;  ///< id of the printed reason, "window.apple-wet.reason"

  bool exists() const { return season != WindowSeason::none; }
  /// Closes before it opens: no day to cut this winter, to be said.
  bool holds_no_day() const { return exists() && closes.on < opens.on; }
  bool holds(Date day) const { return exists() && opens.on <= day && day <= closes.on; }
  bool is_winter_work() const { return exists() && season != WindowSeason::dry_summer; }
  /// Whether a cut thicker than a wrist may be made on some day of the window.
  bool ever_allows_heavy_cuts() const;
};

/// The window of one tree in the winter that begins in `winter_year`.
///
/// state     the tree's on the day the winter begins (orchard/tree_dates.h, state_on)
/// dates     what was seen or worked out for this tree; empty fields fall back to the rule's days
/// returns   season `none` for trees of species "other", with the advice row as reason
/// source    tables/windows.csv, each row its own
PruningWindow window_for(const Tree& tree, TreeState state, const TreeDates& dates,
                         const Orchard& orchard, int winter_year);

/// A line of advice beside the windows.
struct Advice {
  std::string text;  ///< id of the words, "advice.leaves-held.text"
  Evidence because;
};

/// What may call for advice.
struct AdviceFacts {
  bool other_species = false;
  bool leaves_held = false;
  bool chill_met = false;
  bool dangerous_wood = false;  ///< dead, broken or hanging limbs that could fall
  bool freeze_coming = false;   ///< a hard freeze is forecast
};

/// The advice that these facts call for, in the order of the table.
std::vector<Advice> advice_for(const AdviceFacts& facts);

/// What decides who goes first through the winter.
struct PlaceInLine {
  Date closes{};
  int order_rank = 0;
  TreeState state = TreeState::bearing;
  bool diseased = false;
};

/// Whether `a` goes before `b`: the window that closes first, whatever the ranks; then the rank;
/// then mature before young; then healthy before diseased. A strict weak order, so that equal trees
/// keep the order they have.
bool goes_before(const PlaceInLine& a, const PlaceInLine& b);

}  // namespace winterfolio
