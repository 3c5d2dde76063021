// The few statistics that a line of winters needs: what nine in ten exceeded, and whether there is
// a trend at all.
#pragma once

#include <span>
#include <vector>

namespace winterfolio {

/// The quantile of `share` (0 to 1) of the values, in any order: Hyndman & Fan's type 7, straight
/// between the sorted values at (n-1) share + 1. Source: Hyndman, R.J. & Fan, Y. 1996. Am. Stat.
/// 50:361-365. Requires: values not empty.
double quantile(std::span<const double> values, double share);

/// Whether values that follow one another rise or fall more often than chance would have it.
struct MannKendall {
  int n = 0;
  int s = 0;              ///< pairs that rise less pairs that fall
  double variance = 0.0;  ///< of s, ties counted
  double z = 0.0;
  double p = 1.0;  ///< two-sided: exact for ten values or fewer, else by the normal form
};
/// Source: Mann 1945; Kendall 1975; Gilbert, R.O. 1987. Statistical methods for environmental
/// pollution monitoring.
MannKendall mann_kendall(std::span<const double> values);

/// The median of the slopes between all pairs, with 95 % limits. Slopes are in units of value per
/// unit of time.
struct TheilSen {
  int slopes = 0;
  double slope = 0.0;
  double low = 0.0;  ///< Sen's limits
  double high = 0.0;
};
/// Requires: as many times as values, two or more, times rising. Source: Sen 1968; Gilbert 1987.
TheilSen theil_sen(std::span<const double> times, std::span<const double> values);

}  // namespace winterfolio
