// FAO-56 and almanac sun.
#include "weather/solar.h"

#include <algorithm>
#include <cmath>
#include <numbers>

namespace winterfolio {
namespace {

using std::numbers::pi;

constexpr double radians(double degrees) { return degrees * pi / 180.0; }

/// Beyond the polar circles the sun does not cross the horizon: 0 or pi.
double clamped_acos(double cosine) { return std::acos(std::clamp(cosine, -1.0, 1.0)); }

}  // namespace

FaoSun fao_sun(double latitude, int day_of_year) {
  constexpr double kSolarConstant = 0.0820;  // MJ/m2/min
  const double phi = radians(latitude);
  const double turn = 2.0 * pi * day_of_year / 365.0;
  FaoSun sun{};
  sun.inverse_distance = 1.0 + 0.033 * std::cos(turn);
  sun.declination = 0.409 * std::sin(turn - 1.39);
  sun.sunset_angle = clamped_acos(-std::tan(phi) * std::tan(sun.declination));
  sun.extraterrestrial = 24.0 * 60.0 / pi * kSolarConstant * sun.inverse_distance *
                         (sun.sunset_angle * std::sin(phi) * std::sin(sun.declination) +
                          std::cos(phi) * std::cos(sun.declination) * std::sin(sun.sunset_angle));
  sun.day_length = 24.0 / pi * sun.sunset_angle;
  return sun;
}

AlmanacSun almanac_sun(double latitude, int day_of_year, double hour) {
  constexpr double kZenith = 90.833;  // degrees: refraction and the sun's radius
  const double g = 2.0 * pi / 365.0 * (day_of_year - 1 + (hour - 12.0) / 24.0);
  AlmanacSun sun{};
  sun.equation_of_time = 229.18 * (0.000075 + 0.001868 * std::cos(g) - 0.032077 * std::sin(g) -
                                   0.014615 * std::cos(2.0 * g) - 0.040849 * std::sin(2.0 * g));
  sun.declination = 0.006918 - 0.399912 * std::cos(g) + 0.070257 * std::sin(g) -
                    0.006758 * std::cos(2.0 * g) + 0.000907 * std::sin(2.0 * g) -
                    0.002697 * std::cos(3.0 * g) + 0.00148 * std::sin(3.0 * g);
  const double phi = radians(latitude);
  sun.half_day =
      clamped_acos(std::cos(radians(kZenith)) / (std::cos(phi) * std::cos(sun.declination)) -
                   std::tan(phi) * std::tan(sun.declination));
  sun.day_length = 24.0 / pi * sun.half_day;
  return sun;
}

double AlmanacSun::sunrise_utc(double longitude) const {
  return 720.0 - 4.0 * (longitude + half_day * 180.0 / pi) - equation_of_time;
}

double AlmanacSun::sunset_utc(double longitude) const {
  return 720.0 - 4.0 * (longitude - half_day * 180.0 / pi) - equation_of_time;
}

}  // namespace winterfolio
