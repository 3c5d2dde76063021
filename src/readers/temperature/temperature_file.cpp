// Opens a file, finds out what it is, and hands it to the format that reads it.
#include "readers/temperature/temperature_file.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>

#include "readers/temperature/line_reader.h"
#include "readers/temperature/messages.h"
#include "readers/temperature/registry.h"
#include "readers/temperature/table_header.h"

namespace winterfolio {
namespace {

struct Signature {
  std::string_view bytes;
  std::string_view what;
};

constexpr std::array<Signature, 9> kSignatures = {{
    {"%PDF", "a PDF document"},
    {std::string_view("PK\x03\x04", 4), "a spreadsheet or zip archive"},
    {"\xD0\xCF\x11\xE0", "an old spreadsheet or document"},
    {"\x89PNG", "a picture"},
    {"\xFF\xD8\xFF", "a picture"},
    {"\x89HDF", "an HDF5 or NetCDF file"},
    {"CDF", "a NetCDF file"},
    {"SQLite format", "a database"},
    {"\xFD"
     "7zXZ",
     "compressed by xz"},
}};

/// What a file that is no text seems to be; empty if it may be text.
std::string what_instead_of_text(std::string_view head) {
  for (const Signature& signature : kSignatures) {
    if (head.substr(0, signature.bytes.size()) == signature.bytes)
      return std::string(signature.what);
  }
  constexpr std::size_t kLookedAt = 4096;
  const std::string_view start = head.substr(0, kLookedAt);
  const auto zeros = std::count(start.begin(), start.end(), '\0');
  if (zeros > 0 && static_cast<std::size_t>(zeros) == start.size()) return "nothing but zero bytes";
  const auto control = std::count_if(start.begin(), start.end(), [](char c) {
    const auto byte = static_cast<unsigned char>(c);
    return (byte < 0x20 && c != '\n' && c != '\r' && c != '\t' && c != '\f' && byte != 0x1A) ||
           byte == 0x7F;
  });
  if (zeros > 0 || static_cast<std::size_t>(control) * 20 > start.size())
    return "bytes that are no text";
  if (start.substr(0, 5) == "<?xml" || start.substr(0, 5) == "<html" ||
      start.substr(0, 9) == "<!DOCTYPE")
    return "a web page or XML file";
  return {};
}

std::string format_list() {
  std::string list;
  for (const TemperatureFormat& format : temperature_formats())
    list += fmt::format("{}{}", list.empty() ? "" : ", ", format.id);
  return list;
}

const TemperatureFormat* format_named(const std::string& file, const std::string& name,
                                      Diagnostics& diagnostics) {
  std::vector<std::string_view> names;
  for (const TemperatureFormat& format : temperature_formats()) {
    if (format.id == name) return &format;
    names.push_back(format.id);
  }
  diagnostics.add(about_file(
      Severity::error, "unknown-format", file,
      fmt::format("'{}' is no format of temperature files", name),
      fmt::format("one of {}{}", format_list(),
                  did_you_mean(nearest_name(name, std::span<const std::string_view>(names)))),
      "correct 'format' in the orchard file, or --format; or leave it out"));
  return nullptr;
}

const TemperatureFormat* format_of(std::string_view head) {
  for (const TemperatureFormat& format : temperature_formats()) {
    if (format.recognise(head)) return &format;
  }
  return nullptr;
}

std::optional<TemperatureFile> read_source(const std::string& path,
                                           std::unique_ptr<ByteSource> source,
                                           const TemperatureOptions& options,
                                           Diagnostics& diagnostics) {
  LineReader lines(plain_bytes(std::move(source), path));
  const std::string_view head = lines.head();
  if (head.empty()) {
    if (lines.finish(diagnostics)) {
      diagnostics.add(about_file(Severity::error, "empty-file", path, "is empty",
                                 "readings of the air temperature",
                                 "look whether the export or download went through"));
    }
    return std::nullopt;
  }
  if (const std::string what = what_instead_of_text(head); !what.empty()) {
    diagnostics.add(about_file(Severity::error, "not-text", path,
                               fmt::format("holds {}, not a text with readings", what),
                               "a text file with a reading in each row; gzip is unpacked",
                               "export or save it as CSV, then name that file"));
    return std::nullopt;
  }
  const TemperatureFormat* const format =
      options.format ? format_named(path, *options.format, diagnostics) : format_of(head);
  if (format == nullptr) {
    if (options.format) return std::nullopt;
    if (const auto header = header_without_rows(head)) {
      diagnostics.add(about_line(
          Severity::error, "no-rows", path, header->number, header->text, {},
          "has a header and no readings under it",
          "a row with a date, a time and a temperature for each reading",
          "export it again, for days on which the thermometer was read; or take the file out"));
    } else {
      diagnostics.add(about_line(
          Severity::error, "unknown-format-of-file", path, 1,
          head.substr(0, std::min(head.find_first_of("\r\n"), head.size())), {},
          "is in no format that is known: no rows with a date were found in its first lines",
          fmt::format("one of {}", format_list()),
          "export it as CSV with a date, a time and a temperature in each row"));
    }
    return std::nullopt;
  }
  ReadingJob job{path, lines, options, diagnostics};
  const int errors_before = diagnostics.errors();
  auto file = format->read(job);
  if (!lines.finish(diagnostics) || diagnostics.errors() > errors_before) return std::nullopt;
  return file;
}

}  // namespace

TemperatureOptions options_of(const TemperatureSource& source, const Orchard& orchard) {
  TemperatureOptions options;
  options.format = source.format;
  options.unit = source.unit;
  options.clock = source.clock;
  options.time_zone = orchard.time_zone;
  options.longitude = orchard.longitude;
  options.utc_offset_minutes = source.utc_offset_minutes;
  options.columns = source.columns;
  options.date_order = source.date_order;
  options.decimal = source.decimal;
  options.station = source.station;
  options.hour_stamp = source.hour_stamp;
  return options;
}

LocalHour ReadingTime::hour() const {
  const std::int64_t hour =
      seconds_since_1970 >= 0 ? seconds_since_1970 / 3600 : -((3599 - seconds_since_1970) / 3600);
  return LocalHour(static_cast<std::int32_t>(hour));
}

std::string iso_time(ReadingTime time) {
  const LocalHour hour = time.hour();
  const std::int64_t rest = time.seconds_since_1970 - std::int64_t{hour.hours_since_1970()} * 3600;
  std::string text =
      fmt::format("{}T{:02}:{:02}", iso_date(hour.date()), hour.hour_of_day(), rest / 60);
  if (rest % 60 != 0) text += fmt::format(":{:02}", rest % 60);
  return text;
}

std::optional<TemperatureFile> read_temperature_file(const std::string& path,
                                                     const TemperatureOptions& options,
                                                     Diagnostics& diagnostics) {
  auto source = ByteSource::open(path, diagnostics);
  if (!source) return std::nullopt;
  return read_source(path, std::move(source), options, diagnostics);
}

std::optional<TemperatureFile> read_temperature_bytes(const std::string& name, std::string bytes,
                                                      const TemperatureOptions& options,
                                                      Diagnostics& diagnostics) {
  return read_source(name, ByteSource::of_bytes(name, std::move(bytes)), options, diagnostics);
}

void pair_daily_halves(std::vector<TemperatureFile>& files, Diagnostics& diagnostics) {
  std::vector<TemperatureFile> whole;
  std::vector<TemperatureFile> waiting;
  for (TemperatureFile& file : files) {
    if (!file.is_half()) {
      whole.push_back(std::move(file));
      continue;
    }
    const auto partner =
        std::find_if(waiting.begin(), waiting.end(), [&](const TemperatureFile& other) {
          return other.half->maximum != file.half->maximum && other.station == file.station;
        });
    if (partner == waiting.end()) {
      waiting.push_back(std::move(file));
      continue;
    }
    TemperatureFile& minima = file.half->maximum ? *partner : file;
    TemperatureFile& maxima = file.half->maximum ? file : *partner;
    TemperatureFile both = *partner;
    both.file = fmt::format("{} + {}", partner->file, file.file);
    both.entries.insert(both.entries.end(), file.entries.begin(), file.entries.end());
    both.half.reset();
    both.first_set_aside = {};
    both.readings = 0;
    both.set_aside.impossible = partner->set_aside.impossible + file.set_aside.impossible;
    both.set_aside.duplicates = partner->set_aside.duplicates + file.set_aside.duplicates;
    both.set_aside.flagged = partner->set_aside.flagged + file.set_aside.flagged;
    both.set_aside.unreadable = partner->set_aside.unreadable + file.set_aside.unreadable;
    for (const auto& [day, minimum] : minima.half->by_day) {
      const auto maximum = maxima.half->by_day.find(day);
      if (maximum == maxima.half->by_day.end()) continue;
      if (minimum > maximum->second) {
        ++both.set_aside.impossible;
        continue;
      }
      both.days.set(Date{std::chrono::sys_days{std::chrono::days{day}}},
                    DailyExtremes{minimum, maximum->second});
      ++both.readings;
    }
    if (both.days.empty()) {
      diagnostics.add(about_file(Severity::error, "halves-do-not-meet", both.file, "share no day",
                                 "minima and maxima of the same days",
                                 "name the two files of one station and one time"));
    } else {
      both.first = {std::int64_t{days_between(date_of(1970, 1, 1), both.days.first())} * 86400};
      both.last = {std::int64_t{days_between(date_of(1970, 1, 1), both.days.last())} * 86400};
      both.missing_hours = (both.days.size() - both.readings) * 24;
      whole.push_back(std::move(both));
    }
    waiting.erase(partner);
  }
  for (const TemperatureFile& file : waiting) {
    diagnostics.add(
        about_file(Severity::error, "half-a-day", file.file,
                   fmt::format("holds the {} of each day only",
                               file.half->maximum ? "highest temperature" : "lowest temperature"),
                   "the lowest and the highest temperature of each day",
                   fmt::format("name the file with the {} beside it",
                               file.half->maximum ? "minima" : "maxima")));
  }
  files = std::move(whole);
}

}  // namespace winterfolio
