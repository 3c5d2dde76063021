// Offsets between two thermometers, as means of their differences.
#include "weather/gaps.h"

#include <algorithm>
#include <array>
#include <cmath>

#include "base/dates.h"
#include "weather/daily_to_hourly.h"

namespace winterfolio {
namespace {

constexpr std::int32_t kEnoughFine = 30;
constexpr std::int32_t kEnoughCoarse = 60;

struct Mean {
  double sum = 0.0;
  std::int32_t count = 0;
  void add(double value) {
    sum += value;
    ++count;
  }
  double value() const { return count > 0 ? sum / count : 0.0; }
};

/// Month (0 to 11) and hour of day of an hour.
struct Place {
  std::size_t month;
  std::size_t hour;
};

Place place_of(LocalHour hour) {
  return {unsigned{hour.date().month()} - 1, static_cast<std::size_t>(hour.hour_of_day())};
}

class Offsets {
 public:
  void add(Place place, double difference) {
    all_.add(difference);
    months_[place.month].add(difference);
    hours_[place.hour].add(difference);
    fine_[place.month][place.hour].add(difference);
  }
  bool is_fine(Place place) const { return fine_[place.month][place.hour].count >= kEnoughFine; }
  double at(Place place) const {
    if (is_fine(place)) return fine_[place.month][place.hour].value();
    // Month and hour apart: what each of them differs from the whole adds up.
    double offset = all_.value();
    if (months_[place.month].count >= kEnoughCoarse)
      offset += months_[place.month].value() - all_.value();
    if (hours_[place.hour].count >= kEnoughFine)
      offset += hours_[place.hour].value() - all_.value();
    return offset;
  }
  const Mean& all() const { return all_; }

 private:
  Mean all_;
  std::array<Mean, 12> months_;
  std::array<Mean, 24> hours_;
  std::array<std::array<Mean, 24>, 12> fine_;
};

/// The thermometer nearby: which of its hours serve.
struct Nearby {
  const HourlySeries& hours;
  HourOrigin origin = HourOrigin::observed;
};

std::optional<double> mean_of(const HourlySeries& series, LocalHour hour, HourOrigin origin) {
  const auto reading = series.at(hour);
  if (!reading || reading->origin != origin) return std::nullopt;
  return reading->mean.degrees();
}

/// Calls `visit(hour, own, nearby)` for each hour that was observed here and serves there.
template <typename Visit>
void for_shared_hours(const HourlySeries& own, const Nearby& nearby, Visit visit) {
  const LocalHour from = std::max(own.first(), nearby.hours.first());
  const LocalHour to = std::min(own.end(), nearby.hours.end());
  for (LocalHour hour = from; hour < to; hour = hour + 1) {
    const auto a = mean_of(own, hour, HourOrigin::observed);
    const auto b = mean_of(nearby.hours, hour, nearby.origin);
    if (a && b) visit(hour, *a, *b);
  }
}

/// Weeks are left out in turn, so that a day is never judged by its own neighbours.
std::size_t half_of(LocalHour hour) {
  constexpr std::int32_t kWeek = 7 * 24;
  return static_cast<std::size_t>((hour.hours_since_1970() / kWeek) & 1);
}

double error_of(const HourlySeries& own, const Nearby& nearby, const Offsets& whole) {
  std::array<Offsets, 2> halves;
  for_shared_hours(own, nearby, [&](LocalHour hour, double a, double b) {
    halves[half_of(hour)].add(place_of(hour), a - b);
  });
  Mean squares;
  for_shared_hours(own, nearby, [&](LocalHour hour, double a, double b) {
    const Offsets& other = halves[1 - half_of(hour)];
    const double offset =
        other.all().count > 0 ? other.at(place_of(hour)) : whole.at(place_of(hour));
    const double missed = a - b - offset;
    squares.add(missed * missed);
  });
  return std::sqrt(squares.value());
}

std::optional<NearbyOffsets> fit(const HourlySeries& own, const Nearby& nearby) {
  if (own.empty() || nearby.hours.empty()) return std::nullopt;
  Offsets offsets;
  for_shared_hours(own, nearby,
                   [&](LocalHour hour, double a, double b) { offsets.add(place_of(hour), a - b); });
  if (offsets.all().count < kFewestShared) return std::nullopt;
  NearbyOffsets result;
  result.fit.shared_hours = offsets.all().count;
  result.fit.offset = CelsiusDelta(offsets.all().value());
  result.fit.error = CelsiusDelta(error_of(own, nearby, offsets));
  for_shared_hours(own, nearby, [&](LocalHour hour, double, double) {
    result.fit.fine_hours += offsets.is_fine(place_of(hour));
  });
  for (std::size_t month = 0; month < result.own_less_nearby.size(); ++month) {
    for (std::size_t hour = 0; hour < result.own_less_nearby[month].size(); ++hour)
      result.own_less_nearby[month][hour] = offsets.at({month, hour});
  }
  return result;
}

std::optional<NearbyFill> fill(HourlySeries& series, const Nearby& nearby,
                               const DailySeries& known) {
  const auto offsets = fit(series, nearby);
  if (!offsets) return std::nullopt;
  NearbyFill result{offsets->fit, 0};
  for (LocalHour hour = series.first(); hour < series.end(); hour = hour + 1) {
    if (series.at(hour) || known.at(hour.date())) continue;
    const auto theirs = nearby.hours.at(hour);
    if (!theirs || theirs->origin != nearby.origin) continue;
    const CelsiusDelta offset = offsets->at(hour);
    series.set(hour, {theirs->mean + offset, theirs->lowest + offset, HourOrigin::nearby});
    ++result.filled;
  }
  return result;
}

}  // namespace

CelsiusDelta NearbyOffsets::at(LocalHour hour) const {
  const Place place = place_of(hour);
  return CelsiusDelta(own_less_nearby[place.month][place.hour]);
}

std::int32_t shared_hours(const HourlySeries& a, const HourlySeries& b) {
  std::int32_t shared = 0;
  if (!a.empty() && !b.empty())
    for_shared_hours(a, Nearby{b}, [&](LocalHour, double, double) { ++shared; });
  return shared;
}

std::optional<NearbyOffsets> fit_nearby(const HourlySeries& own, const HourlySeries& nearby) {
  return fit(own, Nearby{nearby});
}

std::optional<NearbyFill> fill_from_nearby(HourlySeries& series, const HourlySeries& nearby) {
  return fill(series, Nearby{nearby}, {});
}

std::optional<NearbyFill> fill_from_nearby(HourlySeries& series, const DailySeries& nearby,
                                           const DailySeries& known, double latitude) {
  const HourlySeries drawn = hourly_from_daily(nearby, latitude);
  return fill(series, Nearby{drawn, HourOrigin::daily_extremes}, known);
}

}  // namespace winterfolio
