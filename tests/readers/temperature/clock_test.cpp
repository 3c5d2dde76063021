// Which hour a stamp means: civil clocks with their jumps, UTC, offsets in the stamps.
#include "readers/temperature/reading.h"

using namespace winterfolio;
using namespace winterfolio::test;

TEST_CASE(
    "A civil clock's summer hours come back to standard time, and the autumn hour told twice is "
    "two hours") {
  // California: summer time from 2024-03-10 02:00 to 2024-11-03 02:00.
  TemperatureOptions options;
  options.clock = Clock::civil;
  options.time_zone = "America/Los_Angeles";
  const TemperatureFile autumn = good(
      "time,temp_c\n2024-11-03 00:00,1.0\n2024-11-03 01:00,2.0\n2024-11-03 01:00,3.0\n2024-11-03 "
      "02:00,4.0\n",
      options);
  const Date day = date_of(2024, 11, 3);
  CHECK(autumn.readings == 4);
  CHECK(autumn.missing_hours == 0);
  CHECK(mean(autumn, date_of(2024, 11, 2), 23) == 1.0);
  CHECK(mean(autumn, day, 0) == 2.0);
  CHECK(mean(autumn, day, 1) == 3.0);
  CHECK(mean(autumn, day, 2) == 4.0);
  const TemperatureFile half_hours = good(
      "time,temp_c\n2024-11-03 01:00,1.0\n2024-11-03 01:30,2.0\n2024-11-03 01:00,3.0\n2024-11-03 "
      "01:30,4.0\n2024-11-03 02:00,5.0\n",
      options);
  CHECK(mean(half_hours, day, 0) == 1.5);
  CHECK(mean(half_hours, day, 1) == 3.5);
  const TemperatureFile spring = good(
      "time,temp_c\n2024-03-10 01:00,1.0\n2024-03-10 03:00,2.0\n2024-07-01 13:00,3.0\n", options);
  CHECK(mean(spring, date_of(2024, 3, 10), 2) == 2.0);
  CHECK(mean(spring, date_of(2024, 7, 1), 12) == 3.0);
  const Reading skipped = read(
      "time,temp_c\n2024-03-10 01:00,1.0\n2024-03-10 02:00,1.5\n2024-03-10 03:00,2.0\n", options);
  CHECK(skipped.says("skipped-hour"));
}

namespace {

/// Every half hour as a wall clock in California tells it, the autumn hour once only.
std::string wall_clock(Date from, Date to, bool skips) {
  std::string text = "time,temp_c\n";
  for (LocalHour hour = LocalHour::at(from, 0); hour < LocalHour::at(to, 0); hour = hour + 1) {
    if (skips && hour.date() == date_of(2024, 3, 10) && hour.hour_of_day() == 2) continue;
    for (const char* minute : {"00", "30"})
      text += iso_date(hour.date()) + " " + (hour.hour_of_day() < 10 ? "0" : "") +
              std::to_string(hour.hour_of_day()) + ":" + minute + "," +
              std::to_string(hour.hour_of_day()) + ".5\n";
  }
  return text;
}

}  // namespace

TEST_CASE("A clock that goes forward in spring is noticed though no stamp is told twice") {
  const std::string jumping = wall_clock(date_of(2024, 3, 1), date_of(2024, 11, 10), true);
  const std::string steady = wall_clock(date_of(2024, 3, 1), date_of(2024, 11, 10), false);
  const Reading unknown_zone = read(jumping);
  REQUIRE(unknown_zone.file);
  CHECK(unknown_zone.says("clock-seems-civil"));
  CHECK(unknown_zone.text().find("2024-03-10T02") != std::string::npos);
  CHECK_FALSE(read(steady).says("clock-seems-civil"));
  TemperatureOptions options;
  options.time_zone = "America/Los_Angeles";
  CHECK(read(jumping, options).says("clock-seems-civil"));
  CHECK_FALSE(read(steady, options).says("clock-seems-civil"));
  // Where clocks go forward on another night the hole is only a hole.
  options.time_zone = "Europe/Dublin";
  CHECK_FALSE(read(jumping, options).says("clock-seems-civil"));
  // A winter that ends before clocks change says nothing of its clock, and nothing depends on it.
  options.time_zone = "America/Los_Angeles";
  CHECK_FALSE(read(wall_clock(date_of(2023, 11, 10), date_of(2024, 3, 9), true), options)
                  .says("clock-seems-civil"));
  options.clock = Clock::standard;
  CHECK_FALSE(read(jumping, options).says("clock-seems-civil"));
  options.clock = Clock::civil;
  const Reading civil = read(jumping, options);
  REQUIRE(civil.file);
  CHECK_FALSE(civil.says("clock-seems-civil"));
  CHECK(mean(*civil.file, date_of(2024, 3, 10), 2) == 3.5);
  CHECK(mean(*civil.file, date_of(2024, 7, 1), 11) == 12.5);
  // The autumn hour that was told once is the first of the two; the second stays missing.
  CHECK(mean(*civil.file, date_of(2024, 11, 3), 0) == 1.5);
  CHECK_FALSE(civil.file->hours.at(LocalHour::at(date_of(2024, 11, 3), 1)));
  CHECK(mean(*civil.file, date_of(2024, 11, 3), 2) == 2.5);
  CHECK(civil.file->missing_hours == 1);
}

TEST_CASE("Lone holes on other nights are no summer time") {
  std::string text = "time,temp_c\n";
  for (LocalHour hour = LocalHour::at(date_of(2024, 3, 1), 0);
       hour < LocalHour::at(date_of(2024, 4, 20), 0); hour = hour + 1) {
    if (hour.hour_of_day() == 2 && unsigned{hour.date().day()} % 3 == 0) continue;
    text += iso_date(hour.date()) + " " + std::to_string(hour.hour_of_day()) + ":00,5.5\n";
  }
  CHECK_FALSE(read(text).says("clock-seems-civil"));
}

TEST_CASE("A civil clock needs its zone") {
  TemperatureOptions options;
  options.clock = Clock::civil;
  CHECK(read("time,temp_c\n2024-11-03 00:00,1.0\n", options).says("zone-missing"));
  options.time_zone = "Europe/Dublim";
  const Reading wrong = read("time,temp_c\n2024-11-03 00:00,1.0\n", options);
  CHECK(wrong.says("unknown-zone"));
  CHECK(wrong.text().find("Europe/Dublin") != std::string::npos);
}

TEST_CASE("UTC stays UTC unless a zone or an offset is known") {
  const std::string bytes = "time,temp_c\n2024-11-03 00:00,1.0\n2024-11-03 01:00,2.0\n";
  TemperatureOptions options;
  options.clock = Clock::utc;
  const TemperatureFile as_it_is = good(bytes, options);
  CHECK(as_it_is.clock == SeriesClock::utc);
  CHECK(mean(as_it_is, date_of(2024, 11, 3), 0) == 1.0);
  options.time_zone = "America/Los_Angeles";
  const TemperatureFile local = good(bytes, options);
  CHECK(local.clock == SeriesClock::standard);
  CHECK(mean(local, date_of(2024, 11, 2), 16) == 1.0);
  options.time_zone.clear();
  options.utc_offset_minutes = 330;
  CHECK(mean(good(bytes, options), date_of(2024, 11, 3), 5) == 1.0);
}

TEST_CASE("Stamps that carry their distance from UTC lead to standard time") {
  const TemperatureFile file = good(
      "time,temp_c\n2024-10-27T00:00:00+02:00,1.0\n2024-10-27T01:00:00+02:00,2.0\n2024-10-27T02:00:"
      "00+02:00,3.0\n"
      "2024-10-27T02:00:00+01:00,4.0\n2024-10-27T03:00:00+01:00,5.0\n");
  CHECK(file.readings == 5);
  CHECK(file.missing_hours == 0);
  CHECK(mean(file, date_of(2024, 10, 26), 23) == 1.0);
  CHECK(mean(file, date_of(2024, 10, 27), 2) == 4.0);
  CHECK(file.clock == SeriesClock::standard);
  const TemperatureFile zulu =
      good("time,temp_c\n2024-10-27T00:00:00Z,1.0\n2024-10-27T01:00:00Z,2.0\n");
  CHECK(zulu.clock == SeriesClock::utc);
  CHECK(mean(zulu, date_of(2024, 10, 27), 0) == 1.0);
}

TEST_CASE("A leap day is a day, and the year before 1970 is a year") {
  const TemperatureFile file = good(
      "time,temp_c\n2024-02-28 23:00,1.0\n2024-02-29 00:00,2.0\n2024-02-29 23:00,3.0\n2024-03-01 "
      "00:00,4.0\n");
  CHECK(mean(file, date_of(2024, 2, 29), 23) == 3.0);
  CHECK(file.missing_hours == 22);
  const TemperatureFile old =
      good("time,temp_c\n1952-12-31 22:30,1.0\n1952-12-31 23:59,2.0\n1953-01-01 00:00,4.0\n");
  CHECK(mean(old, date_of(1952, 12, 31), 23) == 2.0);
  CHECK(iso_time(old.first) == "1952-12-31T22:30");
  CHECK(iso_time(old.last) == "1953-01-01T00:00");
}

TEST_CASE("Letters that several zones write are those of the orchard's own zone") {
  const std::string log = "time,temp_c\n2024-11-03 06:00 CST,5.0\n2024-11-03 07:00 CST,6.0\n";
  TemperatureOptions options;
  // UTC+8 all year in China, UTC-6 in winter in Chicago: either way the stamps are standard time.
  for (const char* zone : {"Asia/Shanghai", "America/Chicago", "America/Havana"}) {
    options.time_zone = zone;
    const Reading reading = read(log, options);
    INFO(zone << "\n" << reading.text());
    REQUIRE(reading.file);
    CHECK(iso_time(reading.file->first) == "2024-11-03T06:00");
    CHECK_FALSE(reading.says("zone-letters-assumed"));
  }
}

TEST_CASE("Letters of a zone next door are read, and it is said as which") {
  const std::string log = "time,temp_c\n2024-11-03 06:00 CST,5.0\n2024-11-03 07:00 CST,6.0\n";
  TemperatureOptions options;
  options.time_zone = "America/Denver";  // an hour behind Chicago
  const Reading reading = read(log, options);
  REQUIRE(reading.file);
  CHECK(iso_time(reading.file->first) == "2024-11-03T05:00");
  CHECK(reading.says("zone-letters-assumed"));
  options.time_zone = "Asia/Dhaka";  // two hours behind China
  const Reading east = read(log, options);
  REQUIRE(east.file);
  CHECK(iso_time(east.file->first) == "2024-11-03T04:00");
  CHECK(east.says("zone-letters-assumed"));
  options.time_zone = "Asia/Tokyo";  // between China's and central Australia's
  CHECK(read(log, options).says("zone-letters-in-doubt"));
}

TEST_CASE("Letters none of whose zones is near stop the file, unless its clock is given") {
  const std::string log = "time,temp_c\n2024-11-03 06:00 CST,5.0\n2024-11-03 07:00 CST,6.0\n";
  TemperatureOptions options;
  options.time_zone = "Europe/Paris";
  const Reading reading = read(log, options);
  CHECK_FALSE(reading.file);
  CHECK(reading.says("zone-letters-in-doubt"));
  options.clock = Clock::standard;
  CHECK(iso_time(good(log, options).first) == "2024-11-03T06:00");
}

TEST_CASE("Without a zone, letters are told by their company or by the longitude") {
  const std::string irish =
      "time,temp_c\n2026-10-25 00:00 IST,9.0\n2026-10-25 01:00 IST,8.0\n"
      "2026-10-25 01:00 GMT,7.0\n2026-10-25 02:00 GMT,6.0\n";
  TemperatureOptions options;
  CHECK(read(irish, options).says("zone-letters-in-doubt"));
  options.longitude = -6.3;  // Dublin: summer time ends at 02:00 IST, which is 01:00 GMT
  const TemperatureFile file = good(irish, options);
  CHECK(file.set_aside.duplicates == 0);
  CHECK(iso_time(file.first) == "2026-10-24T23:00");
  CHECK(mean(file, date_of(2026, 10, 25), 0) == 8.0);
  CHECK(mean(file, date_of(2026, 10, 25), 1) == 7.0);
  const std::string winter_first =
      "time,temp_c\n2026-03-29 00:00 GMT,9.0\n2026-03-29 02:00 IST,8.0\n";
  const TemperatureFile spring = good(winter_first);
  CHECK(mean(spring, date_of(2026, 3, 29), 1) == 8.0);
}

TEST_CASE("The clock that a header names is brought to the orchard's own") {
  const std::string rows = "2026-07-01 12:00,20.0\n2026-07-01 13:00,21.0\n";
  TemperatureOptions options;
  // A logger set up in summer writes Pacific summer time all year: an hour ahead of standard.
  const std::string summer = "\"Date Time, GMT-07:00\",\"Temp (°C)\"\n" + rows;
  CHECK(iso_time(good(summer, options).first) == "2026-07-01T12:00");
  options.time_zone = "America/Los_Angeles";
  CHECK(iso_time(good(summer, options).first) == "2026-07-01T11:00");
  const std::string own = "\"Date Time, GMT-08:00\",\"Temp (°C)\"\n" + rows;
  CHECK(iso_time(good(own, options).first) == "2026-07-01T12:00");
  options.clock = Clock::standard;  // the person's word outranks the header's
  CHECK(iso_time(good(summer, options).first) == "2026-07-01T12:00");

  options.clock.reset();
  const std::string eastern = "Time (EST),Temp (°C)\n" + rows;
  options.time_zone = "America/Chicago";  // an hour behind
  const Reading near = read(eastern, options);
  REQUIRE(near.file);
  CHECK(iso_time(near.file->first) == "2026-07-01T11:00");
  CHECK(near.says("zone-letters-assumed"));
  options.time_zone = "America/New_York";
  CHECK(iso_time(good(eastern, options).first) == "2026-07-01T12:00");
  options.time_zone = "Europe/Dublin";
  CHECK(read(eastern, options).says("zone-letters-in-doubt"));
  options.time_zone = "Europe/Helsinki";
  const Reading only = read("Time (CET),Temp (°C)\n" + rows, options);
  REQUIRE(only.file);
  CHECK(iso_time(only.file->first) == "2026-07-01T13:00");
  CHECK_FALSE(only.says("zone-letters-assumed"));
}
