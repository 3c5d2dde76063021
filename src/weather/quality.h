// What is doubtful about a run of hours: marked and counted, and used all the same.
//
// Real air can warm by 11 °C in the hour after sunrise, so a test on steps may mark but never
// delete. Deleting is left to the reader of the file, and only for impossible values, duplicates
// and one-reading spikes.
#pragma once

#include <cstdint>
#include <string_view>
#include <vector>

#include "weather/daily_series.h"
#include "weather/hourly_series.h"

namespace winterfolio {

enum class Doubt : std::uint8_t {
  step,           ///< changes faster than the published limits for 1, 2, 3, 6 or 12 hours
  flat_line,      ///< the same value for a day or more
  daily_extreme,  ///< a day colder, warmer or wider than plausible
  sensor_in_sun,  ///< day after day a short bump at the same hour of daylight
};
constexpr int kDoubtCount = 4;
std::string_view id_of(Doubt doubt);  ///< "step", "flat_line", "daily_extreme", "sensor_in_sun"

/// Hours from `from` to `to`, both inclusive, under one doubt.
struct DoubtfulRun {
  Doubt doubt;
  LocalHour from;
  LocalHour to;
  double amount = 0.0;  ///< step: largest change [°C]; flat line: hours; extreme: the temperature
                        ///< or range [°C]; sun: bump [°C]
};

/// The limits of src/weather/tables/quality.csv.
struct QualityThresholds {
  Celsius impossible_below{-80.0};
  Celsius impossible_above{60.0};
  CelsiusDelta spike{8.0};  ///< from both neighbours, the same way
  struct Step {
    int hours;
    CelsiusDelta change;
  };
  std::vector<Step> steps;
  struct FlatLine {
    double resolution;  ///< of the readings [°C]
    int hours;
  };
  std::vector<FlatLine> flat_lines;
  Celsius extreme_below{-30.0};
  Celsius extreme_above{50.0};
  CelsiusDelta daily_range{35.0};
  CelsiusDelta sun_bump{4.0};
  int sun_days = 3;
};
const QualityThresholds& quality_thresholds();

/// Every doubtful run of observed hours, ordered by kind, then time. Neighbouring hours under one
/// doubt make one run.
///
/// resolution   of the readings as written [°C]: how long a flat line must be follows from it
/// gaps         a missing hour ends a flat line; steps compare two observed hours whatever lies
/// between limits       the clock does not matter: sun is told by the day's own warm half
std::vector<DoubtfulRun> doubtful_runs(const HourlySeries& series, double resolution,
                                       const QualityThresholds& limits = quality_thresholds());

/// The same for days known by their extremes: days colder, warmer or wider than plausible.
std::vector<DoubtfulRun> doubtful_days(const DailySeries& days,
                                       const QualityThresholds& limits = quality_thresholds());

}  // namespace winterfolio
