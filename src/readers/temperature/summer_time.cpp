// Looks at the lone holes of a file.
#include "readers/temperature/summer_time.h"

#include <algorithm>
#include <vector>

#include "base/dates.h"

namespace winterfolio {
namespace {

constexpr std::int32_t kWholeAround = 6;  // hours on either side that must be there

bool whole_around(const HourlySeries& hours, LocalHour hole) {
  return hours.missing_in(hole - kWholeAround, hole) == 0 &&
         hours.missing_in(hole + 1, hole + 1 + kWholeAround) == 0;
}

std::vector<LocalHour> lone_holes(const HourlySeries& hours) {
  std::vector<LocalHour> holes;
  for (LocalHour hour = hours.first(); hour < hours.end(); hour = hour + 1) {
    if (!hours.at(hour) && whole_around(hours, hour)) holes.push_back(hour);
  }
  return holes;
}

/// The hours that a zone's clocks skip within the series, where the hours about them are known.
std::vector<LocalHour> skipped_hours(const HourlySeries& hours, const TimeZone& zone,
                                     std::int32_t earlier) {
  std::vector<LocalHour> skipped;
  const std::int64_t end = std::int64_t{hours.end().hours_since_1970()} * 3600;
  for (std::int64_t at = std::int64_t{hours.first().hours_since_1970()} * 3600; at < end;) {
    const TimeZone::Stretch stretch = zone.stretch_at(at);
    if (stretch.kind == TimeZone::Stretch::Kind::skipped && stretch.to - stretch.from == 3600 &&
        stretch.from % 3600 == 0) {
      const auto hour = LocalHour(static_cast<std::int32_t>(stretch.from / 3600)) - earlier;
      if (whole_around(hours, hour)) skipped.push_back(hour);
    }
    if (stretch.to <= at) break;
    at = stretch.to;
  }
  return skipped;
}

bool is_night_of_change(LocalHour hour) {
  const Date date = hour.date();
  const unsigned month = unsigned{date.month()};
  const bool in_season = month == 3 || month == 4 || month == 9 || month == 10;
  return in_season && hour.hour_of_day() < 4 &&
         std::chrono::weekday{std::chrono::sys_days{date}} == std::chrono::Sunday;
}

}  // namespace

std::optional<LocalHour> hour_skipped_in_spring(const HourlySeries& hours,
                                                const std::optional<TimeZone>& zone, bool ends) {
  const std::vector<LocalHour> holes = lone_holes(hours);
  if (holes.empty()) return std::nullopt;
  if (zone) {
    const std::vector<LocalHour> skipped = skipped_hours(hours, *zone, ends ? 1 : 0);
    const auto is_hole = [&](LocalHour hour) { return !hours.at(hour); };
    if (skipped.empty() || !std::all_of(skipped.begin(), skipped.end(), is_hole))
      return std::nullopt;
    return skipped.front();
  }
  const auto of_change = std::count_if(holes.begin(), holes.end(),
                                       [](LocalHour hole) { return is_night_of_change(hole); });
  if (of_change == 0 || 2 * of_change < static_cast<std::ptrdiff_t>(holes.size()))
    return std::nullopt;
  return *std::find_if(holes.begin(), holes.end(), is_night_of_change);
}

}  // namespace winterfolio
