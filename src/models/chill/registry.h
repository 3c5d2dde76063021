// Every measure of winter cold that the program knows, one row each: reports, tallies and help read
// this list.
//
// To add a measure: its files beside this one, its table in tables/, its name in base/units.h and
// words, and a row in registry.cpp.
#pragma once

#include <span>
#include <string>
#include <string_view>

#include "models/chill/running_total.h"

namespace winterfolio {

/// How a figure came to the program: read on a page, or remembered only. Memory never decides.
enum class SourceMark { seen, memory };

struct ChillModel {
  ChillMeasure measure;
  bool can_fall;         ///< warm hours can take away what was counted, from one day to the next
  bool whole_numbers;    ///< counts hours: printed without decimals
  double least_of_hour;  ///< what one hour can add or take at the utmost; for portions in the long
                         ///< run, give or take one
  double most_of_hour;
  std::string_view table;
  RunOn run_on;

  std::string source() const;  ///< as the table's header has it
  SourceMark mark() const;     ///< of the measure's own table, not of a tree's requirement
};

/// The measures, in the order of base/units.h.
std::span<const ChillModel> chill_models();
const ChillModel& chill_model(ChillMeasure measure);

}  // namespace winterfolio
