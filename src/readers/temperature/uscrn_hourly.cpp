// The climate reference network's hourly product: blanks between the columns, no header, the mean
// of the hour that ends at the stamp, with its lowest beside it.
//
//   03047 20240101 0100 20231231 1800      3 -102.81   31.62     6.7     7.0     7.4     6.6 ...
//   station, UTC date and time, local standard date and time, version, longitude, latitude,
//   instantaneous, mean, highest, lowest; -9999.0 missing
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

enum Place : std::size_t {
  kStation = 0,
  kUtcDate = 1,
  kUtcTime = 2,
  kDate = 3,
  kTime = 4,
  kMean = 9,
  kLowest = 11,
  kFewestCells = 30
};
constexpr std::int64_t kMissing = -9000 * kPartsPerDegree;

struct Row {
  std::int64_t stamp;
  std::int64_t mean;
  std::int64_t lowest;
};

std::optional<std::int64_t> stamp_of(std::string_view date, std::string_view time) {
  if (date.size() != 8 || time.size() != 4) return std::nullopt;
  const auto day = parse_stamp(date);
  const auto second = parse_clock_time(time);
  if (!day || !second) return std::nullopt;
  return std::int64_t{day->date.day[0]} * 86400 + *second;
}

std::optional<Row> row_of(const Cells& cells) {
  if (cells.size() < kFewestCells) return std::nullopt;
  const auto utc = stamp_of(cells[kUtcDate], cells[kUtcTime]);
  const auto local = stamp_of(cells[kDate], cells[kTime]);
  const auto mean = parse_parts(cells[kMean], '.');
  const auto lowest = parse_parts(cells[kLowest], '.');
  constexpr std::int64_t kMostOffset = 15 * 3600;
  if (!utc || !local || !mean || !lowest || std::abs(*utc - *local) > kMostOffset)
    return std::nullopt;
  return Row{*local, *mean, *lowest};
}

}  // namespace

bool recognise_uscrn_hourly(std::string_view head) {
  Cells cells;
  return first_lines(head, 3, [&](std::string_view line) {
    cells.cut(line, '\0');
    const auto row = row_of(cells);
    return row && row->stamp % 3600 == 0;
  });
}

std::optional<TemperatureFile> read_uscrn_hourly(ReadingJob& job) {
  SeriesFacts facts;
  facts.unit = TemperatureUnit::celsius;
  facts.hour_stamp = HourStamp::ends;
  auto builder = SeriesBuilder::of(job, facts);
  if (!builder) return std::nullopt;
  builder->recognised("time", "columns 4 and 5, local standard time");
  builder->recognised("temperature", "column 10, mean of the hour; column 12, its lowest");
  Cells cells;
  std::string_view line;
  while (job.lines.next(line)) {
    if (trimmed(line).empty()) continue;
    cells.cut(line, '\0');
    const auto row = row_of(cells);
    if (!row) {
      builder->note_unreadable(job.lines.number(), line, line.substr(0, 30),
                               "not a station, two times and a mean temperature");
      continue;
    }
    if (!builder->wants_station(cells[kStation])) continue;
    if (row->mean < kMissing) {
      builder->note_blank();
      continue;
    }
    builder->at_row(line, cells[kMean]);
    builder->add(row->stamp, row->mean, job.lines.number());
    if (row->lowest > kMissing) builder->lower(row->lowest);
  }
  return builder->finish("uscrn-hourly");
}

}  // namespace winterfolio
