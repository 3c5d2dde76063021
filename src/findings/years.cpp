// Lays this winter beside the ones before it.
#include "findings/years.h"

#include <algorithm>

namespace winterfolio {
namespace {

constexpr int kFewWinters = 10;
constexpr int kLeastForTrend = 5;
constexpr double kChance = 0.05;

bool known_enough(const HourlySeries& series, LocalHour from, LocalHour to) {
  return to <= from || series.missing_in(from, to) <= (1.0 - kLeastCoverageOfYears) * (to - from);
}

/// The figures of one past winter; nothing where it has too few hours for either.
std::optional<PastWinterChill> past_winter(ChillMeasure measure, const HourlySeries& series,
                                           const Winter& winter, LocalHour same_day) {
  const LocalHour stand = std::min(same_day, winter.end());
  PastWinterChill past{
      .year = winter.year, .name = winter.name(), .same_day = {}, .whole = {}, .from_where = {}};
  const ChillModel& model = chill_model(measure);
  ChillState state;
  model.run_on(KnownHours(series, winter.begin(), stand), state, {});
  if (known_enough(series, winter.begin(), stand)) past.same_day = state.total;
  model.run_on(KnownHours(series, stand, winter.end()), state, {});
  if (known_enough(series, winter.begin(), winter.end())) past.whole = state.total;
  if (!past.same_day && !past.whole) return std::nullopt;
  return past;
}

void add_bare_totals(YearsFinding& years, const WinterChill& chill,
                     const std::vector<PastWinterTotal>& bare) {
  for (const PastWinterTotal& total : bare) {
    const auto at = total.totals.find(years.measure);
    if (at == total.totals.end() || total.year == chill.today.winter.year) continue;
    const auto same_year = [&](const PastWinterChill& past) { return past.year == total.year; };
    if (std::any_of(years.winters.begin(), years.winters.end(), same_year))
      continue;  // readings come first
    // At the winter's end a total is the same day's figure.
    const auto same_day = chill.today.winter_over() ? std::optional(at->second.low) : std::nullopt;
    years.winters.push_back({.year = total.year,
                             .name = total.winter,
                             .same_day = same_day,
                             .whole = at->second.low,
                             .bare_total = true,
                             .from_where = total.from_where});
  }
  std::sort(years.winters.begin(), years.winters.end(),
            [](const PastWinterChill& a, const PastWinterChill& b) { return a.year < b.year; });
}

/// Fills in this winter's figure on the basis that all winters share, and its range.
void take_now(YearsFinding& years, const MeasuredChill& on_basis, const HourlySeries& basis,
              const HourlySeries& by_hour) {
  years.now = on_basis.total().amount();
  if (on_basis.gaps != GapRange::unknown) years.now_range = on_basis.range;
  if (&basis == &by_hour) return;
  HourlySeries same_hours;
  for (LocalHour hour = on_basis.curve.from(); hour < on_basis.curve.to(); hour = hour + 1) {
    if (!basis.at(hour)) continue;
    if (const auto reading = by_hour.at(hour)) same_hours.set(hour, *reading);
  }
  ChillState state;
  chill_model(years.measure)
      .run_on(KnownHours(same_hours, on_basis.curve.from(), on_basis.curve.to()), state, {});
  years.difference = years.now - state.total;
}

/// The place of this winter among the same days of the others. Where much is missing, the recorded
/// figure is too small by an amount that nobody knows, and its place is told only if no filling of
/// the gaps changes it.
void rank_same_day(YearsFinding& years, const MeasuredChill& on_basis) {
  std::vector<double> same_day;
  for (const PastWinterChill& past : years.winters) {
    if (past.same_day) same_day.push_back(*past.same_day);
  }
  years.compared = static_cast<int>(same_day.size());
  if (same_day.empty()) return;
  years.same_day_median = quantile(same_day, 0.5);
  const auto place = [&](double amount) {
    return 1 + static_cast<int>(std::count_if(same_day.begin(), same_day.end(),
                                              [&](double past) { return past > amount; }));
  };
  years.rank = place(years.now);
  years.rank_at_best = place(on_basis.utmost.high);
  const bool decided = years.rank_at_best == place(on_basis.utmost.low);
  // Winters that stand level share their places.
  years.rank_at_worst =
      1 + static_cast<int>(std::count_if(same_day.begin(), same_day.end(),
                                         [&](double past) { return past >= on_basis.utmost.low; }));
  const bool too_little =
      on_basis.gaps == GapRange::unknown || on_basis.coverage() < kLeastCoverageForRank;
  years.rank_withheld = too_little && !decided;
  if (years.rank_withheld) years.rank = 0;
}

std::optional<Trend> trend_of(const std::vector<double>& times, const std::vector<double>& totals) {
  if (totals.size() < kLeastForTrend) return std::nullopt;
  Trend trend;
  trend.test = mann_kendall(totals);
  trend.line = theil_sen(times, totals);
  trend.first_year = static_cast<int>(times.front());
  trend.last_year = static_cast<int>(times.back());
  if (trend.test.p < kChance)
    trend.word = trend.test.s > 0 ? TrendWord::rising : TrendWord::falling;
  return trend;
}

/// Whole winters in order of years; this one stands among them once it is over and known.
void judge_whole(YearsFinding& years, const WinterChill& chill, bool this_one_counts) {
  std::vector<std::pair<double, double>> whole;
  for (const PastWinterChill& past : years.winters) {
    if (past.whole) whole.emplace_back(past.year, *past.whole);
  }
  if (this_one_counts) whole.emplace_back(chill.today.winter.year, years.now);
  std::sort(whole.begin(), whole.end());
  std::vector<double> times;
  std::vector<double> totals;
  for (const auto& [year, total] : whole) {
    times.push_back(year);
    totals.push_back(total);
  }
  years.whole_winters = static_cast<int>(totals.size());
  years.few_winters = years.whole_winters < kFewWinters;
  if (totals.empty()) return;
  years.exceeded_in_nine_of_ten = quantile(totals, 0.1);
  years.median_whole = quantile(totals, 0.5);
  years.trend = trend_of(times, totals);
}

}  // namespace

YearsFinding years_of(ChillMeasure measure, const WeatherRecord& record, const WinterChill& chill,
                      const std::vector<PastWinterTotal>& bare_totals, const WinterChill* reduced) {
  const ComparisonBasis basis = comparison_basis(record, chill.today);
  const Winter& winter = chill.today.winter;
  const bool daily = basis.detail == WinterDetail::daily_extremes;
  std::optional<WinterChill> worked_out;
  if (daily && !reduced) {
    const auto measures = {measure};
    worked_out = winter_chill(reduced_to_extremes(record), by_whole_days(chill.today), measures);
    reduced = &*worked_out;
  }
  const MeasuredChill& on_basis = daily ? reduced->of(measure) : chill.of(measure);
  const LocalHour stand = std::max(winter.begin(), on_basis.curve.to());
  YearsFinding years{.measure = measure, .basis = basis.detail};
  take_now(years, on_basis, *basis.series, record.hours);
  for (const Winter& past : winters_on_record(record, chill.today.window, winter.year)) {
    // The last day of February is one day further on in a leap year: the end of a winter is the end
    // of any.
    const LocalHour same_day = stand == winter.end() ? past.end() : same_place(stand, winter, past);
    if (auto figures = past_winter(measure, *basis.series, past, same_day)) {
      years.winters.push_back(std::move(*figures));
    } else {
      ++years.left_out;
    }
  }
  add_bare_totals(years, chill, bare_totals);
  rank_same_day(years, on_basis);
  judge_whole(
      years, chill,
      chill.today.winter_over() && known_enough(*basis.series, winter.begin(), winter.end()));
  return years;
}

std::optional<Disagreement> disagreement_of(const YearsFinding& one, const YearsFinding& other) {
  for (const PastWinterChill& a : one.winters) {
    for (const PastWinterChill& b : other.winters) {
      if (a.year != b.year || !a.same_day || !b.same_day) continue;
      const double by_one = one.now - *a.same_day;
      const double by_other = other.now - *b.same_day;
      if (by_one * by_other < 0.0) return Disagreement{one.measure, other.measure, a.year};
    }
  }
  return std::nullopt;
}

}  // namespace winterfolio
