// Linvill's curve against a table computed by other means, and at the edges where the formula has
// no answer.
#include "weather/daily_to_hourly.h"

#include <cmath>
#include <numbers>

#include "support/catch.h"
#include "support/files.h"
#include "weather/solar.h"

using namespace winterfolio;

namespace {

DailySeries series_of(Date first, std::vector<std::optional<DailyExtremes>> days) {
  DailySeries series;
  for (std::size_t i = 0; i < days.size(); ++i)
    series.set(plus_days(first, static_cast<int>(i)), days[i]);
  return series;
}

DailyExtremes extremes(double minimum, double maximum) {
  return {Celsius(minimum), Celsius(maximum)};
}

double mean(const HourlySeries& hours, Date day, int hour) {
  const auto reading = hours.at(LocalHour::at(day, hour));
  REQUIRE(reading);
  return reading->mean.degrees();
}

}  // namespace

TEST_CASE("Linvill's curve agrees with the independent table, all 72 hours") {
  const Date first = date_of(2023, 1, 15);  // days 15, 16 and 17 of a year
  const HourlySeries hours =
      hourly_from_daily(series_of(first, {extremes(-2, 8), extremes(1, 11), extremes(3, 9)}), 45.0);
  REQUIRE(hours.size() == 72);
  for (const CsvRow row : test::published("linvill_check_hourly.csv")) {
    const int day = static_cast<int>(row.required_number("day_of_year"));
    const int hour = static_cast<int>(row.required_number("hour_solar"));
    INFO("day " << day << ", hour " << hour);
    CHECK_THAT(mean(hours, plus_days(first, day - 15), hour),
               WithinAbs(row.required_number("temp_C"), 0.5001e-4));
  }
}

TEST_CASE("Hours from daily extremes say where they come from") {
  const HourlySeries hours =
      hourly_from_daily(series_of(date_of(2023, 1, 15), {extremes(-2, 8)}), 45.0);
  for (int hour = 0; hour < 24; ++hour) {
    const auto reading = hours.at(LocalHour::at(date_of(2023, 1, 15), hour));
    REQUIRE(reading);
    CHECK(reading->origin == HourOrigin::daily_extremes);
    CHECK(reading->lowest == reading->mean);
  }
}

TEST_CASE("A day without extremes stays empty, and its neighbours use their own") {
  const Date first = date_of(2023, 1, 15);
  const HourlySeries with_hole =
      hourly_from_daily(series_of(first, {extremes(-2, 8), std::nullopt, extremes(3, 9)}), 45.0);
  CHECK(with_hole.missing_in(LocalHour::at(plus_days(first, 1), 0),
                             LocalHour::at(plus_days(first, 2), 0)) == 24);
  const HourlySeries alone = hourly_from_daily(series_of(first, {extremes(-2, 8)}), 45.0);
  for (int hour = 0; hour < 24; ++hour)
    CHECK(mean(with_hole, first, hour) == mean(alone, first, hour));
  const HourlySeries last =
      hourly_from_daily(series_of(plus_days(first, 2), {extremes(3, 9)}), 45.0);
  for (int hour = 0; hour < 24; ++hour) {
    CHECK(mean(with_hole, plus_days(first, 2), hour) == mean(last, plus_days(first, 2), hour));
  }
}

TEST_CASE(
    "Polar day is the sine alone, polar night a sine from minimum at midnight to maximum at noon") {
  const Date midsummer = date_of(2023, 6, 21);
  const HourlySeries day =
      hourly_from_daily(series_of(midsummer, {extremes(2, 10), extremes(2, 10)}), 75.0);
  for (int hour = 0; hour < 24; ++hour) {
    CHECK_THAT(mean(day, midsummer, hour),
               WithinAbs(2.0 + 8.0 * std::sin(std::numbers::pi * hour / 28.0), 1e-9));
  }
  const Date midwinter = date_of(2023, 12, 21);
  const HourlySeries night =
      hourly_from_daily(series_of(midwinter, {extremes(-20, -10), extremes(-20, -10)}), 75.0);
  CHECK_THAT(mean(night, midwinter, 0), WithinAbs(-20.0, 1e-9));
  CHECK_THAT(mean(night, midwinter, 6), WithinAbs(-15.0, 1e-9));
  CHECK_THAT(mean(night, midwinter, 12), WithinAbs(-10.0, 1e-9));
}

TEST_CASE("At every latitude and day the curve stays finite and near the extremes") {
  for (int latitude = -90; latitude <= 90; latitude += 5) {
    DailySeries days;
    for (int d = 0; d < 366; ++d)
      days.set(plus_days(date_of(2024, 1, 1), d), extremes(-3 + d % 7, 6 + d % 5));
    const HourlySeries hours = hourly_from_daily(days, latitude);
    REQUIRE(hours.size() == 366 * 24);
    for (LocalHour h = hours.first(); h < hours.end(); h = h + 1) {
      const double t = hours.at(h)->mean.degrees();
      REQUIRE(std::isfinite(t));
      REQUIRE(t > -3.0 - 12.0);  // a night may undershoot where day length changes fast, never by
                                 // more than the range
      REQUIRE(t < 10.0 + 1e-9);
    }
  }
}

TEST_CASE("Whole days of hours go back to their extremes; a day with a hole does not") {
  HourlySeries hours;
  const Date day = date_of(2024, 2, 29);
  for (int h = 0; h < 48; ++h) {
    if (h == 30) continue;
    const Celsius t(std::abs(h % 24 - 14) * -0.5 + 9.0);
    hours.set(LocalHour::at(day, 0) + h, {t, t - CelsiusDelta(1.0), HourOrigin::observed});
  }
  const DailySeries days = daily_from_hourly(hours);
  REQUIRE(days.at(day));
  CHECK(days.at(day)->minimum == Celsius(2.0));
  CHECK(days.at(day)->maximum == Celsius(9.0));
  CHECK_FALSE(days.at(plus_days(day, 1)));
  CHECK(daily_from_hourly(HourlySeries()).empty());
}
