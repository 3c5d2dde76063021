// What a gap in real winters may have hidden: stretches of a national service's hourly record are
// knocked out and the range is held against the figure that the whole record gives.
#include <algorithm>
#include <array>
#include <cstdio>
#include <cstring>
#include <fstream>
#include <iostream>
#include <random>

#include "findings/winter_chill.h"
#include "findings/winters_test.h"
#include "support/catch.h"
#include "support/files.h"

using namespace winterfolio;
using namespace winterfolio::test;

namespace {

constexpr WinterWindow kWindow{{11, 1}, {2, 29}};
constexpr double kLatitude = 53.36;  // as the file's publisher gives the station
// Winters that lie wholly inside the record; the holed one before and the cut one after them only
// lend their hours.
constexpr int kFirstWhole = 2008;
constexpr int kWholeWinters = 6;

/// The record, one reading an hour: "01-jun-2007 00:00,rain,temperature,...".
HourlySeries dublin(const std::string& path) {
  static const char* kMonths[] = {"jan", "feb", "mar", "apr", "may", "jun",
                                  "jul", "aug", "sep", "oct", "nov", "dec"};
  HourlySeries hours;
  std::ifstream in(path);
  for (std::string line; std::getline(in, line);) {
    unsigned day = 0;
    int year = 0;
    int hour = 0;
    char name[4] = {};
    double rain = 0.0;
    double t = 0.0;
    if (std::sscanf(line.c_str(), "%2u-%3s-%4d %2d:00,%lf,%lf", &day, name, &year, &hour, &rain,
                    &t) != 6)
      continue;
    unsigned month = 0;
    while (std::strcmp(kMonths[month], name) != 0) ++month;
    hours.set(LocalHour::at(date_of(year, month + 1, day), hour), reading(t));
  }
  return hours;
}

/// Two of the winters lack most of a day. So that they too have a true figure, the day before
/// stands in.
void close_own_holes(HourlySeries& hours) {
  for (int i = 0; i < kWholeWinters; ++i) {
    const Winter winter = winter_of(kWindow, kFirstWhole + i);
    CHECK(hours.missing_in(winter.begin(), winter.end()) <= 24);
    for (LocalHour hour = winter.begin(); hour < winter.end(); hour = hour + 1) {
      if (!hours.at(hour)) hours.set(hour, hours.at(hour - 24).value());
    }
  }
}

struct KnockOut {
  int year = 0;
  Date from;
  int days = 0;
};

std::vector<KnockOut> knock_outs(std::uint64_t seed, int how_many) {
  std::mt19937_64 random(seed);
  std::vector<KnockOut> all;
  for (int i = 0; i < how_many; ++i) {
    KnockOut one;
    one.year = kFirstWhole + static_cast<int>(random() % kWholeWinters);
    one.days = 1 + static_cast<int>(random() % 20);
    const Winter winter = winter_of(kWindow, one.year);
    const int room = days_between(winter.from, winter.to) + 1 - one.days;
    one.from = plus_days(winter.from, static_cast<int>(random() % static_cast<unsigned>(room + 1)));
    all.push_back(one);
  }
  return all;
}

/// The winter of `year` looked back on when it is over.
WinterChill chill_of_winter(const HourlySeries& hours, int year,
                            std::span<const ChillMeasure> measures) {
  const WeatherRecord record = weather_record(hours, {}, kLatitude);
  const auto today = stand_at(record, kWindow, year, winter_of(kWindow, year).to);
  REQUIRE(today.has_value());
  return winter_chill(record, *today, measures);
}

}  // namespace

TEST_CASE("on real winters nineteen of twenty ranges hold what the gap hid, and stay narrow") {
  const auto folder = test_data_dir();
  if (!folder) {
    std::cout << "skipped: WINTERFOLIO_TEST_DATA names no folder of real temperature files\n";
    return;
  }
  HourlySeries hours = dublin(*folder + "/hly175.csv");
  close_own_holes(hours);
  std::array<std::vector<double>, kChillMeasureCount> truth;
  for (int i = 0; i < kWholeWinters; ++i) {
    const WinterChill whole = chill_of_winter(hours, kFirstWhole + i, kChillMeasures);
    CHECK(whole.counts.missing == 0);
    for (const ChillMeasure measure : kChillMeasures) {
      const MeasuredChill& measured = whole.of(measure);
      INFO(id_of(measure) << ", winter " << kFirstWhole + i);
      CHECK(measured.gaps == GapRange::no_gap);
      CHECK(measured.range == Range{measured.total().amount(), measured.total().amount()});
      truth[static_cast<std::size_t>(measure)].push_back(measured.total().amount());
    }
  }
  std::array<int, kChillMeasureCount> held{};
  std::vector<double>
      widths;  // in portions, for each 28 hours of the gap: what can be gained in them
  for (const KnockOut& one : knock_outs(20260101, 200)) {
    HourlySeries with_gap = hours;
    knock_out(with_gap, one.from, one.days);
    const WinterChill chill = chill_of_winter(with_gap, one.year, kChillMeasures);
    for (const ChillMeasure measure : kChillMeasures) {
      const auto at = static_cast<std::size_t>(measure);
      const MeasuredChill& measured = chill.of(measure);
      REQUIRE(measured.gaps == GapRange::known);
      CHECK(measured.missing_hours == 24 * one.days);
      const double whole = truth[at][static_cast<std::size_t>(one.year - kFirstWhole)];
      held[at] += measured.range.low <= whole + 1e-9 && whole <= measured.range.high + 1e-9;
    }
    const Range portions = chill.of(ChillMeasure::portions).range;
    widths.push_back((portions.high - portions.low) / (24.0 * one.days / 28.0));
  }
  std::nth_element(widths.begin(), widths.begin() + 100, widths.end());
  for (const ChillMeasure measure : kChillMeasures) {
    const int holding = held[static_cast<std::size_t>(measure)];
    std::cout << "gap ranges of " << id_of(measure) << ": " << holding
              << " of 200 hold the true figure\n";
    INFO(id_of(measure));
    CHECK(holding >= (measure == ChillMeasure::portions ? 190 : 185));
  }
  std::cout << "median width in portions: " << widths[100] << " of the most a gap can hold\n";
  CHECK(widths[100] <= 0.75);
}
