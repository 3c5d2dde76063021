// Reads the frost tables.
#include "models/frost/critical_temperatures.h"

#include <algorithm>
#include <array>
#include <map>
#include <vector>

#include "base/csv_table.h"

namespace winterfolio {
namespace {

SourceMark mark_of(const CsvRow& row) {
  return row.text("mark") == "seen" ? SourceMark::seen : SourceMark::memory;
}

std::optional<Celsius> fahrenheit(const CsvRow& row, std::string_view column) {
  const auto value = row.number(column);
  return value ? std::optional(Celsius::from_fahrenheit(*value)) : std::nullopt;
}

std::vector<CriticalTemperature> read_stages() {
  std::vector<CriticalTemperature> stages;
  const CsvTable table =
      CsvTable::embedded("src/models/frost/tables/critical_bud_temperatures.csv");
  for (const CsvRow row : table) {
    stages.push_back({row.text("species"), row.text("stage"),
                      static_cast<int>(row.required_number("stage_order")),
                      Celsius::from_fahrenheit(row.required_number("kill10_f")),
                      fahrenheit(row, "kill90_f"), row.text("source"), mark_of(row)});
  }
  return stages;
}

/// In the table the stages of a species stand together.
const std::vector<CriticalTemperature>& all_stages() {
  static const std::vector<CriticalTemperature> stages = read_stages();
  return stages;
}

}  // namespace

std::span<const CriticalTemperature> critical_temperatures(std::string_view species) {
  const auto of_species = [&](const CriticalTemperature& stage) {
    return stage.species == species;
  };
  const auto first = std::find_if(all_stages().begin(), all_stages().end(), of_species);
  const auto last = std::find_if_not(first, all_stages().end(), of_species);
  return {first, last};
}

const CriticalTemperature* critical_temperature(std::string_view species, std::string_view stage) {
  for (const CriticalTemperature& one : critical_temperatures(species)) {
    if (one.stage == stage) return &one;
  }
  return nullptr;
}

const CriticalTemperature* first_bloom_temperature(std::string_view species) {
  return critical_temperature(species, "first bloom");
}

std::string_view id_of(FrostLevel level) {
  constexpr std::array<std::string_view, 4> ids = {"above", "watch", "ten_percent",
                                                   "ninety_percent"};
  return ids.at(static_cast<std::size_t>(level));
}

FrostLevel frost_level(Celsius low, const CriticalTemperature& stage) {
  if (stage.kill90 && low <= *stage.kill90 + kLineSlack) return FrostLevel::ninety_percent;
  if (low <= stage.kill10 + kLineSlack) return FrostLevel::ten_percent;
  return low <= stage.kill10 + kClearNightMargin + kLineSlack ? FrostLevel::watch
                                                              : FrostLevel::above;
}

std::optional<DormantHardiness> dormant_hardiness(std::string_view species) {
  static const auto figures = [] {
    std::map<std::string, DormantHardiness, std::less<>> read;
    const CsvTable table = CsvTable::embedded("src/models/frost/tables/dormant_hardiness.csv");
    for (const CsvRow row : table) {
      read.emplace(row.text("species"),
                   DormantHardiness{Celsius::from_fahrenheit(row.required_number("watch_f")),
                                    fahrenheit(row, "likely_f"), row.text("source"), mark_of(row)});
    }
    return read;
  }();
  const auto at = figures.find(species);
  return at == figures.end() ? std::nullopt : std::optional(at->second);
}

}  // namespace winterfolio
