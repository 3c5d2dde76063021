// Lays a block's own readings over the orchard's.
#include "findings/places.h"

#include <algorithm>
#include <cmath>
#include <vector>

#include "weather/daily_to_hourly.h"

namespace winterfolio {
namespace {

constexpr int kEnoughOfMonth = 10;

struct Sum {
  double total = 0.0;
  int days = 0;
  void add(double value) {
    total += value;
    ++days;
  }
  double mean() const { return days > 0 ? total / days : 0.0; }
};

/// Differences of one extreme, by month where there are enough days of it.
class DayOffsets {
 public:
  void add(Date day, double difference) {
    all_.add(difference);
    months_[month_of(day)].add(difference);
  }
  double at(Date day) const {
    const Sum& month = months_[month_of(day)];
    return month.days >= kEnoughOfMonth ? month.mean() : all_.mean();
  }
  const Sum& all() const { return all_; }

 private:
  static std::size_t month_of(Date day) { return unsigned{day.month()} - 1; }
  Sum all_;
  std::array<Sum, 12> months_;
};

struct BothOffsets {
  DayOffsets minimum;
  DayOffsets maximum;
  void add(Date day, const DailyExtremes& own, const DailyExtremes& theirs) {
    minimum.add(day, (own.minimum - theirs.minimum).degrees());
    maximum.add(day, (own.maximum - theirs.maximum).degrees());
  }
};

/// A day's extremes of a record: as kept, else from its hours.
DailySeries extremes_of(const HourlySeries& hours, const DailySeries& days) {
  DailySeries extremes = daily_from_hourly(hours);
  if (days.empty()) return extremes;
  for (Date day = days.first(); day <= days.last(); day = plus_days(day, 1)) {
    if (const auto kept = days.at(day)) extremes.set(day, kept);
  }
  return extremes;
}

template <typename Visit>
void for_shared_days(const DailySeries& own, const DailySeries& theirs, Visit visit) {
  if (own.empty() || theirs.empty()) return;
  const Date last = std::min(own.last(), theirs.last());
  for (Date day = std::max(own.first(), theirs.first()); day <= last; day = plus_days(day, 1)) {
    const auto a = own.at(day);
    const auto b = theirs.at(day);
    if (a && b) visit(day, *a, *b);
  }
}

/// Weeks are left out in turn, so that a day is never judged by its own neighbours.
std::size_t half_of(Date day) {
  return static_cast<std::size_t>((LocalHour::at(day, 0).hours_since_1970() / (7 * 24)) & 1);
}

double error_of(const DailySeries& own, const DailySeries& theirs, const BothOffsets& whole) {
  std::array<BothOffsets, 2> halves;
  for_shared_days(own, theirs, [&](Date day, const DailyExtremes& a, const DailyExtremes& b) {
    halves[half_of(day)].add(day, a, b);
  });
  Sum squares;
  for_shared_days(own, theirs, [&](Date day, const DailyExtremes& a, const DailyExtremes& b) {
    const BothOffsets& other = halves[1 - half_of(day)];
    const BothOffsets& judge = other.minimum.all().days > 0 ? other : whole;
    const double low = (a.minimum - b.minimum).degrees() - judge.minimum.at(day);
    const double high = (a.maximum - b.maximum).degrees() - judge.maximum.at(day);
    squares.add(low * low);
    squares.add(high * high);
  });
  return std::sqrt(squares.mean());
}

/// Sets the days that `own` lacks and `behind` has, moved by how the extremes of both thermometers
/// differ; nothing, and none set, where too few days are shared.
std::optional<ExtremesFit> stand_behind(DailySeries& own, const DailySeries& own_extremes,
                                        const DailySeries& theirs, const DailySeries& behind) {
  BothOffsets offsets;
  for_shared_days(
      own_extremes, theirs,
      [&](Date day, const DailyExtremes& a, const DailyExtremes& b) { offsets.add(day, a, b); });
  const ExtremesFit fit{offsets.minimum.all().days, CelsiusDelta(offsets.minimum.all().mean()),
                        CelsiusDelta(offsets.maximum.all().mean()),
                        CelsiusDelta(error_of(own_extremes, theirs, offsets))};
  if (fit.shared_days < kFewestSharedDays) return std::nullopt;
  for (Date day = behind.first(); day <= behind.last(); day = plus_days(day, 1)) {
    const auto extremes = behind.at(day);
    if (!extremes || own.at(day) || own_extremes.at(day)) continue;
    const Celsius low = extremes->minimum + CelsiusDelta(offsets.minimum.at(day));
    const Celsius high = extremes->maximum + CelsiusDelta(offsets.maximum.at(day));
    own.set(day, DailyExtremes{std::min(low, high), std::max(low, high)});
  }
  return fit;
}

/// Sets the hours that `own` lacks and `theirs` has from readings by the hour, moved.
void stand_behind(HourlySeries& own, const HourlySeries& theirs, const NearbyOffsets& offsets) {
  for (LocalHour hour = theirs.first(); hour < theirs.end(); hour = hour + 1) {
    const auto reading = theirs.at(hour);
    if (!reading || reading->origin == HourOrigin::daily_extremes || own.at(hour)) continue;
    const CelsiusDelta offset = offsets.at(hour);
    own.set(hour, {reading->mean + offset, reading->lowest + offset, HourOrigin::nearby});
  }
}

/// A forecast for the orchard, as it would read in the block.
HourlySeries moved(const HourlySeries& forecast, const NearbyOffsets& offsets) {
  HourlySeries result;
  for (LocalHour hour = forecast.first(); hour < forecast.end(); hour = hour + 1) {
    const auto reading = forecast.at(hour);
    if (!reading) continue;
    const CelsiusDelta offset = offsets.at(hour);
    result.set(hour, {reading->mean + offset, reading->lowest + offset, reading->origin});
  }
  return result;
}

}  // namespace

PlaceWeather place_weather(const OrchardBlock& block, HourlySeries own_hours, DailySeries own_days,
                           const WeatherRecord& orchard) {
  PlaceWeather place;
  place.block = block.id;
  place.thermometer = block.thermometer->file;
  if (!own_hours.empty()) own_days = {};
  fill_short_gaps(own_hours);
  place.own_hours = std::move(own_hours);
  place.own_days = own_days;
  HourlySeries hours = place.own_hours;
  HourlySeries forecast;
  if (const auto offsets = fit_nearby(place.own_hours, orchard.hours)) {
    place.by_hour = offsets->fit;
    stand_behind(hours, orchard.hours, *offsets);
    if (!orchard.forecast.empty()) forecast = moved(orchard.forecast, *offsets);
  }
  DailySeries days = place.own_days;
  // Behind an hourly thermometer only days of which the orchard has no hours need their extremes.
  const bool daily_here = place.own_hours.empty() && !own_days.empty();
  if (daily_here || !orchard.days.empty()) {
    // What both differ shows on days known by the hour as well.
    const DailySeries theirs = extremes_of(orchard.hours, orchard.days);
    place.by_extremes = stand_behind(days, extremes_of(place.own_hours, place.own_days), theirs,
                                     daily_here ? theirs : orchard.days);
  }
  place.record = weather_record(std::move(hours), days, orchard.latitude, std::move(forecast));
  return place;
}

bool mostly_own(const PlaceWeather& place, LocalHour from, LocalHour to) {
  const std::int32_t known = (to - from) - place.record.hours.missing_in(from, to);
  std::int32_t own = (to - from) - place.own_hours.missing_in(from, to);
  for (Date day = from.date(); !place.own_days.empty() && LocalHour::at(day, 0) < to;
       day = plus_days(day, 1)) {
    own += place.own_days.at(day) ? 24 : 0;
  }
  return known > 0 && 2 * own > known;
}

bool anything_known(const PlaceWeather& place, LocalHour from, LocalHour to) {
  return from < to && place.record.hours.missing_in(from, to) < to - from;
}

}  // namespace winterfolio
