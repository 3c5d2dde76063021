// A small orchard whose winter can be reckoned by hand, for tests of what the pages say.
//
// Every day from November to February has a fixed number of hours at 5 °C, each one chill hour, and
// is at 20 °C for the rest, which none is. This winter, 2026-27, has 18 cold hours a day; it is
// read to the end of 31 January, its 92nd day: 92 x 18 = 1656 chill hours. One hour, 5 am on 10
// January, is at -3 °C: the one frost night. The four winters before have 12, 16, 20 and 10 cold
// hours a day:
//
//   winter     by 31 January      28 days more
//   2022-23    92 x 12 = 1104     + 336
//   2023-24    92 x 16 = 1472     + 448        (2024 has a 29 February, not needed here)
//   2024-25    92 x 20 = 1840     + 560
//   2025-26    92 x 10 =  920     + 280
//
// so that this winter is the second coldest of five so far, and 1936 to 2216 hours are to be
// expected at its end. Trees, all needs in chill hours and their keeper's own:
//
//   A1 apple    1000        met on the 56th day (56 x 18 = 1008), 26 December
//   A2 apple    1800        nearly: short by 144, under a tenth
//   A3 apple    2500        short by 844 so far; no past winter's remainder is enough
//   A4 apple    1500-1800   undecided: 1656 lies between
//   B1 apple    -           unknown: cultivar not known, so only the span of the kind
//   B2 feijoa   -           another kind: no verdict
//   B3 walnut    500        met; 9 m high, so nothing for volunteers
//   C1 apricot   300        met; cut in dry summer weather, since eutypa is about
//   C2 apple    1200        met; a disease without a name: the lead looks first
//   C3 apple     -          lost on 3 December: on the map only
//   C4 pear     1400        met; pruned on 10 January
//   D1 mulberry  400        met; its window closes on 31 January
//
// The workday of 13 February can take A1 to A4 and B1.
#pragma once

#include <memory>
#include <string>
#include <utility>
#include <vector>

#include "report/season_facts.h"

namespace winterfolio::test {

/// What a test may want otherwise.
struct ReportWish {
  bool past_winters = true;
  bool gap = false;  ///< 5 to 7 January without a reading: 3 days
  Date last = date_of(2027, 1, 31);
  bool fahrenheit = false;
  bool workday = true;
  std::vector<Tree> trees{};  ///< empty: those above
};

struct ReportOrchard {
  Orchard orchard;
  WeatherRecord record;
  Today today;
  std::vector<ReadingsFile> files;

  SeasonFacts facts() const { return season_facts(orchard, record, today, files); }
};

namespace report_orchard_parts {

inline Tree tree_needing(std::string id, std::string species, std::optional<Range> hours, int row,
                         int place) {
  Tree tree;
  tree.id = std::move(id);
  tree.species = std::move(species);
  tree.cultivar = hours ? "Keeper's Own " + tree.id : "";
  tree.planted = PartialDate{2005, {}, {}};
  tree.form = "bush";
  tree.height = Metres(2.5);
  tree.row_place = RowPlace{row, place};
  tree.see_to = {"dead", "crossing"};
  if (hours) tree.needs[ChillMeasure::chill_hours] = *hours;
  return tree;
}

inline std::vector<Tree> trees() {
  const auto exactly = [](double hours) { return Range{hours, hours}; };
  std::vector<Tree> all = {tree_needing("A1", "apple", exactly(1000), 1, 1),
                           tree_needing("A2", "apple", exactly(1800), 1, 2),
                           tree_needing("A3", "apple", exactly(2500), 1, 3),
                           tree_needing("A4", "apple", Range{1500, 1800}, 1, 4),
                           tree_needing("B1", "apple", {}, 2, 1),
                           tree_needing("B2", "other", {}, 2, 2),
                           tree_needing("B3", "walnut", exactly(500), 2, 3),
                           tree_needing("C1", "apricot", exactly(300), 3, 1),
                           tree_needing("C2", "apple", exactly(1200), 3, 2),
                           tree_needing("C3", "apple", {}, 3, 3),
                           tree_needing("C4", "pear", exactly(1400), 3, 4),
                           tree_needing("D1", "mulberry", exactly(400), 4, 1)};
  all[5].other = "feijoa";
  all[6].height = Metres(9.0);
  all[8].disease = "unknown";
  all[8].see_to.push_back("diseased");
  all[9].lost = PartialDate{2026, 12, 3};
  Observation pruned;
  pruned.on = PartialDate{2027, 1, 10};
  pruned.what = "pruned";
  all[10].observed.push_back(pruned);
  return all;
}

/// Cold hours of a day in the winter that holds it; none outside November to February.
inline int cold_hours(Date day) {
  const unsigned month{day.month()};
  if (month > 2 && month < 11) return 0;
  switch (month >= 11 ? int{day.year()} : int{day.year()} - 1) {
    case 2022:
      return 12;
    case 2023:
      return 16;
    case 2024:
      return 20;
    case 2025:
      return 10;
    default:
      return 18;
  }
}

inline HourlySeries hours(const ReportWish& wish) {
  const Date first = wish.past_winters ? date_of(2022, 10, 1) : date_of(2026, 10, 1);
  HourlySeries series(LocalHour::at(first, 0));
  for (Date day = first; day <= wish.last; day = plus_days(day, 1)) {
    for (int hour = 0; hour < 24; ++hour) {
      const Celsius t(hour < cold_hours(day) ? 5.0 : 20.0);
      series.set(LocalHour::at(day, hour), {t, t, HourOrigin::observed});
    }
  }
  const LocalHour frost = LocalHour::at(date_of(2027, 1, 10), 5);
  if (frost < series.end()) series.set(frost, {Celsius(-3), Celsius(-3), HourOrigin::observed});
  if (wish.gap) {
    for (int hour = 0; hour < 72; ++hour)
      series.clear(LocalHour::at(date_of(2027, 1, 5), 0) + hour);
  }
  return series;
}

inline ReadingsFile file() {
  ReadingsFile one;
  one.file = "shed.csv";
  one.format = "table";
  one.readings = 37248;
  one.missing_hours = 9;
  one.first = date_of(2022, 10, 1);
  one.last = date_of(2027, 1, 31);
  one.spikes = 1;
  one.duplicates = 3;
  const LocalHour noon = LocalHour::at(date_of(2026, 12, 12), 12);
  one.doubts.push_back({"flat_line", noon, noon + 30, 36000, 36030});
  return one;
}

}  // namespace report_orchard_parts

/// On the heap: facts refer to it.
inline std::unique_ptr<ReportOrchard> report_orchard(const ReportWish& wish = {}) {
  using namespace report_orchard_parts;
  auto made = std::make_unique<ReportOrchard>();
  Orchard& orchard = made->orchard;
  orchard.id = "hollow-lane";
  orchard.name = "Hollow Lane Test Orchard";
  orchard.latitude = 45.0;
  orchard.units = wish.fahrenheit ? TemperatureUnits::fahrenheit : TemperatureUnits::celsius;
  orchard.paper = Paper::letter;
  orchard.measures = {ChillMeasure::chill_hours};
  orchard.district = {District::no, District::no, District::yes, District::no, District::no};
  const WinterWindow window = default_winter_window(false);
  orchard.winter_from = window.from;
  orchard.winter_to = window.to;
  orchard.trees = wish.trees.empty() ? trees() : wish.trees;
  if (wish.workday) {
    Workday day;
    day.on = date_of(2027, 2, 13);
    day.from_minute = 9 * 60;
    day.to_minute = 12 * 60;
    day.adults = 6;
    day.ladders = 1;
    orchard.workdays.push_back(day);
  }
  made->record = weather_record(hours(wish), {}, orchard.latitude);
  made->today = stand_at(made->record, window).value();
  made->files = {file()};
  return made;
}

}  // namespace winterfolio::test
