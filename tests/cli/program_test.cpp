// What a person meets at the command line: help, misspelt words, results and exit status.
#include <nlohmann/json.hpp>

#include "support/catch.h"
#include "support/program.h"

using namespace winterfolio::test;
using nlohmann::json;

namespace {

/// A winter of one temperature, hour by hour, from 1 November 2024 to the end of February 2025:
/// 2880 hours.
std::string constant_winter(const std::string& temperature, int year = 2024,
                            const char* head = "time,temp_c\n") {
  std::string text = head;
  using namespace std::chrono;
  for (sys_days day = sys_days{std::chrono::year{year} / 11 / 1};
       day < sys_days{std::chrono::year{year + 1} / 3 / 1}; day += days{1}) {
    const year_month_day date{day};
    for (int hour = 0; hour < 24; ++hour) {
      char line[64];
      std::snprintf(line, sizeof line, "%04d-%02u-%02u %02d:00,%s\n", static_cast<int>(date.year()),
                    static_cast<unsigned>(date.month()), static_cast<unsigned>(date.day()), hour,
                    temperature.c_str());
      text += line;
    }
  }
  return text;
}

}  // namespace

TEST_CASE("help and version go to standard output and end well") {
  for (const char* words : {"--help", "tally --help", "check --help", "figures --help",
                            "reference --help", "--version"}) {
    const ProgramRun run = run_program(words);
    INFO(words);
    CHECK(run.status == 0);
    CHECK_FALSE(run.out.empty());
    CHECK(run.err.empty());
  }
}

TEST_CASE("a misspelt command or option is named with the nearest one, and ends with 2") {
  CHECK(
      run_program("tallly x.csv").err ==
      "winterfolio: unknown command 'tallly'; did you mean 'tally'?\n  see 'winterfolio --help'\n");
  CHECK(run_program("tallly x.csv").status == 2);
  CHECK(run_program("tally x.csv --latitud 3").err ==
        "winterfolio: unknown option '--latitud'; did you mean '--latitude'?\n  see 'winterfolio "
        "tally --help'\n");
  CHECK(run_program("tally x.csv --latitud 3").status == 2);
  CHECK(run_program("").status == 2);
  CHECK(run_program("tally").status == 2);
}

TEST_CASE("a value that will not do says what would") {
  const ProgramRun day = run_program("tally x.csv --from 13-01");
  CHECK(day.status == 2);
  CHECK(day.err.find("'13-01' is no day of the year; write it MM-DD, as 11-01") !=
        std::string::npos);
  CHECK(run_program("tally x.csv --latitude north").status == 2);
  CHECK(run_program("tally x.csv --as xml").status == 2);
  CHECK(run_program("tally x.csv --unit R").status == 2);
  CHECK(run_program("tally x.csv --time-zone Mars/Base").status == 2);
  CHECK(run_program("tally x.csv --clock civil").status == 2);
}

TEST_CASE("an option given twice was said to stand without its value") {
  const ProgramRun run = run_program("print x.yaml --into a --into b");
  CHECK(run.status == 2);
  CHECK(run.err.find("--into is given more than once") != std::string::npos);
  CHECK(run_program("print x.yaml --into").err.find("--into stands without its value") !=
        std::string::npos);
}

TEST_CASE("the help of a command named it without the program") {
  const ProgramRun run = run_program("print --help");
  CHECK(run.status == 0);
  CHECK(run.out.find("Usage: winterfolio print ") != std::string::npos);
}

TEST_CASE("a word that no row of a table holds was answered by nothing") {
  const ProgramRun run = run_program("reference cultivars zzzz");
  CHECK(run.out.find("no row of this table holds 'zzzz'") != std::string::npos);
}

TEST_CASE("a file that is not there is one clear message and status 1") {
  const ProgramRun run = run_program("tally nowhere.csv");
  CHECK(run.status == 1);
  CHECK(run.out.empty());
  CHECK(run.err.find("nowhere.csv") != std::string::npos);
}

TEST_CASE(
    "tally writes the JSON it promises (constant 6 °C; portions of 2880 h from the closed form's "
    "own limits)") {
  const ScratchFolder folder;
  folder.write("w.csv", constant_winter("6.0"));
  const ProgramRun run = run_program("tally w.csv --as json", folder.path());
  REQUIRE(run.status == 0);
  const json all = json::parse(run.out);
  REQUIRE(all.size() == 1);
  REQUIRE(all["files"].size() == 1);
  const json& file = all["files"][0];
  CHECK(file["file"] == "w.csv");
  CHECK(file["readings"] == 2880);
  CHECK(file["missing_hours"] == 0);
  CHECK(file["first"] == "2024-11-01T00:00");
  CHECK(file["last"] == "2025-02-28T23:00");
  REQUIRE(file["winters"].size() == 1);
  const json& winter = file["winters"][0];
  CHECK(winter["winter"] == "2024-25");
  CHECK(winter["from"] == "2024-11-01");
  CHECK(winter["to"] == "2025-02-28");
  CHECK(winter["hours"] == 2880);
  CHECK(winter["missing_hours"] == 0);
  CHECK(winter["filled_hours"] == 0);
  const json& measures = winter["measures"];
  CHECK(measures.size() == 9);
  // 6 °C is 42.8 °F: by definition of the measures every hour counts whole in these.
  for (const char* id : {"chill_hours", "chill_hours_32_45", "chill_hours_less_warm", "utah",
                         "utah_daily_positive"}) {
    CHECK(measures[id] == 2880);
  }
  CHECK(measures["north_carolina"] == 1440.0);
  CHECK(measures["low_chill"] == 1440.0);
  // sin(2 pi 6/28) an hour.
  CHECK(measures["utah_smoothed"].get<double>() == Approx(2880 * 0.974927912).epsilon(1e-8));
  // 28.8939 h a portion at 6 °C (dynamic_constant_temperature.csv, computed by Runge-Kutta).
  CHECK(measures["portions"].get<double>() == Approx(2880 / 28.8939).margin(1.0));
}

TEST_CASE("missing hours are counted, short gaps bridged, and nothing unknown is told as 0") {
  const ScratchFolder folder;
  std::string text = constant_winter("6.0");
  const auto cut = [&text](const std::string& hour) {
    const std::size_t at = text.find(hour);
    text.erase(at, text.find('\n', at) + 1 - at);
  };
  for (const char* hour : {"2024-12-01 03", "2024-12-01 04", "2024-12-01 05"})
    cut(hour);  // bridged
  for (const char* hour : {"2025-01-01 03", "2025-01-01 04", "2025-01-01 05", "2025-01-01 06"})
    cut(hour);
  folder.write("w.csv", text);
  const json file =
      json::parse(run_program("tally w.csv --as json", folder.path()).out)["files"][0];
  CHECK(file["missing_hours"] == 7);
  CHECK(file["winters"][0]["filled_hours"] == 3);
  CHECK(file["winters"][0]["missing_hours"] == 4);
  CHECK(file["winters"][0]["measures"]["chill_hours"] == 2876);
}

TEST_CASE("the days that begin and end a winter can be named, and its name follows") {
  const ScratchFolder folder;
  folder.write("w.csv", constant_winter("6.0"));
  const json winter =
      json::parse(run_program("tally w.csv --as json --from 01-01 --to 01-31", folder.path())
                      .out)["files"][0]["winters"];
  REQUIRE(winter.size() == 1);
  CHECK(winter[0]["winter"] == "2025");
  CHECK(winter[0]["hours"] == 31 * 24);
}

TEST_CASE("files are tallied each for itself, or together with the first named winning") {
  const ScratchFolder folder;
  folder.write("a.csv", constant_winter("6.0"));
  folder.write("b.csv", constant_winter("20.0"));
  const json each =
      json::parse(run_program("tally a.csv b.csv --as json", folder.path()).out)["files"];
  REQUIRE(each.size() == 2);
  CHECK(each[0]["winters"][0]["measures"]["chill_hours"] == 2880);
  CHECK(each[1]["winters"][0]["measures"]["chill_hours"] == 0);
  const json both = json::parse(
      run_program("tally b.csv a.csv --together --as json", folder.path()).out)["files"];
  REQUIRE(both.size() == 1);
  CHECK(both[0]["winters"][0]["measures"]["chill_hours"] == 0);
}

TEST_CASE("a daily file asks for the latitude") {
  const ScratchFolder folder;
  folder.write("d.csv", "date,tmin_c,tmax_c\n2024-11-01,1,9\n2024-11-02,2,8\n2024-11-03,0,10\n");
  const ProgramRun run = run_program("tally d.csv", folder.path());
  CHECK(run.status == 1);
  CHECK(run.err.find("--latitude") != std::string::npos);
  CHECK(run_program("tally d.csv --latitude 45", folder.path()).status == 0);
}

TEST_CASE("a full disk behind the output is status 4") {
  const ScratchFolder folder;
  folder.write("w.csv", constant_winter("6.0"));
  const std::string line =
      "cd '" + folder.path() + "' && '" WINTERFOLIO_PROGRAM "' tally w.csv >/dev/full 2>/dev/null";
  CHECK(WEXITSTATUS(std::system(line.c_str())) == 4);
}

TEST_CASE("reference lists the tables, prints one with its source, and offers the nearest name") {
  const ProgramRun list = run_program("reference");
  CHECK(list.status == 0);
  for (const char* table : {"utah", "species", "cultivars", "formats"})
    CHECK(list.out.find(table) != std::string::npos);
  CHECK(run_program("reference utah").out.find("Richardson") != std::string::npos);
  const ProgramRun wrong = run_program("reference uta");
  CHECK(wrong.status == 2);
  CHECK(wrong.err.find("did you mean 'utah'?") != std::string::npos);
  CHECK(run_program("reference cultivars Anna --as csv").out.find("Anna") != std::string::npos);
}

TEST_CASE("the same under another locale, time zone and umask") {
  const ScratchFolder folder;
  folder.write("w.csv", constant_winter("6.0"));
  const std::string plain = run_program("tally w.csv --as json", folder.path()).out;
  CHECK(run_program("tally w.csv --as json", folder.path(),
                    "umask 077; LC_ALL=de_DE.UTF-8 TZ=Asia/Tokyo")
            .out == plain);
}
