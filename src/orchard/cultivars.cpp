// Loads the cultivars, the definitions of their hours and their sources.
#include "orchard/cultivars.h"

#include <map>
#include <stdexcept>
#include <utility>

#include "orchard/names.h"
#include "orchard/published_cells.h"

namespace winterfolio {
namespace {

constexpr std::string_view kMemory = "memory";
constexpr std::string_view kSetKey = "_SET";
constexpr std::string_view kSetNote = "set range";

struct HoursDefinition {
  std::optional<ChillMeasure> measure;
  bool assumed = false;
};

std::map<std::string, HoursDefinition> read_hours_definitions() {
  std::map<std::string, HoursDefinition> found;
  const CsvTable table = CsvTable::embedded("src/orchard/tables/hours_definitions.csv");
  for (const CsvRow row : table) {
    const std::string& measure = row.text("measure");
    HoursDefinition definition{chill_measure_named(measure), row.text("assumed") == "yes"};
    if (!measure.empty() && !definition.measure) {
      throw std::logic_error("hours_definitions.csv: unknown measure " + measure);
    }
    found.emplace(row.text("definition"), definition);
  }
  return found;
}

CultivarMark mark_of(const CultivarRow& row, bool set_key) {
  if (set_key || row.note.starts_with(kSetNote)) return CultivarMark::set_range;
  if (row.source == kMemory) return CultivarMark::memory;
  if (row.chill_hours && !row.hours_measure) return CultivarMark::constant_temperature;
  return CultivarMark::seen;
}

CultivarRow read_row(const CsvRow& cells,
                     const std::map<std::string, HoursDefinition>& definitions) {
  CultivarRow row;
  row.species = cells.text("species");
  row.cultivar = cells.text("cultivar");
  row.chill_hours = published_range(cells, "chill_hours");
  row.hours_definition = cells.text("hours_definition");
  row.portions = published_range(cells, "chill_portions");
  row.utah = published_range(cells, "utah");
  row.heat = published_range(cells, "gdh");
  row.bloom_group = cells.text("bloom_group");
  row.self_fertile = published_self_fertility(cells.text("self_fertile"));
  row.note = cells.text("note");
  row.source = cells.text("source");
  row.from_memory = row.source == kMemory;
  const bool set_key = row.source.ends_with(kSetKey);
  if (set_key) row.source.resize(row.source.size() - kSetKey.size());
  if (row.chill_hours) {
    const HoursDefinition& definition = definitions.at(row.hours_definition);
    row.hours_measure = definition.measure;
    // Hours from memory are given by the usual convention, which nobody has checked.
    row.hours_assumed = definition.assumed || row.from_memory;
  }
  row.mark = mark_of(row, set_key);
  return row;
}

std::vector<CultivarRow> read_table() {
  const auto definitions = read_hours_definitions();
  std::vector<CultivarRow> rows;
  const CsvTable table = CsvTable::embedded("src/orchard/tables/cultivars.csv");
  for (const CsvRow cells : table) rows.push_back(read_row(cells, definitions));
  return rows;
}

}  // namespace

const std::vector<CultivarRow>& cultivars_table() {
  static const std::vector<CultivarRow> table = read_table();
  return table;
}

std::vector<const CultivarRow*> find_cultivar(std::string_view species, std::string_view name) {
  // Folded once: an orchard asks for hundreds of names, the table holds hundreds more.
  using Rows = std::vector<const CultivarRow*>;
  static const std::map<std::pair<std::string, std::string>, Rows> by_name = [] {
    std::map<std::pair<std::string, std::string>, Rows> found;
    for (const CultivarRow& row : cultivars_table())
      found[{row.species, folded_name(row.cultivar)}].push_back(&row);
    return found;
  }();
  const auto at = by_name.find({std::string(species), folded_name(name)});
  return at == by_name.end() ? Rows{} : at->second;
}

std::vector<std::string> cultivar_names(std::string_view species) {
  std::vector<std::string> names;
  for (const CultivarRow& row : cultivars_table()) {
    if (row.species == species && (names.empty() || names.back() != row.cultivar)) {
      names.push_back(row.cultivar);
    }
  }
  return names;
}

const std::vector<CultivarSource>& cultivar_sources_table() {
  static const std::vector<CultivarSource> table = [] {
    std::vector<CultivarSource> rows;
    const CsvTable cells = CsvTable::embedded("src/orchard/tables/cultivar_sources.csv");
    for (const CsvRow row : cells) rows.push_back({row.text("key"), row.text("reference")});
    return rows;
  }();
  return table;
}

const CultivarSource* find_cultivar_source(std::string_view key) {
  for (const CultivarSource& source : cultivar_sources_table()) {
    if (source.key == key) return &source;
  }
  return nullptr;
}

}  // namespace winterfolio
