// Adds up Utah chill units.
#include "models/chill/utah.h"

#include "models/chill/step_table.h"

namespace winterfolio {
namespace {

const StepTable& weights() {
  static const StepTable table("src/models/chill/tables/utah.csv");
  return table;
}

const StepTable& fahrenheit_weights() {
  static const StepTable table("src/models/chill/tables/utah_fahrenheit.csv");
  return table;
}

void run_on_table(const StepTable& table, const KnownHours& hours, ChillState& state,
                  std::span<double> curve) {
  run_over(hours, state.total, curve,
           [&](double celsius, std::int32_t) { state.total += table.weight(celsius); });
}

void run_on_fahrenheit_table(const KnownHours& hours, ChillState& state, std::span<double> curve) {
  run_on_table(fahrenheit_weights(), hours, state, curve);
}

}  // namespace

UtahUnits utah_of_hour(Celsius mean) { return UtahUnits(weights().weight(mean.degrees())); }

UtahUnits utah_of_hour_by_fahrenheit_table(Celsius mean) {
  return UtahUnits(fahrenheit_weights().weight(mean.degrees()));
}

std::vector<UtahUnits> utah_running_total(const HourlySeries& series, LocalHour from,
                                          LocalHour to) {
  return running_total<ChillMeasure::utah>(run_on_utah, series, from, to);
}

std::vector<UtahUnits> utah_running_total_by_fahrenheit_table(const HourlySeries& series,
                                                              LocalHour from, LocalHour to) {
  return running_total<ChillMeasure::utah>(run_on_fahrenheit_table, series, from, to);
}

void run_on_utah(const KnownHours& hours, ChillState& state, std::span<double> curve) {
  run_on_table(weights(), hours, state, curve);
}

}  // namespace winterfolio
