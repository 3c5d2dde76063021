// The days of a tree's year that open and close its pruning: leaf fall, first swelling of buds,
// bloom, harvest.
//
// What the keeper saw stands first; what the program works out from temperatures fills the rest and
// says so. The year of a winter runs from the last summer month to the next summer's end, so that a
// harvest belongs to the winter before it:
//
//   north   1 September 2026 ... winter 2026-27 ... 31 August 2027
//   south   1 March 2026 ....... winter 2026 ...... last day of February 2027
#pragma once

#include <optional>
#include <string_view>

#include "base/dates.h"
#include "orchard/orchard.h"

namespace winterfolio {

/// What a window waits for. month_day is the calendar alone.
enum class PlantEvent {
  month_day,
  leaf_fall,       ///< most leaves down
  leaf_fall_half,  ///< half of them down
  first_freeze,    ///< first reading at or below 0 °C
  bud_swell,       ///< first swelling, BBCH 51 to 52
  first_bloom,     ///< first open flowers, BBCH 60
  petal_fall,      ///< BBCH 69
  harvest,
  leaves_held,  ///< still on at midwinter; opens advice, never a window
};
std::string_view id_of(PlantEvent event);
/// Nothing for a name that is none of them.
std::optional<PlantEvent> plant_event_named(std::string_view id);

enum class DateKind {
  seen,       ///< by the keeper, on that day
  by_then,    ///< a later stage was seen that day, so it has happened by then
  estimated,  ///< worked out from temperatures
};

struct EventDate {
  Date on{};
  DateKind kind = DateKind::seen;
  auto operator<=>(const EventDate&) const = default;
};

/// The events of one tree in the year of one winter; nothing where neither seen nor worked out.
struct TreeDates {
  std::optional<EventDate> leaf_fall;
  std::optional<EventDate> leaf_fall_half;
  std::optional<EventDate> first_freeze;
  std::optional<EventDate> bud_swell;
  std::optional<EventDate> first_bloom;
  std::optional<EventDate> petal_fall;
  std::optional<EventDate> harvest;
  std::optional<Date>
      leaves_held;  ///< last day they were seen still on, with no leaf fall seen after it

  /// The date of an event; nothing for month_day.
  std::optional<EventDate> of(PlantEvent event) const;
};

/// The year of one winter in one orchard, and how the calendar of the rules falls in it.
class RuleYear {
 public:
  /// `winter_year` names the winter by the year in which it begins, as everywhere.
  RuleYear(const Orchard& orchard, int winter_year);

  Date first() const;
  Date last() const;
  Date winter_begins() const { return winter_begins_; }
  /// The day of this year that a rule means by a day written for the north. South of the equator it
  /// falls six months later in the calendar; the last day of a month stays the last day, and 02-29
  /// is the last day of February.
  Date day(MonthDay north) const;
  bool holds(Date date) const { return first() <= date && date <= last(); }

 private:
  bool southern_;
  int first_year_;
  Date winter_begins_;
};

/// What the keeper's notes say of one tree's year up to `as_of`, that day included; later notes are
/// not yet known.
///
/// A stage that was not noted counts as passed on the day a later one was seen. Buds and bloom seen
/// before December (south: June) are out of season and belong to no spring; notes without a day are
/// left out. Nothing is estimated here: findings fill that in.
TreeDates observed_dates(const Tree& tree, const Orchard& orchard, int winter_year, Date as_of);

/// What was seen, and for the rest what was worked out. A date worked out never stands before a
/// stage that was seen to come earlier in the year, and one that lies before a `by_then` narrows
/// it.
///
/// Requires: `worked_out` holds dates of the same tree and winter; their kind becomes `estimated`.
TreeDates with_estimates(TreeDates seen, const TreeDates& worked_out);

}  // namespace winterfolio
