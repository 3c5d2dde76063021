// How far gaps reach: the formula by hand, Student's t against a reference library, and the law
// that an hour that comes to be known never widens a range.
#include "findings/gap_spread.h"

#include <gsl/gsl_cdf.h>

#include <algorithm>
#include <cmath>
#include <map>
#include <random>
#include <set>
#include <string>

#include "findings/winter_chill.h"
#include "findings/winters_test.h"
#include "support/catch.h"

using namespace winterfolio;
using namespace winterfolio::test;

namespace {

constexpr WinterWindow kNorth{{11, 1}, {2, 29}};

/// Missing hours up to the end of each of `days` days.
std::vector<std::int32_t> missing_up_to(const HourlySeries& hours, Date from, int days) {
  std::vector<std::int32_t> missing;
  const LocalHour begin = LocalHour::at(from, 0);
  for (int day = 1; day <= days; ++day)
    missing.push_back(hours.missing_in(begin, begin + 24 * day));
  return missing;
}

/// What a winter gained by a measure in the seven days around a day.
double week_gain(ChillMeasure measure, const HourlySeries& hours, Date from, Date day) {
  const double after =
      tally_chill(hours, LocalHour::at(from, 0), LocalHour::at(plus_days(day, 4), 0))
          .total(measure)
          .amount();
  const double before =
      tally_chill(hours, LocalHour::at(from, 0), LocalHour::at(plus_days(day, -3), 0))
          .total(measure)
          .amount();
  return after - before;
}

}  // namespace

TEST_CASE("Student's t in the table is that of the distribution") {
  for (int degrees = 1; degrees <= 20; ++degrees)
    CHECK(student_t(degrees) == Approx(gsl_cdf_tdist_Pinv(0.975, degrees)).margin(6e-4));
  for (const int degrees : {25, 30, 40, 60, 120})
    CHECK(student_t(degrees) == Approx(gsl_cdf_tdist_Pinv(0.975, degrees)).margin(6e-4));
  CHECK(student_t(22) == student_t(20));
  CHECK(student_t(5000) == student_t(120));
}

TEST_CASE("the spread of a gap is that of all its pairs of days") {
  HourlySeries hours = years_of_weather(11, 2014, 6);
  knock_out(hours, date_of(2019, 12, 10), 4);
  knock_out(hours, date_of(2020, 1, 20), 2);
  for (int hour = 0; hour < 12; ++hour)
    hours.clear(LocalHour::at(date_of(2020, 1, 24), 0) + hour);  // half a day
  const WeatherRecord record = record_of(hours);
  const Winter winter = winter_of(kNorth, 2019);
  const std::vector<Winter> others = winters_on_record(record, kNorth, 2019);
  REQUIRE(others.size() == 5);
  const std::map<Date, double> weights = {
      {date_of(2019, 12, 10), 1.0},          {date_of(2019, 12, 11), 1.0},
      {date_of(2019, 12, 12), 1.0},          {date_of(2019, 12, 13), 1.0},
      {date_of(2020, 1, 20), 1.0},           {date_of(2020, 1, 21), 1.0},
      {date_of(2020, 1, 24), std::sqrt(0.5)}};
  for (const ChillMeasure measure : {ChillMeasure::portions, ChillMeasure::utah}) {
    double pairs_of_week = 0.0;
    for (int i = 0; i < 7; ++i)
      for (int j = 0; j < 7; ++j) pairs_of_week += std::pow(kLikeTheDayBefore, std::abs(i - j));
    std::map<Date, double> spread;
    for (const auto& [day, weight] : weights) {
      double sum = 0.0, squares = 0.0;
      for (const Winter& other : others) {
        const int later = days_between(winter.from, day);
        const double gain =
            week_gain(measure, record.hours, other.from, plus_days(other.from, later));
        sum += gain;
        squares += gain * gain;
      }
      spread[day] = std::sqrt((squares - sum * sum / 5.0) / 4.0 / pairs_of_week);
    }
    double variance = 0.0;
    for (const auto& [a, wa] : weights)
      for (const auto& [b, wb] : weights)
        variance += wa * spread[a] * wb * spread[b] *
                    std::pow(kLikeTheDayBefore, std::abs(days_between(a, b)));
    const auto widths = gap_half_widths(measure, record, winter, others, winter.from,
                                        missing_up_to(record.hours, winter.from, 100));
    INFO(id_of(measure));
    REQUIRE(widths.back().has_value());
    CHECK(*widths.back() == Approx(2.776 * std::sqrt(variance * 1.2)).epsilon(1e-6));
    CHECK(widths[5] == 0.0);
  }
}

TEST_CASE("one other winter tells no spread: the range is what missing hours can hold at all") {
  HourlySeries hours = years_of_weather(12, 2018, 2);
  knock_out(hours, date_of(2019, 12, 10), 4);
  const WeatherRecord record = record_of(hours);
  const WinterChill chill =
      winter_chill(record, stand_at(record, kNorth, 2019, date_of(2020, 2, 10)).value());
  for (const MeasuredChill& one : chill.measures) {
    INFO(id_of(one.measure));
    const ChillModel& model = chill_model(one.measure);
    const double slack = one.measure == ChillMeasure::portions ? 0.5 : 0.0;
    CHECK(one.gaps == GapRange::known);
    CHECK(one.range.high == Approx(one.total().amount() + 96 * model.most_of_hour + slack));
  }
}

namespace {

double width_of(Range range) { return range.high - range.low; }

/// No range of `now` may be wider than that of `before`, when more hours were missing.
void check_no_wider(const MeasuredChill& now, const MeasuredChill& before) {
  if (now.counted_from != before.counted_from) return;  // Utah's autumn minimum may move
  CHECK(width_of(now.utmost) <= width_of(before.utmost) + 1e-9);
  if (before.gaps != GapRange::known) return;
  REQUIRE(now.gaps != GapRange::unknown);
  CHECK(width_of(now.range) <= width_of(before.range) + 1e-9);
  bool none_wider = true;
  for (std::size_t day = 0; day < now.by_day_range.size(); ++day)
    none_wider =
        none_wider && width_of(now.by_day_range[day]) <= width_of(before.by_day_range[day]) + 1e-9;
  CHECK(none_wider);
}

/// What holds for the ranges of any winter with gaps.
void check_ranges(const MeasuredChill& chill) {
  const ChillModel& model = chill_model(chill.measure);
  const double slack = chill.measure == ChillMeasure::portions ? 1.0 : 0.0;
  if (chill.gaps != GapRange::known) return;
  REQUIRE(chill.by_day_range.size() == chill.by_day.size());
  CHECK(chill.range == chill.by_day_range.back());
  CHECK(chill.utmost == chill.range);
  bool ordered = true, possible = true, never_falls = true;
  for (std::size_t day = 0; day < chill.by_day.size(); ++day) {
    const Range& range = chill.by_day_range[day];
    const std::int32_t missing = chill.missing_by_day[day];
    ordered = ordered && range.low <= range.high;
    possible = possible &&
               range.low >= chill.by_day[day] + missing * model.least_of_hour - slack - 1e-9 &&
               range.high <= chill.by_day[day] + missing * model.most_of_hour + slack + 1e-9;
    if (missing == 0) CHECK(range == Range{chill.by_day[day], chill.by_day[day]});
    if (model.can_fall) continue;
    const Range before = day == 0 ? Range{0.0, 0.0} : chill.by_day_range[day - 1];
    never_falls = never_falls && range.low >= before.low && range.high >= before.high - 1e-9;
  }
  CHECK(ordered);
  CHECK(possible);
  CHECK(never_falls);
}

/// The hours that a winter lacks: one to three gaps, which may touch.
std::vector<LocalHour> gaps_of(std::mt19937_64& random, LocalHour from) {
  std::set<LocalHour> missing;
  const int gaps = 1 + static_cast<int>(random() % 3);
  for (int gap = 0; gap < gaps; ++gap) {  // a third begin with the winter
    const LocalHour begin = from + static_cast<int>(random() % 3 == 0 ? 0 : random() % 2600);
    const int length = 5 + static_cast<int>(random() % 300);
    for (int hour = 0; hour < length; ++hour) missing.insert(begin + hour);
  }
  return {missing.begin(), missing.end()};
}

/// Other winters lack hours too.
void knock_out_others(std::mt19937_64& random, HourlySeries& hours, int first, int end) {
  for (int year = first; year < end; ++year) {
    const LocalHour from = winter_of(kNorth, year).begin() + static_cast<int>(random() % 2500);
    const int length = static_cast<int>(random() % 200);
    for (int hour = 0; hour < length; ++hour) hours.clear(from + hour);
  }
}

}  // namespace

TEST_CASE("an hour that comes to be known never widens a range, of the total or of a day") {
  std::mt19937_64 random(20261125);
  for (int trial = 0; trial < 24; ++trial) {
    const int winters = 2 + trial % 7;
    const int year = 2012 + winters - 1;
    // From a mild winter, in which hours often hold nothing, to a cold one.
    HourlySeries whole = years_of_weather(500 + static_cast<std::uint64_t>(trial), 2012, winters,
                                          8.0 + 3.0 * (trial % 4));
    if (trial % 2 == 1) knock_out_others(random, whole, 2012, year);
    std::vector<LocalHour> missing = gaps_of(random, winter_of(kNorth, year).begin());
    std::map<std::string, MeasuredChill> before;
    while (!missing.empty()) {
      HourlySeries holed = whole;
      for (const LocalHour hour : missing) holed.clear(hour);
      const WeatherRecord record = record_of(holed);
      const WinterChill chill =
          winter_chill(record, stand_at(record, kNorth, year, date_of(year + 1, 2, 20)).value());
      const auto look = [&](const MeasuredChill& one, const std::string& name) {
        INFO(name << ", trial " << trial << ", " << missing.size() << " hours");
        check_ranges(one);
        if (const auto at = before.find(name); at != before.end()) check_no_wider(one, at->second);
        before.insert_or_assign(name, one);
      };
      for (const MeasuredChill& one : chill.measures) look(one, std::string(id_of(one.measure)));
      look(*chill.utah_from_minimum, "utah from its minimum");
      // Some hours at once, from anywhere in the gaps: a file turns up for a day, or for single
      // hours.
      const std::size_t some = 1 + random() % (random() % 2 == 0 ? 60 : 8);
      const std::size_t at = random() % missing.size();
      const std::size_t end = std::min(missing.size(), at + some);
      missing.erase(missing.begin() + static_cast<std::ptrdiff_t>(at),
                    missing.begin() + static_cast<std::ptrdiff_t>(end));
    }
  }
}
