// A tree's own years: the bracket, its conflicts, and the verdict that follows.
#include "findings/own_evidence.h"

#include "findings/winters_test.h"
#include "support/catch.h"

using namespace winterfolio;
using namespace winterfolio::test;

namespace {

/// Past winters of 100, 200, ... chill hours from 2015 on.
SpringOutlook outlook_of(int winters) {
  SpringOutlook outlook{.today = {}, .past = {}, .to_come = {}, .chill_to_come = {}};
  outlook.today.as_of = date_of(2030, 1, 1);
  for (int i = 0; i < winters; ++i) {
    PastSpring past{winter_of(default_winter_window(false), 2015 + i), {}, {}};
    past.chill.push_back({ChillMeasure::chill_hours, past.winter.from, {100.0 * (i + 1)}});
    outlook.past.push_back(past);
  }
  return outlook;
}

Tree tree_that(const std::vector<std::pair<int, std::string>>& notes) {
  Tree tree;
  tree.species = "apple";
  for (const auto& [year, what] : notes) {
    Observation seen;
    seen.what = what;
    seen.on = {year + 1, 4U, 10U};
    if (what == "harvest") seen.amount = "25 lb";
    tree.observed.push_back(seen);
  }
  return tree;
}

DecidingNeed table_need(double low, double high) {
  return {ChillMeasure::chill_hours, low, high, NeedKind::published, false, {"some bulletin"}};
}

}  // namespace

TEST_CASE("winters that were enough and winters that were not bracket the need") {
  const Tree tree = tree_that({{2015, "leafed_unevenly"},
                               {2017, "leafed_unevenly"},
                               {2018, "leafed_out"},
                               {2020, "leafed_out"},
                               {2019, "harvest"}});
  const OwnEvidence evidence = own_evidence(tree, ChillMeasure::chill_hours, outlook_of(8));
  CHECK(evidence.years.size() == 5);
  CHECK(evidence.too_little == 300.0);
  CHECK(evidence.enough == 400.0);
  CHECK_FALSE(evidence.contradicts_itself);
  CHECK(evidence.years[3].harvest == "25 lb");
  const BracketedNeed alone = with_own_evidence(std::nullopt, evidence);
  CHECK(alone.use == BracketUse::alone);
  CHECK(alone.need->low == 300.0);
  CHECK(alone.need->high == 400.0);
}

TEST_CASE("a bracket narrows a table's range, or overrules it") {
  const OwnEvidence evidence =
      own_evidence(tree_that({{2017, "leafed_unevenly"}, {2019, "leafed_out"}}),
                   ChillMeasure::chill_hours, outlook_of(8));
  const BracketedNeed narrowed = with_own_evidence(table_need(250, 450), evidence);
  CHECK(narrowed.use == BracketUse::narrows);
  CHECK(narrowed.need->low == 300.0);
  CHECK(narrowed.need->high == 450.0);
  CHECK(narrowed.need->kind == NeedKind::own_years);
  const BracketedNeed above =
      with_own_evidence(table_need(150, 250), evidence);  // it leafed badly after 300
  CHECK(above.use == BracketUse::overrules);
  CHECK(above.need->low == 300.0);
  const BracketedNeed below =
      with_own_evidence(table_need(700, 800), evidence);  // it leafed well after 500
  CHECK(below.use == BracketUse::overrules);
  CHECK(below.need->high == 500.0);
}

TEST_CASE("the keeper's figure for the tree stands, and other measures are not touched") {
  const OwnEvidence evidence =
      own_evidence(tree_that({{2019, "leafed_out"}}), ChillMeasure::chill_hours, outlook_of(8));
  DecidingNeed own = table_need(700, 800);
  own.kind = NeedKind::tree;
  CHECK(with_own_evidence(own, evidence).use == BracketUse::none);
  DecidingNeed portions = table_need(40, 50);
  portions.measure = ChillMeasure::portions;
  CHECK(with_own_evidence(portions, evidence).use == BracketUse::none);
}

TEST_CASE("what was noted after the day spoken from is not known yet") {
  SpringOutlook outlook = outlook_of(8);
  outlook.today.as_of = date_of(2020, 4, 9);
  const Tree tree = tree_that({{2017, "leafed_unevenly"}, {2019, "leafed_out"}});
  const OwnEvidence evidence = own_evidence(tree, ChillMeasure::chill_hours, outlook);
  CHECK(evidence.too_little == 300.0);
  CHECK_FALSE(evidence.enough);
}

TEST_CASE("years that contradict each other give no bracket") {
  const OwnEvidence evidence =
      own_evidence(tree_that({{2016, "leafed_out"}, {2019, "leafed_unevenly"}}),
                   ChillMeasure::chill_hours, outlook_of(8));
  CHECK(evidence.contradicts_itself);
  CHECK(with_own_evidence(table_need(250, 450), evidence).use == BracketUse::none);
}

TEST_CASE("a spring in which leafing out and unevenness were both noted was a bad one") {
  const OwnEvidence evidence =
      own_evidence(tree_that({{2016, "leafed_out"}, {2016, "leafed_unevenly"}}),
                   ChillMeasure::chill_hours, outlook_of(8));
  REQUIRE(evidence.years.size() == 1);
  CHECK(evidence.years.front().leafing == Leafing::badly);
  CHECK_FALSE(evidence.enough.has_value());
}

TEST_CASE("a bracket decides a verdict like any figure") {
  const WeatherRecord record =
      record_of(series_of(LocalHour::at(date_of(2024, 11, 1), 0), std::vector<double>(480, 5.0)));
  const WinterChill chill =
      winter_chill(record, stand_at(record, default_winter_window(false)).value());
  PartNeeds part;
  part.deciding =
      DecidingNeed{ChillMeasure::chill_hours, {}, 400.0, NeedKind::own_years, false, {}};
  CHECK(verdict_on(part, chill).state == VerdictState::met);
  part.deciding =
      DecidingNeed{ChillMeasure::chill_hours, 600.0, {}, NeedKind::own_years, false, {}};
  CHECK(verdict_on(part, chill).state == VerdictState::short_of);
  part.deciding =
      DecidingNeed{ChillMeasure::chill_hours, 400.0, 600.0, NeedKind::own_years, false, {}};
  CHECK(verdict_on(part, chill).state == VerdictState::undecided);
}
