// The keeper's notes as dates: which winter they belong to, and what a later stage proves of an
// earlier one.
#include "pruning/event_dates.h"

#include "support/catch.h"
#include "support/trees.h"

using namespace winterfolio;
using namespace winterfolio::test;

namespace {

Date d(int year, unsigned month, unsigned day) { return date_of(year, month, day); }

TreeDates dates_of(std::vector<Observation> notes, const Orchard& orchard, int winter,
                   Date as_of = date_of(2099, 1, 1)) {
  Tree tree = tree_of("apple");
  tree.observed = std::move(notes);
  return observed_dates(tree, orchard, winter, as_of);
}

}  // namespace

TEST_CASE("every event has one name") {
  for (int i = 0; i <= static_cast<int>(PlantEvent::leaves_held); ++i) {
    const auto event = static_cast<PlantEvent>(i);
    CHECK(plant_event_named(id_of(event)) == event);
  }
  CHECK_FALSE(plant_event_named("full_moon"));
}

TEST_CASE("notes belong to the winter whose year holds them") {
  const Orchard north = northern_orchard();
  const auto fallen = [&](Date on, int winter) {
    return dates_of({seen_on(on, "leaves_fallen")}, north, winter).leaf_fall.has_value();
  };
  CHECK_FALSE(fallen(d(2026, 8, 31), 2026));
  CHECK(fallen(d(2026, 9, 1), 2026));
  CHECK(fallen(d(2027, 8, 31), 2026));
  CHECK_FALSE(fallen(d(2027, 9, 1), 2026));
  const Orchard south = southern_orchard();
  CHECK(dates_of({seen_on(d(2026, 5, 20), "leaves_fallen")}, south, 2026).leaf_fall.has_value());
  CHECK_FALSE(dates_of({seen_on(d(2026, 2, 28), "leaves_fallen")}, south, 2026).leaf_fall);
  CHECK(dates_of({seen_on(d(2027, 1, 10), "harvest")}, south, 2026).harvest.has_value());
}

TEST_CASE("what is noted after the report's day is not known on it") {
  const std::vector<Observation> notes = {seen_on(d(2027, 2, 10), "bud_swell")};
  CHECK_FALSE(dates_of(notes, northern_orchard(), 2026, d(2027, 2, 9)).bud_swell);
  CHECK(dates_of(notes, northern_orchard(), 2026, d(2027, 2, 10)).bud_swell);
}

TEST_CASE("a later stage proves the earlier ones") {
  const auto dates = dates_of({seen_on(d(2027, 3, 5), "full_bloom")}, northern_orchard(), 2026);
  REQUIRE(dates.bud_swell);
  CHECK(dates.bud_swell->on == d(2027, 3, 5));
  CHECK(dates.bud_swell->kind == DateKind::by_then);
  REQUIRE(dates.first_bloom);
  CHECK(dates.first_bloom->kind == DateKind::by_then);
  CHECK_FALSE(dates.petal_fall);
  const auto both =
      dates_of({seen_on(d(2027, 2, 20), "bud_swell"), seen_on(d(2027, 3, 5), "first_bloom")},
               northern_orchard(), 2026);
  CHECK(both.bud_swell == EventDate{d(2027, 2, 20), DateKind::seen});
  CHECK(both.first_bloom == EventDate{d(2027, 3, 5), DateKind::seen});
  const auto tip = dates_of({seen_on(d(2027, 2, 25), "green_tip")}, northern_orchard(), 2026);
  CHECK(tip.bud_swell == EventDate{d(2027, 2, 25), DateKind::by_then});
  CHECK_FALSE(tip.first_bloom);
  const auto set = dates_of({seen_on(d(2027, 4, 25), "fruit_set")}, northern_orchard(), 2026);
  CHECK(set.petal_fall == EventDate{d(2027, 4, 25), DateKind::by_then});
}

TEST_CASE("flowers in autumn are out of season, and last summer's harvest is not this one's") {
  const Orchard north = northern_orchard();
  CHECK_FALSE(dates_of({seen_on(d(2026, 11, 30), "first_bloom")}, north, 2026).first_bloom);
  CHECK(dates_of({seen_on(d(2026, 12, 1), "first_bloom")}, north, 2026).first_bloom);
  CHECK_FALSE(dates_of({seen_on(d(2026, 10, 2), "harvest")}, north, 2026).harvest);
  CHECK_FALSE(
      dates_of({seen_on(d(2026, 5, 31), "first_bloom")}, southern_orchard(), 2026).first_bloom);
  CHECK(dates_of({seen_on(d(2026, 6, 1), "first_bloom")}, southern_orchard(), 2026).first_bloom);
}

TEST_CASE("leaves count as held from December until they are seen to fall") {
  const Orchard north = northern_orchard();
  CHECK_FALSE(dates_of({seen_on(d(2026, 11, 30), "leaves_held")}, north, 2026).leaves_held);
  CHECK(dates_of({seen_on(d(2026, 12, 20), "leaves_held")}, north, 2026).leaves_held ==
        d(2026, 12, 20));
  CHECK_FALSE(
      dates_of({seen_on(d(2026, 12, 20), "leaves_held"), seen_on(d(2027, 1, 9), "leaves_fallen")},
               north, 2026)
          .leaves_held);
}

TEST_CASE("notes without a day date nothing") {
  Observation vague = seen_on(d(2027, 2, 1), "bud_swell");
  vague.on.day.reset();
  CHECK_FALSE(dates_of({vague}, northern_orchard(), 2026).bud_swell);
}

TEST_CASE("what is worked out fills what was not seen, and never contradicts it") {
  TreeDates seen;
  seen.bud_swell = EventDate{d(2027, 3, 1), DateKind::seen};
  seen.petal_fall = EventDate{d(2027, 4, 20), DateKind::by_then};
  TreeDates worked_out;
  worked_out.leaf_fall = EventDate{d(2026, 11, 12), DateKind::seen};
  worked_out.bud_swell = EventDate{d(2027, 2, 10), DateKind::estimated};
  worked_out.first_bloom = EventDate{d(2027, 2, 25), DateKind::estimated};
  worked_out.petal_fall = EventDate{d(2027, 4, 5), DateKind::estimated};
  const TreeDates both = with_estimates(seen, worked_out);
  CHECK(both.leaf_fall == EventDate{d(2026, 11, 12), DateKind::estimated});
  CHECK(both.bud_swell == seen.bud_swell);
  CHECK(both.first_bloom == EventDate{d(2027, 3, 1), DateKind::estimated});
  CHECK(both.petal_fall == EventDate{d(2027, 4, 5), DateKind::estimated});
  CHECK_FALSE(both.harvest);
}
