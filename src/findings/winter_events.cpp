// Looks through the winter's hours for what else mattered.
#include "findings/winter_events.h"

#include <algorithm>
#include <deque>
#include <utility>

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

std::vector<NightLow> freezes_before_leaf_fall(std::span<const NightLow> nights, Date from,
                                               Date leaf_fall) {
  std::vector<NightLow> freezes;
  for (const NightLow& night : nights) {
    if (night.lowest > kHardFreeze + kLineSlack) continue;
    if (night.evening >= from && night.evening < leaf_fall) freezes.push_back(night);
  }
  return freezes;
}

std::optional<DormantCold> dormant_cold(const Tree& tree, const NightsAtTree& at,
                                        const Today& today, std::optional<Date> until) {
  const auto hardiness = dormant_hardiness(tree.species);
  if (!hardiness) return std::nullopt;
  const LocalHour from = today.winter.begin();
  const LocalHour end =
      until ? std::min(LocalHour::at(*until, 0), today.winter.end()) : today.winter.end();
  const NightLow* coldest = nullptr;
  for (const NightLow& night : at.nights->now) {
    if (night.at < from || night.at >= end) continue;
    if (!coldest || night.lowest < coldest->lowest) coldest = &night;
  }
  if (!coldest) return std::nullopt;
  const Celsius low = at_tree(coldest->lowest, at.frost_offset);
  if (low > hardiness->watch + kLineSlack) return std::nullopt;
  return DormantCold{*coldest, low, *hardiness,
                     hardiness->likely && low <= *hardiness->likely + kLineSlack};
}

namespace {

/// The lowest and the highest reading of a window that moves on hour by hour: each list holds the
/// hours that may still become the extreme, the extreme itself first.
class MovingExtremes {
 public:
  explicit MovingExtremes(const HourlySeries& hours) : hours_(&hours) {}
  void take(LocalHour hour) {
    const auto reading = hours_->at(hour);
    if (!reading) return;
    while (!lows_.empty() && lows_.back().second > reading->lowest) lows_.pop_back();
    lows_.emplace_back(hour, reading->lowest);
    while (!highs_.empty() && highs_.back().second < reading->mean) highs_.pop_back();
    highs_.emplace_back(hour, reading->mean);
  }
  void leave_before(LocalHour hour) {
    while (!lows_.empty() && lows_.front().first < hour) lows_.pop_front();
    while (!highs_.empty() && highs_.front().first < hour) highs_.pop_front();
  }
  /// Which came first says whether it fell or rose.
  std::optional<Swing> swing() const {
    if (lows_.empty()) return std::nullopt;
    const auto& [low_at, low] = lows_.front();
    const auto& [high_at, high] = highs_.front();
    return Swing{std::min(low_at, high_at), std::max(low_at, high_at), high - low};
  }

 private:
  const HourlySeries* hours_;
  std::deque<std::pair<LocalHour, Celsius>> lows_;
  std::deque<std::pair<LocalHour, Celsius>> highs_;
};

}  // namespace

std::vector<Swing> swings_after(const WeatherRecord& record, Date rest_ended, const Today& today) {
  std::vector<Swing> swings;
  const LocalHour first = LocalHour::at(rest_ended, 0) + 24;
  MovingExtremes extremes(record.hours);
  LocalHour earliest = first;  // hours before it belong to a swing already told
  for (LocalHour hour = first; hour < today.now; hour = hour + 1) {
    extremes.take(hour);
    extremes.leave_before(std::max(earliest, hour - (kSwingHours - 1)));
    const auto swing = extremes.swing();
    if (!swing || swing->by <= kGreatSwing) continue;
    // The air may go on falling or rising: of the two days that hold this swing or end with more of
    // it, the greatest counts.
    Swing greatest = *swing;
    const LocalHour until = std::min(swing->to + kSwingHours, today.now);
    for (LocalHour later = hour + 1; later < until; later = later + 1) {
      extremes.take(later);
      extremes.leave_before(std::max(earliest, later - (kSwingHours - 1)));
      const auto wider = extremes.swing();
      if (wider && wider->from < swing->to && wider->by > greatest.by) greatest = *wider;
    }
    swings.push_back(greatest);
    earliest = greatest.to + 1;
    hour = greatest.to;
    extremes = MovingExtremes(record.hours);
  }
  return swings;
}

OddSigns odd_signs(const Tree& tree, const Today& today, bool southern) {
  OddSigns odd;
  const Date spring = spring_buds_from(today.winter, southern);
  const Date autumn = MonthDay{unsigned{spring.month()} - 3U, 1}.in_year(int{spring.year()});
  const Date year_over = plus_days(autumn, 365);
  std::optional<Date> fallen;
  for (const Observation& seen : tree.observed) {
    if (!seen.on.day) continue;
    const Date on = seen.on.earliest();
    if (on < autumn || on > today.as_of || on >= year_over) continue;
    const bool flowers =
        seen.what == "first_bloom" || seen.what == "full_bloom" || seen.what == "petal_fall";
    if (flowers && on < spring) odd.bloom_out_of_season = on;
    if (seen.what == "leaves_held" && on >= spring) odd.leaves_held = on;
    if (seen.what == "leaves_fallen") fallen = on;
  }
  if (odd.leaves_held && fallen && *fallen >= *odd.leaves_held) odd.leaves_held.reset();
  return odd;
}

}  // namespace winterfolio
