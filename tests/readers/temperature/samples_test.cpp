// A small sample of every format, each with its nasty cases, against what a person counts in it.
#include "readers/temperature/reading.h"
#include "support/files.h"

using namespace winterfolio;
using namespace winterfolio::test;

namespace {

const std::string kFolder = "/tests/readers/temperature/samples/";

LocalHour hour_of(const std::string& text) {
  return LocalHour::at(*parse_date(text.substr(0, 10)), std::stoi(text.substr(11, 2)));
}

std::int64_t count_in(const CsvRow& row, const char* column) {
  return parse_integer(row.text(column)).value();
}

TemperatureOptions options_of_row(const CsvRow& row) {
  TemperatureOptions options;
  if (row.text("unit") == "F") options.unit = TemperatureUnit::fahrenheit;
  if (row.text("unit") == "K") options.unit = TemperatureUnit::kelvin;
  return options;
}

}  // namespace

TEST_CASE("Every sample is recognised by its content and read as a person reads it") {
  const CsvTable table("expected.csv", read_file(source_dir() + kFolder + "expected.csv"));
  for (const CsvRow row : table) {
    // The name must not matter: all are read under the same one.
    const Reading reading =
        read(read_file(source_dir() + kFolder + row.text("sample")), options_of_row(row));
    INFO(row.text("sample") << " (expected.csv line " << row.line() << ")\n" << reading.text());
    if (!row.text("error").empty()) {
      CHECK_FALSE(reading.file);
      CHECK(reading.says(row.text("error")));
      continue;
    }
    REQUIRE(reading.file);
    const TemperatureFile& file = *reading.file;
    CHECK(file.format == row.text("format"));
    CHECK(file.readings == count_in(row, "readings"));
    CHECK(file.missing_hours == count_in(row, "missing_hours"));
    CHECK(iso_time(file.first) == row.text("first"));
    CHECK(iso_time(file.last) == row.text("last"));
    CHECK(file.blank == count_in(row, "blank"));
    CHECK(file.set_aside.flagged == count_in(row, "flagged"));
    CHECK(file.set_aside.unreadable == 0);
    if (row.text("at").empty()) continue;
    const LocalHour at = hour_of(row.text("at"));
    if (const auto mean = row.number("mean")) {
      REQUIRE(file.hours.at(at));
      CHECK_THAT(file.hours.at(at)->mean.degrees(), WithinAbs(*mean, 1e-12));
    } else {
      REQUIRE(file.days.at(at.date()));
      CHECK_THAT(file.days.at(at.date())->minimum.degrees(),
                 WithinAbs(row.required_number("minimum"), 1e-12));
      CHECK_THAT(file.days.at(at.date())->maximum.degrees(),
                 WithinAbs(row.required_number("maximum"), 1e-12));
    }
  }
}

TEST_CASE("Formats that know their lowest reading of the hour keep it") {
  const TemperatureFile file = good(read_file(source_dir() + kFolder + "uscrn_hourly.txt"));
  CHECK_THAT(lowest(file, date_of(2023, 12, 31), 17), WithinAbs(6.6, 1e-6));
}

TEST_CASE("A year put together from several is said to be one") {
  CHECK(good(read_file(source_dir() + kFolder + "epw.csv")).composite_year);
  CHECK(good(read_file(source_dir() + kFolder + "tmy3.csv")).composite_year);
  CHECK_FALSE(good(read_file(source_dir() + kFolder + "uk_hourly.csv")).composite_year);
}

TEST_CASE("Maxima and minima of one station in two files meet") {
  std::vector<TemperatureFile> files;
  files.push_back(good(read_file(source_dir() + kFolder + "australia_maxima.csv")));
  files.push_back(good(read_file(source_dir() + kFolder + "australia_minima.csv")));
  Diagnostics diagnostics;
  pair_daily_halves(files, diagnostics);
  REQUIRE(files.size() == 1);
  CHECK(files[0].readings == 3);
  CHECK(files[0].missing_hours == 24);
}

TEST_CASE("Every format has its sample") {
  const CsvTable table("expected.csv", read_file(source_dir() + kFolder + "expected.csv"));
  for (const char* format : {"ghcn-daily-csv", "isd-full", "isd-csv", "uscrn-hourly",
                             "local-climatological", "epw", "tmy3", "service", "table"}) {
    bool found = false;
    for (const CsvRow row : table) found = found || row.text("format") == format;
    INFO(format);
    CHECK(found);
  }
}
