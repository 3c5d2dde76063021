// A block's own thermometer: its readings first, the orchard's moved behind them, and nothing where
// the two cannot be compared.
#include "findings/places.h"

#include "findings/winter_chill.h"
#include "findings/winters_test.h"
#include "support/catch.h"

using namespace winterfolio;
using namespace winterfolio::test;

namespace {

const WinterWindow kNorth = default_winter_window(false);

OrchardBlock hollow() {
  OrchardBlock block;
  block.id = "hollow";
  block.thermometer = TemperatureSource{};
  block.thermometer->file = "hollow.csv";
  return block;
}

/// The hollow is two degrees colder before eight in the morning and half a degree warmer after.
double colder_by_night(LocalHour hour) { return hour.hour_of_day() < 8 ? -2.0 : 0.5; }

HourlySeries in_the_hollow(const HourlySeries& orchard, LocalHour from, LocalHour to) {
  HourlySeries own;
  for (LocalHour hour = from; hour < to; hour = hour + 1)
    own.set(hour, reading(orchard.at(hour)->mean.degrees() + colder_by_night(hour)));
  return own;
}

}  // namespace

TEST_CASE("own readings come first, and the orchard's stand behind them by what the two differ") {
  const HourlySeries hours = years_of_weather(51, 2016, 6);
  const LocalHour hung = LocalHour::at(date_of(2021, 12, 1), 0);
  HourlySeries own = in_the_hollow(hours, hung, LocalHour::at(date_of(2022, 1, 20), 0));
  own.set(hung + 30, reading(-11.0));  // a reading of its own is never changed
  knock_out(own, date_of(2022, 1, 4), 5);
  const PlaceWeather place = place_weather(hollow(), own, {}, record_of(hours));
  CHECK(place.block == "hollow");
  CHECK(place.thermometer == "hollow.csv");
  CHECK_FALSE(place.stands_alone());
  REQUIRE(place.by_hour.has_value());
  CHECK(place.by_hour->shared_hours == 45 * 24);
  CHECK_FALSE(place.by_extremes.has_value());
  CHECK(place.record.hours.at(hung + 30)->mean == Celsius(-11.0));
  CHECK(place.record.hours.at(hung + 31)->origin == HourOrigin::observed);
  // Within the hole, after the last reading, and in winters before the thermometer hung there.
  for (const LocalHour hour :
       {LocalHour::at(date_of(2022, 1, 6), 3), LocalHour::at(date_of(2022, 1, 6), 15),
        LocalHour::at(date_of(2022, 2, 10), 4), LocalHour::at(date_of(2018, 1, 9), 4),
        LocalHour::at(date_of(2018, 1, 9), 14)}) {
    INFO(iso_date(hour.date()) << " " << hour.hour_of_day());
    const auto behind = place.record.hours.at(hour);
    REQUIRE(behind.has_value());
    CHECK(behind->origin == HourOrigin::nearby);
    CHECK_THAT(behind->mean.degrees(),
               WithinAbs(hours.at(hour)->mean.degrees() + colder_by_night(hour), 0.3));
  }
  const Winter this_one = winter_of(kNorth, 2021);
  CHECK(mostly_own(place, hung, LocalHour::at(date_of(2022, 1, 4), 0)));
  CHECK_FALSE(mostly_own(place, this_one.begin(), this_one.end()));  // 45 of 120 days
  const Winter past = winter_of(kNorth, 2018);
  CHECK_FALSE(mostly_own(place, past.begin(), past.end()));
  CHECK(anything_known(place, past.begin(), past.end()));
}

TEST_CASE("the chill of a block is that of its own readings, its past winters moved like them") {
  const HourlySeries hours = years_of_weather(52, 2014, 8);
  const WeatherRecord orchard = record_of(hours);
  const LocalHour first = hours.first();
  const HourlySeries truth = in_the_hollow(hours, first, hours.end());
  const LocalHour hung = LocalHour::at(date_of(2020, 9, 1), 0);
  const PlaceWeather place = place_weather(
      hollow(), in_the_hollow(hours, hung, LocalHour::at(date_of(2022, 1, 31), 0)), {}, orchard);
  const Today today = stand_at(orchard, kNorth, 2021, date_of(2022, 1, 25)).value();
  for (const ChillMeasure measure : kChillMeasures) {
    INFO(id_of(measure));
    const auto measures = {measure};
    const WinterChill here = winter_chill(place.record, today, measures);
    CHECK(here.of(measure).total().amount() ==
          tally_chill(truth, today.winter.begin(), today.now).total(measure).amount());
    const Winter past = winter_of(kNorth, 2016);
    CHECK_THAT(
        tally_chill(place.record.hours, past.begin(), past.end()).total(measure).amount(),
        WithinAbs(tally_chill(truth, past.begin(), past.end()).total(measure).amount(), 1e-6));
  }
}

TEST_CASE("two thermometers hardly ever read together are not laid behind each other") {
  const HourlySeries hours = years_of_weather(53, 2018, 4);
  const LocalHour hung = LocalHour::at(date_of(2022, 1, 1), 0);
  const PlaceWeather alone =
      place_weather(hollow(), in_the_hollow(hours, hung, hung + 239), {}, record_of(hours));
  CHECK(alone.stands_alone());
  CHECK(alone.record.hours.size() == 239);
  CHECK_FALSE(anything_known(alone, LocalHour::at(date_of(2020, 11, 1), 0), hung));
  CHECK(winters_on_record(alone.record, kNorth).size() == 1);
  const PlaceWeather enough =
      place_weather(hollow(), in_the_hollow(hours, hung, hung + 240), {}, record_of(hours));
  CHECK_FALSE(enough.stands_alone());
  CHECK(winters_on_record(enough.record, kNorth).size() == 4);
}

TEST_CASE("a daily thermometer of a block keeps days, and so do the winters behind it") {
  const HourlySeries hours = years_of_weather(54, 2017, 5);
  const DailySeries extremes = daily_from_hourly(hours);
  DailySeries own;
  for (Date day = date_of(2021, 11, 1); day < date_of(2022, 1, 20); day = plus_days(day, 1)) {
    const DailyExtremes there = extremes.at(day).value();
    own.set(day,
            DailyExtremes{there.minimum - CelsiusDelta(1.5), there.maximum + CelsiusDelta(0.5)});
  }
  const PlaceWeather place = place_weather(hollow(), {}, own, record_of(hours));
  CHECK_FALSE(place.by_hour.has_value());
  REQUIRE(place.by_extremes.has_value());
  CHECK(place.by_extremes->shared_days == 80);
  CHECK_THAT(place.by_extremes->minimum.degrees(), WithinAbs(-1.5, 1e-9));
  CHECK_THAT(place.by_extremes->maximum.degrees(), WithinAbs(0.5, 1e-9));
  CHECK_THAT(place.by_extremes->error.degrees(), WithinAbs(0.0, 1e-9));
  const Date past = date_of(2019, 1, 14);
  CHECK_THAT(place.record.days.at(past)->minimum.degrees(),
             WithinAbs(extremes.at(past)->minimum.degrees() - 1.5, 1e-9));
  CHECK(detail_of(place.record, LocalHour::at(date_of(2018, 11, 1), 0),
                  LocalHour::at(date_of(2019, 3, 1), 0)) == WinterDetail::daily_extremes);
  CHECK(mostly_own(place, LocalHour::at(date_of(2021, 11, 1), 0),
                   LocalHour::at(date_of(2022, 1, 20), 0)));
  CHECK_FALSE(mostly_own(place, LocalHour::at(date_of(2018, 11, 1), 0),
                         LocalHour::at(date_of(2019, 3, 1), 0)));
}

TEST_CASE("days are moved behind a logger where the orchard's past is known by days alone") {
  const HourlySeries hours = years_of_weather(55, 2017, 5);
  const DailySeries extremes = daily_from_hourly(hours);
  DailySeries past_days;
  for (Date day = date_of(2017, 9, 1); day < date_of(2021, 12, 15); day = plus_days(day, 1))
    past_days.set(day, extremes.at(day));
  HourlySeries now;
  for (LocalHour hour = LocalHour::at(date_of(2021, 12, 10), 0);
       hour < LocalHour::at(date_of(2022, 2, 1), 0); hour = hour + 1)
    now.set(hour, hours.at(hour).value());
  const WeatherRecord orchard = weather_record(now, past_days, 38.0);
  const LocalHour hung = LocalHour::at(date_of(2021, 11, 20), 0);
  HourlySeries own;
  for (LocalHour hour = hung; hour < LocalHour::at(date_of(2022, 2, 1), 0); hour = hour + 1)
    own.set(hour, reading(hours.at(hour)->mean.degrees() - 1.0));
  const PlaceWeather place = place_weather(hollow(), own, {}, orchard);
  REQUIRE(place.by_hour.has_value());
  REQUIRE(place.by_extremes.has_value());
  CHECK(place.by_extremes->shared_days == 73);  // 20 November to 31 January, by day or by hour
  CHECK_THAT(place.by_extremes->minimum.degrees(), WithinAbs(-1.0, 1e-9));
  const Date past = date_of(2019, 1, 14);
  CHECK_THAT(place.record.days.at(past)->maximum.degrees(),
             WithinAbs(extremes.at(past)->maximum.degrees() - 1.0, 1e-9));
  CHECK(place.record.hours.at(hung + 5)->origin == HourOrigin::observed);
  const Today today = stand_at(orchard, kNorth, {}, date_of(2022, 1, 31)).value();
  CHECK(comparison_basis(place.record, today).detail == WinterDetail::daily_extremes);
}

TEST_CASE("past days are moved although the logger never hung while days were kept") {
  const HourlySeries hours = years_of_weather(57, 2016, 6);
  const DailySeries extremes = daily_from_hourly(hours);
  DailySeries past_days;
  for (Date day = date_of(2016, 9, 1); day < date_of(2021, 6, 1); day = plus_days(day, 1))
    past_days.set(day, extremes.at(day));
  HourlySeries now;
  HourlySeries own;
  for (LocalHour hour = LocalHour::at(date_of(2021, 11, 1), 0);
       hour < LocalHour::at(date_of(2022, 2, 1), 0); hour = hour + 1) {
    now.set(hour, hours.at(hour).value());
    own.set(hour, reading(hours.at(hour)->mean.degrees() - 2.0));
  }
  const PlaceWeather place = place_weather(hollow(), own, {}, weather_record(now, past_days, 38.0));
  REQUIRE(place.by_extremes.has_value());
  CHECK(place.by_extremes->shared_days == 92);
  const Date past = date_of(2018, 1, 14);
  CHECK_THAT(place.record.days.at(past)->minimum.degrees(),
             WithinAbs(extremes.at(past)->minimum.degrees() - 2.0, 1e-9));
  CHECK(winters_on_record(place.record, kNorth, 2021).size() == 5);
}

TEST_CASE("a forecast for the orchard is moved too") {
  const HourlySeries hours = years_of_weather(56, 2018, 4);
  const LocalHour now = LocalHour::at(date_of(2022, 1, 10), 0);
  WeatherRecord orchard = record_of(hours);
  for (int hour = 0; hour < 48; ++hour)
    orchard.forecast.set(now + hour, {Celsius(6.0), Celsius(6.0), HourOrigin::forecast});
  const PlaceWeather place = place_weather(
      hollow(), in_the_hollow(hours, LocalHour::at(date_of(2021, 11, 1), 0), now), {}, orchard);
  CHECK_THAT(place.record.forecast.at(now + 3)->mean.degrees(), WithinAbs(4.0, 1e-9));
  CHECK_THAT(place.record.forecast.at(now + 14)->mean.degrees(), WithinAbs(6.5, 1e-9));
  CHECK(place.record.forecast.at(now + 3)->origin == HourOrigin::forecast);
}
