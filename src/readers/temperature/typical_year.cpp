// Hourly weather for building work: EPW and TMY3. Hours are numbered 1 to 24 by their end, on local
// standard time. Such a year is mostly put together from months of several years: a typical winter,
// never a real one.
//
//   LOCATION,...                                   Date (MM/DD/YYYY),Time (HH:MM),...,Dry-bulb
//   (C),... 1987,1,1,1,60,?9?9...,7.2,3.1,...              01/01/1988,01:00,...
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

enum EpwPlace : std::size_t { kYear, kMonth, kDay, kHour, kMinute, kFlags, kDryBulb };

struct EpwRow {
  std::int32_t day;
  std::int32_t second;
  std::string_view temperature;
};

std::optional<EpwRow> epw_row(const Cells& cells) {
  const auto year = padded_integer(cells[kYear]);
  const auto month = padded_integer(cells[kMonth]);
  const auto day = padded_integer(cells[kDay]);
  const auto hour = padded_integer(cells[kHour]);
  const auto minute = padded_integer(cells[kMinute]);
  if (!year || !month || !day || !hour || !minute || *hour < 1 || *hour > 24 || *minute < 0 ||
      *minute > 60)
    return std::nullopt;
  const auto date = day_number(*year, *month, *day);
  if (!date || cells.size() < kDryBulb + 1) return std::nullopt;
  // Minute 0 and minute 60 both name the end of the hour; others lie within it.
  const int second =
      *minute == 0 || *minute == 60 ? *hour * 3600 : (*hour - 1) * 3600 + *minute * 60;
  return EpwRow{*date, second, trimmed(cells[kDryBulb])};
}

bool observes_leap_years(std::string_view line) {
  Cells cells;
  cells.cut(line, ',');
  return plain_word(trimmed(cells[1])) == "yes";
}

}  // namespace

bool recognise_epw(std::string_view head) {
  constexpr std::string_view kStart = "LOCATION,";
  return first_line(head).substr(0, kStart.size()) == kStart &&
         head.find("\nDATA PERIODS,") != std::string_view::npos;
}

std::optional<TemperatureFile> read_epw(ReadingJob& job) {
  SeriesFacts facts;
  facts.unit = TemperatureUnit::celsius;
  facts.hour_stamp = HourStamp::ends;
  facts.composite_years = true;
  constexpr std::string_view kHolidays = "\nHOLIDAYS/DAYLIGHT SAVING";
  const std::string_view head = job.lines.head();
  const std::size_t holidays = head.find(kHolidays);
  facts.without_leap_days = holidays == std::string_view::npos ||
                            !observes_leap_years(first_line(head.substr(holidays + 1)));
  auto builder = SeriesBuilder::of(job, facts);
  if (!builder) return std::nullopt;
  builder->recognised("temperature", "column 7, dry bulb");
  Cells cells;
  std::string_view line;
  bool in_rows = false;
  while (job.lines.next(line)) {
    if (trimmed(line).empty()) continue;
    cells.cut(line, ',', kDryBulb + 2);
    const auto row = epw_row(cells);
    if (!row) {
      if (in_rows)
        builder->note_unreadable(job.lines.number(), line, line.substr(0, 20),
                                 "no year, month, day, hour and minute stand at its start");
      continue;
    }
    in_rows = true;
    constexpr std::int64_t kMissing = 99 * kPartsPerDegree + 9 * (kPartsPerDegree / 10);
    const CellValue value = read_temperature_cell(row->temperature, '.');
    if (value.kind == CellKind::unreadable) {
      builder->note_unreadable(job.lines.number(), line, row->temperature,
                               "no temperature stands in column 7");
    } else if (value.kind == CellKind::blank || value.parts == kMissing) {
      builder->note_blank();
    } else {
      builder->at_row(line, row->temperature);
      builder->add(ParsedDate::certain(row->day), row->second, std::nullopt, value.parts,
                   job.lines.number(), line);
    }
  }
  return builder->finish("epw");
}

bool recognise_tmy3(std::string_view head) {
  constexpr std::string_view kDate = "Date (MM/DD/YYYY),Time (HH:MM)";
  int line_number = 0;
  bool found = false;
  first_lines(head, 2, [&](std::string_view line) {
    found = found || (++line_number == 2 && line.substr(0, kDate.size()) == kDate);
    return true;
  });
  return found && head.find("Dry-bulb (C)") != std::string_view::npos;
}

std::optional<TemperatureFile> read_tmy3(ReadingJob& job) {
  const int errors_before = job.diagnostics.errors();
  const auto layout = find_table_layout(job.lines.head(), job.file, job.options, job.diagnostics);
  if (!layout) {
    if (job.diagnostics.errors() == errors_before) return read_table(job);
    return std::nullopt;
  }
  SeriesFacts facts = facts_of(*layout);
  facts.orders = DateOrders::only(DateOrder::mdy);
  facts.hour_stamp = HourStamp::ends;
  facts.composite_years = true;
  facts.without_leap_days = true;
  return read_rows(job, *layout, facts, "tmy3");
}

}  // namespace winterfolio
