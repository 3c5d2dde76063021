// The uncommon readings: first of an hour, out of order, told twice, impossible, far from its
// neighbours.
#include "readers/temperature/hour_collector.h"

#include <algorithm>
#include <bit>
#include <cmath>
#include <cstdlib>

namespace winterfolio {
namespace {

constexpr std::int64_t kNeighbourSeconds = 5400;  ///< a spike's neighbours are no farther than this

constexpr double kIcePoint = 273'150'000'000'000.0;  ///< 0 °C in kelvin, as parts

double to_celsius(double sum, double count, TemperatureUnit unit) {
  const double in_unit = sum / (count * static_cast<double>(kPartsPerDegree));
  switch (unit) {
    case TemperatureUnit::celsius:
      return in_unit;
    case TemperatureUnit::fahrenheit:
      return Celsius::from_fahrenheit(in_unit).degrees();
    // 273.15 is taken off in whole parts, so that 280.35 K is 7.2 °C to the last digit.
    case TemperatureUnit::kelvin:
      return (sum - count * kIcePoint) / (count * static_cast<double>(kPartsPerDegree));
  }
  return in_unit;
}

bool far_the_same_way(double value, double before, double after, double limit) {
  return (value - before > limit && value - after > limit) ||
         (before - value > limit && after - value > limit);
}

}  // namespace

PartsLimits PartsLimits::of(TemperatureUnit unit) {
  const QualityThresholds& limits = quality_thresholds();
  const auto parts = [&](Celsius t) {
    switch (unit) {
      case TemperatureUnit::celsius:
        return parts_of(t.degrees());
      case TemperatureUnit::fahrenheit:
        return parts_of(t.fahrenheit());
      case TemperatureUnit::kelvin:
        return parts_of(t.degrees() + 273.15);
    }
    return parts_of(t.degrees());
  };
  const double scale = unit == TemperatureUnit::fahrenheit ? 1.8 : 1.0;
  return {parts(limits.impossible_below), parts(limits.impossible_above),
          parts_of(limits.spike.degrees() * scale)};
}

HourCollector::Cell* HourCollector::cell(std::int64_t hour, bool make) {
  const std::int64_t offset = hour - kFirstHour;
  if (offset < 0) return nullptr;
  const auto chunk = static_cast<std::size_t>(offset / kChunkHours);
  if (chunk >= chunks_.size()) {
    if (!make) return nullptr;
    chunks_.resize(chunk + 1);
  }
  if (!chunks_[chunk]) {
    if (!make) return nullptr;
    chunks_[chunk] = std::make_unique<Chunk>(static_cast<std::size_t>(kChunkHours));
  }
  return &(*chunks_[chunk])[static_cast<std::size_t>(offset % kChunkHours)];
}

void HourCollector::close() {
  if (open_.count == 0) return;
  if (floor_hour(last_seconds_) == open_hour_) note_bounds(last_seconds_);
  *cell(open_hour_, true) = open_;
  open_ = Cell{};
}

void HourCollector::open(std::int64_t hour) {
  close();
  open_hour_ = hour;
  open_start_ = hour * 3600;
  const Cell* known = cell(hour, false);
  open_ = known ? *known : Cell{};
}

bool HourCollector::is_told(std::int64_t seconds, std::int64_t parts, std::int64_t line,
                            std::uint64_t minute) {
  bool told = false;
  bool differs = false;
  if (held_ && held_->seconds == seconds) {
    told = true;
    differs = held_->parts != parts;
  } else if ((open_.minutes & minute) != 0) {
    // Two stamps within one minute are two readings, unless that minute is being told again as a
    // whole.
    const bool same_minute =
        seconds != last_seconds_ && seconds - seconds % 60 == last_seconds_ - last_seconds_ % 60;
    told = !same_minute || last_was_told_;
    differs =
        seconds == last_seconds_ ? parts != last_parts_ : open_.count == 1 && open_.sum != parts;
  }
  if (!told) return false;
  if (duplicates_++ == 0) first_duplicate_ = {line, parts};
  differing_ += differs;
  return true;
}

void HourCollector::note_step(std::int64_t seconds) {
  if (last_seconds_ == kNone) return;
  constexpr int kInUse = 6;
  const std::int64_t step = seconds - last_seconds_;
  walked_ += static_cast<double>(std::abs(step));
  backward_ += step < 0;
  if (step != candidate_step_) {
    candidate_step_ = step;
    candidate_count_ = 0;
  }
  if (++candidate_count_ < kInUse) return;
  step_ = step;
  const int minutes = static_cast<int>(std::abs(step) / 60);
  if (steps_minutes_.empty() || steps_minutes_.back() != minutes) {
    constexpr std::size_t kMostKept = 32;
    if (steps_minutes_.size() < kMostKept) steps_minutes_.push_back(minutes);
  }
}

void HourCollector::note_impossible(std::int64_t parts, std::int64_t line) {
  if (impossible_++ == 0) first_impossible_ = {line, parts};
  impossible_high_ += parts > limits_.impossible_above && parts <= 140 * kPartsPerDegree;
  impossible_kelvin_ += parts >= 190 * kPartsPerDegree && parts <= 335 * kPartsPerDegree;
}

/// A reading that jumped away waits for the next one: if that comes back, it was a spike, else it
/// counts.
void HourCollector::settle_held(std::int64_t seconds, std::int64_t parts) {
  const Held held = *held_;
  held_.reset();
  const bool near = std::abs(seconds - held.seconds) <= kNeighbourSeconds;
  if (near && far_the_same_way(static_cast<double>(held.parts), static_cast<double>(last_parts_),
                               static_cast<double>(parts), static_cast<double>(limits_.spike))) {
    if (spikes_++ == 0) first_spike_ = {held.line, held.parts};
    return;
  }
  const std::int64_t back_to = open_hour_;
  const std::int64_t hour = floor_hour(held.seconds);
  if (hour != open_hour_) open(hour);
  take(held.seconds, held.parts,
       std::uint64_t{1} << static_cast<unsigned>((held.seconds - hour * 3600) / 60), held.line);
  if (back_to != open_hour_) open(back_to);
}

bool HourCollector::admit(std::int64_t seconds, std::int64_t parts, std::int64_t line,
                          std::uint64_t minute) {
  if (parts < limits_.impossible_below || parts > limits_.impossible_above) {
    note_impossible(parts, line);
    return false;
  }
  if (is_told(seconds, parts, line, minute)) {
    last_was_told_ = true;
    return false;
  }
  if (held_) settle_held(seconds, parts);
  if (seconds - last_seconds_ != step_) note_step(seconds);
  const bool near =
      last_seconds_ != kNone && std::abs(seconds - last_seconds_) <= kNeighbourSeconds;
  if (near && std::abs(parts - last_parts_) > limits_.spike) {
    held_ = Held{seconds, parts, line};
    return false;
  }
  return true;
}

void HourCollector::finish() {
  // Nothing came after it: there is no telling, so it counts.
  if (held_) settle_held(kNone, 0);
  close();
  open_hour_ = kNone;
  open_start_ = kNone;
}

void HourCollector::note_resolution(std::int64_t parts) {
  const std::int64_t rest = std::abs(parts) % kPartsPerDegree;
  any_finer_ = any_finer_ || rest % (kPartsPerDegree / 10) != 0;
  any_tenths_ = any_tenths_ || rest != 0;
  any_units_not_half_ = any_units_not_half_ || rest % (kPartsPerDegree / 2) != 0;
}

double HourCollector::resolution() const {
  if (any_finer_) return 0.01;
  if (any_units_not_half_) return 0.1;
  return any_tenths_ ? 0.5 : 1.0;
}

double HourCollector::share_between_30_and_70() const {
  struct Half {
    std::int64_t hours = 0;
    std::int64_t between = 0;
    double sum = 0.0;
  };
  Half november_on;
  Half may_on;
  Half all;
  for (std::size_t c = 0; c < chunks_.size(); ++c) {
    if (!chunks_[c]) continue;
    for (std::size_t i = 0; i < chunks_[c]->size(); ++i) {
      const Cell& cell = (*chunks_[c])[i];
      if (cell.count == 0) continue;
      const double mean =
          static_cast<double>(cell.sum) / (cell.count * static_cast<double>(kPartsPerDegree));
      const auto hour = static_cast<std::int32_t>(
          kFirstHour + static_cast<std::int64_t>(c) * kChunkHours + static_cast<std::int64_t>(i));
      const unsigned month = unsigned{LocalHour(hour).date().month()};
      const auto count = [&](Half& half) {
        ++half.hours;
        half.between += mean >= 30.0 && mean <= 70.0;
        half.sum += mean;
      };
      count(all);
      if (month >= 11 || month <= 2) count(november_on);
      if (month >= 5 && month <= 8) count(may_on);
    }
  }
  // The cooler of the two is the winter, on whichever side of the equator.
  const Half* winter = &all;
  if (november_on.hours > 0 && may_on.hours > 0) {
    const bool north = november_on.sum / static_cast<double>(november_on.hours) <=
                       may_on.sum / static_cast<double>(may_on.hours);
    winter = north ? &november_on : &may_on;
  } else if (november_on.hours > 0) {
    winter = &november_on;
  } else if (may_on.hours > 0) {
    winter = &may_on;
  }
  return winter->hours == 0
             ? 0.0
             : static_cast<double>(winter->between) / static_cast<double>(winter->hours);
}

HourlySeries HourCollector::series(TemperatureUnit unit, std::int32_t shift_hours) {
  HourlySeries series;
  if (readings_ == 0) return series;
  const std::int64_t first = floor_hour(first_seconds_);
  const std::int64_t last = floor_hour(greatest_seconds_);
  series.reserve(static_cast<std::int32_t>(last - first + 1));
  const auto limit = static_cast<double>(limits_.spike);
  const auto mean = [](const Cell* c) {
    return static_cast<double>(c->sum) / static_cast<double>(c->count);
  };
  const auto known = [](Cell* c) { return c != nullptr && c->count > 0 ? c : nullptr; };
  const Cell* before = nullptr;
  Cell* here = known(cell(first, false));
  for (std::int64_t hour = first; hour <= last; ++hour) {
    Cell* const after = known(cell(hour + 1, false));
    bool spike = false;
    if (here && here->count > 1 && before && after) {
      spike = far_the_same_way(mean(here), mean(before), mean(after), limit);
    }
    if (spike) {
      if (spikes_ == 0) first_spike_ = {here->line, here->sum / here->count};
      spikes_ += here->count;
      readings_ -= here->count;
      here->count = 0;
    } else if (here) {
      const Celsius t(
          to_celsius(static_cast<double>(here->sum), static_cast<double>(here->count), unit));
      const Celsius lowest(to_celsius(static_cast<double>(here->lowest), 1.0, unit));
      series.set(LocalHour(static_cast<std::int32_t>(hour) + shift_hours),
                 {t, std::min(t, lowest), HourOrigin::observed});
    }
    before = spike ? nullptr : here;
    here = after;
  }
  return series;
}

std::int64_t HourCollector::line_of(LocalHour hour) const {
  const Cell* c = cell(hour.hours_since_1970());
  return c == nullptr ? 0 : c->line;
}

}  // namespace winterfolio
