// How cold added up in each past winter, day by day, all of one making, for the chart behind this
// winter's line.
#pragma once

#include <optional>
#include <vector>

#include "findings/years.h"

namespace winterfolio {

/// One past winter's total at the end of each of its days.
struct PastCurve {
  int year = 0;
  std::vector<double> by_day;
};

/// Past winters day by day, each from its own first day; as many values as this winter has days.
struct PastCurves {
  ChillMeasure measure = ChillMeasure::chill_hours;
  WinterDetail basis = WinterDetail::hourly;
  std::vector<PastCurve> winters;  ///< by year
  std::vector<double> low;         ///< 10 % quantile of each day (type 7); empty under five winters
  std::vector<double> high;        ///< 90 %
  std::vector<double> median;      ///< empty under three winters
  std::optional<std::size_t> least;  ///< index of the winter with the least at the end
  std::optional<std::size_t> most;
};

/// The winters that years_of() compares whole.
PastCurves past_curves(const YearsFinding& years, const WeatherRecord& record,
                       const WinterChill& chill);

}  // namespace winterfolio
