// What a figure shows, by meaning: winters and their cold, nights and their hours, trees and their
// season. No lengths, no colours: charts/ gives every kind its shape. Amounts are in the measure
// and temperatures on the scale that the page speaks; every word comes as a Text. Anything optional
// or empty is simply not drawn.
#pragma once

#include <optional>
#include <string>
#include <variant>
#include <vector>

#include "base/dates.h"
#include "base/units.h"
#include "document/state.h"
#include "document/text.h"

namespace winterfolio {

/// From one day to another, both meant.
struct DaySpan {
  Date from{};
  Date to{};
  bool operator==(const DaySpan&) const = default;
};

/// An amount that may lie anywhere between its ends.
struct Spread {
  double low = 0.0;
  double high = 0.0;
  bool operator==(const Spread&) const = default;
};

/// One value a day, from `first` on.
struct DailyCurve {
  Date first{};
  std::vector<double> values;
};

/// The scale on which a chart of temperatures has its round numbers.
enum class DegreeScale { celsius, fahrenheit };

/// Hours without a reading, and what is said of them: one line of words each.
struct ReadingGap {
  LocalHour from{};
  LocalHour until{};  ///< the first hour that has a reading again
  std::vector<Text> label;
};

// ---- cold through the winter --------------------------------------------------------------------

/// Cold as it adds up: this winter among the past ones, what is likely to come, and what each
/// cultivar needs.
struct ChillBuildUp {
  struct Point {
    LocalHour at{};
    double amount = 0.0;
  };
  /// The last reading: what is recorded by then, and what missing hours may have added.
  struct LastReading {
    Point recorded;
    std::optional<Spread> with_gaps;
    std::vector<Text> label;  ///< lines
  };
  struct Extreme {
    DailyCurve curve;
    Text label;  ///< its winter: "2022–23, coldest"
  };
  /// What is likely between the last reading and the end, day by day; the three have the same first
  /// day and length.
  struct Forecast {
    Date first{};
    std::vector<double> low, middle, high;
  };
  /// What one cultivar (or several with the same need) asks for; a line of the table beside the
  /// plot.
  struct Need {
    Spread amount;
    MarkState state = MarkState::not_known;
    Text name;    ///< cultivar
    Text figure;  ///< the need in figures
    Text when;    ///< when it was or may be met
    std::optional<Point> met;
    bool from_memory = false;  ///< drawn with a dashed line: it does not decide
  };
  DaySpan days;
  std::vector<Point> this_winter;      ///< in order of time
  std::vector<Point> as_past_winters;  ///< the same winter counted as the past ones are, where that
                                       ///< differs; empty else
  std::vector<ReadingGap> gaps;
  std::optional<LastReading> last;
  std::optional<DailyCurve> middle_low,
      middle_high;  ///< between which the middle of past winters lies
  std::optional<DailyCurve> median;
  std::vector<Extreme> extremes;
  std::optional<Forecast> forecast;
  std::vector<Need> needs;
  Text needs_head, when_head;
  Text note;  ///< under the table of needs
};

/// Winters side by side, most cold first; the one at hand stands out.
struct RankedWinters {
  struct Row {
    Text name;
    Spread amount;  ///< a hatched end where missing hours may add
    Text figure;
    bool at_hand = false;
  };
  std::vector<Row> rows;
};

/// What each week brought, beside the median of past winters.
struct WeeklyGain {
  struct Week {
    DaySpan days;
    Spread gain;
    std::optional<double> median;
    Text figure;
  };
  DaySpan days;
  std::vector<Week> weeks;
};

// ---- temperatures -------------------------------------------------------------------------------

/// Every hour as a cell; a column runs from one noon to the next, so that a night is one body.
struct HourRaster {
  /// The line between two classes of temperature.
  enum class Line { none, freezing, chill, warm };
  struct Edge {
    Celsius at{0.0};
    Text label;
    Line line = Line::none;
  };
  DaySpan days;                               ///< nights, named by the day on whose noon they begin
  std::vector<std::optional<Celsius>> hours;  ///< from noon of the first day on, one an hour
  std::vector<Edge> edges;  ///< seven, rising; an hour on an edge belongs to the colder side
  std::vector<double> sunset, sunrise;  ///< of each night, in hours after its noon
  Text sunset_label, sunrise_label;
  Text colder, warmer;  ///< at the ends of the key
};

/// The lowest and highest temperature of each day against the lines that matter, and what happened
/// on them.
struct DailyRange {
  struct Day {
    Date date{};
    Celsius low{0.0};
    Celsius high{0.0};
  };
  struct Event {
    Date on{};
    Text label;
  };
  DaySpan days;
  DegreeScale scale = DegreeScale::celsius;
  std::vector<Day> values;
  std::optional<DailyCurve> usual_low, usual_high;  ///< the average day of past winters [°C]
  std::vector<ReadingGap> gaps;
  std::vector<Event> events;
  Text freezing_label, chill_label, warm_label;  ///< at the ends of the three lines
};

// ---- trees --------------------------------------------------------------------------------------

/// One tree's need against what it has had: the bar of its card.
struct NeedBar {
  double scale_end = 0.0;        ///< the same for all bars of a measure
  Spread has;                    ///< recorded, and with what missing hours may have added
  std::optional<Spread> utmost;  ///< the same had the thermometer been half a degree off as well
  std::optional<Spread> likely;  ///< by the end of the winter
  std::optional<Spread> need;
  bool need_from_memory = false;
  Text measure, need_label, has_label, likely_label;
  Text making;  ///< how it was counted, where that is not as the measure's other bars are; may be
                ///< empty
};

/// What buds are doing. In order, a season runs through them.
enum class BudPhase { resting, likely_met, met, swelling, bloom, bloom_estimated, no_date };

struct PhaseSpan {
  BudPhase phase = BudPhase::resting;
  DaySpan days;
};

/// A day of work on a tree.
struct WorkMark {
  Date on{};
  bool done = false;
};

/// One tree's season in three rows: buds, frost, work.
struct SeasonStrip {
  DaySpan days;
  std::vector<PhaseSpan> buds;
  std::vector<Date> frost_nights;
  std::optional<DaySpan> frost_possible;
  std::optional<DaySpan> pruning;
  std::vector<WorkMark> work;
  Text work_words;  ///< instead of a window: "in dry summer weather"
  std::optional<Date> last_reading;
  Text buds_label, frost_label, work_label;
};

/// The season of every tree, a row each.
struct SeasonCalendar {
  struct Row {
    std::string id;
    Text name;
    std::vector<PhaseSpan> buds;
    bool evergreen = false;  ///< a dotted line instead of phases
    std::optional<DaySpan> pruning;
    std::vector<WorkMark> work;
    Text when;  ///< the date in words
  };
  struct Group {
    Text species;
    std::vector<Row> rows;
  };
  /// A day that concerns every tree.
  struct Line {
    Date on{};
    Text label;
  };
  DaySpan days;
  std::vector<Group> groups;
  std::vector<Date> frost_nights;
  Text frost_label;
  std::vector<Line> workdays;     ///< named by their day
  Text workdays_label;            ///< one word after the last of them
  std::vector<Line> last_frosts;  ///< of past winters
  std::optional<Line> last_reading;
  Text left_head, right_head;
};

/// What the marks of strips and calendars mean.
struct SeasonKey {
  enum class Mark {
    resting,
    likely_met,
    met,
    swelling,
    bloom,
    bloom_estimated,
    no_date,
    frost,
    last_reading,
    pruning,
    done,
    planned,
    last_frost,
    thermometer,  ///< what half a degree in it may change
    sign,         ///< a sign among words, told by its label alone
  };
  struct Entry {
    Mark mark = Mark::resting;
    Text label;
  };
  std::vector<Entry> entries;
};

/// Where the trees stand.
struct OrchardMap {
  struct Tree {
    std::string id;
    double east = 0.0;   ///< in metres where measured; else the place in its row
    double north = 0.0;  ///< in metres where measured; else minus the row
    std::optional<MarkState> state;
    bool lost = false;
    bool highlighted = false;
  };
  /// Ground that is spoken of by name; outlined around its trees.
  struct Area {
    Text name;
    std::vector<std::size_t> trees;  ///< indices
  };
  struct ScaleBar {
    double metres = 0.0;
    Text label;
  };
  std::vector<Tree> trees;
  std::vector<Area> areas;
  bool thumbnail = false;  ///< places only, no words
  bool measured = false;   ///< true to scale, north upward
  std::optional<ScaleBar> scale_bar;
  Text north_label;
};

/// A square a tree, in groups by what can be said of its cold.
struct VerdictTally {
  struct Group {
    MarkState state = MarkState::met;
    Text label;
    std::vector<std::string> ids;
  };
  std::vector<Group> groups;
};

/// One chart of any kind.
struct Chart {
  using Kind =
      std::variant<ChillBuildUp, RankedWinters, WeeklyGain, HourRaster, DailyRange, NeedBar,
                   SeasonStrip, SeasonCalendar, SeasonKey, OrchardMap, VerdictTally>;
  Kind kind;
};

}  // namespace winterfolio
