// Keeps consecutive hours, missing ones included, and bridges short holes.
#include "weather/hourly_series.h"

#include <algorithm>

namespace winterfolio {

void HourlySeries::set(LocalHour hour, HourReading reading) {
  if (empty()) first_ = hour;
  if (const std::int32_t before = first_ - hour; before > 0) {
    const auto count = static_cast<std::size_t>(before);
    mean_.insert(mean_.begin(), count, 0.0);
    lowest_below_mean_.insert(lowest_below_mean_.begin(), count, 0.0F);
    origin_.insert(origin_.begin(), count, HourOrigin::missing);
    first_ = hour;
  }
  const auto i = static_cast<std::size_t>(hour - first_);
  const double mean = reading.mean.degrees();
  const auto below = static_cast<float>(std::max(0.0, mean - reading.lowest.degrees()));
  if (i == mean_.size()) {
    mean_.push_back(mean);
    lowest_below_mean_.push_back(below);
    origin_.push_back(reading.origin);
    return;
  }
  if (i > mean_.size()) {
    mean_.resize(i + 1, 0.0);
    lowest_below_mean_.resize(i + 1, 0.0F);
    origin_.resize(i + 1, HourOrigin::missing);
  }
  mean_[i] = mean;
  lowest_below_mean_[i] = below;
  origin_[i] = reading.origin;
}

void HourlySeries::clear(LocalHour hour) {
  const std::int32_t offset = hour - first_;
  if (offset < 0 || offset >= size()) return;
  const auto i = static_cast<std::size_t>(offset);
  mean_[i] = 0.0;
  lowest_below_mean_[i] = 0.0F;
  origin_[i] = HourOrigin::missing;
}

std::int32_t HourlySeries::missing_in(LocalHour from, LocalHour to) const {
  if (to <= from) return 0;
  const LocalHour inside_from = std::max(from, first_);
  const LocalHour inside_to = std::min(to, end());
  std::int32_t known = 0;
  if (inside_from < inside_to) {
    const auto a = origin_.begin() + (inside_from - first_);
    const auto b = origin_.begin() + (inside_to - first_);
    known = static_cast<std::int32_t>((b - a) - std::count(a, b, HourOrigin::missing));
  }
  return (to - from) - known;
}

std::int32_t HourlySeries::count_in(LocalHour from, LocalHour to, HourOrigin origin) const {
  if (origin == HourOrigin::missing) return missing_in(from, to);
  const LocalHour inside_from = std::max(from, first_);
  const LocalHour inside_to = std::min(to, end());
  if (inside_to <= inside_from) return 0;
  return static_cast<std::int32_t>(std::count(origin_.begin() + (inside_from - first_),
                                              origin_.begin() + (inside_to - first_), origin));
}

void HourlySeries::reserve(std::int32_t hours) {
  const auto count = static_cast<std::size_t>(std::max(hours, 0));
  mean_.reserve(count);
  lowest_below_mean_.reserve(count);
  origin_.reserve(count);
}

std::int32_t fill_short_gaps(HourlySeries& series, std::int32_t longest) {
  std::int32_t filled = 0;
  std::optional<Celsius> before;
  std::int32_t hole = 0;
  for (LocalHour hour = series.first(); hour < series.end(); hour = hour + 1) {
    const auto here = series.at(hour);
    if (!here) {
      ++hole;
      continue;
    }
    if (before && hole > 0 && hole <= longest) {
      const double from = before->degrees();
      const double rise = here->mean.degrees() - from;
      for (std::int32_t k = 1; k <= hole; ++k) {
        const Celsius on_line(from + rise * k / (hole + 1));
        series.set(hour - (hole + 1 - k), {on_line, on_line, HourOrigin::line});
        ++filled;
      }
    }
    before = here->mean;
    hole = 0;
  }
  return filled;
}

}  // namespace winterfolio
