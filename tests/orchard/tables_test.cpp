// The tables of an orchard's nouns: complete, consistent with one another, and as their sources
// have them.
#include <set>
#include <stdexcept>

#include "base/csv_table.h"
#include "orchard/cultivars.h"
#include "orchard/growth_stages.h"
#include "orchard/observations.h"
#include "orchard/species.h"
#include "orchard/tree_words.h"
#include "support/catch.h"

using namespace winterfolio;

TEST_CASE("twenty kinds of tree are known, each once") {
  std::set<std::string> ids;
  for (const SpeciesRow& species : species_table()) {
    INFO(species.id);
    CHECK(ids.insert(species.id).second);
    CHECK_FALSE(species.latin_name.empty());
    CHECK(species.usual_bloom_order >= 1);
    CHECK(species.leaf_fall_month >= 1);
    CHECK(species.leaf_fall_month <= 12);
    CHECK_FALSE(species.sources.empty());
    CHECK(species.id != kOtherSpecies);
  }
  CHECK(ids.size() == 20);
}

TEST_CASE("a species is found by its id, capitals, blanks and hyphens aside") {
  REQUIRE(find_species("japanese_plum") != nullptr);
  CHECK(find_species("Japanese plum") == find_species("japanese_plum"));
  CHECK(find_species("JAPANESE-PLUM") == find_species("japanese_plum"));
  CHECK(find_species("plum") == nullptr);
  CHECK(find_species("other") == nullptr);
  CHECK(find_species("") == nullptr);
}

TEST_CASE("leaves fall six months later south of the equator") {
  const SpeciesRow& apple = *find_species("apple");
  CHECK(leaf_fall_month_at(apple, false) == 11);
  CHECK(leaf_fall_month_at(apple, true) == 5);
  const SpeciesRow& apricot = *find_species("apricot");
  CHECK(leaf_fall_month_at(apricot, false) == 10);
  CHECK(leaf_fall_month_at(apricot, true) == 4);
}

TEST_CASE("spans of a species are those of its sources") {
  // European pear: 43.9 to 49.2 chill portions and 6514 to 7509 growing degree hours, Fadon and
  // others 2023, Agronomy 13:518 (abstract).
  const SpeciesRow& pear = *find_species("pear");
  CHECK(pear.chill_portions->low == 43.9);
  CHECK(pear.chill_portions->high == 49.2);
  CHECK(pear.heat->low == 6514.0);
  CHECK(pear.heat->high == 7509.0);
  CHECK_FALSE(find_species("quince")->chill_portions.has_value());
}

TEST_CASE("every cultivar is of a known species, has a known source and well-ordered figures") {
  CHECK(cultivars_table().size() == 557);
  const auto ordered = [](const std::optional<PublishedRange>& range) {
    return !range || !range->low || !range->high || *range->low <= *range->high;
  };
  for (const CultivarRow& row : cultivars_table()) {
    INFO(row.species << " " << row.cultivar << " " << row.source);
    CHECK(find_species(row.species) != nullptr);
    CHECK((row.from_memory || find_cultivar_source(row.source) != nullptr));
    CHECK(ordered(row.chill_hours));
    CHECK(ordered(row.portions));
    CHECK(ordered(row.utah));
    CHECK(ordered(row.heat));
    CHECK(row.chill_hours.has_value() == !row.hours_definition.empty());
    if (row.from_memory)
      CHECK((row.mark == CultivarMark::memory || row.mark == CultivarMark::set_range));
  }
}

TEST_CASE("species name only sources that are listed") {
  for (const SpeciesRow& species : species_table()) {
    for (const std::string& key : species.sources) {
      INFO(species.id << " " << key);
      CHECK((key == "memory" || find_cultivar_source(key) != nullptr));
    }
  }
}

TEST_CASE("rows that cannot decide are marked as what they are") {
  const auto row_from = [](std::string_view species, std::string_view name,
                           std::string_view source) -> const CultivarRow& {
    for (const CultivarRow* row : find_cultivar(species, name)) {
      if (row->source == source) return *row;
    }
    throw std::runtime_error("no such row");
  };
  // UC ANR, Fruit and nut crop chill portions requirements: Golden Delicious 50.
  const CultivarRow& golden = row_from("apple", "Golden Delicious", "UCANR_POPE");
  CHECK(golden.mark == CultivarMark::seen);
  CHECK(golden.portions->low == 50.0);
  CHECK(golden.portions->high == 50.0);
  CHECK_FALSE(golden.chill_hours.has_value());
  // Delgado and others 2021: 59 to 90 portions over ten cultivars, Elstar among them.
  const CultivarRow& elstar = row_from("apple", "Elstar", "DELGADO2021");
  CHECK(elstar.mark == CultivarMark::set_range);
  CHECK_FALSE(elstar.from_memory);
  // Aslamarz and others 2009, HortScience 44:697: cut shoots of walnut Hartley at a constant 4 C,
  // 1000 hours.
  const CultivarRow& hartley = row_from("walnut", "Hartley", "ASLAMARZ2009");
  CHECK(hartley.mark == CultivarMark::constant_temperature);
  CHECK_FALSE(hartley.hours_measure.has_value());
  // From general knowledge.
  const CultivarRow& fuji = row_from("apple", "Fuji", "memory");
  CHECK(fuji.mark == CultivarMark::memory);
  CHECK(fuji.hours_measure == ChillMeasure::chill_hours);
  CHECK(fuji.hours_assumed);
  // A remembered span over a set of cultivars.
  const CultivarRow& bulida = row_from("apricot", "Bulida", "memory");
  CHECK(bulida.mark == CultivarMark::set_range);
  CHECK(bulida.from_memory);
  // Cooperative Extension answer 344797: Honeycrisp 800 to 1000 hours between 32 and 45 F.
  const CultivarRow& honeycrisp = row_from("apple", "honeycrisp", "EXTENSION344797");
  CHECK(honeycrisp.hours_measure == ChillMeasure::chill_hours_32_45);
  CHECK_FALSE(honeycrisp.hours_assumed);
  // USDA list for Georgia, plain "chill hours": read as hours at or below 45 F, and said to be.
  for (const CultivarRow& row : cultivars_table()) {
    if (row.source != "RMA2018") continue;
    CHECK(row.hours_measure == ChillMeasure::chill_hours);
    CHECK(row.hours_assumed);
  }
}

TEST_CASE("a bound without its other end stays a bound") {
  bool found = false;
  for (const CultivarRow* row : find_cultivar("apple", "Gala")) {
    if (row->source != "APPLE_UEM") continue;
    found = true;
    CHECK(row->utah->low == 900.0);  // "only after 900": a lower bound
    CHECK_FALSE(row->utah->high.has_value());
  }
  CHECK(found);
}

TEST_CASE("cultivars of one species fold to different names") {
  std::set<std::pair<std::string, std::string>> names;
  for (const SpeciesRow& species : species_table()) {
    for (const std::string& name : cultivar_names(species.id)) {
      INFO(species.id << " " << name);
      CHECK(names.emplace(species.id, folded_name(name)).second);
    }
  }
}

TEST_CASE("observations carry codes of the BBCH table") {
  const auto code_is_known = [](const std::optional<int>& code) {
    return !code || find_growth_stage(*code) != nullptr;
  };
  CHECK(observations_table().size() == 16);
  for (const ObservationRow& row : observations_table()) {
    INFO(row.name.id);
    CHECK(row.bbch_low.has_value() == row.bbch_high.has_value());
    if (row.bbch_low) CHECK(*row.bbch_low <= *row.bbch_high);
    CHECK(code_is_known(row.bbch_low));
    CHECK(code_is_known(row.bbch_high));
    CHECK(find_observation(row.name.id) == &row);
    CHECK(folded_name(row.name.id) == folded_name(row.name.words.front()));
  }
  // BBCH monograph: 60 first flowers open, 61 a tenth open, 65 full bloom, 69 all petals down, 97
  // all leaves down.
  CHECK(find_observation("first bloom")->bbch_low == 60);
  CHECK(find_observation("first bloom")->bbch_high == 61);
  CHECK(find_observation("Full Bloom")->bbch_low == 65);
  CHECK(find_observation("petal fall")->bbch_low == 69);
  CHECK(find_observation("leaves fallen")->bbch_low == 97);
  CHECK(find_observation("white bud")->name.id == "pink_or_white_bud");
  CHECK(find_observation("pruned")->amount == AmountKind::minutes);
  CHECK(find_observation("harvest")->amount == AmountKind::text);
  CHECK(find_observation("aphids") == nullptr);
}

TEST_CASE("bud stages follow one another within a species, from first swelling to green fruit") {
  for (std::size_t i = 0; i < bud_stages_table().size(); ++i) {
    const BudStage& stage = bud_stages_table()[i];
    INFO(stage.species << " " << stage.stage);
    CHECK(find_species(stage.species) != nullptr);
    CHECK(stage.bbch_low >= 51);
    CHECK(stage.bbch_low <= 73);
    if (i > 0 && bud_stages_table()[i - 1].species == stage.species)
      CHECK(bud_stages_table()[i - 1].bbch_low < stage.bbch_low);
  }
  CHECK(bud_stage_at("apple", 51) == nullptr);
  CHECK(bud_stage_at("apple", 53)->stage == "green tip");
  CHECK(bud_stage_at("apple", 63)->stage == "first bloom");
  CHECK(bud_stage_at("fig", 60) == nullptr);
}

TEST_CASE("words of the file name the ids with underscores") {
  for (const auto* table : {&forms_table(), &see_to_table(), &hazards_table(), &diseases_table()}) {
    for (const WordRow& row : *table) {
      INFO(row.id);
      CHECK(row.id.find(' ') == std::string::npos);
      CHECK(folded_name(row.id) == folded_name(row.words.front()));
      for (const std::string& word : row.words) CHECK(find_word(*table, word) == &row);
    }
  }
  CHECK(find_word(forms_table(), "Open Center")->id == "open_centre");
  CHECK(find_word(forms_table(), "multi-leader")->id == "multi_leader");
  CHECK(find_word(diseases_table(), "Fire Blight")->id == "fire_blight");
  CHECK(find_word(hazards_table(), "cliff") == nullptr);
}
