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
  // Buds that only swell when all of that span has passed say that it does not hold here.
  Tree late = tree_needing(600);
  late.species = "european_plum";
  Observation swell;
  swell.what = "bud_swell";
  swell.on = PartialDate{2025, 3, 10};
  late.observed.push_back(swell);
  CHECK(bloom_at(at, late, {}).method == BloomMethod::none);
  CHECK_FALSE(bloom_at(at, late, {}).expected);
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

TEST_CASE("a published figure dates the cultivar it was found for, and no other") {
  // Source: Acta Hort. 315:18 (as the cultivar table cites it): peach 'Springcrest' about 3670
  // degree hours to full bloom. 14.5 °C gives 240 a day: on the 16th day after rest.
  Tree tree = tree_needing(600);
  tree.species = "peach";
  tree.cultivar = "Springcrest";
  const Stand at = stand(days_at({{25, 5.0}, {60, 14.5}}));
  const BloomFinding bloom = bloom_at(at, tree, {}, "full_bloom");
  CHECK(bloom.method == BloomMethod::published_figure);
  CHECK(bloom.heat_needed == Range{3670, 3670});
  CHECK(bloom.expected == date_of(2024, 12, 11));
  CHECK(bloom.stage_there == "full bloom");
  CHECK_FALSE(bloom.source.empty());
  tree.cultivar = "Hollow Peach";
  CHECK(bloom_at(at, tree, {}, "full_bloom").why_none == NoBloomDate::no_figure);
}

TEST_CASE("spans over a group and figures from memory date no bloom") {
  const Stand at = stand(days_at({{25, 5.0}, {90, 14.5}}));
  for (const auto& [species, cultivar] : std::vector<std::pair<std::string, std::string>>{
           {"pear", "Sebri"}, {"sweet_cherry", "Brooks"}, {"tart_cherry", "Montmorency"}}) {
    Tree tree = tree_needing(600);
    tree.species = species;
    tree.cultivar = cultivar;
    INFO(species << " " << cultivar);
    CHECK(bloom_at(at, tree, {}).why_none == NoBloomDate::no_figure);
  }
}

TEST_CASE("one own year is no record; two are, and outrank a figure") {
  const HourlySeries hours = years_of_weather(44, 2016, 6);
  Tree tree = tree_needing(500);
  saw(tree, "first_bloom", date_of(2019, 4, 2));
  const Stand at = stand(hours, date_of(2022, 2, 5));
  CHECK(bloom_at(at, tree, orchard_with_heat(3000, 3400)).method == BloomMethod::own_figure);
  CHECK(bloom_at(at, tree, {}).why_none == NoBloomDate::no_figure);
  saw(tree, "first_bloom", date_of(2020, 4, 6));
  const BloomFinding bloom = bloom_at(at, tree, orchard_with_heat(3000, 3400));
  CHECK(bloom.method == BloomMethod::own_records);
  REQUIRE(bloom.own_years.size() == 2);
  // Each year is foretold by the other alone.
  CHECK(bloom.own_years[0].error_days.has_value());
  CHECK(bloom.own_years[1].error_days.has_value());
  CHECK(bloom.error_days ==
        (std::abs(*bloom.own_years[0].error_days) + std::abs(*bloom.own_years[1].error_days)) /
            2.0);
}

TEST_CASE("a stage that was seen stands above the reckoning from its day on, and its age is told") {
  // Reckoned for 5 December, as above; winter's buds count from 1 December.
  Tree tree = tree_needing(600);
  saw(tree, "green_tip", date_of(2024, 12, 9));
  const Stand at = stand(days_at({{25, 5.0}, {60, 14.5}}), date_of(2024, 12, 20));
  const BloomFinding later = bloom_at(at, tree, orchard_with_heat(2400, 2400));
  REQUIRE(later.last_seen.has_value());
  CHECK(later.last_seen->what == "green_tip");
  CHECK(later.last_seen->age_days == 11);
  CHECK(later.moved_by_seen);
  CHECK(later.expected == date_of(2024, 12, 10));
  // A later stage than the one asked for: it has come by then.
  Tree over = tree_needing(600);
  saw(over, "petal_fall", date_of(2024, 12, 4));
  const BloomFinding come = bloom_at(at, over, orchard_with_heat(2400, 2400));
  CHECK(come.passed);
  CHECK(come.expected == date_of(2024, 12, 4));
  CHECK(come.moved_by_seen);
  // What agrees is left alone; what lies after the day spoken from is not known yet.
  Tree agrees = tree_needing(600);
  saw(agrees, "bud_swell", date_of(2024, 12, 2));
  saw(agrees, "petal_fall", date_of(2024, 12, 21));
  const BloomFinding left = bloom_at(at, agrees, orchard_with_heat(2400, 2400));
  CHECK(left.last_seen->what == "bud_swell");
  CHECK_FALSE(left.moved_by_seen);
  CHECK(left.expected == date_of(2024, 12, 5));
  // A bud seen in November is last year's business.
  Tree early = tree_needing(600);
  saw(early, "green_tip", date_of(2024, 11, 28));
  CHECK_FALSE(bloom_at(at, early, orchard_with_heat(2400, 2400)).last_seen.has_value());
}

TEST_CASE("stages on the way are told where they were seen or the tree's own years date them") {
  const HourlySeries hours = years_of_weather(45, 2014, 8);
  Tree tree = tree_needing(500);
  for (int year = 2016; year < 2021; ++year) {
    saw(tree, "bud_swell", date_of(year, 3, 5));
    saw(tree, "first_bloom", date_of(year, 4, 5));
    saw(tree, "full_bloom", date_of(year, 4, 12));
  }
  saw(tree, "green_tip", date_of(2019, 3, 14));  // once only
  const Stand at = stand(hours, date_of(2022, 3, 8));
  saw(tree, "bud_swell", date_of(2022, 3, 1));
  const auto stages = other_stages(tree, {}, verdict_on(tree, {}, at.chill).leading(), at.outlook);
  REQUIRE(stages.size() == 2);
  CHECK(stages[0].stage == "bud_swell");
  CHECK(stages[0].method == BloomMethod::seen);
  CHECK(stages[0].expected == date_of(2022, 3, 1));
  CHECK(stages[1].stage == "full_bloom");
  CHECK(stages[1].method == BloomMethod::own_records);
  CHECK(stages[1].own_years.size() == 5);
  CHECK(stages[1].last_seen->what == "bud_swell");
  CHECK(stages[1].last_seen->age_days == 7);
}

TEST_CASE("a winter that begins after New Year still has its December and midwinter behind it") {
  const WinterWindow window{{1, 10}, {3, 10}};
  Tree tree;
  tree.species = "apple";
  tree.cultivar = "Old Gate";
  saw(tree, "bud_swell", date_of(2025, 2, 20));
  const Stand at = stand(days_at({{90, 5.0}}, date_of(2025, 1, 1)), {}, window);
  CHECK(bloom_at(at, tree, {}, "bud_swell").method == BloomMethod::seen);
}

TEST_CASE("rest that ends before the winter's first day lets warmth count from that day") {
  // Utah units from their minimum, the evening of 9 September: 600 after 25 cold days, in October.
  // From 1 November on 14.5 °C: 240 degree hours a day.
  Tree tree = tree_needing(0);
  tree.needs = {{ChillMeasure::utah, {600, 600}}};
  const auto autumn = [](int year) {
    HourlySeries hours = days_at({{9, 20.0}, {52, 5.0}, {90, 14.5}}, date_of(year, 9, 1));
    return hours;
  };
  HourlySeries hours = autumn(2022);
  for (const int year : {2023, 2024}) {
    const HourlySeries more = autumn(year);
    for (LocalHour hour = more.first(); hour < more.end(); hour = hour + 1)
      hours.set(hour, *more.at(hour));
  }
  const Stand at = stand(hours, date_of(2024, 11, 20));
  const BloomFinding by_figure = bloom_at(at, tree, orchard_with_heat(2400, 2400));
  REQUIRE(by_figure.rest_ended.has_value());
  CHECK(*by_figure.rest_ended < at.outlook.today.winter.from);
  CHECK(by_figure.expected == date_of(2024, 11, 10));
  CHECK_THAT(by_figure.heat_so_far.value(), WithinAbs(20 * 240.0, 1e-6));
  saw(tree, "first_bloom", date_of(2022, 12, 20));  // 50 days of warmth
  saw(tree, "first_bloom", date_of(2023, 12, 20));
  const BloomFinding by_years = bloom_at(at, tree, {});
  REQUIRE(by_years.method == BloomMethod::own_records);
  CHECK_THAT(by_years.heat_needed.value().low, WithinAbs(50 * 240.0, 1e-6));
  CHECK_THAT(by_years.heat_needed.value().high, WithinAbs(50 * 240.0, 1e-6));
}
