// An orchard file that uses every key reads without a fault, and every value arrives as it was
// meant. Expected figures are worked out by hand from the definitions 1 ft = 0.3048 m and 1 F step
// = 5/9 C.
#include <array>
#include <set>

#include "base/csv_table.h"
#include "readers/orchard/keys.h"
#include "readers/orchard/memory_files.h"
#include "readers/orchard/orchard_reader.h"
#include "support/catch.h"
#include "support/files.h"

using namespace winterfolio;

namespace {

const std::string kFolder = test::source_dir() + "/tests/readers/orchard/";

test::MemoryFiles files_of_everything() {
  return test::MemoryFiles({{"temperatures/2026-27.csv", ""},
                            {"temperatures/airport.csv", ""},
                            {"temperatures/forecast.csv", ""},
                            {"temperatures/hollow.csv", ""},
                            {"temperatures/top.csv", ""},
                            {"records.csv", test::read_file(kFolder + "everything_records.csv")}});
}

/// Reads everything.yaml; its only diagnostics are notes.
Orchard everything() {
  Diagnostics diagnostics;
  const test::MemoryFiles files = files_of_everything();
  const std::array<std::string_view, 2> formats = {"table", "daily table"};
  const auto orchard =
      read_orchard_bytes("gardens/everything.yaml", test::read_file(kFolder + "everything.yaml"),
                         diagnostics, {formats}, &files);
  for (const Diagnostic& diagnostic : diagnostics.all()) {
    INFO(to_text(diagnostic));
    CHECK(diagnostic.severity == Severity::note);
    CHECK(diagnostic.id == "orchard.unused-key");
  }
  REQUIRE(orchard.has_value());
  return *orchard;
}

void collect_keys(const YamlNode& node, std::set<std::string>& keys) {
  for (const YamlNode& item : node.items) collect_keys(item, keys);
  for (const YamlEntry& entry : node.entries) {
    keys.insert(entry.key);
    collect_keys(entry.value, keys);
  }
}

}  // namespace

TEST_CASE("the orchard file that uses every key does use every key") {
  Diagnostics diagnostics;
  const auto document =
      read_yaml("everything.yaml", test::read_file(kFolder + "everything.yaml"), diagnostics);
  REQUIRE(document.has_value());
  std::set<std::string> used;
  collect_keys(document->root, used);
  for (const KeyInfo& key : orchard_file_keys()) {
    // "amount" and the like may stand in one section and serve for another; everything_test looks
    // at each value anyway.
    INFO(key.section << "." << key.key);
    CHECK(used.count(std::string(key.key)) == 1);
  }
}

TEST_CASE("keys that nothing is made of yet are keys") {
  const CsvTable waiting = CsvTable::embedded("src/readers/orchard/tables/keys_not_used_yet.csv");
  for (const CsvRow row : waiting) {
    INFO(row.text("section") << "." << row.text("key"));
    bool known = false;
    for (const KeyInfo& key : orchard_file_keys()) {
      known = known || (key.section == row.text("section") && key.key == row.text("key"));
    }
    CHECK(known);
  }
}

TEST_CASE("every key says what belongs there and gives an example") {
  for (const KeyInfo& key : orchard_file_keys()) {
    INFO(key.section << "." << key.key);
    CHECK_FALSE(key.expected.empty());
    CHECK_FALSE(key.example.empty());
  }
}

TEST_CASE("the place is read with its units") {
  const Orchard orchard = everything();
  CHECK(orchard.file == "gardens/everything.yaml");
  CHECK(orchard.folder == "gardens");
  CHECK(path_beside(orchard, "records.csv") == "gardens/records.csv");
  CHECK(orchard.id == "larch-hill");
  CHECK(orchard.name == "Larch Hill Community Orchard");
  CHECK(orchard.latitude == 38.75);
  CHECK_FALSE(orchard.southern());
  CHECK(orchard.longitude == -121.20);
  REQUIRE(orchard.elevation);
  CHECK_THAT(orchard.elevation->metres(), WithinAbs(95.0976, 1e-9));  // 312 x 0.3048
  CHECK(orchard.time_zone == "America/Los_Angeles");
  CHECK(orchard.units == TemperatureUnits::fahrenheit);
  CHECK(orchard.lengths == LengthUnits::metres);  // as written, not as it goes with fahrenheit
  CHECK(orchard.paper == Paper::letter);
  CHECK(orchard.language == "en");
  CHECK(orchard.meeting_point == "the tool shed by the east gate");
  CHECK(orchard.district.wet_winters == District::yes);
  CHECK(orchard.district.silver_leaf == District::unknown);
  CHECK(orchard.district.eutypa == District::no);
  CHECK(orchard.district.bacterial_canker == District::yes);  // true
  CHECK(orchard.district.fire_blight == District::no);        // False
}

TEST_CASE("the winter and its measures are read in the order written") {
  const Orchard orchard = everything();
  CHECK(orchard.winter_from == MonthDay{10, 15});
  CHECK(orchard.winter_to == MonthDay{2, 29});
  CHECK(orchard.measures == std::vector<ChillMeasure>{ChillMeasure::portions,
                                                      ChillMeasure::chill_hours,
                                                      ChillMeasure::utah});
}

TEST_CASE("temperature files are read with all that their content cannot tell") {
  const Orchard orchard = everything();
  REQUIRE(orchard.temperatures.size() == 3);
  const TemperatureSource& own = orchard.temperatures[0];
  CHECK(own.file == "temperatures/2026-27.csv");
  CHECK(own.stands_for == StandsFor::orchard);
  CHECK(own.format == "table");
  CHECK(own.unit == TemperatureUnit::fahrenheit);
  CHECK(own.clock == Clock::civil);
  CHECK_FALSE(own.utc_offset_minutes.has_value());
  CHECK(own.columns ==
        std::map<std::string, std::string>{{"time", "Date Time"}, {"temperature", "Temp"}});
  CHECK(own.date_order == DateOrder::mdy);
  CHECK(own.decimal == DecimalMark::point);
  CHECK(own.station == "04177");  // a text: its zero stays
  CHECK(own.hour_stamp == HourStamp::ends);
  CHECK(own.at.line == 27);
  CHECK(own.at.column == 11);

  const TemperatureSource& nearby = orchard.temperatures[1];
  CHECK(nearby.stands_for == StandsFor::nearby);
  CHECK(nearby.clock == Clock::utc);
  CHECK(nearby.utc_offset_minutes == -480);
  CHECK(nearby.columns ==
        std::map<std::string, std::string>{{"date", "1"}, {"minimum", "3"}, {"maximum", "4"}});
  CHECK(nearby.decimal == DecimalMark::comma);
  CHECK(nearby.unit == TemperatureUnit::kelvin);
  CHECK_FALSE(nearby.format.has_value());

  const TemperatureSource& forecast = orchard.temperatures[2];
  CHECK(forecast.stands_for == StandsFor::forecast);
  CHECK(forecast.clock == Clock::standard);
  CHECK(forecast.date_order == DateOrder::dmy);
  CHECK(forecast.hour_stamp == HourStamp::begins);
  CHECK(forecast.unit == TemperatureUnit::celsius);
}

TEST_CASE("bare totals of past winters are read by measure") {
  const Orchard orchard = everything();
  REQUIRE(orchard.past_winters.size() == 2);
  CHECK(orchard.past_winters[0].winter == "2019-20");
  CHECK(orchard.past_winters[0].year == 2019);
  CHECK(orchard.past_winters[0].from_where == "notebook");
  CHECK(orchard.past_winters[0].totals == ChillNeeds{{ChillMeasure::chill_hours, {612, 612}},
                                                     {ChillMeasure::portions, {48.5, 48.5}}});
  CHECK(orchard.past_winters[1].year == 1999);  // 1999-00 joins two centuries
  CHECK(orchard.past_winters[1].totals ==
        ChillNeeds{{ChillMeasure::chill_hours_32_45, {540, 540}},
                   {ChillMeasure::chill_hours_less_warm, {321, 321}},
                   {ChillMeasure::utah, {700, 700}},
                   {ChillMeasure::utah_daily_positive, {810, 810}},
                   {ChillMeasure::utah_smoothed, {805, 805}},
                   {ChillMeasure::north_carolina, {690, 690}},
                   {ChillMeasure::low_chill, {640, 640}}});
}

TEST_CASE("a frost offset is a difference of temperatures, so that no 32 is taken off it") {
  const Orchard orchard = everything();
  REQUIRE(orchard.blocks.size() == 3);
  CHECK(orchard.blocks[0].id == "hollow");
  CHECK(orchard.blocks[0].name == "The hollow");
  CHECK_THAT(orchard.blocks[0].frost_offset.degrees(), WithinAbs(-1.5, 1e-12));  // -2.7 F x 5/9
  REQUIRE(orchard.blocks[0].thermometer);
  CHECK(orchard.blocks[0].thermometer->file == "temperatures/hollow.csv");
  CHECK(orchard.blocks[1].frost_offset.degrees() == 0.5);
  REQUIRE(orchard.blocks[1].thermometer);
  CHECK(orchard.blocks[1].thermometer->file == "temperatures/top.csv");
  CHECK(orchard.blocks[1].thermometer->unit == TemperatureUnit::fahrenheit);
  CHECK(orchard.blocks[2].id == "wall");
  CHECK(orchard.blocks[2].frost_offset.degrees() == 0.0);
  CHECK_FALSE(orchard.blocks[2].thermometer.has_value());
}

TEST_CASE("own cultivars are read with their needs") {
  const Orchard orchard = everything();
  REQUIRE(orchard.cultivars.size() == 2);
  const OwnCultivar& own = orchard.cultivars[0];
  CHECK(own.species == "apple");
  CHECK(own.name == "Old Gate");
  CHECK(own.needs ==
        ChillNeeds{{ChillMeasure::chill_hours, {300, 400}}, {ChillMeasure::portions, {22, 22}}});
  CHECK(own.heat_to_bloom == Range{6500, 7500});
  CHECK(own.self_fertile == SelfFertile::no);
  CHECK(own.partners == std::vector<std::string>{"Anna", "Fuji"});
  CHECK(own.from_where == "the keeper's own years");
  CHECK(orchard.cultivars[1].species == "japanese_plum");  // written with a blank
  CHECK(orchard.cultivars[1].self_fertile == SelfFertile::partly);
}

TEST_CASE("a tree is read with every key") {
  const Orchard orchard = everything();
  REQUIRE(orchard.trees.size() == 4);
  const Tree& tree = orchard.trees[0];
  CHECK(tree.id == "A1");
  CHECK(tree.tag == "17");
  CHECK(tree.species == "apple");
  CHECK(tree.cultivar == "Anna");
  CHECK(tree.grafts == std::vector<std::string>{"Anna", "Old Gate"});
  CHECK(tree.rootstock == "MM106");
  CHECK(tree.origin == "club exchange 2018");
  CHECK(tree.planted == PartialDate{2019, 2, std::nullopt});
  CHECK(tree.lost == PartialDate{2025, 8, 3});
  CHECK(tree.lost_to == "borer");
  CHECK(tree.block == "hollow");
  REQUIRE(tree.row_place);
  CHECK(tree.row_place->row == 1);
  CHECK(tree.row_place->place == 4);
  CHECK_FALSE(tree.measured_place.has_value());
  CHECK(tree.landmark == "third from the gate");
  CHECK(tree.form == "open_centre");
  REQUIRE(tree.height);
  CHECK_THAT(tree.height->metres(), WithinAbs(3.6576, 1e-12));  // 12 x 0.3048
  CHECK(tree.state == TreeState::bearing);
  CHECK(tree.needs ==
        ChillNeeds{{ChillMeasure::portions, {18, 22}}, {ChillMeasure::utah, {250, 250}}});
  CHECK(tree.from_where == "own records");
  CHECK(tree.see_to == std::vector<std::string>{"dead", "diseased", "damaged", "crowded",
                                                "crossing", "narrow", "inward", "water_sprouts",
                                                "suckers", "mummies"});
  CHECK(tree.disease == "fire_blight");
  CHECK(tree.disease_named == "fire blight");
  CHECK(tree.hazards == std::vector<std::string>{"wires", "hollow_trunk", "heavy_limb",
                                                 "steep_ground", "bees", "water"});
  CHECK(tree.note == "free text over two lines");
}

TEST_CASE("what was seen comes from the file and the records, by date") {
  const Orchard orchard = everything();
  const std::vector<Observation>& seen = orchard.trees[0].observed;
  REQUIRE(seen.size() == 5);
  CHECK(seen[0].what == "first_bloom");
  CHECK(seen[0].on == PartialDate{2024, 2, 2});
  CHECK(seen[0].note == "south side");
  CHECK(seen[1].what == "pruned");
  CHECK(seen[1].amount == "25 min");
  CHECK(seen[1].minutes == 25.0);
  CHECK(seen[2].what == "full_bloom");
  CHECK(seen[2].note == "late, and sparse");
  CHECK(seen[2].at.file == "gardens/records.csv");
  CHECK(seen[2].at.line == 2);
  CHECK(seen[3].what == "harvest");
  CHECK(seen[3].amount == "12 kg");
  CHECK_FALSE(seen[3].minutes.has_value());
  CHECK(seen[4].what == "leaves_held");
  CHECK(seen[4].on == PartialDate{2024, 12, 20});

  const std::vector<Observation>& plum = orchard.trees[2].observed;
  REQUIRE(plum.size() == 2);
  CHECK(plum[0].what == "green_tip");
  CHECK(plum[1].what == "pruned");
  CHECK(plum[1].minutes == 90.0);  // 1.5 h
  CHECK(orchard.trees[1].observed.at(0).note == "tips only");
}

TEST_CASE("other kinds, places in metres and what is not given") {
  const Orchard orchard = everything();
  const Tree& lemon = orchard.trees[1];
  CHECK(lemon.id == "B-2");
  CHECK(lemon.species == "other");
  CHECK(lemon.other == "lemon");
  CHECK(lemon.planted == PartialDate{2011, std::nullopt, std::nullopt});
  REQUIRE(lemon.measured_place);
  CHECK(lemon.measured_place->east.metres() == 12.5);
  CHECK_THAT(lemon.measured_place->north.metres(), WithinAbs(30.48, 1e-12));  // 100 ft
  CHECK_FALSE(lemon.row_place.has_value());
  CHECK(lemon.height->metres() == 3.5);
  CHECK(lemon.state == TreeState::neglected);
  CHECK_FALSE(lemon.lost.has_value());
  CHECK_FALSE(lemon.block.has_value());

  const Tree& plum = orchard.trees[2];
  CHECK(plum.species == "japanese_plum");
  CHECK(plum.cultivar == "SANTA NELLA");  // known: capitals and blanks aside it is the keeper's own
  CHECK(plum.form == "multi_leader");
  CHECK(plum.disease == "unknown");
  CHECK_FALSE(plum.state.has_value());
  CHECK(orchard.trees[3].cultivar.empty());  // unknown
  CHECK(orchard.trees[3].state == TreeState::formative);
}

TEST_CASE("workdays are read with their people and tools") {
  const Orchard orchard = everything();
  REQUIRE(orchard.workdays.size() == 2);
  const Workday& day = orchard.workdays[0];
  CHECK(day.on == date_of(2027, 1, 16));
  CHECK(day.from_minute == 540);
  CHECK(day.to_minute == 750);
  CHECK(day.adults == 8);
  CHECK(day.minors == 3);
  CHECK(day.skilled == 2);
  CHECK(day.saw_hands == 1);
  CHECK(day.ladders == 2);
  CHECK(day.tool_sets == 3);
  CHECK(day.no_show == 0.25);
  CHECK(orchard.workdays[1].from_minute == 570);
  CHECK(orchard.workdays[1].no_show == 0.2);  // the default
  CHECK(orchard.workdays[1].minors == 0);
}

TEST_CASE("the smallest orchard takes every default") {
  Diagnostics diagnostics;
  const auto orchard =
      read_orchard_bytes("o.yaml", "version: 1\norchard: {id: x, latitude: 45}\n", diagnostics);
  REQUIRE(orchard.has_value());
  CHECK(diagnostics.all().empty());
  CHECK(orchard->name == "x");
  CHECK(orchard->folder == ".");
  CHECK(orchard->units == TemperatureUnits::celsius);
  CHECK(orchard->lengths == LengthUnits::metres);
  CHECK(orchard->paper == Paper::a4);
  CHECK(orchard->language == "en");
  CHECK(orchard->district.eutypa == District::unknown);
  CHECK(orchard->winter_from == MonthDay{11, 1});
  CHECK(orchard->winter_to == MonthDay{2, 29});
  CHECK(orchard->measures.empty());
}

TEST_CASE("lengths go with the units, and the winter with the side of the equator") {
  Diagnostics diagnostics;
  const auto orchard =
      read_orchard_bytes("o.yaml",
                         "version: 1\norchard: {id: x, latitude: -33.5, units: fahrenheit}\n"
                         "past_winters: [{winter: 2019, portions: 40}]\n",
                         diagnostics);
  REQUIRE(orchard.has_value());
  CHECK(orchard->lengths == LengthUnits::feet);
  CHECK(orchard->southern());
  CHECK(orchard->winter_from == MonthDay{5, 1});
  CHECK(orchard->winter_to == MonthDay{8, 31});
  CHECK(orchard->past_winters.at(0).year == 2019);
}
