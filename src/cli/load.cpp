// Reads an orchard file and its temperature files, and joins these to one record of its weather.
#include "cli/load.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <map>
#include <utility>

#include "base/time_zone.h"
#include "findings/years.h"
#include "readers/orchard/orchard_reader.h"
#include "readers/temperature/registry.h"
#include "readers/temperature/temperature_file.h"
#include "weather/daily_to_hourly.h"
#include "weather/gaps.h"
#include "weather/join_series.h"
#include "weather/nearby_days.h"

namespace winterfolio {
namespace {

std::string path_of(const Orchard& orchard, const std::string& file) {
  return orchard.folder.empty() || orchard.folder == "." ? file : orchard.folder + "/" + file;
}

/// A file together with the entry that names it.
struct NamedFile {
  const TemperatureSource* source;
  TemperatureFile file;
};

void say_files_differ(const NamedFile& file, const SharedHours& shared, Diagnostics& diagnostics) {
  Diagnostic note;
  note.id = "temperatures.files-differ";
  note.severity = Severity::warning;
  note.at = file.source->at;
  note.message = fmt::format(
      "{} of the {} hours that {} shares with an earlier file differ, by up to {:.1f} °C",
      shared.differing, shared.shared, file.source->file, shared.largest);
  note.expected = "files of one thermometer that agree where they overlap";
  note.mend =
      "name the better file first (its hours are used), or mark the other 'stands_for: nearby'";
  diagnostics.add(note);
}

/// A clock that is not the orchard's cannot be joined with it unsaid.
void say_clock_not_known(const NamedFile& file, Diagnostics& diagnostics) {
  Diagnostic fault;
  fault.id = "temperatures.clock-unknown";
  fault.at = file.source->at;
  fault.message = fmt::format(
      "the stamps of {} are UTC, and nothing says how far the orchard's clock is from it",
      file.source->file);
  fault.expected = "the orchard's time zone, or the file's utc_offset";
  fault.mend =
      "add 'time_zone: America/Los_Angeles' (yours) under 'orchard:', or 'utc_offset: \"-08:00\"' "
      "to this file's entry";
  diagnostics.add(fault);
}

struct Joined {
  HourlySeries hours;
  DailySeries days;
};

void join(Joined& all, const NamedFile& file, ReadingsFile& told, Diagnostics& diagnostics) {
  if (file.file.is_daily()) {
    const DailySeries& days = file.file.days;
    for (int i = 0; i < days.size(); ++i) {
      const Date date = plus_days(days.first(), i);
      if (const auto extremes = days.at(date); extremes && !all.days.at(date))
        all.days.set(date, extremes);
    }
    return;
  }
  if (file.file.clock == SeriesClock::utc) say_clock_not_known(file, diagnostics);
  const SharedHours shared = join_series(all.hours, file.file.hours);
  if (shared.shared > 0) told.overlap = shared;
  if (shared.differing > 0) say_files_differ(file, shared, diagnostics);
}

/// Every file of the list, each with its entry, in the list's order. Minima and maxima in two files
/// are put together where both stand for the same thing, and go by the entry that comes first.
std::vector<NamedFile> read_files(const Orchard& orchard, Diagnostics& diagnostics) {
  std::map<StandsFor, std::vector<TemperatureFile>> by_purpose;
  for (std::size_t i = 0; i < orchard.temperatures.size(); ++i) {
    const TemperatureSource& source = orchard.temperatures[i];
    auto file = read_temperature_file(path_of(orchard, source.file), options_of(source, orchard),
                                      diagnostics);
    if (!file) continue;
    file->entries = {i};
    by_purpose[source.stands_for].push_back(std::move(*file));
  }
  std::vector<NamedFile> files;
  for (auto& [purpose, read] : by_purpose) {
    pair_daily_halves(read, diagnostics);
    for (TemperatureFile& file : read) {
      const TemperatureSource& source = orchard.temperatures[file.entries.front()];
      files.push_back({&source, std::move(file)});
    }
  }
  std::sort(files.begin(), files.end(),
            [](const NamedFile& a, const NamedFile& b) { return a.file.entries < b.file.entries; });
  return files;
}

/// What is told of a file; of a pair of halves, under both names.
ReadingsFile told_of(const Orchard& orchard, const NamedFile& file) {
  ReadingsFile told = readings_of(*file.source, file.file);
  for (std::size_t i = 1; i < file.file.entries.size(); ++i)
    told.file += " + " + orchard.temperatures[file.file.entries[i]].file;
  return told;
}

/// Days to come are drawn by the curve as past ones are; hours that a forecast names go before.
HourlySeries hours_to_come(Joined forecast, double latitude) {
  if (forecast.days.empty()) return std::move(forecast.hours);
  HourlySeries drawn = hourly_from_daily(forecast.days, latitude);
  if (forecast.hours.empty()) return drawn;
  join_series(forecast.hours, drawn);
  return std::move(forecast.hours);
}

/// "has 24 hours in common", for whichever of the two kinds the orchard's own record is made of.
void say_too_little_shared(const NamedFile& nearby, const Joined& own, const DailySeries& own_days,
                           Diagnostics& diagnostics) {
  const TemperatureFile& file = nearby.file;
  const bool by_days = own.hours.empty() && !own.days.empty();
  const DailySeries theirs = extremes_of(file.hours, file.days);
  Diagnostic told;
  told.id = "temperatures.nearby-unused";
  told.severity = Severity::note;
  told.at = nearby.source->at;
  if (by_days || file.is_daily()) {
    told.message = fmt::format(
        "{} has {} days in common with the orchard's own readings, too few to stand in for them",
        nearby.source->file, shared_days(own_days, theirs));
    told.expected = fmt::format("{} shared days or more, to fit its offset by", kFewestSharedDays);
  } else {
    told.message = fmt::format(
        "{} has {} hours in common with the orchard's own readings, too few to stand in for them",
        nearby.source->file, shared_hours(own.hours, file.hours));
    told.expected =
        fmt::format("{} shared hours (ten days) or more, to fit its offset by", kFewestShared);
  }
  told.mend = "leave both thermometers out together for longer, or name a longer file";
  diagnostics.add(told);
}

/// "1.2 °C warmer", of the place nearby.
std::string against_here(CelsiusDelta own_less_nearby) {
  const double offset = own_less_nearby.degrees();
  return fmt::format("{:.1f} °C {}", std::abs(offset), offset < 0 ? "warmer" : "colder");
}

void say_filled(const NamedFile& nearby, std::string message, Diagnostics& diagnostics) {
  Diagnostic told;
  told.id = "temperatures.filled";
  told.severity = Severity::note;
  told.at = nearby.source->at;
  told.message = std::move(message);
  diagnostics.add(told);
}

/// The long holes of the orchard's hours, from hours read nearby or drawn from days kept there.
void fill_hours(const NamedFile& nearby, const DailySeries& own_days, HourlySeries& own,
                double latitude, ReadingsFile& facts, Diagnostics& diagnostics) {
  const TemperatureFile& file = nearby.file;
  facts.nearby = file.is_daily() ? fill_from_nearby(own, file.days, own_days, latitude)
                                 : fill_from_nearby(own, file.hours);
  if (!facts.nearby || facts.nearby->filled == 0) return;
  const NearbyFit& fit = facts.nearby->fit;
  say_filled(
      nearby,
      fmt::format("{} missing hours are filled from {}{}, which reads {} on the {} hours "
                  "both have (error {:.1f} °C)",
                  facts.nearby->filled, file.is_daily() ? "the days of " : "", nearby.source->file,
                  against_here(fit.offset), fit.shared_hours, fit.error.degrees()),
      diagnostics);
}

/// The missing days of a record kept by the day, from days kept nearby or those of its hours.
void fill_days(const NamedFile& nearby, const DailySeries& own_days, DailySeries& days,
               ReadingsFile& facts, Diagnostics& diagnostics) {
  const DailySeries theirs = extremes_of(nearby.file.hours, nearby.file.days);
  facts.nearby_days = fill_days_from_nearby(days, own_days, theirs);
  if (!facts.nearby_days || facts.nearby_days->filled == 0) return;
  const ExtremesFit& fit = facts.nearby_days->fit;
  say_filled(nearby,
             fmt::format("{} missing days are filled from {}, whose lowest of a day reads {} and "
                         "whose highest {} on the {} days both have (error {:.1f} °C)",
                         facts.nearby_days->filled, nearby.source->file, against_here(fit.minimum),
                         against_here(fit.maximum), fit.shared_days, fit.error.degrees()),
             diagnostics);
}

/// Fills the orchard's own long holes from a nearby thermometer, and says by how much they differ.
/// Hours are filled as hours and days as days, so that each winter stays of one making; what was
/// read here, by the hour or as a day's extremes, always goes before days kept elsewhere.
///
/// own_days   the days as known here before anything was filled
void fill_from(const NamedFile& nearby, const DailySeries& own_days, Joined& own, double latitude,
               ReadingsFile& facts, Diagnostics& diagnostics) {
  if (nearby.file.clock == SeriesClock::utc) say_clock_not_known(nearby, diagnostics);
  if (!own.hours.empty()) fill_hours(nearby, own_days, own.hours, latitude, facts, diagnostics);
  if (!own.days.empty()) fill_days(nearby, own_days, own.days, facts, diagnostics);
  if (!facts.nearby && !facts.nearby_days)
    say_too_little_shared(nearby, own, own_days, diagnostics);
}

/// `told`: of each file, in the same order.
WeatherRecord record_of(const Orchard& orchard, const std::vector<NamedFile>& files,
                        std::vector<ReadingsFile>& told, Diagnostics& diagnostics) {
  Joined own;
  Joined forecast;
  for (std::size_t i = 0; i < files.size(); ++i) {
    const NamedFile& file = files[i];
    switch (file.source->stands_for) {
      case StandsFor::orchard:
        join(own, file, told[i], diagnostics);
        break;
      case StandsFor::forecast:
        join(forecast, file, told[i], diagnostics);
        break;
      case StandsFor::nearby:
        break;
    }
  }
  fill_short_gaps(own.hours);
  const DailySeries own_days = extremes_of(own.hours, own.days);
  for (std::size_t i = 0; i < files.size(); ++i) {
    if (files[i].source->stands_for == StandsFor::nearby)
      fill_from(files[i], own_days, own, orchard.latitude, told[i], diagnostics);
  }
  return weather_record(std::move(own.hours), own.days, orchard.latitude,
                        hours_to_come(std::move(forecast), orchard.latitude));
}

void say_stands_alone(const OrchardBlock& block, Diagnostics& diagnostics) {
  Diagnostic told;
  told.id = "temperatures.block-alone";
  told.severity = Severity::warning;
  told.at = block.thermometer->at;
  told.message = fmt::format(
      "{} and the orchard's own readings have too few hours in common, so nothing stands in for "
      "what it lacks: block '{}' has no past winters to be compared with",
      block.thermometer->file, block.id);
  told.expected = "ten days on which both thermometers were read";
  told.mend =
      "leave both out together for two weeks, or take 'thermometer' away to judge the block's "
      "trees by the orchard's readings";
  diagnostics.add(told);
}

/// The blocks with a thermometer of their own, each with its file read and the orchard's readings
/// behind it.
std::vector<PlaceWeather> read_places(const LoadedOrchard& loaded, std::vector<ReadingsFile>& files,
                                      Diagnostics& diagnostics) {
  std::vector<PlaceWeather> places;
  for (const OrchardBlock& block : loaded.orchard.blocks) {
    if (!block.thermometer) continue;
    std::vector<TemperatureFile> read;
    auto file = read_temperature_file(path_of(loaded.orchard, block.thermometer->file),
                                      options_of(*block.thermometer, loaded.orchard), diagnostics);
    if (!file) continue;
    read.push_back(std::move(*file));
    pair_daily_halves(read, diagnostics);
    if (read.empty()) continue;
    NamedFile named{&*block.thermometer, std::move(read.front())};
    if (named.file.clock == SeriesClock::utc) say_clock_not_known(named, diagnostics);
    files.push_back(readings_of(*named.source, named.file));
    files.back().block = block.id;
    places.push_back(place_weather(block, std::move(named.file.hours), std::move(named.file.days),
                                   loaded.record));
    if (places.back().stands_alone()) say_stands_alone(block, diagnostics);
  }
  return places;
}

std::vector<std::string_view> format_ids() {
  std::vector<std::string_view> ids;
  for (const TemperatureFormat& format : temperature_formats()) ids.push_back(format.id);
  return ids;
}

Diagnostic winter_to_come(const PastWinterTotal& past, const Today& today) {
  Diagnostic fault;
  fault.id = "temperatures.winter-to-come";
  fault.at = past.at;
  fault.message = fmt::format("the winter {} has not been: the last reading is of {}", past.winter,
                              iso_date(today.as_of));
  fault.expected = fmt::format("a winter before {}", today.winter.name());
  fault.mend = "correct the year, or take the line out";
  return fault;
}

Diagnostic winter_with_readings(const PastWinterTotal& past) {
  Diagnostic doubt;
  doubt.severity = Severity::warning;
  doubt.id = "temperatures.winter-with-readings";
  doubt.at = past.at;
  doubt.message =
      fmt::format("the total of the winter {} is not used: its readings come first", past.winter);
  doubt.expected = "totals of winters whose readings are lost";
  doubt.mend = "take the line out, or correct the year";
  return doubt;
}

/// Totals of winters that have not been, and of those that speak for themselves: the one at hand,
/// and any whose hours are known.
void check_past_winters(const LoadedOrchard& loaded, Diagnostics& diagnostics) {
  const auto today = stand_at(loaded.record, loaded.window);
  if (!today) return;
  for (const PastWinterTotal& past : loaded.orchard.past_winters) {
    const Winter winter = winter_of(loaded.window, past.year);
    const double missing = loaded.record.hours.missing_in(winter.begin(), winter.end());
    const bool known = missing <= (1.0 - kLeastCoverageOfYears) * (winter.end() - winter.begin());
    if (past.year > today->winter.year) {
      diagnostics.add(winter_to_come(past, *today));
    } else if (known || past.year == today->winter.year) {
      diagnostics.add(winter_with_readings(past));
    }
  }
}

}  // namespace

ReadingsFile readings_of(const TemperatureSource& source, const TemperatureFile& file) {
  ReadingsFile told;
  told.file = source.file;
  told.format = file.format;
  told.stands_for = source.stands_for;
  told.daily = file.is_daily();
  told.readings = file.readings;
  told.missing_hours = file.missing_hours;
  if (file.readings > 0) {
    told.first = file.first.hour().date();
    told.last = file.last.hour().date();
  }
  told.impossible = file.set_aside.impossible;
  told.duplicates = file.set_aside.duplicates;
  told.spikes = file.set_aside.spikes;
  told.flagged = file.set_aside.flagged;
  told.unreadable = file.set_aside.unreadable;
  told.first_impossible = file.first_set_aside.impossible;
  told.first_duplicate = file.first_set_aside.duplicates;
  told.first_spike = file.first_set_aside.spikes;
  told.first_flagged = file.first_set_aside.flagged;
  told.first_unreadable = file.first_set_aside.unreadable;
  for (const DoubtInFile& doubt : file.doubts) {
    told.doubts.push_back({std::string(id_of(doubt.run.doubt)), doubt.run.from, doubt.run.to,
                           doubt.first_line, doubt.last_line});
  }
  for (const auto& one : file.recognised) told.recognised.emplace_back(one.what, one.found);
  return told;
}

WinterWindow window_of(const Orchard& orchard) {
  WinterWindow window = default_winter_window(orchard.southern());
  window.from = orchard.winter_from.value_or(window.from);
  window.to = orchard.winter_to.value_or(window.to);
  return window;
}

std::optional<LoadedOrchard> load_orchard(const std::string& path, Diagnostics& diagnostics) {
  const int errors_before = diagnostics.errors();
  const std::vector<std::string_view> formats = format_ids();
  auto orchard = read_orchard(path, diagnostics, {formats});
  if (!orchard) return std::nullopt;
  LoadedOrchard loaded;
  loaded.orchard = std::move(*orchard);
  loaded.window = window_of(loaded.orchard);
  if (!loaded.orchard.time_zone.empty()) {
    if (const auto zone = TimeZone::named(loaded.orchard.time_zone))
      loaded.utc_offset_minutes = zone->standard_offset_minutes();
  }
  std::vector<NamedFile> files = read_files(loaded.orchard, diagnostics);
  for (const NamedFile& file : files) loaded.files.push_back(told_of(loaded.orchard, file));
  loaded.record = record_of(loaded.orchard, files, loaded.files, diagnostics);
  loaded.places = read_places(loaded, loaded.files, diagnostics);
  check_past_winters(loaded, diagnostics);
  if (diagnostics.errors() > errors_before) return std::nullopt;
  return loaded;
}

}  // namespace winterfolio
