// Lays a block's own readings over the orchard's.
#include "findings/places.h"

namespace winterfolio {
namespace {

/// Sets the days that `own` lacks and `behind` has, moved by how the extremes of both thermometers
/// differ; nothing, and none set, where too few days are shared.
std::optional<ExtremesFit> stand_behind(DailySeries& own, const DailySeries& own_extremes,
                                        const DailySeries& theirs, const DailySeries& behind) {
  const auto offsets = fit_extremes(own_extremes, theirs);
  if (!offsets) return std::nullopt;
  if (behind.empty()) return offsets->fit;
  for (Date day = behind.first(); day <= behind.last(); day = plus_days(day, 1)) {
    const auto extremes = behind.at(day);
    if (!extremes || own.at(day) || own_extremes.at(day)) continue;
    own.set(day, offsets->moved(day, *extremes));
  }
  return offsets->fit;
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
