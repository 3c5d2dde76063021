// Made-up winters for tests: hours from a list of temperatures, and random ones that look like
// weather.
#pragma once

#include <cmath>
#include <cstdint>
#include <numbers>
#include <random>
#include <vector>

#include "weather/hourly_series.h"

namespace winterfolio::test {

inline HourReading reading(double celsius) {
  return {Celsius(celsius), Celsius(celsius), HourOrigin::observed};
}

inline HourlySeries series_of(LocalHour first, const std::vector<double>& celsius) {
  HourlySeries series(first);
  for (std::size_t i = 0; i < celsius.size(); ++i) {
    series.set(first + static_cast<std::int32_t>(i), reading(celsius[i]));
  }
  return series;
}

/// A number in [0, 1), the same on every platform (the standard's distributions are not).
inline double uniform(std::mt19937_64& random) {
  return static_cast<double>(random() >> 11) * 0x1p-53;
}

/// `hours` of weather: a daily wave on a drifting mean, to a tenth of a degree if `tenths`.
inline std::vector<double> random_weather(std::uint64_t seed, std::int32_t hours, double mean = 7.0,
                                          bool tenths = true) {
  std::mt19937_64 random(seed);
  std::vector<double> celsius;
  celsius.reserve(static_cast<std::size_t>(hours));
  const double swing = 2.0 + 7.0 * uniform(random);
  const double level = mean + 8.0 * (uniform(random) - 0.5);
  double drift = 0.0;
  for (std::int32_t hour = 0; hour < hours; ++hour) {
    drift = 0.985 * drift + 1.6 * (uniform(random) - 0.5);
    const double wave = swing * std::sin(2.0 * std::numbers::pi * ((hour % 24) - 9.0) / 24.0);
    const double t = level + 4.0 * drift + wave + 0.8 * (uniform(random) - 0.5);
    celsius.push_back(tenths ? std::round(t * 10.0) / 10.0 : t);
  }
  return celsius;
}

}  // namespace winterfolio::test
