// Runs past winters' remainders on from where this winter stands.
#include "findings/still_to_come.h"

#include <algorithm>
#include <cmath>

#include "findings/statistics.h"
#include "findings/years.h"
#include "models/chill/portions.h"

namespace winterfolio {
namespace {

constexpr double kSameAmount = 1e-9;
constexpr int kFewWinters = 10;
constexpr double kLow = 0.1;
constexpr double kHigh = 0.9;

bool known_enough(const HourlySeries& series, LocalHour from, LocalHour to) {
  return to <= from || series.missing_in(from, to) <= (1.0 - kLeastCoverageOfYears) * (to - from);
}

Percentiles spread_of(const std::vector<double>& values) {
  return {quantile(values, kLow), quantile(values, 0.5), quantile(values, kHigh)};
}

/// This winter run on to its end after one other winter's hours; nothing if that winter lacks too
/// many of them.
std::optional<WinterPath> path_after(const Winter& other, ChillMeasure measure,
                                     const WeatherRecord& record, const Winter& winter,
                                     LocalHour now, const ChillCurve& until_then) {
  const LocalHour from = same_place(now, winter, other);
  LocalHour to = same_place(winter.end(), winter, other);
  // A leap winter is a day longer; a record that ends with another winter need not have that day.
  if (to > other.end() && record.hours.missing_in(other.end(), to) > 0) to = other.end();
  if (!known_enough(record.hours, from, to)) return std::nullopt;
  WinterPath path;
  path.year = other.year;
  const ChillCurve rest =
      chill_curve(measure, KnownHours(record.hours, from, to), until_then.end_state());
  // Days that the forecast fills come first; the day in which the remainder begins is told by the
  // remainder.
  for (Date day = until_then.from().date(); LocalHour::at(day, 0) + 24 <= now;
       day = plus_days(day, 1)) {
    path.by_day.push_back(until_then.end_of(day).amount());
  }
  const std::vector<double> days = rest.by_day();
  path.by_day.insert(path.by_day.end(), days.begin(), days.end());
  return path;
}

/// What the gaps may have held: by their range, or, where nobody can tell, what missing hours can
/// hold at all.
Range held_by_gaps(const MeasuredChill& so_far) {
  const double total = so_far.total().amount();
  const Range& held = so_far.gaps == GapRange::unknown ? so_far.utmost : so_far.range;
  return {held.low - total, held.high - total};
}

void widen_by_gaps(Percentiles& spread, const StillToCome& to_come) {
  spread.low += to_come.from_gaps.low;
  spread.middle += to_come.middle_of_gaps();
  spread.high += to_come.from_gaps.high;
}

std::vector<double> of_day(const std::vector<WinterPath>& paths, std::size_t day) {
  std::vector<double> totals;
  for (const WinterPath& path : paths)
    totals.push_back(path.by_day[std::min(day, path.by_day.size() - 1)]);
  return totals;
}

void add_fan(StillToCome& to_come) {
  const std::size_t days = to_come.paths.front().by_day.size();
  for (std::size_t day = 0; day < days; ++day) {
    if (day % 7 != 6 && day + 1 != days) continue;
    const std::vector<double> totals = of_day(to_come.paths, day);
    FanPoint point{plus_days(to_come.first_day, static_cast<int>(day)), to_come.spread_on(day), 0.0,
                   0.0};
    const auto [least, most] = std::minmax_element(totals.begin(), totals.end());
    point.least = std::min(*least, point.spread.low);
    point.most = std::max(*most, point.spread.high);
    to_come.fan.push_back(point);
  }
}

/// Days until a path reaches an amount: 0 if it stands there already; nothing if it never does.
std::optional<int> days_to_reach(const WinterPath& path, double amount) {
  if (path.start >= amount - kSameAmount) return 0;
  for (std::size_t day = 0; day < path.by_day.size(); ++day) {
    if (path.by_day[day] >= amount - kSameAmount) return static_cast<int>(day) + 1;
  }
  return std::nullopt;
}

/// Those of all paths that ever reach it, shortest first.
std::vector<int> days_to_reach(const std::vector<WinterPath>& paths, double amount) {
  std::vector<int> days;
  for (const WinterPath& path : paths) {
    if (const auto day = days_to_reach(path, amount)) days.push_back(*day);
  }
  std::sort(days.begin(), days.end());
  return days;
}

/// The day by which a share of all paths has met; nothing where so many never do.
std::optional<Date> day_met_by(double share, const std::vector<int>& sorted_days, std::size_t paths,
                               Date first_day) {
  const auto nth =
      static_cast<std::size_t>(std::max(1.0, std::ceil(share * static_cast<double>(paths) - 1e-9)));
  if (nth > sorted_days.size()) return std::nullopt;
  return plus_days(first_day, sorted_days[nth - 1] - 1);
}

/// The rest of a past winter, ready to be run on from many states.
class Remainder {
 public:
  Remainder(ChillMeasure measure, const HourlySeries& series, LocalHour from, LocalHour to)
      : model_(&chill_model(measure)), hours_(series, from, to) {
    if (measure == ChillMeasure::portions) dynamic_ = dynamic_hours(hours_);
  }
  double end_from(ChillState state) const {
    if (model_->measure == ChillMeasure::portions) return run_on_dynamic(dynamic_, state).total;
    model_->run_on(hours_, state, {});
    return state.total;
  }

 private:
  const ChillModel* model_;
  KnownHours hours_;
  std::vector<DynamicHour> dynamic_;
};

/// One standing day of one winter: where it stood, what was still to come, how it ended.
struct Stand {
  ChillState state;
  Remainder rest;
  double truth;
};

Stand stand_in(const Winter& winter, std::int32_t hours_in, std::int32_t length,
               ChillMeasure measure, const HourlySeries& series) {
  const LocalHour at = winter.begin() + hours_in;
  Stand stand{{}, Remainder(measure, series, at, winter.begin() + length), 0.0};
  chill_model(measure).run_on(KnownHours(series, winter.begin(), at), stand.state, {});
  stand.truth = stand.rest.end_from(stand.state);
  return stand;
}

}  // namespace

Percentiles StillToCome::spread_on(std::size_t day) const {
  Percentiles spread = spread_of(of_day(paths, day));
  widen_by_gaps(spread, *this);
  return spread;
}

StillToCome still_to_come(const MeasuredChill& so_far, const WeatherRecord& record,
                          const Today& today) {
  StillToCome to_come{.measure = so_far.measure, .first_day = today.now.date()};
  if (today.winter_over()) return to_come;
  const Winter& winter = today.winter;
  const LocalHour now = std::max(today.now, LocalHour::at(so_far.counted_from, 0));
  to_come.first_day = now.date();
  // A forecast is used as far as it goes without a hole.
  LocalHour forecast_to = now;
  while (forecast_to < winter.end() && record.forecast.at(forecast_to))
    forecast_to = forecast_to + 1;
  to_come.forecast_hours = forecast_to - now;
  const ChillCurve until_then = chill_curve(
      so_far.measure, KnownHours(record.forecast, now, forecast_to), so_far.curve.end_state());
  int daily = 0;
  for (const Winter& other : winters_on_record(record, today.window, winter.year)) {
    auto path = path_after(other, so_far.measure, record, winter, forecast_to, until_then);
    if (!path) continue;
    path->start = so_far.total().amount();
    daily += detail_of(record, other.begin(), other.end()) == WinterDetail::daily_extremes ? 1 : 0;
    to_come.paths.push_back(std::move(*path));
  }
  if (to_come.paths.empty()) return to_come;
  if (2 * daily > static_cast<int>(to_come.paths.size()))
    to_come.basis = WinterDetail::daily_extremes;
  to_come.from_gaps = held_by_gaps(so_far);
  to_come.few_winters = static_cast<int>(to_come.paths.size()) < kFewWinters;
  std::vector<double> ends;
  for (const WinterPath& path : to_come.paths) ends.push_back(path.end());
  to_come.at_end = spread_of(ends);
  widen_by_gaps(to_come.at_end, to_come);
  if (!to_come.paths.front().by_day.empty()) add_fan(to_come);
  return to_come;
}

std::optional<ChanceOfMeeting> chance_of_meeting(const StillToCome& to_come,
                                                 const DecidingNeed& need) {
  if (to_come.paths.empty() || need.measure != to_come.measure || (!need.low && !need.high))
    return std::nullopt;
  const double least = need.low.value_or(*need.high);
  const double most = need.high.value_or(least);
  const std::size_t paths = to_come.paths.size();
  ChanceOfMeeting chance;
  chance.winters = static_cast<int>(paths);
  chance.reaching_low =
      static_cast<int>(days_to_reach(to_come.paths, least - to_come.middle_of_gaps()).size());
  chance.reaching_low_at_best =
      static_cast<int>(days_to_reach(to_come.paths, least - to_come.from_gaps.high).size());
  if (!need.high) return chance;
  const auto at_best = days_to_reach(to_come.paths, most - to_come.from_gaps.high);
  const auto at_middle = days_to_reach(to_come.paths, most - to_come.middle_of_gaps());
  const auto at_worst = days_to_reach(to_come.paths, most - to_come.from_gaps.low);
  chance.reaching_at_best = static_cast<int>(at_best.size());
  chance.reaching_high = static_cast<int>(at_middle.size());
  chance.reaching_at_worst = static_cast<int>(at_worst.size());
  chance.early = day_met_by(kLow, at_best, paths, to_come.first_day);
  chance.middle = day_met_by(0.5, at_middle, paths, to_come.first_day);
  chance.late = day_met_by(kHigh, at_worst, paths, to_come.first_day);
  return chance;
}

std::vector<MonthDay> hindcast_days(const Winter& winter) {
  std::vector<MonthDay> days;
  int year = int{winter.from.year()};
  unsigned month = unsigned{winter.from.month()};
  while (true) {
    year += month == 12 ? 1 : 0;
    month = month % 12 + 1;
    if (date_of(year, month, 15) > winter.to) return days;
    days.push_back({month, 15});
  }
}

HindcastScore hindcast(ChillMeasure measure, const WeatherRecord& record,
                       const WinterWindow& window, const std::vector<MonthDay>& days,
                       std::optional<int> except) {
  std::vector<Winter> winters;
  for (const Winter& winter : winters_on_record(record, window, except)) {
    if (known_enough(record.hours, winter.begin(), winter.end())) winters.push_back(winter);
  }
  HindcastScore score;
  score.winters = static_cast<int>(winters.size());
  if (winters.size() < 3) return score;
  for (const MonthDay& day : days) {
    std::vector<Stand> stands;
    for (const Winter& winter : winters) {
      Date on = day.in_year(winter.year);
      if (on < winter.from) on = day.in_year(winter.year + 1);
      // All winters run on over as many hours: a leap day must not tell one from another.
      const std::int32_t length = winters.front().end() - winters.front().begin();
      stands.push_back(
          stand_in(winter, LocalHour::at(on, 0) - winter.begin(), length, measure, record.hours));
    }
    for (std::size_t here = 0; here < stands.size(); ++here) {
      std::vector<double> ends;
      for (std::size_t other = 0; other < stands.size(); ++other) {
        if (other != here) ends.push_back(stands[other].rest.end_from(stands[here].state));
      }
      ++score.trials;
      if (stands[here].truth >= quantile(ends, kLow) && stands[here].truth <= quantile(ends, kHigh))
        ++score.inside;
    }
  }
  return score;
}

}  // namespace winterfolio
