// From the clock on the wall to standard time.
#include "readers/temperature/reading_clock.h"

#include <fmt/format.h>

#include <algorithm>
#include <cstdlib>

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
  clock.longitude_ = options.longitude;
  clock.assumed_ = !options.clock && !told;
  clock.told_by_stamps_ = !options.clock || *options.clock == Clock::utc;
  switch (options.clock.value_or(told.value_or(Clock::standard))) {
    case Clock::standard:
      break;
    case Clock::utc:
      clock.utc_ = !clock.standard_;
      clock.shift_ = clock.standard_.value_or(0);
      clock.way_ = clock.shift_ != 0 ? Way::shift : Way::as_is;
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

void ReadingClock::stamped_on(std::optional<int> utc_offset_minutes, const ZoneLetters* letters) {
  if (way_ != Way::as_is || utc_ || (!utc_offset_minutes && !letters)) return;
  assumed_ = false;
  const std::int64_t offset = utc_offset_minutes ? *utc_offset_minutes * 60 : offset_of(*letters);
  shift_ = standard_ ? *standard_ - offset : 0;
  if (shift_ != 0) way_ = Way::shift;
}

std::int64_t ReadingClock::at_other(std::int64_t stamp) {
  if (way_ == Way::shift) return stamp + shift_;
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

/// Letters are of the orchard's clock if its zone has them; else of the meaning nearest to its
/// clock, or to its longitude, where that is near enough for a station one might read there.
ReadingClock::Lettered ReadingClock::lettered(const ZoneLetters& letters) const {
  constexpr int kNearby = 3 * 3600;
  if (letters.meanings.size() == 1) {
    const ZoneLetters::Meaning& only = letters.meanings.front();
    return {&letters, only.minutes * 60, only.zone, true, true};
  }
  if (const auto own = zone_ ? zone_->offset_lettered(letters.letters) : std::nullopt)
    return {&letters, *own, zone_->name(), true, true};
  std::optional<std::int64_t> here = standard_;
  if (!here && longitude_) here = static_cast<std::int64_t>(*longitude_ * 240.0);
  if (!here && first_offset_) here = *first_offset_;
  const ZoneLetters::Meaning* best = &letters.meanings.front();
  if (!here) return {&letters, best->minutes * 60, best->zone, true, true};
  const auto away = [&](const ZoneLetters::Meaning& meaning) {
    return std::abs(meaning.minutes * 60 - *here);
  };
  for (const ZoneLetters::Meaning& meaning : letters.meanings) {
    if (away(meaning) < away(*best)) best = &meaning;
  }
  // An offset given in figures may be that of the letters, or the clock they are in summer.
  const std::int64_t ahead = best->minutes * 60 - *here;
  const bool certain = !standard_ || ahead == 0 || (!zone_ && ahead == 3600);
  const auto near = std::count_if(letters.meanings.begin(), letters.meanings.end(),
                                  [&](const auto& meaning) { return away(meaning) <= kNearby; });
  return {&letters, best->minutes * 60, best->zone, certain, near == 1 || (near > 1 && certain)};
}

std::int32_t ReadingClock::offset_of(const ZoneLetters& letters) {
  for (const Lettered& known : lettered_) {
    if (known.letters == &letters) return known.offset;
  }
  lettered_.push_back(lettered(letters));
  return lettered_.back().offset;
}

std::optional<Diagnostic> ReadingClock::about_letters(const std::string& file) const {
  if (!told_by_stamps_) return std::nullopt;
  constexpr std::int32_t kSummer = 3600;
  for (const Lettered& one : lettered_) {
    const bool at_odds = !standard_ && greatest_offset_ - least_offset_ > kSummer;
    if (one.certain && one.fits && !at_odds) continue;
    std::string meanings;
    for (const ZoneLetters::Meaning& meaning : one.letters->meanings) {
      meanings += fmt::format("{}{} ({})",
                              meanings.empty()                            ? ""
                              : &meaning == &one.letters->meanings.back() ? " or "
                                                                          : ", ",
                              meaning.zone, utc_offset_text(meaning.minutes));
    }
    const std::string can_mean =
        fmt::format("'{}' as the clock of its stamps can mean {}", one.letters->letters, meanings);
    const std::string mend =
        "write the distance from UTC behind the stamps instead, as 2026-11-01 06:00-06:00; or set "
        "'clock: standard' for this file in the orchard file, or --clock standard, if they are the "
        "orchard's own time";
    if (!one.fits || at_odds) {
      const std::string silent = at_odds ? "the rest of the file"
                                 : zone_ ? zone_->name()
                                         : "the orchard's clock";
      return about_file(
          Severity::error, "zone-letters-in-doubt", file,
          fmt::format("{}, and {} does not tell which", can_mean, silent),
          "letters of the zone in which the thermometer stands",
          at_odds ? "give the zone: 'time_zone' in the orchard file, or --time-zone; or " + mend
                  : mend);
    }
    return about_file(Severity::warning, "zone-letters-assumed", file,
                      fmt::format("{}; read as {}", can_mean, one.zone),
                      "letters that only one zone has, or the distance from UTC in figures", mend);
  }
  return std::nullopt;
}

std::int64_t ReadingClock::at(std::int64_t stamp, std::int32_t offset) {
  if (!told_by_stamps_) return at(stamp);
  if (!first_offset_) {
    first_offset_ = offset;
    least_offset_ = offset;
    greatest_offset_ = offset;
  }
  least_offset_ = std::min(least_offset_, offset);
  greatest_offset_ = std::max(greatest_offset_, offset);
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
  if (way_ == Way::shift)
    return shift_ == *standard_ ? "UTC, brought to standard time"
                                : "another clock, brought to standard time";
  if (first_offset_)
    return series_clock() == SeriesClock::utc && !standard_
               ? "UTC"
               : "offsets in the stamps, brought to standard time";
  return utc_ ? "UTC" : "one clock all year";
}

}  // namespace winterfolio
