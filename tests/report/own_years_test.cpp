// A tree judged by its own years, which are known by daily extremes alone, while this winter is
// read by the hour: everything said of it must be of one making. Ends expected are counted anew
// with chill hours, which simply add up, from the same days drawn by the same curve.
#include "../findings/winters_test.h"
#include "models/chill/tally.h"
#include "report/sections.h"
#include "support/blocks.h"
#include "support/catch.h"
#include "support/report_orchard.h"
#include "weather/daily_to_hourly.h"

using namespace winterfolio;
using namespace winterfolio::test;

namespace {

constexpr int kFirstWinter = 2014, kThisWinter = 2021;

Observation seen(int year, const char* what) {
  Observation note;
  note.on = PartialDate{year, 4, 10};
  note.what = what;
  return note;
}

/// Hours of this winter to 10 January 2022; seven winters before it by their lowest and highest.
struct MixedRecord {
  HourlySeries hours = years_of_weather(23, kFirstWinter, 8);
  HourlySeries drawn = hourly_from_daily(daily_from_hourly(hours), 45.0);
  LocalHour begin = LocalHour::at(date_of(kThisWinter, 11, 1), 0);
  LocalHour now = LocalHour::at(date_of(kThisWinter + 1, 1, 11), 0);

  WeatherRecord record() const {
    const DailySeries all = daily_from_hourly(hours);
    DailySeries days;
    for (Date day = date_of(kFirstWinter, 9, 1); day < date_of(kThisWinter, 9, 1);
         day = plus_days(day, 1))
      days.set(day, all.at(day));
    HourlySeries read;
    for (LocalHour hour = LocalHour::at(date_of(kThisWinter, 9, 1), 0); hour < now; hour = hour + 1)
      read.set(hour, hours.at(hour).value());
    return weather_record(read, days, 45.0);
  }
  double cold(LocalHour from, LocalHour to) const {
    return tally_chill(drawn, from, to).total<ChillMeasure::chill_hours>().amount();
  }
  /// This winter with the rest of another.
  double end_after(int year) const {
    const LocalHour other = LocalHour::at(date_of(year, 11, 1), 0);
    return cold(begin, now) +
           cold(other + (now - begin), LocalHour::at(date_of(year + 1, 3, 1), 0));
  }
};

}  // namespace

TEST_CASE("a tree judged by its own years is told what is likely in their making") {
  const MixedRecord mixed;
  std::vector<double> ends, whole;
  for (int year = kFirstWinter; year < kThisWinter; ++year) {
    ends.push_back(mixed.end_after(year));
    whole.push_back(mixed.cold(LocalHour::at(date_of(year, 11, 1), 0),
                               LocalHour::at(date_of(year + 1, 3, 1), 0)));
  }
  // It leafed badly after the winter of the middle amount and well after the next colder one.
  std::vector<double> sorted = whole;
  std::sort(sorted.begin(), sorted.end());
  const auto year_with = [&](double amount) {
    return kFirstWinter +
           static_cast<int>(std::find(whole.begin(), whole.end(), amount) - whole.begin());
  };
  Tree tree = report_orchard_parts::tree_needing("A1", "apple", {}, 1, 1);
  tree.observed = {seen(year_with(sorted[3]) + 1, "leafed_unevenly"),
                   seen(year_with(sorted[4]) + 1, "leafed_out")};
  const auto orchard = report_orchard({.workday = false, .trees = {tree}});
  orchard->record = mixed.record();
  orchard->today = stand_at(orchard->record, default_winter_window(false)).value();
  const SeasonFacts facts = orchard->facts();

  const TreeSeason& season = facts.trees.front();
  REQUIRE(season.bracket == BracketUse::alone);
  const Verdict& verdict = season.verdict.leading().verdict;
  CHECK(verdict.basis == WinterDetail::daily_extremes);
  CHECK_THAT(verdict.received, WithinAbs(mixed.cold(mixed.begin, mixed.now), 3.0));
  REQUIRE(season.chance);
  CHECK(season.chance->winters == 7);
  const auto reaching = [&](double amount) {
    return std::count_if(ends.begin(), ends.end(), [&](double end) { return end >= amount; });
  };
  CHECK(season.chance->reaching_low == reaching(sorted[3]));
  CHECK(season.chance->reaching_high == reaching(sorted[4]));

  const Blocks blocks = trees_section(facts);
  const auto* cards = blocks_of<Cards>(blocks).front();
  const auto* bar = chart_in<NeedBar>(cards->cards.front().body);
  REQUIRE(bar);
  CHECK(says(bar->making, "bar.by-extremes"));
  CHECK(bar->has.low == verdict.received);
  REQUIRE(bar->likely);
  CHECK(bar->likely->low >= *std::min_element(ends.begin(), ends.end()) - 3.0);
  CHECK(bar->likely->high <= *std::max_element(ends.begin(), ends.end()) + 3.0);
}
