// What a column of a temperature file holds, from the words over it: "Temp_max (°F)",
// "Lufttemperatur", "Date/Time (LST)".
#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "orchard/orchard.h"

namespace winterfolio {

enum class ColumnRole {
  unknown,
  temperature,  ///< of the air
  minimum,      ///< of the air temperature
  maximum,
  other,  ///< dew point, soil, humidity and whatever else must not be taken for it
  date,   ///< a date, or date and time
  time,   ///< a time of day, or date and time
  year,
  month,
  day,
  hour,
  minute,
  day_of_year,
  station,
  flag,
};

struct HeaderMeaning {
  ColumnRole role = ColumnRole::unknown;
  int rank = 0;  ///< among columns of one role the highest is meant; equals cannot be told apart
  std::optional<TemperatureUnit> unit;
  bool tenths = false;                    ///< "0.1 degrees Celsius"
  bool utc = false;                       ///< "Time (UTC)"
  bool local_standard = false;            ///< "LST"
  std::optional<int> utc_offset_minutes;  ///< "Date Time, GMT-08:00"
  std::optional<DateOrder> date_order;    ///< "Date (MM/DD/YYYY)"
};

HeaderMeaning meaning_of(std::string_view header_cell);

/// A cell of a line of units under the header ("°C", "degF", "[K]"); nothing if it is no unit of
/// temperature.
std::optional<TemperatureUnit> unit_named(std::string_view cell);

/// Whether a column under this word holds the units of the readings beside it: "Unit", "Einheit".
bool names_units(std::string_view header_cell);

/// The words of a header cell as they are looked up: lower case, no accents, units and camel case
/// cut apart.
std::vector<std::string> header_tokens(std::string_view cell);

}  // namespace winterfolio
