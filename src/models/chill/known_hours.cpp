// Picks the known hours out of a series, once, for all measures.
#include "models/chill/known_hours.h"

#include <algorithm>

namespace winterfolio {

KnownHours::KnownHours(const HourlySeries& series, LocalHour from, LocalHour to)
    : from_(from), to_(std::max(from, to)) {
  if (series.empty()) return;
  const LocalHour begin = std::max(from_, series.first());
  const LocalHour end = std::min(to_, series.end());
  if (end <= begin) return;
  celsius_.reserve(static_cast<std::size_t>(end - begin));
  place_.reserve(static_cast<std::size_t>(end - begin));
  for (LocalHour hour = begin; hour < end; hour = hour + 1) {
    const auto reading = series.at(hour);
    if (!reading) continue;
    celsius_.push_back(reading->mean.degrees());
    place_.push_back(hour - from_);
  }
}

KnownHours KnownHours::warmer_by(CelsiusDelta delta) const {
  KnownHours warmer = *this;
  for (double& celsius : warmer.celsius_) celsius += delta.degrees();
  return warmer;
}

}  // namespace winterfolio
