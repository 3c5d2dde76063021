// Weights of one hour by classes of temperature, as most measures of cold have them.
//
// A table's rows follow one another from the coldest class up; `holds` says which of its two ends
// belong to a class, so that every edge belongs to exactly one. A reading within a millionth of a
// degree of an edge counts as on it: then 45 °F and 7.2222 °C weigh the same.
#pragma once

#include <array>
#include <string_view>

#include "base/units.h"

namespace winterfolio {

class StepTable {
 public:
  /// Reads an embedded table with columns from_c, to_c (or from_f, to_f), holds, weight. Throws
  /// std::logic_error if classes overlap, leave a gap or share an edge.
  explicit StepTable(std::string_view path);

  /// Weight of one hour with mean temperature `celsius`; defined for every finite temperature.
  double weight(double celsius) const {
    std::size_t step = 0;
    for (const double edge : above_) step += celsius > edge ? 1 : 0;
    return weight_[step];
  }

 private:
  static constexpr std::size_t kMostEdges = 8;
  std::array<double, kMostEdges>
      above_;  ///< the next class begins above this; unused ones are never reached
  std::array<double, kMostEdges + 1> weight_{};
};

}  // namespace winterfolio
