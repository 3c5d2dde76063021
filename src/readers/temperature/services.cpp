// Tables whose header tells which service wrote them: their unit, scale and clock are then known
// without asking.
#include <algorithm>

#include "base/csv_table.h"
#include "readers/temperature/formats.h"
#include "readers/temperature/line_reader.h"
#include "readers/temperature/line_text.h"
#include "readers/temperature/plain_words.h"
#include "readers/temperature/series_builder.h"
#include "readers/temperature/table_layout.h"

namespace winterfolio {
namespace {

struct Service {
  std::string id;
  std::vector<std::string> words;
  TemperatureUnit unit;
  bool tenths;
  std::optional<Clock> clock;
  HourStamp stamp;
};

std::vector<Service> read_services() {
  std::vector<Service> services;
  for (const CsvRow row : CsvTable::embedded("src/readers/temperature/tables/services.csv")) {
    Service service;
    service.id = row.text("id");
    std::string_view words = row.text("words");
    while (!words.empty()) {
      const std::size_t blank = std::min(words.find(' '), words.size());
      service.words.emplace_back(words.substr(0, blank));
      words.remove_prefix(std::min(blank + 1, words.size()));
    }
    const std::string& unit = row.text("unit");
    service.unit = unit == "F"   ? TemperatureUnit::fahrenheit
                   : unit == "K" ? TemperatureUnit::kelvin
                                 : TemperatureUnit::celsius;
    service.tenths = row.text("tenths") == "yes";
    if (row.text("clock") == "utc") service.clock = Clock::utc;
    if (row.text("clock") == "standard") service.clock = Clock::standard;
    service.stamp = row.text("stamp") == "ends" ? HourStamp::ends : HourStamp::begins;
    services.push_back(std::move(service));
  }
  return services;
}

/// The service one of the first lines is the header of.
const Service* service_of(std::string_view head) {
  static const std::vector<Service> services = read_services();
  constexpr int kLinesLookedAt = 120;
  const Service* found = nullptr;
  Cells cells;
  std::vector<std::string> words;
  first_lines(head, kLinesLookedAt, [&](std::string_view line) {
    while (!line.empty() && (line.front() == '#' || line.front() == ' ')) line.remove_prefix(1);
    for (const char delimiter : {',', ';', '\t', '|'}) {
      if (line.find(delimiter) == std::string_view::npos) continue;
      cells.cut(line, delimiter);
      words.clear();
      for (std::size_t c = 0; c < cells.size(); ++c) words.push_back(plain_word(trimmed(cells[c])));
      for (const Service& service : services) {
        const auto there = [&](const std::string& word) {
          return std::find(words.begin(), words.end(), word) != words.end();
        };
        if (!std::all_of(service.words.begin(), service.words.end(), there)) continue;
        found = &service;
        return false;
      }
    }
    return true;
  });
  return found;
}

}  // namespace

bool recognise_service(std::string_view head) {
  return service_of(head) != nullptr && looks_like_table(head);
}

std::optional<TemperatureFile> read_service(ReadingJob& job) {
  const Service* const service = service_of(job.lines.head());
  if (service == nullptr) return read_table(job);
  const int errors_before = job.diagnostics.errors();
  auto layout = find_table_layout(job.lines.head(), job.file, job.options, job.diagnostics);
  if (!layout) return job.diagnostics.errors() == errors_before ? read_table(job) : std::nullopt;
  SeriesFacts facts = facts_of(*layout);
  if (!facts.unit) facts.unit = service->unit;
  if (!facts.clock) facts.clock = service->clock;
  facts.hour_stamp = service->stamp;
  layout->tenths = service->tenths;
  auto file = read_rows(job, *layout, facts, "service");
  if (file) file->recognised.insert(file->recognised.begin(), {"service", service->id});
  return file;
}

}  // namespace winterfolio
