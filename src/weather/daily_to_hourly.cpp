// Linvill's curve, and its way back.
#include "weather/daily_to_hourly.h"

#include <algorithm>
#include <cmath>
#include <numbers>

#include "weather/solar.h"

namespace winterfolio {
namespace {

using std::numbers::pi;

constexpr double kAlmostAllDay = 23.0;  ///< from here on ln(24 - DL) is not positive

/// A day's sun and extremes, in local solar time.
struct DayArc {
  double minimum;
  double maximum;
  double day_length;

  double sunrise() const { return 12.0 - day_length / 2.0; }
  double sunset() const { return 12.0 + day_length / 2.0; }
  bool has_night_and_day() const { return day_length > 0.0 && day_length < kAlmostAllDay; }

  /// Between sunrise and sunset.
  double by_day(double time) const {
    return minimum + (maximum - minimum) * std::sin(pi * (time - sunrise()) / (day_length + 4.0));
  }
  double at_sunset() const { return by_day(sunset()); }

  /// `since` hours after this day's sunset, on the way to the next morning's minimum. In the first
  /// hour the logarithm is negative and would lead up, so sunset's temperature holds.
  double by_night(double since, double next_minimum) const {
    if (since < 1.0) return at_sunset();
    return at_sunset() -
           (at_sunset() - next_minimum) / std::log(24.0 - day_length) * std::log(since);
  }

  /// Without a sunset or a sunrise there is no night to run into.
  double without_both(double time) const {
    if (day_length <= 0.0) {
      return (minimum + maximum) / 2.0 -
             (maximum - minimum) / 2.0 * std::cos(2.0 * pi * time / 24.0);
    }
    return by_day(std::max(time, sunrise()));
  }
};

std::optional<DayArc> arc_of(const DailySeries& days, Date day, double latitude) {
  const auto extremes = days.at(day);
  if (!extremes) return std::nullopt;
  return DayArc{extremes->minimum.degrees(), extremes->maximum.degrees(),
                fao_day_length(latitude, day_of_year(day))};
}

double temperature_at(double time, const DayArc& today, const DayArc& yesterday,
                      double next_minimum) {
  if (!today.has_night_and_day()) return today.without_both(time);
  if (time < today.sunrise())
    return yesterday.by_night(time + 24.0 - yesterday.sunset(), today.minimum);
  if (time <= today.sunset()) return today.by_day(time);
  return today.by_night(time - today.sunset(), next_minimum);
}

}  // namespace

HourlySeries hourly_from_daily(const DailySeries& days, double latitude) {
  HourlySeries hours;
  if (days.empty()) return hours;
  hours.reserve(days.size() * 24);
  std::optional<DayArc> yesterday;
  std::optional<DayArc> today = arc_of(days, days.first(), latitude);
  for (int i = 0; i < days.size(); ++i) {
    const Date date = plus_days(days.first(), i);
    const std::optional<DayArc> tomorrow = arc_of(days, plus_days(date, 1), latitude);
    if (today) {
      const DayArc& before = yesterday && yesterday->has_night_and_day() ? *yesterday : *today;
      const double next_minimum = tomorrow ? tomorrow->minimum : today->minimum;
      for (int hour = 0; hour < 24; ++hour) {
        const Celsius t(temperature_at(hour, *today, before, next_minimum));
        hours.set(LocalHour::at(date, hour), {t, t, HourOrigin::daily_extremes});
      }
    }
    yesterday = today;
    today = tomorrow;
  }
  return hours;
}

DailySeries daily_from_hourly(const HourlySeries& hours) {
  DailySeries days;
  if (hours.empty()) return days;
  for (Date date = hours.first().date(); date <= hours.last().date(); date = plus_days(date, 1)) {
    std::optional<DailyExtremes> extremes;
    int known = 0;
    for (int hour = 0; hour < 24; ++hour) {
      const auto reading = hours.at(LocalHour::at(date, hour));
      if (!reading) break;
      ++known;
      if (!extremes) extremes = {reading->mean, reading->mean};
      extremes->minimum = std::min(extremes->minimum, reading->mean);
      extremes->maximum = std::max(extremes->maximum, reading->mean);
    }
    if (known == 24) {
      days.set(date, extremes);
    } else {
      days.set(date, std::nullopt);
    }
  }
  return days;
}

}  // namespace winterfolio
