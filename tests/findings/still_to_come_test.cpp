// The rest of the winter, from the winters before it.
#include "findings/still_to_come.h"

#include <cstring>
#include <iostream>

#include "findings/winters_test.h"
#include "support/catch.h"
#include "support/files.h"

using namespace winterfolio;
using namespace winterfolio::test;

namespace {

const WinterWindow kNorth = default_winter_window(false);

struct Standing {
  WeatherRecord record;
  Today today;
  WinterChill chill;
};

Standing standing(HourlySeries hours, int winter, Date as_of) {
  WeatherRecord record = record_of(std::move(hours));
  const Today today = stand_at(record, kNorth, winter, as_of).value();
  WinterChill chill = winter_chill(record, today);
  return {std::move(record), today, std::move(chill)};
}

/// Fifty winters of daily extremes from a fixed-width national-service file, read by hand.
DailySeries new_york(const std::string& path) {
  std::FILE* in = std::fopen(path.c_str(), "rb");
  REQUIRE(in != nullptr);
  std::map<Date, std::pair<std::optional<double>, std::optional<double>>> days;
  char line[512];
  while (std::fgets(line, sizeof line, in)) {
    const bool high = std::strncmp(line + 17, "TMAX", 4) == 0;
    if (!high && std::strncmp(line + 17, "TMIN", 4) != 0) continue;
    int year = 0;
    unsigned month = 0;
    REQUIRE(std::sscanf(line + 11, "%4d%2u", &year, &month) == 2);
    for (unsigned day = 1; day <= last_day_of(year, month); ++day) {
      char value[6] = "";
      std::memcpy(value, line + 21 + (day - 1) * 8, 5);
      const int tenths = std::atoi(value);
      if (tenths == -9999 || line[21 + (day - 1) * 8 + 6] != ' ') continue;
      auto& extremes = days[date_of(year, month, day)];
      (high ? extremes.second : extremes.first) = tenths / 10.0;
    }
  }
  std::fclose(in);
  DailySeries series;
  for (const auto& [date, extremes] : days) {
    if (extremes.first && extremes.second)
      series.set(date, DailyExtremes{Celsius(*extremes.first), Celsius(*extremes.second)});
  }
  return series;
}

}  // namespace

TEST_CASE("each path is this winter until now and a past winter from then on") {
  const HourlySeries hours = years_of_weather(31, 2012, 10);
  const Standing at = standing(hours, 2021, date_of(2022, 1, 12));
  for (const ChillMeasure measure : kChillMeasures) {
    const StillToCome to_come = still_to_come(at.chill.of(measure), at.record, at.today);
    INFO(id_of(measure));
    REQUIRE(to_come.paths.size() == 9);
    CHECK(to_come.few_winters);
    CHECK(to_come.first_day == date_of(2022, 1, 13));
    for (const WinterPath& path : to_come.paths) {
      HourlySeries spliced;
      for (LocalHour hour = at.today.winter.begin(); hour < at.today.winter.end();
           hour = hour + 1) {
        const LocalHour from = hour < at.today.now ? hour
                                                   : LocalHour::at(date_of(path.year, 11, 1), 0) +
                                                         (hour - at.today.winter.begin());
        spliced.set(hour, hours.at(from).value());
      }
      const double expected = tally_chill(spliced, at.today.winter.begin(), at.today.winter.end())
                                  .total(measure)
                                  .amount();
      CHECK_THAT(path.end(), WithinAbs(expected, 1e-9));
      CHECK(path.by_day.size() == 47);
    }
    CHECK(to_come.at_end.low <= to_come.at_end.middle);
    CHECK(to_come.at_end.middle <= to_come.at_end.high);
    REQUIRE(to_come.fan.size() == 7);
    CHECK(to_come.fan.front().day == date_of(2022, 1, 19));
    CHECK(to_come.fan.back().day == date_of(2022, 2, 28));
    CHECK(to_come.fan.back().spread.middle == to_come.at_end.middle);
  }
}

TEST_CASE("records that end with each winter still tell the rest of a leap winter") {
  HourlySeries hours = years_of_weather(34, 2016, 8);
  for (LocalHour hour = hours.first(); hour < hours.end(); hour = hour + 1) {
    const unsigned month{hour.date().month()};
    if (month > 2 && month < 11) hours.clear(hour);
  }
  const Standing at = standing(hours, 2023, date_of(2024, 2, 20));
  const StillToCome to_come =
      still_to_come(at.chill.of(ChillMeasure::chill_hours), at.record, at.today);
  CHECK(to_come.paths.size() == 7);
}

TEST_CASE("a day begun goes on from its last reading") {
  HourlySeries hours = years_of_weather(32, 2016, 6);
  for (LocalHour hour = LocalHour::at(date_of(2022, 1, 12), 14); hour < hours.end();
       hour = hour + 1)
    hours.clear(hour);
  const WeatherRecord record = record_of(hours);
  const Today today = stand_at(record, kNorth).value();
  const WinterChill chill = winter_chill(record, today);
  const StillToCome to_come = still_to_come(chill.of(ChillMeasure::chill_hours), record, today);
  CHECK(to_come.first_day == date_of(2022, 1, 12));
  CHECK(to_come.paths.front().by_day.size() == 48);
}

TEST_CASE("a forecast stands for the next days") {
  const HourlySeries hours = years_of_weather(33, 2016, 6);
  Standing at = standing(hours, 2021, date_of(2022, 1, 12));
  for (int hour = 0; hour < 72; ++hour)
    at.record.forecast.set(at.today.now + hour,
                           {Celsius(30.0), Celsius(30.0), HourOrigin::forecast});
  const StillToCome to_come = still_to_come(at.chill.of(ChillMeasure::utah), at.record, at.today);
  CHECK(to_come.forecast_hours == 72);
  for (const WinterPath& path : to_come.paths) {
    CHECK(path.by_day.size() == 47);
    CHECK(path.by_day[2] == path.start - 72.0);  // over 18 °C an hour takes one unit
  }
}

TEST_CASE("chance and dates of meeting a requirement, counted by hand") {
  StillToCome to_come{.measure = ChillMeasure::portions, .first_day = date_of(2022, 1, 1)};
  for (int path = 0; path < 10; ++path) {
    WinterPath one{2000 + path, 30.0, {}};
    for (int day = 1; day <= 40; ++day)
      one.by_day.push_back(30.0 + day * (0.1 + 0.05 * path));  // ends 34, 36, ... 52
    to_come.paths.push_back(one);
  }
  const DecidingNeed need{ChillMeasure::portions, 40.0, 44.0, NeedKind::tree, false, {}};
  const auto chance = chance_of_meeting(to_come, need);
  REQUIRE(chance.has_value());
  CHECK(chance->winters == 10);
  CHECK(chance->reaching_low == 7);
  CHECK(chance->reaching_high == 5);
  CHECK(chance->early == date_of(2022, 1, 26));  // the fastest path adds 0.55 a day: 44 on day 26
  CHECK(chance->middle == date_of(2022, 2, 9));  // the fifth fastest adds 0.35: on day 40
  CHECK_FALSE(chance->late.has_value());
  CHECK_FALSE(
      chance_of_meeting(to_come, {ChillMeasure::utah, 40.0, 44.0, NeedKind::tree, false, {}})
          .has_value());
  CHECK_FALSE(chance_of_meeting({ChillMeasure::portions, date_of(2022, 1, 1)}, need).has_value());
}

TEST_CASE("what gaps may have held widens the fan, the chance and the dates") {
  HourlySeries hours = years_of_weather(35, 2009, 13);
  const Standing whole = standing(hours, 2021, date_of(2022, 1, 12));
  knock_out(hours, date_of(2021, 12, 20), 8);
  const Standing holed = standing(hours, 2021, date_of(2022, 1, 12));
  const MeasuredChill& so_far = holed.chill.of(ChillMeasure::chill_hours);
  REQUIRE(so_far.gaps == GapRange::known);
  const StillToCome to_come = still_to_come(so_far, holed.record, holed.today);
  const double total = so_far.total().amount();
  CHECK(to_come.from_gaps.low == so_far.range.low - total);
  CHECK(to_come.from_gaps.high == so_far.range.high - total);
  CHECK(to_come.at_end.low < to_come.at_end.middle);
  CHECK(to_come.at_end.middle < to_come.at_end.high);
  CHECK(to_come.fan.back().spread.middle == to_come.at_end.middle);
  const StillToCome full =
      still_to_come(whole.chill.of(ChillMeasure::chill_hours), whole.record, whole.today);
  CHECK(full.from_gaps == Range{0, 0});
  const double need = full.at_end.middle;
  const DecidingNeed deciding{ChillMeasure::chill_hours, need, need, NeedKind::tree, false, {}};
  const ChanceOfMeeting chance = chance_of_meeting(to_come, deciding).value();
  CHECK(chance.reaching_at_worst <= chance.reaching_high);
  CHECK(chance.reaching_high <= chance.reaching_at_best);
  CHECK(chance.reaching_at_worst < chance.reaching_at_best);
  const ChanceOfMeeting sure = chance_of_meeting(full, deciding).value();
  CHECK(sure.reaching_at_worst == sure.reaching_at_best);
  CHECK(sure.reaching_high == sure.reaching_at_best);
}

TEST_CASE("the days to try a forecast on are the fifteenths of all months but the first") {
  CHECK(hindcast_days(winter_of(kNorth, 2020)) ==
        std::vector<MonthDay>{{12, 15}, {1, 15}, {2, 15}});
  CHECK(hindcast_days(winter_of(default_winter_window(true), 2020)) ==
        std::vector<MonthDay>{{6, 15}, {7, 15}, {8, 15}});
}

TEST_CASE("the winter one stands in is no trial of a forecast") {
  const WeatherRecord record = record_of(years_of_weather(36, 2010, 11));
  const auto days = hindcast_days(winter_of(kNorth, 2020));
  CHECK(hindcast(ChillMeasure::chill_hours, record, kNorth, days).winters == 11);
  const HindcastScore score = hindcast(ChillMeasure::chill_hours, record, kNorth, days, 2020);
  CHECK(score.winters == 10);
  CHECK(score.trials == 30);
}

TEST_CASE("nothing is still to come once the winter is over, or where no other winter is known") {
  const Standing over = standing(years_of_weather(34, 2018, 3), 2020, date_of(2021, 3, 5));
  CHECK(
      still_to_come(over.chill.of(ChillMeasure::portions), over.record, over.today).paths.empty());
  const Standing alone = standing(years_of_weather(34, 2020, 1), 2020, date_of(2021, 1, 5));
  CHECK(still_to_come(alone.chill.of(ChillMeasure::portions), alone.record, alone.today)
            .paths.empty());
}

TEST_CASE("on fifty real winters the 80 % span holds what came as often as it should") {
  const auto folder = test_data_dir();
  if (!folder) {
    std::cout << "skipped: WINTERFOLIO_TEST_DATA names no folder of real temperature files\n";
    return;
  }
  const WeatherRecord record = weather_record({}, new_york(*folder + "/USW00094728.dly"), 40.78);
  for (const ChillMeasure measure :
       {ChillMeasure::portions, ChillMeasure::chill_hours, ChillMeasure::utah}) {
    const HindcastScore score = hindcast(measure, record, kNorth, {{12, 15}, {1, 15}, {2, 15}});
    INFO(id_of(measure) << ": " << score.inside << " of " << score.trials << " in " << score.winters
                        << " winters");
    CHECK(score.winters == 49);
    CHECK(score.trials == 147);
    CHECK(score.share() >= 0.7);
    CHECK(score.share() <= 0.9);
    std::cout << id_of(measure) << ": the 80 % span held " << score.inside << " of " << score.trials
              << "\n";
  }
}
