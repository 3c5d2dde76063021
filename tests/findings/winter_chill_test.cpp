// Cold received, gaps and all.
#include "findings/winter_chill.h"

#include <algorithm>

#include "findings/winters_test.h"
#include "models/chill/autumn_minimum.h"
#include "support/catch.h"

using namespace winterfolio;
using namespace winterfolio::test;

namespace {

const WinterWindow kNorth = default_winter_window(false);

WinterChill chill_on(const WeatherRecord& record, int winter, Date as_of) {
  return winter_chill(record, stand_at(record, kNorth, winter, as_of).value());
}

}  // namespace

TEST_CASE("today stands at the last reading, in the winter begun last") {
  HourlySeries hours = years_of_weather(1, 2020, 3);
  for (LocalHour hour = LocalHour::at(date_of(2023, 1, 20), 17); hour < hours.end();
       hour = hour + 1)
    hours.clear(hour);
  const WeatherRecord record = record_of(hours);
  const auto today = stand_at(record, kNorth);
  REQUIRE(today.has_value());
  CHECK(today->as_of == date_of(2023, 1, 20));
  CHECK(today->winter.year == 2022);
  CHECK(today->now == LocalHour::at(date_of(2023, 1, 20), 17));
  CHECK_FALSE(today->winter_over());
  CHECK(stand_at(record, kNorth, {}, date_of(2022, 12, 24))->now ==
        LocalHour::at(date_of(2022, 12, 25), 0));
  const auto earlier = stand_at(record, kNorth, 2020);
  CHECK(earlier->as_of == date_of(2021, 10, 31));
  CHECK(earlier->winter_over());
  CHECK(earlier->counted_to() == LocalHour::at(date_of(2021, 3, 1), 0));
  CHECK_FALSE(stand_at(record_of(HourlySeries()), kNorth).has_value());
  CHECK(winters_on_record(record, kNorth, 2022).size() == 2);
}

TEST_CASE("totals are those of the tally, and the curve ends with them") {
  const WeatherRecord record = record_of(years_of_weather(2, 2020, 2));
  const WinterChill chill = chill_on(record, 2021, date_of(2022, 1, 15));
  const ChillTally tally = tally_chill(record.hours, chill.today.winter.begin(), chill.today.now);
  CHECK(chill.counts.hours == (30 + 31 + 15) * 24);
  CHECK(chill.counts.observed == chill.counts.hours);
  for (const ChillMeasure measure : kChillMeasures) {
    const MeasuredChill& measured = chill.of(measure);
    INFO(id_of(measure));
    CHECK(measured.total() == tally.total(measure));
    CHECK(measured.by_day.size() == 76);
    CHECK(measured.by_day.back() == measured.total().amount());
    CHECK(measured.gaps == GapRange::no_gap);
    CHECK(measured.range == Range{measured.by_day.back(), measured.by_day.back()});
    CHECK(measured.thermometer.low <= measured.by_day.back());
    CHECK(measured.thermometer.high >= measured.by_day.back());
  }
}

TEST_CASE(
    "Utah units for a verdict are counted from the autumn minimum, the plain sum from the winter's "
    "first day") {
  const WeatherRecord record = record_of(years_of_weather(3, 2020, 2, 16.0));
  const WinterChill chill = chill_on(record, 2021, date_of(2022, 2, 28));
  const auto start = utah_start(record.hours, date_of(2021, 9, 1), date_of(2021, 12, 31));
  REQUIRE(start.has_value());
  CHECK(chill.for_verdict(ChillMeasure::utah).counted_from == *start);
  CHECK(chill.for_verdict(ChillMeasure::utah).total().amount() >=
        chill.of(ChillMeasure::utah).total().amount());
  CHECK(chill.of(ChillMeasure::utah).counted_from == date_of(2021, 11, 1));
  CHECK(chill.for_verdict(ChillMeasure::portions).counted_from == date_of(2021, 11, 1));
}

TEST_CASE("no gap, no width; a gap without another winter has no known range; with one it has") {
  HourlySeries hours = years_of_weather(4, 2021, 1);
  const WinterChill whole = chill_on(record_of(hours), 2021, date_of(2022, 2, 10));
  CHECK(whole.of(ChillMeasure::portions).gaps == GapRange::no_gap);
  CHECK(whole.gaps.empty());
  knock_out(hours, date_of(2022, 1, 5), 6);
  const WinterChill alone = chill_on(record_of(hours), 2021, date_of(2022, 2, 10));
  CHECK(alone.of(ChillMeasure::portions).gaps == GapRange::unknown);
  REQUIRE(alone.gaps.size() == 1);
  CHECK(alone.gaps.front().hours() == 144);
  HourlySeries longer = years_of_weather(4, 2015, 7);
  knock_out(longer, date_of(2022, 1, 5), 6);
  const WinterChill among_others = chill_on(record_of(longer), 2021, date_of(2022, 2, 10));
  for (const ChillMeasure measure : kChillMeasures) {
    const MeasuredChill& measured = among_others.of(measure);
    INFO(id_of(measure));
    CHECK(measured.gaps == GapRange::known);
    CHECK(measured.range.low <= measured.range.high);
    CHECK(measured.missing_hours == 144);
    CHECK(measured.by_day_range.front().low == measured.by_day.front());
    CHECK(measured.by_day_range.back().high == measured.range.high);
  }
  const Range portions = among_others.of(ChillMeasure::portions).range;
  CHECK(portions.high - portions.low >= 0.5);
}

TEST_CASE(
    "most gaps filled by hand from another winter lie within the range, and its middle among "
    "them") {
  HourlySeries hours = years_of_weather(5, 2014, 8);
  const Winter winter = winter_of(kNorth, 2021);
  HourlySeries with_gap = hours;
  knock_out(with_gap, date_of(2021, 12, 10), 9);
  const WinterChill chill = chill_on(record_of(with_gap), 2021, date_of(2022, 2, 28));
  std::array<std::vector<double>, kChillMeasureCount> by_hand;
  for (int year = 2014; year < 2021; ++year) {
    const Winter donor = winter_of(kNorth, year);
    for (const int shift : kGapShifts) {
      HourlySeries filled = with_gap;
      for (int hour = 0; hour < 24 * 9; ++hour) {
        const LocalHour at = LocalHour::at(date_of(2021, 12, 10), 0) + hour;
        filled.set(at, hours.at(donor.begin() + (at - winter.begin()) + 24 * shift).value());
      }
      const ChillTally tally = tally_chill(filled, winter.begin(), winter.end());
      for (const ChillMeasure measure : kChillMeasures)
        by_hand[static_cast<std::size_t>(measure)].push_back(tally.total(measure).amount());
    }
  }
  for (const ChillMeasure measure : kChillMeasures) {
    const Range range = chill.of(measure).range;
    const auto& totals = by_hand[static_cast<std::size_t>(measure)];
    const auto within = std::count_if(totals.begin(), totals.end(), [&](double total) {
      return total >= range.low && total <= range.high;
    });
    INFO(id_of(measure));
    CHECK(within >= 30);  // of 35
    const double middle = (range.low + range.high) / 2.0;
    CHECK(middle >= *std::min_element(totals.begin(), totals.end()));
    CHECK(middle <= *std::max_element(totals.begin(), totals.end()));
  }
}

TEST_CASE("ranges mostly hold what the gap hid, and stay narrow") {
  // 200 seeded knock-outs of 1 to 20 days in eight made-up winters, which differ more than real
  // ones do. The range is meant to hold nineteen in twenty.
  const HourlySeries hours = years_of_weather(6, 2008, 8);
  std::mt19937_64 random(20260101);
  int held = 0;
  std::vector<double> relative_widths;
  for (int trial = 0; trial < 200; ++trial) {
    const int year = 2008 + static_cast<int>(random() % 8);
    const Winter winter = winter_of(kNorth, year);
    const int days = 1 + static_cast<int>(random() % 20);
    const Date from =
        plus_days(winter.from, static_cast<int>(random() % static_cast<unsigned>(118 - days)));
    HourlySeries with_gap = hours;
    knock_out(with_gap, from, days);
    const WeatherRecord record = record_of(with_gap);
    const auto measures = {ChillMeasure::portions};
    const WinterChill chill =
        winter_chill(record, stand_at(record, kNorth, year, winter.to).value(), measures);
    const Range range = chill.of(ChillMeasure::portions).range;
    const double truth =
        tally_chill(hours, winter.begin(), winter.end()).total<ChillMeasure::portions>().amount();
    held += truth >= range.low && truth <= range.high;
    relative_widths.push_back((range.high - range.low) / (24.0 * days / 28.0));
  }
  std::sort(relative_widths.begin(), relative_widths.end());
  CHECK(held >= 190);
  CHECK(relative_widths[100] <= 1.0);
}
