// Plain tables in the shapes people send them.
#include "readers/temperature/reading.h"

using namespace winterfolio;
using namespace winterfolio::test;

namespace {

const Date kDay = date_of(2026, 11, 1);

}  // namespace

TEST_CASE("The commonest log: ISO time, comma, tenths") {
  const TemperatureFile file =
      good("timestamp,temp_c\n2026-11-01 00:00,7.2\n2026-11-01 01:00,-0.5\n2026-11-01 03:00,10\n");
  CHECK(file.format == "table");
  CHECK(file.readings == 3);
  CHECK(file.missing_hours == 1);
  CHECK(iso_time(file.first) == "2026-11-01T00:00");
  CHECK(iso_time(file.last) == "2026-11-01T03:00");
  CHECK(mean(file, kDay, 0) == 7.2);
  CHECK(mean(file, kDay, 1) == -0.5);
  CHECK(mean(file, kDay, 3) == 10.0);
  CHECK_FALSE(file.hours.at(LocalHour::at(kDay, 2)));
}

TEST_CASE("One reading in an hour is that decimal to the last bit, for every tenth and hundredth") {
  std::string bytes = "time,temp_c\n";
  for (int i = 0; i < 24 * 30; ++i) {
    const int hundredths = (i * 37) % 8000 - 3000;
    bytes += "2026-11-" + std::string(i / 24 < 9 ? "0" : "") + std::to_string(i / 24 + 1) + " " +
             (i % 24 < 10 ? "0" : "") + std::to_string(i % 24) + ":00," +
             (hundredths < 0 ? "-" : "") + std::to_string(std::abs(hundredths) / 100) + "." +
             (std::abs(hundredths) % 100 < 10 ? "0" : "") +
             std::to_string(std::abs(hundredths) % 100) + "\n";
  }
  Reading reading = read(bytes);
  REQUIRE(reading.file);
  for (int i = 0; i < 24 * 30; ++i) {
    const auto hour = reading.file->hours.at(LocalHour::at(kDay, 0) + i);
    if (!hour) continue;  // set aside as a spike: the walk jumps
    CHECK(hour->mean.degrees() == ((i * 37) % 8000 - 3000) / 100.0);
  }
}

TEST_CASE("An hour is the mean of its readings, however many, and keeps the lowest") {
  const TemperatureFile file = good(
      "time,temp_c\n2026-11-01 00:00,1.0\n2026-11-01 00:20,2.0\n2026-11-01 00:40,1.5\n2026-11-01 "
      "01:00,3.0\n"
      "2026-11-01 01:59:59,2.0\n2026-11-01 02:30,4.4\n");
  CHECK(file.readings == 6);
  CHECK(mean(file, kDay, 0) == 1.5);
  CHECK(lowest(file, kDay, 0) == 1.0);
  CHECK(mean(file, kDay, 1) == 2.5);
  CHECK(lowest(file, kDay, 1) == 2.0);
  CHECK(mean(file, kDay, 2) == 4.4);
}

TEST_CASE("Twelve readings of 7.2 make 7.2, not a little less") {
  std::string bytes = "time,temp_c\n";
  for (int m = 0; m < 60; m += 5)
    bytes += "2026-11-01 00:" + std::string(m < 10 ? "0" : "") + std::to_string(m) + ",7.2\n";
  CHECK(mean(good(bytes), kDay, 0) == 7.2);
}

TEST_CASE("Delimiters, quotes, decimal commas, line ends, byte order mark and preamble") {
  const std::vector<std::string> same = {
      "time,temp_c\n2026-11-01 00:00,7.2\n2026-11-01 01:00,-0.5\n2026-11-01 02:00,1.25\n",
      "time,temp_c\r\n2026-11-01 00:00,7.2\r\n2026-11-01 01:00,-0.5\r\n2026-11-01 02:00,1.25\r\n",
      "time,temp_c\r2026-11-01 00:00,7.2\r2026-11-01 01:00,-0.5\r2026-11-01 02:00,1.25\r",
      "\xEF\xBB\xBFtime,temp_c\n2026-11-01 00:00,7.2\n2026-11-01 01:00,-0.5\n2026-11-01 02:00,1.25",
      "time\ttemp_c\n2026-11-01 00:00\t7.2\n2026-11-01 01:00\t-0.5\n2026-11-01 02:00\t1.25\n",
      "time;temp_c\n2026-11-01 00:00;7,2\n2026-11-01 01:00;-0,5\n2026-11-01 02:00;1,25\n",
      "time|temp_c\n2026-11-01 00:00|7.2\n2026-11-01 01:00|-0.5\n2026-11-01 02:00|1.25\n",
      "date time temp_c\n2026-11-01 00:00 7.2\n2026-11-01 01:00 -0.5\n2026-11-01 02:00 1.25\n",
      "date        time    temp_c\n2026-11-01  00:00     7.2\n2026-11-01  01:00    "
      "-0.5\n2026-11-01  02:00    1.25\n",
      "\"time\",\"temp_c\"\n\"2026-11-01 00:00\",\"7.2\"\n\"2026-11-01 "
      "01:00\",\"-0.5\"\n\"2026-11-01 02:00\",\"1.25\"\n",
      "\"time\",\"temp_c\"\n\"2026-11-01 00:00\",\"7,2\"\n\"2026-11-01 "
      "01:00\",\"-0,5\"\n\"2026-11-01 02:00\",\"1,25\"\n",
      "Station: low field\nSerial no. 4711\n\ntime,temp_c\n2026-11-01 00:00,7.2\n2026-11-01 "
      "01:00,-0.5\n2026-11-01 02:00,1.25\n",
      "time,temp\n,deg C\n2026-11-01 00:00,7.2\n2026-11-01 01:00,-0.5\n2026-11-01 02:00,1.25\n",
      "time,temp_c\n2026-11-01 00:00,7.2\n2026-11-01 01:00,-0.5\n2026-11-01 02:00,1.25\n\nEnd of "
      "data\n",
      "date,time,temp_c\n2026-11-01,00:00,7.2\n2026-11-01,01:00,-0.5\n2026-11-01,02:00,1.25\n",
      "temp_c,note,time\n7.2,\"cold, clear\",2026-11-01 00:00\n-0.5,,2026-11-01 "
      "01:00\n1.25,,2026-11-01 02:00\n",
      "time,rh,temp_c\n2026-11-01 00:00,81,7.2\n2026-11-01 01:00,82,-0.5\n2026-11-01 "
      "02:00,83,1.25\n",
      "year,month,day,hour,temp_c\n2026,11,1,0,7.2\n2026,11,1,1,-0.5\n2026,11,1,2,1.25\n",
      "year,doy,hour,temp_c\n2026,305,0,7.2\n2026,305,1,-0.5\n2026,305,2,1.25\n",
      "time,temp_f\n2026-11-01 00:00,44.96\n2026-11-01 01:00,31.1\n2026-11-01 02:00,34.25\n",
      "time,temp_k\n2026-11-01 00:00,280.35\n2026-11-01 01:00,272.65\n2026-11-01 02:00,274.4\n",
      "time,Temp (\xC2\xB0"
      "C)\n2026-11-01 00:00,7.2\n2026-11-01 01:00,-0.5\n2026-11-01 02:00,1.25\n",
      "time,Temp (\xB0"
      "C)\n2026-11-01 00:00,7.2\n2026-11-01 01:00,-0.5\n2026-11-01 02:00,1.25\n",
  };
  for (const std::string& bytes : same) {
    const TemperatureFile file = good(bytes);
    INFO(bytes);
    CHECK(file.readings == 3);
    CHECK_THAT(mean(file, kDay, 0), WithinAbs(7.2, 1e-12));
    CHECK_THAT(mean(file, kDay, 1), WithinAbs(-0.5, 1e-12));
    CHECK_THAT(mean(file, kDay, 2), WithinAbs(1.25, 1e-12));
  }
}

TEST_CASE("Times as people write them") {
  const std::vector<std::string> stamps = {
      "2026-11-01T06:05",
      "2026-11-01T06:05:00",
      "2026-11-01T06:05:00.000",
      "2026/11/01 06:05",
      "20261101 0605",
      "20261101T0605",
      "202611010605",
      "20261101060500",
      "01-nov-2026 06:05",
      "1 November 2026 06:05",
      "Nov 1, 2026 6:05 AM",
      "01.11.2026 06:05",
      "1.11.2026 6:05",
      "01.11.26 06:05",
      "2026-305 06:05",
      "1793513100",
      "1793513100000",
      "2026-11-01 6:05 a.m.",
      "01-NOV-26 06.05.00 AM",
      "Sun Nov 1 2026 06:05",
      "2026-11-01 06:05:00Z",
      "2026-11-01T06:05:00+00:00",
      "1. Nov 2026 06:05 Uhr",
  };
  for (const std::string& stamp : stamps) {
    const TemperatureFile file = good("time;temp_c\n" + stamp + ";7.2\n");
    INFO(stamp);
    CHECK(iso_time(file.first) == "2026-11-01T06:05");
    CHECK(mean(file, kDay, 6) == 7.2);
  }
}

TEST_CASE("Twelve-hour clocks turn at noon and midnight; hour 24 is the next day's first") {
  const TemperatureFile file = good(
      "time,temp_c\n11/13/2026 12:00:00 AM,1.0\n11/13/2026 12:30:00 PM,2.0\n11/13/2026 11:00:00 "
      "PM,3.0\n");
  CHECK(mean(file, date_of(2026, 11, 13), 0) == 1.0);
  CHECK(mean(file, date_of(2026, 11, 13), 12) == 2.0);
  CHECK(mean(file, date_of(2026, 11, 13), 23) == 3.0);
  const TemperatureFile day =
      good("date,hour,temp_c\n2026-10-31,23,4.0\n2026-10-31,24,5.0\n2026-11-01,1,6.0\n");
  CHECK(mean(day, kDay, 0) == 5.0);
  CHECK(mean(day, kDay, 1) == 6.0);
}

TEST_CASE("Stamps that name the end of their hour belong to the hour before") {
  TemperatureOptions options;
  options.hour_stamp = HourStamp::ends;
  const TemperatureFile file =
      good("time,temp_c\n2026-11-01 01:00,1.0\n2026-11-02 00:00,2.0\n", options);
  CHECK(mean(file, kDay, 0) == 1.0);
  CHECK(mean(file, kDay, 23) == 2.0);
  CHECK(iso_time(file.first) == "2026-11-01T01:00");
  CHECK(iso_time(file.last) == "2026-11-02T00:00");
  const TemperatureFile half_hours = good(
      "time,temp_c\n2026-11-01 00:30,1.0\n2026-11-01 01:00,2.0\n2026-11-01 01:30,5.0\n", options);
  CHECK(mean(half_hours, kDay, 0) == 1.5);
  CHECK(mean(half_hours, kDay, 1) == 5.0);
}

TEST_CASE("Day and month order is decided over the whole file") {
  std::string first_days = "time,temp_c\n";
  for (int d = 1; d <= 13; ++d)
    first_days += (d < 10 ? "0" : "") + std::to_string(d) + "/11/2026 06:00,5.0\n" +
                  (d < 10 ? "0" : "") + std::to_string(d) + "/11/2026 07:00,5.5\n";
  CHECK(mean(good(first_days), date_of(2026, 11, 2), 6) == 5.0);
  const TemperatureFile american =
      good("time,temp_c\n11/02/2026 06:00,5.0\n11/02/2026 07:00,5.2\n11/13/2026 06:00,6.0\n");
  CHECK(mean(american, date_of(2026, 11, 2), 6) == 5.0);
  CHECK(american.readings == 3);
}

TEST_CASE("Dates that can all be read in two orders are asked for, with the order that fits") {
  const std::string bytes =
      "time,temp_c\n02/11/2026 06:00,5.0\n02/11/2026 07:00,5.5\n03/11/2026 06:00,6.0\n";
  const Reading reading = read(bytes);
  CHECK_FALSE(reading.file);
  REQUIRE(reading.says("date-order-in-doubt"));
  CHECK(reading.text().find("date_order: dmy") != std::string::npos);
  CHECK(reading.text().find("--date-order dmy") != std::string::npos);
  TemperatureOptions options;
  options.date_order = DateOrder::mdy;
  CHECK(mean(good(bytes, options), date_of(2026, 2, 11), 6) == 5.0);
  options.date_order = DateOrder::dmy;
  CHECK(mean(good(bytes, options), date_of(2026, 11, 2), 6) == 5.0);
}

TEST_CASE("Dates that contradict each other are an error that names both lines") {
  const Reading reading =
      read("time,temp_c\n13/11/2026 06:00,5.0\n13/11/2026 07:00,5.0\n11/14/2026 06:00,6.0\n");
  CHECK_FALSE(reading.file);
  CHECK(reading.says("contradicting-dates"));
}

TEST_CASE("Missing codes are blanks, each counted once") {
  std::string bytes = "time,temp_c\n2026-11-01 00:00,5.0\n";
  const std::vector<std::string> codes = {"",      " ",       "NA",   "N/A",  "NaN",   "null",
                                          "None",  "-",       "--",   "---",  "*",     "M",
                                          "-9999", "-9999.0", "-999", "9999", "999.9", "m"};
  int minute = 0;
  for (const std::string& code : codes) {
    bytes += "2026-11-01 01:" + std::string(minute < 10 ? "0" : "") + std::to_string(minute) + "," +
             code + "\n";
    ++minute;
  }
  bytes += "2026-11-01 02:00,6.0\n";
  const TemperatureFile file = good(bytes);
  CHECK(file.readings == 2);
  CHECK(file.blank == static_cast<int>(codes.size()));
  CHECK(file.missing_hours == 1);
  CHECK(file.set_aside.unreadable == 0);
}

TEST_CASE("Impossible values, repeated stamps and spikes are set aside and said") {
  const Reading reading = read(
      "time,temp_c\n2026-11-01 00:00,5.0\n2026-11-01 01:00,71.6\n2026-11-01 02:00,5.2\n2026-11-01 "
      "02:00,5.2\n"
      "2026-11-01 02:00,9.9\n2026-11-01 03:00,5.1\n2026-11-01 04:00,21.0\n2026-11-01 "
      "05:00,5.3\n2026-11-01 06:00,16.4\n"
      "2026-11-01 07:00,17.0\n");
  REQUIRE(reading.file);
  CHECK(reading.file->set_aside.impossible == 1);
  CHECK(reading.file->set_aside.duplicates == 2);
  CHECK(reading.file->differing_duplicates == 1);
  CHECK(reading.file->set_aside.spikes == 1);
  CHECK(reading.file->readings == 6);
  CHECK(reading.says("impossible-value"));
  CHECK(reading.says("told-twice"));
  CHECK(reading.says("spikes"));
  CHECK(mean(*reading.file, kDay, 2) == 5.2);
  CHECK_FALSE(reading.file->hours.at(LocalHour::at(kDay, 4)));
  CHECK(mean(*reading.file, kDay, 6) == 16.4);  // a step that stays is real air
}

TEST_CASE(
    "A repeated block is found wherever it stands, and stamps out of order are put in order") {
  const std::string block = "2026-11-01 00:00,5.0\n2026-11-01 00:30,5.2\n2026-11-01 01:00,5.4\n";
  const TemperatureFile twice = good("time,temp_c\n" + block + "2026-11-01 02:00,6.0\n" + block);
  CHECK(twice.readings == 4);
  CHECK(twice.set_aside.duplicates == 3);
  CHECK(twice.differing_duplicates == 0);
  const TemperatureFile falling = good(
      "time,temp_c\n2026-11-01 02:00,6.0\n2026-11-01 01:00,5.4\n2026-11-01 00:30,5.2\n2026-11-01 "
      "00:00,5.0\n");
  CHECK(falling.readings == 4);
  CHECK(falling.set_aside.duplicates == 0);
  CHECK(iso_time(falling.first) == "2026-11-01T00:00");
  CHECK(iso_time(falling.last) == "2026-11-01T02:00");
  CHECK_THAT(mean(falling, kDay, 0), WithinAbs(5.1, 1e-12));
  const TemperatureFile seconds = good(
      "time,temp_c\n2026-11-01 00:00:00,5.0\n2026-11-01 00:00:20,5.2\n2026-11-01 "
      "00:00:40,5.4\n2026-11-01 00:01:00,5.4\n");
  CHECK(seconds.readings == 4);
}

TEST_CASE("Unlabelled readings are °C with a warning, unless the winter says otherwise") {
  const Reading celsius = read("time,temp\n2026-11-01 00:00,5.0\n2026-11-01 01:00,6.0\n");
  REQUIRE(celsius.file);
  CHECK(celsius.says("unit-assumed"));
  const std::string fahrenheit =
      "time,temp\n2026-11-01 00:00,41.0\n2026-11-01 01:00,43.0\n2026-11-01 02:00,28.0\n";
  const Reading doubt = read(fahrenheit);
  CHECK_FALSE(doubt.file);
  REQUIRE(doubt.says("unit-in-doubt"));
  CHECK(doubt.text().find("unit: F") != std::string::npos);
  CHECK(doubt.text().find("--unit F") != std::string::npos);
  TemperatureOptions options;
  options.unit = TemperatureUnit::fahrenheit;
  CHECK_THAT(mean(good(fahrenheit, options), kDay, 0), WithinAbs(5.0, 1e-12));
  options.unit = TemperatureUnit::celsius;
  CHECK(mean(good(fahrenheit, options), kDay, 0) == 41.0);
  const Reading kelvin = read("time,temp\n2026-11-01 00:00,278.15\n2026-11-01 01:00,279.0\n");
  CHECK_FALSE(kelvin.file);
  CHECK(kelvin.text().find("--unit K") != std::string::npos);
}

TEST_CASE("A southern winter in °F is in doubt too, though its January is warm") {
  std::string bytes = "time,temp\n";
  for (int m = 1; m <= 12; ++m) {
    for (int d = 1; d <= 28; ++d) {
      bytes += "2026-" + std::string(m < 10 ? "0" : "") + std::to_string(m) + "-" +
               (d < 10 ? "0" : "") + std::to_string(d) + " 12:00," +
               (m >= 5 && m <= 9 ? "52" : "59") + "\n" + "2026-" + std::string(m < 10 ? "0" : "") +
               std::to_string(m) + "-" + (d < 10 ? "0" : "") + std::to_string(d) + " 13:00," +
               (m >= 5 && m <= 9 ? "53" : "60") + "\n";
    }
  }
  CHECK(read(bytes).says("unit-in-doubt"));
}

TEST_CASE("Of several temperatures the air's is taken; two equal ones are asked for") {
  const TemperatureFile file = good(
      "time,dew_point_c,soil temp (C),Air temperature (C),wet bulb\n2026-11-01 "
      "00:00,1.0,9.0,5.0,3.0\n2026-11-01 01:00,1.0,9.0,6.0,3.0\n");
  CHECK(mean(file, kDay, 0) == 5.0);
  const TemperatureFile two_units =
      good("time,tmpf,tmpc\n2026-11-01 00:00,41.0,5.0\n2026-11-01 01:00,41.0,5.1\n");
  CHECK(mean(two_units, kDay, 1) == 5.1);
  const std::string equal =
      "time,Temp 1 (C),Temp 2 (C)\n2026-11-01 00:00,5.0,7.0\n2026-11-01 01:00,5.5,7.5\n";
  const Reading reading = read(equal);
  CHECK_FALSE(reading.file);
  REQUIRE(reading.says("two-columns"));
  CHECK(reading.text().find("columns: {temperature: Temp 1 (C)}") != std::string::npos);
  TemperatureOptions options;
  options.columns["temperature"] = "Temp 2 (C)";
  CHECK(mean(good(equal, options), kDay, 0) == 7.0);
  options.columns["temperature"] = "2";
  CHECK(mean(good(equal, options), kDay, 0) == 5.0);
  options.columns["temperature"] = "Temp 3 (C)";
  CHECK(read(equal, options).says("unknown-column"));
}

TEST_CASE("Without a header the one column of numbers is taken; running numbers are not") {
  const TemperatureFile file = good(
      "1,2026-11-01 00:00,5.0\n2,2026-11-01 01:00,5.4\n3,2026-11-01 02:00,5.9\n4,2026-11-01 "
      "03:00,5.1\n");
  CHECK(file.readings == 4);
  CHECK(mean(file, kDay, 1) == 5.4);
  CHECK(read("2026-11-01 00:00,5.0,81.2\n2026-11-01 01:00,5.4,80.1\n2026-11-01 02:00,5.1,79.9\n")
            .says("two-columns"));
}

TEST_CASE("Event rows of a logger are passed over and counted, not taken for readings") {
  const TemperatureFile file = good(
      "\"Plot Title: low field\"\n\"#\",\"Date Time, GMT-08:00\",\"Temp, \xC2\xB0"
      "C\",\"Coupler Attached\",\"End Of File\"\n"
      "1,11/13/26 06:00:00 AM,5.0,,\n2,11/13/26 07:00:00 AM,5.5,,\n3,11/13/26 07:10:12 "
      "AM,,Logged,\n4,11/13/26 08:00:00 AM,6.0,,\n5,11/13/26 08:10:00 AM,,,Logged\n");
  CHECK(file.readings == 3);
  CHECK(file.blank == 2);
  CHECK(mean(file, date_of(2026, 11, 13), 7) == 5.5);
}

TEST_CASE("Daily tables give days, whichever extreme comes first") {
  const TemperatureFile file = good(
      "date,precipitation,temp_max,temp_min\n2026-11-01,0.0,12.8,5.0\n2026-11-02,10.9,10.6,2."
      "8\n2026-11-04,0.8,11.7,\n2026-11-05,0.8,11.7,7.2\n");
  CHECK(file.is_daily());
  CHECK(file.readings == 3);
  CHECK(file.missing_hours == 48);
  REQUIRE(file.days.at(kDay));
  CHECK(file.days.at(kDay)->minimum == Celsius(5.0));
  CHECK(file.days.at(kDay)->maximum == Celsius(12.8));
  CHECK_FALSE(file.days.at(date_of(2026, 11, 4)));
  CHECK(iso_time(file.last) == "2026-11-05T00:00");
}

TEST_CASE("A day whose minimum is over its maximum is set aside; daily means alone are refused") {
  const Reading reading =
      read("date,tmin_c,tmax_c\n2026-11-01,5.0,12.8\n2026-11-02,12.0,2.8\n2026-11-03,4.0,9.0\n");
  REQUIRE(reading.file);
  CHECK(reading.file->readings == 2);
  CHECK(reading.file->set_aside.impossible == 1);
  CHECK(reading.says("minimum-over-maximum"));
  CHECK(read("date,temp_c\n2026-11-01,5.0\n2026-11-02,6.0\n2026-11-03,4.0\n").says("daily-means"));
}

TEST_CASE("Minima and maxima in two files are put together") {
  std::vector<TemperatureFile> files;
  files.push_back(good(
      "date,Maximum temperature (Degree C)\n2026-11-01,12.0\n2026-11-02,13.0\n2026-11-03,14.0\n"));
  files.push_back(good(
      "date,Minimum temperature (Degree C)\n2026-11-02,3.0\n2026-11-03,4.0\n2026-11-04,5.0\n"));
  CHECK(files[0].is_half());
  Diagnostics diagnostics;
  pair_daily_halves(files, diagnostics);
  REQUIRE(files.size() == 1);
  CHECK_FALSE(diagnostics.has_errors());
  CHECK(files[0].readings == 2);
  CHECK(files[0].days.at(date_of(2026, 11, 3))->minimum == Celsius(4.0));
  std::vector<TemperatureFile> alone;
  alone.push_back(good("date,tmax_c\n2026-11-01,12.0\n2026-11-02,13.0\n2026-11-03,14.0\n"));
  pair_daily_halves(alone, diagnostics);
  CHECK(alone.empty());
  CHECK(diagnostics.has_errors());
}

TEST_CASE("Several stations in one file are asked for") {
  const std::string bytes =
      "station,time,temp_c\n0417,2026-11-01 00:00,5.0\n0418,2026-11-01 00:00,6.0\n0417,2026-11-01 "
      "01:00,5.5\n";
  const Reading reading = read(bytes);
  CHECK_FALSE(reading.file);
  REQUIRE(reading.says("several-stations"));
  CHECK(reading.text().find("--station 0417") != std::string::npos);
  TemperatureOptions options;
  options.station = "418";
  const TemperatureFile file = good(bytes, options);
  CHECK(file.readings == 1);
  CHECK(mean(file, kDay, 0) == 6.0);
  options.station = "9";
  CHECK(read(bytes, options).says("unknown-station"));
}

TEST_CASE("Decimal commas between commas are asked for, then read") {
  const std::string bytes =
      "Datum,Temperatur C\n13.01.2026 00:00,7,2\n13.01.2026 01:00,8\n13.01.2026 02:00,-0,5\n";
  const Reading reading = read(bytes);
  CHECK_FALSE(reading.file);
  REQUIRE(reading.says("decimal-in-doubt"));
  TemperatureOptions options;
  options.decimal = DecimalMark::comma;
  const TemperatureFile file = good(bytes, options);
  CHECK(mean(file, date_of(2026, 1, 13), 0) == 7.2);
  CHECK(mean(file, date_of(2026, 1, 13), 1) == 8.0);
  CHECK(mean(file, date_of(2026, 1, 13), 2) == -0.5);
}

TEST_CASE("A station that changes its step midway is one record, with both steps told") {
  std::string bytes = "time,temp_c\n";
  for (int h = 0; h < 48; h += 3)
    bytes += iso_date(plus_days(kDay, h / 24)) + (h % 24 < 10 ? " 0" : " ") +
             std::to_string(h % 24) + ":00,5.0\n";
  for (int m = 0; m < 180; m += 10)
    bytes += "2026-11-03 0" + std::to_string(m / 60) + ":" + (m % 60 < 10 ? "0" : "") +
             std::to_string(m % 60) + ",6.0\n";
  const TemperatureFile file = good(bytes);
  CHECK(file.steps_minutes == std::vector<int>{180, 10});
  CHECK(file.readings == 16 + 18);
  CHECK(file.missing_hours == 32);
}
