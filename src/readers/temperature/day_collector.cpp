// Days by date, each with what was told of it first.
#include "readers/temperature/day_collector.h"

#include <cstdlib>

#include "base/dates.h"

namespace winterfolio {
namespace {

Date date_of_day(std::int32_t day) { return Date{std::chrono::sys_days{std::chrono::days{day}}}; }

Celsius celsius(std::int64_t parts, TemperatureUnit unit) {
  switch (unit) {
    case TemperatureUnit::celsius:
      return Celsius(degrees_of(parts));
    case TemperatureUnit::fahrenheit:
      return Celsius::from_fahrenheit(degrees_of(parts));
    case TemperatureUnit::kelvin:
      return Celsius(degrees_of(parts - 27315 * (kPartsPerDegree / 100)));
  }
  return Celsius(degrees_of(parts));
}

}  // namespace

void DayCollector::add(bool maximum, std::int32_t day, std::int64_t parts, std::int64_t line) {
  if (parts < limits_.impossible_below || parts > limits_.impossible_above) {
    if (impossible_++ == 0) first_impossible_ = {line, parts};
    impossible_high_ += parts > limits_.impossible_above && parts <= 140 * kPartsPerDegree;
    impossible_kelvin_ += parts >= 190 * kPartsPerDegree && parts <= 335 * kPartsPerDegree;
    return;
  }
  if (last_added_) walked_ += std::abs(day - *last_added_);
  last_added_ = day;
  Day& here = days_[day];
  if (here.line == 0) here.line = line;
  std::optional<std::int64_t>& slot = maximum ? here.maximum : here.minimum;
  if (slot) {
    // A day told again counts once, whichever of its extremes the line holds.
    if (last_duplicate_ != std::pair{day, line}) {
      if (duplicates_++ == 0) first_duplicate_ = {line, parts};
      last_duplicate_ = {day, line};
      last_differs_ = false;
    }
    differing_ += *slot != parts && !last_differs_;
    last_differs_ = last_differs_ || *slot != parts;
    return;
  }
  slot = parts;
  (maximum ? maxima_ : minima_) += 1;
}

void DayCollector::finish() {
  for (auto& [day, extremes] : days_) {
    if (!extremes.complete() || *extremes.minimum <= *extremes.maximum) continue;
    if (inverted_++ == 0) first_inverted_ = {extremes.line, *extremes.minimum};
    extremes.minimum.reset();
    extremes.maximum.reset();
  }
}

double DayCollector::share_between_30_and_70() const {
  struct Half {
    double days = 0;
    double between = 0;
    double sum = 0.0;
  };
  Half november_on;
  Half may_on;
  Half all;
  for (const auto& [day, extremes] : days_) {
    const auto first = extremes.minimum ? extremes.minimum : extremes.maximum;
    const auto second = extremes.maximum ? extremes.maximum : extremes.minimum;
    if (!first) continue;
    const double middle = (degrees_of(*first) + degrees_of(*second)) / 2.0;
    const unsigned month = unsigned{date_of_day(day).month()};
    const auto count = [&](Half& half) {
      half.days += 1;
      half.between += middle >= 30.0 && middle <= 70.0 ? 1 : 0;
      half.sum += middle;
    };
    count(all);
    if (month >= 11 || month <= 2) count(november_on);
    if (month >= 5 && month <= 8) count(may_on);
  }
  const Half* winter = &all;
  if (november_on.days > 0 && may_on.days > 0) {
    winter =
        november_on.sum / november_on.days <= may_on.sum / may_on.days ? &november_on : &may_on;
  } else if (november_on.days > 0) {
    winter = &november_on;
  } else if (may_on.days > 0) {
    winter = &may_on;
  }
  return winter->days > 0 ? winter->between / winter->days : 0.0;
}

DailySeries DayCollector::series(TemperatureUnit unit) const {
  DailySeries series;
  for (const auto& [day, extremes] : days_) {
    if (!extremes.complete()) continue;
    series.set(date_of_day(day),
               DailyExtremes{celsius(*extremes.minimum, unit), celsius(*extremes.maximum, unit)});
  }
  return series;
}

std::map<std::int32_t, Celsius> DayCollector::half(bool maximum, TemperatureUnit unit) const {
  std::map<std::int32_t, Celsius> by_day;
  for (const auto& [day, extremes] : days_) {
    if (const auto& value = maximum ? extremes.maximum : extremes.minimum)
      by_day.emplace(day, celsius(*value, unit));
  }
  return by_day;
}

std::int64_t DayCollector::complete_days() const {
  std::int64_t count = 0;
  for (const auto& [day, extremes] : days_) count += extremes.complete();
  return count;
}

std::optional<std::int32_t> DayCollector::first_day() const {
  const bool both = minima_ > 0 && maxima_ > 0;
  for (const auto& [day, extremes] : days_) {
    if (both ? extremes.complete() : extremes.minimum || extremes.maximum) return day;
  }
  return std::nullopt;
}

std::optional<std::int32_t> DayCollector::last_day() const {
  const bool both = minima_ > 0 && maxima_ > 0;
  for (auto i = days_.rbegin(); i != days_.rend(); ++i) {
    if (both ? i->second.complete() : i->second.minimum || i->second.maximum) return i->first;
  }
  return std::nullopt;
}

std::int64_t DayCollector::line_of(std::int32_t day) const {
  const auto found = days_.find(day);
  return found == days_.end() ? 0 : found->second.line;
}

}  // namespace winterfolio
