// What there is to do: a frost that is forecast leads, and a winter long over asks for nothing.
#include "report/tasks.h"

#include "report/reckoning.h"
#include "report/sections.h"
#include "support/blocks.h"
#include "support/catch.h"
#include "support/report_orchard.h"

using namespace winterfolio;
using namespace winterfolio::test;

TEST_CASE("a forecast frost on open blossom comes before all other work") {
  // Apple in first bloom: 28 °F kills one in ten, 25 °F (-3.9 °C) nine in ten, Washington State
  // University EB0913, seen.
  Tree apple = report_orchard_parts::tree_needing("A1", "apple", Range{1000, 1000}, 1, 1);
  Observation bloom;
  bloom.on = PartialDate{2027, 1, 20};
  bloom.what = "first_bloom";
  apple.observed.push_back(bloom);
  const auto orchard = report_orchard({.trees = {apple}});
  CHECK_FALSE(coldest_coming(orchard->facts()));
  HourlySeries& forecast = orchard->record.forecast;
  forecast = HourlySeries(orchard->today.now);
  for (int hour = 0; hour < 48; ++hour) {
    const Celsius t(hour == 29 ? -4.0 : 6.0);
    forecast.set(orchard->today.now + hour, {t, t, HourOrigin::forecast});
  }
  const SeasonFacts facts = orchard->facts();
  REQUIRE(coldest_coming(facts));
  CHECK(coldest_coming(facts)->level == FrostLevel::ninety_percent);
  const std::vector<PlannedTask> tasks = planned_tasks(facts);
  REQUIRE_FALSE(tasks.empty());
  CHECK(tasks.front().kind == TaskKind::frost);
  CHECK(tasks.front().trees.size() == 1);
}

TEST_CASE("a report on a winter long over asks for no work") {
  const auto orchard = report_orchard();
  CHECK_FALSE(orchard->facts().looking_back());
  CHECK_FALSE(planned_tasks(orchard->facts()).empty());
  orchard->today =
      stand_at(orchard->record, default_winter_window(false), 2026, date_of(2027, 10, 31)).value();
  const SeasonFacts facts = orchard->facts();
  CHECK(facts.looking_back());
  CHECK(planned_tasks(facts).empty());
  const Blocks cards = trees_section(facts);
  CHECK(blocks_of<List>(cards).empty());  // no cuts to tick
}
