// What suits a place: only figures that may decide recommend or condemn, and never from a few
// winters.
#include "findings/site.h"

#include <algorithm>
#include <deque>
#include <set>

#include "findings/winters_test.h"
#include "orchard/cultivars.h"
#include "orchard/names.h"
#include "orchard/species.h"
#include "support/catch.h"
#include "support/files.h"
#include "support/trees.h"

using namespace winterfolio;
using namespace winterfolio::test;

namespace {

const WinterWindow kNorth = default_winter_window(false);

/// Several winters of weather, reckoned as the season report does.
struct Place {
  WeatherRecord record;
  Today today;
  WinterChill chill;
  SpringOutlook outlook;
  WinterNights nights;
  std::vector<YearsFinding> years;

  explicit Place(int winters, double mean = 12.0)
      : record(record_of(years_of_weather(7, 2024 - winters, winters + 1, mean))),
        today(stand_at(record, kNorth, 2024, date_of(2025, 2, 1)).value()),
        chill(winter_chill(record, today)),
        outlook(spring_outlook(record, chill)),
        nights(winter_nights(record, today)) {
    for (const ChillMeasure measure : kChillMeasures)
      years.push_back(years_of(measure, record, chill));
  }
  SiteWeather weather() const {
    SiteWeather found{{}, &outlook, &chill, &nights};
    for (const YearsFinding& one : years) found.years.push_back(&one);
    return found;
  }
  const YearsFinding& of(ChillMeasure measure) const {
    return years[static_cast<std::size_t>(measure)];
  }
  PartVerdict part(const Tree& tree, const Orchard& orchard) const {
    return verdict_on(tree, orchard, chill).parts.at(0);
  }
};

}  // namespace

TEST_CASE("the amount exceeded in nine winters of ten is that of the published series") {
  // Source: Yuba City chill hours by winter, UC Cooperative Extension (seen); type 7 gives 761.7 of
  // its 18 winters.
  YearsFinding years{.measure = ChillMeasure::chill_hours};
  for (const CsvRow row : published("yuba_city_winters.csv")) {
    const auto total = row.number("chill_hours_below_45F_nov1_to_mar1");
    if (!total) continue;
    PastWinterChill past;
    past.whole = *total;
    years.winters.push_back(past);
  }
  years.whole_winters = static_cast<int>(years.winters.size());
  REQUIRE(years.whole_winters == 18);
  const auto chill = site_chill(years, {});
  REQUIRE(chill.has_value());
  CHECK_THAT(chill->exceeded_in_nine_of_ten, WithinAbs(761.7, 1e-9));
  CHECK_FALSE(chill->few_winters);
}

TEST_CASE("under five winters nothing is said of a place, under ten a caution goes with it") {
  const Place four(4);
  const SiteFinding nothing = site_of({}, four.weather(), northern_orchard());
  CHECK(nothing.chill.empty());
  CHECK(nothing.suited.empty());
  const Place six(6);
  const SiteFinding few = site_of({}, six.weather(), northern_orchard());
  CHECK(few.few_winters);
  CHECK_FALSE(few.suited.empty());
  const Place twelve(12);
  CHECK_FALSE(site_of({}, twelve.weather(), northern_orchard()).few_winters);
}

TEST_CASE("a cultivar is named only by figures that may decide, in their own measure") {
  const Place place(12);
  const SiteFinding site = site_of({}, place.weather(), northern_orchard());
  REQUIRE_FALSE(site.suited.empty());
  for (const SuitedCultivar& cultivar : site.suited) {
    INFO(cultivar.species << ", " << cultivar.cultivar);
    CHECK(cultivar.need.kind == NeedKind::published);
    REQUIRE(cultivar.need.high.has_value());
    CHECK(cultivar.to_spare >= -1e-9);
    for (const std::string& source : cultivar.need.sources) CHECK(source != "memory");
    bool seen = false;
    for (const CultivarRow* row : find_cultivar(cultivar.species, cultivar.cultivar)) {
      seen = seen || (!row->from_memory && (row->mark == CultivarMark::seen ||
                                            row->mark == CultivarMark::constant_temperature));
    }
    CHECK(seen);
    // Independently: nine winters in ten brought more than its most.
    if (cultivar.need.measure == ChillMeasure::utah) continue;
    std::vector<double> totals;
    for (const PastWinterChill& past : place.of(cultivar.need.measure).winters)
      totals.push_back(past.whole.value());
    std::sort(totals.begin(), totals.end());
    const double h = 0.1 * static_cast<double>(totals.size() - 1);
    const auto i = static_cast<std::size_t>(h);
    const double tenth = totals[i] + (h - static_cast<double>(i)) * (totals[i + 1] - totals[i]);
    CHECK(*cultivar.need.high <= tenth + 1e-6);
  }
}

TEST_CASE("no cultivar known only from memory, a group or a cold room is ever named or condemned") {
  const Orchard orchard = northern_orchard();
  for (const double mean : {9.0, 12.0, 15.0, 18.0, 24.0}) {
    const Place place(12, mean);
    std::deque<Tree> trees;
    std::deque<PartVerdict> parts;
    std::vector<SiteTree> here;
    std::set<std::pair<std::string, std::string>> undecided;
    for (const std::string& species : species_ids()) {
      for (const std::string& name : cultivar_names(species)) {
        trees.push_back(tree_of(species));
        trees.back().cultivar = name;
        parts.push_back(place.part(trees.back(), orchard));
        const auto& need = parts.back().part.deciding;
        if (!need) undecided.emplace(species, name);
        here.push_back({&trees.back(), &parts.back(), nullptr,
                        need ? &place.of(need->measure) : nullptr, &place.outlook});
      }
    }
    const SiteFinding site = site_of(here, place.weather(), orchard);
    for (const SuitedCultivar& cultivar : site.suited)
      CHECK(undecided.count({cultivar.species, cultivar.cultivar}) == 0);
    for (const FailingTree& tree : site.failing) {
      CHECK(undecided.count({tree.tree->species, tree.cultivar}) == 0);
      CHECK(2 * tree.enough < tree.winters);
    }
    if (mean >= 24.0) CHECK_FALSE(site.failing.empty());
    if (mean <= 9.0) CHECK_FALSE(site.suited.empty());
  }
}

TEST_CASE("a tree goes on failing where more than half of the winters leave it short, by hand") {
  Place place(12);
  Orchard orchard = northern_orchard();
  Tree tree = tree_of("apple");
  std::vector<double> totals;
  for (const PastWinterChill& past : place.of(ChillMeasure::portions).winters)
    totals.push_back(past.whole.value());
  std::sort(totals.begin(), totals.end());
  REQUIRE(totals.size() == 12);
  const auto found = [&](double low) {
    tree.needs = {{ChillMeasure::portions, {low, low + 5.0}}};
    const PartVerdict part = place.part(tree, orchard);
    const SiteTree here{&tree, &part, nullptr, &place.of(ChillMeasure::portions), &place.outlook};
    return site_of({&here, 1}, place.weather(), orchard).failing;
  };
  CHECK(found(totals[6]).empty());  // six winters of twelve brought it
  const auto failing = found(totals[7]);
  REQUIRE(failing.size() == 1);
  CHECK(failing.front().winters == 12);
  CHECK(failing.front().enough == 5);
}

TEST_CASE("the winter after which a tree leafed badly is none that brought what it needs") {
  Place place(12);
  Orchard orchard = northern_orchard();
  Tree tree = tree_of("apple");
  std::vector<double> totals;
  for (const PastWinterChill& past : place.of(ChillMeasure::portions).winters)
    totals.push_back(past.whole.value());
  std::sort(totals.begin(), totals.end());
  REQUIRE(totals.size() == 12);
  // Six winters brought more than the sixth least; after that one the tree leafed badly.
  const auto found = [&](double too_little) {
    PartVerdict part = place.part(tree, orchard);
    part.part.deciding =
        DecidingNeed{ChillMeasure::portions, too_little, {}, NeedKind::own_years, false, {}};
    const SiteTree here{&tree, &part, nullptr, &place.of(ChillMeasure::portions), &place.outlook};
    return site_of({&here, 1}, place.weather(), orchard).failing;
  };
  CHECK(found(totals[5]).empty());
  const auto failing = found(totals[6]);
  REQUIRE(failing.size() == 1);
  CHECK(failing.front().enough == 5);
}

TEST_CASE("Utah units of a place are counted from the autumn minimum, as verdicts count them") {
  const Place place(12);
  const auto chill = site_chill(place.of(ChillMeasure::utah), place.outlook);
  REQUIRE(chill.has_value());
  std::vector<double> expected;
  for (const PastSpring& past : place.outlook.past) {
    const Today then{kNorth, past.winter, past.winter.to, past.winter.end()};
    const Date from = counted_from_in_verdict(ChillMeasure::utah, place.record.hours, false, then);
    expected.push_back(chill_curve(ChillMeasure::utah, place.record.hours, LocalHour::at(from, 0),
                                   past.winter.end())
                           .end_state()
                           .total);
  }
  REQUIRE(chill->totals.size() == expected.size());
  for (std::size_t i = 0; i < expected.size(); ++i)
    CHECK_THAT(chill->totals[i], WithinAbs(expected[i], 1e-6));
}

TEST_CASE("bloom escapes the frosts only where its date and enough springs are known") {
  const Place place(12);
  const SiteFinding site = site_of({}, place.weather(), northern_orchard());
  bool known = false;
  for (const SuitedCultivar& cultivar : site.suited) {
    INFO(cultivar.species << ", " << cultivar.cultivar);
    if (cultivar.frost == FrostEscape::not_known) continue;
    known = true;
    REQUIRE(cultivar.after_bloom.has_value());
    CHECK(cultivar.bloom_by != BloomMethod::none);
    CHECK(cultivar.after_bloom->springs >= kLeastWintersOfSite);
    const double share =
        static_cast<double>(cultivar.after_bloom->with_damage) / cultivar.after_bloom->springs;
    CHECK((cultivar.frost == FrostEscape::escapes) == (share <= 0.1));
  }
  static_cast<void>(known);
  // Almonds have no published pair of figures: their bloom is never called clear of frost.
  for (const SuitedCultivar& cultivar : site.suited) {
    if (cultivar.species == "almond") CHECK(cultivar.frost == FrostEscape::not_known);
  }
}
