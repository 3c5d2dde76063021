// Quantile, Mann-Kendall test, Theil-Sen slope.
#include "findings/statistics.h"

#include <algorithm>
#include <cmath>
#include <map>
#include <stdexcept>

namespace winterfolio {
namespace {

double of_sorted(std::span<const double> sorted, double place) {
  const double held = std::clamp(place, 0.0, static_cast<double>(sorted.size() - 1));
  const double below = std::floor(held);
  const auto i = static_cast<std::size_t>(below);
  if (held == below) return sorted[i];
  return sorted[i] + (held - below) * (sorted[i + 1] - sorted[i]);
}

std::vector<double> sorted_copy(std::span<const double> values) {
  std::vector<double> sorted(values.begin(), values.end());
  std::sort(sorted.begin(), sorted.end());
  return sorted;
}

/// How many values stand in each group of equals.
std::vector<int> tie_groups(std::span<const double> values) {
  std::map<double, int> counts;
  for (const double value : values) ++counts[value];
  std::vector<int> groups;
  for (const auto& [value, count] : counts) groups.push_back(count);
  return groups;
}

double variance_of_s(int n, const std::vector<int>& groups) {
  double sum = static_cast<double>(n) * (n - 1) * (2 * n + 5);
  for (const int t : groups) sum -= static_cast<double>(t) * (t - 1) * (2 * t + 5);
  return sum / 18.0;
}

/// Multiplies a polynomial by 1 + q + ... + q^(k-1).
std::vector<double> times_run(const std::vector<double>& polynomial, int k) {
  std::vector<double> product(polynomial.size() + static_cast<std::size_t>(k) - 1, 0.0);
  for (std::size_t i = 0; i < polynomial.size(); ++i) {
    for (std::size_t j = 0; j < static_cast<std::size_t>(k); ++j) product[i + j] += polynomial[i];
  }
  return product;
}

/// Divides by 1 + q + ... + q^(k-1), which goes in evenly.
std::vector<double> over_run(std::vector<double> polynomial, int k) {
  const std::size_t shift = static_cast<std::size_t>(k) - 1;
  std::vector<double> quotient(polynomial.size() - shift, 0.0);
  for (std::size_t i = 0; i < quotient.size(); ++i) {
    quotient[i] = polynomial[i];
    for (std::size_t j = 0; j <= shift; ++j) polynomial[i + j] -= quotient[i];
  }
  return quotient;
}

/// Exact two-sided chance of a sum as far from nought as `s`, all orders of the values being
/// equally likely.
///
/// With ties, the orders of a multiset by their number of inversions are counted by the
/// q-multinomial coefficient [n]! / ([t1]! [t2]! ...); s is the number of pairs that differ less
/// twice the inversions.
double exact_p(int n, const std::vector<int>& groups, int s) {
  std::vector<double> orders = {1.0};
  for (int k = 2; k <= n; ++k) orders = times_run(orders, k);
  for (const int group : groups) {
    for (int k = 2; k <= group; ++k) orders = over_run(orders, k);
  }
  const int differing = static_cast<int>(orders.size()) - 1;
  double all = 0.0;
  double as_far = 0.0;
  for (int inversions = 0; inversions <= differing; ++inversions) {
    const double count = orders[static_cast<std::size_t>(inversions)];
    all += count;
    if (std::abs(differing - 2 * inversions) >= std::abs(s)) as_far += count;
  }
  return as_far / all;
}

}  // namespace

double quantile(std::span<const double> values, double share) {
  if (values.empty()) throw std::logic_error("a quantile of no values");
  const std::vector<double> sorted = sorted_copy(values);
  return of_sorted(sorted, static_cast<double>(sorted.size() - 1) * share);
}

MannKendall mann_kendall(std::span<const double> values) {
  constexpr int kExactUpTo = 10;
  MannKendall test;
  test.n = static_cast<int>(values.size());
  for (std::size_t i = 0; i < values.size(); ++i) {
    for (std::size_t j = i + 1; j < values.size(); ++j)
      test.s += (values[j] > values[i]) - (values[j] < values[i]);
  }
  const std::vector<int> groups = tie_groups(values);
  test.variance = variance_of_s(test.n, groups);
  if (test.variance <= 0.0) return test;  // one value, or all of them equal
  const int towards_nought = (test.s > 0) - (test.s < 0);
  test.z = (test.s - towards_nought) / std::sqrt(test.variance);
  test.p = test.n <= kExactUpTo ? exact_p(test.n, groups, test.s)
                                : std::erfc(std::abs(test.z) / std::sqrt(2.0));
  return test;
}

TheilSen theil_sen(std::span<const double> times, std::span<const double> values) {
  if (times.size() != values.size() || times.size() < 2)
    throw std::logic_error("a slope needs two values with their times");
  constexpr double kNormal975 = 1.959963984540054;
  std::vector<double> slopes;
  for (std::size_t i = 0; i < times.size(); ++i) {
    for (std::size_t j = i + 1; j < times.size(); ++j)
      slopes.push_back((values[j] - values[i]) / (times[j] - times[i]));
  }
  std::sort(slopes.begin(), slopes.end());
  const double half_width =
      kNormal975 * std::sqrt(variance_of_s(static_cast<int>(values.size()), tie_groups(values)));
  const auto count = static_cast<double>(slopes.size());
  TheilSen line;
  line.slopes = static_cast<int>(slopes.size());
  line.slope = of_sorted(slopes, (count - 1.0) / 2.0);
  // Gilbert's ranks M1 = (N - C)/2 and M2 + 1 = (N + C)/2 + 1, counted from one.
  line.low = of_sorted(slopes, (count - half_width) / 2.0 - 1.0);
  line.high = of_sorted(slopes, (count + half_width) / 2.0);
  return line;
}

}  // namespace winterfolio
