// Cells of one class become one shape: the outlines hold exactly the cells, the borders run exactly
// between classes, and merged runs and boxes cover every cell once.
#include <cstdlib>
#include <random>
#include <set>

#include "charts/cells.h"
#include "support/catch.h"

using namespace winterfolio;

namespace {

/// A grid written as it looks: digits are classes, '.' a hole, ' ' paper.
CellGrid grid_of(const std::vector<std::string>& rows) {
  CellGrid grid{static_cast<int>(rows[0].size()), static_cast<int>(rows.size()), {}};
  for (int c = 0; c < grid.columns; ++c) {
    for (int r = 0; r < grid.rows; ++r) {
      const char cell = rows[static_cast<std::size_t>(r)][static_cast<std::size_t>(c)];
      grid.classes.push_back(cell == '.'   ? CellGrid::kMissing
                             : cell == ' ' ? CellGrid::kOutside
                                           : cell - '0');
    }
  }
  return grid;
}

CellGrid random_grid(std::mt19937& dice) {
  CellGrid grid{1 + static_cast<int>(dice() % 12), 1 + static_cast<int>(dice() % 12), {}};
  for (int i = 0; i < grid.columns * grid.rows; ++i)
    grid.classes.push_back(static_cast<int>(dice() % 6) - 2);
  return grid;
}

/// Signed area of a loop in cells: positive for clockwise as seen, rows downward. The shoelace
/// formula.
int doubled_area(const Loop& loop) {
  int sum = 0;
  for (std::size_t i = 0; i < loop.size(); ++i) {
    const Corner a = loop[i], b = loop[(i + 1) % loop.size()];
    sum += a.column * b.row - b.column * a.row;
  }
  return sum;
}

/// Times a loop winds around the middle of a cell: crossings of a ray to the right.
int winding(const std::vector<Loop>& loops, int column, int row) {
  int turns = 0;
  for (const Loop& loop : loops) {
    for (std::size_t i = 0; i < loop.size(); ++i) {
      const Corner a = loop[i], b = loop[(i + 1) % loop.size()];
      if (a.column != b.column || a.column <= column) continue;
      if (a.row <= row && b.row > row) ++turns;
      if (b.row <= row && a.row > row) --turns;
    }
  }
  return turns;
}

int length_of(const Loop& line) {
  int sum = 0;
  for (std::size_t i = 1; i < line.size(); ++i) {
    sum += std::abs(line[i].column - line[i - 1].column) + std::abs(line[i].row - line[i - 1].row);
  }
  return sum;
}

}  // namespace

TEST_CASE("a block of cells is one loop of four corners, and its hole a second") {
  const CellGrid ring = grid_of({"111", "1 1", "111"});
  const auto loops = outlines(ring, [](int c) { return c == 1; });
  REQUIRE(loops.size() == 2);
  CHECK(loops[0].size() == 4);
  CHECK(loops[1].size() == 4);
  CHECK(doubled_area(loops[0]) == 18);
  CHECK(doubled_area(loops[1]) == -2);
}

TEST_CASE("cells that meet at a corner only stay two shapes") {
  const auto loops = outlines(grid_of({"1 ", " 1"}), [](int c) { return c == 1; });
  CHECK(loops.size() == 2);
}

TEST_CASE("outlines hold exactly the cells asked for, on any grid") {
  std::mt19937 dice(5);
  for (int round = 0; round < 300; ++round) {
    const CellGrid grid = random_grid(dice);
    const auto inside = [](int c) { return c >= 0 && c <= 1; };
    const auto loops = outlines(grid, inside);
    int cells = 0, area = 0;
    for (const Loop& loop : loops) area += doubled_area(loop);
    for (int c = 0; c < grid.columns; ++c) {
      for (int r = 0; r < grid.rows; ++r) {
        const bool in = inside(grid.at(c, r));
        cells += in ? 1 : 0;
        CHECK((winding(loops, c, r) != 0) == in);
      }
    }
    CHECK(std::abs(area) == 2 * cells);
  }
}

TEST_CASE("borders run between classes, not along paper or holes") {
  // Three cold cells beside warm ones, a hole between them and the last.
  const auto lines = borders(grid_of({"0011", "0.11", "0011"}), 0);
  int length = 0;
  for (const Loop& line : lines) length += length_of(line);
  CHECK(length == 2);
}

TEST_CASE("borders are as long as the edges between colder and warmer cells, on any grid") {
  std::mt19937 dice(6);
  for (int round = 0; round < 300; ++round) {
    const CellGrid grid = random_grid(dice);
    for (const int last : {0, 1, 2}) {
      int edges = 0;
      const auto apart = [&](int a, int b) {
        return a >= 0 && b >= 0 && (a <= last) != (b <= last);
      };
      for (int c = 0; c < grid.columns; ++c) {
        for (int r = 0; r < grid.rows; ++r) {
          edges += apart(grid.at(c, r), grid.at(c + 1, r)) ? 1 : 0;
          edges += apart(grid.at(c, r), grid.at(c, r + 1)) ? 1 : 0;
        }
      }
      int length = 0;
      for (const Loop& line : borders(grid, last)) {
        REQUIRE(line.size() >= 2);
        length += length_of(line);
        // No corner without a turn.
        for (std::size_t i = 2; i < line.size(); ++i) {
          const bool along = line[i].column == line[i - 1].column;
          CHECK(along != (line[i - 1].column == line[i - 2].column));
        }
      }
      CHECK(length == edges);
    }
  }
}

TEST_CASE("equal neighbours in a column are one run, and runs give the grid back") {
  CHECK(runs(grid_of({"1", "1", "2", "2", "1"})) ==
        std::vector<Run>{{0, 0, 2, 1}, {0, 2, 2, 2}, {0, 4, 1, 1}});
  std::mt19937 dice(7);
  for (int round = 0; round < 200; ++round) {
    const CellGrid grid = random_grid(dice);
    CellGrid again = grid;
    again.classes.assign(grid.classes.size(), CellGrid::kOutside);
    for (const Run& run : runs(grid)) {
      for (int r = run.row; r < run.row + run.count; ++r) {
        again.classes[static_cast<std::size_t>(run.column * grid.rows + r)] = run.cell_class;
      }
      CHECK(grid.at(run.column, run.row + run.count) != run.cell_class);
    }
    CHECK(again.classes == grid.classes);
  }
}

TEST_CASE("holes become few boxes that cover each missing cell once") {
  CHECK(boxes(grid_of({"1..1", "1..1"}), CellGrid::kMissing) == std::vector<CellBox>{{1, 0, 2, 2}});
  std::mt19937 dice(8);
  for (int round = 0; round < 200; ++round) {
    const CellGrid grid = random_grid(dice);
    std::multiset<int> covered;
    for (const CellBox& box : boxes(grid, CellGrid::kMissing)) {
      for (int c = box.column; c < box.column + box.columns; ++c) {
        for (int r = box.row; r < box.row + box.rows; ++r) covered.insert(c * grid.rows + r);
      }
    }
    std::multiset<int> missing;
    for (std::size_t i = 0; i < grid.classes.size(); ++i) {
      if (grid.classes[i] == CellGrid::kMissing) missing.insert(static_cast<int>(i));
    }
    CHECK(covered == missing);
  }
}
