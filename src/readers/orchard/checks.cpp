// Lays the parts of an orchard beside one another.
#include "readers/orchard/checks.h"

#include <fmt/format.h>

#include <algorithm>
#include <map>
#include <set>

#include "base/time_zone.h"
#include "orchard/cultivars.h"
#include "orchard/observations.h"
#include "orchard/species.h"
#include "readers/orchard/quantities.h"
#include "weather/season.h"

namespace winterfolio {
namespace {

constexpr int kShortestWinter = 28;
constexpr int kLongestWinter = 330;
constexpr int kFirstReadings = 1700;  ///< before that no thermometer had a scale
// Past this many faults of a kind nobody reads on, and looking for nearest names would only take
// time.
constexpr std::size_t kMostHelped = 200;
constexpr std::size_t kMostListed = 12;

/// Where a key's value stands in a map; where the map stands if it has no such key.
SourceSpan at_key(const YamlNode& map, std::string_view key) {
  const YamlNode* value = map.find(key);
  return value == nullptr ? map.at : value->at;
}

/// Remembers names and on which line each stood first.
class FirstPlaces {
 public:
  /// Line 0 if the name is new.
  int line_before(const std::string& name, int line) {
    const auto [place, is_new] = lines_.emplace(name, line);
    return is_new ? 0 : place->second;
  }

 private:
  std::map<std::string, int> lines_;
};

void twice(Reading& reading, SourceSpan at, const std::string& what, int first_line,
           std::string mend) {
  reading.error(
      at, "orchard.twice",
      fmt::format("{} stands here a second time; it is already on line {}", what, first_line),
      "each once", std::move(mend));
}

// ---- place and winter
// ----------------------------------------------------------------------------------------------

void fill_defaults(Draft& draft) {
  Orchard& orchard = draft.orchard;
  if (orchard.name.empty()) orchard.name = orchard.id;
  if (!draft.lengths_given) {
    orchard.lengths =
        orchard.units == TemperatureUnits::fahrenheit ? LengthUnits::feet : LengthUnits::metres;
  }
}

void check_latitude(Reading& reading, const Draft& draft) {
  if (!draft.latitude_read || draft.orchard.latitude != 0.0) return;
  reading.warning(
      at_key(*draft.place, "latitude"), "orchard.equator",
      "latitude 0 is the equator itself, which is read as north of it",
      "degrees from -90 to 90, south negative",
      "write the orchard's own latitude; on the equator name the winter's days under 'winter:'");
}

void check_winter(Reading& reading, Draft& draft) {
  Orchard& orchard = draft.orchard;
  const WinterWindow usual = default_winter_window(orchard.southern());
  const WinterWindow window{orchard.winter_from.value_or(usual.from),
                            orchard.winter_to.value_or(usual.to)};
  orchard.winter_from = window.from;
  orchard.winter_to = window.to;
  if (draft.winter == nullptr || !draft.latitude_read) return;
  const Winter winter = winter_of(window, 2023);
  const int days = days_between(winter.from, winter.to) + 1;
  if (days < kShortestWinter || days > kLongestWinter) {
    reading.warning(
        draft.winter->at, "orchard.winter-length",
        fmt::format("this winter has {} {}", days, days == 1 ? "day" : "days"),
        fmt::format("{} to {} days, such as 11-01 to 02-29, or south of the equator 05-01 to 08-31",
                    kShortestWinter, kLongestWinter),
        "correct 'from' and 'to'");
    return;
  }
  // The day in the middle: from October to March in the north, from April to September in the
  // south.
  const unsigned middle = unsigned{plus_days(winter.from, days / 2).month()};
  const bool looks_southern = middle >= 4 && middle <= 9;
  if (looks_southern != orchard.southern()) {
    reading.warning(
        draft.winter->at, "orchard.hemisphere",
        fmt::format("this winter lies in the summer of latitude {:g}", orchard.latitude),
        "a winter of the orchard's own side of the equator",
        "correct the days, or the sign of 'latitude': south is negative");
  }
}

// ---- temperatures
// --------------------------------------------------------------------------------------------------

/// The zone and the offset of one thermometer cannot differ: its hours would be put on a clock that
/// is not the orchard's.
void check_offset(Reading& reading, const Orchard& orchard, const TemperatureSource& source,
                  const YamlNode& node) {
  if (orchard.time_zone.empty() || !source.utc_offset_minutes) return;
  const auto zone = TimeZone::named(orchard.time_zone);
  if (!zone || zone->standard_offset_minutes() == *source.utc_offset_minutes) return;
  reading.error(at_key(node, "utc_offset"), "orchard.clocks-contradict",
                fmt::format("'utc_offset: \"{}\"' and 'time_zone: {}', whose standard time is {}, "
                            "cannot both hold",
                            utc_offset_text(*source.utc_offset_minutes), orchard.time_zone,
                            utc_offset_text(zone->standard_offset_minutes())),
                "one clock for the orchard and all its thermometers",
                "take 'utc_offset' away (the zone tells it), or correct 'time_zone' under "
                "'orchard:'");
}

void check_clock(Reading& reading, const Orchard& orchard, const TemperatureSource& source,
                 const YamlNode& node) {
  check_offset(reading, orchard, source, node);
  if (!orchard.time_zone.empty() || !source.clock || *source.clock == Clock::standard) return;
  if (*source.clock == Clock::utc && node.find("utc_offset") != nullptr) return;
  const bool civil = *source.clock == Clock::civil;
  reading.error(at_key(node, "clock"), "orchard.needs-time-zone",
                civil ? "a clock that is put forward in summer cannot be read without the time zone"
                      : "UTC cannot be turned into the orchard's own time without the time zone",
                civil ? "'time_zone:' under 'orchard:'"
                      : "'time_zone:' under 'orchard:', or 'utc_offset:' here",
                "add a line such as 'time_zone: America/Los_Angeles' under 'orchard:'");
}

void check_columns(Reading& reading, const TemperatureSource& source, const YamlNode& node) {
  const YamlNode* columns = node.find("columns");
  if (columns == nullptr || columns->kind != YamlKind::map) return;
  const auto has = [&](const char* role) { return source.columns.count(role) > 0; };
  const std::string expected =
      "time, or date and time, with temperature; or date with minimum and maximum";
  if (has("temperature") && (has("minimum") || has("maximum"))) {
    reading.error(columns->at, "orchard.columns",
                  "'temperature' stands beside the extremes of a day", expected,
                  "keep 'temperature', or 'minimum' and 'maximum'");
  } else if (has("minimum") != has("maximum")) {
    reading.error(columns->at, "orchard.columns",
                  fmt::format("'{}' stands without '{}'", has("minimum") ? "minimum" : "maximum",
                              has("minimum") ? "maximum" : "minimum"),
                  expected, "name both columns");
  } else {
    std::map<std::string, std::string> roles;
    for (const auto& [role, column] : source.columns) {
      const auto [first, is_new] = roles.emplace(column, role);
      if (is_new) continue;
      reading.error(at_key(*columns, role), "orchard.columns",
                    fmt::format("the column '{}' is named for '{}' and for '{}'", column,
                                first->second, role),
                    expected, "name another column for one of the two");
    }
  }
}

void check_temperatures(Reading& reading, const Draft& draft) {
  FirstPlaces places;
  for (std::size_t i = 0; i < draft.orchard.temperatures.size(); ++i) {
    const TemperatureSource& source = draft.orchard.temperatures[i];
    const YamlNode& node = *draft.temperature_nodes[i];
    check_clock(reading, draft.orchard, source, node);
    check_columns(reading, source, node);
    if (source.file.empty()) continue;
    // One file may serve twice, with another station or other columns.
    std::string name = source.file + '\n' + source.station.value_or("");
    for (const auto& [role, column] : source.columns) name += '\n' + role + '\n' + column;
    const SourceSpan at = at_key(node, "file");
    if (const int line = places.line_before(name, at.line)) {
      twice(reading, at, fmt::format("the file '{}'", source.file), line,
            "delete one of the two entries");
    }
  }
}

// ---- past winters
// --------------------------------------------------------------------------------------------------

/// The year in which a winter begins, from "2019-20", or "2019" where the winter lies within one
/// year.
std::optional<int> winter_year(std::string_view text, bool crosses_new_year) {
  const auto year = parse_partial_date(text.substr(0, 4));
  if (!year) return std::nullopt;
  if (!crosses_new_year) return text.size() == 4 ? std::optional(year->year) : std::nullopt;
  if (text != fmt::format("{:04}-{:02}", year->year, (year->year + 1) % 100)) return std::nullopt;
  return year->year;
}

/// More than one portion a day, or one hour or unit an hour, no winter has.
void check_amount(Reading& reading, const PastWinterTotal& past, const YamlNode& node,
                  const WinterWindow& window) {
  const Winter winter = winter_of(window, past.year);
  const int days = days_between(winter.from, winter.to) + 1;
  for (const auto& [measure, total] : past.totals) {
    const bool portions = measure == ChillMeasure::portions;
    const double most = portions ? days : 24.0 * days;
    if (total.high <= most) continue;
    const std::string key(id_of(measure));
    reading.error(
        at_key(node, key), "orchard.past-winter-amount",
        fmt::format("the winter {} cannot have had {} {}", past.winter, node.find(key)->text, key),
        fmt::format("{:g} at most: the winter has {} days", most, days),
        portions ? "if these are hours, write them under chill_hours"
                 : "write the total of this winter alone");
  }
}

void check_past_winters(Reading& reading, Draft& draft) {
  const WinterWindow window{*draft.orchard.winter_from, *draft.orchard.winter_to};
  const bool crosses = window.crosses_new_year();
  FirstPlaces places;
  for (std::size_t i = 0; i < draft.orchard.past_winters.size(); ++i) {
    PastWinterTotal& past = draft.orchard.past_winters[i];
    const YamlNode& node = *draft.past_winter_nodes[i];
    if (past.winter.empty()) continue;
    const SourceSpan at = at_key(node, "winter");
    const auto year = winter_year(past.winter, crosses);
    if (!year) {
      reading.error(at, "orchard.past-winter",
                    fmt::format("'{}' is no name of a winter", past.winter),
                    crosses ? "the two years it joins, as in 2019-20" : "its year, as in 2019",
                    crosses ? "write it as in 'winter: 2019-20'" : "write it as in 'winter: 2019'");
      continue;
    }
    past.year = *year;
    if (*year < kFirstReadings) {
      reading.error(at, "orchard.past-winter-year",
                    fmt::format("nobody read a thermometer in the winter {}", past.winter),
                    fmt::format("a winter from {} on", kFirstReadings),
                    "correct the year, or take the line out");
      continue;
    }
    check_amount(reading, past, node, window);
    if (const int line = places.line_before(past.winter, at.line)) {
      twice(reading, at, fmt::format("the winter {}", past.winter), line,
            "put all totals of a winter into one entry");
    }
    // A measure that is misspelt, or whose value is a fault, has its fault already.
    const bool named = std::any_of(
        node.entries.begin(), node.entries.end(),
        [](const YamlEntry& entry) { return entry.key != "winter" && entry.key != "from_where"; });
    if (!named) {
      reading.error(at, "orchard.past-winter",
                    fmt::format("the winter {} has no total", past.winter),
                    "at least one measure of winter cold with its total",
                    "add a total such as 'chill_hours: 612'");
    }
  }
}

// ---- blocks and cultivars
// ------------------------------------------------------------------------------------------

void check_blocks(Reading& reading, const Draft& draft) {
  FirstPlaces places;
  for (std::size_t i = 0; i < draft.orchard.blocks.size(); ++i) {
    const OrchardBlock& block = draft.orchard.blocks[i];
    const YamlNode& node = *draft.block_nodes[i];
    const YamlNode* thermometer = node.find("thermometer");
    if (block.thermometer && thermometer->kind == YamlKind::map) {
      check_clock(reading, draft.orchard, *block.thermometer, *thermometer);
      check_columns(reading, *block.thermometer, *thermometer);
    }
    if (block.id.empty()) continue;
    const SourceSpan at = at_key(node, "id");
    if (const int line = places.line_before(folded_name(block.id), at.line)) {
      twice(reading, at, fmt::format("the block '{}'", block.id), line,
            "give one of the two another id");
    }
  }
}

/// Knows the cultivars of the table and of the file, and warns once of each name that is neither.
class CultivarNames {
 public:
  CultivarNames(Reading& reading, const Orchard& orchard) : reading_(reading), orchard_(orchard) {
    for (const OwnCultivar& own : orchard_.cultivars)
      own_.insert(own.species + '\n' + folded_name(own.name));
  }

  void check(const std::string& species, const std::string& name, SourceSpan at) {
    if (species.empty() || species == kOtherSpecies || name.empty()) return;
    const std::string folded = species + '\n' + folded_name(name);
    if (own_.count(folded) > 0 || !find_cultivar(species, name).empty()) return;
    if (!told_.insert(folded).second) return;
    const std::string nearest = nearest_name_of(species, name);
    reading_.warning(
        at, "orchard.unknown-cultivar",
        fmt::format("no '{}' of species {} is known, so nothing is known of its needs", name,
                    species),
        "a name of the cultivar table, or of 'cultivars:' in this file" + did_you_mean(nearest),
        fmt::format("correct the spelling, or describe '{}' under 'cultivars:'", name));
  }

 private:
  std::string nearest_name_of(const std::string& species, const std::string& name) const {
    if (told_.size() > kMostHelped) return {};
    std::vector<std::string> names = cultivar_names(species);
    for (const OwnCultivar& own : orchard_.cultivars) {
      if (own.species == species) names.push_back(own.name);
    }
    return nearest_word(name, names);
  }

  Reading& reading_;
  const Orchard& orchard_;
  std::set<std::string> own_;
  std::set<std::string> told_;
};

void check_names(CultivarNames& known, const std::string& species,
                 const std::vector<std::string>& names, const YamlNode* list) {
  if (list == nullptr || list->items.size() != names.size()) return;
  for (std::size_t i = 0; i < names.size(); ++i) known.check(species, names[i], list->items[i].at);
}

void check_cultivars(Reading& reading, const Draft& draft, CultivarNames& known) {
  FirstPlaces places;
  for (std::size_t i = 0; i < draft.orchard.cultivars.size(); ++i) {
    const OwnCultivar& own = draft.orchard.cultivars[i];
    const YamlNode& node = *draft.cultivar_nodes[i];
    if (own.species == kOtherSpecies) {
      reading.error(at_key(node, "species"), "orchard.other-species",
                    "a cultivar of 'other' gets no verdict, so it cannot be described",
                    either(species_ids()), "name its species, or delete the entry");
      continue;
    }
    check_names(known, own.species, own.partners, node.find("partners"));
    if (own.name.empty() || own.species.empty()) continue;
    const SourceSpan at = at_key(node, "name");
    if (const int line = places.line_before(own.species + '\n' + folded_name(own.name), at.line)) {
      twice(reading, at, fmt::format("the {} '{}'", own.species, own.name), line,
            "put all that is known of it into one entry");
    }
  }
}

// ---- trees
// ---------------------------------------------------------------------------------------------------------

Date latest_of(const PartialDate& date) {
  const unsigned month = date.month.value_or(12);
  return date_of(date.year, month, date.day.value_or(last_day_of(date.year, month)));
}

void check_species(Reading& reading, const Tree& tree, const YamlNode& node) {
  if (tree.species == kOtherSpecies && node.find("other") == nullptr) {
    reading.error(at_key(node, "species"), "orchard.other-species",
                  "'species: other' does not say what kind of tree this is",
                  "'other:' with the tree's common name", "add a line such as 'other: lemon'");
  } else if (!tree.species.empty() && tree.species != kOtherSpecies &&
             node.find("other") != nullptr) {
    reading.error(at_key(node, "other"), "orchard.other-species",
                  fmt::format("'other' stands beside 'species: {}'", tree.species),
                  "'other:' with 'species: other' only",
                  "delete the line, or write 'species: other'");
  }
}

/// Knows the blocks of the file, and tells of each that a tree names and the file does not.
class BlockIds {
 public:
  BlockIds(Reading& reading, const Orchard& orchard) : reading_(reading) {
    for (const OrchardBlock& block : orchard.blocks) {
      if (!block.id.empty() && known_.insert(block.id).second) ids_.push_back(block.id);
    }
  }

  void check(const std::string& id, SourceSpan at) {
    if (known_.count(id) > 0) return;
    const std::string nearest = ++told_ > kMostHelped ? std::string() : nearest_word(id, ids_);
    const bool list = !ids_.empty() && ids_.size() <= kMostListed;
    reading_.error(at, "orchard.unknown-block",
                   fmt::format("there is no block '{}' in this file", id),
                   (list ? either(ids_) : std::string("the id of a block under 'blocks:'")) +
                       did_you_mean(nearest),
                   nearest.empty() ? fmt::format("add '- id: {}' under 'blocks:'", id)
                                   : fmt::format("write 'block: {}'", nearest));
  }

 private:
  Reading& reading_;
  std::vector<std::string> ids_;
  std::set<std::string> known_;
  std::size_t told_ = 0;
};

void check_dates(Reading& reading, const Tree& tree, const YamlNode& node) {
  if (tree.planted && tree.lost && latest_of(*tree.lost) < tree.planted->earliest()) {
    reading.error(at_key(node, "lost"), "orchard.date-order",
                  "the tree was lost before it was planted", "a day after 'planted'",
                  "correct one of the two dates");
  }
  if (!tree.lost_to.empty() && node.find("lost") == nullptr) {
    reading.error(at_key(node, "lost_to"), "orchard.missing-key",
                  "a tree with 'lost_to:' needs 'lost:'",
                  "a year, a month or a day: YYYY, YYYY-MM or YYYY-MM-DD",
                  "add a line such as 'lost: 2025-08-03'");
  }
  const YamlNode* observed = node.find("observed");
  if (observed == nullptr) return;
  // Observations stand in the order of the list; faulty entries have none.
  auto item = observed->items.begin();
  for (const Observation& seen : tree.observed) {
    while (item->at.line != seen.at.line || item->at.column != seen.at.column) ++item;
    check_observed_date(reading, tree, seen, at_key(*item, "on"));
  }
}

/// The id with capitals made small: A1 and a1 would be one to the ear.
std::string small_id(const std::string& id) { return folded_name(id); }

void check_trees(Reading& reading, const Draft& draft, CultivarNames& known) {
  FirstPlaces ids;
  BlockIds blocks(reading, draft.orchard);
  std::map<std::pair<int, int>, const Tree*> places;
  for (std::size_t i = 0; i < draft.orchard.trees.size(); ++i) {
    const Tree& tree = draft.orchard.trees[i];
    const YamlNode& node = *draft.tree_nodes[i];
    const SourceSpan at = at_key(node, "id");
    if (!tree.id.empty()) {
      if (const int line = ids.line_before(small_id(tree.id), at.line)) {
        twice(reading, at, fmt::format("the tree '{}'", tree.id), line,
              "give one of the two another id");
      }
    }
    check_species(reading, tree, node);
    if (tree.block) blocks.check(*tree.block, at_key(node, "block"));
    check_dates(reading, tree, node);
    if (tree.needs.empty()) known.check(tree.species, tree.cultivar, at_key(node, "cultivar"));
    check_names(known, tree.species, tree.grafts, node.find("grafts"));
    if (tree.row_place && !tree.lost) {
      const auto [first, is_new] =
          places.emplace(std::pair(tree.row_place->row, tree.row_place->place), &tree);
      if (!is_new) {
        reading.warning(
            at_key(node, "at"), "orchard.same-place",
            fmt::format("tree '{}' stands there too, and neither is lost", first->second->id),
            "one standing tree a place",
            "correct one of the two places, or say since when one tree is 'lost:'");
      }
    }
  }
}

// ---- workdays
// ------------------------------------------------------------------------------------------------------

void check_people(Reading& reading, const Workday& day, const YamlNode& node) {
  const auto too_many = [&](std::string_view key, int people, std::string_view of) {
    if (people <= day.adults || day.adults == 0) return;
    reading.error(at_key(node, key), "orchard.workday-people",
                  fmt::format("{} adults {}, and {} adults come", people, of, day.adults),
                  fmt::format("at most {}", day.adults), "correct one of the two numbers");
  };
  too_many("skilled", day.skilled, "can lead a team");
  too_many("saw_hands", day.saw_hands, "are trained for powered saws");
  const YamlNode* adults = node.find("adults");
  const bool none_written =
      adults == nullptr || (adults->kind == YamlKind::text && parse_whole(adults->text) == 0);
  if (day.adults > 0 || !none_written) return;
  reading.error(
      adults != nullptr ? adults->at : node.at, "orchard.workday-people",
      day.minors > 0 ? "people under 18 come without an adult" : "nobody comes on this workday",
      "one adult at least", "add a line such as 'adults: 8', or delete the workday");
}

void check_workdays(Reading& reading, const Draft& draft) {
  for (std::size_t i = 0; i < draft.orchard.workdays.size(); ++i) {
    const Workday& day = draft.orchard.workdays[i];
    const YamlNode& node = *draft.workday_nodes[i];
    const bool both = node.find("from") != nullptr && node.find("to") != nullptr;
    const bool ends = day.to_minute > day.from_minute;
    if (both && day.to_minute > 0 && !ends) {
      reading.error(at_key(node, "to"), "orchard.workday-times",
                    "the workday ends before it begins", "a time after 'from'",
                    "correct one of the two times");
    }
    check_people(reading, day, node);
    for (std::size_t j = 0; j < i && ends; ++j) {
      const Workday& other = draft.orchard.workdays[j];
      if (!day.on.ok() || other.on != day.on || other.from_minute >= day.to_minute ||
          day.from_minute >= other.to_minute)
        continue;
      reading.error(at_key(node, "on"), "orchard.workday-times",
                    fmt::format("the workday on line {} is on the same day at the same time",
                                draft.workday_nodes[j]->at.line),
                    "one workday at a time", "correct the day, or make one workday of the two");
    }
  }
}

}  // namespace

void check_observed_date(Reading& reading, const Tree& tree, const Observation& observation,
                         SourceSpan at) {
  const Date day = observation.on.earliest();
  const ObservationRow* row = find_observation(observation.what);
  const std::string what = row == nullptr ? observation.what : row->name.words.front();
  if (tree.planted && day < tree.planted->earliest()) {
    reading.error(at, "orchard.date-order",
                  fmt::format("'{}' was seen on tree '{}' before it was planted", what, tree.id),
                  "a day after 'planted'",
                  "correct the day; a tree that stood there before needs an id of its own");
  } else if (tree.lost && day > latest_of(*tree.lost)) {
    reading.error(at, "orchard.date-order",
                  fmt::format("'{}' was seen on tree '{}' after it was lost", what, tree.id),
                  "a day before 'lost'",
                  "correct the day; a tree that stands there now needs an id of its own");
  }
}

void check_draft(Reading& reading, Draft& draft) {
  fill_defaults(draft);
  check_latitude(reading, draft);
  check_winter(reading, draft);
  check_temperatures(reading, draft);
  check_past_winters(reading, draft);
  check_blocks(reading, draft);
  CultivarNames known(reading, draft.orchard);
  check_cultivars(reading, draft, known);
  check_trees(reading, draft, known);
  check_workdays(reading, draft);
}

}  // namespace winterfolio
