// What the pages count up from the facts of a winter: how many hours were cold, how many days warm,
// what each week brought, where this winter stands among the others.
#pragma once

#include <map>
#include <optional>
#include <vector>

#include "document/chart.h"
#include "report/season_facts.h"

namespace winterfolio {

/// The days that are drawn: from the winter's first to the last reading's.
DaySpan days_so_far(const SeasonFacts& facts);

/// How many trees stand in each state, those that have a verdict; states without a tree left out.
std::map<VerdictState, long> trees_by_state(const SeasonFacts& facts);

/// How many kinds of trees there are.
long kinds_of_trees(const SeasonFacts& facts);

/// How many trees are judged by another measure than this one.
long judged_by_another(const SeasonFacts& facts, ChillMeasure measure);

/// How many trees are judged by the thermometer of this block.
long trees_judged_at(const SeasonFacts& facts, const PlaceSeason& place);

/// How many trees there are for each kind of work; and how many of the crew's have not been cut and
/// are still in their time, or before it.
struct WorkToDo {
  std::map<TreeWork, long> trees;
  long still_to_cut = 0;
};
WorkToDo work_to_do(const SeasonFacts& facts);

/// Where this winter stands among the past ones, counted from the end that is nearer.
struct PlaceAmongWinters {
  bool from_coldest = true;
  int best = 0;   ///< 1: the coldest (mildest) of all
  int worst = 0;  ///< the same, unless missing hours leave it open
  int all = 0;    ///< winters, this one included
};
/// Nothing where fewer than three can be compared, or where missing hours leave no place to name.
std::optional<PlaceAmongWinters> place_among_winters(const YearsFinding& years);

/// Hours at or below 45 °F so far.
struct ColdHours {
  long known = 0;
  long cold = 0;
  long cold_before_middle = 0;
  LocalHour middle;  ///< half of the hours so far lie before it
};
ColdHours cold_hours(const SeasonFacts& facts);

/// Each day's extremes; nothing for days without a reading. All four are as long as days_so_far().
struct DaysOfWinter {
  Date first;
  std::vector<std::optional<double>> low;   ///< [°C]
  std::vector<std::optional<double>> high;  ///< the highest hourly mean [°C]
  long warm_days = 0;                       ///< with an hour above 60 °F
  std::vector<double> usual_low;  ///< the average day of past winters [°C]; empty under three
  std::vector<double> usual_high;
};
DaysOfWinter days_of_winter(const SeasonFacts& facts);

/// Sunset and the sunrise after it, for each of days_so_far(), in hours after the day's noon; empty
/// where the place is not known, or where there is a day without one.
struct SunTimes {
  std::vector<double> sunset;
  std::vector<double> sunrise;
};
SunTimes sun_times(const SeasonFacts& facts);

/// What one whole week brought.
struct WeekGain {
  DaySpan days;
  Range gain;                    ///< high: had missing hours held the most they may have
  std::optional<double> median;  ///< of past winters
};
std::vector<WeekGain> weekly_gains(const SeasonFacts& facts, const ShownMeasure& shown);

/// The coldest of the forecast's nights that come near what the buds of any tree can bear; nullptr
/// where none does.
const TreeNight* coldest_coming(const SeasonFacts& facts);

/// Whether most of this winter's known hours were below freezing: chill is hardly counted there,
/// and little of it is no want of cold.
bool mostly_frozen(const SeasonFacts& facts);

/// Of a tree of several grafts: how many there are, and of how many nobody can tell.
struct GraftsJudged {
  long all = 0;
  long not_known = 0;
};
GraftsJudged grafts_judged(const TreeSeason& tree);

/// Weeks that brought less than the median of other winters: for certain, and perhaps.
struct WeeksCompared {
  long all = 0;
  long under = 0;
  long perhaps_under = 0;
};
WeeksCompared weeks_compared(const std::vector<WeekGain>& weeks);

/// The trees that something was seen on, or worked out of.
struct SpringSigns {
  using Trees = std::vector<const Tree*>;
  Trees buds_moved;   ///< a stage of its buds is known
  Trees nights_near;  ///< a night came within the watch margin of the stage's figure, none nearer
  Trees nights_at;    ///< a night reached the 10 % figure
  Trees coming;       ///< a night of the forecast comes within that margin, or reaches the figure
  Trees damage_seen;
  Trees crop_perhaps;
  Trees crop_unlikely;
  Trees look_again;
  Trees leaves_held;
  Trees bloom_out_of_season;
  Trees freezes_in_leaf;
  Trees dormant_watch;
  Trees dormant_likely;
  Trees swings;
};
SpringSigns spring_signs(const SeasonFacts& facts);

/// The last hour with a reading by the day spoken from. Where that day lies after the readings, no
/// page may claim that they reach it.
LocalHour last_reading(const SeasonFacts& facts);

/// When frost was over in past springs, as days of the spring at hand.
struct LastFrostDays {
  long springs = 0;
  Date first{};
  Date middle{};
  Date last{};
};
/// Nothing under three springs.
std::optional<LastFrostDays> last_frost_days(const SeasonFacts& facts);

/// A night's lowest reading as a tree's place has it: with the block's frost offset, unless the
/// block has a thermometer of its own.
std::optional<Celsius> at_the_tree(const SeasonFacts& facts, const TreeSeason& tree,
                                   const std::optional<NightLow>& night);

/// The coldest of the frost nights; nullptr if there was none.
const NightLow* coldest_night(const SeasonFacts& facts);

/// What is likely day by day from today to the winter's end; empty under three past winters.
struct DailyForecast {
  Date first;
  std::vector<double> low, middle, high;
};
DailyForecast daily_forecast(const StillToCome& to_come);

}  // namespace winterfolio
