// Feeds the temperature reader bytes that nobody meant. It must answer with readings or with
// messages, and every series it gives must be one that the models can use.
//
// Built by clang with libFuzzer: the first byte chooses the options, the rest is the file.
#include <cmath>
#include <cstddef>
#include <cstdint>
#include <cstdlib>
#include <string>

#include "readers/temperature/temperature_file.h"
#include "weather/daily_to_hourly.h"

namespace {

using namespace winterfolio;

TemperatureOptions options_from(std::uint8_t choice) {
  TemperatureOptions options;
  if (choice & 1U) options.unit = TemperatureUnit::fahrenheit;
  if (choice & 2U) options.date_order = DateOrder::dmy;
  if (choice & 4U) options.decimal = DecimalMark::comma;
  if (choice & 8U) {
    options.clock = Clock::civil;
    options.time_zone = "America/Los_Angeles";
  }
  if (choice & 16U) options.hour_stamp = HourStamp::ends;
  if (choice & 32U) options.columns["temperature"] = "2";
  if (choice & 64U) options.station = "1";
  return options;
}

void require(bool condition) {
  if (!condition) std::abort();
}

void check(const TemperatureFile& file) {
  require(file.readings > 0 && file.missing_hours >= 0);
  require(file.first <= file.last);
  require(file.hours.empty() + file.days.empty() + !file.half == 2);
  for (LocalHour hour = file.hours.first(); hour < file.hours.end(); hour = hour + 1) {
    const auto reading = file.hours.at(hour);
    if (!reading) continue;
    require(std::isfinite(reading->mean.degrees()) && reading->mean >= Celsius(-80.001) &&
            reading->mean <= Celsius(60.001));
    require(reading->lowest <= reading->mean);
  }
  for (int i = 0; i < file.days.size(); ++i) {
    const auto day = file.days.at(plus_days(file.days.first(), i));
    require(!day || day->minimum <= day->maximum);
  }
}

}  // namespace

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  if (size == 0) return 0;
  Diagnostics diagnostics;
  const auto file =
      read_temperature_bytes("fuzz", std::string(reinterpret_cast<const char*>(data + 1), size - 1),
                             options_from(data[0]), diagnostics);
  if (file)
    check(*file);
  else
    require(diagnostics.has_errors());
  for (const Diagnostic& d : diagnostics.all()) require(!to_text(d).empty());
  return 0;
}
