// The full hourly record: as it is archived, each line a control section, a mandatory section and
// additional data; and as it is handed out in CSV, with the temperature and its quality in one
// cell.
//
//   0169999999999990201401010053...+0012+... : characters 16-27 time in UTC, 88-92 air temperature
//   in tenths, 93 quality "STATION","DATE",...,"TMP",...            : "+0012,1"
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

constexpr std::size_t kMandatoryEnd = 105;
constexpr int kMissing = 9999;

/// Suspect or erroneous, by the archive's own checks or by the data's source.
bool failed_checks(char quality) {
  return quality == '2' || quality == '3' || quality == '6' || quality == '7';
}

struct Observation {
  std::int64_t stamp;
  int tenths;
  char quality;
};

std::optional<Observation> observation_of(std::string_view line) {
  if (line.size() < kMandatoryEnd) return std::nullopt;
  for (const std::size_t sign : {28U, 34U, 87U, 93U}) {
    if (line[sign] != '+' && line[sign] != '-') return std::nullopt;
  }
  const auto stamp = parse_stamp(line.substr(15, 12));
  const auto tenths = padded_integer(line.substr(87, 5));
  if (!stamp || !stamp->second_of_day || !tenths || !padded_integer(line.substr(0, 4)))
    return std::nullopt;
  return Observation{std::int64_t{stamp->date.day[0]} * 86400 + *stamp->second_of_day, *tenths,
                     line[92]};
}

void take(SeriesBuilder& builder, const Observation& seen, std::int64_t number,
          std::string_view line, std::string_view part) {
  if (seen.tenths == kMissing) {
    builder.note_blank();
  } else if (failed_checks(seen.quality)) {
    builder.note_flagged(number);
  } else {
    builder.at_row(line, part);
    builder.add(seen.stamp, seen.tenths * (kPartsPerDegree / 10), number);
  }
}

SeriesFacts facts() {
  SeriesFacts facts;
  facts.unit = TemperatureUnit::celsius;
  facts.clock = Clock::utc;
  return facts;
}

struct CsvColumns {
  std::size_t station, date, temperature;
};

std::optional<CsvColumns> csv_columns(std::string_view header) {
  Cells cells;
  cells.cut(header, ',');
  std::optional<std::size_t> station, date, temperature;
  for (std::size_t c = 0; c < cells.size(); ++c) {
    const std::string word = plain_word(trimmed(cells[c]));
    if (word == "station") station = c;
    if (word == "date") date = c;
    if (word == "tmp") temperature = c;
  }
  if (!station || !date || !temperature) return std::nullopt;
  return CsvColumns{*station, *date, *temperature};
}

/// "+0012,1"
std::optional<std::pair<int, char>> tenths_and_quality(std::string_view cell) {
  const std::size_t comma = cell.find(',');
  if (comma == std::string_view::npos || comma + 2 != cell.size()) return std::nullopt;
  const auto tenths = padded_integer(cell.substr(0, comma));
  if (!tenths) return std::nullopt;
  return std::pair{*tenths, cell[comma + 1]};
}

}  // namespace

bool recognise_isd_full(std::string_view head) {
  return first_lines(head, 3,
                     [](std::string_view line) { return observation_of(line).has_value(); });
}

std::optional<TemperatureFile> read_isd_full(ReadingJob& job) {
  auto builder = SeriesBuilder::of(job, facts());
  if (!builder) return std::nullopt;
  builder->recognised("temperature", "characters 88 to 92, tenths of a degree");
  std::string_view line;
  while (job.lines.next(line)) {
    if (trimmed(line).empty()) continue;
    const auto seen = observation_of(line);
    if (!seen) {
      builder->note_unreadable(
          job.lines.number(), line, line.substr(0, 27),
          "no control section with a time and no air temperature stand in their places");
      continue;
    }
    if (!builder->wants_station(line.substr(4, 11))) continue;
    take(*builder, *seen, job.lines.number(), line, line.substr(87, 5));
  }
  return builder->finish("isd-full");
}

bool recognise_isd_csv(std::string_view head) {
  const auto columns = csv_columns(first_line(head));
  if (!columns) return false;
  Cells cells;
  bool header = true;
  return first_lines(head, 3,
                     [&](std::string_view line) {
                       if (header) return header = false, true;
                       cells.cut(line, ',');
                       return tenths_and_quality(cells[columns->temperature]).has_value();
                     }) &&
         !header;
}

std::optional<TemperatureFile> read_isd_csv(ReadingJob& job) {
  auto builder = SeriesBuilder::of(job, facts());
  std::string_view line;
  if (!builder || !job.lines.next(line)) return std::nullopt;
  const auto columns = csv_columns(line);
  if (!columns) return builder->finish("isd-csv");
  builder->recognised("temperature", "column TMP, tenths of a degree");
  Cells cells;
  while (job.lines.next(line)) {
    if (trimmed(line).empty()) continue;
    cells.cut(line, ',');
    const std::string_view cell = cells[columns->temperature];
    const auto stamp = parse_stamp(cells[columns->date]);
    const auto value = tenths_and_quality(cell);
    if (!stamp || !stamp->second_of_day || !value) {
      builder->note_unreadable(job.lines.number(), line, stamp ? cell : cells[columns->date],
                               "no time, or no temperature with its quality");
      continue;
    }
    if (!builder->wants_station(trimmed(cells[columns->station]))) continue;
    take(*builder,
         {std::int64_t{stamp->date.day[0]} * 86400 + *stamp->second_of_day, value->first,
          value->second},
         job.lines.number(), line, cell);
  }
  return builder->finish("isd-csv");
}

}  // namespace winterfolio
