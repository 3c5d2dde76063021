// Reckons how far a gap may reach from what other winters did on the same days of the year.
#include "findings/gap_spread.h"

#include <algorithm>
#include <cmath>
#include <limits>

#include "base/csv_table.h"
#include "models/chill/tally.h"

namespace winterfolio {
namespace {

constexpr int kWeek = 7;

/// Sum of rho^|i-j| over all pairs of `days` days: what a spread of one day makes of theirs.
double pairs_of(int days) {
  double sum = 0.0, shared = 0.0;
  for (int day = 0; day < days; ++day) {
    sum += 1.0 + 2.0 * shared;
    shared = kLikeTheDayBefore * (shared + 1.0);
  }
  return sum;
}

/// What one winter gained in the week around each day; nothing where hours of it are missing.
std::vector<std::optional<double>> weekly_gains(ChillMeasure measure, const HourlySeries& hours,
                                                LocalHour from, int days) {
  const std::vector<double> by_day = chill_curve(measure, hours, from, from + 24 * days).by_day();
  std::vector<int> holes(static_cast<std::size_t>(days) + 1, 0);  // days with one, up to each
  for (int day = 0; day < days; ++day) {
    const LocalHour begin = from + 24 * day;
    holes[static_cast<std::size_t>(day) + 1] =
        holes[static_cast<std::size_t>(day)] + (hours.missing_in(begin, begin + 24) > 0);
  }
  const int length = std::min(kWeek, days);
  std::vector<std::optional<double>> gains;
  for (int day = 0; day < days; ++day) {
    const int first = std::clamp(day - length / 2, 0, days - length), last = first + length;
    const auto at = [&](int d) { return d == 0 ? 0.0 : by_day[static_cast<std::size_t>(d) - 1]; };
    if (holes[static_cast<std::size_t>(last)] == holes[static_cast<std::size_t>(first)])
      gains.push_back(at(last) - at(first));
    else
      gains.push_back(std::nullopt);
  }
  return gains;
}

/// The standard deviation of a day's gain over some winters, and over how many.
struct DaySpread {
  double deviation = 0.0;
  int winters = 0;
};

std::vector<DaySpread> day_spreads(ChillMeasure measure, const WeatherRecord& record,
                                   const Winter& winter, std::span<const Winter> others,
                                   LocalHour from, int days) {
  std::vector<std::vector<std::optional<double>>> gains;
  for (const Winter& other : others)
    gains.push_back(
        weekly_gains(measure, record.hours, from + (other.begin() - winter.begin()), days));
  const double shared_out = pairs_of(std::min(kWeek, days));
  std::vector<DaySpread> spreads(static_cast<std::size_t>(days));
  for (std::size_t day = 0; day < spreads.size(); ++day) {
    double sum = 0.0, squares = 0.0;
    int n = 0;
    for (const auto& one : gains) {
      if (!one[day]) continue;
      sum += *one[day];
      ++n;
    }
    for (const auto& one : gains)
      if (one[day]) squares += (*one[day] - sum / n) * (*one[day] - sum / n);
    spreads[day].winters = n;
    if (n > 1) spreads[day].deviation = std::sqrt(squares / (n - 1) / shared_out);
  }
  return spreads;
}

}  // namespace

double student_t(int degrees_of_freedom) {
  struct Row {
    int degrees;
    double t;
  };
  static const std::vector<Row> rows = [] {
    std::vector<Row> read;
    const CsvTable table = CsvTable::embedded("src/findings/tables/student_t.csv");
    for (const CsvRow row : table)
      read.push_back(
          {static_cast<int>(row.required_number("degrees_of_freedom")), row.required_number("t")});
    return read;
  }();
  const auto above =
      std::upper_bound(rows.begin(), rows.end(), degrees_of_freedom,
                       [](int value, const Row& row) { return value < row.degrees; });
  return std::prev(above)->t;
}

std::vector<std::optional<double>> gap_half_widths(ChillMeasure measure,
                                                   const WeatherRecord& record,
                                                   const Winter& winter,
                                                   std::span<const Winter> others,
                                                   Date counted_from,
                                                   std::span<const std::int32_t> missing_by_day) {
  const LocalHour from = LocalHour::at(counted_from, 0);
  // The whole winter, not only what has passed: a day's spread must not hang on the day one stands
  // on.
  const int whole = days_between(counted_from, winter.to) + 1;
  const int days = std::max(whole, static_cast<int>(missing_by_day.size()));
  const std::vector<DaySpread> spreads = day_spreads(measure, record, winter, others, from, days);
  std::vector<std::optional<double>> widths;
  double variance = 0.0, shared = 0.0;  // of what is missing so far; with the day at hand
  int fewest = std::numeric_limits<int>::max();
  std::int32_t before = 0;
  for (std::size_t day = 0; day < missing_by_day.size(); ++day) {
    const double weight = std::sqrt((missing_by_day[day] - before) / 24.0);
    before = missing_by_day[day];
    shared *= kLikeTheDayBefore;
    if (weight > 0.0) {
      const double own = weight * spreads[day].deviation;
      variance += own * own + 2.0 * own * shared;
      shared += own;
      fewest = std::min(fewest, spreads[day].winters);
    }
    if (before == 0)
      widths.push_back(0.0);
    else if (fewest < 2)
      widths.push_back(std::nullopt);
    else
      widths.push_back(student_t(fewest - 1) * std::sqrt(variance * (1.0 + 1.0 / fewest)));
  }
  return widths;
}

}  // namespace winterfolio
