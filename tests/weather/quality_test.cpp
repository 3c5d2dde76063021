// Doubts: what is marked, and that only the marked is.
#include "weather/quality.h"

#include <cmath>

#include "support/catch.h"
#include "support/files.h"

using namespace winterfolio;

namespace {

constexpr LocalHour kStart{480000};

HourlySeries winter_days(int days) {
  HourlySeries series;
  for (int h = 0; h < days * 24; ++h) {
    const Celsius t(std::round(10.0 * (6.0 - 4.0 * std::cos(2.0 * 3.14159265 * (h - 2) / 24.0) +
                                       0.01 * (h % 7))) /
                    10.0);
    series.set(kStart + h, {t, t, HourOrigin::observed});
  }
  return series;
}

void put(HourlySeries& series, int hour, double mean) {
  series.set(kStart + hour, {Celsius(mean), Celsius(mean), HourOrigin::observed});
}

std::vector<DoubtfulRun> of_kind(const std::vector<DoubtfulRun>& runs, Doubt doubt) {
  std::vector<DoubtfulRun> found;
  for (const auto& run : runs) {
    if (run.doubt == doubt) found.push_back(run);
  }
  return found;
}

}  // namespace

TEST_CASE("Limits in use are those of the published list") {
  const QualityThresholds& limits = quality_thresholds();
  REQUIRE(limits.steps.size() == 5);
  for (const CsvRow row : test::published("qc_thresholds.csv")) {
    const std::string& name = row.text("test");
    for (const auto& step : limits.steps) {
      if (name == "step " + std::to_string(step.hours) + " h")
        CHECK(step.change.degrees() == row.required_number("threshold"));
    }
    for (const auto& flat : limits.flat_lines) {
      const std::string step = flat.resolution == 1.0   ? "1"
                               : flat.resolution == 0.5 ? "0.5"
                                                        : "0.1";
      if (name == "repeated streak; reporting step " + step + " C")
        CHECK(flat.hours == row.required_number("threshold"));
    }
    if (name == "gross range (one-minute AWS)") CHECK(row.text("threshold") == "-80 to +60");
    if (name == "regional range (Oklahoma Mesonet)") CHECK(row.text("threshold") == "-30 to +50");
  }
  CHECK(limits.impossible_below == Celsius(-80.0));
  CHECK(limits.impossible_above == Celsius(60.0));
  CHECK(limits.extreme_below == Celsius(-30.0));
  CHECK(limits.extreme_above == Celsius(50.0));
}

TEST_CASE("Ordinary winter days raise no doubt") {
  CHECK(doubtful_runs(winter_days(30), 0.1).empty());
}

TEST_CASE("A step over 4 °C in an hour is marked, 4 °C itself is not") {
  HourlySeries series;
  for (int h = 0; h < 24; ++h) put(series, h, h < 12 ? 2.0 : 6.0);
  CHECK(of_kind(doubtful_runs(series, 0.1), Doubt::step).empty());
  for (int h = 12; h < 24; ++h) put(series, h, 6.1);
  const auto steps = of_kind(doubtful_runs(series, 0.1), Doubt::step);
  REQUIRE(steps.size() == 1);
  CHECK(steps[0].from == kStart + 11);
  CHECK(steps[0].to == kStart + 12);
  CHECK_THAT(steps[0].amount, WithinAbs(4.1, 1e-9));
}

TEST_CASE("Slower steps count over their own hours, and over a missing hour between") {
  HourlySeries series;
  for (int h = 0; h < 24; ++h) put(series, h, h < 10 ? 0.0 : std::min(h - 9, 3) * 3.1);
  const auto steps = of_kind(doubtful_runs(series, 0.1), Doubt::step);
  REQUIRE(steps.size() == 1);
  CHECK(steps[0].from == kStart + 9);
  CHECK(steps[0].to == kStart + 12);
  CHECK_THAT(steps[0].amount, WithinAbs(9.3, 1e-9));
}

TEST_CASE("A flat line is marked from 24 hours on in tenths, from 40 in whole degrees") {
  HourlySeries series = winter_days(6);
  for (int h = 30; h < 53; ++h) put(series, h, 5.5);
  put(series, 53, 5.6);
  CHECK(of_kind(doubtful_runs(series, 0.1), Doubt::flat_line).empty());
  put(series, 53, 5.5);
  const auto flat = of_kind(doubtful_runs(series, 0.1), Doubt::flat_line);
  REQUIRE(flat.size() == 1);
  CHECK(flat[0].from == kStart + 30);
  CHECK(flat[0].to == kStart + 53);
  CHECK(flat[0].amount == 24.0);
  CHECK(of_kind(doubtful_runs(series, 1.0), Doubt::flat_line).empty());
}

TEST_CASE("Days beyond plausible cold, heat and range are marked as whole days") {
  HourlySeries series = winter_days(10);
  put(series, 24 * 2 + 5, -31.0);
  put(series, 24 * 5 + 5, -28.0);
  const auto days = of_kind(doubtful_runs(series, 0.1), Doubt::daily_extreme);
  REQUIRE(days.size() == 2);
  CHECK(days[0].amount == -31.0);
  CHECK(days[0].from.hour_of_day() == 0);
  CHECK(days[1].amount > 35.0);
}

TEST_CASE("A bump at the same hour of several days is the sun on the sensor; a single one is not") {
  HourlySeries series = winter_days(10);
  const int bump_hour = 10;
  const auto raise = [&](int day) {
    const int hour = day * 24 + bump_hour;
    put(series, hour, series.at(kStart + hour)->mean.degrees() + 7.0);
  };
  raise(4);
  CHECK(of_kind(doubtful_runs(series, 0.1), Doubt::sensor_in_sun).empty());
  raise(3);
  raise(6);
  const auto sun = of_kind(doubtful_runs(series, 0.1), Doubt::sensor_in_sun);
  REQUIRE(sun.size() == 3);
  CHECK(sun[0].from == kStart + 3 * 24 + bump_hour);
  CHECK(sun[0].amount > 4.0);
}

TEST_CASE("An empty series has no doubts") { CHECK(doubtful_runs(HourlySeries(), 0.1).empty()); }

TEST_CASE("Days known by their extremes are marked by the same limits") {
  DailySeries days;
  const Date first = date_of(2026, 1, 1);
  days.set(first, DailyExtremes{Celsius(-2.0), Celsius(9.0)});
  days.set(plus_days(first, 1), DailyExtremes{Celsius(-30.1), Celsius(-9.0)});
  days.set(plus_days(first, 3), DailyExtremes{Celsius(-20.0), Celsius(15.0)});
  days.set(plus_days(first, 4), DailyExtremes{Celsius(-20.0), Celsius(15.1)});
  const auto runs = doubtful_days(days);
  REQUIRE(runs.size() == 2);
  CHECK(runs[0].from == LocalHour::at(plus_days(first, 1), 0));
  CHECK(runs[0].amount == -30.1);
  CHECK(runs[1].from == LocalHour::at(plus_days(first, 4), 0));
  CHECK(runs[1].to == LocalHour::at(plus_days(first, 4), 23));
}
