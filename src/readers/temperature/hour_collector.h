// Turns readings, as they stream past, into clock hours: the sum, the lowest, and how many there
// were. Whatever must be set aside is set aside here; memory grows with hours, not with readings.
//
// Readings mostly come in order. An hour is kept open while readings fall into it; going back to an
// earlier hour opens that again. Each hour remembers which of its minutes have been told, so that a
// stamp told twice is found wherever it stands in the file.
#pragma once

#include <cstdint>
#include <memory>
#include <optional>
#include <vector>

#include "orchard/orchard.h"
#include "readers/temperature/fixed_number.h"
#include "weather/hourly_series.h"
#include "weather/quality.h"

namespace winterfolio {

/// Limits in the unit of the file.
struct PartsLimits {
  std::int64_t impossible_below;
  std::int64_t impossible_above;
  std::int64_t spike;
  static PartsLimits of(TemperatureUnit unit);
};

/// Where something first happened.
struct FirstPlace {
  std::int64_t line = 0;
  std::int64_t parts = 0;
};

class HourCollector {
 public:
  explicit HourCollector(TemperatureUnit unit)
      : limits_(PartsLimits::of(unit)),
        twice_spike_(static_cast<std::uint64_t>(2 * limits_.spike)),
        possible_width_(
            static_cast<std::uint64_t>(limits_.impossible_above - limits_.impossible_below)) {}

  /// One reading. `seconds` is its stamp since 1970 on the clock of the series, in 1700 to 2200.
  void add(std::int64_t seconds, std::int64_t parts, std::int64_t line) {
    auto into_hour = static_cast<std::uint64_t>(seconds - open_start_);
    if (into_hour >= 3600) {
      open(floor_hour(seconds));
      into_hour = static_cast<std::uint64_t>(seconds - open_start_);
    }
    const std::uint64_t minute = std::uint64_t{1} << (static_cast<std::uint32_t>(into_hour) / 60);
    const bool steady = seconds - last_seconds_ == step_ && (open_.minutes & minute) == 0;
    const bool near_last =
        static_cast<std::uint64_t>(parts - last_parts_ + limits_.spike) <= twice_spike_;
    const bool possible =
        static_cast<std::uint64_t>(parts - limits_.impossible_below) <= possible_width_;
    if (!(steady && near_last && possible && !held_) && !admit(seconds, parts, line, minute))
      return;
    take(seconds, parts, minute, line);
  }

  /// A lower value within the hour of the last reading, where the file tells one beside the mean.
  void lower(std::int64_t parts) {
    if (open_.count > 0 && parts >= limits_.impossible_below && parts < open_.lowest)
      open_.lowest = parts;
  }

  /// The end of the file: nothing more will come.
  void finish();

  std::int64_t readings() const { return readings_; }
  /// Grows with each reading set aside as impossible or told twice.
  std::int64_t faults() const { return impossible_ + duplicates_; }
  std::int64_t impossible() const { return impossible_; }
  std::int64_t duplicates() const { return duplicates_; }
  std::int64_t differing() const { return differing_; }
  std::int64_t spikes() const { return spikes_; }
  std::int64_t backward() const { return backward_; }
  FirstPlace first_impossible() const { return first_impossible_; }
  FirstPlace first_duplicate() const { return first_duplicate_; }
  FirstPlace first_spike() const { return first_spike_; }
  const std::vector<int>& steps_minutes() const { return steps_minutes_; }
  /// Sum of the lengths of the steps from stamp to stamp [s]: small where stamps follow each other.
  double walked() const { return walked_; }
  double resolution() const;  ///< in the file's unit
  std::int64_t impossible_high() const { return impossible_high_; }
  std::int64_t impossible_kelvin() const { return impossible_kelvin_; }

  std::int64_t first_seconds() const {
    return first_seconds_;
  }  ///< smallest stamp of a reading used
  std::int64_t last_seconds() const { return greatest_seconds_; }

  /// Share of the cooler half-year's hours whose mean, as written, lies between 30 and 70.
  /// Requires: finish().
  double share_between_30_and_70() const;

  /// The hours, in °C. Requires: finish(). Also sets aside hours of several readings that stand far
  /// from both neighbours; call readings() and spikes() after it.
  HourlySeries series(TemperatureUnit unit, std::int32_t shift_hours = 0);
  /// The line on which an hour's first reading stands; 0 if it has none.
  std::int64_t line_of(LocalHour hour) const;

 private:
  struct Cell {
    std::int64_t sum = 0;
    std::int64_t lowest = 0;
    std::uint64_t minutes = 0;
    std::uint32_t count = 0;
    std::uint32_t line = 0;
  };
  static constexpr std::int64_t kChunkHours = 512;
  static constexpr std::int64_t kFirstHour = -2'368'000;  ///< before 1700, a whole number of chunks
  static constexpr std::int64_t kNone = INT64_MIN / 4;
  using Chunk = std::vector<Cell>;

  static std::int64_t floor_hour(std::int64_t seconds) {
    return seconds >= 0 ? seconds / 3600 : -((-seconds + 3599) / 3600);
  }
  Cell* cell(std::int64_t hour, bool make);
  const Cell* cell(std::int64_t hour) const {
    return const_cast<HourCollector*>(this)->cell(hour, false);
  }
  void open(std::int64_t hour);
  void close();
  bool admit(std::int64_t seconds, std::int64_t parts, std::int64_t line, std::uint64_t minute);
  bool is_told(std::int64_t seconds, std::int64_t parts, std::int64_t line, std::uint64_t minute);
  void note_step(std::int64_t seconds);
  void note_impossible(std::int64_t parts, std::int64_t line);
  void settle_held(std::int64_t seconds, std::int64_t parts);
  void take(std::int64_t seconds, std::int64_t parts, std::uint64_t minute, std::int64_t line) {
    last_seconds_ = seconds;
    last_parts_ = parts;
    last_was_told_ = false;
    if (open_.count == 0) {
      note_bounds(seconds);
      open_.lowest = parts;
      open_.line = static_cast<std::uint32_t>(line < UINT32_MAX ? line : UINT32_MAX);
    }
    open_.sum += parts;
    open_.lowest = parts < open_.lowest ? parts : open_.lowest;
    open_.minutes |= minute;
    ++open_.count;
    ++readings_;
    if (readings_ < kSampled) note_resolution(parts);
  }
  void note_resolution(std::int64_t parts);
  void note_bounds(std::int64_t seconds) {
    first_seconds_ = seconds < first_seconds_ ? seconds : first_seconds_;
    greatest_seconds_ = seconds > greatest_seconds_ ? seconds : greatest_seconds_;
  }
  static constexpr std::int64_t kSampled = 20000;

  PartsLimits limits_;
  std::uint64_t twice_spike_;
  std::uint64_t possible_width_;
  std::vector<std::unique_ptr<Chunk>> chunks_;
  std::int64_t open_hour_ = kNone;
  std::int64_t open_start_ = kNone;  ///< of the open hour [s]
  Cell open_;
  std::int64_t last_seconds_ = kNone;
  std::int64_t last_parts_ = 0;
  std::int64_t step_ = kNone;
  std::int64_t candidate_step_ = 0;
  int candidate_count_ = 0;
  bool last_was_told_ = false;

  struct Held {
    std::int64_t seconds;
    std::int64_t parts;
    std::int64_t line;
  };
  std::optional<Held> held_;

  std::int64_t readings_ = 0;
  std::int64_t impossible_ = 0;
  std::int64_t impossible_high_ = 0;
  std::int64_t impossible_kelvin_ = 0;
  std::int64_t duplicates_ = 0;
  std::int64_t differing_ = 0;
  std::int64_t spikes_ = 0;
  std::int64_t backward_ = 0;
  FirstPlace first_impossible_;
  FirstPlace first_duplicate_;
  FirstPlace first_spike_;
  std::vector<int> steps_minutes_;
  double walked_ = 0.0;
  bool any_tenths_ = false;
  bool any_units_not_half_ = false;
  bool any_finer_ = false;
  std::int64_t first_seconds_ = INT64_MAX;
  std::int64_t greatest_seconds_ = INT64_MIN;
};

}  // namespace winterfolio
