// The cells of a table's lines, and what a cell of a temperature column says: a reading with or
// without its unit, or that there is none.
#pragma once

#include <array>
#include <cstdint>
#include <optional>
#include <string_view>

#include "readers/temperature/temperature_file.h"

namespace winterfolio {

/// The cells of one line, as views into it; at most kMost, the rest of the line is the last.
class Cells {
 public:
  static constexpr std::size_t kMost = 256;
  /// `delimiter` 0: runs of blanks. Quotes around a cell are taken off; doubled quotes inside stay
  /// as they are.
  void cut(std::string_view line, char delimiter);
  /// As cut(), but stops after the first `enough` cells.
  void cut(std::string_view line, char delimiter, std::size_t enough);
  std::size_t size() const { return count_; }
  std::string_view operator[](std::size_t i) const {
    return i < count_ ? cells_[i] : std::string_view();
  }

 private:
  std::array<std::string_view, kMost> cells_;
  std::size_t count_ = 0;
};

/// What a cell of a temperature column says.
enum class CellKind { value, blank, unreadable };
struct CellValue {
  CellKind kind = CellKind::unreadable;
  std::int64_t parts = 0;
  std::optional<TemperatureUnit> unit;  ///< written behind the number
  std::string_view suffix;              ///< letters or marks behind the number that are no unit
};
CellValue read_temperature_cell(std::string_view cell, char decimal_mark);

/// Whether a cell says that there is no reading: empty, "M", "NA", "---", "-9999" and their like.
bool is_missing_code(std::string_view cell);

}  // namespace winterfolio
