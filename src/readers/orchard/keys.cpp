// The key tables of the orchard file, and what reads a map by such a table.
#include "readers/orchard/keys.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <map>
#include <span>

#include "base/csv_table.h"
#include "base/embedded_files.h"
#include "base/time_zone.h"
#include "orchard/observations.h"
#include "orchard/species.h"
#include "orchard/tree_words.h"

namespace winterfolio {
namespace {

enum class Need { must, may };

/// One key: the row that is to be touched when it changes.
template <typename T>
struct Field {
  std::string_view key;
  Need need;
  std::string_view expected;
  std::string_view example;
  void (*read)(Reading&, const Given&, T&);
};

/// The keys that can stand in one kind of map.
template <typename T>
struct Section {
  std::string_view name;   ///< as in orchard_file_keys()
  std::string_view thing;  ///< "a tree", for messages
  std::string_view home;   ///< where the map stands, for keys that strayed: "under 'orchard:'"
  std::span<const Field<T>> fields;
};

template <typename T>
void take(T& target, std::optional<T> value) {
  if (value) target = std::move(*value);
}
template <typename T>
void take(std::optional<T>& target, std::optional<T> value) {
  if (value) target = std::move(value);
}

constexpr Limits kLatitudes{-90.0, 90.0};
constexpr Limits kLongitudes{-180.0, 180.0};
constexpr Limits kElevations{-450.0, 6000.0};
constexpr Limits kFrostOffsets{-15.0, 15.0};
constexpr Limits kTreeHeights{0.1, 60.0};
constexpr Limits kMapDistances{-5000.0, 5000.0};
constexpr Limits kRows{1.0, 10000.0};
constexpr Limits kPeople{0.0, 500.0};
constexpr Limits kDegreeHours{0.0, 50000.0};
constexpr Limits kMinutesOfWork{0.0, 1440.0};
// A winter of the Dynamic Model's best temperature earns under one portion a day.
constexpr Limits kPortions{0.0, 200.0};
constexpr Limits kHoursAndUnits{0.0, 6000.0};
constexpr int kLongestOrchardId = 60;
constexpr int kLongestBlockId = 30;
constexpr int kLongestTreeId = 8;
constexpr int kLongestNote = 1000;

Limits limits_of(ChillMeasure measure) {
  return measure == ChillMeasure::portions ? kPortions : kHoursAndUnits;
}

std::vector<std::string> measure_ids() {
  std::vector<std::string> ids;
  for (const ChillMeasure measure : kChillMeasures) ids.emplace_back(id_of(measure));
  return ids;
}

/// "number 3": where the n-th entry of a list has no name yet.
Given entry_value(const YamlEntry& entry, std::string_view expected, std::string_view example) {
  return {entry.key, expected, example, entry.key_at, entry.value};
}

std::string home_of(std::string_view key, std::string_view but_not);

/// Adds the fault of a key that is none; gives the known key that was probably meant.
std::string unknown_key(Reading& reading, const YamlEntry& entry, std::string_view section,
                        std::string_view thing, const std::vector<std::string>& known) {
  const std::string nearest = nearest_word(entry.key, known);
  const std::string home = home_of(entry.key, section);
  std::string expected;
  std::string mend;
  if (!nearest.empty()) {
    expected = fmt::format("a key of {}{}", thing, did_you_mean(nearest));
    mend = fmt::format("write '{}:'", nearest);
  } else if (!home.empty()) {
    expected = fmt::format("'{}:' {}", entry.key, home);
    mend = "move the line there";
  } else {
    expected = either(known);
    mend = "write one of these keys, or delete the line";
  }
  const std::string shown = entry.key.size() > 60 ? entry.key.substr(0, 60) + "..." : entry.key;
  reading.error(entry.key_at, "orchard.unknown-key",
                fmt::format("'{}' is not a key of {}", shown_utf8(shown), thing), expected, mend);
  return nearest;
}

/// Keys that stand beside the table's own, as the chill measures of a past winter do.
template <typename T>
struct MoreKeys {
  std::vector<std::string> names;
  bool (*read)(Reading&, const YamlEntry&, T&) = nullptr;
};

template <typename T>
void read_map(Reading& reading, const Section<T>& section, const YamlNode& map, T& into,
              const MoreKeys<T>& more = {}) {
  std::vector<std::string> misspelt;  // these are not missing as well
  for (const YamlEntry& entry : map.entries) {
    const auto field = std::find_if(section.fields.begin(), section.fields.end(),
                                    [&](const Field<T>& row) { return row.key == entry.key; });
    if (field != section.fields.end()) {
      reading.saw_key(section.name, entry);
      field->read(reading, entry_value(entry, field->expected, field->example), into);
      continue;
    }
    if (more.read != nullptr && more.read(reading, entry, into)) continue;
    std::vector<std::string> known;
    for (const Field<T>& row : section.fields) known.emplace_back(row.key);
    known.insert(known.end(), more.names.begin(), more.names.end());
    misspelt.push_back(unknown_key(reading, entry, section.name, section.thing, known));
  }
  for (const Field<T>& field : section.fields) {
    if (field.need == Need::may || map.find(field.key) != nullptr) continue;
    if (std::find(misspelt.begin(), misspelt.end(), field.key) != misspelt.end()) continue;
    reading.error(map.at, "orchard.missing-key",
                  fmt::format("{} needs '{}:'", section.thing, field.key),
                  std::string(field.expected),
                  fmt::format("add a line such as '{}: {}'", field.key, field.example));
  }
}

/// Reads a list of maps, each by the same section; `keep` stores what was read and where.
template <typename T, typename Keep>
void read_maps(Reading& reading, const Given& given, const Section<T>& section, Keep keep,
               const MoreKeys<T>& more = {}) {
  for (const Given& item : reading.list(given)) {
    if (!reading.is_map(item)) continue;
    T one;
    read_map(reading, section, item.node, one, more);
    keep(std::move(one), item.node);
  }
}

std::vector<std::string> texts(Reading& reading, const Given& given) {
  std::vector<std::string> found;
  for (const Given& item : reading.list(given)) {
    if (auto text = reading.text(item)) found.push_back(std::move(*text));
  }
  return found;
}

std::vector<std::string> words(Reading& reading, const Given& given,
                               const std::vector<WordRow>& table) {
  std::vector<std::string> ids;
  for (const Given& item : reading.list(given)) {
    const WordRow* row = reading.word_of(item, table);
    if (row != nullptr && std::find(ids.begin(), ids.end(), row->id) == ids.end())
      ids.push_back(row->id);
  }
  return ids;
}

std::optional<ChillMeasure> measure_of(Reading& reading, std::string_view word, SourceSpan at) {
  const auto measure = chill_measure_named(word);
  if (!measure) {
    const std::string nearest = nearest_word(word, measure_ids());
    reading.error(at, "orchard.unknown-measure",
                  fmt::format("'{}' is no measure of winter cold", shown_utf8(word.substr(0, 60))),
                  one_of("a measure of winter cold", measure_ids(), nearest),
                  nearest.empty() ? "write one of these" : fmt::format("write '{}'", nearest));
  }
  return measure;
}

/// needs: {chill_hours: 300..400, portions: 18..22}
void read_needs(Reading& reading, const Given& given, ChillNeeds& needs) {
  if (!reading.is_map(given)) return;
  for (const YamlEntry& entry : given.node.entries) {
    const auto measure = measure_of(reading, entry.key, entry.key_at);
    if (!measure) continue;
    const auto range =
        reading.range(entry_value(entry, "an amount of cold, as a range or one number", "300..400"),
                      limits_of(*measure));
    if (range) needs[*measure] = *range;
  }
}

std::optional<SelfFertile> self_fertility(Reading& reading, const Given& given) {
  return reading.choice<SelfFertile>(
      given, {{"yes", SelfFertile::yes}, {"no", SelfFertile::no}, {"partly", SelfFertile::partly}});
}

/// The species whose id has the word as one of its parts: "plum" may be one of several.
std::vector<std::string> kinds_of(const std::string& word) {
  std::vector<std::string> kinds;
  for (const std::string& id : species_ids()) {
    if (fmt::format("_{}_", id).find(fmt::format("_{}_", word)) != std::string::npos)
      kinds.push_back(id);
  }
  return kinds;
}

void unknown_species(Reading& reading, const Given& given, const std::string& word) {
  const std::vector<std::string> kinds = kinds_of(word);
  const std::string nearest = kinds.empty() ? nearest_word(word, species_ids()) : std::string();
  const std::string expected =
      kinds.size() > 1 ? fmt::format("the kind of {}: {}", word, fmt::join(kinds, " or "))
                       : "an id that 'winterfolio reference species' lists, or other" +
                             did_you_mean(kinds.empty() ? nearest : kinds.front());
  const std::string mend = kinds.size() > 1 ? "write the one it is"
                           : !kinds.empty() ? fmt::format("write '{}'", kinds.front())
                           : nearest.empty()
                               ? fmt::format("write 'species: other' and 'other: {}'", word)
                               : fmt::format("write '{}'", nearest);
  reading.error(given.node.at, "orchard.unknown-species",
                fmt::format("'{}' is not in the species table", word), expected, mend);
}

std::string species_of(Reading& reading, const Given& given) {
  const auto word = reading.text(given);
  if (!word) return {};
  if (const SpeciesRow* species = find_species(*word)) return species->id;
  if (same_name(*word, kOtherSpecies)) return std::string(kOtherSpecies);
  unknown_species(reading, given, *word);
  return {};
}

// ---- district
// ----------------------------------------------------------------------------------------------------

std::optional<District> pressure(Reading& reading, const Given& given) {
  return reading.choice<District>(
      given, {{"yes", District::yes}, {"no", District::no}, {"unknown", District::unknown}});
}

constexpr std::string_view kPressure = "yes, no or unknown";

constexpr Field<DistrictPressures> kDistrictFields[] = {
    {"wet_winters", Need::may, kPressure, "yes",
     [](Reading& r, const Given& g, DistrictPressures& d) { take(d.wet_winters, pressure(r, g)); }},
    {"silver_leaf", Need::may, kPressure, "yes",
     [](Reading& r, const Given& g, DistrictPressures& d) { take(d.silver_leaf, pressure(r, g)); }},
    {"eutypa", Need::may, kPressure, "yes",
     [](Reading& r, const Given& g, DistrictPressures& d) { take(d.eutypa, pressure(r, g)); }},
    {"bacterial_canker", Need::may, kPressure, "yes",
     [](Reading& r, const Given& g, DistrictPressures& d) {
       take(d.bacterial_canker, pressure(r, g));
     }},
    {"fire_blight", Need::may, kPressure, "yes",
     [](Reading& r, const Given& g, DistrictPressures& d) { take(d.fire_blight, pressure(r, g)); }},
};
constexpr Section<DistrictPressures> kDistrict{"district", "the district", "under 'district:'",
                                               kDistrictFields};

// ---- orchard
// -----------------------------------------------------------------------------------------------------

void read_time_zone(Reading& reading, const Given& given, Draft& draft) {
  const auto name = reading.text(given);
  if (!name) return;
  if (TimeZone::named(*name)) {
    draft.orchard.time_zone = *name;
    return;
  }
  const std::string nearest = name->size() > 64 ? std::string() : TimeZone::nearest(*name);
  reading.error(given.node.at, "orchard.unknown-time-zone",
                fmt::format("there is no time zone '{}'", *name),
                std::string(given.expected) + did_you_mean(nearest),
                nearest.empty() ? reading.as_in(given) : fmt::format("write '{}'", nearest));
}

void read_language(Reading& reading, const Given& given, Draft& draft) {
  constexpr std::string_view kFolder = "templates/words/";
  constexpr std::string_view kEnding = ".yaml";
  const auto language = reading.text(given);
  if (!language) return;
  std::vector<std::string> languages;
  for (const EmbeddedFile& file : embedded_files()) {
    if (!file.path.starts_with(kFolder) || !file.path.ends_with(kEnding)) continue;
    const std::string_view name = file.path.substr(kFolder.size());
    languages.emplace_back(name.substr(0, name.size() - kEnding.size()));
  }
  if (std::find(languages.begin(), languages.end(), *language) != languages.end()) {
    draft.orchard.language = *language;
  } else {
    reading.unknown_word(given, languages);
  }
}

constexpr Field<Draft> kOrchardFields[] = {
    {"id", Need::must, "letters, digits and hyphens; printed files are named after it", "mill-lane",
     [](Reading& r, const Given& g, Draft& d) { take(d.orchard.id, r.id(g, kLongestOrchardId)); }},
    {"name", Need::may, "the orchard's name, as pages print it", "Mill Lane Orchard",
     [](Reading& r, const Given& g, Draft& d) { take(d.orchard.name, r.text(g)); }},
    {"latitude", Need::must, "degrees from -90 to 90, south negative", "38.75",
     [](Reading& r, const Given& g, Draft& d) {
       const auto latitude = r.degrees(g, kLatitudes);
       d.latitude_read = latitude.has_value();
       take(d.orchard.latitude, latitude);
     }},
    {"longitude", Need::may, "degrees from -180 to 180, west negative", "-121.20",
     [](Reading& r, const Given& g, Draft& d) {
       take(d.orchard.longitude, r.degrees(g, kLongitudes));
     }},
    {"elevation", Need::may, "a height above the sea, in m where no unit is written", "95 m",
     [](Reading& r, const Given& g, Draft& d) {
       take(d.orchard.elevation, r.length(g, kElevations));
     }},
    {"time_zone", Need::may, "a time zone by its IANA name", "America/Los_Angeles", read_time_zone},
    {"units", Need::may, "fahrenheit or celsius", "celsius",
     [](Reading& r, const Given& g, Draft& d) {
       take(d.orchard.units,
            r.choice<TemperatureUnits>(g, {{"fahrenheit", TemperatureUnits::fahrenheit},
                                           {"celsius", TemperatureUnits::celsius}}));
     }},
    {"lengths", Need::may, "feet or metres", "metres",
     [](Reading& r, const Given& g, Draft& d) {
       const auto lengths =
           r.choice<LengthUnits>(g, {{"feet", LengthUnits::feet}, {"metres", LengthUnits::metres}});
       d.lengths_given = lengths.has_value();
       take(d.orchard.lengths, lengths);
     }},
    {"paper", Need::may, "a4 or letter", "a4",
     [](Reading& r, const Given& g, Draft& d) {
       take(d.orchard.paper, r.choice<Paper>(g, {{"letter", Paper::letter}, {"a4", Paper::a4}}));
     }},
    {"language", Need::may, "a language that the program has words for", "en", read_language},
    {"meeting_point", Need::may, "a place that everybody finds", "the tool shed by the east gate",
     [](Reading& r, const Given& g, Draft& d) { take(d.orchard.meeting_point, r.text(g)); }},
    {"district", Need::may,
     "wet_winters, silver_leaf, eutypa, bacterial_canker, fire_blight, each yes, no or unknown",
     "{fire_blight: yes}",
     [](Reading& r, const Given& g, Draft& d) {
       if (r.is_map(g)) read_map(r, kDistrict, g.node, d.orchard.district);
     }},
};
constexpr Section<Draft> kOrchard{"orchard", "the orchard", "under 'orchard:'", kOrchardFields};

// ---- winter
// ------------------------------------------------------------------------------------------------------

void read_measures(Reading& reading, const Given& given, Draft& draft) {
  for (const Given& item : reading.list(given)) {
    const auto word = reading.text(item);
    if (!word) continue;
    const auto measure = measure_of(reading, *word, item.node.at);
    auto& measures = draft.orchard.measures;
    if (measure && std::find(measures.begin(), measures.end(), *measure) == measures.end())
      measures.push_back(*measure);
  }
}

constexpr Field<Draft> kWinterFields[] = {
    {"from", Need::may, "a day of the year as MM-DD, the first of the winter", "11-01",
     [](Reading& r, const Given& g, Draft& d) { take(d.orchard.winter_from, r.month_day(g)); }},
    {"to", Need::may,
     "a day of the year as MM-DD, the last of the winter; 02-29 is the last day of February",
     "02-29",
     [](Reading& r, const Given& g, Draft& d) { take(d.orchard.winter_to, r.month_day(g)); }},
    {"measures", Need::may, "a list of measures of winter cold", "[portions, chill_hours]",
     read_measures},
};
constexpr Section<Draft> kWinter{"winter", "the winter", "under 'winter:'", kWinterFields};

// ---- temperatures
// ------------------------------------------------------------------------------------------------

/// A column by its name, or by its number from 1.
void read_column(Reading& reading, const Given& given, TemperatureSource& source) {
  const auto name = reading.text(given);
  if (!name) return;
  if (const auto number = parse_integer(*name); number && *number < 1) {
    reading.error(given.node.at, "orchard.columns", fmt::format("there is no column {}", *number),
                  std::string(given.expected),
                  "count the columns from 1, or write the column's name");
    return;
  }
  source.columns[std::string(given.key)] = *name;
}

constexpr std::string_view kColumn = "a column's name, or its number from 1";

constexpr Field<TemperatureSource> kColumnFields[] = {
    {"time", Need::may, kColumn, "Date Time", read_column},
    {"date", Need::may, kColumn, "Date", read_column},
    {"temperature", Need::may, kColumn, "Temp", read_column},
    {"minimum", Need::may, kColumn, "Tmin", read_column},
    {"maximum", Need::may, kColumn, "Tmax", read_column},
};
constexpr Section<TemperatureSource> kColumns{"columns", "the columns", "under 'columns:'",
                                              kColumnFields};

void read_format(Reading& reading, const Given& given, TemperatureSource& source) {
  const auto format = reading.text(given);
  if (!format) return;
  const std::vector<std::string> formats(reading.options().temperature_formats.begin(),
                                         reading.options().temperature_formats.end());
  if (!formats.empty() && std::find(formats.begin(), formats.end(), *format) == formats.end()) {
    const std::string nearest = nearest_word(*format, formats);
    reading.error(given.node.at, "orchard.unknown-format",
                  fmt::format("there is no temperature format '{}'", *format),
                  "a name that 'winterfolio reference formats' lists" + did_you_mean(nearest),
                  nearest.empty() ? "delete the line: formats are recognised by what the file holds"
                                  : fmt::format("write '{}'", nearest));
    return;
  }
  source.format = *format;
}

constexpr Field<TemperatureSource> kTemperatureFields[] = {
    {"file", Need::must, "a file of temperatures, from this file's folder",
     "temperatures/2026-27.csv",
     [](Reading& r, const Given& g, TemperatureSource& t) {
       take(t.file, r.file(g));
       t.at = r.source().position(g.node.at);
     }},
    {"stands_for", Need::may, "orchard, nearby or forecast", "orchard",
     [](Reading& r, const Given& g, TemperatureSource& t) {
       take(t.stands_for, r.choice<StandsFor>(g, {{"orchard", StandsFor::orchard},
                                                  {"nearby", StandsFor::nearby},
                                                  {"forecast", StandsFor::forecast}}));
     }},
    {"format", Need::may, "the name of a temperature format", "table", read_format},
    {"unit", Need::may, "F, C or K", "F",
     [](Reading& r, const Given& g, TemperatureSource& t) {
       take(t.unit, r.choice<TemperatureUnit>(g, {{"F", TemperatureUnit::fahrenheit},
                                                  {"C", TemperatureUnit::celsius},
                                                  {"K", TemperatureUnit::kelvin}}));
     }},
    {"clock", Need::may, "standard, civil or utc", "standard",
     [](Reading& r, const Given& g, TemperatureSource& t) {
       take(t.clock,
            r.choice<Clock>(
                g, {{"standard", Clock::standard}, {"civil", Clock::civil}, {"utc", Clock::utc}}));
     }},
    {"utc_offset", Need::may, "hours and minutes from UTC, west negative, in quotes", "\"-08:00\"",
     [](Reading& r, const Given& g, TemperatureSource& t) {
       take(t.utc_offset_minutes, r.utc_offset(g));
     }},
    {"columns", Need::may,
     "time, or date and time, with temperature; or date with minimum and maximum",
     "{time: Date Time, temperature: Temp}",
     [](Reading& r, const Given& g, TemperatureSource& t) {
       if (r.is_map(g)) read_map(r, kColumns, g.node, t);
     }},
    {"date_order", Need::may, "ymd, dmy or mdy", "mdy",
     [](Reading& r, const Given& g, TemperatureSource& t) {
       take(t.date_order,
            r.choice<DateOrder>(
                g, {{"ymd", DateOrder::ymd}, {"dmy", DateOrder::dmy}, {"mdy", DateOrder::mdy}}));
     }},
    {"decimal", Need::may, "point or comma", "point",
     [](Reading& r, const Given& g, TemperatureSource& t) {
       take(t.decimal, r.choice<DecimalMark>(
                           g, {{"point", DecimalMark::point}, {"comma", DecimalMark::comma}}));
     }},
    {"station", Need::may, "a station's name or number as in the file", "\"04177\"",
     [](Reading& r, const Given& g, TemperatureSource& t) { take(t.station, r.text(g)); }},
    {"hour_stamp", Need::may, "begins or ends", "begins",
     [](Reading& r, const Given& g, TemperatureSource& t) {
       take(t.hour_stamp,
            r.choice<HourStamp>(g, {{"begins", HourStamp::begins}, {"ends", HourStamp::ends}}));
     }},
};
constexpr Section<TemperatureSource> kTemperature{"temperature", "a temperature file",
                                                  "under 'temperatures:'", kTemperatureFields};

// ---- past winters
// ------------------------------------------------------------------------------------------------

constexpr Field<PastWinterTotal> kPastWinterFields[] = {
    {"winter", Need::must, "the winter's name: 2019-20, or south of the equator 2019", "2019-20",
     [](Reading& r, const Given& g, PastWinterTotal& p) { take(p.winter, r.text(g)); }},
    {"from_where", Need::may, "where the totals come from", "notebook",
     [](Reading& r, const Given& g, PastWinterTotal& p) { take(p.from_where, r.text(g)); }},
};
constexpr Section<PastWinterTotal> kPastWinter{"past winter", "a past winter",
                                               "under 'past_winters:'", kPastWinterFields};

bool read_total(Reading& reading, const YamlEntry& entry, PastWinterTotal& past) {
  const auto measure = chill_measure_named(entry.key);
  if (!measure) return false;
  const auto total = reading.number(entry_value(entry, "the winter's total, one number", "612"),
                                    limits_of(*measure));
  if (total) past.totals[*measure] = Range{*total, *total};
  return true;
}

// ---- blocks
// ------------------------------------------------------------------------------------------------------

void read_thermometer(Reading& reading, const Given& given, OrchardBlock& block) {
  TemperatureSource source;
  if (given.node.kind == YamlKind::map) {
    read_map(reading, kTemperature, given.node, source);
  } else {
    source.at = reading.source().position(given.node.at);
    take(source.file, reading.file(given));
  }
  if (!source.file.empty()) block.thermometer = std::move(source);
}

constexpr Field<OrchardBlock> kBlockFields[] = {
    {"id", Need::must, "letters, digits, hyphens and underscores; trees name it", "hollow",
     [](Reading& r, const Given& g, OrchardBlock& b) {
       take(b.id, r.id(g, kLongestBlockId, "_"));
     }},
    {"name", Need::may, "the block's name, as pages print it", "The hollow",
     [](Reading& r, const Given& g, OrchardBlock& b) { take(b.name, r.text(g)); }},
    {"frost_offset", Need::may,
     "how much colder (negative) or warmer it is there on calm frosty nights", "-1.5 °C",
     [](Reading& r, const Given& g, OrchardBlock& b) {
       take(b.frost_offset, r.temperature_difference(g, kFrostOffsets));
     }},
    {"thermometer", Need::may,
     "a file of temperatures of this block alone, from this file's folder",
     "temperatures/hollow.csv", read_thermometer},
};
constexpr Section<OrchardBlock> kBlock{"block", "a block", "under 'blocks:'", kBlockFields};

// ---- cultivars
// ---------------------------------------------------------------------------------------------------

constexpr Field<OwnCultivar> kCultivarFields[] = {
    {"species", Need::must, "an id of the species table", "apple",
     [](Reading& r, const Given& g, OwnCultivar& c) { c.species = species_of(r, g); }},
    {"name", Need::must, "the cultivar's name, as trees and pages write it", "Old Gate",
     [](Reading& r, const Given& g, OwnCultivar& c) { take(c.name, r.text(g)); }},
    {"needs", Need::may, "measures of winter cold, each with a range", "{chill_hours: 300..400}",
     [](Reading& r, const Given& g, OwnCultivar& c) { read_needs(r, g, c.needs); }},
    {"heat_to_bloom", Need::may,
     "growing degree hours in °C h from the day rest ends, as a range or one number", "6500..7500",
     [](Reading& r, const Given& g, OwnCultivar& c) {
       take(c.heat_to_bloom, r.range(g, kDegreeHours, "heat"));
     }},
    {"self_fertile", Need::may, "yes, no or partly", "no",
     [](Reading& r, const Given& g, OwnCultivar& c) {
       take(c.self_fertile, self_fertility(r, g));
     }},
    {"partners", Need::may, "a list of cultivars whose pollen serves", "[Anna]",
     [](Reading& r, const Given& g, OwnCultivar& c) { c.partners = texts(r, g); }},
    {"from_where", Need::may, "where the figures come from", "the keeper's own years",
     [](Reading& r, const Given& g, OwnCultivar& c) { take(c.from_where, r.text(g)); }},
};
constexpr Section<OwnCultivar> kCultivar{"cultivar", "a cultivar", "under 'cultivars:'",
                                         kCultivarFields};

// ---- trees
// -------------------------------------------------------------------------------------------------------

constexpr Field<MeasuredPlace> kPlaceFields[] = {
    {"east", Need::must, "a distance east of the map's corner, in m where no unit is written",
     "12.5 m",
     [](Reading& r, const Given& g, MeasuredPlace& p) {
       take(p.east, r.length(g, kMapDistances));
     }},
    {"north", Need::must, "a distance north of the map's corner, in m where no unit is written",
     "40 m",
     [](Reading& r, const Given& g, MeasuredPlace& p) {
       take(p.north, r.length(g, kMapDistances));
     }},
};
constexpr Section<MeasuredPlace> kPlace{"at", "a place", "under 'at:'", kPlaceFields};

/// at: [1, 4], or {east: 12.5 m, north: 40 m}
void read_place(Reading& reading, const Given& given, Tree& tree) {
  if (given.node.kind == YamlKind::map) {
    MeasuredPlace place;
    read_map(reading, kPlace, given.node, place);
    tree.measured_place = place;
    return;
  }
  const std::vector<Given> items = reading.list(given);
  if (items.empty() && given.node.kind != YamlKind::list) return;
  if (items.size() != 2) {
    reading.error(given.node.at, "orchard.wrong-kind",
                  fmt::format("'at' has {} numbers where two belong", items.size()),
                  std::string(given.expected), reading.as_in(given));
    return;
  }
  const auto row = reading.whole(items[0], kRows);
  const auto place = reading.whole(items[1], kRows);
  if (row && place) tree.row_place = RowPlace{*row, *place};
}

void read_disease(Reading& reading, const Given& given, Tree& tree) {
  const auto named = reading.text(given);
  if (!named) return;
  tree.disease_named = *named;
  if (const WordRow* row = find_word(diseases_table(), *named)) {
    tree.disease = row->id;
    return;
  }
  const std::string nearest = nearest_word(*named, first_words(diseases_table()));
  reading.warning(
      given.node.at, "orchard.unknown-disease",
      fmt::format("nothing is known here about cutting for '{}', so it counts as unknown", *named),
      one_of("a disease whose cutting is known", first_words(diseases_table()), nearest),
      nearest.empty() ? "show the tree to the local extension office; until then it is not cut"
                      : fmt::format("write '{}' if that is meant", nearest));
  tree.disease = "unknown";
}

std::optional<std::string> form_of(Reading& reading, const Given& given) {
  const WordRow* row = reading.word_of(given, forms_table());
  return row == nullptr ? std::nullopt : std::optional(row->id);
}

constexpr Field<Observation> kObservationFields[] = {
    {"on", Need::must, "a day as YYYY-MM-DD", "2026-12-20",
     [](Reading& r, const Given& g, Observation& o) {
       if (const auto day = r.date(g))
         o.on = {int{day->year()}, unsigned{day->month()}, unsigned{day->day()}};
     }},
    {"what", Need::must, "what was seen", "first bloom",
     [](Reading& r, const Given& g, Observation& o) { read_what(r, g, o); }},
    {"amount", Need::may, "how much: what was picked, or the minutes of pruning", "25 min",
     [](Reading& r, const Given& g, Observation& o) { take(o.amount, r.text(g, 40)); }},
    {"note", Need::may, "free text", "north side only",
     [](Reading& r, const Given& g, Observation& o) { take(o.note, r.text(g, kLongestNote)); }},
};
constexpr Section<Observation> kObservation{"observed", "an observation", "under 'observed:'",
                                            kObservationFields};

void read_observed(Reading& reading, const Given& given, Tree& tree) {
  read_maps(reading, given, kObservation, [&](Observation&& seen, const YamlNode& node) {
    seen.at = reading.source().position(node.at);
    const YamlNode* amount = node.find("amount");
    if (amount != nullptr && seen.amount) {
      read_amount(reading,
                  {"amount", "how much: what was picked, or the minutes of pruning", "25 min",
                   amount->at, *amount},
                  seen);
    }
    if (seen.on.year != 0 && !seen.what.empty()) tree.observed.push_back(std::move(seen));
  });
}

constexpr Field<Tree> kTreeFields[] = {
    {"id", Need::must, "a short name without spaces, at most 8 letters and digits", "A1",
     [](Reading& r, const Given& g, Tree& t) { take(t.id, r.id(g, kLongestTreeId, "._/")); }},
    {"tag", Need::may, "what hangs on the tree", "\"17\"",
     [](Reading& r, const Given& g, Tree& t) { take(t.tag, r.text(g, 20)); }},
    {"species", Need::must, "an id of the species table, or other", "apple",
     [](Reading& r, const Given& g, Tree& t) { t.species = species_of(r, g); }},
    {"other", Need::may, "what kind of tree it is, beside 'species: other'", "lemon",
     [](Reading& r, const Given& g, Tree& t) { take(t.other, r.text(g, 40)); }},
    {"cultivar", Need::may, "the cultivar's name, or unknown", "Anna",
     [](Reading& r, const Given& g, Tree& t) {
       take(t.cultivar, r.text(g));
       if (same_name(t.cultivar, "unknown")) t.cultivar.clear();
     }},
    {"grafts", Need::may, "a list of the cultivars on the tree", "[Anna, Old Gate]",
     [](Reading& r, const Given& g, Tree& t) { t.grafts = texts(r, g); }},
    {"rootstock", Need::may, "the rootstock's name", "MM106",
     [](Reading& r, const Given& g, Tree& t) { take(t.rootstock, r.text(g)); }},
    {"origin", Need::may, "where the tree came from", "club exchange 2018",
     [](Reading& r, const Given& g, Tree& t) { take(t.origin, r.text(g)); }},
    {"planted", Need::may, "a year, a month or a day: YYYY, YYYY-MM or YYYY-MM-DD", "2019-02",
     [](Reading& r, const Given& g, Tree& t) { take(t.planted, r.partial_date(g)); }},
    {"lost", Need::may, "a year, a month or a day: YYYY, YYYY-MM or YYYY-MM-DD", "2025-08-03",
     [](Reading& r, const Given& g, Tree& t) { take(t.lost, r.partial_date(g)); }},
    {"lost_to", Need::may, "what the tree was lost to", "borer",
     [](Reading& r, const Given& g, Tree& t) { take(t.lost_to, r.text(g)); }},
    {"block", Need::may, "the id of a block of this file", "hollow",
     [](Reading& r, const Given& g, Tree& t) { take(t.block, r.text(g)); }},
    {"at", Need::may, "row and place, from 1, or {east: 12.5 m, north: 40 m}", "[1, 4]",
     read_place},
    {"landmark", Need::may, "how to find the tree", "third from the gate",
     [](Reading& r, const Given& g, Tree& t) { take(t.landmark, r.text(g)); }},
    {"form", Need::may, "the shape it is trained to", "open centre",
     [](Reading& r, const Given& g, Tree& t) { take(t.form, form_of(r, g)); }},
    {"height", Need::may, "a height in m where no unit is written", "4 m",
     [](Reading& r, const Given& g, Tree& t) { take(t.height, r.length(g, kTreeHeights)); }},
    {"state", Need::may, "planted, formative, bearing or neglected", "bearing",
     [](Reading& r, const Given& g, Tree& t) {
       take(t.state, r.choice<TreeState>(g, {{"planted", TreeState::planted},
                                             {"formative", TreeState::formative},
                                             {"bearing", TreeState::bearing},
                                             {"neglected", TreeState::neglected}}));
     }},
    {"needs", Need::may, "measures of winter cold, each with a range", "{portions: 18..22}",
     [](Reading& r, const Given& g, Tree& t) { read_needs(r, g, t.needs); }},
    {"from_where", Need::may, "where the tree's own figures come from", "own records",
     [](Reading& r, const Given& g, Tree& t) { take(t.from_where, r.text(g)); }},
    {"see_to", Need::may, "a list of the wood to see to", "[dead, crossing]",
     [](Reading& r, const Given& g, Tree& t) { t.see_to = words(r, g, see_to_table()); }},
    {"disease", Need::may, "the disease's name, or unknown", "fire blight", read_disease},
    {"hazards", Need::may, "a list of what makes work at the tree dangerous", "[wires]",
     [](Reading& r, const Given& g, Tree& t) { t.hazards = words(r, g, hazards_table()); }},
    {"observed", Need::may, "a list of what was seen, each with its day",
     "[{on: 2027-02-02, what: first bloom}]", read_observed},
    {"note", Need::may, "free text", "leans to the east",
     [](Reading& r, const Given& g, Tree& t) { take(t.note, r.text(g, kLongestNote)); }},
};
constexpr Section<Tree> kTree{"tree", "a tree", "under 'trees:'", kTreeFields};

// ---- workdays
// ----------------------------------------------------------------------------------------------------

constexpr std::string_view kCount = "a whole number";

constexpr Field<Workday> kWorkdayFields[] = {
    {"on", Need::must, "a day as YYYY-MM-DD", "2027-01-16",
     [](Reading& r, const Given& g, Workday& w) { take(w.on, r.date(g)); }},
    {"from", Need::must, "a time of day in quotes", "\"09:00\"",
     [](Reading& r, const Given& g, Workday& w) { take(w.from_minute, r.time_of_day(g)); }},
    {"to", Need::must, "a time of day in quotes", "\"12:30\"",
     [](Reading& r, const Given& g, Workday& w) { take(w.to_minute, r.time_of_day(g)); }},
    {"adults", Need::may, kCount, "8",
     [](Reading& r, const Given& g, Workday& w) { take(w.adults, r.whole(g, kPeople)); }},
    {"minors", Need::may, "a whole number of people under 18", "3",
     [](Reading& r, const Given& g, Workday& w) { take(w.minors, r.whole(g, kPeople)); }},
    {"skilled", Need::may, "a whole number of adults who can lead a team", "2",
     [](Reading& r, const Given& g, Workday& w) { take(w.skilled, r.whole(g, kPeople)); }},
    {"saw_hands", Need::may, "a whole number of adults trained for powered saws", "1",
     [](Reading& r, const Given& g, Workday& w) { take(w.saw_hands, r.whole(g, kPeople)); }},
    {"ladders", Need::may, "a whole number of orchard tripods", "2",
     [](Reading& r, const Given& g, Workday& w) { take(w.ladders, r.whole(g, kPeople)); }},
    {"tool_sets", Need::may, kCount, "3",
     [](Reading& r, const Given& g, Workday& w) { take(w.tool_sets, r.whole(g, kPeople)); }},
    {"no_show", Need::may, "the share of people who will not come, in percent", "20 %",
     [](Reading& r, const Given& g, Workday& w) { take(w.no_show, r.percent_as_share(g)); }},
};
constexpr Section<Workday> kWorkday{"workday", "a workday", "under 'workdays:'", kWorkdayFields};

// ---- the file
// ----------------------------------------------------------------------------------------------------

void read_version(Reading& reading, const Given& given, Draft& /*draft*/) {
  const auto version = reading.text(given);
  if (!version || *version == "1") return;
  reading.error(
      given.node.at, "orchard.version",
      fmt::format("'{}' is a version of this file that the program does not know", *version),
      std::string(given.expected),
      "write 'version: 1', and look whether the keys are those of version 1");
}

constexpr Field<Draft> kFileFields[] = {
    {"version", Need::must, "the version of this kind of file, which is 1", "1", read_version},
    {"orchard", Need::must, "the place: id, latitude and more", "{id: mill-lane, latitude: 38.75}",
     [](Reading& r, const Given& g, Draft& d) {
       if (!r.is_map(g)) return;
       d.place = &g.node;
       read_map(r, kOrchard, g.node, d);
     }},
    {"winter", Need::may, "the days between which cold counts", "{from: 11-01, to: 02-29}",
     [](Reading& r, const Given& g, Draft& d) {
       if (!r.is_map(g)) return;
       d.winter = &g.node;
       read_map(r, kWinter, g.node, d);
     }},
    {"temperatures", Need::may, "a list of temperature files", "[{file: temperatures/2026-27.csv}]",
     [](Reading& r, const Given& g, Draft& d) {
       read_maps(r, g, kTemperature, [&](TemperatureSource&& one, const YamlNode& node) {
         d.orchard.temperatures.push_back(std::move(one));
         d.temperature_nodes.push_back(&node);
       });
     }},
    {"past_winters", Need::may, "a list of winters with their totals",
     "[{winter: 2019-20, chill_hours: 612}]",
     [](Reading& r, const Given& g, Draft& d) {
       read_maps(
           r, g, kPastWinter,
           [&](PastWinterTotal&& one, const YamlNode& node) {
             one.at = r.source().position(node.at);
             d.orchard.past_winters.push_back(std::move(one));
             d.past_winter_nodes.push_back(&node);
           },
           MoreKeys<PastWinterTotal>{measure_ids(), read_total});
     }},
    {"blocks", Need::may, "a list of parts of the orchard", "[{id: hollow, frost_offset: -1.5 °C}]",
     [](Reading& r, const Given& g, Draft& d) {
       read_maps(r, g, kBlock, [&](OrchardBlock&& one, const YamlNode& node) {
         d.orchard.blocks.push_back(std::move(one));
         d.block_nodes.push_back(&node);
       });
     }},
    {"cultivars", Need::may, "a list of the keeper's own cultivars",
     "[{species: apple, name: Old Gate}]",
     [](Reading& r, const Given& g, Draft& d) {
       read_maps(r, g, kCultivar, [&](OwnCultivar&& one, const YamlNode& node) {
         one.at = r.source().position(node.at);
         d.orchard.cultivars.push_back(std::move(one));
         d.cultivar_nodes.push_back(&node);
       });
     }},
    {"trees", Need::may, "a list of trees", "[{id: A1, species: apple}]",
     [](Reading& r, const Given& g, Draft& d) {
       read_maps(r, g, kTree, [&](Tree&& one, const YamlNode& node) {
         one.at = r.source().position(node.at);
         d.orchard.trees.push_back(std::move(one));
         d.tree_nodes.push_back(&node);
       });
     }},
    {"records", Need::may, "a CSV file of observations, from this file's folder", "records.csv",
     [](Reading& r, const Given& g, Draft& d) { take(d.orchard.records_file, r.file(g)); }},
    {"workdays", Need::may, "a list of days on which people come to work",
     "[{on: 2027-01-16, from: \"09:00\", to: \"12:30\", adults: 8}]",
     [](Reading& r, const Given& g, Draft& d) {
       read_maps(r, g, kWorkday, [&](Workday&& one, const YamlNode& node) {
         one.at = r.source().position(node.at);
         d.orchard.workdays.push_back(one);
         d.workday_nodes.push_back(&node);
       });
     }},
};
constexpr Section<Draft> kFile{"file", "the file", "at the beginning of a line of its own",
                               kFileFields};

/// Calls `visit` for each section in the order of the file.
template <typename Visit>
void for_each_section(Visit visit) {
  visit(kFile);
  visit(kOrchard);
  visit(kDistrict);
  visit(kWinter);
  visit(kTemperature);
  visit(kColumns);
  visit(kPastWinter);
  visit(kBlock);
  visit(kCultivar);
  visit(kTree);
  visit(kPlace);
  visit(kObservation);
  visit(kWorkday);
}

/// Where else a key belongs, if it is one at all.
std::string home_of(std::string_view key, std::string_view but_not) {
  std::string home;
  for_each_section([&](const auto& section) {
    if (!home.empty() || section.name == but_not) return;
    for (const auto& field : section.fields) {
      if (field.key == key) home = section.home;
    }
  });
  return home;
}

}  // namespace

std::vector<KeyInfo> orchard_file_keys() {
  std::vector<KeyInfo> keys;
  for_each_section([&](const auto& section) {
    for (const auto& field : section.fields) {
      keys.push_back(
          {section.name, field.key, field.expected, field.example, field.need == Need::must});
    }
  });
  return keys;
}

bool read_what(Reading& reading, const Given& given, Observation& observation) {
  const auto word = reading.text(given);
  if (!word) return false;
  if (const ObservationRow* row = find_observation(*word)) {
    observation.what = row->name.id;
    return true;
  }
  const std::string nearest = nearest_word(*word, observation_words());
  reading.error(given.node.at, "orchard.unknown-observation",
                fmt::format("'{}' is none of the things that can be seen of a tree", *word),
                one_of(given.expected, observation_words(), nearest),
                nearest.empty() ? "write one of these, and the rest into 'note'"
                                : fmt::format("write '{}'", nearest));
  return false;
}

void read_amount(Reading& reading, const Given& given, Observation& observation) {
  const ObservationRow* row = find_observation(observation.what);
  if (row == nullptr) return;
  if (row->amount == AmountKind::minutes) {
    take(observation.minutes, reading.minutes(given, kMinutesOfWork));
  } else if (row->amount == AmountKind::none) {
    reading.warning(given.node.at, "orchard.amount-not-used",
                    fmt::format("an amount does not go with '{}', so nothing is made of it",
                                row->name.words.front()),
                    "an amount with harvest or pruned only",
                    "write it into 'note', or take it away");
  }
}

Draft read_keys(Reading& reading, const YamlNode& root) {
  Draft draft;
  if (root.kind != YamlKind::map) {
    reading.error(root.at, "orchard.wrong-kind", "the file does not begin with a key",
                  "keys and their values, 'version: 1' first",
                  "see whether this is the orchard's file; it begins with 'version: 1'");
    return draft;
  }
  read_map(reading, kFile, root, draft);
  return draft;
}

}  // namespace winterfolio
