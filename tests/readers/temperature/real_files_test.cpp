// Real files of public services, counted here in another way: lines are split by hand, dates
// counted through the C library's calendar, nothing of the readers is used.
#include <cmath>
#include <cstdio>
#include <cstring>
#include <ctime>
#include <fstream>
#include <iostream>
#include <map>

#include "readers/temperature/reading.h"
#include "support/files.h"

using namespace winterfolio;
using namespace winterfolio::test;

namespace {

/// Where the real file is, if it is there.
std::optional<std::string> real_file(const std::string& name) {
  const auto dir = test_data_dir();
  if (!dir || !std::ifstream(*dir + "/" + name)) {
    std::cout << "skipped: " << name << " (WINTERFOLIO_TEST_DATA does not hold it)\n";
    return std::nullopt;
  }
  return *dir + "/" + name;
}

long hours_since_1970(int year, int month, int day, int hour) {
  std::tm tm{};
  tm.tm_year = year - 1900;
  tm.tm_mon = month - 1;
  tm.tm_mday = day;
  tm.tm_hour = hour;
  return static_cast<long>(timegm(&tm) / 3600);
}

/// Hours with their temperature as decimal text turned into a number by the C library.
void check_hours(const TemperatureFile& file, const std::map<long, double>& expected) {
  CHECK(file.readings == static_cast<std::int64_t>(expected.size()));
  const long first = expected.begin()->first;
  const long last = expected.rbegin()->first;
  CHECK(file.missing_hours == last - first + 1 - static_cast<long>(expected.size()));
  CHECK(file.first.seconds_since_1970 == first * 3600);
  CHECK(file.last.seconds_since_1970 == last * 3600);
  REQUIRE(file.hours.size() == last - first + 1);
  int differing = 0;
  for (long hour = first; hour <= last; ++hour) {
    const auto found = file.hours.at(LocalHour(static_cast<std::int32_t>(hour)));
    const auto wanted = expected.find(hour);
    const bool same = wanted == expected.end() ? !found
                                               : found && found->mean.degrees() == wanted->second &&
                                                     found->lowest == found->mean;
    differing += !same;
  }
  CHECK(differing == 0);
}

TemperatureFile read_file_at(const std::string& path) {
  Diagnostics diagnostics;
  auto file = read_temperature_file(path, {}, diagnostics);
  REQUIRE(file);
  return std::move(*file);
}

}  // namespace

TEST_CASE("Hourly table of a national service, counted another way") {
  const auto path = real_file("hly175.csv");
  if (!path) return;
  static const char* kMonths[] = {"jan", "feb", "mar", "apr", "may", "jun",
                                  "jul", "aug", "sep", "oct", "nov", "dec"};
  std::map<long, double> expected;
  std::ifstream in(*path);
  std::string line;
  std::getline(in, line);
  int blanks = 0;
  while (std::getline(in, line)) {
    int day = 0, year = 0, hour = 0;
    char month_name[4] = {};
    if (std::sscanf(line.c_str(), "%2d-%3s-%4d %2d:00,", &day, month_name, &year, &hour) != 4)
      continue;
    int month = 0;
    while (std::strcmp(kMonths[month], month_name) != 0) ++month;
    const std::size_t rain = line.find(',');
    const std::size_t temp = line.find(',', rain + 1) + 1;
    const std::string cell = line.substr(temp, line.find(',', temp) - temp);
    if (cell == " ") {
      ++blanks;
      continue;
    }
    expected[hours_since_1970(year, month + 1, day, hour)] = std::strtod(cell.c_str(), nullptr);
  }
  const TemperatureFile file = read_file_at(*path);
  check_hours(file, expected);
  CHECK(file.blank == blanks);
  CHECK(file.readings == 65272);  // 65,499 rows less 227 blanks, as the file's description says
  CHECK(iso_time(file.first) == "2007-06-01T00:00");
  CHECK(iso_time(file.last) == "2015-02-03T02:00");
}

TEST_CASE("ISD-Lite year, counted another way") {
  const auto path = real_file("725755-24101-2014");
  if (!path) return;
  std::map<long, double> expected;
  std::ifstream in(*path);
  int year = 0, month = 0, day = 0, hour = 0, tenths = 0;
  std::string rest;
  while (in >> year >> month >> day >> hour >> tenths && std::getline(in, rest)) {
    if (tenths != -9999)
      expected[hours_since_1970(year, month, day, hour)] =
          std::strtod((std::to_string(tenths) + "e-1").c_str(), nullptr);
  }
  const TemperatureFile file = read_file_at(*path);
  CHECK(file.format == "isd-lite");
  check_hours(file, expected);
  CHECK(file.readings == 8706);
}

TEST_CASE("Hourly normals, counted another way") {
  const auto path = real_file("seattle-weather-hourly-normals.csv");
  if (!path) return;
  std::map<long, double> expected;
  std::ifstream in(*path);
  std::string line;
  std::getline(in, line);
  while (std::getline(in, line)) {
    int year = 0, month = 0, day = 0, hour = 0;
    double pressure = 0.0, temperature = 0.0;
    if (std::sscanf(line.c_str(), "%d-%d-%dT%d:00:00,%lf,%lf", &year, &month, &day, &hour,
                    &pressure, &temperature) != 6)
      continue;
    expected[hours_since_1970(year, month, day, hour)] = temperature;
  }
  const TemperatureFile file = read_file_at(*path);
  check_hours(file, expected);
  CHECK(file.readings == 8759);
}

TEST_CASE("Daily table, counted another way") {
  const auto path = real_file("seattle-weather.csv");
  if (!path) return;
  std::ifstream in(*path);
  std::string line;
  std::getline(in, line);
  const TemperatureFile file = read_file_at(*path);
  int days = 0, differing = 0;
  while (std::getline(in, line)) {
    int year = 0;
    unsigned month = 0, day = 0;
    double rain = 0.0, high = 0.0, low = 0.0;
    REQUIRE(std::sscanf(line.c_str(), "%d-%u-%u,%lf,%lf,%lf", &year, &month, &day, &rain, &high,
                        &low) == 6);
    const auto found = file.days.at(date_of(year, month, day));
    differing += !found || found->minimum.degrees() != low || found->maximum.degrees() != high;
    ++days;
  }
  CHECK(differing == 0);
  CHECK(file.readings == days);
  CHECK(days == 1461);
  CHECK(file.missing_hours == 0);
}

TEST_CASE("Fifty years of GHCN-Daily, counted another way") {
  const auto path = real_file("USW00094728.dly");
  if (!path) return;
  std::map<long, std::pair<double, double>> days;  // by day: minimum, maximum; NAN while missing
  std::ifstream in(*path);
  std::string line;
  long flagged = 0;
  while (std::getline(in, line)) {
    const std::string element = line.substr(17, 4);
    if (element != "TMAX" && element != "TMIN") continue;
    const int year = std::atoi(line.substr(11, 4).c_str());
    const int month = std::atoi(line.substr(15, 2).c_str());
    for (int day = 1; day <= 31 && line.size() >= 21 + 8 * static_cast<std::size_t>(day) - 3;
         ++day) {
      const std::string group = line.substr(21 + 8 * static_cast<std::size_t>(day - 1), 8);
      const int value = std::atoi(group.substr(0, 5).c_str());
      if (value == -9999) continue;
      if (group.size() > 6 && group[6] != ' ') {
        ++flagged;
        continue;
      }
      auto& extremes = days.emplace(hours_since_1970(year, month, day, 0) / 24,
                                    std::pair{std::nan(""), std::nan("")})
                           .first->second;
      (element == "TMIN" ? extremes.first : extremes.second) = value / 10.0;
    }
  }
  const TemperatureFile file = read_file_at(*path);
  CHECK(file.format == "ghcn-daily");
  CHECK(file.set_aside.flagged == flagged);
  long complete = 0, first = 0, last = 0, differing = 0;
  for (const auto& [day, extremes] : days) {
    if (std::isnan(extremes.first) || std::isnan(extremes.second)) continue;
    if (complete++ == 0) first = day;
    last = day;
    const auto found = file.days.at(LocalHour(static_cast<std::int32_t>(day * 24)).date());
    differing += !found || found->minimum.degrees() != extremes.first ||
                 found->maximum.degrees() != extremes.second;
  }
  CHECK(differing == 0);
  CHECK(file.readings == complete);
  CHECK(file.missing_hours == (last - first + 1 - complete) * 24);
  CHECK(file.first.seconds_since_1970 == first * 86400);
  CHECK(file.last.seconds_since_1970 == last * 86400);
}
