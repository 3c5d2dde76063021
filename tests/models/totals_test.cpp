// Totals over made-up months against independent arithmetic, and the laws that hold for any winter.
#include "models/chill/autumn_minimum.h"
#include "models/chill/portions.h"
#include "models/chill/tally.h"
#include "models/chill/utah.h"
#include "models/heat/degree_days.h"
#include "models/heat/degree_hours.h"
#include "support/catch.h"
#include "support/files.h"
#include "support/winters.h"
#include "weather/season.h"

using namespace winterfolio;
using namespace winterfolio::test;

namespace {

const LocalHour kStart = LocalHour::at(date_of(2024, 11, 1), 0);

HourlySeries synthetic_month() {
  std::vector<double> celsius;
  for (const CsvRow row : published("synthetic_month.csv"))
    celsius.push_back(row.required_number("temp_C"));
  return series_of(kStart, celsius);
}

double expected(const std::string& metric) {
  for (const CsvRow row : published("synthetic_month_totals.csv")) {
    if (row.text("metric") == metric) return row.required_number("value");
  }
  throw std::runtime_error("no " + metric);
}

template <ChillMeasure M>
double total(const ChillTally& tally) {
  return tally.total<M>().amount();
}

}  // namespace

TEST_CASE("every measure of the made-up month agrees with independent arithmetic") {
  const HourlySeries month = synthetic_month();
  REQUIRE(month.size() == 720);
  const ChillTally tally = tally_chill(month, month.first(), month.end());
  CHECK(tally.hours == 720);
  CHECK(tally.missing_hours == 0);
  CHECK(total<ChillMeasure::chill_hours>(tally) == expected("CH_le_7.2"));
  CHECK(total<ChillMeasure::chill_hours_32_45>(tally) == expected("CH_0_to_7.2_closed"));
  // No hour of the month lies between 15.5556 and 15.6 °C, so both ways of writing 60 °F count the
  // same warm hours.
  CHECK(total<ChillMeasure::chill_hours_less_warm>(tally) ==
        expected("CH_0_to_7.2_closed") - expected("warm_hours_ge_15.6"));
  CHECK(total<ChillMeasure::utah>(tally) == expected("Utah_C"));
  CHECK(total<ChillMeasure::utah_daily_positive>(tally) == expected("DPCU_daily_positive"));
  CHECK_THAT(total<ChillMeasure::utah_smoothed>(tally), WithinAbs(expected("Linvill_sine"), 5e-7));
  CHECK(total<ChillMeasure::north_carolina>(tally) == expected("NC_step"));
  CHECK(total<ChillMeasure::low_chill>(tally) == expected("LowChill_step"));
  CHECK_THAT(total<ChillMeasure::portions>(tally), WithinAbs(expected("Dynamic_RK4"), 5e-7));
  CHECK_THAT(tally.state(ChillMeasure::portions).carried,
             WithinAbs(expected("Dynamic_residual_x"), 5e-7));
  CHECK(utah_running_total_by_fahrenheit_table(month, month.first(), month.end()).back().amount() ==
        expected("Utah_F_edges"));
  CHECK_THAT(degree_hours(month, month.first(), month.end()).degree_hours(),
             WithinAbs(expected("GDH_linear_C"), 1e-6));
  CHECK_THAT(degree_hours(month, month.first(), month.end(), curved_degree_hours).degree_hours(),
             WithinAbs(expected("GDH_ASYMCUR"), 5e-7));
}

TEST_CASE("the made-up month's first portion, and how often one is banked") {
  const HourlySeries month = synthetic_month();
  const auto portions = portions_running_total(month, month.first(), month.end());
  int events = portions.front().amount() > 0.0 ? 1 : 0;
  std::size_t first = 0;
  for (std::size_t i = 1; i < portions.size(); ++i) {
    if (portions[i] == portions[i - 1]) continue;
    if (events++ == 0) first = i + 1;
  }
  CHECK(events == static_cast<int>(expected("Dynamic_events")));
  CHECK(first == static_cast<std::size_t>(expected("Dynamic_first_event_hour_index1")));
}

TEST_CASE("Utah units of the made-up month by the day, and days below nought as nought") {
  // Source: independent arithmetic: the daily sums repeat every ten days.
  const std::vector<double> daily = {8, 0, -3, 0, 9.5, 14, 12, 11.5, 12, 9};
  const HourlySeries month = synthetic_month();
  const auto utah = chill_curve(ChillMeasure::utah, month, month.first(), month.end()).by_day();
  const auto positive =
      chill_curve(ChillMeasure::utah_daily_positive, month, month.first(), month.end()).by_day();
  REQUIRE(utah.size() == 30);
  for (std::size_t day = 0; day < 30; ++day) {
    INFO("day " << day + 1);
    CHECK(utah[day] - (day ? utah[day - 1] : 0.0) == daily[day % 10]);
    CHECK(positive[day] - (day ? positive[day - 1] : 0.0) == std::max(0.0, daily[day % 10]));
  }
}

TEST_CASE("the frost night of March 2009 by the Utah table in Fahrenheit and in Celsius") {
  // Source: Western Farm Press 2009 for the readings; the sums are independent arithmetic.
  std::vector<double> chowchilla;
  std::vector<double> hanford;
  for (const CsvRow row : published("frost_night_2009.csv")) {
    chowchilla.push_back(Celsius::from_fahrenheit(row.required_number("chowchilla_F")).degrees());
    hanford.push_back(Celsius::from_fahrenheit(row.required_number("hanford_F")).degrees());
  }
  const LocalHour evening = LocalHour::at(date_of(2009, 3, 9), 18);
  const auto sums = [&](const std::vector<double>& celsius) {
    const HourlySeries series = series_of(evening, celsius);
    return std::pair(utah_running_total(series, series.first(), series.end()).back().amount(),
                     utah_running_total_by_fahrenheit_table(series, series.first(), series.end())
                         .back()
                         .amount());
  };
  CHECK(sums(chowchilla) == std::pair(3.0, 4.0));
  CHECK(sums(hanford) == std::pair(5.0, 6.0));
}

TEST_CASE("°F input gives what °C input gives") {
  for (std::uint64_t seed = 1; seed <= 60; ++seed) {
    std::vector<double> celsius = random_weather(seed, 2000, 9.0);
    std::vector<double> through_fahrenheit;
    for (double& t : celsius) {
      const double tenth_fahrenheit = std::round(Celsius(t).fahrenheit() * 10.0) / 10.0;
      t = (tenth_fahrenheit - 32.0) * 5.0 / 9.0;
      through_fahrenheit.push_back(Celsius::from_fahrenheit(tenth_fahrenheit).degrees());
    }
    const HourlySeries a = series_of(kStart, celsius);
    const HourlySeries b = series_of(kStart, through_fahrenheit);
    const ChillTally in_c = tally_chill(a, a.first(), a.end());
    const ChillTally in_f = tally_chill(b, b.first(), b.end());
    for (const ChillModel& model : chill_models()) {
      INFO("seed " << seed << ", " << id_of(model.measure));
      CHECK_THAT(in_f.total(model.measure).amount(),
                 WithinAbs(in_c.total(model.measure).amount(), 1e-9));
    }
  }
}

TEST_CASE("measures that cannot fall never do, and the others say so") {
  std::array<bool, kChillMeasureCount> fell{};
  for (std::uint64_t seed = 1; seed <= 60; ++seed) {
    const HourlySeries series = series_of(kStart, random_weather(seed, 90 * 24, 12.0));
    for (const ChillModel& model : chill_models()) {
      const auto days = chill_curve(model.measure, series, series.first(), series.end()).by_day();
      for (std::size_t i = 1; i < days.size(); ++i) {
        if (days[i] < days[i - 1]) fell[static_cast<std::size_t>(model.measure)] = true;
      }
    }
  }
  for (const ChillModel& model : chill_models()) {
    INFO(id_of(model.measure));
    CHECK(fell[static_cast<std::size_t>(model.measure)] == model.can_fall);
  }
}

TEST_CASE("hours and portions never fall from hour to hour") {
  for (std::uint64_t seed = 1; seed <= 60; ++seed) {
    const HourlySeries series = series_of(kStart, random_weather(seed, 90 * 24, 10.0));
    for (const ChillMeasure measure :
         {ChillMeasure::chill_hours, ChillMeasure::chill_hours_32_45, ChillMeasure::portions}) {
      const std::vector<double> totals =
          chill_curve(measure, series, series.first(), series.end()).by_hour();
      CHECK(std::is_sorted(totals.begin(), totals.end()));
    }
  }
}

TEST_CASE("hours between 32 and 45 °F never pass hours at or below 45 °F") {
  for (const CsvRow row : published("yuba_city_2016_17.csv")) {  // as the station's own counts do
    CHECK(row.required_number("hours_32_45F_model") <= row.required_number("hours_45F_model"));
  }
  for (std::uint64_t seed = 1; seed <= 60; ++seed) {
    const HourlySeries series = series_of(kStart, random_weather(seed, 2000, 4.0));
    const ChillTally tally = tally_chill(series, series.first(), series.end());
    CHECK(total<ChillMeasure::chill_hours_32_45>(tally) <= total<ChillMeasure::chill_hours>(tally));
    CHECK(total<ChillMeasure::chill_hours_less_warm>(tally) <=
          total<ChillMeasure::chill_hours_32_45>(tally));
    CHECK(total<ChillMeasure::utah>(tally) <= total<ChillMeasure::utah_daily_positive>(tally));
  }
}

TEST_CASE("two halves of a stretch add up to the whole") {
  for (std::uint64_t seed = 1; seed <= 60; ++seed) {
    const HourlySeries series = series_of(kStart, random_weather(seed, 1500, 8.0));
    const LocalHour cut = series.first() + static_cast<std::int32_t>(seed * 23);
    const double whole = degree_hours(series, series.first(), series.end()).degree_hours();
    const double halves = degree_hours(series, series.first(), cut).degree_hours() +
                          degree_hours(series, cut, series.end()).degree_hours();
    CHECK_THAT(halves, WithinAbs(whole, 1e-8));
    const ChillTally at_once = tally_chill(series, series.first(), series.end());
    const ChillTally in_two =
        tally_chill(series, cut, series.end(), tally_chill(series, series.first(), cut));
    CHECK(in_two.hours == at_once.hours);
    for (const ChillModel& model : chill_models()) {
      INFO("seed " << seed << ", " << id_of(model.measure));
      CHECK_THAT(in_two.total(model.measure).amount(),
                 WithinAbs(at_once.total(model.measure).amount(), 1e-9));
    }
  }
}

TEST_CASE("a southern winter shifted by half a year gives the northern answer") {
  for (std::uint64_t seed = 1; seed <= 40; ++seed) {
    const std::vector<double> celsius = random_weather(seed, 120 * 24, 6.0);
    const Winter north = winter_of(default_winter_window(false), 2024);
    const Winter south = winter_of(default_winter_window(true), 2025);
    const HourlySeries a = series_of(north.begin(), celsius);
    const HourlySeries b = series_of(south.begin(), celsius);
    const ChillTally in_north = tally_chill(a, north.begin(), north.end());
    const ChillTally in_south = tally_chill(b, south.begin(), south.end());
    for (const ChillModel& model : chill_models()) {
      INFO("seed " << seed << ", " << id_of(model.measure));
      CHECK(in_north.total(model.measure) == in_south.total(model.measure));
    }
  }
}

TEST_CASE("a missing hour adds nothing and holds the Dynamic Model's state") {
  for (std::uint64_t seed = 1; seed <= 20; ++seed) {
    const std::vector<double> celsius = random_weather(seed, 60 * 24, 6.0);
    HourlySeries with_holes = series_of(kStart, celsius);
    std::vector<double> without;
    for (std::size_t i = 0; i < celsius.size(); ++i) {
      const bool hole = (i > 200 && i < 200 + 24 * 3) || i % 97 == 5;
      if (hole) with_holes.clear(kStart + static_cast<std::int32_t>(i));
      if (!hole) without.push_back(celsius[i]);
    }
    const HourlySeries closed_up = series_of(kStart, without);
    const ChillTally holes = tally_chill(with_holes, with_holes.first(), kStart + 60 * 24);
    const ChillTally packed = tally_chill(closed_up, closed_up.first(), closed_up.end());
    CHECK(holes.missing_hours == static_cast<std::int32_t>(celsius.size() - without.size()));
    for (const ChillModel& model : chill_models()) {
      if (model.measure == ChillMeasure::utah_daily_positive) continue;  // its days have moved
      INFO("seed " << seed << ", " << id_of(model.measure));
      CHECK(holes.total(model.measure) == packed.total(model.measure));
      const ChillCurve curve =
          chill_curve(model.measure, with_holes, with_holes.first(), kStart + 60 * 24);
      CHECK(curve.by_hour().size() == 60U * 24U);
      CHECK(curve.by_hour().back() == holes.total(model.measure).amount());
      CHECK(curve.by_hour()[230] == curve.by_hour()[229]);
    }
  }
}

TEST_CASE("nothing known gives nought, and hours outside the series are missing") {
  const ChillTally nothing = tally_chill(HourlySeries(), kStart, kStart + 48);
  CHECK(nothing.hours == 48);
  CHECK(nothing.missing_hours == 48);
  for (const ChillModel& model : chill_models())
    CHECK(nothing.total(model.measure).amount() == 0.0);
  const HourlySeries day = series_of(kStart, std::vector<double>(24, 5.0));
  const ChillTally around = tally_chill(day, kStart - 10, kStart + 48);
  CHECK(around.missing_hours == 34);
  CHECK(total<ChillMeasure::chill_hours>(around) == 24.0);
}

TEST_CASE("daily positive units keep to the calendar day, with holes and from any hour") {
  // A warm day of -24, then a cold one of +24: the cold one counts whole.
  std::vector<double> celsius(24, 20.0);
  celsius.insert(celsius.end(), 24, 5.0);
  HourlySeries series = series_of(kStart, celsius);
  CHECK(total<ChillMeasure::utah_daily_positive>(tally_chill(series, kStart, kStart + 48)) == 24.0);
  CHECK(total<ChillMeasure::utah_daily_positive>(tally_chill(series, kStart + 12, kStart + 30)) ==
        6.0);
  for (std::int32_t hour = 20; hour < 28; ++hour)
    series.clear(kStart + hour);  // the hole spans midnight
  const ChillTally evening = tally_chill(series, kStart, kStart + 26);
  CHECK(total<ChillMeasure::utah_daily_positive>(evening) == 0.0);
  CHECK(total<ChillMeasure::utah_daily_positive>(
            tally_chill(series, kStart + 26, kStart + 48, evening)) == 20.0);
}

TEST_CASE("Utah units are counted from the day after their lowest autumn sum") {
  // Source: Richardson, Seeley & Walker 1974 (from memory): count from the day after the sum is
  // most negative.
  const auto days_of = [](const std::vector<double>& daily_celsius) {
    std::vector<double> celsius;
    for (const double day : daily_celsius) celsius.insert(celsius.end(), 24, day);
    return series_of(LocalHour::at(date_of(2024, 9, 1), 0), celsius);
  };
  const AutumnDays autumn = autumn_days(false, 2024);
  // 20 °C takes 24 a day, 5 °C gives 24, 14 °C gives nought: lowest after the 4th day, and again
  // after the 6th.
  const HourlySeries series = days_of({20, 20, 5, 20, 5, 20, 5, 5, 14, 20});
  CHECK(utah_start(series, autumn.from, autumn.last) == date_of(2024, 9, 7));
  CHECK(utah_start(days_of({5, 5, 20, 5}), autumn.from, autumn.last) == date_of(2024, 9, 1));
  CHECK(utah_start(days_of({20, 14, 14}), autumn.from, date_of(2024, 9, 3)) == date_of(2024, 9, 4));
  CHECK_FALSE(utah_start(HourlySeries(), autumn.from, autumn.last).has_value());
}

TEST_CASE("degree days by both readings of the formula") {
  // Source: McMaster & Wilhelm 1997 describe the two; the example is independent arithmetic.
  const DailyExtremes day{Celsius(0.0), Celsius(12.0)};
  CHECK_THAT(degree_days(day, Celsius(4.5), DegreeDayMethod::mean_then_base).degree_days(),
             WithinAbs(1.5, 1e-12));
  CHECK_THAT(degree_days(day, Celsius(4.5), DegreeDayMethod::extremes_then_mean).degree_days(),
             WithinAbs(3.75, 1e-12));
  const DailyExtremes warm{Celsius(6.0), Celsius(12.0)};
  CHECK(degree_days(warm, Celsius(4.5), DegreeDayMethod::mean_then_base) ==
        degree_days(warm, Celsius(4.5), DegreeDayMethod::extremes_then_mean));
  DailySeries series;
  series.set(date_of(2025, 3, 1), day);
  series.set(date_of(2025, 3, 3), warm);
  CHECK_THAT(degree_days(series, date_of(2025, 2, 1), date_of(2025, 4, 1), Celsius(4.5),
                         DegreeDayMethod::mean_then_base)
                 .degree_days(),
             WithinAbs(6.0, 1e-12));
}

template <typename A, typename B>
concept Comparable = requires(A a, B b) {
  a < b;
};
template <typename A, typename B>
concept Addable = requires(A a, B b) {
  a + b;
};

TEST_CASE("no function leads from one measure to another") {
  static_assert(Comparable<ChillPortions, ChillPortions> && Addable<ChillPortions, ChillPortions>);
  static_assert(!Comparable<ChillHours, ChillPortions> && !Addable<ChillHours, ChillPortions>);
  static_assert(!Comparable<UtahUnits, UtahDailyPositiveUnits> &&
                !Addable<ChillHours, ChillHours32To45>);
  static_assert(!std::is_convertible_v<ChillHours, ChillPortions> &&
                !std::is_constructible_v<ChillPortions, ChillHours>);
  static_assert(!std::is_convertible_v<double, ChillPortions>);
  SUCCEED();
}

TEST_CASE("amounts of two measures neither compare nor add") {
  const ChillAmount portions(ChillMeasure::portions, 40.0);
  const ChillAmount hours(ChillMeasure::chill_hours, 40.0);
  CHECK_THROWS_AS(portions < hours, std::logic_error);
  CHECK_THROWS_AS(portions == hours, std::logic_error);
  CHECK_THROWS_AS(portions + hours, std::logic_error);
  CHECK_THROWS_AS(portions.as<ChillMeasure::utah>(), std::logic_error);
  CHECK(portions.as<ChillMeasure::portions>() == ChillPortions(40.0));
  CHECK(portions < ChillAmount(ChillPortions(41.0)));
}

TEST_CASE("every measure has its source and its mark") {
  for (const ChillModel& model : chill_models()) {
    INFO(id_of(model.measure));
    CHECK_FALSE(model.source().empty());
    CHECK_NOTHROW(model.mark());
  }
  CHECK(chill_model(ChillMeasure::utah).mark() == SourceMark::seen);
  CHECK(chill_model(ChillMeasure::north_carolina).mark() == SourceMark::memory);
}
