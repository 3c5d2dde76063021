// Reads a temperature file, whoever wrote it: a logger's export, an airport's observations, a
// national service's minima and maxima. The format is recognised by what stands in the file, never
// by its name; what the content cannot tell is asked for by one message that names the key to set.
//
// Readings are streamed once through a fixed buffer into hours (or days): memory grows with the
// hours, not with the readings. Pipes and gzip-compressed files read as they are; "-" is standard
// input.
//
//   bytes -> lines -> rows -> readings -> hours with their mean, lowest reading and doubts
//
// To add a format: see registry.h.
#pragma once

#include <cstdint>
#include <map>
#include <optional>
#include <span>
#include <string>
#include <string_view>
#include <vector>

#include "base/diagnostic.h"
#include "orchard/orchard.h"
#include "weather/daily_series.h"
#include "weather/hourly_series.h"
#include "weather/quality.h"

namespace winterfolio {

/// What the person said about a file, in the orchard file or on the command line. Everything not
/// given is found out.
struct TemperatureOptions {
  std::optional<std::string> format;  ///< id of the registry
  std::optional<TemperatureUnit> unit;
  std::optional<Clock> clock;  ///< not given: as the format fixes it, else standard
  std::string
      time_zone;  ///< IANA name; empty: not given. The caller has checked it (TimeZone::named).
  std::optional<int> utc_offset_minutes;
  std::optional<double> longitude;  ///< degrees, west negative; only to tell letters of zones apart
  /// role ("time", "date", "temperature", "minimum", "maximum") -> column name or number from 1
  std::map<std::string, std::string> columns;
  std::optional<DateOrder> date_order;
  std::optional<DecimalMark> decimal;
  std::optional<std::string> station;
  std::optional<HourStamp> hour_stamp;  ///< not given: as the format fixes it, else begins
};

/// The options of one entry under `temperatures:`, with the orchard's own zone and place.
TemperatureOptions options_of(const TemperatureSource& source, const Orchard& orchard);

/// A moment on the clock of the series, as stamped.
struct ReadingTime {
  std::int64_t seconds_since_1970 = 0;
  LocalHour hour() const;
  auto operator<=>(const ReadingTime&) const = default;
};
/// 2026-11-01T06:05; seconds only where they are not zero.
std::string iso_time(ReadingTime time);

/// Readings that were not used, by reason. Only these are ever set aside.
struct SetAside {
  std::int64_t impossible = 0;  ///< outside -80 to +60 °C; a day whose minimum is over its maximum
  std::int64_t duplicates = 0;  ///< a stamp told again; the first reading stands
  std::int64_t spikes = 0;      ///< one reading far from both its neighbours
  std::int64_t flagged = 0;     ///< failed the publisher's own checks
  std::int64_t unreadable = 0;  ///< rows that are no readings and are not known as anything else
};

/// The line on which each first happened; 0 where it did not, or where two files were put together.
struct FirstLines {
  std::int64_t impossible = 0;
  std::int64_t duplicates = 0;
  std::int64_t spikes = 0;
  std::int64_t flagged = 0;
  std::int64_t unreadable = 0;
};

/// A doubtful run of hours with the lines it stands on. Marked, counted, used.
struct DoubtInFile {
  DoubtfulRun run;
  std::int64_t first_line = 0;
  std::int64_t last_line = 0;
};

/// Half of a daily record: services that print minimum and maximum in two files. See
/// pair_daily_halves().
struct DailyHalf {
  bool maximum = false;
  std::map<std::int32_t, Celsius> by_day;  ///< days since 1970
};

/// Which hours the series counts in.
enum class SeriesClock { standard, utc };

struct TemperatureFile {
  std::string file;  ///< as the person named it
  /// Which entries of the list of files it was read for; two where halves were put together. Set by
  /// whoever reads the list: a name alone does not tell, as one file may serve twice.
  std::vector<std::size_t> entries;
  std::string format;   ///< id of the registry row that read it
  std::string station;  ///< where the file names it; else empty
  HourlySeries hours;   ///< one of the three is filled
  DailySeries days;
  std::optional<DailyHalf> half;
  SeriesClock clock = SeriesClock::standard;

  /// Hourly: temperature readings used. Daily: days with both extremes. Half: days with the one.
  std::int64_t readings = 0;
  /// Hourly: hours from the first to the last reading that hold none, before any are filled in.
  /// Daily: 24 for each day between the first and the last that lacks an extreme.
  std::int64_t missing_hours = 0;
  ReadingTime first;  ///< stamp of the first reading; of a day: its midnight
  ReadingTime last;
  std::int64_t blank = 0;  ///< rows that say that there is no reading
  SetAside set_aside;
  FirstLines first_set_aside;
  std::int64_t differing_duplicates = 0;  ///< duplicates whose second reading was another
  std::vector<DoubtInFile> doubts;
  std::vector<int> steps_minutes;  ///< steps between readings, in the order they came into use
  double resolution = 0.1;         ///< of the readings as written [°C]
  bool composite_year =
      false;  ///< months of several years put together; all stand in the first one's year

  /// What was recognised, for the method page: "air temperature" -> "column 3 (temp)".
  struct Recognised {
    std::string what;  ///< "temperature", "minimum", "maximum", "time", "unit", "date order",
                       ///< "clock", "hour stamp", "station"
    std::string found;
  };
  std::vector<Recognised> recognised;

  bool is_daily() const { return !days.empty(); }
  bool is_half() const { return half.has_value(); }
};

/// Reads one file: a regular file, a pipe, or "-" for standard input. Faults and doubts go to
/// `diagnostics`; nothing is returned if any of them is an error. Never throws for what a file
/// holds.
std::optional<TemperatureFile> read_temperature_file(const std::string& path,
                                                     const TemperatureOptions& options,
                                                     Diagnostics& diagnostics);

/// The same for bytes already in memory, under a name for messages.
std::optional<TemperatureFile> read_temperature_bytes(const std::string& name, std::string bytes,
                                                      const TemperatureOptions& options,
                                                      Diagnostics& diagnostics);

/// Puts files that hold only minima together with those that hold only maxima of the same station
/// (or, where no stations are named, each with the next), so that what is left has whole days. A
/// half without its other half is an error that names the file.
void pair_daily_halves(std::vector<TemperatureFile>& files, Diagnostics& diagnostics);

/// One row of the registry: everything the program knows about a format.
struct TemperatureFormat;
/// The formats, in the order in which they are tried.
std::span<const TemperatureFormat> temperature_formats();

}  // namespace winterfolio
