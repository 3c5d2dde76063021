// An orchard file and everything it names, read into values: what check, print and figures start
// from.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "base/diagnostic.h"
#include "findings/places.h"
#include "findings/weather_record.h"
#include "orchard/orchard.h"
#include "report/season_facts.h"

namespace winterfolio {

struct LoadedOrchard {
  Orchard orchard;
  WeatherRecord record;
  std::vector<PlaceWeather> places;  ///< blocks with a thermometer of their own
  std::vector<ReadingsFile> files;  ///< in the order of the orchard file, blocks' thermometers last
  std::optional<int> utc_offset_minutes;  ///< of the orchard's standard time
  WinterWindow window;
};

/// Reads the orchard, its records and its temperature files. Every fault is added; nothing is
/// returned if one is an error.
std::optional<LoadedOrchard> load_orchard(const std::string& path, Diagnostics& diagnostics);

/// The days in which the orchard's winter is counted.
WinterWindow window_of(const Orchard& orchard);

/// What reading a file found, for the page about the readings.
ReadingsFile readings_of(const TemperatureSource& source, const struct TemperatureFile& file);

}  // namespace winterfolio
