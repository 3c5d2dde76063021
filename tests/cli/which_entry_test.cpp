// Each temperature file serves as the entry says that names it: the nearby station of a file is not
// taken for the orchard's, minima and maxima in two files make one record, and a forecast of days
// counts as one of hours does.
#include <nlohmann/json.hpp>

#include "base/dates.h"
#include "support/catch.h"
#include "support/program.h"

using namespace winterfolio;
using namespace winterfolio::test;
using nlohmann::json;

namespace {

const Date kFirst = date_of(2024, 11, 1);
constexpr int kDays = 60;

std::string orchard_with(const std::string& temperatures) {
  return "version: 1\norchard: {id: test, name: Test, latitude: 45}\ntemperatures:\n" +
         temperatures + "trees:\n  - {id: A1, species: apple}\n";
}

/// Two stations in one file: A stands at 5 °C, where every hour counts; B at 20 °C, where none
/// does.
std::string two_stations() {
  std::string text = "station,time,temperature (C)\n";
  for (int day = 0; day < kDays; ++day) {
    const std::string date = iso_date(plus_days(kFirst, day));
    for (int hour = 0; hour < 24; ++hour) {
      const std::string time = date + (hour < 10 ? " 0" : " ") + std::to_string(hour) + ":00";
      text += "A," + time + ",5.0\nB," + time + ",20.0\n";
    }
  }
  return text;
}

std::string days_of(const std::string& head, const std::string& cells, Date first, int days) {
  std::string text = head + "\n";
  for (int day = 0; day < days; ++day) text += iso_date(plus_days(first, day)) + "," + cells + "\n";
  return text;
}

}  // namespace

TEST_CASE("the second station of a file was taken for what the first stands for") {
  const ScratchFolder folder;
  folder.write("ab.csv", two_stations());
  folder.write("orchard.yaml", orchard_with("  - {file: ab.csv, station: B, stands_for: nearby}\n"
                                            "  - {file: ab.csv, station: A}\n"));
  const ProgramRun run = run_program("figures orchard.yaml --hourly --as csv", folder.path());
  INFO(run.err);
  REQUIRE(run.status == 0);
  CHECK(run.err.find("too few hours in common") == std::string::npos);
  CHECK(run.out.find(",20.0,") == std::string::npos);
}

TEST_CASE("minima and maxima in two files were left out of the orchard without a word") {
  const ScratchFolder folder;
  folder.write("lo.csv", days_of("date,tmin (°C)", "1.0", kFirst, kDays));
  folder.write("hi.csv", days_of("date,tmax (°C)", "11.0", kFirst, kDays));
  folder.write("both.csv", days_of("date,tmin (°C),tmax (°C)", "1.0,11.0", kFirst, kDays));
  folder.write("halves.yaml", orchard_with("  - file: lo.csv\n  - file: hi.csv\n"));
  folder.write("whole.yaml", orchard_with("  - file: both.csv\n"));
  const ProgramRun halves = run_program("check halves.yaml --as json", folder.path());
  const ProgramRun whole = run_program("check whole.yaml --as json", folder.path());
  REQUIRE(halves.status == 0);
  const json of_halves = json::parse(halves.out)["orchards"][0];
  CHECK(of_halves["winters"] == json::parse(whole.out)["orchards"][0]["winters"]);
  REQUIRE(of_halves["temperatures"].size() == 1);
  CHECK(of_halves["temperatures"][0]["file"] == "lo.csv + hi.csv");
  CHECK(of_halves["temperatures"][0]["readings"] == kDays);
}

TEST_CASE("a forecast of daily extremes was read and never used") {
  const ScratchFolder folder;
  folder.write("past.csv",
               days_of("date,tmin (°C),tmax (°C)", "1.0,11.0", date_of(2019, 11, 1), 1800));
  folder.write("own.csv", days_of("date,tmin (°C),tmax (°C)", "1.0,11.0", kFirst, kDays));
  folder.write("to_come.csv",
               days_of("date,tmin (°C),tmax (°C)", "22.0,30.0", plus_days(kFirst, kDays), 10));
  const std::string own = "  - file: past.csv\n  - file: own.csv\n";
  folder.write("without.yaml", orchard_with(own));
  folder.write("with.yaml", orchard_with(own + "  - {file: to_come.csv, stands_for: forecast}\n"));
  const ProgramRun without = run_program("figures without.yaml --as-of 2024-12-30", folder.path());
  const ProgramRun with = run_program("figures with.yaml --as-of 2024-12-30", folder.path());
  REQUIRE(without.status == 0);
  REQUIRE(with.status == 0);
  const auto hours = [](const std::string& out) {
    return json::parse(out)["cold"]["measures"]["chill_hours"]["to_come"]["forecast_hours"];
  };
  CHECK(hours(without.out) == 0);
  CHECK(hours(with.out) == 240);
}
