// What the rest of the winter may bring: the remainder of every past winter, run on from where this
// one stands, the Dynamic Model's state included. From that the spread of the total at the winter's
// end, and the chance and date that a tree's requirement is met. A forecast, where there is one,
// stands for the next days.
#pragma once

#include <algorithm>
#include <optional>
#include <vector>

#include "findings/verdict.h"
#include "findings/winter_chill.h"

namespace winterfolio {

/// The tenth, the middle and the ninetieth of a hundred.
struct Percentiles {
  double low = 0.0;  ///< 10 %
  double middle = 0.0;
  double high = 0.0;  ///< 90 %
};

/// This winter as it would end after one past winter's pattern.
struct WinterPath {
  int year = 0;
  double start = 0.0;          ///< the total now
  std::vector<double> by_day;  ///< at the end of each day from the first day to come
  double end() const { return by_day.empty() ? start : by_day.back(); }
};

/// One point of the fan that a chart shows.
struct FanPoint {
  Date day;  ///< at whose end
  Percentiles spread;
  double least = 0.0;
  double most = 0.0;
};

struct StillToCome {
  ChillMeasure measure;
  Date first_day;                             ///< the day in which the hours to come begin
  std::vector<WinterPath> paths{};            ///< by year
  WinterDetail basis = WinterDetail::hourly;  ///< how those winters are known
  std::int32_t forecast_hours = 0;
  Range from_gaps{};            ///< what this winter's gaps may have held, to be added to any path
  Percentiles at_end{};         ///< wider by what gaps leave open; meaningless without paths
  std::vector<FanPoint> fan{};  ///< by weeks, and the winter's last day
  bool few_winters = false;     ///< under ten

  /// The middle of what the gaps may have held.
  double middle_of_gaps() const { return (from_gaps.low + from_gaps.high) / 2.0; }
  /// Where the winter may stand at the end of a day to come, counted from 0; wider by what gaps
  /// leave open. Requires: paths.
  Percentiles spread_on(std::size_t day) const;
};

/// No paths if the winter is over or no past winter has the hours.
StillToCome still_to_come(const MeasuredChill& so_far, const WeatherRecord& record,
                          const Today& today);

/// Chance and date of meeting a requirement. Ends of ranges: `low` speaks of the least required,
/// `high` of the most. Gaps count with the middle of what they may have held.
struct ChanceOfMeeting {
  int winters = 0;               ///< paths there are
  int reaching_low = 0;          ///< of them, that reach the least required by the winter's end
  int reaching_low_at_best = 0;  ///< the same, had the gaps held the most they may have
  int reaching_high = 0;         ///< the most required; 0 where nothing tells how much that is
  int reaching_at_worst = 0;     ///< the most required, had the gaps held the least they may have
  int reaching_at_best = 0;      ///< and the most; all three are equal without a gap
  /// The fewest winters that are enough: the most required at the gaps' worst. The most are
  /// reaching_low_at_best.
  int fewest() const { return std::min(reaching_at_worst, reaching_low_at_best); }
  std::optional<Date> early;  ///< 10 % of paths have met the most required by this day, had the
                              ///< gaps held the most
  std::optional<Date> middle;
  std::optional<Date> late;  ///< 90 %, had they held the least; nothing where so many never meet it
};
/// Nothing where there is no path or no figure may decide.
std::optional<ChanceOfMeeting> chance_of_meeting(const StillToCome& to_come,
                                                 const DecidingNeed& need);

/// How well this way of looking ahead would have done in past winters: standing on given days of
/// each, knowing only the other winters, how often the 80 % span held the total at the end.
struct HindcastScore {
  int inside = 0;
  int trials = 0;
  int winters = 0;
  double share() const { return trials == 0 ? 0.0 : static_cast<double>(inside) / trials; }
};
/// `except`: the winter in which one stands now. No trials with fewer than three winters.
HindcastScore hindcast(ChillMeasure measure, const WeatherRecord& record,
                       const WinterWindow& window, const std::vector<MonthDay>& days,
                       std::optional<int> except = {});

/// Days to try it on: the fifteenth of every month of the winter but its first.
std::vector<MonthDay> hindcast_days(const Winter& winter);

inline constexpr int kWintersForHindcast = 10;  ///< below that a score says little

}  // namespace winterfolio
