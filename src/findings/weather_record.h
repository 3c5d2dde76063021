// All that is known of the temperatures of one place, year after year, as one run of hours; and
// where in it "today" is.
//
// Readings by the hour are believed first; days of which only the extremes are known are drawn by
// Linvill's curve. An hourly winter and a daily one are never compared as they are: for that, every
// day is reduced to its extremes and drawn by the curve (`by_extremes`), and the difference that
// this makes is told.
#pragma once

#include <optional>
#include <vector>

#include "weather/daily_series.h"
#include "weather/hourly_series.h"
#include "weather/season.h"

namespace winterfolio {

struct WeatherRecord {
  HourlySeries hours;        ///< every known hour; its origin tells where from
  DailySeries days;          ///< the days known by their extremes, as they were read
  HourlySeries by_extremes;  ///< every day as its extremes would have it; empty where no day is
                             ///< known by extremes alone
  HourlySeries forecast;     ///< hours to come, from a forecast; may be empty
  double latitude = 0.0;     ///< degrees, south negative
};

/// Bridges gaps of up to three hours, draws the days and joins the two.
WeatherRecord weather_record(HourlySeries readings, const DailySeries& days, double latitude,
                             HourlySeries forecast = {});

/// How a winter is known.
enum class WinterDetail { hourly, daily_extremes };

/// Most of the known hours of the stretch decide; hourly if none is known.
WinterDetail detail_of(const WeatherRecord& record, LocalHour from, LocalHour to);

/// Which winter is spoken of, and from where in it.
struct Today {
  WinterWindow window;
  Winter winter;
  Date as_of;
  LocalHour now;  ///< hours before this one are past, known or missing; those from it on are still
                  ///< to come

  bool winter_over() const { return now >= winter.end(); }
  /// How far cold is counted: `now`, or the winter's end if that has passed.
  LocalHour counted_to() const { return now < winter.end() ? now : winter.end(); }
};

/// The day spoken from defaults to that of the last reading, the winter to the one begun last by
/// then. For an earlier winter the day defaults to the last reading before the next one begins.
/// Nothing if no hour is known.
std::optional<Today> stand_at(const WeatherRecord& record, const WinterWindow& window,
                              std::optional<int> winter_year = {}, std::optional<Date> as_of = {});

/// The winters of the record that hold a known hour, by year, `except` left out.
std::vector<Winter> winters_on_record(const WeatherRecord& record, const WinterWindow& window,
                                      std::optional<int> except = {});

/// The series on which this winter and all others are of one making: by extremes as soon as one of
/// them is known so.
struct ComparisonBasis {
  const HourlySeries* series;  ///< in the record, which must outlive this
  WinterDetail detail;
};
ComparisonBasis comparison_basis(const WeatherRecord& record, const Today& today);

/// Where one stands when every day is taken by its extremes: a day begun has none yet.
Today by_whole_days(Today today);

/// The record as it would be had every day been kept by its extremes: for comparing an hourly
/// winter with daily ones.
WeatherRecord reduced_to_extremes(const WeatherRecord& record);

/// The hour of `other` that stands where `hour` stands in `winter`: as many hours after its
/// beginning.
inline LocalHour same_place(LocalHour hour, const Winter& winter, const Winter& other) {
  return other.begin() + (hour - winter.begin());
}

}  // namespace winterfolio
