// Turns a table of classes into edges that can be counted.
#include "models/chill/step_table.h"

#include <fmt/format.h>

#include <cmath>
#include <limits>
#include <stdexcept>

#include "base/csv_table.h"

namespace winterfolio {
namespace {

constexpr double kNever = std::numeric_limits<double>::infinity();

std::optional<double> end_of(const CsvRow& row, std::string_view which, bool fahrenheit) {
  const auto value = row.number(std::string(which) + (fahrenheit ? "_f" : "_c"));
  if (!value || !fahrenheit) return value;
  return Celsius::from_fahrenheit(*value).degrees();
}

bool holds(const CsvRow& row, std::string_view end) {
  const std::string& ends = row.text("holds");
  return ends == end || ends == "both";
}

/// Above which temperature a class begins, whose lower edge belongs to it or to the class below.
double beginning_above(double edge, bool belongs_below) {
  if (belongs_below) return edge + kLineSlack.degrees();
  return std::nextafter(edge - kLineSlack.degrees(), -kNever);
}

}  // namespace

StepTable::StepTable(std::string_view path) {
  const CsvTable table = CsvTable::embedded(path);
  const auto fail = [&](std::size_t row, std::string_view why) {
    throw std::logic_error(fmt::format("{}:{}: {}", path, table.row(row).line(), why));
  };
  above_.fill(kNever);
  if (table.size() < 2 || table.size() > kMostEdges + 1)
    throw std::logic_error(fmt::format("{}: too few or too many classes", path));
  const bool fahrenheit = table.columns().front() == "from_f";
  for (std::size_t i = 0; i < table.size(); ++i) {
    const CsvRow row = table.row(i);
    weight_[i] = row.required_number("weight");
    const auto from = end_of(row, "from", fahrenheit);
    if (from.has_value() != (i > 0)) fail(i, "only the coldest class has no lower end");
    if (i == 0) continue;
    const CsvRow below = table.row(i - 1);
    const auto edge = end_of(below, "to", fahrenheit);
    if (edge != from) fail(i, "does not begin where the class below ends");
    if (holds(row, "from") == holds(below, "to"))
      fail(i, "its lower edge must belong to exactly one class");
    above_[i - 1] = beginning_above(*from, holds(below, "to"));
    if (i > 1 && above_[i - 2] >= above_[i - 1]) fail(i, "classes must grow warmer");
  }
  if (end_of(table.row(table.size() - 1), "to", fahrenheit))
    fail(table.size() - 1, "the warmest class has no upper end");
}

}  // namespace winterfolio
