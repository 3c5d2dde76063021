// Adds up growing degree hours.
#include "models/heat/degree_hours.h"

#include <algorithm>
#include <numbers>

#include "models/constants.h"

namespace winterfolio {
namespace {

constexpr std::string_view kLinear = "src/models/heat/tables/degree_hours_linear.csv";
constexpr std::string_view kCurved = "src/models/heat/tables/degree_hours_curved.csv";

struct LinearForm {
  double base = constant(kLinear, "base");
  double ceiling = constant(kLinear, "ceiling");
};

struct CurvedForm {
  double base = constant(kCurved, "base");
  double optimum = constant(kCurved, "optimum");
  double critical = constant(kCurved, "critical");
  double stress_factor = constant(kCurved, "stress_factor");
};

}  // namespace

GrowingDegreeHours linear_degree_hours(Celsius mean) {
  static const LinearForm form;
  return GrowingDegreeHours(std::clamp(mean.degrees(), form.base, form.ceiling) - form.base);
}

GrowingDegreeHours curved_degree_hours(Celsius mean) {
  static const CurvedForm form;
  constexpr double pi = std::numbers::pi;
  const double t = mean.degrees();
  const double span = form.stress_factor * (form.optimum - form.base);
  if (t <= form.base || t >= form.critical) return GrowingDegreeHours(0.0);
  if (t <= form.optimum) {
    return GrowingDegreeHours(
        span / 2.0 * (1.0 + std::cos(pi + pi * (t - form.base) / (form.optimum - form.base))));
  }
  return GrowingDegreeHours(span * (1.0 + std::cos(pi / 2.0 + pi / 2.0 * (t - form.optimum) /
                                                                  (form.critical - form.optimum))));
}

GrowingDegreeHours degree_hours(const HourlySeries& series, LocalHour from, LocalHour to,
                                DegreeHoursOfHour of_hour) {
  double sum = 0.0;
  for (LocalHour hour = from; hour < to; hour = hour + 1) {
    if (const auto reading = series.at(hour)) sum += of_hour(reading->mean).degree_hours();
  }
  return GrowingDegreeHours(sum);
}

}  // namespace winterfolio
