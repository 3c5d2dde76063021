// First named wins; differences are counted.
#include "weather/join_series.h"

#include <algorithm>
#include <cmath>

namespace winterfolio {

SharedHours join_series(HourlySeries& first, const HourlySeries& second) {
  constexpr double kSame = 0.05 + 1e-9;  // half a printed tenth
  SharedHours result;
  for (LocalHour hour = second.first(); hour < second.end(); hour = hour + 1) {
    const auto theirs = second.at(hour);
    if (!theirs) continue;
    const auto ours = first.at(hour);
    if (!ours) {
      first.set(hour, *theirs);
      ++result.added;
      continue;
    }
    const double difference = std::abs(ours->mean.degrees() - theirs->mean.degrees());
    ++result.shared;
    result.differing += difference > kSame;
    result.largest = std::max(result.largest, difference);
  }
  return result;
}

}  // namespace winterfolio
