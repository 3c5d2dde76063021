// Minutes of cutting: the row that fits a tree, and nothing past the limits of volunteer work.
#include "pruning/labour.h"

#include <algorithm>
#include <stdexcept>

#include "orchard/species.h"
#include "support/catch.h"
#include "support/trees.h"

using namespace winterfolio;
using namespace winterfolio::test;

namespace {

LabourEstimate minutes(const std::string& species, TreeState state, std::optional<double> height,
                       const std::string& form = "") {
  Tree tree = tree_of(species, state);
  tree.form = form;
  if (height) tree.height = Metres(*height);
  return labour_for(tree, state).value();
}

std::string rule(const LabourEstimate& estimate) { return estimate.because.at(0).rule; }

}  // namespace

TEST_CASE("the published minutes of a mature apple stand in the table") {
  // Woodworth & Potter 1931, NH Bulletin 257: 567 man-hours per 1,000 mature trees [S56], seen.
  const auto rules = labour_rules();
  const auto published = std::find_if(rules.begin(), rules.end(),
                                      [](const LabourRule& r) { return r.id == "nh-standard"; });
  REQUIRE(published != rules.end());
  CHECK_THAT(published->minutes.low, WithinAbs(567.0 * 60.0 / 1000.0, 0.5));
  CHECK_FALSE(published->plan_with);
  // The range we plan a standard apple with holds it.
  const LabourEstimate standard = minutes("apple", TreeState::bearing, 4.2);
  CHECK(standard.minutes.low <= published->minutes.low);
  CHECK(standard.minutes.high >= published->minutes.high);
}

TEST_CASE("a height finds its row, both sides of each bound") {
  CHECK(rule(minutes("apple", TreeState::bearing, 2.5)) == "apple-dwarf");
  CHECK(rule(minutes("apple", TreeState::bearing, 2.6)) == "apple-semi-dwarf");
  CHECK(rule(minutes("apple", TreeState::bearing, 4.0)) == "apple-semi-dwarf");
  CHECK(rule(minutes("apple", TreeState::bearing, 4.1)) == "apple-standard");
  CHECK(rule(minutes("apple", TreeState::bearing, 4.5)) == "apple-standard");
  CHECK(minutes("apple", TreeState::bearing, 4.5).for_volunteers());
  CHECK_FALSE(minutes("apple", TreeState::bearing, 4.6).for_volunteers());
}

TEST_CASE("a height in no row takes the nearest of its state, then the rows for any kind") {
  CHECK(rule(minutes("quince", TreeState::bearing, 1.5)) == "quince-mature");
  CHECK(rule(minutes("peach", TreeState::formative, 3.2)) == "peach-young");
  CHECK(rule(minutes("quince", TreeState::neglected, 3.0)) == "any-neglected-low");
  CHECK(rule(minutes("walnut", TreeState::bearing, 4.0)) == "any-mature");
  CHECK(rule(minutes("walnut", TreeState::bearing, 9.0)) == "walnut-arborist");
  CHECK(rule(minutes("fig", TreeState::planted, 1.0)) == "any-young");
  CHECK(rule(minutes("apple", TreeState::bearing, 2.0, "espalier")) == "any-espalier");
}

TEST_CASE("an unknown height gives the range over the volunteer rows") {
  const LabourEstimate apple = minutes("apple", TreeState::bearing, std::nullopt);
  CHECK(apple.minutes == Range{5, 60});
  CHECK(apple.way == LabourWay::ladder);
  CHECK(apple.because.size() == 3);
}

TEST_CASE("every kind, state and height has minutes, and no volunteer row reaches past the limit") {
  for (const std::string& kind : species_ids()) {
    for (TreeState state : tree_states()) {
      for (double height = 0.5; height < 12.0; height += 0.25) {
        const LabourEstimate estimate = minutes(kind, state, height);
        CHECK(estimate.minutes.low > 0.0);
        CHECK(estimate.minutes.low <= estimate.minutes.high);
        CHECK(estimate.because.size() == 1);
        CHECK(estimate.for_volunteers() == (height <= 4.5));
      }
    }
  }
  CHECK_FALSE(labour_for(tree_of("other"), TreeState::bearing));
}

TEST_CASE("overheads of a workday keep their ranges and their defaults within them") {
  for (const Overhead& overhead : workday_overheads()) {
    INFO(overhead.id);
    CHECK(overhead.low <= overhead.planned);
    CHECK(overhead.planned <= overhead.high);
  }
  // The orchard file's own default for people who do not come.
  CHECK(workday_overhead("no_show_share").planned == Workday{}.no_show);
  // Platforms took 37 to 47 % less time than ladders: SARE ONE12-165 [S59], seen; the factor
  // follows.
  CHECK_THAT(workday_overhead("ladder_factor").low, WithinAbs(1.0 / (1.0 - 0.37), 0.05));
  CHECK_THAT(workday_overhead("ladder_factor").high, WithinAbs(1.0 / (1.0 - 0.47), 0.05));
  CHECK_THROWS_AS(workday_overhead("tea"), std::logic_error);
}
