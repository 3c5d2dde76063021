// Axis numbers are round, fit the room, and are as many as fit. The rows below are worked out by
// hand from the rule "steps of 1, 2 or 5 times a power of ten" (common practice, no source).
#include <cmath>
#include <random>

#include "charts/scale.h"
#include "charts/ticks.h"
#include "support/catch.h"

using namespace winterfolio;

namespace {

struct Row {
  double low, high, room, least;
  std::vector<double> expected;
  int decimals;
};

const std::vector<Row> kRows = {
    {0, 80, 195, 30, {0, 20, 40, 60, 80}, 0},
    {0, 76, 195, 30, {0, 20, 40, 60}, 0},
    {0, 100, 100, 30, {0, 50, 100}, 0},
    {0, 1, 100, 20, {0, 0.2, 0.4, 0.6, 0.8, 1.0}, 1},
    {0, 0.03, 100, 30, {0, 0.01, 0.02, 0.03}, 2},
    {20, 85, 143, 20, {20, 30, 40, 50, 60, 70, 80}, 0},
    {-7, 18, 100, 20, {-5, 0, 5, 10, 15}, 0},
    {-0.4, 0.4, 100, 20, {-0.4, -0.2, 0, 0.2, 0.4}, 1},
    {473, 1137, 200, 50, {600, 800, 1000}, 0},
    {0, 1200000, 300, 60, {0, 500000, 1000000}, 0},
    {5, 6, 10, 30, {5}, 0},
};

}  // namespace

TEST_CASE("ticks are the round numbers that fit") {
  for (const Row& row : kRows) {
    INFO(row.low << " to " << row.high << " in " << row.room << " pt, " << row.least << " apart");
    const Ticks t = ticks(row.low, row.high, Length::points(row.room), Length::points(row.least));
    REQUIRE(t.values.size() == row.expected.size());
    for (std::size_t i = 0; i < t.values.size(); ++i) CHECK(t.values[i] == row.expected[i]);
    CHECK(t.decimals == row.decimals);
  }
}

TEST_CASE("an axis can end on a tick") {
  CHECK(round_end(0, 76, Length::points(195), Length::points(30)) == 80);
  CHECK(round_end(0, 80, Length::points(195), Length::points(30)) == 80);
  CHECK(round_end(0, 80.0001, Length::points(195), Length::points(30)) == 100);
  CHECK(round_end(0, 0.57, Length::points(100), Length::points(30)) == Approx(0.6));
}

TEST_CASE("ticks keep their distance on any axis, and a closer round step would not") {
  std::mt19937 dice(1);
  std::uniform_real_distribution<double> mantissa(-100, 100), power(-3, 5), room_of(20, 600),
      least_of(8, 60);
  for (int i = 0; i < 5000; ++i) {
    const double low = mantissa(dice) * std::pow(10, power(dice));
    const double high = low + std::abs(mantissa(dice)) * std::pow(10, power(dice)) + 1e-6;
    const double room = room_of(dice), least = least_of(dice);
    const Ticks t = ticks(low, high, Length::points(room), Length::points(least));
    INFO(low << " to " << high << ", " << room << ", " << least);
    const double span = high - low, per_value = room / span;
    CHECK(t.step * per_value >= least * (1 - 1e-6));
    const double leading = t.step / std::pow(10, std::floor(std::log10(t.step) + 1e-9));
    CHECK((std::abs(leading - 1) < 1e-6 || std::abs(leading - 2) < 1e-6 ||
           std::abs(leading - 5) < 1e-6));
    // The next smaller round step is two fifths of a five, and half of a one or a two.
    CHECK(t.step * (std::abs(leading - 5) < 1e-6 ? 0.4 : 0.5) * per_value < least * (1 + 1e-6));
    for (std::size_t k = 0; k < t.values.size(); ++k) {
      CHECK(t.values[k] >= low - span * 1e-6);
      CHECK(t.values[k] <= high + span * 1e-6);
      if (k > 0) CHECK(t.values[k] - t.values[k - 1] == Approx(t.step));
    }
    if (span >= 2 * t.step) CHECK_FALSE(t.values.empty());
  }
}

TEST_CASE("scales lead there and back") {
  const Scale y{0, 80, 200, 10};
  CHECK(y(0) == 200);
  CHECK(y(80) == 10);
  CHECK(y(40) == Approx(105));
  CHECK(y.value_at(y(33.3)) == Approx(33.3));

  const TimeScale x{date_of(2026, 11, 1), date_of(2027, 2, 28), 20, 140};
  CHECK(x.days() == 120);
  CHECK(x(date_of(2026, 11, 1)) == 20);
  CHECK(x(date_of(2026, 12, 1)) == Approx(50));
  CHECK(x.end(date_of(2027, 2, 28)) == Approx(140));
  CHECK(x(LocalHour::at(date_of(2026, 11, 1), 12)) == Approx(20.5));
  CHECK_FALSE(x.holds(date_of(2027, 3, 1)));
}
