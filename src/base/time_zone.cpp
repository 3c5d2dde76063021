// IANA zones through Howard Hinnant's date library, which reads the system's zone files.
#include "base/time_zone.h"

#include <date/tz.h>
#include <fmt/format.h>

#include <algorithm>
#include <cstdlib>
#include <vector>

#include "base/diagnostic.h"

namespace winterfolio {
namespace {

using std::chrono::seconds;

constexpr std::int64_t kJanuary2025 = 1735689600;
constexpr std::int64_t kJuly2025 = 1751328000;

const date::time_zone& zone_of(const void* zone) {
  return *static_cast<const date::time_zone*>(zone);
}

int offset_at(const void* zone, std::int64_t utc) {
  return static_cast<int>(zone_of(zone).get_info(date::sys_seconds{seconds{utc}}).offset.count());
}

std::int64_t wall(date::sys_seconds moment, seconds offset) {
  return (moment.time_since_epoch() + offset).count();
}

}  // namespace

TimeZone::TimeZone(std::string name, const void* zone) : name_(std::move(name)), zone_(zone) {
  standard_offset_ = std::min(offset_at(zone_, kJanuary2025), offset_at(zone_, kJuly2025)) / 60;
}

std::optional<TimeZone> TimeZone::named(std::string_view name) {
  // The library throws for unknown names, and on some systems for names that are no zone files.
  try {
    return TimeZone(std::string(name), date::locate_zone(std::string(name)));
  } catch (const std::exception&) {
    return std::nullopt;
  }
}

std::string TimeZone::nearest(std::string_view name) {
  try {
    std::vector<std::string> names;
    for (const date::time_zone& zone : date::get_tzdb().zones) names.push_back(zone.name());
    return nearest_name(name, std::span<const std::string>(names));
  } catch (const std::exception&) {
    return {};
  }
}

int TimeZone::offset_at_utc(std::int64_t utc_seconds) const {
  return offset_at(zone_, utc_seconds);
}

std::string utc_offset_text(int minutes) {
  const int away = std::abs(minutes);
  return fmt::format("{}{:02}:{:02}", minutes < 0 ? '-' : '+', away / 60, away % 60);
}

std::optional<int> TimeZone::offset_lettered(std::string_view letters) const {
  const auto same = [](char a, char b) { return (a | 0x20) == (b | 0x20); };
  for (const std::int64_t utc : {kJanuary2025, kJuly2025}) {
    const date::sys_info info = zone_of(zone_).get_info(date::sys_seconds{seconds{utc}});
    if (std::equal(letters.begin(), letters.end(), info.abbrev.begin(), info.abbrev.end(), same))
      return static_cast<int>(info.offset.count());
  }
  return std::nullopt;
}

TimeZone::Stretch TimeZone::stretch_at(std::int64_t civil_seconds) const {
  const date::local_info info =
      zone_of(zone_).get_info(date::local_seconds{seconds{civil_seconds}});
  const seconds first = info.first.offset;
  Stretch stretch;
  stretch.offset = static_cast<int>(first.count());
  stretch.later_offset = stretch.offset;
  if (info.result == date::local_info::unique) {
    // The wall clock is told once from after what the jump before repeats to before what the next
    // one repeats or skips.
    const int before = offset_at(zone_, info.first.begin.time_since_epoch().count() - 1);
    const int after = offset_at(zone_, info.first.end.time_since_epoch().count());
    stretch.from = std::max(wall(info.first.begin, first), wall(info.first.begin, seconds{before}));
    stretch.to = std::min(wall(info.first.end, first), wall(info.first.end, seconds{after}));
    return stretch;
  }
  const seconds second = info.second.offset;
  stretch.later_offset = static_cast<int>(second.count());
  stretch.kind = info.result == date::local_info::ambiguous ? Stretch::Kind::told_twice
                                                            : Stretch::Kind::skipped;
  const std::int64_t a = wall(info.first.end, first);
  const std::int64_t b = wall(info.first.end, second);
  stretch.from = std::min(a, b);
  stretch.to = std::max(a, b);
  return stretch;
}

}  // namespace winterfolio
