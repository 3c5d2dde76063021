// Joins what is known by the hour and by the day, and finds today in it.
#include "findings/weather_record.h"

#include <algorithm>

#include "weather/daily_to_hourly.h"
#include "weather/join_series.h"

namespace winterfolio {
namespace {

/// The last known hour before `limit`; nothing if there is none.
std::optional<LocalHour> last_known_before(const HourlySeries& series, LocalHour limit) {
  if (series.empty()) return std::nullopt;
  for (LocalHour hour = std::min(limit, series.end()) - 1; hour >= series.first();
       hour = hour - 1) {
    if (series.at(hour)) return hour;
  }
  return std::nullopt;
}

/// The extremes of every day, from the hours where all of them are known.
DailySeries all_extremes(const HourlySeries& readings, const DailySeries& days) {
  DailySeries extremes = daily_from_hourly(readings);
  if (days.empty()) return extremes;
  for (Date day = days.first(); day <= days.last(); day = plus_days(day, 1)) {
    if (!extremes.at(day)) extremes.set(day, days.at(day));
  }
  return extremes;
}

Winter winter_begun_by(const WinterWindow& window, Date day) {
  int year = int{day.year()};
  while (winter_of(window, year).from > day) --year;
  return winter_of(window, year);
}

}  // namespace

WeatherRecord weather_record(HourlySeries readings, const DailySeries& days, double latitude,
                             HourlySeries forecast) {
  WeatherRecord record;
  record.latitude = latitude;
  record.forecast = std::move(forecast);
  record.days = days;
  fill_short_gaps(readings);
  if (!days.empty()) {
    record.by_extremes = hourly_from_daily(all_extremes(readings, days), latitude);
    const HourlySeries drawn = hourly_from_daily(days, latitude);
    if (readings.empty()) {
      readings = drawn;
    } else {
      join_series(readings, drawn);
    }
  }
  record.hours = std::move(readings);
  return record;
}

WinterDetail detail_of(const WeatherRecord& record, LocalHour from, LocalHour to) {
  const std::int32_t known = (to - from) - record.hours.missing_in(from, to);
  const std::int32_t drawn = record.hours.count_in(from, to, HourOrigin::daily_extremes);
  return 2 * drawn > known ? WinterDetail::daily_extremes : WinterDetail::hourly;
}

std::optional<Today> stand_at(const WeatherRecord& record, const WinterWindow& window,
                              std::optional<int> winter_year, std::optional<Date> as_of) {
  if (record.hours.empty()) return std::nullopt;
  LocalHour limit = record.hours.end();
  if (as_of) limit = LocalHour::at(*as_of, 0) + 24;
  if (winter_year && !as_of) limit = winter_of(window, *winter_year + 1).begin();
  const auto last = last_known_before(record.hours, limit);
  if (!last) return std::nullopt;
  Today today;
  today.window = window;
  today.as_of = as_of.value_or(last->date());
  today.winter =
      winter_year ? winter_of(window, *winter_year) : winter_begun_by(window, today.as_of);
  // The day of the last reading goes as far as its readings; an earlier or a later day is counted
  // whole.
  const bool readings_end_here = last == last_known_before(record.hours, record.hours.end());
  today.now = LocalHour::at(today.as_of, 0) + 24;
  if (readings_end_here && last->date() == today.as_of) today.now = *last + 1;
  return today;
}

ComparisonBasis comparison_basis(const WeatherRecord& record, const Today& today) {
  bool daily =
      detail_of(record, today.winter.begin(), std::max(today.winter.begin(), today.counted_to())) ==
      WinterDetail::daily_extremes;
  for (const Winter& winter : winters_on_record(record, today.window, today.winter.year)) {
    daily =
        daily || detail_of(record, winter.begin(), winter.end()) == WinterDetail::daily_extremes;
  }
  if (daily && !record.by_extremes.empty())
    return {&record.by_extremes, WinterDetail::daily_extremes};
  return {&record.hours, WinterDetail::hourly};
}

Today by_whole_days(Today today) {
  today.now = LocalHour::at(today.now.date(), 0);
  return today;
}

WeatherRecord reduced_to_extremes(const WeatherRecord& record) {
  WeatherRecord reduced = record;
  if (!record.by_extremes.empty()) reduced.hours = record.by_extremes;
  return reduced;
}

std::vector<Winter> winters_on_record(const WeatherRecord& record, const WinterWindow& window,
                                      std::optional<int> except) {
  std::vector<Winter> winters;
  if (record.hours.empty()) return winters;
  for (int year = winter_year_at_or_after(window, record.hours.first().date());; ++year) {
    const Winter winter = winter_of(window, year);
    if (winter.begin() >= record.hours.end()) break;
    const bool known =
        record.hours.missing_in(winter.begin(), winter.end()) < winter.end() - winter.begin();
    if (known && except != year) winters.push_back(winter);
  }
  return winters;
}

}  // namespace winterfolio
