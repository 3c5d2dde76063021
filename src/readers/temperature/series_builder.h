// Where the formats put what they read: one reading or one day after another, in whatever orders
// its date can be read. At the end it decides what was in doubt over the whole file, says what was
// set aside or is doubtful, and gives the series.
#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "readers/temperature/day_collector.h"
#include "readers/temperature/hour_collector.h"
#include "readers/temperature/reading_clock.h"
#include "readers/temperature/registry.h"
#include "readers/temperature/stamp.h"
#include "readers/temperature/temperature_file.h"

namespace winterfolio {

/// What a format, or the header of a file, fixes.
struct SeriesFacts {
  std::optional<TemperatureUnit> unit;  ///< nothing: not labelled
  std::optional<Clock> clock;
  std::optional<int> utc_offset_minutes;      ///< of that clock, where the header says so
  const ZoneLetters* zone_letters = nullptr;  ///< letters of its zone, where the header has them
  HourStamp hour_stamp = HourStamp::begins;
  DateOrders orders =
      DateOrders::only(DateOrder::ymd);  ///< more than one: found out over the whole file
  std::string temperature_column;        ///< for messages; may be empty
  bool composite_years = false;    ///< may be a made-up year put together from months of several
  bool without_leap_days = false;  ///< of a made-up year: so that its year must not be a leap year
};

class SeriesBuilder {
 public:
  /// Nothing, and an error, where the options do not fit.
  static std::optional<SeriesBuilder> of(ReadingJob& job, SeriesFacts facts);

  /// One reading at a certain time of the file's own clock.
  void add(std::int64_t stamp, std::int64_t parts, std::int64_t line) {
    Track& track = tracks_.front();
    track.hours.add(track.clock.at(stamp) + bin_shift_, parts, line);
    if (track.hours.faults() != faults_) see_fault(track, line);
  }
  /// The same, with the row for messages, and where in it the temperature begins.
  void add(std::int64_t stamp, std::int64_t parts, std::int64_t line, std::string_view row,
           std::uint32_t value_at) {
    Track& track = tracks_.front();
    track.hours.add(track.clock.at(stamp) + bin_shift_, parts, line);
    if (track.hours.faults() != faults_) {
      const std::string_view value = row.substr(value_at);
      at_row(row, value.substr(0, value.find_first_not_of("-0123456789.,")));
      see_fault(track, line);
    }
  }
  /// The row that the next calls are about, and its temperature, for messages.
  void at_row(std::string_view row, std::string_view value) {
    row_ = row;
    value_ = value;
  }
  void add(std::int64_t stamp, std::optional<std::int32_t> offset, std::int64_t parts,
           std::int64_t line);
  /// What the letters behind a stamp mean [s east of UTC].
  std::int32_t offset_of(const ZoneLetters& letters) {
    std::int32_t offset = 0;
    for (Track& track : tracks_) offset = track.clock.offset_of(letters);
    return offset;
  }
  /// The lowest value within the hour of the last reading.
  void lower(std::int64_t parts) {
    for (Track& track : tracks_) track.hours.lower(parts);
  }
  /// One reading whose date may be read in several orders. False if in none of those still
  /// possible.
  bool add(const ParsedDate& date, std::int32_t second_of_day, std::optional<std::int32_t> offset,
           std::int64_t parts, std::int64_t line, std::string_view text);
  /// A day's extremes, either of which may be absent.
  bool add_day(const ParsedDate& date, std::optional<std::int64_t> minimum,
               std::optional<std::int64_t> maximum, std::int64_t line, std::string_view text);
  void add_day(std::int32_t day, std::optional<std::int64_t> minimum,
               std::optional<std::int64_t> maximum, std::int64_t line);

  /// Rows that hold no reading, each counted once.
  void note_blank() { ++blank_; }
  void note_flagged(std::int64_t line) {
    if (flagged_++ == 0) first_flagged_ = line;
  }
  void note_unreadable(std::int64_t line, std::string_view text, std::string_view part,
                       std::string_view why);
  /// A row that is no reading and does not pretend to be one: an event, a repeated header, a
  /// closing line.
  void note_other(std::int64_t line, std::string_view text);
  void note_station(std::string_view station);
  /// False if the row belongs to a station that was not asked for.
  bool wants_station(std::string_view station);
  void recognised(std::string what, std::string found) {
    recognised_.push_back({std::move(what), std::move(found)});
  }

  bool has_readings() const;
  std::optional<TemperatureFile> finish(std::string_view format);

 private:
  struct Track {
    DateOrder order;
    ReadingClock clock;
    HourCollector hours;
    DayCollector days;
  };

  SeriesBuilder(ReadingJob& job, SeriesFacts facts, TemperatureUnit unit,
                std::vector<Track> tracks);
  void see_fault(const Track& track, std::int64_t line);
  bool narrow(const ParsedDate& date, std::int64_t line, std::string_view text);
  std::int32_t into_one_year(std::int32_t day);
  bool settle_stations();
  bool settle_date_order();
  bool settle_unit(const Track& track, bool daily);
  void report(const TemperatureFile& file, const Track& track, bool daily);
  void report_no_readings(const Track& track);
  Diagnostic about_summer_time(const Track& track, LocalHour skipped) const;
  Diagnostic about_doubt(Doubt doubt, const std::string& runs, LocalHour first) const;
  void report_doubts(const TemperatureFile& file);
  std::optional<TemperatureFile> hourly(Track& track, TemperatureFile file);
  std::optional<TemperatureFile> daily(Track& track, TemperatureFile file);

  ReadingJob* job_;
  SeriesFacts facts_;
  TemperatureUnit unit_;
  bool unit_known_;
  std::vector<Track> tracks_;
  std::int64_t bin_shift_ = 0;  ///< -1 where stamps name the end of their hour
  std::string_view row_;
  std::string_view value_;
  std::int64_t faults_ = 0;
  std::optional<Diagnostic> first_impossible_;
  std::optional<Diagnostic> first_duplicate_;
  std::int64_t blank_ = 0;
  std::int64_t flagged_ = 0;
  std::int64_t first_flagged_ = 0;
  std::int64_t unreadable_ = 0;
  std::optional<Diagnostic> first_unreadable_;
  std::int64_t other_ = 0;
  std::optional<Diagnostic> first_other_;
  bool order_matters_ = false;
  struct Decided {
    std::int64_t line = 0;
    std::string text;
    DateOrders orders;
  };
  std::optional<Decided> decided_;
  std::optional<Decided> contradicted_;
  std::vector<std::string> stations_;
  std::string last_station_;
  bool last_station_wanted_ = true;
  std::int64_t other_stations_rows_ = 0;
  std::optional<int> nominal_year_;
  std::int32_t last_month_day_ = 0;
  int last_year_ = 0;
  bool composite_ = false;
  std::vector<TemperatureFile::Recognised> recognised_;
};

/// The name by which a unit is given in keys: "C".
std::string_view key_of(TemperatureUnit unit);

}  // namespace winterfolio
