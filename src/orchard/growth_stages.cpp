// Loads the stages of growth.
#include "orchard/growth_stages.h"

#include "base/csv_table.h"

namespace winterfolio {

const std::vector<GrowthStage>& growth_stages_table() {
  static const std::vector<GrowthStage> table = [] {
    std::vector<GrowthStage> rows;
    const CsvTable cells = CsvTable::embedded("src/orchard/tables/bbch_stages.csv");
    for (const CsvRow row : cells) {
      rows.push_back({parse_integer(row.text("code")).value(), row.text("pome_fruit"),
                      row.text("stone_fruit"), row.text("status")});
    }
    return rows;
  }();
  return table;
}

const GrowthStage* find_growth_stage(int code) {
  for (const GrowthStage& stage : growth_stages_table()) {
    if (stage.code == code) return &stage;
  }
  return nullptr;
}

const std::vector<BudStage>& bud_stages_table() {
  static const std::vector<BudStage> table = [] {
    std::vector<BudStage> rows;
    const CsvTable cells = CsvTable::embedded("src/orchard/tables/bud_stages.csv");
    for (const CsvRow row : cells) {
      rows.push_back({row.text("species"), row.text("stage"),
                      parse_integer(row.text("bbch_low")).value(),
                      parse_integer(row.text("bbch_high"))});
    }
    return rows;
  }();
  return table;
}

const BudStage* bud_stage_at(std::string_view species, int bbch) {
  const BudStage* latest = nullptr;
  for (const BudStage& stage : bud_stages_table()) {
    if (stage.species == species && stage.bbch_low <= bbch) latest = &stage;
  }
  return latest;
}

}  // namespace winterfolio
