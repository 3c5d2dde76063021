// From the clock on the wall to standard time.
#include "readers/temperature/reading_clock.h"

#include <algorithm>

#include "readers/temperature/messages.h"

namespace winterfolio {

std::optional<ReadingClock> ReadingClock::of(const std::string& file,
                                             const TemperatureOptions& options,
                                             std::optional<Clock> told, Diagnostics& diagnostics) {
  ReadingClock clock;
  if (!options.time_zone.empty()) {
    clock.zone_ = TimeZone::named(options.time_zone);
    if (!clock.zone_) {
      diagnostics.add(about_file(
          Severity::error, "unknown-zone", file,
          "the time zone '" + options.time_zone + "' is not known",
          "an IANA name as 'Europe/Dublin'" + did_you_mean(TimeZone::nearest(options.time_zone)),
          "correct 'time_zone' in the orchard file, or --time-zone"));
      return std::nullopt;
    }
    clock.standard_ = clock.zone_->standard_offset_minutes() * 60;
  }
  if (options.utc_offset_minutes) clock.standard_ = *options.utc_offset_minutes * 60;
  clock.assumed_ = !options.clock && !told;
  clock.told_by_stamps_ = !options.clock || *options.clock == Clock::utc;
  switch (options.clock.value_or(told.value_or(Clock::standard))) {
    case Clock::standard:
      break;
    case Clock::utc:
      clock.utc_ = !clock.standard_;
      clock.way_ = clock.standard_ && *clock.standard_ != 0 ? Way::shift : Way::as_is;
      break;
    case Clock::civil:
      if (!clock.zone_) {
        diagnostics.add(about_file(
            Severity::error, "zone-missing", file,
            "its clock is said to be civil time, and the zone is not known",
            "the IANA name of the zone, as 'Europe/Dublin', for its changes to summer time",
            "give 'time_zone' in the orchard file, or --time-zone; or 'clock: standard' if the "
            "logger keeps one time all year"));
        return std::nullopt;
      }
      clock.way_ = Way::civil;
      break;
  }
  return clock;
}

std::int64_t ReadingClock::at_other(std::int64_t stamp) {
  if (way_ == Way::shift) return stamp + *standard_;
  if (stamp < stretch_.from || stamp >= stretch_.to) stretch_ = zone_->stretch_at(stamp);
  std::int64_t utc = stamp - stretch_.offset;
  if (stretch_.kind == TimeZone::Stretch::Kind::told_twice && last_utc_ != INT64_MIN) {
    const std::int64_t second = stamp - stretch_.later_offset;
    // The second pass, once the first has gone by; in a file that runs backwards it comes first.
    if (falling_ ? second < last_utc_ : utc <= last_utc_) utc = second;
  }
  skipped_ += stretch_.kind == TimeZone::Stretch::Kind::skipped;
  if (last_utc_ != INT64_MIN && stretch_.kind == TimeZone::Stretch::Kind::unique &&
      utc != last_utc_) {
    falling_ = utc < last_utc_;
  }
  last_utc_ = utc;
  return utc + *standard_;
}

std::int64_t ReadingClock::at(std::int64_t stamp, std::int32_t offset) {
  if (!told_by_stamps_) return at(stamp);
  if (!first_offset_) {
    first_offset_ = offset;
    least_offset_ = offset;
  }
  least_offset_ = std::min(least_offset_, offset);
  return stamp - offset + (standard_ ? *standard_ : *first_offset_);
}

std::int32_t ReadingClock::shift_hours() const {
  if (standard_ || !first_offset_) return 0;
  const std::int32_t seconds = least_offset_ - *first_offset_;
  return seconds % 3600 == 0 ? seconds / 3600 : 0;
}

SeriesClock ReadingClock::series_clock() const {
  if (standard_) return SeriesClock::standard;
  if (first_offset_)
    return least_offset_ == 0 && *first_offset_ == 0 ? SeriesClock::utc : SeriesClock::standard;
  return utc_ ? SeriesClock::utc : SeriesClock::standard;
}

const char* ReadingClock::description() const {
  if (way_ == Way::civil) return "civil time, brought to standard time";
  if (way_ == Way::shift) return "UTC, brought to standard time";
  if (first_offset_)
    return series_clock() == SeriesClock::utc && !standard_
               ? "UTC"
               : "offsets in the stamps, brought to standard time";
  return utc_ ? "UTC" : "one clock all year";
}

}  // namespace winterfolio
