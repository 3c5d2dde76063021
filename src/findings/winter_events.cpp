// Looks through the winter's hours for what else mattered.
#include "findings/winter_events.h"

#include <algorithm>

namespace winterfolio {

WarmHours warm_hours(const WeatherRecord& record, const WinterChill& chill) {
  WarmHours warm;
  const LocalHour from = chill.today.winter.begin();
  for (LocalHour hour = from; hour < chill.today.counted_to(); hour = hour + 1) {
    const auto reading = record.hours.at(hour);
    warm.hours += reading && reading->mean > kWarmLine + kLineSlack ? 1 : 0;
  }
  for (const MeasuredChill& measured : chill.measures) {
    if (!chill_model(measured.measure).can_fall) continue;
    double taken = 0.0;
    double before = 0.0;
    for (const double total : measured.curve.by_hour()) {
      taken += std::max(0.0, before - total);
      before = total;
    }
    warm.losses.push_back({measured.measure, taken});
  }
  return warm;
}

std::vector<NightLow> freezes_before_leaf_fall(const WeatherRecord& record, Date from,
                                               Date leaf_fall) {
  std::vector<NightLow> freezes = night_lows(record, from, plus_days(leaf_fall, -1));
  std::erase_if(freezes,
                [](const NightLow& night) { return night.lowest > kHardFreeze + kLineSlack; });
  return freezes;
}

std::optional<DormantCold> dormant_cold(const Tree& tree, const Orchard& orchard,
                                        const WeatherRecord& record, const Today& today) {
  const auto hardiness = dormant_hardiness(tree.species);
  if (!hardiness) return std::nullopt;
  const std::vector<NightLow> nights =
      night_lows(record, today.winter.from, plus_days((today.counted_to() - 1).date(), -1));
  const auto coldest =
      std::min_element(nights.begin(), nights.end(),
                       [](const NightLow& a, const NightLow& b) { return a.lowest < b.lowest; });
  if (coldest == nights.end()) return std::nullopt;
  const Celsius low = at_tree(tree, orchard, coldest->lowest);
  if (low > hardiness->watch + kLineSlack) return std::nullopt;
  return DormantCold{*coldest, low, *hardiness,
                     hardiness->likely && low <= *hardiness->likely + kLineSlack};
}

std::vector<Swing> swings_after(const WeatherRecord& record, Date rest_ended, const Today& today) {
  std::vector<Swing> swings;
  LocalHour window = LocalHour::at(rest_ended, 0) + 24;
  while (window < today.now) {
    std::optional<Swing> greatest;
    const LocalHour end = std::min(window + kSwingHours, today.now);
    // The lowest and the highest of two days; which came first says whether it fell or rose.
    std::optional<LocalHour> low;
    std::optional<LocalHour> high;
    for (LocalHour hour = window; hour < end; hour = hour + 1) {
      const auto reading = record.hours.at(hour);
      if (!reading) continue;
      if (!low || reading->lowest < record.hours.at(*low)->lowest) low = hour;
      if (!high || reading->mean > record.hours.at(*high)->mean) high = hour;
    }
    if (low && high) {
      const CelsiusDelta by = record.hours.at(*high)->mean - record.hours.at(*low)->lowest;
      if (by > kGreatSwing) greatest = Swing{std::min(*low, *high), std::max(*low, *high), by};
    }
    if (greatest) {
      swings.push_back(*greatest);
      window = greatest->to + 1;
    } else {
      window = window + 1;
    }
  }
  return swings;
}

}  // namespace winterfolio
