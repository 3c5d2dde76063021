// The Dynamic Model against numerical integration done elsewhere and by a library of numerical
// methods.
#include <gsl/gsl_errno.h>
#include <gsl/gsl_odeiv2.h>

#include "models/chill/portions.h"
#include "models/chill/tally.h"
#include "support/catch.h"
#include "support/files.h"
#include "support/winters.h"

using namespace winterfolio;
using namespace winterfolio::test;

namespace {

const LocalHour kStart = LocalHour::at(date_of(2024, 11, 1), 0);

std::vector<ChillPortions> portions_of(const std::vector<double>& celsius) {
  const HourlySeries series = series_of(kStart, celsius);
  return portions_running_total(series, series.first(), series.end());
}

/// dx/dt = k0 - k1 x with the constants as printed with the published checks, not taken from the
/// program.
int intermediate(double, const double x[], double dxdt[], void* celsius) {
  const double kelvin = *static_cast<double*>(celsius) + 273.0;
  dxdt[0] = 139500.0 * std::exp(-4153.5 / kelvin) - 2.567e18 * std::exp(-12888.8 / kelvin) * x[0];
  return GSL_SUCCESS;
}

class Integrator {
 public:
  Integrator() : system_{intermediate, nullptr, 1, &celsius_} {
    driver_ = gsl_odeiv2_driver_alloc_y_new(&system_, gsl_odeiv2_step_rk8pd, 0.1, 1e-13, 1e-13);
  }
  ~Integrator() { gsl_odeiv2_driver_free(driver_); }
  Integrator(const Integrator&) = delete;
  Integrator& operator=(const Integrator&) = delete;

  /// One hour at a temperature; returns the portion banked at its end.
  double hour(double celsius) {
    celsius_ = celsius;
    double t = 0.0;
    gsl_odeiv2_driver_reset(driver_);
    REQUIRE(gsl_odeiv2_driver_apply(driver_, &t, 1.0, &x_) == GSL_SUCCESS);
    if (x_ < 1.0) return 0.0;
    const double kelvin = celsius + 273.0;
    const double sr = std::exp(1.6 * 277.0 * (kelvin - 277.0) / kelvin);
    const double banked = x_ * sr / (1.0 + sr);
    x_ *= 1.0 - sr / (1.0 + sr);
    return banked;
  }
  double x() const { return x_; }

 private:
  double celsius_ = 0.0;
  double x_ = 0.0;
  gsl_odeiv2_system system_;
  gsl_odeiv2_driver* driver_ = nullptr;
};

}  // namespace

TEST_CASE("portions at constant temperature agree with the integrated table") {
  int rows = 0;
  for (const CsvRow row : published("portions_constant_temperature.csv")) {
    const double celsius = row.required_number("temp_C");
    INFO(celsius << " °C");
    const DynamicHour hour = dynamic_hour(Celsius(celsius));
    const double k1 = -std::log(hour.kept);
    CHECK_THAT(k1, WithinAbs(row.required_number("k1_per_h"), 5e-9));
    CHECK_THAT(hour.steady * k1, WithinAbs(row.required_number("k0_per_h"), 5e-9));
    CHECK_THAT(hour.steady, WithinAbs(row.required_number("xs"), 5e-7));
    CHECK_THAT(hour.banked, WithinAbs(row.required_number("xi"), 5e-9));
    const auto total = portions_of(std::vector<double>(2400, celsius));
    CHECK_THAT(total[999].amount(), WithinAbs(row.required_number("portions_1000h"), 5e-7));
    CHECK_THAT(total[2399].amount(), WithinAbs(row.required_number("portions_2400h"), 5e-7));
    std::size_t first = 0;
    while (first < total.size() && total[first].amount() == 0.0) ++first;
    const auto expected = row.number("first_transfer_hour");
    if (!expected) {
      CHECK(first == total.size());
    } else {
      CHECK(first + 1 == static_cast<std::size_t>(*expected));
      CHECK_THAT(total[first].amount(),
                 WithinAbs(row.required_number("amount_first_transfer"), 5e-7));
    }
    ++rows;
  }
  CHECK(rows == 20);
}

TEST_CASE("portions of daily cycles agree with the integrated table") {
  int rows = 0;
  for (const CsvRow row : published("portions_daily_cycles.csv")) {
    std::vector<double> celsius;
    for (int day = 0; day < static_cast<int>(row.required_number("days")); ++day) {
      celsius.insert(celsius.end(),
                     static_cast<std::size_t>(row.required_number("hours_cold_per_day")),
                     row.required_number("cold_C"));
      celsius.insert(celsius.end(),
                     static_cast<std::size_t>(row.required_number("hours_warm_per_day")),
                     row.required_number("warm_C"));
    }
    INFO(row.text("hours_cold_per_day")
         << " h at " << row.text("cold_C") << ", then " << row.text("warm_C"));
    CHECK_THAT(portions_of(celsius).back().amount(),
               WithinAbs(row.required_number("portions"), 1e-6));
    ++rows;
  }
  CHECK(rows == 39);
}

TEST_CASE("the intermediate at 6 °C, hour by hour") {
  // Source: Runge-Kutta integration with the constants of Fishman et al. 1987 (from memory);
  // computed elsewhere.
  const std::vector<double> expected = {0.047247, 0.093457, 0.138651, 0.182852, 0.226083};
  ChillState state;
  const DynamicHour hour = dynamic_hour(Celsius(6.0));
  for (int i = 0; i < 29; ++i) {
    state = run_on_dynamic(std::span(&hour, 1), state);
    if (i < 5) CHECK_THAT(state.carried, WithinAbs(expected[static_cast<std::size_t>(i)], 5e-7));
    if (i == 27) CHECK_THAT(state.carried, WithinAbs(0.996039, 5e-7));
  }
  CHECK_THAT(state.total, WithinAbs(0.980512, 5e-7));
  CHECK_THAT(state.carried, WithinAbs(0.040895, 5e-7));
}

TEST_CASE("warmth undoes the intermediate by level and length") {
  // Source: as above; x = 0.771475 after 20 h at 6 °C.
  struct Case {
    double celsius;
    int hours;
    double left;
  };
  for (const Case& c : {Case{20, 4, 0.61098}, Case{20, 8, 0.53942}, Case{24, 4, 0.42669},
                        Case{24, 8, 0.34668}, Case{13, 4, 0.82635}}) {
    std::vector<double> celsius(20, 6.0);
    celsius.insert(celsius.end(), static_cast<std::size_t>(c.hours), c.celsius);
    const HourlySeries series = series_of(kStart, celsius);
    const ChillCurve curve =
        chill_curve(ChillMeasure::portions, series, series.first(), series.end());
    INFO(c.hours << " h at " << c.celsius);
    CHECK_THAT(curve.end_state().carried, WithinAbs(c.left, 5e-6));
  }
}

TEST_CASE("portions of random winters agree with a library's integrator within 1e-9 an hour") {
  // Independent: GNU Scientific Library, Prince-Dormand 8th order, tolerance 1e-13.
  for (std::uint64_t seed = 1; seed <= 220; ++seed) {
    const std::vector<double> celsius = random_weather(seed, 120 * 24, 6.0, seed % 2 == 0);
    const auto total = portions_of(celsius);
    Integrator integrator;
    double worst = 0.0;
    double before = 0.0;
    for (std::size_t i = 0; i < celsius.size(); ++i) {
      worst = std::max(worst, std::abs(total[i].amount() - before - integrator.hour(celsius[i])));
      before = total[i].amount();
    }
    INFO("seed " << seed << ", worst hour " << worst);
    REQUIRE(worst < 1e-9);
  }
}

TEST_CASE(
    "both ways of running the Dynamic Model agree, and a winter can be run on from any hour") {
  const std::vector<double> celsius = random_weather(7, 3000);
  const HourlySeries series = series_of(kStart, celsius);
  const KnownHours all(series, series.first(), series.end());
  const ChillState whole = run_on_dynamic(dynamic_hours(all), {});
  CHECK_THAT(portions_of(celsius).back().amount(), WithinAbs(whole.total, 1e-12));
  for (const std::int32_t cut : {0, 1, 29, 700, 2999, 3000}) {
    const auto first = tally_chill(series, series.first(), series.first() + cut);
    const auto both = tally_chill(series, series.first() + cut, series.end(), first);
    CHECK_THAT(both.total<ChillMeasure::portions>().amount(), WithinAbs(whole.total, 1e-12));
    CHECK_THAT(both.state(ChillMeasure::portions).carried, WithinAbs(whole.carried, 1e-12));
  }
}
