// GHCN-Daily files of one or several stations, fixed width: a line holds one element of one month,
// day after day.
//
//   USW00094728197001TMAX  -39  0  -11  0   22  0 ...
//   station....year.mo.element.value.flags, 31 times; values in tenths of a degree, -9999 missing
//
// The second of a value's three flags is not blank where it failed the publisher's checks: set
// aside and counted.
#include <algorithm>

#include "readers/temperature/fixed_number.h"
#include "readers/temperature/formats.h"
#include "readers/temperature/line_reader.h"
#include "readers/temperature/line_text.h"
#include "readers/temperature/series_builder.h"
#include "readers/temperature/stamp.h"

namespace winterfolio {
namespace {

constexpr std::size_t kPrefix = 21;
constexpr std::size_t kGroup = 8;
constexpr int kMissing = -9999;

bool is_digit(char c) { return c >= '0' && c <= '9'; }

struct MonthLine {
  std::string_view station;
  int year;
  int month;
  std::string_view element;
};

std::optional<MonthLine> month_line(std::string_view line) {
  if (line.size() < kPrefix + 5) return std::nullopt;
  const auto year = padded_integer(line.substr(11, 4));
  const auto month = padded_integer(line.substr(15, 2));
  if (!year || !month || !day_number(*year, *month, 1)) return std::nullopt;
  const std::string_view element = line.substr(17, 4);
  if (element[0] < 'A' || !std::all_of(element.begin(), element.end(), [](char c) {
        return (c >= 'A' && c <= 'Z') || is_digit(c);
      }))
    return std::nullopt;
  if (!padded_integer(line.substr(kPrefix, 5))) return std::nullopt;
  return MonthLine{line.substr(0, 11), *year, *month, element};
}

}  // namespace

bool recognise_ghcn_daily(std::string_view head) {
  return first_lines(head, 5, [](std::string_view line) {
    return month_line(line) && line.size() >= kPrefix + 27 * kGroup;
  });
}

std::optional<TemperatureFile> read_ghcn_daily(ReadingJob& job) {
  SeriesFacts facts;
  facts.unit = TemperatureUnit::celsius;
  auto builder = SeriesBuilder::of(job, facts);
  if (!builder) return std::nullopt;
  builder->recognised("minimum", "element TMIN");
  builder->recognised("maximum", "element TMAX");
  std::string_view line;
  while (job.lines.next(line)) {
    if (line.empty()) continue;
    const std::int64_t number = job.lines.number();
    const auto month = month_line(line);
    if (!month) {
      builder->note_unreadable(number, line, line.substr(0, 21),
                               "no station, month and element stand at its start");
      continue;
    }
    const bool maximum = month->element == "TMAX";
    if (!maximum && month->element != "TMIN") continue;
    if (!builder->wants_station(month->station)) continue;
    for (int day = 1; day <= 31; ++day) {
      const std::size_t at = kPrefix + static_cast<std::size_t>(day - 1) * kGroup;
      if (at + 5 > line.size()) break;
      const auto value = padded_integer(line.substr(at, 5));
      if (value && *value == kMissing) continue;
      const auto date = day_number(month->year, month->month, day);
      if (!value || !date) {
        builder->note_unreadable(
            number, line, line.substr(at, 5),
            value ? "the month has no such day" : "no whole number stands here");
        continue;
      }
      const char quality = at + 6 < line.size() ? line[at + 6] : ' ';
      if (quality != ' ') {
        builder->note_flagged(number);
        continue;
      }
      builder->at_row(line, line.substr(at, 5));
      const std::int64_t parts = *value * (kPartsPerDegree / 10);
      builder->add_day(*date, maximum ? std::nullopt : std::optional(parts),
                       maximum ? std::optional(parts) : std::nullopt, number);
    }
  }
  return builder->finish("ghcn-daily");
}

}  // namespace winterfolio
