// The rows of a plain table: what stands between its columns, which lines are rows with a date, and
// what the cells of each column look like.
#pragma once

#include <cstdint>
#include <optional>
#include <set>
#include <string_view>
#include <vector>

#include "readers/temperature/cells.h"

namespace winterfolio {

/// A column, counted from 0; or none.
using Column = std::optional<std::size_t>;

struct HeadLine {
  std::int64_t number;
  std::string_view text;
};

/// What the cells of one column look like, over all rows.
struct ColumnProfile {
  int rows = 0;
  int dates = 0;
  int with_time = 0;
  int clocks = 0;
  int halves = 0;   ///< AM or PM
  int numbers = 0;  ///< with the table's decimal mark
  int whole = 0;    ///< numbers without decimals
  int blanks = 0;
  bool counting = true;           ///< each number one more than the one before
  std::set<std::int64_t> values;  ///< up to a few different numbers
  std::optional<std::int64_t> last;

  bool mostly(int part) const { return rows > 0 && part * 5 >= (rows - blanks) * 4 && part > 0; }
};

/// One way to cut the lines, with what came of it.
struct TableCut {
  char delimiter = ',';
  char decimal = '.';
  std::size_t width = 0;          ///< cells of most rows
  std::vector<std::size_t> rows;  ///< indexes into the lines
  std::vector<ColumnProfile> columns;
  bool serial = false;         ///< dates are a spreadsheet's serial numbers
  bool date_in_parts = false;  ///< year, month, day stand in columns of their own
  Column year, month, day, day_of_year;

  bool is_part(std::size_t c) const {
    return date_in_parts && (year == Column(c) || month == Column(c) || day == Column(c) ||
                             day_of_year == Column(c));
  }
};

/// The first lines of a file, as views into `head`.
std::vector<HeadLine> lines_of(std::string_view head);

/// The way to cut the lines under which most of them are rows; nothing where none has any.
std::optional<TableCut> best_cut(const std::vector<HeadLine>& lines,
                                 const TemperatureOptions& options);

bool has_digit(std::string_view text);

/// A whole number of at most four digits; nothing otherwise.
std::optional<int> small_integer(std::string_view cell);

}  // namespace winterfolio
