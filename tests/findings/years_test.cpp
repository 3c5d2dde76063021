// This winter among the others.
#include "findings/years.h"

#include <algorithm>

#include "findings/winters_test.h"
#include "support/catch.h"
#include "support/files.h"

using namespace winterfolio;
using namespace winterfolio::test;

namespace {

const WinterWindow kNorth = default_winter_window(false);

WinterChill chill_on(const WeatherRecord& record, int winter, Date as_of) {
  return winter_chill(record, stand_at(record, kNorth, winter, as_of).value());
}

}  // namespace

TEST_CASE("the same day of past winters, counted by hand") {
  const WeatherRecord record = record_of(years_of_weather(21, 2014, 8));
  const WinterChill chill = chill_on(record, 2021, date_of(2022, 1, 10));
  for (const ChillMeasure measure : kChillMeasures) {
    const YearsFinding years = years_of(measure, record, chill);
    INFO(id_of(measure));
    CHECK(years.basis == WinterDetail::hourly);
    CHECK(years.difference == 0.0);
    CHECK(years.now == chill.of(measure).total().amount());
    REQUIRE(years.winters.size() == 7);
    int colder = 0;
    for (const PastWinterChill& past : years.winters) {
      const LocalHour begin = LocalHour::at(date_of(past.year, 11, 1), 0);
      const LocalHour same = LocalHour::at(date_of(past.year + 1, 1, 11), 0);
      CHECK(past.same_day == tally_chill(record.hours, begin, same).total(measure).amount());
      const LocalHour end = LocalHour::at(date_of(past.year + 1, 3, 1), 0);
      CHECK_THAT(past.whole.value(),
                 WithinAbs(tally_chill(record.hours, begin, end).total(measure).amount(), 1e-9));
      colder += *past.same_day > years.now;
    }
    CHECK(years.rank == colder + 1);
    CHECK(years.rank_at_best == years.rank);
    CHECK(years.compared == 7);
    CHECK(years.whole_winters == 7);
    CHECK(years.few_winters);
    CHECK(years.trend.has_value());
  }
}

TEST_CASE("a winter that is over stands among the whole ones") {
  const WeatherRecord record = record_of(years_of_weather(22, 2010, 11));
  const WinterChill chill = chill_on(record, 2020, date_of(2021, 4, 1));
  const YearsFinding years = years_of(ChillMeasure::portions, record, chill);
  CHECK(years.whole_winters == 11);
  CHECK_FALSE(years.few_winters);
  std::vector<double> totals = {years.now};
  for (const PastWinterChill& past : years.winters) totals.push_back(*past.whole);
  std::sort(totals.begin(), totals.end());
  CHECK(years.exceeded_in_nine_of_ten ==
        totals[1]);  // type 7 with eleven values: the second smallest
}

TEST_CASE(
    "daily and hourly winters are compared only as daily extremes, and the difference is told") {
  const HourlySeries hours = years_of_weather(23, 2014, 8);
  const DailySeries all_days = daily_from_hourly(hours);
  DailySeries days;
  for (Date day = date_of(2014, 9, 1); day < date_of(2021, 9, 1); day = plus_days(day, 1))
    days.set(day, all_days.at(day));
  HourlySeries this_winter;
  for (LocalHour hour = LocalHour::at(date_of(2021, 9, 1), 0);
       hour < LocalHour::at(date_of(2022, 1, 10), 15); hour = hour + 1) {
    this_winter.set(hour, hours.at(hour).value());
  }
  const WeatherRecord record = weather_record(this_winter, days, 38.0);
  const WinterChill chill = chill_on(record, 2021, date_of(2022, 1, 10));
  CHECK(chill.detail == WinterDetail::hourly);
  const YearsFinding years = years_of(ChillMeasure::portions, record, chill);
  CHECK(years.basis == WinterDetail::daily_extremes);
  const HourlySeries drawn = hourly_from_daily(all_days, 38.0);
  const LocalHour begin = LocalHour::at(date_of(2021, 11, 1), 0);
  const LocalHour midnight = LocalHour::at(date_of(2022, 1, 10), 0);
  const double by_hours =
      tally_chill(hours, begin, midnight).total<ChillMeasure::portions>().amount();
  CHECK_THAT(years.now - years.difference, WithinAbs(by_hours, 1e-9));
  CHECK_THAT(
      years.now,
      WithinAbs(tally_chill(drawn, begin, midnight).total<ChillMeasure::portions>().amount(), 0.2));
  CHECK(years.winters.size() == 7);
}

TEST_CASE("Yuba City's bare totals: quantile and trend as published arithmetic has them") {
  // Source: J. Hasey, UC Cooperative Extension; expected values: independent arithmetic over the 18
  // winters.
  std::vector<PastWinterTotal> bare;
  for (const CsvRow row : published("yuba_city_winters.csv")) {
    PastWinterTotal total;
    total.year = static_cast<int>(row.required_number("winter_start_year"));
    total.winter = winter_of(kNorth, total.year).name();
    const double hours = row.required_number("chill_hours_below_45F_nov1_to_mar1");
    total.totals[ChillMeasure::chill_hours] = {hours, hours};
    total.from_where = "printed table";
    bare.push_back(total);
  }
  const WeatherRecord record =
      record_of(series_of(LocalHour::at(date_of(2020, 11, 1), 0), std::vector<double>(240, 5.0)));
  const WinterChill chill = chill_on(record, 2020, date_of(2020, 11, 10));
  const YearsFinding years = years_of(ChillMeasure::chill_hours, record, chill, bare);
  CHECK(years.whole_winters == 18);
  CHECK(years.compared == 0);
  CHECK(years.rank == 0);
  CHECK_THAT(years.exceeded_in_nine_of_ten.value(), WithinAbs(761.7, 1e-9));
  CHECK_THAT(years.median_whole.value(), WithinAbs(870.0, 1e-9));
  REQUIRE(years.trend.has_value());
  CHECK(years.trend->word == TrendWord::cannot_tell);
  CHECK_THAT(years.trend->line.slope, WithinAbs(1.0 / 3.0, 1e-9));
  CHECK(years.trend->first_year == 2001);
  CHECK(years_of(ChillMeasure::portions, record, chill, bare).whole_winters == 0);
}

TEST_CASE("a winter with too few hours is left out, and said to be") {
  HourlySeries hours = years_of_weather(24, 2016, 5);
  knock_out(hours, date_of(2018, 11, 20), 12);
  const WeatherRecord record = record_of(hours);
  const YearsFinding years =
      years_of(ChillMeasure::chill_hours, record, chill_on(record, 2020, date_of(2021, 1, 31)));
  CHECK(years.winters.size() == 3);
  CHECK(years.left_out == 1);
}

TEST_CASE("measures that disagree on the colder winter are found") {
  YearsFinding hours{.measure = ChillMeasure::chill_hours};
  YearsFinding portions{.measure = ChillMeasure::portions};
  hours.now = 500.0;
  portions.now = 40.0;
  hours.winters.push_back(
      {.year = 2015, .name = "2015-16", .same_day = 600.0, .whole = {}, .from_where = {}});
  portions.winters.push_back(
      {.year = 2015, .name = "2015-16", .same_day = 42.0, .whole = {}, .from_where = {}});
  CHECK_FALSE(disagreement_of(hours, portions).has_value());
  portions.winters.front().same_day = 38.0;
  CHECK(disagreement_of(hours, portions)->year == 2015);
}
