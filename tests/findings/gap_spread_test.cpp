// How far gaps reach: the formula by hand, Student's t against a reference library, and the law
// that an hour that comes to be known never widens a range.
#include "findings/gap_spread.h"

#include <gsl/gsl_cdf.h>

#include <cmath>
#include <map>
#include <random>

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
      {date_of(2019, 12, 10), 1.0}, {date_of(2019, 12, 11), 1.0}, {date_of(2019, 12, 12), 1.0},
      {date_of(2019, 12, 13), 1.0}, {date_of(2020, 1, 20), 1.0},  {date_of(2020, 1, 21), 1.0},
      {date_of(2020, 1, 24), 0.5}};
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
    const double slack = one.measure == ChillMeasure::portions ? 1.0 : 0.0;
    CHECK(one.gaps == GapRange::known);
    CHECK(one.range.high == Approx(one.total().amount() + 96 * model.most_of_hour + slack));
  }
}

TEST_CASE("an hour that comes to be known never widens a range") {
  std::mt19937_64 random(20261125);
  for (int trial = 0; trial < 12; ++trial) {
    const int winters = 3 + trial % 6;
    const int year = 2012 + winters - 1;
    const HourlySeries whole =
        years_of_weather(500 + static_cast<std::uint64_t>(trial), 2012, winters);
    std::vector<LocalHour> missing;
    for (int gap = 0; gap < 1 + trial % 3; ++gap) {
      const LocalHour from =
          LocalHour::at(date_of(year, 11, 5), 0) + static_cast<int>(random() % 1800);
      const int length = 5 + static_cast<int>(random() % 300);
      for (int hour = 0; hour < length; ++hour) missing.push_back(from + hour);
    }
    std::map<ChillMeasure, Range> before;
    std::map<ChillMeasure, std::vector<Range>> before_by_day;
    while (!missing.empty()) {
      HourlySeries holed = whole;
      for (const LocalHour hour : missing) holed.clear(hour);
      const WeatherRecord record = record_of(holed);
      const WinterChill chill =
          winter_chill(record, stand_at(record, kNorth, year, date_of(year + 1, 2, 20)).value());
      for (const MeasuredChill& one : chill.measures) {
        INFO(id_of(one.measure) << ", trial " << trial << ", " << missing.size() << " hours");
        const auto at = before.find(one.measure);
        if (one.gaps == GapRange::no_gap) continue;
        REQUIRE(one.gaps == GapRange::known);
        if (at != before.end()) {
          CHECK(one.range.high - one.range.low <= at->second.high - at->second.low + 1e-9);
          const std::vector<Range>& days = before_by_day[one.measure];
          for (std::size_t day = 0; day < days.size(); ++day)
            REQUIRE(one.by_day_range[day].high - one.by_day_range[day].low <=
                    days[day].high - days[day].low + 1e-9);
        }
        before[one.measure] = one.range;
        before_by_day[one.measure] = one.by_day_range;
      }
      // Some hours at once, from anywhere in the gaps: a file turns up for a day, or for single
      // hours.
      const std::size_t some = 1 + random() % (random() % 2 == 0 ? 60 : 4);
      const std::size_t at = random() % missing.size();
      const std::size_t end = std::min(missing.size(), at + some);
      missing.erase(missing.begin() + static_cast<std::ptrdiff_t>(at),
                    missing.begin() + static_cast<std::ptrdiff_t>(end));
    }
  }
}
