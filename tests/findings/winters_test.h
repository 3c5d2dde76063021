// Records of made-up winters for the tests of this room.
#pragma once

#include "findings/weather_record.h"
#include "support/winters.h"
#include "weather/daily_to_hourly.h"

namespace winterfolio::test {

/// Hours from 1 September of `first_year` for `years` years of weather with a winter in it,
/// northern.
inline HourlySeries years_of_weather(std::uint64_t seed, int first_year, int years,
                                     double mean = 12.0) {
  std::mt19937_64 random(seed);
  const LocalHour first = LocalHour::at(date_of(first_year, 9, 1), 0);
  const LocalHour end = LocalHour::at(date_of(first_year + years, 9, 1), 0);
  HourlySeries series(first);
  series.reserve(end - first);
  double drift = 0.0;
  for (LocalHour hour = first; hour < end; hour = hour + 1) {
    drift = 0.992 * drift + 0.55 * (uniform(random) - 0.5);
    const double year =
        std::cos(2.0 * std::numbers::pi * (day_of_year(hour.date()) - 200) / 365.25);
    const double day = std::sin(2.0 * std::numbers::pi * (hour.hour_of_day() - 9.0) / 24.0);
    const double t = mean + 8.5 * year + 4.5 * day + 5.0 * drift;
    series.set(hour, reading(std::round(t * 10.0) / 10.0));
  }
  return series;
}

inline WeatherRecord record_of(HourlySeries hours) {
  return weather_record(std::move(hours), {}, 38.0);
}

inline void knock_out(HourlySeries& series, Date from, int days) {
  for (int hour = 0; hour < 24 * days; ++hour) series.clear(LocalHour::at(from, 0) + hour);
}

}  // namespace winterfolio::test
