// Loads the species table.
#include "orchard/species.h"

#include <stdexcept>

#include "orchard/names.h"
#include "orchard/published_cells.h"
#include "orchard/word_tables.h"

namespace winterfolio {
namespace {

std::vector<SpeciesRow> read_table() {
  std::vector<SpeciesRow> rows;
  const CsvTable table = CsvTable::embedded("src/orchard/tables/species.csv");
  for (const CsvRow row : table) {
    SpeciesRow species;
    species.id = row.text("id");
    species.latin_name = row.text("latin_name");
    species.chill_hours = published_range(row, "chill_hours");
    species.chill_portions = published_range(row, "chill_portions");
    species.heat = published_range(row, "gdh");
    species.usual_bloom_order = static_cast<int>(row.required_number("usual_bloom_order"));
    species.self_fertile = published_self_fertility(row.text("self_fertile")).value();
    species.leaf_fall_month = static_cast<unsigned>(row.required_number("leaf_fall_month"));
    species.sources = cell_parts(row.text("sources"), ';');
    rows.push_back(std::move(species));
  }
  return rows;
}

}  // namespace

std::optional<PublishedRange> published_range(const CsvRow& row, const std::string& name) {
  const PublishedRange range{row.number(name + "_low"), row.number(name + "_high")};
  if (!range.low && !range.high) return std::nullopt;
  return range;
}

std::optional<SelfFertile> published_self_fertility(std::string_view cell) {
  if (cell.empty()) return std::nullopt;
  if (cell == "yes") return SelfFertile::yes;
  if (cell == "no") return SelfFertile::no;
  if (cell == "partial") return SelfFertile::partly;
  throw std::logic_error("self_fertile is '" + std::string(cell) +
                         "', neither yes, no nor partial");
}

const std::vector<SpeciesRow>& species_table() {
  static const std::vector<SpeciesRow> table = read_table();
  return table;
}

const SpeciesRow* find_species(std::string_view text) {
  for (const SpeciesRow& row : species_table())  // as it stands, which is how files mostly have it
    if (row.id == text) return &row;
  const std::string wanted = folded_name(text);
  for (const SpeciesRow& row : species_table()) {
    if (folded_name(row.id) == wanted) return &row;
  }
  return nullptr;
}

std::vector<std::string> species_ids() {
  std::vector<std::string> ids;
  for (const SpeciesRow& row : species_table()) ids.push_back(row.id);
  return ids;
}

unsigned leaf_fall_month_at(const SpeciesRow& species, bool southern) {
  return southern ? (species.leaf_fall_month + 5) % 12 + 1 : species.leaf_fall_month;
}

}  // namespace winterfolio
