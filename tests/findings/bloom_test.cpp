// Bloom dates: warmth counted by hand, own records recovered, and silence where nothing can be
// known.
#include "findings/bloom.h"

#include <algorithm>

#include "findings/winters_test.h"
#include "models/heat/degree_hours.h"
#include "support/catch.h"

using namespace winterfolio;
using namespace winterfolio::test;

namespace {

const WinterWindow kNorth = default_winter_window(false);

struct Stand {
  WeatherRecord record;
  WinterChill chill;
  SpringOutlook outlook;
};

Stand stand(HourlySeries hours, std::optional<Date> as_of = {}, const WinterWindow& window = kNorth,
            double latitude = 38.0) {
  WeatherRecord record = weather_record(std::move(hours), {}, latitude);
  WinterChill chill = winter_chill(record, stand_at(record, window, {}, as_of).value());
  SpringOutlook outlook = spring_outlook(record, chill);
  return {std::move(record), std::move(chill), std::move(outlook)};
}

/// Days at one temperature each, from 1 November 2024.
HourlySeries days_at(const std::vector<std::pair<int, double>>& runs,
                     Date from = date_of(2024, 11, 1)) {
  std::vector<double> celsius;
  for (const auto& [days, t] : runs)
    celsius.insert(celsius.end(), static_cast<std::size_t>(24 * days), t);
  return series_of(LocalHour::at(from, 0), celsius);
}

Tree tree_needing(double hours) {
  Tree tree;
  tree.id = "T1";
  tree.species = "apple";
  tree.cultivar = "Old Gate";
  tree.needs[ChillMeasure::chill_hours] = {hours, hours};
  return tree;
}

Orchard orchard_with_heat(double low, double high) {
  Orchard orchard;
  OwnCultivar own;
  own.species = "apple";
  own.name = "Old Gate";
  own.heat_to_bloom = Range{low, high};
  own.from_where = "own notes";
  orchard.cultivars.push_back(own);
  return orchard;
}

BloomFinding bloom_at(const Stand& at, const Tree& tree, const Orchard& orchard,
                      std::string_view stage = "first_bloom") {
  return bloom_of(tree, orchard, verdict_on(tree, orchard, at.chill).leading(), at.outlook, stage);
}

void saw(Tree& tree, const std::string& what, Date on) {
  Observation seen;
  seen.what = what;
  seen.on = {int{on.year()}, unsigned{on.month()}, unsigned{on.day()}};
  tree.observed.push_back(seen);
}

}  // namespace

TEST_CASE("bloom comes when the warmth since the end of rest reaches the figure") {
  // 25 cold days: 600 hours on 25 November. Then 14.5 °C: 10 degree hours an hour, 240 a day.
  const Stand at = stand(days_at({{25, 5.0}, {60, 14.5}}));
  const BloomFinding bloom = bloom_at(at, tree_needing(600), orchard_with_heat(2400, 2400));
  CHECK(bloom.method == BloomMethod::own_figure);
  CHECK(bloom.rest_ended == date_of(2024, 11, 25));
  CHECK(bloom.expected == date_of(2024, 12, 5));
  CHECK(bloom.passed);
  CHECK(bloom.source == "own notes");
  const BloomFinding later = bloom_at(at, tree_needing(600), orchard_with_heat(2401, 2401));
  CHECK(later.expected == date_of(2024, 12, 6));
}

TEST_CASE("a note of this spring stands above any reckoning") {
  const Stand at = stand(days_at({{25, 5.0}, {60, 14.5}}));
  Tree tree = tree_needing(600);
  saw(tree, "first_bloom", date_of(2024, 11, 10));  // out of season
  CHECK(bloom_at(at, tree, orchard_with_heat(2400, 2400)).method == BloomMethod::own_figure);
  saw(tree, "first_bloom", date_of(2024, 12, 20));
  const BloomFinding bloom = bloom_at(at, tree, orchard_with_heat(2400, 2400));
  CHECK(bloom.method == BloomMethod::seen);
  CHECK(bloom.expected == date_of(2024, 12, 20));
}

TEST_CASE("no date where the chill is not met, not known, or nothing tells the warmth needed") {
  const Stand over = stand(days_at({{25, 5.0}, {120, 12.0}}));
  CHECK(bloom_at(over, tree_needing(900), orchard_with_heat(2400, 2400)).why_none ==
        NoBloomDate::chill_not_met);
  Tree unknown;
  unknown.species = "apple";
  CHECK(bloom_at(over, unknown, {}).why_none == NoBloomDate::chill_unknown);
  CHECK(bloom_at(over, tree_needing(600), {}).why_none == NoBloomDate::no_figure);
  Tree lemon;
  lemon.species = "other";
  CHECK(bloom_at(over, lemon, {}).why_none == NoBloomDate::other_kind);
  const Stand young = stand(days_at({{30, 5.0}}));
  CHECK(bloom_at(young, tree_needing(600), orchard_with_heat(2400, 2400)).why_none ==
        NoBloomDate::no_springs);
}

TEST_CASE(
    "own records give back the warmth that made them, and date this spring within a few days") {
  const HourlySeries hours = years_of_weather(41, 2012, 10);
  Tree tree = tree_needing(500);
  constexpr double kNeeded = 4000.0;
  for (int year = 2012; year < 2021; ++year) {
    const Winter winter = winter_of(kNorth, year);
    double chill = 0.0;
    double heat = 0.0;
    for (LocalHour hour = winter.begin();; hour = hour + 1) {
      const double t = hours.at(hour)->mean.degrees();
      // Rest ends with the day on which 500 hours are reached; warmth counts from the next.
      if (chill < 500.0 || hour.hour_of_day() != 0) chill += t <= 65.0 / 9.0 ? 1.0 : 0.0;
      if (chill >= 500.0 && hour.hour_of_day() == 0) {
        for (; heat < kNeeded; hour = hour + 1)
          heat += std::clamp(hours.at(hour)->mean.degrees(), 4.5, 25.0) - 4.5;
        saw(tree, "first_bloom", (hour - 1).date());
        break;
      }
    }
  }
  const Stand at = stand(hours, date_of(2022, 2, 5));
  const BloomFinding bloom = bloom_at(at, tree, {});
  CHECK(bloom.method == BloomMethod::own_records);
  REQUIRE(bloom.own_years.size() == 9);
  for (const OwnBloomYear& year : bloom.own_years) {
    CHECK(year.heat >= kNeeded);
    CHECK(year.heat <= kNeeded + 24 * 20.5);
    CHECK(std::abs(year.error_days.value()) <= 7);  // a cold spell can follow the day
  }
  CHECK(bloom.error_days.value() <= 1.5);
  REQUIRE(bloom.expected.has_value());
  CHECK(bloom.early <= bloom.expected);
  CHECK(bloom.expected <= bloom.late);
  // What really came: the same warmth in the spring of 2022.
  const auto rest =
      verdict_on(
          tree, {},
          winter_chill(at.record, stand_at(at.record, kNorth, 2021, date_of(2022, 2, 28)).value()))
          .leading()
          .verdict.met_on;
  REQUIRE(rest.has_value());
  double heat = 0.0;
  LocalHour hour = LocalHour::at(plus_days(*rest, 1), 0);
  for (; heat < kNeeded; hour = hour + 1)
    heat += linear_degree_hours(hours.at(hour)->mean).degree_hours();
  CHECK(hour.date() >= plus_days(*bloom.early, -7));
  CHECK(hour.date() <= plus_days(*bloom.late, 7));
}

TEST_CASE("own records without a known requirement count from midwinter, and say so") {
  const HourlySeries hours = years_of_weather(42, 2014, 8);
  Tree tree;
  tree.species = "apple";
  for (int year = 2015; year < 2021; ++year) saw(tree, "bud_swell", date_of(year, 3, 5));
  const BloomFinding swell = bloom_at(stand(hours, date_of(2022, 1, 20)), tree, {}, "bud_swell");
  CHECK(swell.method == BloomMethod::own_records);
  CHECK(swell.from_fixed_date);
  REQUIRE(swell.expected.has_value());
  CHECK(*swell.expected >= date_of(2022, 2, 15));
  CHECK(*swell.expected <= date_of(2022, 3, 25));
}

TEST_CASE("a species' degree days from elsewhere speak only where the chill is met, and are wide") {
  // Source: Ruml et al. 2021: European plum 462 to 548 degree days above 0 °C from 1 January to the
  // start of flowering.
  Tree tree = tree_needing(600);
  tree.species = "european_plum";
  const Stand at = stand(days_at({{61, 5.0}, {90, 10.0}}));  // from 1 January 10 degree days a day
  const BloomFinding bloom = bloom_at(at, tree, {});
  CHECK(bloom.method == BloomMethod::species_elsewhere);
  CHECK(bloom.expected == date_of(2025, 2, 20));  // 501: on the 51st day
  CHECK(bloom.early == date_of(2025, 2, 9));      // 462: the 47th day, 16 February, less a week
  CHECK(bloom.late == date_of(2025, 3, 3));       // 548: the 55th day, 24 February, and a week
  CHECK(bloom.place == "Belgrade, Serbia");
  tree.needs[ChillMeasure::chill_hours] = {9000, 9000};
  CHECK(bloom_at(at, tree, {}).why_none == NoBloomDate::chill_not_met);
  Tree apricot = tree_needing(600);
  apricot.species = "apricot";
  CHECK(bloom_at(at, apricot, {}).method == BloomMethod::species_elsewhere);
}

TEST_CASE("a southern spring is the northern one half a year later") {
  const Stand south = stand(days_at({{25, 5.0}, {60, 14.5}}, date_of(2024, 5, 1)), {},
                            default_winter_window(true), -38.0);
  const BloomFinding bloom = bloom_at(south, tree_needing(600), orchard_with_heat(2400, 2400));
  CHECK(bloom.rest_ended == date_of(2024, 5, 25));
  CHECK(bloom.expected == date_of(2024, 6, 4));
}

TEST_CASE("a tree still to meet its chill is dated through the winters that bring it") {
  const HourlySeries hours = years_of_weather(43, 2010, 12, 10.0);
  const Stand at = stand(hours, date_of(2021, 12, 28));
  const double so_far = at.chill.of(ChillMeasure::chill_hours).total().amount();
  const BloomFinding bloom =
      bloom_at(at, tree_needing(so_far + 150), orchard_with_heat(3000, 3400));
  CHECK(bloom.method == BloomMethod::own_figure);
  CHECK_FALSE(bloom.rest_ended.has_value());
  REQUIRE(bloom.expected.has_value());
  CHECK(*bloom.expected > date_of(2022, 1, 10));
  CHECK(bloom_at(at, tree_needing(so_far + 5000), orchard_with_heat(3000, 3400)).why_none ==
        NoBloomDate::chill_not_met);
}
