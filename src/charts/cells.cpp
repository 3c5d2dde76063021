#include "charts/cells.h"

#include <algorithm>
#include <array>
#include <cstdint>

namespace winterfolio {
namespace {

// Directions in the order of a right turn: right, down, left, up.
constexpr std::array<Corner, 4> kSteps = {{{1, 0}, {0, 1}, {-1, 0}, {0, -1}}};

/// The one-cell edges that bound the inside, walked with the inside at the right hand, by the
/// corner they start from.
class Edges {
 public:
  Edges(const CellGrid& grid, const std::function<bool(int)>& inside)
      : width_(grid.columns + 1),
        from_(static_cast<std::size_t>(width_) * static_cast<std::size_t>(grid.rows + 1), 0) {
    // Asked once a cell; a rim of paper around the grid spares looking for its edges.
    const auto column_step = static_cast<std::size_t>(grid.rows) + 2;
    std::vector<std::uint8_t> in(column_step * (static_cast<std::size_t>(grid.columns) + 2),
                                 inside(CellGrid::kOutside));
    const auto place = [&](int column, int row) {
      return static_cast<std::size_t>(column + 1) * column_step + static_cast<std::size_t>(row + 1);
    };
    for (int c = 0; c < grid.columns; ++c)
      for (int r = 0; r < grid.rows; ++r) in[place(c, r)] = inside(grid.at(c, r));
    for (int c = 0; c < grid.columns; ++c) {
      for (int r = 0; r < grid.rows; ++r) {
        const std::size_t at = place(c, r);
        if (!in[at]) continue;
        if (!in[at - 1]) add({c, r}, 0);
        if (!in[at + column_step]) add({c + 1, r}, 1);
        if (!in[at + 1]) add({c + 1, r + 1}, 2);
        if (!in[at - column_step]) add({c, r + 1}, 3);
      }
    }
  }

  bool any(Corner from) const { return from_[index(from)] != 0; }
  bool has(Corner from, int direction) const { return (from_[index(from)] >> direction & 1) != 0; }
  void take(Corner from, int direction) {
    from_[index(from)] &= static_cast<std::uint8_t>(~(1 << direction));
  }

  /// Where the walk goes on after an edge in `direction`: a right turn first, so that cells that
  /// touch only at a corner stay apart.
  int next(Corner at, int direction) const {
    for (const int turn : {1, 0, 3}) {
      const int then = (direction + turn) % 4;
      if (has(at, then)) return then;
    }
    return -1;
  }

  int width() const { return width_; }
  int height() const { return static_cast<int>(from_.size()) / width_; }

 private:
  std::size_t index(Corner c) const { return static_cast<std::size_t>(c.row * width_ + c.column); }
  void add(Corner from, int direction) {
    from_[index(from)] |= static_cast<std::uint8_t>(1 << direction);
  }

  int width_;
  std::vector<std::uint8_t> from_;
};

Corner moved(Corner at, int direction) {
  const Corner step = kSteps[static_cast<std::size_t>(direction)];
  return {at.column + step.column, at.row + step.row};
}

/// A closed walk over one-cell edges, as the corner each starts from and its direction.
struct Walk {
  std::vector<Corner> corners;
  std::vector<int> directions;
};

std::vector<Walk> walks(const CellGrid& grid, const std::function<bool(int)>& inside) {
  Edges edges(grid, inside);
  std::vector<Walk> all;
  for (int row = 0; row < edges.height(); ++row) {
    for (int column = 0; column < edges.width(); ++column) {
      if (!edges.any({column, row})) continue;
      for (int start = 0; start < 4; ++start) {
        if (!edges.has({column, row}, start)) continue;
        Walk walk;
        Corner at{column, row};
        int direction = start;
        while (direction >= 0) {
          walk.corners.push_back(at);
          walk.directions.push_back(direction);
          edges.take(at, direction);
          at = moved(at, direction);
          direction = edges.next(at, direction);
        }
        all.push_back(std::move(walk));
      }
    }
  }
  return all;
}

/// The classes at the right and the left hand of an edge.
std::array<int, 2> beside(const CellGrid& grid, Corner at, int direction) {
  switch (direction) {
    case 0:
      return {grid.at(at.column, at.row), grid.at(at.column, at.row - 1)};
    case 1:
      return {grid.at(at.column - 1, at.row), grid.at(at.column, at.row)};
    case 2:
      return {grid.at(at.column - 1, at.row - 1), grid.at(at.column - 1, at.row)};
    default:
      return {grid.at(at.column, at.row - 1), grid.at(at.column - 1, at.row - 1)};
  }
}

}  // namespace

int CellGrid::at(int column, int row) const {
  if (column < 0 || row < 0 || column >= columns || row >= rows) return kOutside;
  return classes[static_cast<std::size_t>(column * rows + row)];
}

std::vector<Loop> outlines(const CellGrid& grid, const std::function<bool(int)>& inside) {
  std::vector<Loop> loops;
  for (const Walk& walk : walks(grid, inside)) {
    Loop loop;
    const std::size_t n = walk.corners.size();
    for (std::size_t i = 0; i < n; ++i) {
      if (walk.directions[i] != walk.directions[(i + n - 1) % n]) loop.push_back(walk.corners[i]);
    }
    loops.push_back(std::move(loop));
  }
  return loops;
}

std::vector<Loop> borders(const CellGrid& grid, int last_inside) {
  const auto inside = [&](int c) { return c >= 0 && c <= last_inside; };
  std::vector<Loop> lines;
  for (const Walk& walk : walks(grid, inside)) {
    const std::size_t n = walk.corners.size();
    std::vector<bool> drawn(n);
    for (std::size_t i = 0; i < n; ++i)
      drawn[i] = beside(grid, walk.corners[i], walk.directions[i])[1] > last_inside;
    // Begin where a line begins; a loop drawn whole begins at a corner.
    std::size_t start = 0;
    for (std::size_t i = 0; i < n; ++i) {
      const std::size_t before = (i + n - 1) % n;
      const bool begins = drawn[i] && !drawn[before];
      const bool turns = drawn[i] && walk.directions[i] != walk.directions[before];
      if (begins || (turns && start == 0 &&
                     std::all_of(drawn.begin(), drawn.end(), [](bool d) { return d; }))) {
        start = i;
        break;
      }
    }
    Loop line;
    for (std::size_t k = 0; k < n; ++k) {
      const std::size_t i = (start + k) % n;
      if (!drawn[i]) {
        if (!line.empty()) lines.push_back(std::move(line));
        line.clear();
        continue;
      }
      if (line.empty()) line.push_back(walk.corners[i]);
      const Corner end = moved(walk.corners[i], walk.directions[i]);
      const bool goes_straight =
          line.size() > 1 && k > 0 && walk.directions[i] == walk.directions[(i + n - 1) % n];
      if (goes_straight)
        line.back() = end;
      else
        line.push_back(end);
    }
    if (!line.empty()) lines.push_back(std::move(line));
  }
  return lines;
}

std::vector<Run> runs(const CellGrid& grid) {
  std::vector<Run> out;
  for (int c = 0; c < grid.columns; ++c) {
    for (int r = 0; r < grid.rows; ++r) {
      const int cell_class = grid.at(c, r);
      if (cell_class == CellGrid::kOutside) continue;
      if (r > 0 && grid.at(c, r - 1) == cell_class)
        ++out.back().count;
      else
        out.push_back({c, r, 1, cell_class});
    }
  }
  return out;
}

std::vector<CellBox> boxes(const CellGrid& grid, int cell_class) {
  std::vector<CellBox> out;
  for (const Run& run : runs(grid)) {
    if (run.cell_class != cell_class) continue;
    const auto joins = std::find_if(out.begin(), out.end(), [&](const CellBox& b) {
      return b.column + b.columns == run.column && b.row == run.row && b.rows == run.count;
    });
    if (joins != out.end())
      ++joins->columns;
    else
      out.push_back({run.column, run.row, 1, run.count});
  }
  return out;
}

}  // namespace winterfolio
