// GHCN-Daily handed out in CSV, in its two shapes; values in tenths of a degree.
//
//   USW00094728,20240101,TMAX,106,,,W,2400           : a row an element and day, no header; quality
//   is the sixth cell "STATION","DATE",...,"TMAX","TMAX_ATTRIBUTES"    : a row a day; attributes
//   are ",,W": measurement, quality, source
#include <fmt/format.h>

#include "readers/temperature/fixed_number.h"
#include "readers/temperature/formats.h"
#include "readers/temperature/line_reader.h"
#include "readers/temperature/line_text.h"
#include "readers/temperature/plain_words.h"
#include "readers/temperature/series_builder.h"
#include "readers/temperature/stamp.h"
#include "readers/temperature/table_layout.h"

namespace winterfolio {
namespace {

constexpr int kMissing = -9999;

struct DayColumns {
  Column station, date, maximum, maximum_attributes, minimum, minimum_attributes;
};

std::optional<DayColumns> day_columns(std::string_view header) {
  Cells cells;
  cells.cut(header, ',');
  DayColumns places;
  for (std::size_t c = 0; c < cells.size(); ++c) {
    const std::string_view word = trimmed(cells[c]);
    if (word == "STATION") places.station = c;
    if (word == "DATE") places.date = c;
    if (word == "TMAX") places.maximum = c;
    if (word == "TMIN") places.minimum = c;
    if (word == "TMAX_ATTRIBUTES") places.maximum_attributes = c;
    if (word == "TMIN_ATTRIBUTES") places.minimum_attributes = c;
  }
  const bool all = places.station && places.date &&
                   ((places.maximum && places.maximum_attributes) ||
                    (places.minimum && places.minimum_attributes));
  if (!all) return std::nullopt;
  return places;
}

/// A row an element: station of eleven characters, date, element of four letters or digits, whole
/// number.
bool is_element_row(const Cells& cells) {
  if (cells.size() < 7 || trimmed(cells[0]).size() != 11 || trimmed(cells[1]).size() != 8 ||
      trimmed(cells[2]).size() != 4)
    return false;
  return parse_stamp(cells[1]).has_value() && padded_integer(cells[3]).has_value() &&
         !padded_integer(cells[2]).has_value();
}

/// The second of the parts between commas: ",,W" has an empty one.
std::string_view quality_of(std::string_view attributes) {
  const std::size_t first = attributes.find(',');
  if (first == std::string_view::npos) return {};
  const std::string_view rest = attributes.substr(first + 1);
  return trimmed(rest.substr(0, std::min(rest.find(','), rest.size())));
}

std::optional<std::int64_t> tenths(std::string_view cell, std::string_view quality,
                                   SeriesBuilder& builder, std::int64_t number,
                                   std::string_view line) {
  cell = trimmed(cell);
  if (cell.empty()) return std::nullopt;
  const auto value = padded_integer(cell);
  if (!value) {
    builder.note_unreadable(number, line, cell,
                            fmt::format("'{}' is no whole number of tenths", cell.substr(0, 20)));
    return std::nullopt;
  }
  if (*value == kMissing) return std::nullopt;
  if (!quality.empty()) {
    builder.note_flagged(number);
    return std::nullopt;
  }
  return *value * (kPartsPerDegree / 10);
}

void read_element(const Cells& cells, std::string_view line, std::int64_t number,
                  SeriesBuilder& builder) {
  if (!is_element_row(cells)) {
    builder.note_unreadable(number, line, cells[0],
                            "not a station, a date, an element and its value");
    return;
  }
  const std::string_view element = trimmed(cells[2]);
  if (element != "TMAX" && element != "TMIN") return;
  if (!builder.wants_station(trimmed(cells[0]))) return;
  const auto value = tenths(cells[3], trimmed(cells[5]), builder, number, line);
  if (!value) return;
  builder.at_row(line, cells[3]);
  const std::int32_t day = parse_stamp(cells[1])->date.day[0];
  const bool maximum = element == "TMAX";
  builder.add_day(day, maximum ? std::nullopt : value, maximum ? value : std::nullopt, number);
}

void read_day(const Cells& cells, const DayColumns& places, std::string_view line,
              std::int64_t number, SeriesBuilder& builder) {
  const auto date = parse_stamp(cells[*places.date]);
  if (!date) {
    builder.note_unreadable(number, line, cells[*places.date], "no date stands in the column DATE");
    return;
  }
  if (!builder.wants_station(trimmed(cells[*places.station]))) return;
  const auto extreme = [&](const Column& value,
                           const Column& attributes) -> std::optional<std::int64_t> {
    if (!value) return std::nullopt;
    return tenths(cells[*value], attributes ? quality_of(cells[*attributes]) : std::string_view(),
                  builder, number, line);
  };
  const auto minimum = extreme(places.minimum, places.minimum_attributes);
  const auto maximum = extreme(places.maximum, places.maximum_attributes);
  builder.at_row(line, places.minimum ? cells[*places.minimum] : cells[*places.maximum]);
  if (minimum || maximum)
    builder.add_day(date->date.day[0], minimum, maximum, number);
  else
    builder.note_blank();
}

}  // namespace

bool recognise_ghcn_daily_csv(std::string_view head) {
  if (day_columns(first_line(head))) return true;
  Cells cells;
  return first_lines(head, 3, [&](std::string_view line) {
    cells.cut(line, ',');
    return is_element_row(cells);
  });
}

std::optional<TemperatureFile> read_ghcn_daily_csv(ReadingJob& job) {
  SeriesFacts facts;
  facts.unit = TemperatureUnit::celsius;
  auto builder = SeriesBuilder::of(job, facts);
  if (!builder) return std::nullopt;
  builder->recognised("minimum", "TMIN, tenths of a degree");
  builder->recognised("maximum", "TMAX, tenths of a degree");
  const auto places = day_columns(first_line(job.lines.head()));
  Cells cells;
  std::string_view line;
  if (places) job.lines.next(line);
  while (job.lines.next(line)) {
    if (trimmed(line).empty()) continue;
    cells.cut(line, ',');
    if (places)
      read_day(cells, *places, line, job.lines.number(), *builder);
    else
      read_element(cells, line, job.lines.number(), *builder);
  }
  return builder->finish("ghcn-daily-csv");
}

}  // namespace winterfolio
