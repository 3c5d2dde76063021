// Reads a temperature file written in a test, and shows its messages where that fails.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "base/dates.h"
#include "readers/temperature/temperature_file.h"
#include "support/catch.h"

namespace winterfolio::test {

struct Reading {
  std::optional<TemperatureFile> file;
  Diagnostics diagnostics;

  bool says(const std::string& id) const {
    for (const Diagnostic& d : diagnostics.all()) {
      if (d.id == "temperature." + id) return true;
    }
    return false;
  }
  std::string text() const {
    std::string all;
    for (const Diagnostic& d : diagnostics.all()) all += to_text(d);
    return all;
  }
};

inline Reading read(const std::string& bytes, const TemperatureOptions& options = {}) {
  Reading reading;
  reading.file = read_temperature_bytes("log.csv", bytes, options, reading.diagnostics);
  return reading;
}

/// A file that must be read.
inline TemperatureFile good(const std::string& bytes, const TemperatureOptions& options = {}) {
  Reading reading = read(bytes, options);
  INFO(bytes.substr(0, 400));
  INFO(reading.text());
  REQUIRE(reading.file);
  return std::move(*reading.file);
}

inline double mean(const TemperatureFile& file, Date day, int hour) {
  const auto reading = file.hours.at(LocalHour::at(day, hour));
  INFO("hour " << iso_hour(LocalHour::at(day, hour)));
  REQUIRE(reading);
  return reading->mean.degrees();
}

inline double lowest(const TemperatureFile& file, Date day, int hour) {
  const auto reading = file.hours.at(LocalHour::at(day, hour));
  REQUIRE(reading);
  return reading->lowest.degrees();
}

}  // namespace winterfolio::test
