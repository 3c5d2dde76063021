// Checks the reading keys given on the command line.
#include "cli/reading_keys.h"

#include <fmt/format.h>
#include <fmt/ranges.h>

#include <algorithm>
#include <array>
#include <span>

#include "base/csv_table.h"
#include "base/time_zone.h"
#include "readers/temperature/registry.h"

namespace winterfolio {
namespace {

template <typename Value>
struct Word {
  std::string_view word;
  Value value;
};

constexpr std::array<Word<TemperatureUnit>, 3> kUnits = {{{"F", TemperatureUnit::fahrenheit},
                                                          {"C", TemperatureUnit::celsius},
                                                          {"K", TemperatureUnit::kelvin}}};
constexpr std::array<Word<Clock>, 3> kClocks = {
    {{"standard", Clock::standard}, {"civil", Clock::civil}, {"utc", Clock::utc}}};
constexpr std::array<Word<DateOrder>, 3> kDateOrders = {
    {{"ymd", DateOrder::ymd}, {"dmy", DateOrder::dmy}, {"mdy", DateOrder::mdy}}};
constexpr std::array<Word<DecimalMark>, 2> kDecimals = {
    {{"point", DecimalMark::point}, {"comma", DecimalMark::comma}}};
constexpr std::array<Word<HourStamp>, 2> kHourStamps = {
    {{"begins", HourStamp::begins}, {"ends", HourStamp::ends}}};
constexpr std::array<std::string_view, 5> kRoles = {"time", "date", "temperature", "minimum",
                                                    "maximum"};

void say_wrong(Diagnostics& diagnostics, std::string message, std::string expected,
               std::string mend) {
  Diagnostic fault;
  fault.id = "cli.wrong-option";
  fault.message = std::move(message);
  fault.expected = std::move(expected);
  fault.mend = std::move(mend);
  diagnostics.add(std::move(fault));
}

/// Sets `value` to the meaning of `given`; an empty word leaves it alone.
template <typename Value, std::size_t N>
void take(std::string_view option, const std::string& given,
          const std::array<Word<Value>, N>& words, std::optional<Value>& value,
          Diagnostics& diagnostics) {
  if (given.empty()) return;
  std::vector<std::string> known;
  for (const auto& word : words) {
    if (word.word == given) {
      value = word.value;
      return;
    }
    known.emplace_back(word.word);
  }
  say_wrong(diagnostics, fmt::format("'{}' is no value for {}", given, option),
            fmt::format("one of {}{}", fmt::join(known, ", "),
                        did_you_mean(given.size() > 1 ? nearest_name(given, known) : "")),
            "write one of these; 'winterfolio tally --help' says what the option is for");
}

/// "-08:00" or "+05:30" as minutes.
std::optional<int> parse_offset(std::string_view text) {
  if (text.size() != 6 || (text[0] != '+' && text[0] != '-') || text[3] != ':') return std::nullopt;
  const auto hours = parse_integer(text.substr(1, 2));
  const auto minutes = parse_integer(text.substr(4, 2));
  if (!hours || !minutes || *hours < 0 || *hours > 14 || *minutes < 0 || *minutes > 59)
    return std::nullopt;
  return (*hours * 60 + *minutes) * (text[0] == '-' ? -1 : 1);
}

void take_columns(const std::vector<std::string>& given,
                  std::map<std::string, std::string>& columns, Diagnostics& diagnostics) {
  for (const std::string& pair : given) {
    const std::size_t equals = pair.find('=');
    const std::string role = pair.substr(0, equals);
    const bool known = std::find(kRoles.begin(), kRoles.end(), role) != kRoles.end();
    if (equals == std::string::npos || !known || equals + 1 == pair.size()) {
      const std::string_view nearest =
          known ? std::string_view()
                : nearest_name(role, std::span<const std::string_view>(kRoles));
      say_wrong(diagnostics, fmt::format("--columns: '{}' names no column", pair),
                fmt::format("role=name or role=number, the role one of {}{}",
                            fmt::join(kRoles, ", "), did_you_mean(nearest)),
                "write it as temperature=3, or as temperature=Temp with the name in the file's "
                "head");
      continue;
    }
    columns[role] = pair.substr(equals + 1);
  }
}

void take_format(const std::string& given, std::optional<std::string>& format,
                 Diagnostics& diagnostics) {
  if (given.empty()) return;
  std::vector<std::string> known;
  for (const TemperatureFormat& row : temperature_formats()) known.emplace_back(row.id);
  if (std::find(known.begin(), known.end(), given) == known.end()) {
    say_wrong(diagnostics, fmt::format("--format: there is no format '{}'", given),
              "a name of the list that 'winterfolio reference formats' prints" +
                  did_you_mean(nearest_name(given, known)),
              "write one of those names, or leave the option out: most files are recognised");
    return;
  }
  format = given;
}

void take_clock(const ReadingKeys& keys, TemperatureOptions& options, Diagnostics& diagnostics) {
  take("--clock", keys.clock, kClocks, options.clock, diagnostics);
  if (!keys.time_zone.empty() && !TimeZone::named(keys.time_zone)) {
    say_wrong(diagnostics, fmt::format("--time-zone: there is no zone '{}'", keys.time_zone),
              "a zone of the IANA list, such as Europe/Dublin or America/Los_Angeles",
              "write the zone of the place where the thermometer stood");
  }
  options.time_zone = keys.time_zone;
  if (!keys.utc_offset.empty()) {
    options.utc_offset_minutes = parse_offset(keys.utc_offset);
    if (!options.utc_offset_minutes) {
      say_wrong(diagnostics, fmt::format("--utc-offset: '{}' is no offset", keys.utc_offset),
                "a sign, two digits of hours, a colon and two of minutes, from -14:59 to +14:59",
                "write it as -08:00 or +05:30");
    }
  }
  const auto zone = keys.time_zone.empty() ? std::nullopt : TimeZone::named(keys.time_zone);
  if (zone && options.utc_offset_minutes &&
      *options.utc_offset_minutes != zone->standard_offset_minutes()) {
    say_wrong(diagnostics,
              fmt::format("--utc-offset {} and --time-zone {}, whose standard time is {}, cannot "
                          "both hold",
                          utc_offset_text(*options.utc_offset_minutes), keys.time_zone,
                          utc_offset_text(zone->standard_offset_minutes())),
              "one clock", "leave --utc-offset out (the zone tells it), or correct --time-zone");
  }
  if (options.clock == Clock::civil && keys.time_zone.empty()) {
    say_wrong(diagnostics, "--clock civil does not say when the clock changed",
              "a time zone, which knows when",
              "add --time-zone with that of the thermometer, as --time-zone Europe/Dublin");
  }
}

}  // namespace

std::optional<TemperatureOptions> options_of(const ReadingKeys& keys, Diagnostics& diagnostics) {
  const int errors = diagnostics.errors();
  TemperatureOptions options;
  take_format(keys.format, options.format, diagnostics);
  take("--unit", keys.unit, kUnits, options.unit, diagnostics);
  take_clock(keys, options, diagnostics);
  take("--date-order", keys.date_order, kDateOrders, options.date_order, diagnostics);
  take("--decimal", keys.decimal, kDecimals, options.decimal, diagnostics);
  take("--hour-stamp", keys.hour_stamp, kHourStamps, options.hour_stamp, diagnostics);
  take_columns(keys.columns, options.columns, diagnostics);
  if (!keys.station.empty()) options.station = keys.station;
  if (diagnostics.errors() > errors) return std::nullopt;
  return options;
}

}  // namespace winterfolio
