#include "charts/ticks.h"

#include <cmath>

namespace winterfolio {
namespace {

/// A step as a whole number times a power of ten, so that multiples of it carry no error.
struct Step {
  int unit = 1;   ///< 1, 2 or 5
  int power = 0;  ///< of ten
  double size() const { return unit * std::pow(10.0, power); }
  double times(double n) const {
    return power >= 0 ? n * unit * std::pow(10.0, power) : n * unit / std::pow(10.0, -power);
  }
};

/// The smallest round step that is not smaller than `least`.
Step step_at_least(double least) {
  const int power = static_cast<int>(std::floor(std::log10(least) + 1e-12));
  for (const int unit : {1, 2, 5}) {
    const Step step{unit, power};
    if (step.size() >= least * (1.0 - 1e-9)) return step;
  }
  return {1, power + 1};
}

Step step_for(double low, double high, Length room, Length least) {
  return step_at_least((high - low) * (least / room));
}

}  // namespace

Ticks ticks(double low, double high, Length room, Length least) {
  const Step step = step_for(low, high, room, least);
  Ticks out;
  out.step = step.size();
  out.decimals = step.power < 0 ? -step.power : 0;
  const double slack = 1e-9;
  const double first = std::ceil(low / out.step - slack);
  const double last = std::floor(high / out.step + slack);
  for (double n = first; n <= last; n += 1.0)
    out.values.push_back(step.times(n) + 0.0);  // no minus zero
  return out;
}

double round_end(double low, double high, Length room, Length least) {
  const Step step = step_for(low, high, room, least);
  return step.times(std::ceil(high / step.size() - 1e-9));
}

}  // namespace winterfolio
