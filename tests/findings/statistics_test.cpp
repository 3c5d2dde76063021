// Quantile, trend test and slope against published worked examples.
#include "findings/statistics.h"

#include <algorithm>
#include <cmath>
#include <numeric>

#include "support/catch.h"
#include "support/files.h"

using namespace winterfolio;

namespace {

/// Source: J. Little, College of the Holy Cross, Mann-Kendall by hand (seen).
const std::vector<double> kWorkedExample = {12.9, 14.8, 13.2, 15.7, 13.8, 15.6, 12.9,
                                            11.0, 17.3, 15.9, 19.0, 18.3, 20.1, 21.7};

struct Winters {
  std::vector<double> years;
  std::vector<double> hours;
};

Winters yuba_city() {
  Winters winters;
  for (const CsvRow row : test::published("yuba_city_winters.csv")) {
    winters.years.push_back(row.required_number("winter_start_year"));
    winters.hours.push_back(row.required_number("chill_hours_below_45F_nov1_to_mar1"));
  }
  return winters;
}

struct Pairs {
  int up = 0;
  int down = 0;
  int tied = 0;
};

Pairs pairs_of(const std::vector<double>& values) {
  Pairs pairs;
  for (std::size_t i = 0; i < values.size(); ++i) {
    for (std::size_t j = i + 1; j < values.size(); ++j)
      ++(values[j] > values[i] ? pairs.up : values[j] < values[i] ? pairs.down : pairs.tied);
  }
  return pairs;
}

/// Chance of a sum as far from nought as `s`, by trying every order.
double p_by_trying(std::vector<double> values, int s) {
  std::vector<std::size_t> order(values.size());
  std::iota(order.begin(), order.end(), 0);
  int all = 0;
  int as_far = 0;
  do {
    int sum = 0;
    for (std::size_t i = 0; i < order.size(); ++i) {
      for (std::size_t j = i + 1; j < order.size(); ++j) {
        sum += (values[order[j]] > values[order[i]]) - (values[order[j]] < values[order[i]]);
      }
    }
    ++all;
    as_far += std::abs(sum) >= std::abs(s);
  } while (std::next_permutation(order.begin(), order.end()));
  return static_cast<double>(as_far) / all;
}

}  // namespace

TEST_CASE("quantiles of type 7") {
  // Source: Hyndman & Fan 1996, the form (n-1) p + 1; values worked out independently.
  const std::vector<double> tens = {100, 20, 30, 40, 50, 60, 70, 80, 90, 10};
  CHECK_THAT(quantile(tens, 0.1), WithinAbs(19.0, 1e-12));
  CHECK_THAT(quantile(tens, 0.25), WithinAbs(32.5, 1e-12));
  CHECK_THAT(quantile(tens, 0.9), WithinAbs(91.0, 1e-12));
  CHECK(quantile(tens, 0.0) == 10.0);
  CHECK(quantile(tens, 1.0) == 100.0);
  CHECK(quantile(std::vector<double>{7.0}, 0.1) == 7.0);
  CHECK_THROWS_AS(quantile(std::vector<double>{}, 0.5), std::logic_error);
  const Winters winters = yuba_city();
  CHECK_THAT(quantile(winters.hours, 0.1), WithinAbs(761.7, 1e-9));
  CHECK_THAT(quantile(winters.hours, 0.5), WithinAbs(870.0, 1e-9));
}

TEST_CASE("Mann-Kendall on the published worked example") {
  const MannKendall test = mann_kendall(kWorkedExample);
  CHECK(test.s == 54);
  CHECK_THAT(test.variance, WithinAbs(14.0 * 13.0 * 33.0 / 18.0 - 2.0 * 1.0 * 9.0 / 18.0, 1e-9));
  CHECK_THAT(test.z, WithinAbs(2.9058, 5e-5));        // as printed there
  CHECK_THAT(test.z, WithinAbs(2.905836846, 5e-10));  // independent arithmetic
  CHECK_THAT(test.p, WithinAbs(0.003662724, 5e-10));
  CHECK_THAT(test.p / 2.0, WithinAbs(0.0018, 5e-5));  // one-sided, as printed there
  const Pairs pairs = pairs_of(kWorkedExample);
  CHECK(pairs.up == 72);
  CHECK(pairs.down == 18);
  CHECK(pairs.tied == 1);
}

TEST_CASE("Theil-Sen on the published worked example") {
  std::vector<double> times(kWorkedExample.size());
  std::iota(times.begin(), times.end(), 1.0);
  const TheilSen line = theil_sen(times, kWorkedExample);
  CHECK(line.slopes == 91);
  CHECK_THAT(line.slope, WithinAbs(0.566666667, 5e-10));
  CHECK_THAT(line.low, WithinAbs(0.323130, 5e-7));
  CHECK_THAT(line.high, WithinAbs(0.869784, 5e-7));
}

TEST_CASE("Yuba City's winters: no trend, and the missing winter keeps its place") {
  const Winters winters = yuba_city();
  const MannKendall test = mann_kendall(winters.hours);
  CHECK(test.n == 18);
  CHECK(test.s == 3);
  const Pairs pairs = pairs_of(winters.hours);
  CHECK(pairs.up == 78);
  CHECK(pairs.down == 75);
  CHECK_THAT(test.variance, WithinAbs(697.0, 1e-9));
  CHECK_THAT(test.z, WithinAbs(0.075755402, 5e-10));
  CHECK_THAT(test.p, WithinAbs(0.939613698, 5e-10));
  const TheilSen line = theil_sen(winters.years, winters.hours);
  CHECK(line.slopes == 153);
  CHECK_THAT(line.slope, WithinAbs(1.0 / 3.0, 1e-9));
  CHECK_THAT(line.low, WithinAbs(-20.406109, 5e-7));
  CHECK_THAT(line.high, WithinAbs(14.820379, 5e-7));
}

TEST_CASE("the place of Yuba City's missing winter tells in the slope's limits") {
  const Winters winters = yuba_city();
  std::vector<double> closed_up(winters.hours.size());
  std::iota(closed_up.begin(), closed_up.end(), 0.0);
  const TheilSen wrong = theil_sen(closed_up, winters.hours);
  const TheilSen right = theil_sen(winters.years, winters.hours);
  CHECK(std::abs(wrong.low - right.low) > 0.1);
  CHECK(std::abs(wrong.high - right.high) > 0.1);
}

TEST_CASE("ten values are tested exactly, eleven by the normal form") {
  const std::vector<double> rising = {2, 1, 4, 3, 6, 5, 8, 7, 10, 9};
  const MannKendall ten = mann_kendall(rising);
  CHECK(ten.p != std::erfc(std::abs(ten.z) / std::sqrt(2.0)));
  std::vector<double> more = rising;
  more.push_back(11);
  const MannKendall eleven = mann_kendall(more);
  CHECK(eleven.p == std::erfc(std::abs(eleven.z) / std::sqrt(2.0)));
}

TEST_CASE("for ten values or fewer the chance is exact") {
  // Source: Kendall's table as in Gilbert 1987 (from memory), one-sided: n = 4, S = 6: 0.042; n =
  // 5, S = 8: 0.042; n = 5, S = 10: 0.0083; n = 8, S = 16: 0.031.
  CHECK_THAT(mann_kendall(std::vector<double>{1, 2, 3, 4}).p / 2.0, WithinAbs(0.042, 5e-4));
  CHECK_THAT(mann_kendall(std::vector<double>{1, 2, 3, 5, 4}).p / 2.0, WithinAbs(0.042, 5e-4));
  CHECK_THAT(mann_kendall(std::vector<double>{1, 2, 3, 4, 5}).p / 2.0, WithinAbs(0.0083, 5e-5));
  const MannKendall eight = mann_kendall(std::vector<double>{3, 1, 2, 5, 4, 8, 6, 7});
  CHECK(eight.s == 18);
  CHECK_THAT(mann_kendall(std::vector<double>{3, 2, 1, 5, 4, 8, 6, 7}).p / 2.0,
             WithinAbs(0.031, 5e-4));
}

TEST_CASE("the exact chance agrees with trying every order, ties included") {
  const std::vector<std::vector<double>> cases = {{1, 2},
                                                  {3, 1, 2},
                                                  {1, 1, 2, 3},
                                                  {5, 5, 5, 1, 2},
                                                  {2, 2, 1, 1, 3, 3},
                                                  {7, 1, 4, 4, 2, 9, 9},
                                                  {1, 2, 3, 4, 5, 6, 8, 7}};
  for (const std::vector<double>& values : cases) {
    const MannKendall test = mann_kendall(values);
    INFO("n = " << values.size() << ", s = " << test.s);
    CHECK_THAT(test.p, WithinAbs(p_by_trying(values, test.s), 1e-12));
  }
}

TEST_CASE("no trend is found where there is nothing to order") {
  CHECK(mann_kendall(std::vector<double>{}).p == 1.0);
  CHECK(mann_kendall(std::vector<double>{4.0}).p == 1.0);
  CHECK(mann_kendall(std::vector<double>(12, 4.0)).p == 1.0);
  CHECK_THROWS_AS(theil_sen(std::vector<double>{1.0}, std::vector<double>{1.0}), std::logic_error);
}
