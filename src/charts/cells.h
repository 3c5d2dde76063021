// A grid of cells that belong to classes, and the outlines of what belongs together: neighbouring
// cells of a class become one shape, so that no seam shows between them, and the border between two
// classes is one exact line.
#pragma once

#include <functional>
#include <vector>

namespace winterfolio {

/// Cells in columns and rows; a class is 0 or more, kOutside is paper and kMissing a hole in the
/// record.
struct CellGrid {
  static constexpr int kOutside = -2;
  static constexpr int kMissing = -1;
  int columns = 0;
  int rows = 0;
  std::vector<int> classes;           ///< column by column
  int at(int column, int row) const;  ///< kOutside beyond the edges
};

/// A corner of cells.
struct Corner {
  int column = 0;
  int row = 0;
  bool operator==(const Corner&) const = default;
};
using Loop = std::vector<Corner>;

/// The closed outlines of all cells for which `inside` holds; corners only, no points along
/// straight runs. Outer outlines run clockwise (as seen, rows downward), holes the other way, so
/// that filling by winding gives exactly the cells.
std::vector<Loop> outlines(const CellGrid& grid, const std::function<bool(int cell_class)>& inside);

/// The lines between cells of class at most `last_inside` and cells above it. Borders to paper and
/// holes are not lines. Each line is open or, where its ends meet, closed with the first corner
/// repeated.
std::vector<Loop> borders(const CellGrid& grid, int last_inside);

/// Equal cells that follow each other in a column, merged: from `row` on, `count` long.
struct Run {
  int column = 0;
  int row = 0;
  int count = 0;
  int cell_class = 0;
  bool operator==(const Run&) const = default;
};
std::vector<Run> runs(const CellGrid& grid);

/// Boxes of whole columns and rows.
struct CellBox {
  int column = 0;
  int row = 0;
  int columns = 0;
  int rows = 0;
  bool operator==(const CellBox&) const = default;
};
/// All cells of one class as few boxes: equal runs in neighbouring columns are joined.
std::vector<CellBox> boxes(const CellGrid& grid, int cell_class);

}  // namespace winterfolio
