// Which hour a stamp means: takes civil time's jumps out, brings UTC to local standard time where
// that is asked for and possible, and leaves all other stamps as they are.
#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <vector>

#include "base/diagnostic.h"
#include "base/time_zone.h"
#include "readers/temperature/stamp.h"
#include "readers/temperature/temperature_file.h"

namespace winterfolio {

class ReadingClock {
 public:
  /// `told` is what the format itself fixes or the file's header says; a key given by the person
  /// outranks it. Nothing, and an error, where a civil clock has no zone.
  static std::optional<ReadingClock> of(const std::string& file, const TemperatureOptions& options,
                                        std::optional<Clock> told, Diagnostics& diagnostics);

  /// The clock that the file's header names for all its stamps, in figures or in letters: they are
  /// brought from it to the orchard's standard time, where that is known.
  void stamped_on(std::optional<int> utc_offset_minutes, const ZoneLetters* letters);

  /// A stamp [s since 1970 on the file's clock] on the clock of the series.
  std::int64_t at(std::int64_t stamp) {
    if (way_ == Way::as_is) return stamp;
    return at_other(stamp);
  }
  /// What letters of several zones mean here [s east of UTC]. Adds what is doubtful about it once.
  std::int32_t offset_of(const ZoneLetters& letters);
  /// What there is to say of letters that were read: an error where none of their meanings fits, a
  /// warning where the one that does is not the orchard's own clock. Nothing where all is certain.
  std::optional<Diagnostic> about_letters(const std::string& file) const;

  /// A stamp that carries its own distance from UTC [s].
  std::int64_t at(std::int64_t stamp, std::int32_t offset);

  /// Hours that the whole series must still be moved by, once all stamps are known.
  std::int32_t shift_hours() const;
  SeriesClock series_clock() const;
  bool is_as_is() const { return way_ == Way::as_is; }
  /// Neither the person nor the file says how the clock runs.
  bool is_assumed() const { return assumed_ && !first_offset_; }
  const std::optional<TimeZone>& zone() const { return zone_; }
  std::int64_t skipped() const { return skipped_; }  ///< stamps in the hour that summer time skips
  const char* description() const;

 private:
  enum class Way { as_is, shift, civil };
  std::int64_t at_other(std::int64_t stamp);
  struct Lettered {
    const ZoneLetters* letters;
    std::int32_t offset;   ///< as which they were read [s]
    std::string zone;      ///< whose they are then
    bool certain = false;  ///< the orchard's own letters, or a clock that is its own
    bool fits = true;      ///< just one meaning is near the orchard's clock
  };
  Lettered lettered(const ZoneLetters& letters) const;

  Way way_ = Way::as_is;
  std::int64_t shift_ = 0;  ///< to standard time [s]
  bool assumed_ = false;
  bool told_by_stamps_ = true;            ///< stamps that name their offset are believed
  bool utc_ = false;                      ///< the series is left in UTC
  std::optional<std::int64_t> standard_;  ///< standard time minus UTC [s]
  std::optional<TimeZone> zone_;
  TimeZone::Stretch stretch_;
  std::int64_t last_utc_ = INT64_MIN;
  bool falling_ = false;  ///< stamps run backwards
  std::int64_t skipped_ = 0;
  std::optional<double> longitude_;
  std::vector<Lettered> lettered_;
  std::optional<std::int32_t> first_offset_;
  std::int32_t least_offset_ = 0;
  std::int32_t greatest_offset_ = 0;
};

}  // namespace winterfolio
