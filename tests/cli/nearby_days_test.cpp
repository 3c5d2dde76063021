// Days kept at a place nearby stand in for hours, and for days, that the orchard's own record
// lacks: three weeks of a real record are taken out and put back from a made-up neighbour whose
// difference from it is known, so that what is filled can be held against what was really read.
#include <cmath>
#include <iostream>
#include <map>
#include <nlohmann/json.hpp>
#include <sstream>

#include "base/dates.h"
#include "base/units.h"
#include "support/catch.h"
#include "support/files.h"
#include "support/program.h"

using namespace winterfolio;
using namespace winterfolio::test;
using nlohmann::json;

namespace {

const Date kFrom = date_of(2010, 9, 1);
const Date kTo = date_of(2012, 3, 1);
const Date kHole = date_of(2012, 1, 5);
constexpr int kHoleDays = 20;

/// hour -> temperature as written, from rows "01-jun-2007 00:00, ,7.8,...". Cut by hand, without
/// the program's reader.
using Hours = std::map<std::int32_t, double>;

Hours real_hours(const std::string& bytes) {
  static const std::string kMonths = "janfebmaraprmayjunjulaugsepoctnovdec";
  Hours hours;
  std::istringstream lines(bytes);
  for (std::string line; std::getline(lines, line);) {
    if (line.size() < 20 || line[2] != '-') continue;
    const auto month = static_cast<unsigned>(kMonths.find(line.substr(3, 3)) / 3 + 1);
    const Date date = date_of(std::stoi(line.substr(7, 4)), month,
                              static_cast<unsigned>(std::stoi(line.substr(0, 2))));
    if (date < kFrom || date >= kTo) continue;
    const std::size_t cell = line.find(',', line.find(',') + 1) + 1;
    if (line[cell] == ' ' || line[cell] == ',') continue;
    hours[LocalHour::at(date, std::stoi(line.substr(12, 2))).hours_since_1970()] =
        std::stod(line.substr(cell));
  }
  return hours;
}

bool in_hole(Date date) { return date >= kHole && date < plus_days(kHole, kHoleDays); }

std::string hours_file(const Hours& hours, double warmer, bool with_hole) {
  std::ostringstream text;
  text << "time,temp (°C)\n";
  for (const auto& [hour, degrees] : hours) {
    const LocalHour at(hour);
    if (with_hole && in_hole(at.date())) continue;
    text << iso_date(at.date()) << (at.hour_of_day() < 10 ? " 0" : " ") << at.hour_of_day()
         << ":00," << degrees + warmer << "\n";
  }
  return text.str();
}

struct Extremes {
  double low = 99.0;
  double high = -99.0;
  int hours = 0;
};

std::string days_file(const Hours& hours, double low, double high, bool with_hole) {
  std::map<std::int32_t, Extremes> days;
  for (const auto& [hour, degrees] : hours) {
    Extremes& day = days[hour / 24];
    day.low = std::min(day.low, degrees);
    day.high = std::max(day.high, degrees);
    ++day.hours;
  }
  std::ostringstream text;
  text << "date,minimum (°C),maximum (°C)\n";
  for (const auto& [day, extremes] : days) {
    const Date date = LocalHour(day * 24).date();
    if (extremes.hours < 24 || (with_hole && in_hole(date))) continue;
    text << iso_date(date) << "," << extremes.low + low << "," << extremes.high + high << "\n";
  }
  return text.str();
}

std::string orchard_of(const std::string& files) {
  return "version: 1\norchard: {id: test, name: Test, latitude: 53.4, longitude: -6.3}\n"
         "temperatures:\n" +
         files + "trees:\n  - {id: A1, species: apple, cultivar: Granny Smith}\n";
}

json figures(const ScratchFolder& folder, const std::string& files) {
  folder.write("orchard.yaml", orchard_of(files));
  const ProgramRun run = run_program("figures orchard.yaml --hourly", folder.path());
  INFO(run.err);
  REQUIRE(run.status == 0);
  return json::parse(run.out);
}

std::optional<Hours> real() {
  const auto folder = test_data_dir();
  if (!folder || !std::filesystem::exists(*folder + "/hly175.csv")) {
    std::cout << "skipped: WINTERFOLIO_TEST_DATA does not hold hly175.csv\n";
    return std::nullopt;
  }
  return real_hours(read_file(*folder + "/hly175.csv"));
}

double at(const json& temperatures, Date from, Date date, int hour) {
  const auto place = static_cast<std::size_t>(LocalHour::at(date, hour) - LocalHour::at(from, 0));
  return temperatures.at(place).get<double>();
}

}  // namespace

TEST_CASE("Hours lost for three weeks come from a neighbour's days, off by no more than is told") {
  const auto hours = real();
  if (!hours) return;
  const ScratchFolder folder;
  folder.write("own.csv", hours_file(*hours, 0.0, true));
  folder.write("near.csv", days_file(*hours, 1.5, 0.5, false));
  const json told =
      figures(folder, "  - {file: own.csv}\n  - {file: near.csv, stands_for: nearby}\n");
  const json& fill = told["readings"]["files"][1]["nearby_fill"];
  CHECK(fill["filled_hours"] == kHoleDays * 24);
  // The neighbour is warmer by 1.5 °C at night and 0.5 °C by day.
  CHECK(fill["own_minus_nearby"].get<double>() < -0.5);
  CHECK(fill["own_minus_nearby"].get<double>() > -1.5);
  double sum = 0.0;
  double squares = 0.0;
  for (const auto& [hour, degrees] : *hours) {
    const LocalHour one(hour);
    if (!in_hole(one.date())) continue;
    const double missed =
        at(told["hourly"]["temperature"], date_of(2011, 11, 1), one.date(), one.hour_of_day()) -
        degrees;
    sum += missed;
    squares += missed * missed;
  }
  const double error = std::sqrt(squares / (kHoleDays * 24));
  INFO("off by " << error << " °C, told: " << fill["error"] << ", mean " << sum / kHoleDays / 24);
  CHECK(error < 1.3 * fill["error"].get<double>());
  CHECK(error > 0.7 * fill["error"].get<double>());
  CHECK(std::abs(sum / kHoleDays / 24) < 0.5);
}

TEST_CASE("Days lost come back exactly from a neighbour that differs by a fixed amount") {
  const auto hours = real();
  if (!hours) return;
  const ScratchFolder folder;
  folder.write("whole.csv", days_file(*hours, 0.0, 0.0, false));
  folder.write("own.csv", days_file(*hours, 0.0, 0.0, true));
  folder.write("near_days.csv", days_file(*hours, 1.5, 0.5, false));
  folder.write("near_hours.csv", hours_file(*hours, 2.0, false));
  const json whole = figures(folder, "  - {file: whole.csv}\n");
  for (const char* near : {"near_days.csv", "near_hours.csv"}) {
    INFO(near);
    const json told = figures(
        folder, std::string("  - {file: own.csv}\n  - {file: ") + near + ", stands_for: nearby}\n");
    const json& fill = told["readings"]["files"][1]["nearby_days_fill"];
    CHECK(fill["filled_days"] == kHoleDays);
    CHECK(fill["error"].get<double>() < 0.01);
    CHECK(told["hourly"]["temperature"] == whole["hourly"]["temperature"]);
    CHECK(told["cold"]["measures"]["portions"]["received"] ==
          whole["cold"]["measures"]["portions"]["received"]);
  }
}

TEST_CASE("What was read in the orchard as a day's extremes goes before a neighbour's days") {
  const auto hours = real();
  if (!hours) return;
  const ScratchFolder folder;
  folder.write("own.csv", hours_file(*hours, 0.0, true));
  folder.write("own_days.csv", days_file(*hours, 0.0, 0.0, false));
  folder.write("near.csv", days_file(*hours, 9.0, 5.0, false));
  const std::string own = "  - {file: own.csv}\n  - {file: own_days.csv}\n";
  const json alone = figures(folder, own);
  const json both = figures(folder, own + "  - {file: near.csv, stands_for: nearby}\n");
  CHECK(both["readings"]["nearby"] == 0);
  CHECK(both["hourly"]["temperature"] == alone["hourly"]["temperature"]);
}
