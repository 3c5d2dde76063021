// The least that the chill of one winter costs: chilling hours, Utah units and chill portions of so
// many made-up hours in one straight loop, every exponential worked out anew. No series, no
// coverage, no checks. What the program spends above this is its own.
//
//   bare_models HOURS
//
// Equations and constants: Fishman, Erez & Couvillon 1987 (temperatures over 273 K); steps:
// Richardson, Seeley & Walker 1974. A yardstick of work, not a reference for values.
#include <cmath>
#include <cstdint>
#include <cstdio>
#include <cstdlib>

namespace {

/// The sum of the two-step model: an intermediate that warmth undoes, and portions that stay.
class Portions {
 public:
  void hour(double celsius) {
    const double kelvin = celsius + 273.0;
    const double steady = 139500.0 / 2.567e18 * std::exp((12888.8 - 4153.5) / kelvin);
    const double kept = std::exp(-2.567e18 * std::exp(-12888.8 / kelvin));
    const double slope = std::exp(1.6 * 277.0 * (kelvin - 277.0) / kelvin);
    const double fixed = slope / (1.0 + slope);
    const double start =
        intermediate_ < 1.0 ? intermediate_ : intermediate_ * (1.0 - fixed_before_);
    intermediate_ = steady - (steady - start) * kept;
    fixed_before_ = fixed;
    if (intermediate_ >= 1.0) sum_ += intermediate_ * fixed;
  }
  double sum() const { return sum_; }

 private:
  double intermediate_ = 0.0, fixed_before_ = 0.0, sum_ = 0.0;
};

double utah(double celsius) {
  struct Step {
    double below, units;
  };
  constexpr Step kSteps[] = {{1.45, 0.0},  {2.45, 0.5},  {9.15, 1.0},
                             {12.45, 0.5}, {15.95, 0.0}, {18.05, -0.5}};
  for (const Step& step : kSteps)
    if (celsius < step.below) return step.units;
  return -1.0;
}

/// Winter air by the tenth of a degree, wandering about 8 °C.
class Air {
 public:
  double next() {
    state_ = state_ * 6364136223846793005ULL + 1442695040888963407ULL;
    const double step = static_cast<double>(state_ >> 40) / 16777216.0 - 0.5;
    wander_ = 0.97 * wander_ + 2.0 * step;
    return static_cast<double>(std::lround(10.0 * (8.0 + 5.0 * wander_))) / 10.0;
  }

 private:
  std::uint64_t state_ = 1;
  double wander_ = 0.0;
};

}  // namespace

int main(int argc, char** argv) {
  const long hours = argc == 2 ? std::atol(argv[1]) : 0;
  if (hours < 1) return std::fprintf(stderr, "usage: bare_models HOURS\n"), 2;
  Air air;
  Portions portions;
  double units = 0.0;
  long cold = 0;
  for (long hour = 0; hour < hours; ++hour) {
    const double celsius = air.next();
    if (celsius >= 0.0 && celsius <= 7.2) ++cold;
    units += utah(celsius);
    portions.hour(celsius);
  }
  std::printf("hours %ld, chilling hours %ld, Utah units %.1f, portions %.2f\n", hours, cold, units,
              portions.sum());
  return 0;
}
