// Day length and sunrise against published worked examples and an independent computation.
#include "weather/solar.h"

#include <cmath>

#include "support/catch.h"
#include "support/files.h"

using namespace winterfolio;

TEST_CASE("FAO-56 and almanac sun agree with an independent computation") {
  for (const CsvRow row : test::published("solar_checks.csv")) {
    const double latitude = row.required_number("lat_deg");
    const int day = static_cast<int>(row.required_number("day_of_year"));
    INFO("latitude " << latitude << ", day " << day);
    const FaoSun fao = fao_sun(latitude, day);
    CHECK_THAT(fao.declination, WithinAbs(row.required_number("fao56_declination_rad"), 0.5001e-6));
    CHECK_THAT(fao.sunset_angle,
               WithinAbs(row.required_number("fao56_sunset_angle_rad"), 0.5001e-6));
    CHECK_THAT(fao.extraterrestrial, WithinAbs(row.required_number("fao56_Ra_MJ_m2_d"), 0.5001e-4));
    CHECK_THAT(fao.day_length, WithinAbs(row.required_number("fao56_daylength_h"), 0.5001e-5));
    const AlmanacSun almanac = almanac_sun(latitude, day);
    CHECK_THAT(almanac.declination,
               WithinAbs(row.required_number("noaa_declination_rad"), 0.5001e-6));
    CHECK_THAT(almanac.equation_of_time,
               WithinAbs(row.required_number("noaa_eqtime_min"), 0.5001e-4));
    CHECK_THAT(almanac.day_length,
               WithinAbs(row.required_number("noaa_daylength_h_zenith_90.833"), 0.5001e-5));
  }
}

TEST_CASE("FAO-56 worked examples come out to the printed digit") {
  const auto half_digit = [](const std::string& printed) {
    const std::size_t point = printed.find('.');
    return 0.5001 * std::pow(10.0, -static_cast<double>(printed.size() - point - 1));
  };
  for (const CsvRow row : test::published("solar_worked_examples.csv")) {
    const FaoSun sun = fao_sun(row.required_number("latitude"),
                               static_cast<int>(row.required_number("day_of_year")));
    const auto check = [&](const char* column, double value) {
      INFO(column);
      if (const auto printed = row.number(column))
        CHECK_THAT(value, WithinAbs(*printed, half_digit(row.text(column))));
    };
    check("inverse_distance", sun.inverse_distance);
    check("declination", sun.declination);
    check("sunset_angle", sun.sunset_angle);
    check("radiation", sun.extraterrestrial);
    check("day_length", sun.day_length);
  }
}

TEST_CASE("Sunrise and sunset lie half a day around the sun's noon, and move with longitude") {
  const AlmanacSun sun = almanac_sun(38.75, 15);
  CHECK_THAT(sun.sunset_utc(-121.2) - sun.sunrise_utc(-121.2),
             WithinAbs(sun.day_length * 60.0, 1e-9));
  CHECK_THAT((sun.sunset_utc(0.0) + sun.sunrise_utc(0.0)) / 2.0,
             WithinAbs(720.0 - sun.equation_of_time, 1e-9));
  CHECK_THAT(sun.sunrise_utc(-15.0) - sun.sunrise_utc(0.0), WithinAbs(60.0, 1e-9));
}

TEST_CASE("Day length is clamped beyond the polar circles") {
  CHECK(fao_day_length(70.0, 1) == 0.0);
  CHECK(fao_day_length(70.0, 172) == 24.0);
  CHECK(fao_day_length(-70.0, 172) == 0.0);
  CHECK(fao_day_length(90.0, 172) == 24.0);
  CHECK(fao_day_length(-90.0, 355) == 24.0);
}
