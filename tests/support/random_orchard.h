// Orchards and their weather made by a seeded generator: one tree or a hundred and fifty, any
// kinds, long names and accents, blocks and maps or none, one winter or fifteen, holes in the
// readings, a winter just begun or over, either side of the equator. What the readers would let
// pass, and nothing else. No fact in them is true.
#pragma once

#include <fmt/format.h>

#include <cmath>
#include <memory>
#include <numbers>
#include <random>
#include <string>
#include <utility>
#include <vector>

#include "orchard/cultivars.h"
#include "orchard/species.h"
#include "orchard/tree_words.h"
#include "report/season_facts.h"

namespace winterfolio::test {

/// Seeded and the same on every platform: the standard fixes the engine's numbers, not its
/// distributions.
class OrchardDice {
 public:
  explicit OrchardDice(std::uint64_t seed) : engine_(seed) {}
  int up_to(int n) { return static_cast<int>(engine_() % static_cast<std::uint64_t>(n)); }
  bool one_in(int n) { return up_to(n) == 0; }
  double between(double low, double high) {
    return low + (high - low) * static_cast<double>(engine_() >> 11) * 0x1p-53;
  }
  template <class List>
  const auto& one_of(const List& list) {
    return list[static_cast<std::size_t>(up_to(static_cast<int>(std::size(list))))];
  }

 private:
  std::mt19937_64 engine_;
};

/// Everything the pages of one winter are made from.
struct RandomSeason {
  Orchard orchard;
  WeatherRecord record;
  Today today;
  std::vector<ReadingsFile> files;
  std::optional<int> utc_offset_minutes;
};

namespace random_orchard_parts {

/// Up to `words` words, some long, with accents and apostrophes; no longer than a name may be.
inline std::string name(OrchardDice& dice, int words) {
  static const char* const kWords[] = {
      "Late",    "Zwetschge",   "d’Août",     "Pépin",    "Ĉielarka",  "Señorita",      "Bell",
      "Lantern", "Meadow",      "Gårdsäpple", "O’Hollow", "Żółta",     "Winterrenette", "of",
      "the",     "Quince-Hill", "Íris",       "Mørk",     "Čačanska",  "Überlinger",    "No. 7",
      "Old",     "Ashlar",      "Bramble",    "Šípková",  "Tenderwood"};
  std::string text;
  for (int i = 0; i < words; ++i) {
    const std::string word = dice.one_of(kWords);
    if (text.size() + word.size() > 90) break;
    text += (i ? " " : "") + word;
  }
  return text;
}

inline ChillMeasure any_measure(OrchardDice& dice) { return dice.one_of(kChillMeasures); }

inline ChillNeeds needs(OrchardDice& dice) {
  ChillNeeds needs;
  const ChillMeasure measure = dice.one_in(2) ? ChillMeasure::portions : any_measure(dice);
  const double scale = measure == ChillMeasure::portions ? 1.0 : 15.0;
  const double low = std::round(dice.between(8, 80) * scale);
  needs[measure] = {low, dice.one_in(2) ? low : low + std::round(12 * scale)};
  return needs;
}

inline PartialDate some_day(OrchardDice& dice, Date from, Date to) {
  const Date day = plus_days(from, dice.up_to(std::max(1, days_between(from, to))));
  return {int{day.year()}, unsigned{day.month()}, unsigned{day.day()}};
}

/// What was seen of a tree in the years before and this winter, by date.
inline std::vector<Observation> notes(OrchardDice& dice, int winter_year, Date as_of) {
  static const char* const kWhats[] = {"leaves_fallen", "bud_swell",  "first_bloom",
                                       "full_bloom",    "leafed_out", "leafed_unevenly",
                                       "harvest",       "pruned",     "frost_damage"};
  std::vector<Observation> seen;
  for (int i = dice.up_to(10); i > 0; --i) {
    Observation one;
    one.on = some_day(dice, date_of(winter_year - dice.up_to(6), 10, 1), as_of);
    if (one.on.earliest() > as_of) continue;
    one.what = dice.one_of(kWhats);
    if (one.what == "harvest")
      one.amount = dice.one_in(4) ? "many small ones, scabby, half left to the birds"
                                  : fmt::format("{} kg", dice.up_to(90));
    seen.push_back(one);
  }
  std::sort(seen.begin(), seen.end(),
            [](const auto& a, const auto& b) { return a.on.earliest() < b.on.earliest(); });
  return seen;
}

inline std::string cultivar(OrchardDice& dice, Orchard& orchard, const std::string& species) {
  if (dice.one_in(7)) return {};
  const std::vector<std::string> known = cultivar_names(species);
  if (!known.empty() && !dice.one_in(4)) return dice.one_of(known);
  OwnCultivar own;
  own.species = species;
  own.name = name(dice, 1 + dice.up_to(dice.one_in(5) ? 9 : 3));
  if (!dice.one_in(3)) own.needs = needs(dice);
  own.from_where = dice.one_in(2) ? "a talk at the winter meeting, noted by the keeper" : "";
  orchard.cultivars.push_back(own);
  return own.name;
}

inline void kind_of(OrchardDice& dice, Orchard& orchard, Tree& tree) {
  if (dice.one_in(12)) {
    tree.species = std::string(kOtherSpecies);
    tree.other = dice.one_in(3) ? name(dice, 3) : dice.one_in(2) ? "feijoa" : "olive";
    if (dice.one_in(2)) tree.cultivar = name(dice, 2);
    return;
  }
  const std::vector<std::string> species = species_ids();
  tree.species = dice.one_of(species);
  if (dice.one_in(15)) {
    for (int i = 2 + dice.up_to(4); i > 0; --i) {
      const std::string graft = cultivar(dice, orchard, tree.species);
      if (!graft.empty()) tree.grafts.push_back(graft);
    }
  }
  if (tree.grafts.empty()) tree.cultivar = cultivar(dice, orchard, tree.species);
}

inline void condition_of(OrchardDice& dice, Tree& tree, int winter_year) {
  if (!dice.one_in(4)) tree.planted = PartialDate{winter_year - dice.up_to(40), {}, {}};
  if (!dice.one_in(4)) tree.form = dice.one_of(forms_table()).id;
  if (!dice.one_in(3)) tree.height = Metres(std::round(dice.between(1, 11) * 10) / 10);
  for (int i = dice.up_to(4); i > 0; --i) tree.see_to.push_back(dice.one_of(see_to_table()).id);
  if (dice.one_in(10)) tree.disease = dice.one_of(diseases_table()).id;
  if (dice.one_in(15)) tree.hazards.push_back(dice.one_of(hazards_table()).id);
  if (dice.one_in(8)) tree.needs = needs(dice);
}

/// How the trees of an orchard say where they stand.
enum class Places { none, rows, measured, some };

inline void place_of(OrchardDice& dice, Tree& tree, Places places, int number) {
  if (places == Places::none || (places == Places::some && dice.one_in(2))) return;
  if (places == Places::measured) {
    tree.measured_place = MeasuredPlace{Metres(std::round(dice.between(0, 90))),
                                        Metres(number * 1.5 + std::round(dice.between(0, 3)))};
  } else {
    tree.row_place = RowPlace{1 + number / 12, 1 + number % 12};
  }
}

inline int tree_count(OrchardDice& dice) {
  switch (dice.up_to(8)) {
    case 0:
      return 1 + dice.up_to(3);
    case 1:
      return 40 + dice.up_to(111);
    default:
      return 2 + dice.up_to(34);
  }
}

inline void add_trees(OrchardDice& dice, Orchard& orchard, int winter_year, Date as_of) {
  const int count = tree_count(dice);
  const auto places = static_cast<Places>(dice.up_to(4));
  const bool records = !dice.one_in(3);
  const bool long_ids = dice.one_in(5);
  for (int i = 0; i < count; ++i) {
    Tree tree;
    tree.id = long_ids ? fmt::format("NW-{}/{}", 10 + i / 12, 10 + i % 12)
                       : fmt::format("{}{}", static_cast<char>('A' + i / 12), i % 12 + 1);
    kind_of(dice, orchard, tree);
    condition_of(dice, tree, winter_year);
    place_of(dice, tree, places, i);
    if (!orchard.blocks.empty() && !dice.one_in(4)) tree.block = dice.one_of(orchard.blocks).id;
    if (records) tree.observed = notes(dice, winter_year, as_of);
    if (dice.one_in(25) && count > 3)
      tree.lost = some_day(dice, plus_days(as_of, -500), plus_days(as_of, 1));
    orchard.trees.push_back(std::move(tree));
  }
}

inline void add_workdays(OrchardDice& dice, Orchard& orchard, Date as_of) {
  for (int i = dice.up_to(5); i > 0; --i) {
    Workday day;
    day.on = plus_days(as_of, dice.up_to(90) - 30);
    day.from_minute = 9 * 60;
    day.to_minute = 12 * 60 + 30;
    day.adults = 2 + dice.up_to(20);
    day.minors = dice.up_to(6);
    day.skilled = dice.up_to(3);
    orchard.workdays.push_back(day);
  }
}

/// The site's weather: mean of the year, how far summer and winter, day and night lie apart.
struct Climate {
  double mean = 12, year = 8, day = 5, drift = 5;
  bool southern = false;
};

inline double season_of(const Climate& climate, Date day) {
  const double turn = climate.southern ? 17.0 : 200.0;
  return climate.mean +
         climate.year * std::cos(2.0 * std::numbers::pi * (day_of_year(day) - turn) / 365.25);
}

inline void add_hours(OrchardDice& dice, const Climate& climate, LocalHour from, LocalHour to,
                      HourlySeries& series) {
  double drift = 0.0;
  for (LocalHour hour = from; hour < to; hour = hour + 1) {
    drift = 0.992 * drift + 0.11 * climate.drift * dice.between(-0.5, 0.5);
    const double wave = std::sin(2.0 * std::numbers::pi * (hour.hour_of_day() - 9.0) / 24.0);
    const double t = season_of(climate, hour.date()) + climate.day * wave + climate.drift * drift;
    const double mean = std::round(t * 10.0) / 10.0;
    series.set(hour, {Celsius(mean), Celsius(mean - 0.3), HourOrigin::observed});
  }
}

inline void add_days(OrchardDice& dice, const Climate& climate, Date from, Date to,
                     DailySeries& days) {
  double drift = 0.0;
  for (Date day = from; day < to; day = plus_days(day, 1)) {
    drift = 0.8 * drift + 0.5 * climate.drift * dice.between(-1.0, 1.0);
    const double middle = season_of(climate, day) + drift;
    const double half = climate.day * dice.between(0.4, 1.2);
    if (!dice.one_in(300))
      days.set(day, DailyExtremes{Celsius(middle - half), Celsius(middle + half)});
  }
}

/// Takes runs of hours away, from a forenoon to a month; the last reading stays.
inline void make_holes(OrchardDice& dice, HourlySeries& series, LocalHour from) {
  const std::int32_t span = series.end() - from;
  for (int i = dice.one_in(2) ? 0 : dice.up_to(6); i > 0; --i) {
    const int longest = dice.one_in(5) ? 700 : dice.one_in(2) ? 60 : 8;
    const LocalHour begins = from + dice.up_to(std::max(1, span));
    for (int hour = 4 + dice.up_to(longest); hour > 0; --hour) {
      if (begins + hour < series.last()) series.clear(begins + hour);
    }
  }
}

/// The hour after the last reading: the winter just begun, well on, or over.
inline LocalHour now_in(OrchardDice& dice, const Winter& winter) {
  const int days = days_between(winter.from, winter.to);
  switch (dice.up_to(6)) {
    case 0:
      return winter.begin() + 1 + dice.up_to(96);
    case 1:
      return winter.end() + dice.up_to(40 * 24);
    default:
      return winter.begin() + 24 + dice.up_to(days * 24);
  }
}

inline void add_past(OrchardDice& dice, const Climate& climate, int years, Date begin,
                     HourlySeries& hours, DailySeries& days) {
  const Date first = date_of(int{begin.year()} - years, unsigned{begin.month()}, 1);
  if (years == 0) return;
  if (years <= 4 && dice.one_in(3)) {
    add_hours(dice, climate, LocalHour::at(first, 0), LocalHour::at(begin, 0), hours);
  } else {
    add_days(dice, climate, first, begin, days);
  }
}

inline std::vector<ReadingsFile> files(OrchardDice& dice, const HourlySeries& hours) {
  static const char* const kFormats[] = {"table", "ghcn-daily", "isd-lite"};
  static const char* const kDoubts[] = {"step", "flat_line", "daily_extreme", "sensor_in_sun"};
  std::vector<ReadingsFile> files;
  for (int i = 1 + dice.up_to(4); i > 0; --i) {
    ReadingsFile file;
    file.file = dice.one_in(3) ? "readings/of the old thermometer behind the press house-2019.csv"
                               : fmt::format("logger-{}.csv", i);
    file.format = dice.one_of(kFormats);
    file.readings = dice.up_to(200000);
    file.missing_hours = dice.up_to(900);
    file.first = hours.first().date();
    file.last = hours.last().date();
    file.impossible = dice.up_to(3);
    file.spikes = dice.up_to(4);
    file.duplicates = dice.up_to(25);
    for (int n = dice.up_to(7); n > 0; --n) {
      const LocalHour at = hours.first() + dice.up_to(hours.size());
      file.doubts.push_back(
          {std::string(dice.one_of(kDoubts)), at, at + dice.up_to(30), 100 * n, 100 * n + 7});
    }
    files.push_back(std::move(file));
  }
  return files;
}

inline void describe(OrchardDice& dice, Orchard& orchard, const Climate& climate) {
  orchard.id = "random";
  orchard.name = name(dice, 2 + dice.up_to(dice.one_in(6) ? 10 : 3));
  orchard.latitude = (climate.southern ? -1 : 1) * std::round(dice.between(28, 58) * 100) / 100;
  if (!dice.one_in(3)) orchard.longitude = std::round(dice.between(-120, 20));
  orchard.units = dice.one_in(2) ? TemperatureUnits::celsius : TemperatureUnits::fahrenheit;
  orchard.lengths = dice.one_in(2) ? LengthUnits::metres : LengthUnits::feet;
  orchard.paper = dice.one_in(2) ? Paper::a4 : Paper::letter;
  const auto answer = [&] { return static_cast<District>(dice.up_to(3)); };
  orchard.district = {answer(), answer(), answer(), answer(), answer()};
  for (int i = dice.up_to(5); i > 0; --i) {
    OrchardBlock block;
    block.id = fmt::format("block_{}", i);
    block.name = name(dice, 1 + dice.up_to(5));
    orchard.blocks.push_back(block);
  }
  if (dice.one_in(3)) {
    for (int i = 1 + dice.up_to(3); i > 0; --i) {
      const ChillMeasure measure = any_measure(dice);
      if (std::find(orchard.measures.begin(), orchard.measures.end(), measure) ==
          orchard.measures.end())
        orchard.measures.push_back(measure);
    }
  }
}

}  // namespace random_orchard_parts

/// The orchard of a seed. On the heap: facts refer to it.
inline std::unique_ptr<RandomSeason> random_season(std::uint64_t seed) {
  using namespace random_orchard_parts;
  OrchardDice dice(seed * 0x9E3779B97F4A7C15u + 1);
  auto season = std::make_unique<RandomSeason>();
  Orchard& orchard = season->orchard;
  Climate climate;
  climate.southern = dice.one_in(3);
  climate.mean = dice.between(2, 18);
  climate.year = dice.between(4, 11);
  climate.day = dice.between(2, 7);
  climate.drift = dice.between(1, 6);
  describe(dice, orchard, climate);
  WinterWindow window = default_winter_window(orchard.southern());
  if (dice.one_in(6)) window.to.month = window.to.month + 1;
  orchard.winter_from = window.from;
  orchard.winter_to = window.to;
  const Winter winter = winter_of(window, 2020 + dice.up_to(8));
  const LocalHour now = now_in(dice, winter);
  // The logger runs since two months before the winter, or was hung up within it.
  LocalHour first = winter.begin() - 61 * 24;
  if (dice.one_in(8)) first = std::min(winter.begin() + dice.up_to(40 * 24), now - 1);
  static const int kPastYears[] = {0, 0, 1, 2, 3, 5, 9, 12, 14};
  HourlySeries hours;
  DailySeries days;
  add_past(dice, climate, dice.one_of(kPastYears), std::min(first, now).date(), hours, days);
  add_hours(dice, climate, first, now, hours);
  make_holes(dice, hours, first);
  HourlySeries forecast;
  if (dice.one_in(4)) add_hours(dice, climate, now, now + 24 * (1 + dice.up_to(7)), forecast);
  season->files = files(dice, hours);
  season->record = weather_record(std::move(hours), days, orchard.latitude, std::move(forecast));
  season->today = stand_at(season->record, window).value();
  if (orchard.longitude && !dice.one_in(4))
    season->utc_offset_minutes = static_cast<int>(std::round(*orchard.longitude / 15)) * 60;
  add_trees(dice, orchard, season->today.winter.year, season->today.as_of);
  add_workdays(dice, orchard, season->today.as_of);
  return season;
}

}  // namespace winterfolio::test
