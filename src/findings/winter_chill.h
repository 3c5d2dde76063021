// How much cold this winter has given so far, by each measure: the total, its curve, and what gaps
// leave open.
//
// A missing hour adds nothing. What it may have held is told by a range, at the end of each day and
// at the end. Its middle: every gap is filled whole from each other winter on record, moved by -7,
// -3, 0, 3 and 7 days and made as much warmer or colder as the weeks around the gap are in this
// winter, and run through with the measure's state; the median of what comes out. Its width:
// gap_spread.h, from the other winters alone, but no more than that of the day before and what the
// day's missing hours can hold; and a portion for portions, half on either side. Where it would
// reach beyond what missing hours can hold at all, or, of a measure that cannot fall, below the day
// before, it is slid and not cut.
//
// Why not the least and the most of all fills: as hours come to be known, other winters can fill
// the gap and the weeks around it look warmer or colder, so that up to one step in seven widened
// the range. Here the width hangs only on which hours are missing, and each of its parts can only
// shrink with them: more data never widens a range (but Utah units in a verdict may come to be
// counted from another day). Without another winter the range is unknown; without a gap there is
// none.
#pragma once

#include <array>
#include <optional>
#include <span>
#include <vector>

#include "findings/weather_record.h"
#include "models/chill/tally.h"
#include "orchard/orchard.h"

namespace winterfolio {

/// What gaps do to a figure.
enum class GapRange {
  no_gap,   ///< every hour is known: the figure stands as it is
  known,    ///< the range says what the gaps may have held
  unknown,  ///< hours are missing and there is no other winter to judge them by
};

struct MeasuredChill {
  ChillMeasure measure;
  Date counted_from;  ///< the winter's first day; for Utah in a verdict, the day after its autumn
                      ///< minimum
  ChillCurve curve;   ///< hour by hour, to Today::counted_to()
  std::int32_t hours = 0;
  std::int32_t missing_hours = 0;
  GapRange gaps = GapRange::no_gap;
  Range range{};  ///< of the total: equal ends without a gap; meaningless where unknown
  std::vector<double> by_day{};       ///< total at the end of each day from counted_from on
  std::vector<Range> by_day_range{};  ///< the same with gaps filled; empty unless gaps are `known`
  Range utmost{};  ///< of the total, for deciding: the range, or, where unknown, what missing hours
                   ///< can hold at all
  std::vector<double>
      least_by_day{};  ///< the least each day's total can have been, in the same way
  std::vector<std::int32_t> missing_by_day{};  ///< missing hours up to the end of each day
  Range thermometer{};  ///< the total had every reading been half a degree warmer, and colder; ends
                        ///< in order

  ChillAmount total() const { return {measure, curve.end_state().total}; }
  double coverage() const;  ///< share of hours that are known, 0 to 1; 1 where none has passed
  /// First day at whose end the total was at least `amount`; nothing if it never was.
  std::optional<Date> reached_on(double amount) const;
  /// The same for certain: gaps in mind, and with `least_coverage` of the hours up to that day
  /// known.
  std::optional<Date> surely_reached_on(double amount, double least_coverage) const;
};

/// Where this winter's hours come from.
struct HourCounts {
  std::int32_t hours = 0;
  std::int32_t observed = 0;
  std::int32_t by_line = 0;  ///< short gaps bridged
  std::int32_t nearby = 0;
  std::int32_t by_extremes = 0;
  std::int32_t missing = 0;
  double coverage() const { return hours == 0 ? 1.0 : 1.0 - static_cast<double>(missing) / hours; }
};

/// A run of missing hours.
struct Gap {
  LocalHour from;
  LocalHour to;  ///< one past the last
  std::int32_t hours() const { return to - from; }
};

struct WinterChill {
  Today today;
  WinterDetail detail = WinterDetail::hourly;
  HourCounts counts;      ///< of the winter so far
  std::vector<Gap> gaps;  ///< of the winter so far, longest first
  std::vector<MeasuredChill>
      measures;  ///< those asked for, in the order of the measures, from the winter's first day
  std::optional<MeasuredChill> utah_from_minimum;  ///< for verdicts; there if Utah was asked for

  /// The plain sum. Throws std::logic_error for a measure that was not asked for.
  const MeasuredChill& of(ChillMeasure measure) const;
  /// What a requirement is compared with: the plain sum, but Utah from its autumn minimum.
  const MeasuredChill& for_verdict(ChillMeasure measure) const;
};

WinterChill winter_chill(const WeatherRecord& record, const Today& today,
                         std::span<const ChillMeasure> measures = kChillMeasures);

/// The day from which a verdict counts a measure in the winter of `today`: the winter's first, for
/// Utah the day after its autumn minimum (the first day on record in autumn at the earliest).
Date counted_from_in_verdict(ChillMeasure measure, const HourlySeries& hours, bool southern,
                             const Today& today);

/// How far a thermometer in use is taken to read off, either way, all winter.
inline constexpr CelsiusDelta kThermometerError{0.5};

/// The shifts by which other winters are laid over a gap [days].
inline constexpr std::array<int, 5> kGapShifts = {-7, -3, 0, 3, 7};

/// So many days on either side of a gap tell how warm this winter was around it [days]: of a few
/// winters none may have been as cold as the one that the gap lies in.
inline constexpr int kLevelDays = 28;

}  // namespace winterfolio
