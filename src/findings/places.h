// Which thermometer a tree is judged by: the orchard's, or that of its own block where the keeper
// hung one up.
//
// A block's own readings come first. Where they lack (before it hung there, a dead battery, the
// winters before), the orchard's stand behind them, moved by what the two differed while both were
// read, hour of day by month; how well that fits is told. Where both were hardly ever read together
// nothing stands behind: a cold hollow is not compared with winters of the hill.
//
//   orchard   |----- 2014-15 ... -----------------------|--- this winter ---|
//   hollow                                                     |-- own -----|
//   judged by |~~~~~~ the orchard's, moved ~~~~~~~~~~~~~~~~~~~~|-- own -----|
#pragma once

#include <array>
#include <optional>
#include <string>

#include "findings/weather_record.h"
#include "orchard/orchard.h"
#include "weather/gaps.h"
#include "weather/nearby_days.h"

namespace winterfolio {

/// The temperatures of a block that has its own thermometer.
struct PlaceWeather {
  std::string block;        ///< its id
  std::string thermometer;  ///< the file, as written
  WeatherRecord record;     ///< own readings, the orchard's behind them (origin `nearby`, or drawn)
  HourlySeries
      own_hours;         ///< what was read here, short gaps bridged; empty for a daily thermometer
  DailySeries own_days;  ///< what a daily thermometer here kept
  std::optional<NearbyFit> by_hour;        ///< how the orchard's hours were moved
  std::optional<ExtremesFit> by_extremes;  ///< how its days were
  bool stands_alone() const { return !by_hour && !by_extremes; }
};

/// Requires: the block has a thermometer. Days of an hourly thermometer are ignored.
PlaceWeather place_weather(const OrchardBlock& block, HourlySeries own_hours, DailySeries own_days,
                           const WeatherRecord& orchard);

/// Whether most of what is known of the stretch was read in the block itself.
bool mostly_own(const PlaceWeather& place, LocalHour from, LocalHour to);

/// Whether anything was read in the block itself in the stretch, or stands behind it.
bool anything_known(const PlaceWeather& place, LocalHour from, LocalHour to);

}  // namespace winterfolio
