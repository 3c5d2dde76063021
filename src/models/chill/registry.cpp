// The list of measures.
#include "models/chill/registry.h"

#include <array>
#include <stdexcept>

#include "base/csv_table.h"
#include "models/chill/chill_hours.h"
#include "models/chill/chill_hours_32_45.h"
#include "models/chill/chill_hours_less_warm.h"
#include "models/chill/low_chill.h"
#include "models/chill/north_carolina.h"
#include "models/chill/portions.h"
#include "models/chill/utah.h"
#include "models/chill/utah_daily_positive.h"
#include "models/chill/utah_smoothed.h"

namespace winterfolio {
namespace {

using enum ChillMeasure;

/// At the best constant temperature, 7 °C, a portion takes 28 hours
/// (tests/published/portions_constant_temperature.csv).
constexpr double kPortionsOfHour = 1.0 / 28.0;

// clang-format off
constexpr std::array<ChillModel, kChillMeasureCount> kModels = {{
    // measure            can fall whole  least most of hour    table and function
    {chill_hours,           false,  true,  0,   1,               "src/models/chill/tables/chill_hours.csv",            run_on_chill_hours},
    {chill_hours_32_45,     false,  true,  0,   1,               "src/models/chill/tables/chill_hours_32_45.csv",      run_on_chill_hours_32_45},
    {chill_hours_less_warm, true,   true,  -1,  1,               "src/models/chill/tables/chill_hours_less_warm.csv",  run_on_chill_hours_less_warm},
    {utah,                  true,   false, -1,  1,               "src/models/chill/tables/utah.csv",                   run_on_utah},
    {utah_daily_positive,   false,  false, -1,  1,               "src/models/chill/tables/utah_daily_positive.csv",    run_on_utah_daily_positive},
    {utah_smoothed,         true,   false, -1,  1,               "src/models/chill/tables/utah_smoothed.csv",          run_on_utah_smoothed},
    {north_carolina,        true,   false, -2,  1,               "src/models/chill/tables/north_carolina.csv",         run_on_north_carolina},
    {low_chill,             true,   false, -1,  1,               "src/models/chill/tables/low_chill.csv",              run_on_low_chill},
    {portions,              false,  false, 0,   kPortionsOfHour, "src/models/chill/tables/portions.csv",               run_on_portions},
}};
// clang-format on

constexpr bool in_order() {
  for (std::size_t i = 0; i < kModels.size(); ++i) {
    if (kModels[i].measure != kChillMeasures[i]) return false;
  }
  return true;
}
static_assert(in_order(), "the list must follow base/units.h");

}  // namespace

std::string ChillModel::source() const { return CsvTable::embedded(table).header("source"); }

SourceMark ChillModel::mark() const {
  const std::string mark = CsvTable::embedded(table).header("mark");
  if (mark == "seen") return SourceMark::seen;
  if (mark == "memory") return SourceMark::memory;
  throw std::logic_error(std::string(table) + " carries no mark that is known");
}

std::span<const ChillModel> chill_models() { return kModels; }

const ChillModel& chill_model(ChillMeasure measure) {
  return kModels.at(static_cast<std::size_t>(measure));
}

}  // namespace winterfolio
