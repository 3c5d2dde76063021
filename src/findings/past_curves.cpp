// Lays past winters over this one, day by day.
#include "findings/past_curves.h"

#include <algorithm>

namespace winterfolio {
namespace {

constexpr std::size_t kWintersForBand = 5;
constexpr std::size_t kWintersForMedian = 3;

std::vector<double> quantile_by_day(const std::vector<PastCurve>& winters, int days, double share) {
  std::vector<double> result;
  std::vector<double> values(winters.size());
  for (int day = 0; day < days; ++day) {
    for (std::size_t i = 0; i < winters.size(); ++i) {
      const std::vector<double>& curve = winters[i].by_day;
      values[i] = curve[std::min(static_cast<std::size_t>(day), curve.size() - 1)];
    }
    result.push_back(quantile(values, share));
  }
  return result;
}

}  // namespace

PastCurves past_curves(const YearsFinding& years, const WeatherRecord& record,
                       const WinterChill& chill) {
  PastCurves past;
  past.measure = years.measure;
  past.basis = years.basis;
  const HourlySeries& hours =
      years.basis == WinterDetail::hourly ? record.hours : record.by_extremes;
  for (const PastWinterChill& winter : years.winters) {
    if (!winter.whole || winter.bare_total) continue;
    const Winter span = winter_of(chill.today.window, winter.year);
    past.winters.push_back(
        {winter.year, chill_curve(years.measure, hours, span.begin(), span.end()).by_day()});
  }
  if (past.winters.empty()) return past;
  const int days = days_between(chill.today.winter.from, chill.today.winter.to) + 1;
  if (past.winters.size() >= kWintersForBand) {
    past.low = quantile_by_day(past.winters, days, 0.1);
    past.high = quantile_by_day(past.winters, days, 0.9);
  }
  if (past.winters.size() >= kWintersForMedian)
    past.median = quantile_by_day(past.winters, days, 0.5);
  const auto by_end = [](const PastCurve& a, const PastCurve& b) {
    return a.by_day.back() < b.by_day.back();
  };
  past.least =
      std::min_element(past.winters.begin(), past.winters.end(), by_end) - past.winters.begin();
  past.most =
      std::max_element(past.winters.begin(), past.winters.end(), by_end) - past.winters.begin();
  return past;
}

}  // namespace winterfolio
