// ISD-Lite: a station's hours of one year, fixed width, no header, UTC.
//
//   2014 01 01 01   -11   -42 10243   210    26 -9999 -9999 -9999
//   year mo dy hr, air temperature in tenths of a degree, then seven fields more; -9999 missing
#include "readers/temperature/fixed_number.h"
#include "readers/temperature/formats.h"
#include "readers/temperature/line_reader.h"
#include "readers/temperature/line_text.h"
#include "readers/temperature/series_builder.h"
#include "readers/temperature/stamp.h"

namespace winterfolio {
namespace {

constexpr std::size_t kWidth = 61;
constexpr int kMissing = -9999;

std::optional<int> field(std::string_view line, std::size_t from, std::size_t width) {
  return padded_integer(line.substr(from, width));
}

struct Hour {
  std::int64_t stamp;
  int tenths;
};

std::optional<Hour> hour_of(std::string_view line) {
  if (line.size() < 19 || line[4] != ' ' || line[7] != ' ' || line[10] != ' ') return std::nullopt;
  const auto year = field(line, 0, 4);
  const auto month = field(line, 5, 2);
  const auto day = field(line, 8, 2);
  const auto hour = field(line, 11, 2);
  const auto tenths = field(line, 13, 6);
  if (!year || !month || !day || !hour || !tenths || *hour < 0 || *hour > 23) return std::nullopt;
  const auto date = day_number(*year, *month, *day);
  if (!date) return std::nullopt;
  return Hour{std::int64_t{*date} * 86400 + *hour * 3600, *tenths};
}

}  // namespace

bool recognise_isd_lite(std::string_view head) {
  return first_lines(head, 5, [](std::string_view line) {
    if (line.size() < kWidth || line.size() > kWidth + 2 || !hour_of(line)) return false;
    for (std::size_t i = 19; i + 6 <= kWidth; i += 6) {
      if (!field(line, i, 6)) return false;
    }
    return true;
  });
}

std::optional<TemperatureFile> read_isd_lite(ReadingJob& job) {
  SeriesFacts facts;
  facts.unit = TemperatureUnit::celsius;
  facts.clock = Clock::utc;
  auto builder = SeriesBuilder::of(job, facts);
  if (!builder) return std::nullopt;
  builder->recognised("temperature", "characters 14 to 19, tenths of a degree");
  std::string_view line;
  while (job.lines.next(line)) {
    if (line.empty()) continue;
    const std::int64_t number = job.lines.number();
    const auto hour = hour_of(line);
    if (!hour) {
      builder->note_unreadable(number, line, line.substr(0, 19),
                               "no year, month, day, hour and temperature stand at its start");
    } else if (hour->tenths == kMissing) {
      builder->note_blank();
    } else {
      builder->at_row(line, line.substr(13, 6));
      builder->add(hour->stamp, hour->tenths * (kPartsPerDegree / 10), number);
    }
  }
  return builder->finish("isd-lite");
}

}  // namespace winterfolio
