// How long the day is and when the sun rises, from latitude and day of the year.
//
// Two published forms side by side: FAO-56, geometric, used with Linvill's curve; and the almanac
// form with refraction and the sun's radius, for times of sunrise that are printed.
#pragma once

namespace winterfolio {

/// FAO-56 (Allen, Pereira, Raes & Smith 1998, ch. 3), by day of the year 1 to 366 and latitude in
/// degrees, south negative. Beyond the polar circles the arccosine is clamped: no day, or 24 hours.
struct FaoSun {
  double inverse_distance;  ///< relative Earth-Sun, eq. 23
  double declination;       ///< [rad], eq. 24
  double sunset_angle;      ///< [rad], eq. 25, 0 to pi
  double extraterrestrial;  ///< Ra [MJ/m2/d], eq. 21
  double day_length;        ///< N [h], eq. 34, 0 to 24
};
FaoSun fao_sun(double latitude, int day_of_year);
inline double fao_day_length(double latitude, int day_of_year) {
  return fao_sun(latitude, day_of_year).day_length;
}

/// Spencer's series as the NOAA almanac uses it, zenith 90.833 degrees: refraction and radius
/// counted.
struct AlmanacSun {
  double declination;       ///< [rad]
  double equation_of_time;  ///< [min]
  double half_day;          ///< hour angle of sunset [rad], clamped to 0..pi
  double day_length;        ///< [h]
  /// Minutes after midnight UTC, longitude in degrees, west negative. May lie outside 0..1440.
  double sunrise_utc(double longitude) const;
  double sunset_utc(double longitude) const;
};
AlmanacSun almanac_sun(double latitude, int day_of_year, double hour = 12.0);

}  // namespace winterfolio
