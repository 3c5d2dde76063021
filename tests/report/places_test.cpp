// Each tree is judged by the thermometer of its own place, and a block's frost offset touches frost
// alone.
#include "report/season_facts.h"

#include <memory>

#include "support/catch.h"
#include "support/trees.h"
#include "support/winters.h"

using namespace winterfolio;
using namespace winterfolio::test;

namespace {

/// Six winters of weather, colder from year to year, each hour of the day its own.
HourlySeries weather(LocalHour from, LocalHour to, double warmer) {
  HourlySeries series(from);
  for (LocalHour hour = from; hour < to; hour = hour + 1) {
    const int day = day_of_year(hour.date());
    const double year = std::cos(2.0 * std::numbers::pi * (day - 200) / 365.25);
    const double wave = std::sin(2.0 * std::numbers::pi * (hour.hour_of_day() - 9.0) / 24.0);
    const double spell = std::sin(2.0 * std::numbers::pi * day / 9.0 + int{hour.date().year()});
    series.set(hour, reading(11.0 + 8.0 * year + 5.0 * wave + 4.0 * spell + warmer));
  }
  return series;
}

const LocalHour kFirst = LocalHour::at(date_of(2020, 9, 1), 0);
const LocalHour kNow = LocalHour::at(date_of(2026, 1, 20), 0);

OrchardBlock block(std::string id, double frost_offset, bool thermometer) {
  OrchardBlock one;
  one.id = std::move(id);
  one.name = one.id;
  one.frost_offset = CelsiusDelta(frost_offset);
  if (thermometer) {
    one.thermometer = TemperatureSource{};
    one.thermometer->file = one.id + ".csv";
  }
  return one;
}

Tree peach_in(std::string id, std::optional<std::string> where) {
  Tree tree = tree_of("peach");
  tree.id = std::move(id);
  tree.cultivar = "Old Gate";
  tree.block = std::move(where);
  tree.needs[ChillMeasure::chill_hours] = {900, 900};
  tree.observed.push_back(seen_on(date_of(2026, 1, 5), "first_bloom"));
  return tree;
}

struct Reckoned {
  Orchard orchard;
  WeatherRecord record;
  std::vector<PlaceWeather> places;
  SeasonFacts facts;
};

/// Fills in place: the facts point into the rest.
void reckon(Reckoned& all, LocalHour hung, LocalHour taken_down, double warmer) {
  all.record = weather_record(weather(kFirst, kNow, 0.0), {}, 38.0);
  for (const OrchardBlock& one : all.orchard.blocks) {
    if (one.thermometer)
      all.places.push_back(place_weather(one, weather(hung, taken_down, warmer), {}, all.record));
  }
  const Today today = stand_at(all.record, default_winter_window(false)).value();
  all.facts = season_facts(all.orchard, all.record, today, {}, {}, all.places);
}

}  // namespace

TEST_CASE("a block with its own thermometer is judged by it, the others by the orchard's") {
  Reckoned all;
  all.orchard = northern_orchard();
  all.orchard.blocks = {block("hollow", 0.0, true), block("hill", 0.0, false)};
  all.orchard.trees = {peach_in("A", {}), peach_in("B", "hollow"), peach_in("C", "hill")};
  reckon(all, LocalHour::at(date_of(2025, 11, 1), 0), kNow, -3.0);
  REQUIRE(all.facts.places.size() == 1);
  const PlaceSeason& hollow = all.facts.places.front();
  CHECK_FALSE(hollow.silent);
  CHECK(hollow.weather->thermometer == "hollow.csv");
  CHECK(hollow.own_winters == 0);
  CHECK(hollow.moved_winters == 5);
  CHECK(all.facts.standing_of(all.orchard.trees[0]).place == nullptr);
  CHECK(all.facts.standing_of(all.orchard.trees[1]).place == &hollow);
  CHECK(all.facts.standing_of(all.orchard.trees[2]).place == nullptr);
  const auto received = [&](std::size_t tree) {
    return all.facts.trees[tree].verdict.leading().verdict.received;
  };
  CHECK(received(0) == all.facts.chill.of(ChillMeasure::chill_hours).total().amount());
  CHECK(received(1) == hollow.chill.of(ChillMeasure::chill_hours).total().amount());
  CHECK(received(1) > received(0));
  CHECK(received(2) == received(0));
  // Its past winters are three degrees colder too: it ranks among its own like the orchard does.
  const auto rank = [](const std::vector<ShownMeasure>& shown) { return shown.front().years.rank; };
  CHECK(rank(hollow.shown) > 0);
  CHECK(std::abs(rank(hollow.shown) - rank(all.facts.shown)) <= 1);
}

TEST_CASE("a block's thermometer that read nothing this winter leaves its trees to the orchard's") {
  Reckoned all;
  all.orchard = northern_orchard();
  all.orchard.blocks = {block("hollow", 0.0, true)};
  all.orchard.trees = {peach_in("B", "hollow")};
  const LocalHour hung = LocalHour::at(date_of(2024, 7, 1), 0);
  reckon(all, hung, hung + 200, -3.0);  // too short to be laid beside the orchard's
  REQUIRE(all.facts.places.size() == 1);
  CHECK(all.facts.places.front().silent);
  CHECK(all.facts.standing_of(all.orchard.trees[0]).place == nullptr);
  CHECK(all.facts.trees.front().verdict.leading().verdict.received ==
        all.facts.chill.of(ChillMeasure::chill_hours).total().amount());
}

TEST_CASE("a frost offset touches frost findings alone") {
  const auto with_offset = [](double offset) {
    auto all = std::make_unique<Reckoned>();
    all->orchard = northern_orchard();
    all->orchard.blocks = {block("hollow", offset, false)};
    all->orchard.trees = {peach_in("B", "hollow")};
    reckon(*all, kFirst, kNow, 0.0);
    return all;
  };
  const auto plain = with_offset(0.0);
  const auto cold = with_offset(-1.5);
  const TreeSeason& a = plain->facts.trees.front();
  const TreeSeason& b = cold->facts.trees.front();
  CHECK(a.verdict.leading().verdict.received == b.verdict.leading().verdict.received);
  CHECK(a.verdict.leading().verdict.state == b.verdict.leading().verdict.state);
  CHECK(a.bloom.expected == b.bloom.expected);
  CHECK(a.bloom.heat_so_far == b.bloom.heat_so_far);
  CHECK(a.plan.window.opens.on == b.plan.window.opens.on);
  for (std::size_t i = 0; i < plain->facts.shown.size(); ++i) {
    CHECK(plain->facts.shown[i].years.now == cold->facts.shown[i].years.now);
    CHECK(plain->facts.shown[i].to_come.at_end.middle ==
          cold->facts.shown[i].to_come.at_end.middle);
  }
  REQUIRE_FALSE(a.frost.nights.empty());
  REQUIRE(b.frost.nights.size() >= a.frost.nights.size());
  for (const TreeNight& night : a.frost.nights) {
    for (const TreeNight& same : b.frost.nights) {
      if (same.night.evening == night.night.evening)
        CHECK_THAT((night.at_tree - same.at_tree).degrees(), WithinAbs(1.5, 1e-9));
    }
  }
}

TEST_CASE("an offset is not laid on readings that were taken in the block itself") {
  Reckoned all;
  all.orchard = northern_orchard();
  all.orchard.blocks = {block("hollow", -1.5, true)};
  all.orchard.trees = {peach_in("B", "hollow")};
  reckon(all, LocalHour::at(date_of(2025, 11, 1), 0), kNow, -3.0);
  const TreeFrost& frost = all.facts.trees.front().frost;
  REQUIRE_FALSE(frost.nights.empty());
  for (const TreeNight& night : frost.nights) CHECK(night.at_tree == night.night.lowest);
}

TEST_CASE("ten whole winters score the way of looking ahead, fewer do not") {
  Reckoned all;
  all.orchard = northern_orchard();
  all.orchard.trees = {peach_in("A", {})};
  reckon(all, kFirst, kNow, 0.0);
  CHECK_FALSE(all.facts.shown.front().hindcast.has_value());
  const WeatherRecord longer =
      weather_record(weather(LocalHour::at(date_of(2015, 9, 1), 0), kNow, 0.0), {}, 38.0);
  const Today today = stand_at(longer, default_winter_window(false)).value();
  const SeasonFacts facts = season_facts(all.orchard, longer, today, {});
  REQUIRE(facts.shown.front().hindcast.has_value());
  CHECK(facts.shown.front().hindcast->winters == 10);
  CHECK(facts.shown.front().hindcast->trials == 30);
}
