// Days of a neighbour, moved by what both differ, on made-up pairs whose difference is known.
#include "weather/nearby_days.h"

#include <cmath>

#include "support/catch.h"

using namespace winterfolio;

namespace {

const Date kFrom = date_of(2021, 11, 1);

DailyExtremes day_of(int day) {
  const double swing = 3.0 * std::sin(day * 0.7);
  return {Celsius(1.0 + swing), Celsius(9.0 + swing)};
}

DailySeries days(int count, double low, double high) {
  DailySeries series;
  for (int day = 0; day < count; ++day) {
    const DailyExtremes one = day_of(day);
    series.set(plus_days(kFrom, day),
               DailyExtremes{one.minimum + CelsiusDelta(low), one.maximum + CelsiusDelta(high)});
  }
  return series;
}

}  // namespace

TEST_CASE("Missing days are filled by each extreme's own difference, in each month its own") {
  const DailySeries own = days(61, 0.0, 0.0);
  DailySeries near = days(61, 2.0, -1.0);
  for (int day = 30; day < 61; ++day) {  // December differs by more
    const DailyExtremes one = day_of(day);
    near.set(plus_days(kFrom, day),
             DailyExtremes{one.minimum + CelsiusDelta(4.0), one.maximum + CelsiusDelta(1.0)});
  }
  DailySeries holed = own;
  for (const int day : {5, 6, 40, 41}) holed.set(plus_days(kFrom, day), std::nullopt);
  const DailySeries read_here = holed;
  const auto fill = fill_days_from_nearby(holed, read_here, near);
  REQUIRE(fill);
  CHECK(fill->filled == 4);
  CHECK(fill->fit.shared_days == 57);
  CHECK_THAT(fill->fit.error.degrees(), WithinAbs(0.0, 1e-9));
  for (const int day : {5, 40}) {
    const auto filled = holed.at(plus_days(kFrom, day));
    REQUIRE(filled);
    CHECK_THAT(filled->minimum.degrees(), WithinAbs(day_of(day).minimum.degrees(), 1e-9));
    CHECK_THAT(filled->maximum.degrees(), WithinAbs(day_of(day).maximum.degrees(), 1e-9));
  }
}

TEST_CASE("Fewer than ten shared days fill none, and a record is lengthened at neither end") {
  DailySeries own = days(9, 0.0, 0.0);
  const DailySeries near = days(40, 1.0, 1.0);
  CHECK_FALSE(fill_days_from_nearby(own, days(9, 0.0, 0.0), near));
  DailySeries longer = days(12, 0.0, 0.0);
  longer.set(plus_days(kFrom, 4), std::nullopt);
  const DailySeries read_here = longer;
  const auto fill = fill_days_from_nearby(longer, read_here, near);
  REQUIRE(fill);
  CHECK(fill->filled == 1);
  CHECK(longer.size() == 12);
}

TEST_CASE("A day moved past its own other extreme keeps its lowest under its highest") {
  ExtremesOffsets offsets;
  offsets.minimum.fill(5.0);
  offsets.maximum.fill(-5.0);
  const DailyExtremes moved = offsets.moved(kFrom, {Celsius(4.0), Celsius(6.0)});
  CHECK(moved.minimum <= moved.maximum);
}
