// Local climatological data in CSV: an airport's hourly reports with daily and monthly summaries
// between.
//
//   "STATION","DATE","REPORT_TYPE",...,"HourlyDryBulbTemperature",...
//   whole numbers are °F, numbers with decimals °C (the later edition); "s" behind a value:
//   suspect; "*" missing
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

struct Places {
  std::size_t station, date, type, temperature;
};

std::optional<Places> places_in(std::string_view header) {
  Cells cells;
  cells.cut(header, ',');
  std::optional<std::size_t> station, date, type, temperature;
  for (std::size_t c = 0; c < cells.size(); ++c) {
    const std::string word = plain_word(trimmed(cells[c]));
    if (word == "station") station = c;
    if (word == "date") date = c;
    if (word == "report_type" || word == "reporttype") type = c;
    if (word == "hourlydrybulbtemperature" || word == "hourlydrybulbtempf" ||
        word == "hourlydrybulbtempc")
      temperature = temperature.value_or(c);
  }
  if (!station || !date || !temperature) return std::nullopt;
  return Places{*station, *date, type.value_or(*station), *temperature};
}

/// Whether any of the first values has decimals.
bool has_decimals(std::string_view head, const Places& places) {
  Cells cells;
  bool found = false;
  first_lines(head, 1000, [&](std::string_view line) {
    cells.cut(line, ',');
    const std::string_view cell = trimmed(cells[places.temperature]);
    found = found || (cell.find('.') != std::string_view::npos && !cell.empty() &&
                      cell.find_first_of("0123456789") != std::string_view::npos);
    return true;
  });
  return found;
}

}  // namespace

bool recognise_local_climatological(std::string_view head) {
  return places_in(first_line(head)).has_value();
}

std::optional<TemperatureFile> read_local_climatological(ReadingJob& job) {
  const auto places = places_in(first_line(job.lines.head()));
  if (!places) {
    auto nothing = SeriesBuilder::of(job, SeriesFacts());
    return nothing ? nothing->finish("local-climatological") : std::nullopt;
  }
  SeriesFacts facts;
  facts.unit = has_decimals(job.lines.head(), *places) ? TemperatureUnit::celsius
                                                       : TemperatureUnit::fahrenheit;
  facts.clock = Clock::standard;
  auto builder = SeriesBuilder::of(job, facts);
  if (!builder) return std::nullopt;
  builder->recognised("temperature", "column HourlyDryBulbTemperature");
  builder->recognised("time", "column DATE, local standard time");
  Cells cells;
  std::string_view line;
  job.lines.next(line);
  while (job.lines.next(line)) {
    if (trimmed(line).empty()) continue;
    const std::int64_t number = job.lines.number();
    cells.cut(line, ',');
    const auto stamp = parse_stamp(cells[places->date]);
    if (!stamp || !stamp->second_of_day) {
      builder->note_unreadable(number, line, cells[places->date],
                               "no date and time stand in the column DATE");
      continue;
    }
    // Summaries of days and months have no temperature of an hour.
    const std::string_view type = trimmed(cells[places->type]);
    if (type.substr(0, 3) == "SOD" || type.substr(0, 3) == "SOM") continue;
    if (!builder->wants_station(trimmed(cells[places->station]))) continue;
    const std::string_view cell = trimmed(cells[places->temperature]);
    const CellValue value = read_temperature_cell(cell, '.');
    if (value.kind == CellKind::blank) {
      builder->note_blank();
    } else if (value.kind == CellKind::unreadable) {
      builder->note_unreadable(number, line, cell, "no temperature stands here");
    } else if (value.suffix.find('s') != std::string_view::npos) {
      builder->note_flagged(number);
    } else {
      builder->at_row(line, cell);
      builder->add(std::int64_t{stamp->date.day[0]} * 86400 + *stamp->second_of_day, value.parts,
                   number);
    }
  }
  return builder->finish("local-climatological");
}

}  // namespace winterfolio
