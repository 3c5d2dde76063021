// `tally` on real temperature files against the same winters worked out a second time in another
// way (tests/independent/independent_tally.cpp): hours and whole or half units exactly, curves and
// portions within 1e-6.
#include <cstdio>
#include <iostream>
#include <nlohmann/json.hpp>
#include <sstream>

#include "support/catch.h"
#include "support/files.h"

using namespace winterfolio;

namespace {

std::string output_of(const std::string& command) {
  std::FILE* pipe = popen(command.c_str(), "r");
  REQUIRE(pipe != nullptr);
  std::string output;
  char buffer[4096];
  for (std::size_t n = 0; (n = fread(buffer, 1, sizeof buffer, pipe)) > 0;)
    output.append(buffer, n);
  INFO(command);
  REQUIRE(pclose(pipe) == 0);
  return output;
}

struct Line {
  std::string winter;
  std::vector<double> numbers;  ///< hours, missing, filled, then the measures
};

std::vector<Line> independent(const std::string& path, const std::string& latitude) {
  std::istringstream in(output_of(std::string(INDEPENDENT_TALLY) + " '" + path + "' " + latitude));
  std::vector<Line> lines;
  for (std::string text; std::getline(in, text);) {
    std::istringstream cells(text);
    Line line;
    cells >> line.winter;
    for (std::string cell; cells >> cell;) line.numbers.push_back(parse_number(cell).value());
    lines.push_back(line);
  }
  return lines;
}

const std::vector<std::string> kMeasures = {
    "chill_hours",    "chill_hours_32_45",   "chill_hours_less_warm",
    "utah",           "utah_daily_positive", "utah_smoothed",
    "north_carolina", "low_chill",           "portions",
};

double tolerance_of(const std::string& measure) {
  return measure == "portions" || measure == "utah_smoothed" ? 1e-6 : 0.0;
}

void compare(const std::string& file, const std::string& latitude, std::size_t winters) {
  const auto folder = test::test_data_dir();
  if (!folder) {
    std::cout << "skipped: WINTERFOLIO_TEST_DATA names no folder of real temperature files\n";
    return;
  }
  const std::string path = *folder + "/" + file;
  const auto told = nlohmann::json::parse(output_of(std::string(WINTERFOLIO_PROGRAM) +
                                                    " tally --as json --latitude " + latitude +
                                                    " '" + path + "' 2>/dev/null"));
  const auto& ours = told.at("files").at(0).at("winters");
  const std::vector<Line> expected = independent(path, latitude);
  CHECK(expected.size() == winters);
  REQUIRE(ours.size() == expected.size());
  for (std::size_t i = 0; i < expected.size(); ++i) {
    INFO(file << ", winter " << expected[i].winter);
    CHECK(ours[i].at("winter") == expected[i].winter);
    CHECK(ours[i].at("hours").get<double>() == expected[i].numbers.at(0));
    CHECK(ours[i].at("missing_hours").get<double>() == expected[i].numbers.at(1));
    CHECK(ours[i].at("filled_hours").get<double>() == expected[i].numbers.at(2));
    for (std::size_t m = 0; m < kMeasures.size(); ++m) {
      INFO(kMeasures[m]);
      CHECK_THAT(ours[i].at("measures").at(kMeasures[m]).get<double>(),
                 WithinAbs(expected[i].numbers.at(3 + m), tolerance_of(kMeasures[m])));
    }
  }
}

}  // namespace

TEST_CASE("tally of an hourly national-service file agrees with an independent computation") {
  compare("hly175.csv", "53.36", 8);
}
TEST_CASE("tally of an hourly fixed-width file agrees with an independent computation") {
  compare("725755-24101-2014", "41.117", 2);
}
TEST_CASE("tally of hourly normals agrees with an independent computation") {
  compare("seattle-weather-hourly-normals.csv", "47.45", 2);
}
TEST_CASE("tally of daily extremes in a table agrees with an independent computation") {
  compare("seattle-weather.csv", "47.45", 5);
}
TEST_CASE("tally of fifty winters of daily extremes agrees with an independent computation") {
  compare("USW00094728.dly", "40.78", 51);
}
