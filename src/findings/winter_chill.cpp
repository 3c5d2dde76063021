// Counts this winter's cold, and what its gaps leave open.
#include "findings/winter_chill.h"

#include <algorithm>
#include <stdexcept>

#include "findings/gap_spread.h"
#include "findings/statistics.h"
#include "models/chill/autumn_minimum.h"

namespace winterfolio {
namespace {

constexpr double kPortionsWidening = 0.5;
/// Portions that the intermediate around a gap may be worth, where nothing tells what it was.
constexpr double kStateSlack = 1.0;
constexpr double kSameAmount =
    1e-9;  ///< so that sums of the same hours in another order still reach a requirement

std::vector<Gap> gaps_in(const HourlySeries& hours, LocalHour from, LocalHour to) {
  std::vector<Gap> gaps;
  for (LocalHour hour = from; hour < to; hour = hour + 1) {
    if (hours.at(hour)) continue;
    if (!gaps.empty() && gaps.back().to == hour) {
      gaps.back().to = hour + 1;
    } else {
      gaps.push_back({hour, hour + 1});
    }
  }
  return gaps;
}

/// Every way of filling the gaps of a stretch, from its first gap on.
class GapFills {
 public:
  GapFills(const WeatherRecord& record, const Today& today, LocalHour from, LocalHour to)
      : to_(to) {
    gaps_ = gaps_in(record.hours, from, to);
    if (gaps_.empty()) return;
    HourlySeries stretch(gaps_.front().from);
    for (LocalHour hour = gaps_.front().from; hour < to; hour = hour + 1) {
      if (const auto reading = record.hours.at(hour)) stretch.set(hour, *reading);
    }
    for (const Winter& other : winters_on_record(record, today.window, today.winter.year)) {
      for (const int shift : kGapShifts) fill_from(record, today.winter, other, shift, stretch);
    }
  }

  bool any_gap() const { return !gaps_.empty(); }
  LocalHour first_missing() const { return gaps_.front().from; }
  const std::vector<KnownHours>& fills() const { return fills_; }

 private:
  /// One fill: every gap whole from one other winter, or none at all if that winter lacks an hour
  /// of them.
  void fill_from(const WeatherRecord& record, const Winter& winter, const Winter& other, int shift,
                 HourlySeries stretch) {
    const std::int32_t lag = (other.begin() - winter.begin()) + 24 * shift;
    for (const Gap& gap : gaps_) {
      const CelsiusDelta warmer = warmer_around(record.hours, gap, lag);
      for (LocalHour hour = gap.from; hour < gap.to; hour = hour + 1) {
        const auto reading = record.hours.at(hour + lag);
        if (!reading) return;
        stretch.set(hour, {reading->mean + warmer, reading->lowest + warmer, reading->origin});
      }
    }
    fills_.emplace_back(stretch, gaps_.front().from, to_);
  }

  /// How much warmer the days on either side of a gap were than the same days `lag` hours on, over
  /// the hours that both have; nothing if they have none.
  static CelsiusDelta warmer_around(const HourlySeries& hours, const Gap& gap, std::int32_t lag) {
    double sum = 0.0;
    int shared = 0;
    const auto see = [&](LocalHour hour) {
      const auto here = hours.at(hour);
      const auto there = hours.at(hour + lag);
      if (!here || !there) return;
      sum += (here->mean - there->mean).degrees();
      ++shared;
    };
    for (std::int32_t i = 0; i < 24 * kLevelDays; ++i) {
      see(gap.from - 1 - i);
      see(gap.to + i);
    }
    return CelsiusDelta(shared > 0 ? sum / shared : 0.0);
  }

  LocalHour to_;
  std::vector<Gap> gaps_;
  std::vector<KnownHours> fills_;
};

/// The middle of some values. Requires: there are any.
double middle_of(std::vector<double> values) { return quantile(values, 0.5); }

/// What each day's total can be at all, its missing hours being what an hour can; `slack` for the
/// Dynamic Model's intermediate around a gap.
Range possible_on(const MeasuredChill& measured, std::size_t day, double slack) {
  const ChillModel& model = chill_model(measured.measure);
  const std::int32_t missing = measured.missing_by_day[day];
  const double known = measured.by_day[day];
  if (missing == 0) return {known, known};
  return {known + missing * model.least_of_hour - slack,
          known + missing * model.most_of_hour + slack};
}

/// Lays a range about the middle of each day's total.
///
/// So that no range widens when an hour comes to be known, widths hang on nothing but which hours
/// are missing, and a range that would reach too far is slid and never cut. A day's missing hours
/// add no more to the width than they can hold.
class RangesByDay {
 public:
  explicit RangesByDay(MeasuredChill& measured)
      : measured_(measured), model_(chill_model(measured.measure)) {}

  void add_known_day() {
    const double known = measured_.by_day[measured_.by_day_range.size()];
    measured_.by_day_range.push_back({known, known});
  }

  /// `half_width`: nothing where only what the hours can hold bounds it.
  void add(double middle, std::optional<double> half_width) {
    const std::size_t day = measured_.by_day_range.size();
    const std::int32_t missing = measured_.missing_by_day[day];
    spread_ += (missing - missing_) * room_of_hour();
    missing_ = missing;
    if (half_width) spread_ = std::min(spread_, 2.0 * *half_width);
    const double widening = measured_.measure == ChillMeasure::portions ? kPortionsWidening : 0.0;
    const double width = spread_ + 2.0 * widening;
    const Range possible = possible_on(measured_, day, widening);
    double low = std::clamp(middle - width / 2.0, possible.low,
                            std::max(possible.low, possible.high - width));
    // What cannot fall keeps the least that it had; as widths only grow, the most does not fall
    // either.
    if (!model_.can_fall) low = std::max(low, day == 0 ? 0.0 : measured_.by_day_range.back().low);
    measured_.by_day_range.push_back({low, low + width});
  }

 private:
  /// Between the least and the most that a missing hour can change the total by. Of a day that
  /// lacks a part an hour may also take from the known ones where whole days cannot fall: left out,
  /// for then a range could pass what its hours can hold.
  double room_of_hour() const {
    return model_.can_fall ? model_.most_of_hour - model_.least_of_hour : model_.most_of_hour;
  }

  MeasuredChill& measured_;
  const ChillModel& model_;
  double spread_ = 0.0;       ///< width of the last day's range, but for the half portions
  std::int32_t missing_ = 0;  ///< hours up to the last day
};

/// The range of each day's total and of the last: about the middle of all fills, as wide as the
/// other winters spread.
void measure_gaps(MeasuredChill& measured, const KnownHours& known, const WeatherRecord& record,
                  const Today& today, const GapFills& fills) {
  const double total = measured.total().amount();
  measured.range = {total, total};
  if (!fills.any_gap()) return;
  measured.gaps = fills.fills().empty() ? GapRange::unknown : GapRange::known;
  if (fills.fills().empty()) return;
  const ChillMeasure measure = measured.measure;
  const LocalHour gap = fills.first_missing();
  const ChillState before = chill_curve(measure, record.hours, known.from(), gap).end_state();
  const auto first_day = static_cast<std::size_t>(days_between(known.from().date(), gap.date()));
  std::vector<std::vector<double>> filled(measured.by_day.size() - first_day);
  for (const KnownHours& fill : fills.fills()) {
    const std::vector<double> days = chill_curve(measure, fill, before).by_day();
    for (std::size_t i = 0; i < days.size(); ++i) filled[i].push_back(days[i]);
  }
  const auto half_widths = gap_half_widths(
      measure, record, today.winter, winters_on_record(record, today.window, today.winter.year),
      measured.counted_from, measured.missing_by_day);
  RangesByDay ranges(measured);
  for (std::size_t day = 0; day < first_day; ++day) ranges.add_known_day();
  for (std::size_t day = first_day; day < measured.by_day.size(); ++day)
    ranges.add(middle_of(std::move(filled[day - first_day])), half_widths[day]);
  measured.range = measured.by_day_range.back();
}

std::vector<std::int32_t> missing_by_day(const KnownHours& known) {
  std::vector<std::int32_t> missing;
  const std::int32_t first_midnight = 24 - known.from().hour_of_day();
  std::size_t passed = 0;
  for (std::int32_t end = first_midnight; end < known.hours() + 24; end += 24) {
    const std::int32_t to = std::min(end, known.hours());
    while (passed < known.place().size() && known.place()[passed] < to) ++passed;
    missing.push_back(to - static_cast<std::int32_t>(passed));
  }
  return missing;
}

/// What each day's total was at the least, and the last one at the most. Without another winter to
/// fill a gap from, a missing hour may have given the most or the least that an hour can, and a
/// measure that cannot fall keeps what it had.
void bound(MeasuredChill& measured) {
  measured.utmost = measured.range;
  if (measured.gaps == GapRange::known) {
    for (const Range& day : measured.by_day_range) measured.least_by_day.push_back(day.low);
    return;
  }
  const ChillModel& model = chill_model(measured.measure);
  const double slack = measured.measure == ChillMeasure::portions ? kStateSlack : 0.0;
  for (std::size_t day = 0; day < measured.by_day.size(); ++day) {
    double least = possible_on(measured, day, slack).low;
    if (!model.can_fall && day > 0) least = std::max(least, measured.least_by_day.back());
    measured.least_by_day.push_back(least);
    measured.utmost = {least, possible_on(measured, day, slack).high};
  }
}

double total_if_warmer(ChillMeasure measure, const KnownHours& hours, CelsiusDelta delta) {
  ChillState state;
  chill_model(measure).run_on(hours.warmer_by(delta), state, {});
  return state.total;
}

MeasuredChill measured(ChillMeasure measure, const WeatherRecord& record, const Today& today,
                       Date counted_from, const KnownHours& known, const GapFills& fills) {
  MeasuredChill chill{
      .measure = measure, .counted_from = counted_from, .curve = chill_curve(measure, known)};
  chill.hours = known.hours();
  chill.missing_hours = known.missing();
  chill.by_day = chill.curve.by_day();
  chill.missing_by_day = missing_by_day(known);
  measure_gaps(chill, known, record, today, fills);
  bound(chill);
  const double warmer = total_if_warmer(measure, known, kThermometerError);
  const double colder = total_if_warmer(measure, known, -kThermometerError);
  chill.thermometer = {std::min({warmer, colder, chill.total().amount()}),
                       std::max({warmer, colder, chill.total().amount()})};
  return chill;
}

HourCounts counts_of(const HourlySeries& hours, LocalHour from, LocalHour to) {
  HourCounts counts;
  counts.hours = std::max(0, to - from);
  counts.observed = hours.count_in(from, to, HourOrigin::observed);
  counts.by_line = hours.count_in(from, to, HourOrigin::line);
  counts.nearby = hours.count_in(from, to, HourOrigin::nearby);
  counts.by_extremes = hours.count_in(from, to, HourOrigin::daily_extremes);
  counts.missing = hours.missing_in(from, to);
  return counts;
}

}  // namespace

Date counted_from_in_verdict(ChillMeasure measure, const HourlySeries& hours, bool southern,
                             const Today& today) {
  if (measure != ChillMeasure::utah) return today.winter.from;
  const AutumnDays autumn = autumn_days(southern, today.winter.year);
  const Date last = std::min(autumn.last, today.as_of);
  for (Date day = autumn.from; day <= last; day = plus_days(day, 1)) {
    const LocalHour midnight = LocalHour::at(day, 0);
    if (hours.missing_in(midnight, midnight + 24) == 24) continue;
    return utah_start(hours, day, last).value_or(today.winter.from);
  }
  return today.winter.from;
}

double MeasuredChill::coverage() const {
  return hours == 0 ? 1.0 : 1.0 - static_cast<double>(missing_hours) / hours;
}

std::optional<Date> MeasuredChill::reached_on(double amount) const {
  for (std::size_t day = 0; day < by_day.size(); ++day) {
    if (by_day[day] >= amount - kSameAmount) return plus_days(counted_from, static_cast<int>(day));
  }
  return std::nullopt;
}

std::optional<Date> MeasuredChill::surely_reached_on(double amount, double least_coverage) const {
  const int first_hours = 24 - curve.from().hour_of_day();
  for (std::size_t day = 0; day < least_by_day.size(); ++day) {
    const double passed = std::min<double>(first_hours + 24.0 * static_cast<double>(day), hours);
    if (passed - missing_by_day[day] < least_coverage * passed) continue;
    if (least_by_day[day] >= amount - kSameAmount)
      return plus_days(counted_from, static_cast<int>(day));
  }
  return std::nullopt;
}

const MeasuredChill& WinterChill::of(ChillMeasure measure) const {
  for (const MeasuredChill& chill : measures) {
    if (chill.measure == measure) return chill;
  }
  throw std::logic_error("a measure that was not counted: " + std::string(id_of(measure)));
}

const MeasuredChill& WinterChill::for_verdict(ChillMeasure measure) const {
  if (measure == ChillMeasure::utah && utah_from_minimum) return *utah_from_minimum;
  return of(measure);
}

WinterChill winter_chill(const WeatherRecord& record, const Today& today,
                         std::span<const ChillMeasure> measures) {
  const LocalHour from = today.winter.begin();
  const LocalHour to = std::max(from, today.counted_to());
  WinterChill chill;
  chill.today = today;
  chill.detail = detail_of(record, from, to);
  chill.counts = counts_of(record.hours, from, to);
  chill.gaps = gaps_in(record.hours, from, to);
  std::stable_sort(chill.gaps.begin(), chill.gaps.end(),
                   [](const Gap& a, const Gap& b) { return a.hours() > b.hours(); });
  const KnownHours known(record.hours, from, to);
  const GapFills fills(record, today, from, to);
  for (const ChillMeasure measure : kChillMeasures) {
    if (std::find(measures.begin(), measures.end(), measure) == measures.end()) continue;
    chill.measures.push_back(measured(measure, record, today, today.winter.from, known, fills));
    if (measure != ChillMeasure::utah) continue;
    const Date start = counted_from_in_verdict(measure, record.hours, record.latitude < 0.0, today);
    const LocalHour begin = std::min(LocalHour::at(start, 0), to);
    chill.utah_from_minimum =
        measured(measure, record, today, start, KnownHours(record.hours, begin, to),
                 GapFills(record, today, begin, to));
  }
  return chill;
}

}  // namespace winterfolio
