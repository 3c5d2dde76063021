// Numbers with units, ranges and times as keepers write them. Conversions by definition: 1 ft =
// 0.3048 m, 1 in = 25.4 mm, a step of 1 F is 5/9 C.
#include "readers/orchard/quantities.h"

#include "support/catch.h"

using namespace winterfolio;

TEST_CASE("decimal numbers are read with a point, and nothing else is one") {
  CHECK(parse_decimal("3.5") == 3.5);
  CHECK(parse_decimal("-1.5") == -1.5);
  CHECK(parse_decimal("+7") == 7.0);
  CHECK(parse_decimal("\u22121.5") == -1.5);  // the minus of word processors
  CHECK(parse_decimal("0") == 0.0);
  CHECK(parse_decimal("0.25") == 0.25);
  for (const char* text : {"", "-", "1,5", "012", "1e3", "nan", "inf", ".nan", "0x1F", "1_000",
                           "12 m", "1.2.3", "--1", " 1", "1 "}) {
    INFO(text);
    CHECK_FALSE(parse_decimal(text).has_value());
  }
}

TEST_CASE("whole numbers have no point and no zeros in front") {
  CHECK(parse_whole("8") == 8);
  CHECK(parse_whole("-3") == -3);
  CHECK(parse_whole("0") == 0);
  for (const char* text : {"", "8.0", "08", "eight", "99999999999", "1e2"}) {
    INFO(text);
    CHECK_FALSE(parse_whole(text).has_value());
  }
}

TEST_CASE("a quantity is cut where its number ends") {
  CHECK(split_quantity("3.5 m").number == "3.5");
  CHECK(split_quantity("3.5 m").unit == "m");
  CHECK(split_quantity("12ft").unit == "ft");
  CHECK(split_quantity("-1.5\u00A0°C").unit == "°C");  // a hard blank
  CHECK(split_quantity("20 %").unit == "%");
  CHECK(split_quantity("1,5 m").number == "1,5");
  CHECK(split_quantity("about 3 m").number.empty());
  CHECK(split_quantity("7").unit.empty());
}

TEST_CASE("units are known by their words, capitals aside") {
  CHECK(unit_named("length", "m") == "metre");
  CHECK(unit_named("length", "Metres") == "metre");
  CHECK(unit_named("length", "FT") == "foot");
  CHECK(unit_named("temperature_difference", "F") == "fahrenheit");
  CHECK(unit_named("temperature_difference", "°c") == "celsius");
  CHECK(unit_named("time", "min") == "minute");
  CHECK(unit_named("length", "min").empty());
  CHECK(unit_named("length", "yd").empty());
  CHECK(units_of("length") == "m, cm, ft or in");
}

TEST_CASE("lengths and differences convert exactly") {
  CHECK(length_in(3.5, "").metres() == 3.5);
  CHECK_THAT(length_in(12.0, "foot").metres(), WithinAbs(3.6576, 1e-12));
  CHECK_THAT(length_in(250.0, "centimetre").metres(), WithinAbs(2.5, 1e-12));
  CHECK_THAT(length_in(100.0, "inch").metres(), WithinAbs(2.54, 1e-12));
  CHECK(temperature_difference_in(-1.5, "").degrees() == -1.5);
  CHECK_THAT(temperature_difference_in(-2.7, "fahrenheit").degrees(), WithinAbs(-1.5, 1e-12));
  CHECK_THAT(temperature_difference_in(0.9, "fahrenheit").degrees(), WithinAbs(0.5, 1e-12));
  CHECK(temperature_difference_in(0.0, "fahrenheit").degrees() == 0.0);  // not -17.8
  CHECK(temperature_difference_in(2.0, "kelvin").degrees() == 2.0);
  CHECK(minutes_in(1.5, "hour") == 90.0);
}

TEST_CASE("ranges have two dots; one number is a range of no width") {
  CHECK(parse_range("300..400") == Range{300, 400});
  CHECK(parse_range("300 .. 400") == Range{300, 400});
  CHECK(parse_range("18.5..22") == Range{18.5, 22});
  CHECK(parse_range("-50..100") == Range{-50, 100});
  CHECK(parse_range("350") == Range{350, 350});
  for (const char* text :
       {"", "300-400", "300 to 400", "300..", "..400", "300...400", "1..2..3", "a..b"}) {
    INFO(text);
    CHECK_FALSE(parse_range(text).has_value());
  }
}

TEST_CASE("times of day and distances from UTC") {
  CHECK(parse_time_of_day("09:00") == 540);
  CHECK(parse_time_of_day("9:05") == 545);
  CHECK(parse_time_of_day("23:59") == 1439);
  for (const char* text : {"24:00", "9", "9.30", "09:60", "9:5", "009:00", "9:00 am", "-1:00"}) {
    INFO(text);
    CHECK_FALSE(parse_time_of_day(text).has_value());
  }
  CHECK(parse_utc_offset("-08:00") == -480);
  CHECK(parse_utc_offset("+05:30") == 330);
  CHECK(parse_utc_offset("+14:00") == 840);
  CHECK(parse_utc_offset("Z") == 0);
  for (const char* text : {"08:00", "-8", "+14:01", "UTC-8", "", "-08:60"}) {
    INFO(text);
    CHECK_FALSE(parse_utc_offset(text).has_value());
  }
}

TEST_CASE("yes and true are one word, no and false the other") {
  for (const char* text : {"yes", "Yes", "YES", "true", "True"}) CHECK(parse_yes_no(text) == true);
  for (const char* text : {"no", "No", "false", "FALSE"}) CHECK(parse_yes_no(text) == false);
  for (const char* text : {"y", "n", "on", "off", "1", "0", "", "unknown"})
    CHECK_FALSE(parse_yes_no(text).has_value());
}
