// Finds which column of a table holds what, a step at a time: columns that the person named, then
// dates and times, then temperatures and their unit. One object a table; the steps stand in
// table_times.cpp, table_temperatures.cpp and table_layout.cpp.
#pragma once

#include <map>
#include <string>
#include <vector>

#include "readers/temperature/table_header.h"
#include "readers/temperature/table_layout.h"

namespace winterfolio {

/// Finds what the columns hold, with the words over them and what stands in them. All that it is
/// given must outlive it.
class ColumnFinder {
 public:
  ColumnFinder(const std::vector<HeadLine>& lines, const TableCut& table, const std::string& file,
               const TemperatureOptions& options, Diagnostics& diagnostics);
  std::optional<TableLayout> find();

 private:
  void fail(std::string_view id, std::string message, std::string expected, std::string mend);
  ColumnRole role(std::size_t column) const { return header_.role(column); }
  const HeaderMeaning& meaning(std::size_t column) const { return header_.meaning(column); }
  const ColumnProfile& profile(std::size_t column) const { return table_.columns[column]; }
  std::size_t width() const { return table_.columns.size(); }

  /// Columns that the person named, by number from 1 or by the words over them.
  bool take_named_columns();
  Column column_named(const std::string& name) const;

  // table_times.cpp
  bool has_time() const;
  /// A stamp's column by header, else the first with dates; and the time of day beside it.
  void find_times();
  void find_parts_by_header();
  void find_time_of_parts(std::size_t next);
  /// A date without a time of day: the time may stand in a column of its own.
  void settle_stamp();
  /// Whether the same text stands in a column of most neighbouring rows.
  bool rows_share(std::size_t column) const;
  void find_time_beside(std::size_t column);
  void find_half_of_day();
  /// A table is daily if its rows have no time of day, or all the same.
  void decide_daily();
  /// Which orders its dates may have: from the header, or all that the first rows leave.
  void find_orders();

  // table_temperatures.cpp
  bool holds_numbers(std::size_t c) const;
  /// The best column of a role. False, with an error, if two are equally good.
  bool best_of(ColumnRole wanted, const char* key, const char* words, Column& found);
  std::string mend_columns(const char* key, std::size_t column) const;
  /// A column in which each row says what it measures ("air_temperature", "relative_humidity"):
  /// only the rows of the air temperature are readings. False, with an error, if two kinds of rows
  /// could be meant.
  bool find_quantity();
  std::map<std::string, HeaderMeaning> kinds_in(std::size_t column) const;
  /// The first row that is a reading of the air temperature.
  std::size_t reading_row() const;
  bool find_temperatures();
  bool fail_daily();
  /// Over two dozen columns stand times of day: "00:00", "H07", "13".
  bool hours_side_by_side() const;
  /// Without words: the one column of numbers that is neither a running number nor always the same.
  bool find_temperature_by_content();
  /// The unit in a column's header where nothing but that is understood.
  std::optional<TemperatureUnit> degrees_over(std::size_t column) const;
  /// Rows with one cell more than the header, whole numbers in the last two: decimal commas between
  /// commas.
  bool settle_commas();
  /// A unit that stands in a column of its own, or in a line before the rows that explains the
  /// column's word.
  void find_unit_elsewhere();
  void list_others();

  bool is_taken(std::size_t c) const;
  void find_station();

  const std::vector<HeadLine>& lines_;
  const TableCut& table_;
  const std::string& file_;
  const TemperatureOptions& options_;
  Diagnostics& diagnostics_;
  TableLayout layout_;
  TableHeader header_;
  Column named_time_;
};

}  // namespace winterfolio
