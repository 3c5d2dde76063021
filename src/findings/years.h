// This winter among the winters before it: the same day of past years, its place among them, the
// amount that nine winters in ten exceed, and whether there is a trend.
//
// Only figures of one making are ranked together: where past winters are known by daily extremes,
// every winter is reduced to them first, and what that does to this winter's figure is told.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "findings/statistics.h"
#include "findings/winter_chill.h"

namespace winterfolio {

/// One past winter by one measure.
struct PastWinterChill {
  int year = 0;
  std::string name;
  std::optional<double> same_day;  ///< when it stood where this winter stands; nothing where hours
                                   ///< lack, and for bare totals until the winter is over
  std::optional<double> whole;     ///< at its end
  bool bare_total = false;         ///< the keeper's own note, no readings
  std::string from_where;          ///< of a bare total
};

enum class TrendWord { rising, falling, cannot_tell };

struct Trend {
  MannKendall test;
  TheilSen line;  ///< per year
  TrendWord word =
      TrendWord::cannot_tell;  ///< rising or falling only where chance is under one in twenty
  int first_year = 0;
  int last_year = 0;
};

struct YearsFinding {
  ChillMeasure measure;
  WinterDetail basis = WinterDetail::hourly;  ///< how all winters were taken for the comparison
  double now = 0.0;                           ///< this winter so far, on that basis
  double difference = 0.0;  ///< what the reduction does: that less the figure by hours, both over
                            ///< the hours known on that basis
  std::optional<Range> now_range{};  ///< with gaps, on that basis; nothing: hours are missing and
                                     ///< no other winter tells what they may have held
  std::vector<PastWinterChill> winters{};  ///< by year
  int left_out = 0;                        ///< winters with too few hours to be compared

  // Among the winters with a figure for the same day.
  int compared = 0;
  int rank = 0;  ///< 1: the most cold of all, this winter included; 0 where none can be compared or
                 ///< where it is withheld
  bool rank_withheld = false;  ///< so much is missing that the recorded figure's place means
                               ///< nothing: see rank_is_known()
  std::optional<int>
      rank_at_best{};  ///< had the gaps held the most they may have; nothing where none is compared
  std::optional<int> rank_at_worst{};  ///< the least; equal to the best without a gap and without a
                                       ///< winter that stands level
  std::optional<double> same_day_median{};

  // Among whole winters; this one too once it is over.
  int whole_winters = 0;
  std::optional<double> exceeded_in_nine_of_ten{};
  bool few_winters = false;  ///< under ten: then that is little more than the smallest value
  std::optional<double> median_whole{};
  std::optional<Trend> trend{};  ///< for five whole winters or more
};

/// reduced   the same winter by daily extremes (see reduced_to_extremes()), for its gaps; worked
/// out
///           here where the comparison asks for it and it is not given
YearsFinding years_of(ChillMeasure measure, const WeatherRecord& record, const WinterChill& chill,
                      const std::vector<PastWinterTotal>& bare_totals = {},
                      const WinterChill* reduced = nullptr);

/// Whether two measures disagree on which of two winters was the colder, and in which.
struct Disagreement {
  ChillMeasure one;
  ChillMeasure other;
  int year = 0;  ///< a past winter that one measure puts above this one and the other below
};
std::optional<Disagreement> disagreement_of(const YearsFinding& one, const YearsFinding& other);

inline constexpr double kLeastCoverageOfYears = 0.95;  ///< of the hours of a past winter
inline constexpr double kLeastCoverageForRank = 0.9;   ///< of this winter's hours so far; under it
                                                       ///< only a range that decides gives a rank

}  // namespace winterfolio
