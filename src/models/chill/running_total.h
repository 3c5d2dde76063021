// Adding up one measure hour by hour: the state it leaves, so that a winter can be run on from
// today, and its curve.
#pragma once

#include <algorithm>
#include <span>
#include <vector>

#include "base/units.h"
#include "models/chill/known_hours.h"

namespace winterfolio {

/// Where one measure stands after the last hour counted: enough to run on from.
struct ChillState {
  double total = 0.0;    ///< in the measure's own units
  double carried = 0.0;  ///< Dynamic Model: the intermediate x; daily positive Utah: units of the
                         ///< day begun; otherwise 0
};

/// A measure at work: runs `state` on over `hours`, which must begin where the state stands. A
/// missing hour adds nothing and leaves the state as it is. `curve` takes the total after each
/// hour, missing ones included; it may be empty. Requires: curve is empty or has hours.hours()
/// values.
using RunOn = void (*)(const KnownHours& hours, ChillState& state, std::span<double> curve);

/// The loop that all measures share: `add_hour(celsius, place)` changes `total`; the curve follows
/// it.
template <typename AddHour>
void run_over(const KnownHours& hours, const double& total, std::span<double> curve,
              AddHour add_hour) {
  const std::span<const double> celsius = hours.celsius();
  const std::span<const std::int32_t> place = hours.place();
  if (curve.empty()) {
    for (std::size_t i = 0; i < celsius.size(); ++i) add_hour(celsius[i], place[i]);
    return;
  }
  auto next = curve.begin();
  for (std::size_t i = 0; i < celsius.size(); ++i) {
    std::fill(next, curve.begin() + place[i], total);
    add_hour(celsius[i], place[i]);
    curve[static_cast<std::size_t>(place[i])] = total;
    next = curve.begin() + place[i] + 1;
  }
  std::fill(next, curve.end(), total);
}

/// A measure's running total from nought, one value for each hour of [from, to).
template <ChillMeasure M>
std::vector<Chill<M>> running_total(RunOn run_on, const HourlySeries& series, LocalHour from,
                                    LocalHour to) {
  const KnownHours hours(series, from, to);
  std::vector<double> curve(static_cast<std::size_t>(hours.hours()));
  ChillState state;
  run_on(hours, state, curve);
  std::vector<Chill<M>> typed;
  typed.reserve(curve.size());
  for (const double total : curve) typed.emplace_back(total);
  return typed;
}

}  // namespace winterfolio
