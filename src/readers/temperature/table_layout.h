// How a plain table of readings is laid out: what stands between its columns, where its rows begin,
// and which column holds what. Found out from the first lines, once, before any reading is taken.
#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "base/diagnostic.h"
#include "readers/temperature/header_words.h"
#include "readers/temperature/stamp.h"
#include "readers/temperature/table_rows.h"
#include "readers/temperature/temperature_file.h"

namespace winterfolio {

struct TableLayout {
  char delimiter = ',';
  char decimal = '.';
  Column stamp;  ///< date and time in one
  Column date;
  Column time;
  Column half_of_day;  ///< AM or PM, where it stands in a column of its own
  Column year, month, day, hour, minute, day_of_year;
  bool serial = false;  ///< the stamp is a spreadsheet's serial number
  Column temperature, minimum, maximum, station;
  /// Where a row says what it measures: the column, and the words of those that are air
  /// temperatures.
  Column quantity;
  std::string air_temperature;
  bool daily = false;
  std::optional<TemperatureUnit> unit;
  bool tenths = false;
  /// Commas stand between the columns and within the numbers of the last one: "01.11.2026
  /// 06:00,7,2".
  bool comma_everywhere = false;
  std::optional<Clock> clock;
  /// The clock that the words over the time name: "Date Time, GMT-08:00", "Time (MST)".
  std::optional<int> utc_offset_minutes;
  const ZoneLetters* zone_letters = nullptr;
  DateOrders orders = DateOrders::only(DateOrder::ymd);
  std::int64_t first_row = 1;       ///< line number of the first row
  std::vector<std::string> header;  ///< cells over the rows; empty if there are none
  std::vector<std::string>
      other_temperatures;  ///< columns left aside: dew point, soil and the like

  std::size_t columns_needed() const;
  std::string name_of(std::size_t column) const;  ///< "column 3 (temp)"
};

/// The layout of a table that begins with `head`. Nothing if it is no table with times; nothing,
/// and one error, if it is one but cannot be understood without a key.
std::optional<TableLayout> find_table_layout(std::string_view head, const std::string& file,
                                             const TemperatureOptions& options,
                                             Diagnostics& diagnostics);

/// Whether the head holds rows with a date each, without looking into what they mean.
bool looks_like_table(std::string_view head);

}  // namespace winterfolio
