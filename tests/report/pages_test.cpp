// The pages after the front: where the trees stand, the cold by the hour, the season, the cautions,
// the readings and the method, of an orchard reckoned by hand (tests/support/report_orchard.h).
#include <set>

#include "pruning/cautions.h"
#include "report/reckoning.h"
#include "report/sections.h"
#include "support/blocks.h"
#include "support/catch.h"
#include "support/report_orchard.h"

using namespace winterfolio;
using namespace winterfolio::test;

namespace {

using Ids = std::vector<std::string>;

const OrchardMap::Tree* on_map(const OrchardMap& map, std::string_view id) {
  for (const auto& tree : map.trees) {
    if (tree.id == id) return &tree;
  }
  return nullptr;
}

const SeasonCalendar::Row* row_of(const SeasonCalendar& calendar, std::string_view id) {
  for (const auto& group : calendar.groups) {
    for (const auto& row : group.rows) {
      if (row.id == id) return &row;
    }
  }
  return nullptr;
}

bool has_phase(const SeasonCalendar::Row& row, BudPhase phase) {
  return std::any_of(row.buds.begin(), row.buds.end(),
                     [&](const PhaseSpan& span) { return span.phase == phase; });
}

}  // namespace

// ---- guide

TEST_CASE("the map shows every tree with its state, other kinds without one, lost trees as lost") {
  const auto orchard = report_orchard();
  const Blocks guide = guide_section(orchard->facts());
  const auto* map = chart_in<OrchardMap>(guide);
  REQUIRE(map);
  CHECK(map->trees.size() == 12);
  const std::pair<const char*, MarkState> states[] = {{"A1", MarkState::met},
                                                      {"A2", MarkState::nearly},
                                                      {"A3", MarkState::short_so_far},
                                                      {"A4", MarkState::not_known},
                                                      {"B1", MarkState::not_known}};
  for (const auto& [id, state] : states) {
    INFO(id);
    REQUIRE(on_map(*map, id));
    CHECK(on_map(*map, id)->state == state);
    CHECK_FALSE(on_map(*map, id)->lost);
  }
  REQUIRE(on_map(*map, "B2"));
  CHECK_FALSE(on_map(*map, "B2")->state);
  REQUIRE(on_map(*map, "C3"));
  CHECK(on_map(*map, "C3")->lost);
  CHECK_FALSE(on_map(*map, "C3")->state);
}

TEST_CASE("an orchard without places has no map, and its guide still leads to the sections") {
  ReportWish wish;
  wish.trees = report_orchard_parts::trees();
  for (Tree& tree : wish.trees) tree.row_place.reset();
  const auto orchard = report_orchard(wish);
  const Blocks guide = guide_section(orchard->facts());
  CHECK_FALSE(chart_in<OrchardMap>(guide));
  CHECK(blocks_of<Contents>(guide).size() == 1);
}

TEST_CASE("what the front has no room for stands on the next page, none of it twice") {
  const auto orchard = report_orchard();
  const SeasonFacts facts = orchard->facts();
  const Blocks front = front_section(facts), guide = guide_section(facts);
  for (const char* id : {"task.closing", "task.workday-light", "task.watch", "task.lead-first",
                         "task.arborist", "task.summer"}) {
    INFO(id);
    CHECK(times_said(front, id) + times_said(guide, id) == 1);
  }
}

// ---- hours

TEST_CASE("the raster holds every hour from the winter's first noon, missing ones empty") {
  ReportWish wish;
  wish.gap = true;
  const auto orchard = report_orchard(wish);
  const Blocks hours = hours_section(orchard->facts());
  const auto* raster = chart_in<HourRaster>(hours);
  REQUIRE(raster);
  CHECK(raster->days.from == date_of(2026, 11, 1));
  CHECK(raster->days.to == date_of(2027, 1, 31));
  const LocalHour noon = LocalHour::at(date_of(2026, 11, 1), 12);
  const auto at = [&](LocalHour hour) {
    return raster->hours.at(static_cast<std::size_t>(hour - noon));
  };
  REQUIRE(at(noon));
  CHECK(at(noon)->degrees() == 5.0);
  CHECK(at(noon + 7)->degrees() == 20.0);  // 19:00: the 18 cold hours are over
  CHECK(at(LocalHour::at(date_of(2027, 1, 10), 5))->degrees() == -3.0);
  CHECK_FALSE(at(LocalHour::at(date_of(2027, 1, 5), 0)));
  CHECK_FALSE(at(LocalHour::at(date_of(2027, 1, 7), 23)));
  CHECK(at(LocalHour::at(date_of(2027, 1, 8), 0)));
  std::set<double> edges;
  for (const auto& edge : raster->edges) edges.insert(edge.at.degrees());
  CHECK(edges.count(0.0) == 1);
  CHECK(edges.count(Celsius::from_fahrenheit(45).degrees()) == 1);
  CHECK(edges.count(Celsius::from_fahrenheit(60).degrees()) == 1);
}

TEST_CASE("every day has its range, and frost nights and warm days are counted") {
  const auto orchard = report_orchard();
  const Blocks hours = hours_section(orchard->facts());
  const auto* range = chart_in<DailyRange>(hours);
  REQUIRE(range);
  REQUIRE(range->values.size() == 92);
  CHECK(range->values[0].low.degrees() == 5.0);
  CHECK(range->values[0].high.degrees() == 20.0);
  CHECK(range->values[70].date == date_of(2027, 1, 10));
  CHECK(range->values[70].low.degrees() == -3.0);
  const Message* title = message_in(figure_with<DailyRange>(hours)->title, "hours.range-title");
  CHECK(count_of(title, "frosts") == 1);
  CHECK(count_of(title, "warm") == 92);
}

TEST_CASE("a week's gain is seven days of cold hours, beside the median of past winters") {
  const auto orchard = report_orchard();
  const Blocks hours = hours_section(orchard->facts());
  const auto* weeks = chart_in<WeeklyGain>(hours);
  REQUIRE(weeks);
  REQUIRE(weeks->weeks.size() == 13);  // 92 days
  for (const auto& week : weeks->weeks) {
    CHECK(week.gain.low == Approx(7 * 18));
    REQUIRE(week.median);
    CHECK(*week.median == Approx(7 * 14));  // between 12 and 16 a day
  }
}

TEST_CASE("the hours say how many are missing and from when to when") {
  ReportWish wish;
  wish.gap = true;
  const auto orchard = report_orchard(wish);
  const Blocks hours = hours_section(orchard->facts());
  const Message* gap = message_in(hours, "readings.one-gap");
  CHECK(count_of(gap, "missing") == 72);
  CHECK(count_of(gap, "hours") == 2208);
  const auto* from = value_of<HourOfDay>(gap, "from");
  REQUIRE(from);
  CHECK(from->hour == LocalHour::at(date_of(2027, 1, 5), 0));
  const auto whole = report_orchard();
  CHECK(says(hours_section(whole->facts()), "readings.none-missing"));
}

// ---- calendar

TEST_CASE("the calendar has a row for every standing tree, and the lost one none") {
  const auto orchard = report_orchard();
  const Blocks blocks = calendar_section(orchard->facts());
  const auto* calendar = chart_in<SeasonCalendar>(blocks);
  REQUIRE(calendar);
  std::size_t rows = 0;
  for (const auto& group : calendar->groups) rows += group.rows.size();
  CHECK(rows == 11);
  CHECK_FALSE(row_of(*calendar, "C3"));
}

TEST_CASE("a row's time to prune is the rule's, its work what was done or is planned") {
  const auto orchard = report_orchard();
  const Blocks blocks = calendar_section(orchard->facts());
  const auto* calendar = chart_in<SeasonCalendar>(blocks);
  REQUIRE(calendar);
  // tests/published/pruning_windows.csv: apple 15 December to 15 March without leaf fall or buds
  // seen.
  const auto* apple = row_of(*calendar, "A1");
  REQUIRE(apple);
  REQUIRE(apple->pruning);
  CHECK(apple->pruning->from == date_of(2026, 12, 15));
  CHECK(apple->pruning->to == date_of(2027, 3, 15));
  REQUIRE(apple->work.size() == 1);
  CHECK(apple->work[0].on == date_of(2027, 2, 13));
  CHECK_FALSE(apple->work[0].done);
  const auto* pear = row_of(*calendar, "C4");
  REQUIRE(pear);
  REQUIRE(pear->work.size() == 1);
  CHECK(pear->work[0].on == date_of(2027, 1, 10));
  CHECK(pear->work[0].done);
  CHECK(message_id(pear->when) == "when.done");
  CHECK(message_id(row_of(*calendar, "B3")->when) == "when.arborist");
  CHECK(message_id(row_of(*calendar, "C1")->when) == "when.summer");
  CHECK_FALSE(row_of(*calendar, "C1")->pruning);
  CHECK(message_id(row_of(*calendar, "C2")->when) == "when.lead-first");
}

TEST_CASE("buds are shown resting until their cold is met, and an evergreen is not judged") {
  const auto orchard = report_orchard();
  const Blocks blocks = calendar_section(orchard->facts());
  const auto* calendar = chart_in<SeasonCalendar>(blocks);
  REQUIRE(calendar);
  const auto* met = row_of(*calendar, "A1");
  REQUIRE(met);
  REQUIRE_FALSE(met->buds.empty());
  CHECK(met->buds.front().phase == BudPhase::resting);
  CHECK(met->buds.front().days.to == date_of(2026, 12, 25));  // met on the 26th
  const auto* short_one = row_of(*calendar, "A3");
  REQUIRE(short_one);
  CHECK_FALSE(has_phase(*short_one, BudPhase::met));
  CHECK_FALSE(has_phase(*short_one, BudPhase::bloom));
  const auto* other = row_of(*calendar, "B2");
  REQUIRE(other);
  CHECK(other->evergreen);
  CHECK(other->buds.empty());
}

TEST_CASE("a page printed for a day after the readings says where they end") {
  const auto orchard = report_orchard();
  orchard->today.as_of = date_of(2027, 2, 10);
  orchard->today.now = LocalHour::at(date_of(2027, 2, 11), 0);
  const SeasonFacts facts = orchard->facts();
  CHECK(last_reading(facts) == LocalHour::at(date_of(2027, 1, 31), 23));
  const Blocks blocks = calendar_section(facts);
  const auto* calendar = chart_in<SeasonCalendar>(blocks);
  REQUIRE(calendar);
  REQUIRE(calendar->last_reading);
  CHECK(calendar->last_reading->on == date_of(2027, 1, 31));
}

TEST_CASE("the one frost night stands on its evening, the workday on its day") {
  const auto orchard = report_orchard();
  const Blocks blocks = calendar_section(orchard->facts());
  const auto* calendar = chart_in<SeasonCalendar>(blocks);
  REQUIRE(calendar);
  CHECK(calendar->frost_nights == std::vector<Date>{date_of(2027, 1, 9)});
  REQUIRE(calendar->workdays.size() == 1);
  CHECK(calendar->workdays[0].on == date_of(2027, 2, 13));
  REQUIRE(calendar->last_reading);
  CHECK(calendar->last_reading->on == date_of(2027, 1, 31));
}

// ---- cautions

TEST_CASE("cautions put local rules, the label and licensed practice first, whatever the orchard") {
  ReportWish bare;
  bare.trees = {report_orchard_parts::trees()[5]};
  bare.workday = false;
  for (const ReportWish& wish : {ReportWish{}, bare}) {
    const auto orchard = report_orchard(wish);
    const Blocks cautions = cautions_section(orchard->facts());
    CHECK(says(cautions, "cautions.lead"));
    const auto lists = blocks_of<List>(cautions);
    REQUIRE_FALSE(lists.empty());
    // Every caution of the first importance, before any other.
    std::size_t foremost = 0;
    for (const Caution& caution : caution_table()) foremost += caution.importance == 1;
    REQUIRE(lists[0]->items.size() >= foremost);
    for (const Caution& caution : caution_table()) {
      if (caution.importance != 1) continue;
      INFO(caution.id);
      CHECK(std::any_of(lists[0]->items.begin(),
                        lists[0]->items.begin() + static_cast<long>(foremost),
                        [&](const Text& item) { return says(item, caution.text_words()); }));
    }
  }
}

TEST_CASE(
    "ladder, saw, cold, disinfectant and minors each have their cautions, each with a source") {
  const auto orchard = report_orchard();
  const Blocks cautions = cautions_section(orchard->facts());
  for (const char* matter : {"ladder", "saw", "cold", "disinfectant", "minors"}) {
    INFO(matter);
    CHECK(says(cautions, std::string("caution-for.") + matter));
  }
  const auto lists = blocks_of<List>(cautions);
  CHECK(lists.size() == 2);
  for (const List* list : lists) {
    CHECK_FALSE(list->items.empty());
    for (const Text& item : list->items) CHECK_FALSE(literals_in(item).empty());
  }
}

TEST_CASE("cautions are never what a section drops to fit") {
  const auto orchard = report_orchard();
  for (const Block& block : cautions_section(orchard->facts()))
    CHECK(block.importance == Importance::essential);
}

// ---- readings

TEST_CASE("the readings name each file with its numbers and what was set aside") {
  const auto orchard = report_orchard();
  const Blocks readings = readings_section(orchard->facts());
  CHECK(names(readings, "shed.csv"));
  CHECK(count_of(message_in(readings, "readings.spikes"), "n") == 1);
  CHECK(count_of(message_in(readings, "readings.duplicates"), "n") == 3);
  CHECK_FALSE(says(readings, "readings.impossible"));
  CHECK(says(readings, "doubt.flat_line"));
}

TEST_CASE("the readings list the gap with its hours") {
  ReportWish wish;
  wish.gap = true;
  const auto orchard = report_orchard(wish);
  const Blocks readings = readings_section(orchard->facts());
  const Message* hours = message_in(readings, "readings.hours-of-winter");
  CHECK(count_of(hours, "hours") == 2208);
  CHECK(count_of(message_in(readings, "readings.hours-read"), "n") == 2136);
  CHECK(count_of(message_in(readings, "readings.hours-missing"), "n") == 72);
  CHECK_FALSE(says(readings, "readings.hours-bridged"));
  CHECK(says(readings, "readings.gaps-title"));
  const auto whole = report_orchard();
  CHECK_FALSE(says(readings_section(whole->facts()), "readings.gaps-title"));
}

// ---- method

TEST_CASE("the method names every measure counted, every need that decides and who says so") {
  const auto orchard = report_orchard();
  const Blocks method = method_section(orchard->facts());
  CHECK(says(method, "measure.chill_hours"));
  CHECK(says(method, "measure-counts.chill_hours"));
  for (const char* cultivar : {"Keeper's Own A1", "Keeper's Own A3", "Keeper's Own D1"}) {
    INFO(cultivar);
    CHECK(names(method, cultivar));
  }
  CHECK(times_said(method, "need.keepers") == 9);  // all but B1's, which has none
  // B1's span of the kind is told and does not decide.
  CHECK(says(method, "method.mark.species_range"));
}

TEST_CASE("the method names each window in use once, with its days") {
  const auto orchard = report_orchard();
  const Blocks method = method_section(orchard->facts());
  CHECK(says(method, "species.apple"));
  CHECK(says(method, "species.mulberry"));
  int apples = 0;
  for (const Message* message : messages_in(method)) {
    const auto* days = value_of<DayRange>(message, "value");
    apples += days && days->from == date_of(2026, 12, 15) && days->to == date_of(2027, 3, 15);
  }
  CHECK(apples >= 1);
  CHECK(says(method, "sources.title"));
}
