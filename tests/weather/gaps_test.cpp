// Holes filled from a thermometer nearby, on made-up pairs of records whose difference is known.
#include "weather/gaps.h"

#include <cmath>
#include <random>

#include "support/catch.h"

using namespace winterfolio;

namespace {

constexpr double kTurn = 6.283185307179586;
const LocalHour kFrom = LocalHour::at(date_of(2020, 10, 1), 0);

/// Own minus nearby: colder at dawn, warmer at noon, more so in spring.
double difference(LocalHour hour) {
  const double day = std::cos(kTurn * (hour.hour_of_day() - 14) / 24.0);
  return -0.8 + (1.0 + 0.2 * unsigned{hour.date().month()}) * day;
}

struct Pair {
  HourlySeries own;
  HourlySeries nearby;
};

Pair records(int hours, double noise) {
  std::mt19937 random(7);
  Pair pair;
  for (int i = 0; i < hours; ++i) {
    const LocalHour hour = kFrom + i;
    const auto draw = [&] {
      return (static_cast<double>(random()) / 4294967295.0 - 0.5) * std::sqrt(12.0) * noise;
    };
    const double air = 7.0 + 5.0 * std::sin(kTurn * i / 240.0);
    const Celsius theirs(air);
    const Celsius ours(air + difference(hour) + draw());
    pair.nearby.set(hour, {theirs, theirs - CelsiusDelta(0.5), HourOrigin::observed});
    pair.own.set(hour, {ours, ours, HourOrigin::observed});
  }
  return pair;
}

}  // namespace

TEST_CASE(
    "A long hole is filled through the offset of its hour and month, and the error told is the "
    "true one") {
  constexpr int kHours = 24 * 365 * 3;
  constexpr double kNoise = 0.6;
  Pair pair = records(kHours, kNoise);
  HourlySeries truth = pair.own;
  const LocalHour hole = LocalHour::at(date_of(2021, 12, 3), 5);
  for (int i = 0; i < 24 * 12; ++i) pair.own.clear(hole + i);
  const auto fill = fill_from_nearby(pair.own, pair.nearby);
  REQUIRE(fill);
  CHECK(fill->filled == 24 * 12);
  CHECK(fill->fit.shared_hours == kHours - 24 * 12);
  CHECK(fill->fit.fine_hours > fill->fit.shared_hours * 9 / 10);
  CHECK_THAT(fill->fit.error.degrees(), WithinAbs(kNoise, 0.03));
  double squares = 0.0;
  for (int i = 0; i < 24 * 12; ++i) {
    const auto filled = pair.own.at(hole + i);
    REQUIRE(filled);
    CHECK(filled->origin == HourOrigin::nearby);
    CHECK_THAT((filled->mean - filled->lowest).degrees(), WithinAbs(0.5, 1e-6));
    squares += std::pow((filled->mean - truth.at(hole + i)->mean).degrees(), 2);
  }
  CHECK_THAT(std::sqrt(squares / (24 * 12)), WithinAbs(kNoise, 0.1));
}

TEST_CASE("With a few weeks in common the offset is by hour of day alone") {
  Pair pair = records(24 * 40, 0.0);
  for (int i = 24 * 20; i < 24 * 22; ++i) pair.own.clear(kFrom + i);
  const auto fill = fill_from_nearby(pair.own, pair.nearby);
  REQUIRE(fill);
  CHECK(fill->filled == 48);
  const LocalHour noon = LocalHour::at((kFrom + 24 * 20).date(), 14);
  CHECK_THAT((pair.own.at(noon)->mean - pair.nearby.at(noon)->mean).degrees(),
             WithinAbs(difference(noon), 0.3));
}

TEST_CASE("Too few hours in common fill nothing, and what is there is never changed") {
  Pair pair = records(24 * 12, 0.0);
  for (int i = 24 * 5; i < 24 * 9; ++i) pair.own.clear(kFrom + i);
  const HourlySeries before = pair.own;
  CHECK_FALSE(fill_from_nearby(pair.own, pair.nearby));
  CHECK(pair.own.missing_in(kFrom, pair.own.end()) == before.missing_in(kFrom, before.end()));
  HourlySeries none;
  CHECK_FALSE(fill_from_nearby(none, pair.nearby));
  CHECK_FALSE(fill_from_nearby(pair.own, none));

  Pair long_pair = records(24 * 60, 0.5);
  long_pair.own.set(kFrom + 700, {Celsius(33.0), Celsius(33.0), HourOrigin::observed});
  long_pair.own.clear(kFrom + 800);
  long_pair.nearby.clear(kFrom + 800);
  const auto fill = fill_from_nearby(long_pair.own, long_pair.nearby);
  REQUIRE(fill);
  CHECK(fill->filled == 0);
  CHECK(long_pair.own.at(kFrom + 700)->mean == Celsius(33.0));
  CHECK_FALSE(long_pair.own.at(kFrom + 800));
}

TEST_CASE("A neighbour's days fill hours through the curve, but not where a day was read here") {
  Pair pair = records(24 * 60, 0.3);
  DailySeries days;
  for (int day = 0; day < 60; ++day) {
    const Date date = (kFrom + 24 * day).date();
    days.set(date, DailyExtremes{Celsius(3.0), Celsius(12.0)});
  }
  for (int i = 24 * 20; i < 24 * 24; ++i) pair.own.clear(kFrom + i);
  DailySeries known;
  known.set((kFrom + 24 * 21).date(), DailyExtremes{Celsius(1.0), Celsius(8.0)});
  const auto fill = fill_from_nearby(pair.own, days, known, 45.0);
  REQUIRE(fill);
  CHECK(fill->filled == 72);
  CHECK(fill->fit.shared_hours == 24 * 56);
  CHECK_FALSE(pair.own.at(kFrom + 24 * 21 + 5));
  REQUIRE(pair.own.at(kFrom + 24 * 22 + 5));
  CHECK(pair.own.at(kFrom + 24 * 22 + 5)->origin == HourOrigin::nearby);
}
