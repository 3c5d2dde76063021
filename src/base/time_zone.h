// Civil clocks of the world with their jumps: turns what a clock on the wall said into what it
// would have said without summer time. The zone data are the system's; the library that reads them
// is hidden in the source file.
#pragma once

#include <cstdint>
#include <memory>
#include <optional>
#include <string>
#include <string_view>

namespace winterfolio {

/// An IANA zone ("America/Los_Angeles").
class TimeZone {
 public:
  /// Nothing if the system knows no zone of that name.
  static std::optional<TimeZone> named(std::string_view name);
  /// The known name nearest to `name` by edits, if it is near enough to be what was meant; else
  /// empty.
  static std::string nearest(std::string_view name);

  const std::string& name() const { return name_; }

  /// Standard time's distance from UTC [min], east positive: the smaller of the offsets of January
  /// and July 2025, so that one offset serves a whole series even where a country once changed its
  /// standard.
  int standard_offset_minutes() const { return standard_offset_; }

  /// A stretch of the wall clock within which one rule holds, in seconds since 1970-01-01 00:00 of
  /// that clock.
  struct Stretch {
    enum class Kind { unique, told_twice, skipped };
    std::int64_t from = 0;
    std::int64_t to = 0;  ///< one past the end
    Kind kind = Kind::unique;
    /// Clock minus UTC [s]. Told twice: the first pass; skipped: before the jump.
    int offset = 0;
    /// Told twice: the second pass; skipped: after the jump; else the same.
    int later_offset = 0;
  };
  /// The stretch that holds a moment of the wall clock.
  Stretch stretch_at(std::int64_t civil_seconds) const;
  /// Clock minus UTC [s] at a moment of UTC.
  int offset_at_utc(std::int64_t utc_seconds) const;
  /// Clock minus UTC [s] of the zone's own time that goes by these letters ("CST"), in any case, as
  /// of January or July 2025; nothing if it has none.
  std::optional<int> offset_lettered(std::string_view letters) const;

 private:
  TimeZone(std::string name, const void* zone);
  std::string name_;
  const void* zone_;  ///< owned by the library for the life of the program
  int standard_offset_ = 0;
};

/// "-06:00", of minutes east of UTC.
std::string utc_offset_text(int minutes);

}  // namespace winterfolio
