// GHCN-Daily and ISD-Lite: samples written here, with the cases that go wrong.
#include "readers/temperature/reading.h"

using namespace winterfolio;
using namespace winterfolio::test;

namespace {

std::string dly_line(const std::string& station, const std::string& month,
                     const std::string& element, const std::vector<std::string>& groups) {
  std::string line = station + month + element;
  for (std::size_t day = 0; day < 31; ++day) line += day < groups.size() ? groups[day] : "-9999   ";
  return line + "\n";
}

}  // namespace

TEST_CASE("GHCN-Daily: tenths, missing days, failed values, other elements between") {
  const std::string station = "XX000000001";
  const std::string bytes = dly_line(station, "202402", "TMAX",
                                     {"  106  0", "  133  0", "  150 X0", "-9999   ", "   61  0"}) +
                            dly_line(station, "202402", "PRCP", {"    0  0", "   94  0"}) +
                            dly_line(station, "202402", "TMIN",
                                     {"    6  0", "  -50  0", "  -67  0", "   11  0", "  -22  0"}) +
                            dly_line(station, "202402", "TOBS", {"    6  0"});
  const TemperatureFile file = good(bytes);
  CHECK(file.format == "ghcn-daily");
  CHECK(file.station == station);
  CHECK(file.readings == 3);
  CHECK(file.set_aside.flagged == 1);
  CHECK(file.missing_hours == 48);
  CHECK(file.days.at(date_of(2024, 2, 1))->maximum.degrees() == 10.6);
  CHECK(file.days.at(date_of(2024, 2, 2))->minimum.degrees() == -5.0);
  CHECK_FALSE(file.days.at(date_of(2024, 2, 3)));
  CHECK(iso_time(file.last) == "2024-02-05T00:00");
}

TEST_CASE("GHCN-Daily: a value on a day the month has not is named, not used") {
  std::vector<std::string> groups(31, "   10  0");
  const Reading reading =
      read(dly_line("XX000000001", "202302", "TMAX", groups) +
           dly_line("XX000000001", "202302", "TMIN", std::vector<std::string>(28, "    0  0")));
  REQUIRE(reading.file);
  CHECK(reading.file->readings == 28);
  CHECK(reading.file->set_aside.unreadable == 3);
}

TEST_CASE("GHCN-Daily: two stations in one file are asked for") {
  const std::string bytes = dly_line("XX000000001", "202402", "TMAX", {"  106  0"}) +
                            dly_line("XX000000002", "202402", "TMAX", {"  106  0"});
  CHECK(read(bytes).says("several-stations"));
}

TEST_CASE("ISD-Lite: tenths, UTC, missing readings, absent rows") {
  const std::string bytes =
      "2014 01 01 01   -11   -42 10243   210    26 -9999 -9999 -9999\n"
      "2014 01 01 02 -9999   -44 10240    50    10 -9999 -9999 -9999\n"
      "2014 01 01 05    72   -42 10248   340    10 -9999 -9999 -9999\n";
  const TemperatureFile file = good(bytes);
  CHECK(file.format == "isd-lite");
  CHECK(file.clock == SeriesClock::utc);
  CHECK(file.readings == 2);
  CHECK(file.blank == 1);
  CHECK(file.missing_hours == 3);
  CHECK(mean(file, date_of(2014, 1, 1), 1) == -1.1);
  CHECK(mean(file, date_of(2014, 1, 1), 5) == 7.2);
  TemperatureOptions options;
  options.time_zone = "America/Denver";
  const TemperatureFile local = good(bytes, options);
  CHECK(local.clock == SeriesClock::standard);
  CHECK(mean(local, date_of(2013, 12, 31), 18) == -1.1);
}
