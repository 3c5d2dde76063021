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

/// Sets `value` to the meaning of `given`; an empty word leaves it alone.
template <typename Value, std::size_t N>
bool take(std::string_view option, const std::string& given,
          const std::array<Word<Value>, N>& words, std::optional<Value>& value,
          std::string& fault) {
  if (given.empty()) return true;
  std::string known;
  for (const auto& word : words) {
    if (word.word == given) {
      value = word.value;
      return true;
    }
    known += (known.empty() ? "" : "|") + std::string(word.word);
  }
  fault = fmt::format("{}: '{}' is not one of {}", option, given, known);
  return false;
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

bool take_columns(const std::vector<std::string>& given,
                  std::map<std::string, std::string>& columns, std::string& fault) {
  for (const std::string& pair : given) {
    const std::size_t equals = pair.find('=');
    const std::string role = pair.substr(0, equals);
    const bool known = std::find(kRoles.begin(), kRoles.end(), role) != kRoles.end();
    if (equals == std::string::npos || !known || equals + 1 == pair.size()) {
      fault = fmt::format(
          "--columns: '{}' names no column; write role=name or role=number, the role one of {}",
          pair, fmt::join(kRoles, ", "));
      return false;
    }
    columns[role] = pair.substr(equals + 1);
  }
  return true;
}

bool take_format(const std::string& given, std::optional<std::string>& format, std::string& fault) {
  if (given.empty()) return true;
  std::vector<std::string> known;
  for (const TemperatureFormat& row : temperature_formats()) known.emplace_back(row.id);
  if (std::find(known.begin(), known.end(), given) == known.end()) {
    fault = fmt::format("--format: there is no format '{}'{}", given,
                        did_you_mean(nearest_name(given, known)));
    return false;
  }
  format = given;
  return true;
}

}  // namespace

std::optional<TemperatureOptions> options_of(const ReadingKeys& keys, std::string& fault) {
  TemperatureOptions options;
  if (!take_format(keys.format, options.format, fault) ||
      !take("--unit", keys.unit, kUnits, options.unit, fault) ||
      !take("--clock", keys.clock, kClocks, options.clock, fault) ||
      !take("--date-order", keys.date_order, kDateOrders, options.date_order, fault) ||
      !take("--decimal", keys.decimal, kDecimals, options.decimal, fault) ||
      !take("--hour-stamp", keys.hour_stamp, kHourStamps, options.hour_stamp, fault) ||
      !take_columns(keys.columns, options.columns, fault)) {
    return std::nullopt;
  }
  if (!keys.time_zone.empty() && !TimeZone::named(keys.time_zone)) {
    fault = fmt::format("--time-zone: there is no zone '{}'; write an IANA name, as Europe/Dublin",
                        keys.time_zone);
    return std::nullopt;
  }
  options.time_zone = keys.time_zone;
  if (!keys.utc_offset.empty()) {
    options.utc_offset_minutes = parse_offset(keys.utc_offset);
    if (!options.utc_offset_minutes) {
      fault = fmt::format("--utc-offset: '{}' is no offset; write it as -08:00", keys.utc_offset);
      return std::nullopt;
    }
  }
  if (options.clock == Clock::civil && keys.time_zone.empty()) {
    fault =
        "--clock civil needs --time-zone, as Europe/Dublin: only the zone knows when the clock "
        "changed";
    return std::nullopt;
  }
  if (!keys.station.empty()) options.station = keys.station;
  return options;
}

}  // namespace winterfolio
