// Loads the table of what can be observed.
#include "orchard/observations.h"

#include <stdexcept>

#include "base/csv_table.h"
#include "orchard/word_tables.h"

namespace winterfolio {
namespace {

ObservationKind kind_named(std::string_view word) {
  if (word == "leaf_fall") return ObservationKind::leaf_fall;
  if (word == "bud_stage") return ObservationKind::bud_stage;
  if (word == "leafing") return ObservationKind::leafing;
  if (word == "fruit") return ObservationKind::fruit;
  if (word == "damage") return ObservationKind::damage;
  if (word == "work") return ObservationKind::work;
  if (word == "loss") return ObservationKind::loss;
  throw std::logic_error("observations.csv: unknown kind " + std::string(word));
}

AmountKind amount_named(std::string_view word) {
  if (word == "none") return AmountKind::none;
  if (word == "text") return AmountKind::text;
  if (word == "minutes") return AmountKind::minutes;
  throw std::logic_error("observations.csv: unknown amount " + std::string(word));
}

std::vector<ObservationRow> read_table() {
  std::vector<ObservationRow> rows;
  const CsvTable table = CsvTable::embedded("src/orchard/tables/observations.csv");
  for (const CsvRow row : table) {
    rows.push_back({{row.text("id"), cell_parts(row.text("words"), '|')},
                    kind_named(row.text("kind")),
                    parse_integer(row.text("bbch_low")),
                    parse_integer(row.text("bbch_high")),
                    amount_named(row.text("amount"))});
  }
  return rows;
}

}  // namespace

const std::vector<ObservationRow>& observations_table() {
  static const std::vector<ObservationRow> table = read_table();
  return table;
}

const ObservationRow* find_observation(std::string_view text) {
  const std::string wanted = folded_name(text);
  for (const ObservationRow& row : observations_table()) {
    if (folded_name(row.name.id) == wanted) return &row;
    for (const std::string& word : row.name.words) {
      if (folded_name(word) == wanted) return &row;
    }
  }
  return nullptr;
}

std::vector<std::string> observation_words() {
  std::vector<std::string> words;
  for (const ObservationRow& row : observations_table()) words.push_back(row.name.words.front());
  return words;
}

}  // namespace winterfolio
