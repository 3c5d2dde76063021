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

TEST_CASE("a winter that misses much has no rank, unless no filling of its gaps changes it") {
  HourlySeries hours = years_of_weather(25, 2010, 11);
  const WeatherRecord whole = record_of(hours);
  const Date as_of = date_of(2020, 12, 20);  // 50 days
  const auto rank_of = [&](const HourlySeries& series) {
    return years_of(ChillMeasure::chill_hours, record_of(series),
                    chill_on(record_of(series), 2020, as_of));
  };
  HourlySeries little = hours;
  knock_out(little, date_of(2020, 12, 1), 5);  // nine tenths are known
  const YearsFinding widened = rank_of(little);
  CHECK_FALSE(widened.rank_withheld);
  CHECK(widened.rank > 0);
  CHECK(widened.rank_at_best < widened.rank_at_worst);
  CHECK(widened.now_range->low < widened.now_range->high);
  HourlySeries much = hours;
  knock_out(much, date_of(2020, 12, 1), 6);
  const YearsFinding withheld = rank_of(much);
  CHECK(withheld.rank_withheld);
  CHECK(withheld.rank == 0);
  CHECK(withheld.compared == 10);
  CHECK(withheld.rank_at_best < withheld.rank_at_worst);
  // A month so cold among mild winters, or so warm among cold ones, that the gap cannot matter.
  for (const double celsius : {3.0, 25.0}) {
    HourlySeries clear = years_of_weather(25, 2010, 11, celsius < 10.0 ? 18.0 : 10.0);
    for (LocalHour hour = LocalHour::at(date_of(2020, 11, 1), 0);
         hour < LocalHour::at(date_of(2020, 12, 1), 0); hour = hour + 1)
      clear.set(hour, reading(celsius));
    knock_out(clear, date_of(2020, 12, 1), 6);
    const YearsFinding decided = rank_of(clear);
    INFO(celsius);
    CHECK_FALSE(decided.rank_withheld);
    CHECK(decided.rank == (celsius < 10.0 ? 1 : 11));
  }
}

TEST_CASE("standing in a long gap, this winter is not called the mildest of all") {
  HourlySeries hours = years_of_weather(26, 2014, 8);
  knock_out(hours, date_of(2021, 12, 10), 40);
  const WeatherRecord record = record_of(hours);
  const YearsFinding years =
      years_of(ChillMeasure::portions, record, chill_on(record, 2021, date_of(2022, 1, 10)));
  CHECK(years.rank == 0);
  CHECK(years.rank_withheld);
  CHECK(years.same_day_median.has_value());
}

TEST_CASE("without another winter's hours for the gap only what no hour could change has a rank") {
  HourlySeries hours = years_of_weather(27, 2016, 6);
  knock_out(hours, date_of(2021, 12, 10), 2);
  for (int year = 2016; year < 2021; ++year) {  // ten days around the gap, in every other winter
    for (const int shift : kGapShifts)
      hours.clear(LocalHour::at(plus_days(date_of(year, 12, 10), shift), 5));
    for (int hour = 0; hour < 4; ++hour) {
      for (const int shift : kGapShifts)
        hours.clear(LocalHour::at(plus_days(date_of(year, 12, 10), shift), 5 + hour));
    }
  }
  const WeatherRecord record = record_of(hours);
  const WinterChill chill = chill_on(record, 2021, date_of(2022, 1, 10));
  REQUIRE(chill.of(ChillMeasure::chill_hours).gaps == GapRange::unknown);
  const YearsFinding years = years_of(ChillMeasure::chill_hours, record, chill);
  CHECK_FALSE(years.now_range.has_value());
  REQUIRE(years.compared == 5);
  int above = 0;
  int above_with_all = 0;
  for (const PastWinterChill& past : years.winters) {
    above += *past.same_day > years.now;
    above_with_all += *past.same_day > years.now + 48.0;
  }
  CHECK(years.rank_at_worst == 1 + above);
  CHECK(years.rank_at_best == 1 + above_with_all);
  CHECK(years.rank == (above == above_with_all ? 1 + above : 0));
}

TEST_CASE("a bare total stands beside this winter once it is over, and in its own measure only") {
  const WeatherRecord record = record_of(years_of_weather(28, 2018, 3));
  PastWinterTotal bare{"2016-17", 2016, {}, "notebook", {}};
  bare.totals[ChillMeasure::chill_hours] = {5000, 5000};
  const WinterChill over = chill_on(record, 2020, date_of(2021, 3, 5));
  const YearsFinding beside = years_of(ChillMeasure::chill_hours, record, over, {bare});
  CHECK(beside.compared == 3);
  CHECK(beside.rank >= 2);
  CHECK(beside.winters.front().same_day == 5000.0);
  CHECK(beside.whole_winters == 4);
  CHECK(years_of(ChillMeasure::portions, record, over, {bare}).compared == 2);
  const WinterChill before = chill_on(record, 2020, date_of(2021, 1, 5));
  CHECK(years_of(ChillMeasure::chill_hours, record, before, {bare}).compared == 2);
  bare.year = 2019;  // readings come first
  CHECK(years_of(ChillMeasure::chill_hours, record, over, {bare}).compared == 2);
}

TEST_CASE("a day that the logger missed does not pass for what daily extremes do") {
  const HourlySeries hours = years_of_weather(29, 2014, 8);
  const DailySeries all_days = daily_from_hourly(hours);
  DailySeries days;
  for (Date day = date_of(2014, 9, 1); day < date_of(2021, 9, 1); day = plus_days(day, 1))
    days.set(day, all_days.at(day));
  const auto difference = [&](int missing_days) {
    HourlySeries now;
    for (LocalHour hour = LocalHour::at(date_of(2021, 9, 1), 0);
         hour < LocalHour::at(date_of(2022, 1, 11), 0); hour = hour + 1)
      now.set(hour, hours.at(hour).value());
    // An hour of each day is lost: by the hour little is missing, by extremes the whole day.
    for (int day = 0; day < missing_days; ++day) {
      for (int hour = 9; hour < 13; ++hour)
        now.clear(LocalHour::at(plus_days(date_of(2021, 12, 1), day), hour));
    }
    const WeatherRecord record = weather_record(now, days, 38.0);
    return years_of(ChillMeasure::chill_hours, record,
                    chill_on(record, 2021, date_of(2022, 1, 10)));
  };
  const YearsFinding whole = difference(0);
  const YearsFinding holed = difference(6);
  CHECK_THAT(holed.difference, WithinAbs(whole.difference, 30.0));
  CHECK(holed.now < whole.now);
  REQUIRE(holed.now_range.has_value());
  CHECK(holed.now_range->high > holed.now);
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
