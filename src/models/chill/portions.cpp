// Runs the Dynamic Model.
#include "models/chill/portions.h"

#include "models/constants.h"

namespace winterfolio {
namespace {

constexpr std::string_view kTable = "src/models/chill/tables/portions.csv";
constexpr double kThreshold = 1.0;  // x is scaled so

struct DynamicConstants {
  double e0 = constant(kTable, "e0");
  double e1 = constant(kTable, "e1");
  double a0 = constant(kTable, "a0");
  double a1 = constant(kTable, "a1");
  double slope = constant(kTable, "slope");
  double transfer = constant(kTable, "transfer_temperature");
  double kelvin_offset = constant(kTable, "kelvin_offset");

  double banked(double kelvin) const {
    const double sr = std::exp(slope * transfer * (kelvin - transfer) / kelvin);
    return sr / (1.0 + sr);
  }
};

const DynamicConstants& constants() {
  static const DynamicConstants table;
  return table;
}

}  // namespace

DynamicHour dynamic_hour(Celsius mean) {
  const DynamicConstants& c = constants();
  const double kelvin = mean.degrees() + c.kelvin_offset;
  const double k1 = c.a1 * std::exp(-c.e1 / kelvin);
  const double k0 = c.a0 * std::exp(-c.e0 / kelvin);
  return {k0 / k1, std::exp(-k1), c.banked(kelvin)};
}

std::vector<DynamicHour> dynamic_hours(const KnownHours& hours) {
  std::vector<DynamicHour> dynamic;
  dynamic.reserve(hours.celsius().size());
  for (const double celsius : hours.celsius()) dynamic.push_back(dynamic_hour(Celsius(celsius)));
  return dynamic;
}

ChillState run_on_dynamic(std::span<const DynamicHour> hours, ChillState state) {
  for (const DynamicHour& hour : hours) {
    const double x = hour.steady - (hour.steady - state.carried) * hour.kept;
    const double banked = x < kThreshold ? 0.0 : hour.banked * x;
    state.total += banked;
    state.carried = x - banked;
  }
  return state;
}

std::vector<ChillPortions> portions_running_total(const HourlySeries& series, LocalHour from,
                                                  LocalHour to) {
  return running_total<ChillMeasure::portions>(run_on_portions, series, from, to);
}

void run_on_portions(const KnownHours& hours, ChillState& state, std::span<double> curve) {
  const DynamicConstants& c = constants();
  run_over(hours, state.total, curve, [&](double celsius, std::int32_t) {
    const double kelvin = celsius + c.kelvin_offset;
    const double k1 = c.a1 * std::exp(-c.e1 / kelvin);
    const double steady = c.a0 * std::exp(-c.e0 / kelvin) / k1;
    double x = steady - (steady - state.carried) * std::exp(-k1);
    if (x >= kThreshold) {  // few hours reach it: their share is worked out only then
      const double banked = c.banked(kelvin) * x;
      state.total += banked;
      x -= banked;
    }
    state.carried = x;
  });
}

}  // namespace winterfolio
