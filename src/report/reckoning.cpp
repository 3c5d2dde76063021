// Counts up hours, days, weeks and winters.
#include "report/reckoning.h"

#include <algorithm>
#include <cmath>
#include <set>

#include "findings/statistics.h"
#include "report/tree_season.h"
#include "weather/solar.h"

namespace winterfolio {
namespace {

constexpr int kFewestToCompare = 3;  ///< winters, for a median or an average
constexpr int kSmooth = 7;           ///< days on either side of an average day

std::optional<HourReading> reading_at(const SeasonFacts& facts, LocalHour hour) {
  return hour < facts.today.counted_to() ? facts.record->hours.at(hour) : std::nullopt;
}

long cold_hours_in(const SeasonFacts& facts, LocalHour from, LocalHour to) {
  long n = 0;
  for (LocalHour hour = from; hour < to; hour = hour + 1) {
    const auto reading = facts.record->hours.at(hour);
    n += reading && reading->mean <= kChillLine + kLineSlack;
  }
  return n;
}

int number_of_days(const DaySpan& span) { return days_between(span.from, span.to) + 1; }

/// The mean of each day's extremes over past winters, smoothed over a week on either side.
std::vector<double> usual(const SeasonFacts& facts, bool low) {
  const std::vector<Winter> winters =
      winters_on_record(*facts.record, facts.today.window, facts.today.winter.year);
  if (winters.size() < kFewestToCompare) return {};
  const HourlySeries& hours =
      facts.record->by_extremes.empty() ? facts.record->hours : facts.record->by_extremes;
  const int days = number_of_days(days_so_far(facts));
  std::vector<double> sums(static_cast<std::size_t>(days), 0.0);
  std::vector<int> counts(static_cast<std::size_t>(days), 0);
  for (const Winter& winter : winters) {
    for (int day = 0; day < days; ++day) {
      std::optional<Celsius> extreme;
      for (int hour = 0; hour < 24; ++hour) {
        const auto reading = hours.at(winter.begin() + day * 24 + hour);
        if (!reading) continue;
        const Celsius value = low ? reading->lowest : reading->mean;
        if (!extreme || (low ? value < *extreme : value > *extreme)) extreme = value;
      }
      if (!extreme) continue;
      sums[static_cast<std::size_t>(day)] += extreme->degrees();
      ++counts[static_cast<std::size_t>(day)];
    }
  }
  std::vector<double> smooth;
  for (int day = 0; day < days; ++day) {
    double sum = 0.0;
    int n = 0;
    for (int near = std::max(0, day - kSmooth); near <= std::min(days - 1, day + kSmooth); ++near) {
      sum += sums[static_cast<std::size_t>(near)];
      n += counts[static_cast<std::size_t>(near)];
    }
    if (n == 0) return {};
    smooth.push_back(sum / n);
  }
  return smooth;
}

/// The total at the end of a day, nought before the first, the last one after the end.
double total_at(const std::vector<double>& totals, int day) {
  if (day < 0 || totals.empty()) return 0.0;
  return totals[std::min(static_cast<std::size_t>(day), totals.size() - 1)];
}

double most_at(const std::vector<Range>& ranges, int day) {
  if (day < 0 || ranges.empty()) return 0.0;
  return ranges[std::min(static_cast<std::size_t>(day), ranges.size() - 1)].high;
}

std::optional<double> median_gain(const PastCurves& past, int first, int last) {
  if (past.winters.size() < kFewestToCompare) return std::nullopt;
  std::vector<double> gains;
  for (const PastCurve& winter : past.winters)
    gains.push_back(total_at(winter.by_day, last) - total_at(winter.by_day, first - 1));
  return quantile(gains, 0.5);
}

bool hours_missing_in(const SeasonFacts& facts, const DaySpan& days) {
  const LocalHour from = LocalHour::at(days.from, 0);
  const LocalHour to = std::min(LocalHour::at(days.to, 24), facts.today.counted_to());
  return facts.record->hours.missing_in(from, to) > 0;
}

Range gain_of(const SeasonFacts& facts, const MeasuredChill& chill, const DaySpan& days, int first,
              int last) {
  const double gain = total_at(chill.by_day, last) - total_at(chill.by_day, first - 1);
  if (chill.gaps != GapRange::known || !hours_missing_in(facts, days)) return {gain, gain};
  if (chill.by_day_range.empty()) return {gain, gain};
  return {gain, std::max(gain, most_at(chill.by_day_range, last) -
                                   most_at(chill.by_day_range, first - 1))};
}

}  // namespace

LocalHour last_reading(const SeasonFacts& facts) {
  const HourlySeries& hours = facts.record->hours;
  LocalHour hour = facts.today.now - 1;
  while (hour > hours.first() && !hours.at(hour)) hour = hour - 1;
  return hour;
}

DaySpan days_so_far(const SeasonFacts& facts) {
  const Date first = facts.today.winter.from;
  return {first, std::max(first, (facts.today.counted_to() - 1).date())};
}

std::map<VerdictState, long> trees_by_state(const SeasonFacts& facts) {
  std::map<VerdictState, long> states;
  for (const TreeSeason* tree : facts.resting()) ++states[tree->verdict.leading().verdict.state];
  return states;
}

long kinds_of_trees(const SeasonFacts& facts) {
  std::set<std::pair<std::string, std::string>> kinds;
  for (const TreeSeason& tree : facts.trees)
    kinds.emplace(tree.tree->species, tree.other_kind ? tree.tree->other : std::string());
  return static_cast<long>(kinds.size());
}

long judged_by_another(const SeasonFacts& facts, ChillMeasure measure) {
  long n = 0;
  for (const TreeSeason* tree : facts.resting()) {
    const auto& need = tree->verdict.leading().verdict.need;
    n += need && need->measure != measure;
  }
  return n;
}

long trees_judged_at(const SeasonFacts& facts, const PlaceSeason& place) {
  return static_cast<long>(std::count_if(
      facts.trees.begin(), facts.trees.end(),
      [&](const TreeSeason& tree) { return facts.standing_of(*tree.tree).place == &place; }));
}

WorkToDo work_to_do(const SeasonFacts& facts) {
  WorkToDo work;
  for (const TreeSeason& tree : facts.trees) {
    ++work.trees[tree.plan.work];
    if (tree.plan.work != TreeWork::crew || tree.plan.window.closes.on < facts.today.as_of)
      continue;
    const std::vector<WorkMark> marks = work_marks(facts, tree);
    work.still_to_cut += marks.empty() || !marks.front().done;
  }
  return work;
}

std::optional<PlaceAmongWinters> place_among_winters(const YearsFinding& years) {
  PlaceAmongWinters place;
  place.all = years.compared + 1;
  if (years.rank_withheld || place.all < kFewestToCompare || !years.rank_at_best ||
      !years.rank_at_worst)
    return std::nullopt;
  const int coldest = *years.rank_at_best, mildest = *years.rank_at_worst;
  if (coldest == 1 && mildest == place.all) return std::nullopt;  // it may stand anywhere
  place.from_coldest = coldest + mildest <= place.all + 1;
  place.best = place.from_coldest ? coldest : place.all + 1 - mildest;
  place.worst = place.from_coldest ? mildest : place.all + 1 - coldest;
  return place;
}

ColdHours cold_hours(const SeasonFacts& facts) {
  const LocalHour from = facts.today.winter.begin();
  const LocalHour to = facts.today.counted_to();
  ColdHours hours;
  hours.known = facts.chill.counts.hours - facts.chill.counts.missing;
  hours.cold = cold_hours_in(facts, from, to);
  hours.middle = from + (to - from) / 2;
  hours.cold_before_middle = cold_hours_in(facts, from, hours.middle);
  return hours;
}

DaysOfWinter days_of_winter(const SeasonFacts& facts) {
  const DaySpan span = days_so_far(facts);
  DaysOfWinter daily;
  daily.first = span.from;
  for (Date date = span.from; date <= span.to; date = plus_days(date, 1)) {
    std::optional<Celsius> low;
    std::optional<Celsius> high;
    for (int hour = 0; hour < 24; ++hour) {
      const auto reading = reading_at(facts, LocalHour::at(date, hour));
      if (!reading) continue;
      low = low ? std::min(*low, reading->lowest) : reading->lowest;
      high = high ? std::max(*high, reading->mean) : reading->mean;
    }
    daily.low.push_back(low ? std::optional(low->degrees()) : std::nullopt);
    daily.high.push_back(high ? std::optional(high->degrees()) : std::nullopt);
    daily.warm_days += high && *high > kWarmLine + kLineSlack;
  }
  daily.usual_low = usual(facts, true);
  daily.usual_high = usual(facts, false);
  return daily;
}

SunTimes sun_times(const SeasonFacts& facts) {
  const Orchard& orchard = *facts.orchard;
  if (!orchard.longitude || !facts.utc_offset_minutes) return {};
  const DaySpan span = days_so_far(facts);
  // Within half a day of noon, whatever side of midnight UTC it falls on.
  const auto after_noon = [&](double utc_minutes) {
    const double hours = (utc_minutes + *facts.utc_offset_minutes) / 60.0 - 12.0;
    return std::remainder(hours - 12.0, 24.0) + 12.0;
  };
  SunTimes times;
  for (Date date = span.from; date <= span.to; date = plus_days(date, 1)) {
    const AlmanacSun sun = almanac_sun(orchard.latitude, day_of_year(date));
    if (sun.day_length <= 0.0 || sun.day_length >= 24.0) return {};
    const AlmanacSun next = almanac_sun(orchard.latitude, day_of_year(plus_days(date, 1)));
    times.sunset.push_back(after_noon(sun.sunset_utc(*orchard.longitude)));
    times.sunrise.push_back(after_noon(next.sunrise_utc(*orchard.longitude) + 24.0 * 60.0));
  }
  return times;
}

std::vector<WeekGain> weekly_gains(const SeasonFacts& facts, const ShownMeasure& shown) {
  // Beside other winters known by daily extremes this one is taken so, too.
  const WinterChill& winter = facts.reduced ? *facts.reduced : facts.chill;
  const MeasuredChill& chill = winter.of(shown.measure);
  DaySpan span = days_so_far(facts);
  span.to = std::min(span.to, plus_days(span.from, static_cast<int>(chill.by_day.size()) - 1));
  std::vector<WeekGain> weeks;
  for (int first = 0; first + 7 <= number_of_days(span); first += 7) {
    WeekGain week;
    week.days = {plus_days(span.from, first), plus_days(span.from, first + 6)};
    week.gain = gain_of(facts, chill, week.days, first, first + 6);
    week.median = median_gain(shown.past, first, first + 6);
    weeks.push_back(week);
  }
  return weeks;
}

const TreeNight* coldest_coming(const SeasonFacts& facts) {
  const TreeNight* coldest = nullptr;
  for (const TreeSeason& tree : facts.trees) {
    const auto& coming = tree.frost.coming;
    if (coming && (!coldest || coming->at_tree < coldest->at_tree)) coldest = &*coming;
  }
  return coldest;
}

bool mostly_frozen(const SeasonFacts& facts) {
  long known = 0, frozen = 0;
  for (LocalHour hour = facts.today.winter.begin(); hour < facts.today.counted_to();
       hour = hour + 1) {
    const auto reading = reading_at(facts, hour);
    known += reading.has_value();
    frozen += reading && reading->mean < kFreezing;
  }
  return 2 * frozen > known;
}

GraftsJudged grafts_judged(const TreeSeason& tree) {
  GraftsJudged grafts;
  for (const PartVerdict& part : tree.verdict.parts) {
    ++grafts.all;
    grafts.not_known += part.verdict.state == VerdictState::unknown;
  }
  return grafts;
}

WeeksCompared weeks_compared(const std::vector<WeekGain>& weeks) {
  WeeksCompared found;
  for (const WeekGain& week : weeks) {
    if (!week.median) continue;
    ++found.all;
    found.under += week.gain.high < *week.median;
    found.perhaps_under += week.gain.low < *week.median;
  }
  return found;
}

SpringSigns spring_signs(const SeasonFacts& facts) {
  SpringSigns signs;
  for (const TreeSeason* season : facts.resting()) {
    const auto note = [&](bool it_has, SpringSigns::Trees& trees) {
      if (it_has) trees.push_back(season->tree);
    };
    const TreeFrost& frost = season->frost;
    const TreeNight* worst = frost.worst();
    const auto crop = frost.crop ? frost.crop->word : CropLeft::Word::not_touched;
    note(frost.now.stage != nullptr && frost.now.seen, signs.buds_moved);
    // A night against a bloom that was only expected stands in the table and in no headline.
    const bool seen = worst && worst->stage.seen;
    note(seen && worst->level == FrostLevel::watch, signs.nights_near);
    note(seen && worst->level != FrostLevel::watch, signs.nights_at);
    note(frost.coming.has_value(), signs.coming);
    note(frost.damage_seen.has_value(), signs.damage_seen);
    note(crop == CropLeft::Word::perhaps, signs.crop_perhaps);
    note(crop == CropLeft::Word::unlikely, signs.crop_unlikely);
    note(frost.look_again, signs.look_again);
    note(season->odd.leaves_held.has_value(), signs.leaves_held);
    note(season->odd.bloom_out_of_season.has_value(), signs.bloom_out_of_season);
    note(!season->freezes_in_leaf.empty(), signs.freezes_in_leaf);
    note(season->dormant && !season->dormant->likely, signs.dormant_watch);
    note(season->dormant && season->dormant->likely, signs.dormant_likely);
    note(!season->swings.empty(), signs.swings);
  }
  return signs;
}

std::optional<LastFrostDays> last_frost_days(const SeasonFacts& facts) {
  std::vector<Date> days;
  for (const LastFrost& frost : facts.last_frosts.springs) days.push_back(frost.this_year);
  if (days.size() < kFewestToCompare) return std::nullopt;
  std::sort(days.begin(), days.end());
  return LastFrostDays{static_cast<long>(days.size()), days.front(), days[days.size() / 2],
                       days.back()};
}

std::optional<Celsius> at_the_tree(const SeasonFacts& facts, const TreeSeason& tree,
                                   const std::optional<NightLow>& night) {
  if (!night) return std::nullopt;
  const bool own_thermometer = facts.standing_of(*tree.tree).place != nullptr;
  const CelsiusDelta offset =
      own_thermometer ? CelsiusDelta(0.0) : frost_offset_of(*tree.tree, *facts.orchard);
  return at_tree(night->lowest, offset);
}

const NightLow* coldest_night(const SeasonFacts& facts) {
  const auto coldest =
      std::min_element(facts.frost_nights.begin(), facts.frost_nights.end(),
                       [](const auto& a, const auto& b) { return a.lowest < b.lowest; });
  return coldest == facts.frost_nights.end() ? nullptr : &*coldest;
}

DailyForecast daily_forecast(const StillToCome& to_come) {
  if (to_come.paths.size() < kFewestToCompare || to_come.paths.front().by_day.empty()) return {};
  DailyForecast forecast;
  forecast.first = to_come.first_day;
  for (std::size_t day = 0; day < to_come.paths.front().by_day.size(); ++day) {
    const Percentiles spread = to_come.spread_on(day);
    forecast.low.push_back(spread.low);
    forecast.middle.push_back(spread.middle);
    forecast.high.push_back(spread.high);
  }
  return forecast;
}

}  // namespace winterfolio
