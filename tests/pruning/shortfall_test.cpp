// What a mild winter does: one band for every kind and every share, the kind's own first.
#include "pruning/shortfall.h"

#include <algorithm>
#include <set>

#include "orchard/species.h"
#include "support/catch.h"
#include "support/files.h"

using namespace winterfolio;

TEST_CASE("for every kind and shortfall exactly one band wins, and every band wins somewhere") {
  std::set<std::string> reached;
  for (const std::string& kind : species_ids()) {
    for (int step = 0; step <= 20000; ++step) {
      const double share = step / 20000.0;
      int named = 0;
      int any = 0;
      std::string expected;
      for (const ShortfallEffect& effect : shortfall_effects()) {
        if (share < effect.short_from || share >= effect.short_below) continue;
        if (effect.species.empty()) {
          ++any;
          if (named == 0) expected = effect.id;
        } else if (std::find(effect.species.begin(), effect.species.end(), kind) !=
                   effect.species.end()) {
          ++named;
          expected = effect.id;
        }
      }
      const std::string& found = shortfall_effect(kind, share).id;
      if (named > 1 || any != 1 || found != expected) {
        INFO(kind << " " << share);
        REQUIRE(named <= 1);
        REQUIRE(any == 1);
        REQUIRE(found == expected);
      }
      reached.insert(found);
    }
  }
  for (const ShortfallEffect& effect : shortfall_effects()) {
    INFO(effect.id);
    CHECK(reached.count(effect.id) == 1);
  }
}

TEST_CASE("peach a hundred hours short bears some crop, two hundred short a very poor one") {
  // University of Georgia, G. Krewer [S117], seen; read against needs of 700 hours.
  CHECK(shortfall_effect("peach", 100.0 / 700.0).id == "peach-some");
  CHECK(shortfall_effect("peach", 200.0 / 700.0).id == "peach-much");
}

TEST_CASE("bands begin where they say, and what lies outside the scale counts as its end") {
  CHECK(shortfall_effect("apple", -0.3).id == "any-met");
  CHECK(shortfall_effect("apple", 0.0).id == "any-met");
  CHECK(shortfall_effect("apple", 0.0999).id == "any-nearly");
  CHECK(shortfall_effect("apple", 0.1).id == "apple-some");
  CHECK(shortfall_effect("fig", 0.1).id == "any-some");
  CHECK(shortfall_effect("apple", 0.25).id == "any-much");
  CHECK(shortfall_effect("apple", 1.7).id == "any-most");
}

namespace {

/// A winter of portions still to come or over, for one tree.
struct Cold {
  WinterChill chill;
  StillToCome to_come{.measure = ChillMeasure::chill_hours, .first_day = date_of(2025, 1, 1)};

  Cold(int hours_below, bool over) {
    HourlySeries hours(LocalHour::at(date_of(2024, 11, 1), 0));
    const int all = 24 * (over ? 120 : 61);
    for (int i = 0; i < all; ++i) {
      const Celsius t(i < hours_below ? 4.0 : 12.0);
      hours.set(hours.first() + i, {t, t, HourOrigin::observed});
    }
    const WeatherRecord record = weather_record(std::move(hours), {}, 38.0);
    chill = winter_chill(record, stand_at(record, default_winter_window(false)).value());
  }
  void would_end_between(double low, double high) {
    to_come.paths.push_back({.year = 2020, .start = 0.0, .by_day = {high}});
    to_come.at_end = {low, (low + high) / 2.0, high};
  }
};

PartVerdict part_of(const char* species, ChillNeeds needs, const WinterChill& chill,
                    const char* cultivar = "") {
  Tree tree;
  tree.id = "T1";
  tree.species = species;
  tree.cultivar = cultivar;
  tree.needs = std::move(needs);
  return verdict_on(tree, {}, chill).parts.at(0);
}

}  // namespace

TEST_CASE("what a shortfall does follows from the need's two ends") {
  // University of Georgia, G. Krewer [S117], seen: peaches a hundred hours short bear some crop,
  // two hundred short a very poor one.
  const Cold cold(600, true);
  const auto one_hundred =
      shortfall_of("peach", part_of("peach", {{ChillMeasure::chill_hours, {700, 700}}}, cold.chill),
                   cold.chill, nullptr);
  REQUIRE(one_hundred.has_value());
  CHECK(one_hundred->standing == TreeShortfall::Standing::ended);
  CHECK(one_hundred->at_least->id == "peach-some");
  CHECK(one_hundred->at_most->id == "peach-some");
  const auto spans =
      shortfall_of("peach", part_of("peach", {{ChillMeasure::chill_hours, {700, 850}}}, cold.chill),
                   cold.chill, nullptr);
  CHECK(spans->at_least->id == "peach-some");
  CHECK(spans->at_most->id == "peach-much");
  CHECK_THAT(spans->share.low, WithinAbs(100.0 / 700.0, 1e-9));
  CHECK_THAT(spans->share.high, WithinAbs(250.0 / 850.0, 1e-9));
  CHECK_FALSE(shortfall_of("peach",
                           part_of("peach", {{ChillMeasure::chill_hours, {500, 600}}}, cold.chill),
                           cold.chill, nullptr)
                  .has_value());
}

TEST_CASE("while the winter goes on only past winters tell how short it may end") {
  Cold cold(500, false);
  const PartVerdict part = part_of("apple", {{ChillMeasure::chill_hours, {800, 800}}}, cold.chill);
  REQUIRE(part.verdict.state == VerdictState::short_of);
  CHECK_FALSE(shortfall_of("apple", part, cold.chill, nullptr).has_value());
  cold.would_end_between(640, 760);
  const auto expected = shortfall_of("apple", part, cold.chill, &cold.to_come);
  REQUIRE(expected.has_value());
  CHECK(expected->standing == TreeShortfall::Standing::expected);
  CHECK(expected->at_least->id == "any-nearly");  // 40 of 800
  CHECK(expected->at_most->id == "apple-some");   // 160 of 800
  Cold enough(500, false);
  enough.would_end_between(810, 990);
  CHECK_FALSE(shortfall_of("apple", part, enough.chill, &enough.to_come).has_value());
}

TEST_CASE("a figure from memory says what to look for, and only where even its least is unmet") {
  const Cold cold(600, true);
  // Memory: Fuji 350 to 500 hours, Liberty 800.
  const auto liberty =
      shortfall_of("apple", part_of("apple", {}, cold.chill, "Liberty"), cold.chill, nullptr);
  REQUIRE(liberty.has_value());
  CHECK(liberty->standing == TreeShortfall::Standing::look_for);
  CHECK_FALSE(shortfall_of("apple", part_of("apple", {}, cold.chill, "Fuji"), cold.chill, nullptr)
                  .has_value());
  // The span of all apples begins at 200 hours: nothing can be said of an unknown one.
  CHECK_FALSE(
      shortfall_of("apple", part_of("apple", {}, cold.chill), cold.chill, nullptr).has_value());
}

TEST_CASE("nothing that a keeper is told to do breaks dormancy by a chemical or replants") {
  // Rest-breaking agents belong to their label and to licensed practice; advice to replant never
  // follows from one winter.
  const std::string words = test::read_file(test::source_dir() + "/templates/words/en.yaml");
  for (const char* agent :
       {"cyanamide", "Dormex", "dinitro", "DNOC", "thidiazuron", "potassium nitrate", "winter oil",
        "rest-breaking", "dormancy-breaking", "gibberellin"}) {
    INFO(agent);
    CHECK(words.find(agent) == std::string::npos);
  }
}
