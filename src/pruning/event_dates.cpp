// Lays the keeper's notes and the calendar of the rules into the year of a winter.
#include "pruning/event_dates.h"

#include <algorithm>
#include <array>
#include <utility>

#include "weather/season.h"

namespace winterfolio {
namespace {

constexpr std::array<std::pair<PlantEvent, std::string_view>, 9> kEvents = {{
    {PlantEvent::month_day, "month_day"},
    {PlantEvent::leaf_fall, "leaf_fall"},
    {PlantEvent::leaf_fall_half, "leaf_fall_half"},
    {PlantEvent::first_freeze, "first_freeze"},
    {PlantEvent::bud_swell, "bud_swell"},
    {PlantEvent::first_bloom, "first_bloom"},
    {PlantEvent::petal_fall, "petal_fall"},
    {PlantEvent::harvest, "harvest"},
    {PlantEvent::leaves_held, "leaves_held"},
}};

constexpr unsigned kFirstMonthNorth = 9;
constexpr unsigned kFirstMonthSouth = 3;
/// From here on buds and flowers are those of the coming spring.
constexpr MonthDay kSpringBudsFrom{12, 1};

unsigned six_months_on(unsigned month) { return (month + 5) % 12 + 1; }

bool is_last_of_its_month(MonthDay day) {
  return day.day == (day.month == 2 ? 29U : last_day_of(2001, day.month));
}

/// A bud stage as noted, and the events that have happened once it is seen, earliest first.
struct StageTells {
  std::string_view what;
  PlantEvent reached;  ///< the last event that it proves
  bool exact;          ///< the note is that event itself
};
constexpr std::array<StageTells, 7> kStages = {{
    {"bud_swell", PlantEvent::bud_swell, true},
    {"green_tip", PlantEvent::bud_swell, false},
    {"pink_or_white_bud", PlantEvent::bud_swell, false},
    {"first_bloom", PlantEvent::first_bloom, true},
    {"full_bloom", PlantEvent::first_bloom, false},
    {"petal_fall", PlantEvent::petal_fall, true},
    {"fruit_set", PlantEvent::petal_fall, false},
}};

void keep_earliest(std::optional<EventDate>& kept, EventDate found) {
  if (!kept || found < *kept) kept = found;
}

void note_stage(TreeDates& dates, const StageTells& stage, Date on) {
  const auto note = [&](std::optional<EventDate>& event, PlantEvent which) {
    if (which > stage.reached) return;
    const bool itself = stage.exact && which == stage.reached;
    keep_earliest(event, {on, itself ? DateKind::seen : DateKind::by_then});
  };
  note(dates.bud_swell, PlantEvent::bud_swell);
  note(dates.first_bloom, PlantEvent::first_bloom);
  note(dates.petal_fall, PlantEvent::petal_fall);
}

std::optional<Date> day_of(const PartialDate& on) {
  if (!on.month || !on.day) return std::nullopt;
  return date_of(on.year, *on.month, *on.day);
}

}  // namespace

std::string_view id_of(PlantEvent event) {
  return std::find_if(kEvents.begin(), kEvents.end(),
                      [&](const auto& e) { return e.first == event; })
      ->second;
}

std::optional<PlantEvent> plant_event_named(std::string_view id) {
  for (const auto& [event, name] : kEvents)
    if (name == id) return event;
  return std::nullopt;
}

std::optional<EventDate> TreeDates::of(PlantEvent event) const {
  switch (event) {
    case PlantEvent::leaf_fall:
      return leaf_fall;
    case PlantEvent::leaf_fall_half:
      return leaf_fall_half;
    case PlantEvent::first_freeze:
      return first_freeze;
    case PlantEvent::bud_swell:
      return bud_swell;
    case PlantEvent::first_bloom:
      return first_bloom;
    case PlantEvent::petal_fall:
      return petal_fall;
    case PlantEvent::harvest:
      return harvest;
    case PlantEvent::leaves_held:
      return leaves_held ? std::optional(EventDate{*leaves_held, DateKind::seen}) : std::nullopt;
    case PlantEvent::month_day:
      break;
  }
  return std::nullopt;
}

RuleYear::RuleYear(const Orchard& orchard, int winter_year) : southern_(orchard.southern()) {
  const MonthDay from = orchard.winter_from.value_or(default_winter_window(southern_).from);
  winter_begins_ = from.in_year(winter_year);
  // A keeper may let the winter begin after New Year; the trees' year has begun before it all the
  // same.
  const unsigned first_month = southern_ ? kFirstMonthSouth : kFirstMonthNorth;
  first_year_ = from.month >= first_month ? winter_year : winter_year - 1;
}

Date RuleYear::first() const {
  return date_of(first_year_, southern_ ? kFirstMonthSouth : kFirstMonthNorth, 1);
}

Date RuleYear::last() const {
  const unsigned month = (southern_ ? kFirstMonthSouth : kFirstMonthNorth) - 1;
  return date_of(first_year_ + 1, month, last_day_of(first_year_ + 1, month));
}

Date RuleYear::day(MonthDay north) const {
  MonthDay here = north;
  if (southern_) {
    here.month = six_months_on(north.month);
    if (is_last_of_its_month(north)) here.day = 31;  // in_year() takes it to the month's last day
  }
  const unsigned first_month = southern_ ? kFirstMonthSouth : kFirstMonthNorth;
  return here.in_year(here.month >= first_month ? first_year_ : first_year_ + 1);
}

TreeDates observed_dates(const Tree& tree, const Orchard& orchard, int winter_year, Date as_of) {
  const RuleYear year(orchard, winter_year);
  const Date spring_from = year.day(kSpringBudsFrom);
  TreeDates dates;
  std::optional<Date> last_held;
  for (const Observation& seen : tree.observed) {
    const std::optional<Date> on = day_of(seen.on);
    if (!on || *on > as_of || !year.holds(*on)) continue;
    if (seen.what == "leaves_fallen") keep_earliest(dates.leaf_fall, {*on, DateKind::seen});
    if (seen.what == "leaves_held") last_held = std::max(last_held.value_or(*on), *on);
    if (seen.what == "harvest" && *on >= spring_from)
      keep_earliest(dates.harvest, {*on, DateKind::seen});
    for (const StageTells& stage : kStages)
      if (stage.what == seen.what && *on >= spring_from) note_stage(dates, stage, *on);
  }
  const bool fallen_since = dates.leaf_fall && last_held && dates.leaf_fall->on >= *last_held;
  if (last_held && *last_held >= spring_from && !fallen_since) dates.leaves_held = last_held;
  return dates;
}

TreeDates with_estimates(TreeDates seen, const TreeDates& worked_out) {
  const auto fill = [](std::optional<EventDate>& event, std::optional<EventDate> guess,
                       const std::optional<EventDate>& earlier_stage) {
    if (!guess || (event && event->kind == DateKind::seen)) return;
    if (earlier_stage && earlier_stage->kind == DateKind::seen)
      guess->on = std::max(guess->on, earlier_stage->on);
    if (!event || guess->on < event->on) event = EventDate{guess->on, DateKind::estimated};
  };
  fill(seen.leaf_fall, worked_out.leaf_fall, std::nullopt);
  fill(seen.leaf_fall_half, worked_out.leaf_fall_half, std::nullopt);
  fill(seen.first_freeze, worked_out.first_freeze, std::nullopt);
  fill(seen.bud_swell, worked_out.bud_swell, std::nullopt);
  fill(seen.first_bloom, worked_out.first_bloom, seen.bud_swell);
  fill(seen.petal_fall, worked_out.petal_fall, seen.first_bloom);
  fill(seen.harvest, worked_out.harvest, std::nullopt);
  return seen;
}

}  // namespace winterfolio
