// Decides over the whole file, and reports.
#include "readers/temperature/series_builder.h"

#include <fmt/format.h>

#include <algorithm>
#include <stdexcept>

#include "base/dates.h"
#include "readers/temperature/line_reader.h"
#include "readers/temperature/messages.h"
#include "readers/temperature/plain_words.h"
#include "readers/temperature/summer_time.h"

namespace winterfolio {
namespace {

constexpr std::int64_t kDay = 86400;

std::string degrees_text(double degrees, TemperatureUnit unit) {
  const char* const sign = unit == TemperatureUnit::celsius      ? "°C"
                           : unit == TemperatureUnit::fahrenheit ? "°F"
                                                                 : "K";
  return fmt::format("{:.4g} {}", degrees, sign);
}

std::string range_text(TemperatureUnit unit) {
  const PartsLimits limits = PartsLimits::of(unit);
  return fmt::format("{:.5g} to {}", degrees_of(limits.impossible_below),
                     degrees_text(degrees_of(limits.impossible_above), unit));
}

Date date_of_day(std::int32_t day) { return Date{std::chrono::sys_days{std::chrono::days{day}}}; }

std::string quoted_list(const std::vector<std::string>& names) {
  constexpr std::size_t kShown = 8;
  std::string text;
  for (std::size_t i = 0; i < names.size() && i < kShown; ++i)
    text += fmt::format("{}'{}'", i > 0 ? ", " : "", names[i]);
  if (names.size() > kShown) text += ", ...";
  return text;
}

/// Station numbers are the same with and without leading zeros, names in any case.
bool same_station(std::string_view a, std::string_view b) {
  const auto bare = [](std::string_view name) {
    name = trimmed(name);
    while (name.size() > 1 && name.front() == '0') name.remove_prefix(1);
    return plain_word(name);
  };
  return bare(a) == bare(b);
}

}  // namespace

std::string_view key_of(TemperatureUnit unit) {
  return unit == TemperatureUnit::celsius ? "C" : unit == TemperatureUnit::fahrenheit ? "F" : "K";
}

SeriesBuilder::SeriesBuilder(ReadingJob& job, SeriesFacts facts, TemperatureUnit unit,
                             std::vector<Track> tracks)
    : job_(&job), facts_(std::move(facts)), unit_(unit), tracks_(std::move(tracks)) {
  unit_known_ = job_->options.unit || facts_.unit;
  if (job_->options.hour_stamp.value_or(facts_.hour_stamp) == HourStamp::ends) bin_shift_ = -1;
}

std::optional<SeriesBuilder> SeriesBuilder::of(ReadingJob& job, SeriesFacts facts) {
  const TemperatureUnit unit =
      job.options.unit ? *job.options.unit : facts.unit.value_or(TemperatureUnit::celsius);
  if (job.options.date_order) facts.orders = DateOrders::only(*job.options.date_order);
  std::vector<Track> tracks;
  for (const DateOrder order : kDateOrders) {
    if (!facts.orders.has(order)) continue;
    auto clock = ReadingClock::of(job.file, job.options, facts.clock, job.diagnostics);
    if (!clock) return std::nullopt;
    if (!job.options.clock) clock->stamped_on(facts.utc_offset_minutes, facts.zone_letters);
    tracks.push_back({order, *clock, HourCollector(unit), DayCollector(unit)});
  }
  return SeriesBuilder(job, std::move(facts), unit, std::move(tracks));
}

void SeriesBuilder::see_fault(const Track& track, std::int64_t line) {
  const bool impossible =
      track.hours.impossible() + track.days.impossible() > 0 && !first_impossible_ &&
      std::max(track.hours.first_impossible().line, track.days.first_impossible().line) == line;
  if (impossible) {
    const std::int64_t parts = track.hours.impossible() > 0 ? track.hours.first_impossible().parts
                                                            : track.days.first_impossible().parts;
    first_impossible_ =
        about_line(Severity::warning, "impossible-value", job_->file, line, row_, value_,
                   fmt::format("air temperature {} is outside {}",
                               degrees_text(degrees_of(parts), unit_), range_text(unit_)),
                   "", "");
  } else if (!first_duplicate_ && track.hours.duplicates() + track.days.duplicates() > 0) {
    first_duplicate_ =
        about_line(Severity::warning, "told-twice", job_->file, line, row_, {}, "", "", "");
  }
  faults_ = track.hours.faults() + track.days.faults();
}

void SeriesBuilder::add(std::int64_t stamp, std::optional<std::int32_t> offset, std::int64_t parts,
                        std::int64_t line) {
  if (!offset) {
    add(stamp, parts, line);
    return;
  }
  Track& track = tracks_.front();
  track.hours.add(track.clock.at(stamp, *offset) + bin_shift_, parts, line);
  if (track.hours.faults() != faults_) see_fault(track, line);
}

/// Gives up orders in which this date is none. False if none of those still possible is left for
/// it.
bool SeriesBuilder::narrow(const ParsedDate& date, std::int64_t line, std::string_view text) {
  order_matters_ = order_matters_ || date.matters;
  DateOrders alive;
  for (const Track& track : tracks_) alive = alive | DateOrders::only(track.order);
  const DateOrders left = alive & date.orders;
  if (left == alive) return true;
  if (left.empty()) {
    if (decided_ && !contradicted_) contradicted_ = Decided{line, std::string(text), date.orders};
    return false;
  }
  decided_ = Decided{line, std::string(text), date.orders};
  std::erase_if(tracks_, [&](const Track& track) { return !left.has(track.order); });
  faults_ = tracks_.front().hours.faults() + tracks_.front().days.faults();
  return true;
}

std::int32_t SeriesBuilder::into_one_year(std::int32_t day) {
  const Date date = date_of_day(day);
  const int year = int{date.year()};
  const auto month_day =
      static_cast<std::int32_t>(unsigned{date.month()} * 32 + unsigned{date.day()});
  if (!nominal_year_)
    nominal_year_ = year + (facts_.without_leap_days && is_leap_year(year) ? 1 : 0);
  if (month_day < last_month_day_) {
    ++*nominal_year_;  // the calendar begins again: a real next year
  } else if (last_year_ != 0 && year != last_year_) {
    composite_ = true;
  }
  last_month_day_ = month_day;
  last_year_ = year;
  const unsigned month = unsigned{date.month()};
  const unsigned day_of_month = std::min(unsigned{date.day()}, last_day_of(*nominal_year_, month));
  return *day_number(*nominal_year_, static_cast<int>(month), static_cast<int>(day_of_month));
}

bool SeriesBuilder::add(const ParsedDate& date, std::int32_t second_of_day,
                        std::optional<std::int32_t> offset, std::int64_t parts, std::int64_t line,
                        std::string_view text) {
  if (!narrow(date, line, text)) return false;
  for (Track& track : tracks_) {
    const std::int32_t day =
        facts_.composite_years ? into_one_year(date.in(track.order)) : date.in(track.order);
    const std::int64_t stamp = std::int64_t{day} * kDay + second_of_day;
    const std::int64_t at = offset ? track.clock.at(stamp, *offset) : track.clock.at(stamp);
    track.hours.add(at + bin_shift_, parts, line);
  }
  if (tracks_.front().hours.faults() != faults_) see_fault(tracks_.front(), line);
  return true;
}

bool SeriesBuilder::add_day(const ParsedDate& date, std::optional<std::int64_t> minimum,
                            std::optional<std::int64_t> maximum, std::int64_t line,
                            std::string_view text) {
  if (!narrow(date, line, text)) return false;
  for (Track& track : tracks_) {
    if (minimum) track.days.add_minimum(date.in(track.order), *minimum, line);
    if (maximum) track.days.add_maximum(date.in(track.order), *maximum, line);
  }
  if (tracks_.front().days.faults() != faults_) see_fault(tracks_.front(), line);
  return true;
}

void SeriesBuilder::add_day(std::int32_t day, std::optional<std::int64_t> minimum,
                            std::optional<std::int64_t> maximum, std::int64_t line) {
  Track& track = tracks_.front();
  if (minimum) track.days.add_minimum(day, *minimum, line);
  if (maximum) track.days.add_maximum(day, *maximum, line);
  if (track.days.faults() != faults_) see_fault(track, line);
}

void SeriesBuilder::note_unreadable(std::int64_t line, std::string_view text, std::string_view part,
                                    std::string_view why) {
  if (unreadable_++ > 0) return;
  first_unreadable_ = about_line(Severity::warning, "unreadable-row", job_->file, line, text, part,
                                 std::string(why), "", "");
}

void SeriesBuilder::note_other(std::int64_t line, std::string_view text) {
  if (other_++ > 0) return;
  first_other_ = about_line(Severity::note, "other-lines", job_->file, line, text, {}, "", "", "");
}

void SeriesBuilder::note_station(std::string_view station) {
  constexpr std::size_t kMostKept = 64;
  if (station == last_station_) return;
  last_station_ = station;
  const auto known = [&](const std::string& name) { return name == station; };
  if (std::any_of(stations_.begin(), stations_.end(), known)) return;
  if (stations_.size() < kMostKept) stations_.emplace_back(station);
}

bool SeriesBuilder::wants_station(std::string_view station) {
  if (station == last_station_) return last_station_wanted_;
  note_station(station);
  last_station_wanted_ = !job_->options.station || same_station(station, *job_->options.station);
  return last_station_wanted_;
}

bool SeriesBuilder::has_readings() const {
  return std::any_of(tracks_.begin(), tracks_.end(), [](const Track& track) {
    return track.hours.readings() + track.days.minima() + track.days.maxima() > 0;
  });
}

bool SeriesBuilder::settle_stations() {
  if (stations_.empty()) return true;
  if (job_->options.station) {
    const auto is_asked_for = [&](const std::string& name) {
      return same_station(name, *job_->options.station);
    };
    if (std::any_of(stations_.begin(), stations_.end(), is_asked_for)) return true;
    job_->diagnostics.add(
        about_file(Severity::error, "unknown-station", job_->file,
                   fmt::format("holds no station '{}'", *job_->options.station),
                   fmt::format("one of {}{}", quoted_list(stations_),
                               did_you_mean(nearest_name(*job_->options.station,
                                                         std::span<const std::string>(stations_)))),
                   "correct 'station' in the orchard file, or --station"));
    return false;
  }
  if (stations_.size() == 1) return true;
  job_->diagnostics.add(about_file(
      Severity::error, "several-stations", job_->file,
      fmt::format("holds {} stations: {}",
                  stations_.size() < 64 ? fmt::format("{}", stations_.size()) : "64 or more",
                  quoted_list(stations_)),
      "the readings of one thermometer",
      fmt::format("choose one: {}", key_or_option("station", stations_.front()))));
  return false;
}

bool SeriesBuilder::settle_date_order() {
  if (contradicted_) {
    const auto orders = [](DateOrders set) {
      return set.has(DateOrder::dmy)   ? DateOrder::dmy
             : set.has(DateOrder::mdy) ? DateOrder::mdy
                                       : DateOrder::ymd;
    };
    Diagnostic d =
        about_line(Severity::error, "contradicting-dates", job_->file, contradicted_->line,
                   contradicted_->text, {},
                   fmt::format("its date can only be {}, that of line {} only {}",
                               id_of(orders(contradicted_->orders)), decided_->line,
                               id_of(orders(decided_->orders))),
                   "dates in one order in the whole file",
                   fmt::format("correct the wrong lines, or name the order: {}",
                               key_or_option("date_order", id_of(orders(decided_->orders)))));
    job_->diagnostics.add(std::move(d));
    return false;
  }
  if (tracks_.size() == 1 || !order_matters_) return true;
  // The order in which the stamps follow each other closely is most likely the right one: it is
  // proposed, not taken.
  const auto walked = [](const Track& track) { return track.hours.walked() + track.days.walked(); };
  const auto likely =
      std::min_element(tracks_.begin(), tracks_.end(),
                       [&](const Track& a, const Track& b) { return walked(a) < walked(b); });
  std::string orders;
  for (const Track& track : tracks_)
    orders += fmt::format("{}{}",
                          orders.empty()              ? ""
                          : &track == &tracks_.back() ? " or "
                                                      : ", ",
                          id_of(track.order));
  job_->diagnostics.add(about_file(Severity::error, "date-order-in-doubt", job_->file,
                                   fmt::format("every date in it can be read as {}", orders),
                                   "the order of day, month and year",
                                   fmt::format("the readings follow each other if you set {}",
                                               key_or_option("date_order", id_of(likely->order)))));
  return false;
}

bool SeriesBuilder::settle_unit(const Track& track, bool daily) {
  if (unit_known_) return true;
  const std::int64_t used =
      daily ? track.days.minima() + track.days.maxima() : track.hours.readings();
  const std::int64_t impossible = daily ? track.days.impossible() : track.hours.impossible();
  const std::int64_t high = daily ? track.days.impossible_high() : track.hours.impossible_high();
  const std::int64_t kelvin =
      daily ? track.days.impossible_kelvin() : track.hours.impossible_kelvin();
  const double share =
      daily ? track.days.share_between_30_and_70() : track.hours.share_between_30_and_70();
  constexpr std::int64_t kFew = 10;  // one in so many
  const std::string confirm = "'unit: C' if they are degrees Celsius";
  if (impossible * 2 > used + impossible && kelvin * 2 > impossible) {
    job_->diagnostics.add(
        about_file(Severity::error, "unit-in-doubt", job_->file,
                   fmt::format("readings are not labelled, and {} of {} lie between 190 and 335",
                               grouped(kelvin), grouped(used + impossible)),
                   "the unit of the readings", fmt::format("set {}", key_or_option("unit", "K"))));
    return false;
  }
  if (share > 0.5) {
    job_->diagnostics.add(about_file(
        Severity::error, "unit-in-doubt", job_->file,
        fmt::format(
            "readings are not labelled, and {:.0f} % of the winter values lie between 30 and 70",
            share * 100.0),
        "the unit of the readings",
        fmt::format("set {}, or {}", key_or_option("unit", "F"), confirm)));
    return false;
  }
  if (high * kFew > used + impossible) {
    job_->diagnostics.add(
        about_file(Severity::error, "unit-in-doubt", job_->file,
                   fmt::format("readings are not labelled, and {} of {} lie over 60", grouped(high),
                               grouped(used + impossible)),
                   "the unit of the readings",
                   fmt::format("set {}, or {}", key_or_option("unit", "F"), confirm)));
    return false;
  }
  job_->diagnostics.add(
      about_file(Severity::warning, "unit-assumed", job_->file,
                 facts_.temperature_column.empty()
                     ? std::string("readings are not labelled with a unit; read as °C")
                     : fmt::format("readings in {} are not labelled with a unit; read as °C",
                                   facts_.temperature_column),
                 "a unit in the header, or the key 'unit'",
                 fmt::format("confirm with {}", key_or_option("unit", "C"))));
  return true;
}

void SeriesBuilder::report(const TemperatureFile& file, const Track& track, bool daily) {
  const auto add = [&](Diagnostic d) { job_->diagnostics.add(std::move(d)); };
  if (!daily) {
    if (auto doubt = track.clock.about_letters(job_->file)) add(std::move(*doubt));
  }
  const SetAside& aside = file.set_aside;
  if (aside.impossible > 0 && first_impossible_) {
    Diagnostic d = *first_impossible_;
    d.message += aside.impossible == 1
                     ? "; it was set aside"
                     : fmt::format("; {} such readings were set aside", grouped(aside.impossible));
    d.expected = fmt::format("air temperatures from {}", range_text(unit_));
    d.mend = fmt::format("correct it, or, if the file is in another unit, set {}",
                         key_or_option("unit", unit_ == TemperatureUnit::celsius ? "F" : "C"));
    add(std::move(d));
  }
  if (daily && track.days.inverted() > 0) {
    Diagnostic d = about_file(Severity::warning, "minimum-over-maximum", job_->file,
                              fmt::format("the minimum is over the maximum on {}; set aside",
                                          counted(track.days.inverted(), "day", "days")),
                              "minimum at or under the maximum",
                              "correct the day, or the columns that are taken");
    d.at.line = static_cast<int>(track.days.first_inverted().line);
    add(std::move(d));
  }
  if (aside.duplicates > 0) {
    Diagnostic d = first_duplicate_
                       ? *first_duplicate_
                       : about_file(Severity::warning, "told-twice", job_->file, "", "", "");
    if (!first_duplicate_)
      d.at.line = static_cast<int>(daily ? track.days.first_duplicate().line
                                         : track.hours.first_duplicate().line);
    const std::int64_t differing = file.differing_duplicates;
    d.message =
        aside.duplicates == 1
            ? fmt::format("this time was told before; the first reading stands, the later {}",
                          differing > 0 ? "differs" : "is the same")
            : fmt::format(
                  "{} times were told before, this the first of them; the first readings stand, "
                  "{} of the later ones {}",
                  grouped(aside.duplicates), differing == 0 ? "none" : grouped(differing),
                  differing == 1 || differing == 0 ? "differs" : "differ");
    d.expected = "each time once";
    d.mend = "nothing, if parts of the file overlap";
    if (!daily && track.clock.is_as_is()) {
      d.mend += "; if its clock changes to summer time, name the zone and set " +
                key_or_option("clock", "civil");
    }
    add(std::move(d));
  }
  if (aside.spikes > 0) {
    Diagnostic d =
        about_file(Severity::warning, "spikes", job_->file,
                   fmt::format("{} far from both neighbours; set aside",
                               counted(aside.spikes, "reading stands", "readings stand")),
                   fmt::format("readings within {:g} °C of the one before or the one after",
                               quality_thresholds().spike.degrees()),
                   "look at the sensor and its cable around that time");
    d.at.line = static_cast<int>(track.hours.first_spike().line);
    add(std::move(d));
  }
  if (aside.flagged > 0) {
    Diagnostic d =
        about_file(Severity::note, "flagged", job_->file,
                   fmt::format("{} the publisher's own checks; set aside",
                               counted(aside.flagged, "reading failed", "readings failed")),
                   "", "");
    d.at.line = static_cast<int>(first_flagged_);
    add(std::move(d));
  }
  if (unreadable_ > 0) {
    Diagnostic d = *first_unreadable_;
    if (unreadable_ > 1)
      d.message += fmt::format("; {} such rows were left out", grouped(unreadable_));
    else
      d.message += "; the row was left out";
    d.expected = "a date, a time and a temperature, as in the other rows";
    d.mend = "correct or remove the row; a lost reading may be left empty";
    add(std::move(d));
  }
  if (other_ > 0) {
    Diagnostic d = *first_other_;
    d.message = fmt::format("{} among the rows {} no reading and {} passed over",
                            counted(other_, "line", "lines"), other_ == 1 ? "is" : "are",
                            other_ == 1 ? "was" : "were");
    add(std::move(d));
  }
  if (job_->lines.cut_lines() > 0) {
    Diagnostic d =
        about_file(Severity::warning, "line-too-long", job_->file,
                   fmt::format("{} longer than {} KiB; what lies beyond was not read",
                               counted(job_->lines.cut_lines(), "line is", "lines are"),
                               LineReader::kBufferSize / 1024),
                   "one reading a line",
                   "look whether this is the right file, and whether its line ends were lost");
    d.at.line = static_cast<int>(job_->lines.first_cut_line());
    add(std::move(d));
  }
  if (track.clock.skipped() > 0) {
    add(about_file(Severity::warning, "skipped-hour", job_->file,
                   fmt::format("{} in an hour that the civil clock skips",
                               counted(track.clock.skipped(), "stamp lies", "stamps lie")),
                   "no stamps in that hour, if the clock is civil",
                   fmt::format("if the logger keeps one time all year, set {}",
                               key_or_option("clock", "standard"))));
  }
  if (!daily && track.clock.is_assumed() && !facts_.composite_years) {
    const auto skipped = hour_skipped_in_spring(file.hours, track.clock.zone(), bin_shift_ < 0);
    if (skipped) add(about_summer_time(track, *skipped));
  }
  if (composite_) {
    add(about_file(Severity::warning, "composite-year", job_->file,
                   "its months come from several years; they are put into one", "",
                   "use it to see how a typical year runs, not what a real winter gave"));
  }
  report_doubts(file);
}

Diagnostic SeriesBuilder::about_summer_time(const Track& track, LocalHour skipped) const {
  const std::string zone = track.clock.zone()
                               ? std::string()
                               : std::string("name the zone ('time_zone', or --time-zone) and ");
  Diagnostic d = about_file(
      Severity::warning, "clock-seems-civil", job_->file,
      fmt::format("the hour from {} on is missing, as on a clock that goes forward to summer time; "
                  "read as one clock all year",
                  iso_hour(skipped)),
      "stamps that keep one time all year, or 'clock: civil'",
      fmt::format("{}set {}; if the logger keeps one time, confirm it with {}", zone,
                  key_or_option("clock", "civil"), key_or_option("clock", "standard")));
  d.at.line = static_cast<int>(track.hours.line_of(skipped + 1 - track.clock.shift_hours()));
  return d;
}

Diagnostic SeriesBuilder::about_doubt(Doubt doubt, const std::string& runs, LocalHour first) const {
  const std::string& file = job_->file;
  const std::string from = fmt::format("; the first from {} on", iso_hour(first));
  const std::string shaded = "air temperatures of a shaded sensor";
  switch (doubt) {
    case Doubt::step:
      return about_file(Severity::note, "doubt-step", file,
                        runs + " where the temperature changes faster than usual" + from, "", "");
    case Doubt::flat_line:
      return about_file(Severity::warning, "doubt-flat-line", file,
                        runs + " where the temperature does not move for a day or more" + from,
                        shaded, "look at the sensor at that time; the hours are used");
    case Doubt::daily_extreme:
      return about_file(Severity::warning, "doubt-daily-extreme", file,
                        runs + " of days colder, warmer or wider than plausible" + from, shaded,
                        "look at the sensor and the unit; the hours are used");
    case Doubt::sensor_in_sun:
      return about_file(
          Severity::warning, "doubt-sensor-in-sun", file,
          runs + " with a short bump at the same hour of several days, as of a sensor in the sun" +
              from,
          shaded, "shade the sensor; the hours are used");
  }
  throw std::logic_error("a doubt without words");
}

void SeriesBuilder::report_doubts(const TemperatureFile& file) {
  for (int kind = 0; kind < kDoubtCount; ++kind) {
    const auto doubt = static_cast<Doubt>(kind);
    std::int64_t runs = 0;
    std::int64_t hours = 0;
    const DoubtInFile* first = nullptr;
    for (const DoubtInFile& found : file.doubts) {
      if (found.run.doubt != doubt) continue;
      if (first == nullptr) first = &found;
      ++runs;
      hours += found.run.to - found.run.from + 1;
    }
    if (first == nullptr) continue;
    const std::string counts =
        fmt::format("{} ({})", counted(runs, "run", "runs"), counted(hours, "hour", "hours"));
    Diagnostic d = about_doubt(doubt, counts, first->run.from);
    d.at.line = static_cast<int>(first->first_line);
    job_->diagnostics.add(std::move(d));
  }
}

std::optional<TemperatureFile> SeriesBuilder::hourly(Track& track, TemperatureFile file) {
  const std::int32_t shift = track.clock.shift_hours();
  file.hours = track.hours.series(unit_, shift);
  file.clock = track.clock.series_clock();
  file.readings = track.hours.readings();
  file.missing_hours = file.hours.missing_in(file.hours.first(), file.hours.end());
  file.first = {track.hours.first_seconds() - bin_shift_ + std::int64_t{shift} * 3600};
  file.last = {track.hours.last_seconds() - bin_shift_ + std::int64_t{shift} * 3600};
  file.set_aside.impossible = track.hours.impossible();
  file.set_aside.duplicates = track.hours.duplicates();
  file.set_aside.spikes = track.hours.spikes();
  file.first_set_aside.impossible = track.hours.first_impossible().line;
  file.first_set_aside.duplicates = track.hours.first_duplicate().line;
  file.first_set_aside.spikes = track.hours.first_spike().line;
  file.differing_duplicates = track.hours.differing();
  file.steps_minutes = track.hours.steps_minutes();
  file.resolution = track.hours.resolution() / (unit_ == TemperatureUnit::fahrenheit ? 1.8 : 1.0);
  for (const DoubtfulRun& run : doubtful_runs(file.hours, file.resolution)) {
    std::int64_t first_line = 0;
    std::int64_t last_line = 0;
    for (LocalHour hour = run.from; hour <= run.to; hour = hour + 1) {
      const std::int64_t line = track.hours.line_of(hour - shift);
      if (line == 0) continue;
      if (first_line == 0) first_line = line;
      last_line = line;
    }
    file.doubts.push_back({run, std::min(first_line, last_line), std::max(first_line, last_line)});
  }
  return file;
}

std::optional<TemperatureFile> SeriesBuilder::daily(Track& track, TemperatureFile file) {
  const auto first = track.days.first_day();
  const auto last = track.days.last_day();
  if (!first || !last) return std::nullopt;
  file.first = {std::int64_t{*first} * kDay};
  file.last = {std::int64_t{*last} * kDay};
  file.set_aside.impossible = track.days.impossible() + track.days.inverted();
  file.set_aside.duplicates = track.days.duplicates();
  file.first_set_aside.impossible = track.days.impossible() > 0 ? track.days.first_impossible().line
                                                                : track.days.first_inverted().line;
  file.first_set_aside.duplicates = track.days.first_duplicate().line;
  file.differing_duplicates = track.days.differing();
  file.steps_minutes = {1440};
  if (track.days.minima() == 0 || track.days.maxima() == 0) {
    const bool maximum = track.days.maxima() > 0;
    file.half = DailyHalf{maximum, track.days.half(maximum, unit_)};
    file.readings = static_cast<std::int64_t>(file.half->by_day.size());
  } else {
    file.days = track.days.series(unit_);
    file.readings = track.days.complete_days();
    for (const DoubtfulRun& run : doubtful_days(file.days)) {
      const std::int64_t from = track.days.line_of(run.from.hours_since_1970() / 24);
      const std::int64_t to = track.days.line_of((run.to - 23).hours_since_1970() / 24);
      file.doubts.push_back({run, std::min(from, to), std::max(from, to)});
    }
  }
  file.missing_hours = (std::int64_t{*last} - *first + 1 - file.readings) * 24;
  return file;
}

void SeriesBuilder::report_no_readings(const Track& track) {
  const std::int64_t impossible = track.hours.impossible() + track.days.impossible();
  job_->diagnostics.add(about_file(
      Severity::error, "no-readings", job_->file,
      impossible > 0
          ? fmt::format("holds no possible air temperature; {} outside {}",
                        counted(impossible, "reading lies", "readings lie"), range_text(unit_))
          : fmt::format("holds no reading in the column that is taken for the air temperature ({})",
                        counted(blank_, "row says so", "rows say so")),
      "at least one air temperature",
      "look whether this is the right file, and whether 'columns' and 'unit' fit it"));
}

std::optional<TemperatureFile> SeriesBuilder::finish(std::string_view format) {
  for (Track& track : tracks_) {
    track.hours.finish();
    track.days.finish();
  }
  if (!settle_stations()) return std::nullopt;
  if (!settle_date_order()) return std::nullopt;
  Track& track = tracks_.front();
  const bool is_daily = track.days.minima() + track.days.maxima() + track.days.impossible() > 0;
  if ((has_readings() || track.hours.impossible() + track.days.impossible() > 0) &&
      !settle_unit(track, is_daily))
    return std::nullopt;
  if (!has_readings()) {
    report_no_readings(track);
    return std::nullopt;
  }
  TemperatureFile file;
  file.file = job_->file;
  file.format = format;
  if (job_->options.station)
    file.station = *job_->options.station;
  else if (stations_.size() == 1)
    file.station = stations_.front();
  file.blank = blank_;
  file.set_aside.flagged = flagged_;
  file.set_aside.unreadable = unreadable_;
  file.first_set_aside.flagged = first_flagged_;
  if (first_unreadable_) file.first_set_aside.unreadable = first_unreadable_->at.line;
  file.composite_year = composite_;
  auto whole = is_daily ? daily(track, std::move(file)) : hourly(track, std::move(file));
  if (!whole) {
    job_->diagnostics.add(about_file(
        Severity::error, "no-readings", job_->file, "holds no day with a possible temperature",
        "at least one day with minimum and maximum", "look whether this is the right file"));
    return std::nullopt;
  }
  recognised("unit", unit_known_ ? std::string(key_of(unit_)) : "C, assumed");
  if (facts_.orders.count() > 1 && order_matters_)
    recognised("date order", std::string(id_of(track.order)));
  if (!is_daily) {
    recognised("clock", track.clock.description());
    recognised("hour stamp", bin_shift_ < 0 ? "ends" : "begins");
  }
  if (!whole->station.empty()) recognised("station", whole->station);
  whole->recognised = recognised_;
  report(*whole, track, is_daily);
  return whole;
}

}  // namespace winterfolio
