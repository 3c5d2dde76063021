// Windows: which rule wins for every tree there can be, and on which days its window stands open.
#include "pruning/windows.h"

#include <set>

#include "orchard/species.h"
#include "support/catch.h"
#include "support/files.h"
#include "support/trees.h"

using namespace winterfolio;
using namespace winterfolio::test;

namespace {

constexpr int kWinter = 2026;  // north 2026-27, south 2026

Date d(int year, unsigned month, unsigned day) { return date_of(year, month, day); }

/// The rule that wins, worked out again from the bare table: for every row, its words against the
/// tree's.
struct Winners {
  int best = -1;
  std::set<std::string> ids;
};

/// Key by key, as the table's header says it.
bool district_says_yes(const DistrictPressures& district, const std::string& key) {
  const District answer = key == "wet_winters"        ? district.wet_winters
                          : key == "silver_leaf"      ? district.silver_leaf
                          : key == "eutypa"           ? district.eutypa
                          : key == "bacterial_canker" ? district.bacterial_canker
                                                      : district.fire_blight;
  return answer == District::yes || answer == District::unknown;
}

bool row_holds(std::string when, const DistrictPressures& district) {
  while (!when.empty()) {
    const std::string clause = when.substr(0, when.find(';'));
    when = when.size() > clause.size() ? when.substr(clause.size() + 1) : "";
    std::string keys = clause.substr(0, clause.find('='));
    const bool want_yes = clause.ends_with("=yes");
    bool any_yes = false;
    while (!keys.empty()) {
      const std::string key = keys.substr(0, keys.find('|'));
      keys = keys.size() > key.size() ? keys.substr(key.size() + 1) : "";
      any_yes = any_yes || district_says_yes(district, key);
    }
    if (any_yes != want_yes) return false;
  }
  return true;
}

const CsvTable& bare_table() {
  static const CsvTable table = CsvTable::embedded("src/pruning/tables/windows.csv");
  return table;
}

Winners winners(const std::string& species, const std::string& state,
                const DistrictPressures& district) {
  Winners found;
  for (const CsvRow row : bare_table()) {
    if (row.text("season") == "advice") continue;
    const bool species_named = row.text("species") == species;
    const bool state_named = row.text("state") == state;
    if (!species_named && row.text("species") != "any") continue;
    if (!state_named && row.text("state") != "any") continue;
    if (!row_holds(row.text("when_district"), district)) continue;
    const int score =
        4 * species_named + 2 * state_named + (row.text("when_district").empty() ? 0 : 1);
    if (score > found.best) found = {score, {}};
    if (score == found.best) found.ids.insert(row.text("id"));
  }
  return found;
}

PruningWindow window(const std::string& species, TreeState state, const Orchard& orchard,
                     const TreeDates& dates = {}, int winter = kWinter) {
  return window_for(tree_of(species, state), state, dates, orchard, winter);
}

Orchard no_disease_orchard() {
  Orchard orchard = northern_orchard();
  orchard.district = district_all(District::no);
  return orchard;
}

EventDate seen(Date on) { return {on, DateKind::seen}; }
EventDate estimated(Date on) { return {on, DateKind::estimated}; }

}  // namespace

TEST_CASE(
    "for every kind, state and district exactly one rule wins, and every rule wins somewhere") {
  std::vector<std::string> species = species_ids();
  REQUIRE(species.size() == 20);
  species.push_back("medlar");  // stands for a listed kind without rows of its own
  std::set<std::string> reached;
  for (const std::string& kind : species) {
    for (TreeState state : tree_states()) {
      for (const DistrictPressures& district : all_districts()) {
        const Winners expected = winners(kind, std::string(id_of(state)), district);
        const WindowRule* rule = window_rule_for(kind, state, district);
        if (expected.ids.size() != 1 || !rule || !expected.ids.count(rule->id)) {
          INFO(kind << " " << id_of(state));
          REQUIRE(expected.ids.size() == 1);
          REQUIRE(rule);
          REQUIRE(*expected.ids.begin() == rule->id);
        }
        reached.insert(rule->id);
      }
    }
  }
  for (const WindowRule& rule : window_rules()) {
    INFO(rule.id);
    CHECK(reached.count(rule.id) == 1);
  }
}

TEST_CASE("what is not known of the district counts as yes") {
  for (const std::string& kind : species_ids()) {
    for (TreeState state : tree_states()) {
      CHECK(window_rule_for(kind, state, district_all(District::unknown)) ==
            window_rule_for(kind, state, district_all(District::yes)));
    }
  }
}

TEST_CASE("a tree the program does not know has no window, only advice") {
  for (TreeState state : tree_states()) {
    for (District answer : {District::yes, District::no, District::unknown}) {
      Orchard orchard = northern_orchard();
      orchard.district = district_all(answer);
      CHECK(window_rule_for("other", state, orchard.district) == nullptr);
      const PruningWindow none = window("other", state, orchard);
      CHECK_FALSE(none.exists());
      CHECK_FALSE(none.holds(d(2027, 1, 15)));
      CHECK_FALSE(none.holds_no_day());
      CHECK(none.reason == "advice.other.text");
      CHECK_FALSE(none.because.source.empty());
    }
  }
}

TEST_CASE("windows keep what published advice says of each kind") {
  const CsvTable table = published("pruning_windows.csv");
  for (const CsvRow row : table) {
    INFO(row.text("species") << " " << row.text("state") << " " << row.text("what") << " "
                             << row.text("value") << ": " << row.text("source"));
    Orchard orchard = northern_orchard();
    const std::string& keys = row.text("district");
    if (keys != "unknown") {
      orchard.district = district_all(District::no);
      if (keys == "wet_winters") orchard.district.wet_winters = District::yes;
      if (keys == "silver_leaf") orchard.district.silver_leaf = District::yes;
      if (keys == "eutypa") orchard.district.eutypa = District::yes;
      if (keys == "bacterial_canker") orchard.district.bacterial_canker = District::yes;
      if (keys == "fire_blight") orchard.district.fire_blight = District::yes;
    }
    TreeState state = TreeState::bearing;
    for (TreeState each : tree_states())
      if (id_of(each) == row.text("state")) state = each;
    const PruningWindow w = window(row.text("species"), state, orchard);
    REQUIRE(w.exists());
    const std::string& what = row.text("what");
    const auto day = parse_month_day(row.text("value"));
    if (what == "season") CHECK(id_of(w.season) == row.text("value"));
    if (what == "opens_not_before") CHECK(w.opens.on >= day->in_year(2027));
    if (what == "closes_not_after") CHECK(w.closes.on <= day->in_year(2027));
    if (what == "holds") CHECK(w.holds(day->in_year(2027)));
    if (what == "dry_after_at_least") CHECK(w.dry_days_after >= row.required_number("value"));
    CHECK((day || what == "season" || what == "dry_after_at_least"));
  }
}

TEST_CASE("apricot and sweet cherry are never cut in winter while a canker may be about") {
  // Rutgers Plant & Pest Advisory [S1]; UC IPM 2014, apricot [S3]: seen.
  for (const char* kind : {"apricot", "sweet_cherry"}) {
    for (TreeState state : tree_states()) {
      for (const DistrictPressures& pressures : all_districts()) {
        const bool all_clear =
            pressures.eutypa == District::no && pressures.bacterial_canker == District::no &&
            pressures.silver_leaf == District::no && pressures.wet_winters == District::no;
        if (all_clear) continue;
        Orchard orchard = northern_orchard();
        orchard.district = pressures;
        const PruningWindow w = window(kind, state, orchard);
        CHECK(w.season == WindowSeason::dry_summer);
        CHECK_FALSE(w.is_winter_work());
        // Nothing that is seen or worked out may pull it into winter.
        TreeDates early;
        early.leaf_fall = early.bud_swell = early.first_bloom = seen(d(2026, 12, 1));
        early.harvest = estimated(d(2026, 12, 20));
        const PruningWindow pulled = window(kind, state, orchard, early);
        CHECK(pulled.opens.on >= d(2027, 5, 1));
      }
    }
  }
}

TEST_CASE("leaf fall opens a window two weeks on, the calendar where it comes late or never") {
  const Orchard orchard = no_disease_orchard();
  TreeDates dates;
  SECTION("never seen") {
    const PruningWindow w = window("apple", TreeState::bearing, orchard);
    CHECK(w.opens.on == d(2026, 12, 15));
    CHECK(w.opens.basis == EdgeBasis::fallback);
  }
  SECTION("a day before the calendar's day") {
    dates.leaf_fall = seen(d(2026, 11, 30));
    const PruningWindow w = window("apple", TreeState::bearing, orchard, dates);
    CHECK(w.opens.on == d(2026, 12, 14));
    CHECK(w.opens.basis == EdgeBasis::seen);
  }
  SECTION("on the calendar's day and after it") {
    dates.leaf_fall = seen(d(2026, 12, 1));
    CHECK(window("apple", TreeState::bearing, orchard, dates).opens.on == d(2026, 12, 15));
    dates.leaf_fall = seen(d(2027, 1, 20));
    const PruningWindow w = window("apple", TreeState::bearing, orchard, dates);
    CHECK(w.opens.on == d(2026, 12, 15));
    CHECK(w.opens.basis == EdgeBasis::fallback);
  }
  SECTION("worked out rather than seen") {
    dates.leaf_fall = estimated(d(2026, 11, 10));
    CHECK(window("apple", TreeState::bearing, orchard, dates).opens.basis == EdgeBasis::estimated);
  }
  SECTION("never before the orchard's winter begins") {
    dates.leaf_fall = seen(d(2026, 10, 18));
    CHECK(window("apple", TreeState::bearing, orchard, dates).opens.on == d(2026, 11, 1));
    dates.leaf_fall = seen(d(2026, 10, 17));
    const PruningWindow w = window("apple", TreeState::bearing, orchard, dates);
    CHECK(w.opens.on == d(2026, 11, 1));
    CHECK(w.opens.basis == EdgeBasis::winter_begins);
    Orchard late = orchard;
    late.winter_from = MonthDay{12, 20};
    CHECK(window("apple", TreeState::bearing, late, dates).opens.on == d(2026, 12, 20));
    CHECK(window("apple", TreeState::bearing, late).opens.on == d(2026, 12, 20));
  }
}

TEST_CASE("a winter that the keeper lets begin after New Year is the same winter") {
  Orchard orchard = no_disease_orchard();
  orchard.winter_from = MonthDay{1, 10};
  const PruningWindow w = window("apple", TreeState::bearing, orchard, {}, 2027);
  CHECK(w.opens.on == d(2027, 1, 10));
  CHECK(w.closes.on == d(2027, 3, 15));
}

TEST_CASE("peach never opens before its day or the first swelling of its buds") {
  // Virginia Cooperative Extension 422-020: not before February [S11], seen.
  for (const char* kind : {"peach", "nectarine"}) {
    for (TreeState state : tree_states()) {
      for (District answer : {District::yes, District::no, District::unknown}) {
        Orchard orchard = northern_orchard();
        orchard.district = district_all(answer);
        TreeDates dates;
        dates.leaf_fall = seen(d(2026, 11, 5));
        const PruningWindow w = window(kind, state, orchard, dates);
        CHECK(w.opens.on >= d(2027, 2, 1));
        dates.bud_swell = seen(w.opens.on);
        CHECK(window(kind, state, orchard, dates).opens.on == w.opens.on);
        dates.bud_swell = seen(plus_days(w.opens.on, -1));
        CHECK(window(kind, state, orchard, dates).opens.on == plus_days(w.opens.on, -1));
        dates.bud_swell = seen(plus_days(w.opens.on, 1));
        CHECK(window(kind, state, orchard, dates).opens.on == w.opens.on);
      }
    }
  }
}

TEST_CASE("a window closes by the event where it is dated, earlier or later than the calendar") {
  const Orchard orchard = no_disease_orchard();
  TreeDates dates;
  CHECK(window("apple", TreeState::bearing, orchard).closes.on == d(2027, 3, 15));
  for (const Date swell : {d(2027, 2, 20), d(2027, 3, 15), d(2027, 4, 2)}) {
    dates.bud_swell = seen(swell);
    CHECK(window("apple", TreeState::bearing, orchard, dates).closes.on == swell);
    dates.bud_swell = estimated(swell);
    const PruningWindow w = window("apple", TreeState::bearing, orchard, dates);
    CHECK(w.closes.on == swell);
    CHECK(w.closes.basis == EdgeBasis::estimated);
  }
  dates.bud_swell = seen(d(2027, 3, 1));
  CHECK(window("asian_pear", TreeState::bearing, orchard, dates).closes.on == d(2027, 2, 22));
  CHECK(window("pomegranate", TreeState::bearing, orchard, dates).closes.on == d(2027, 3, 8));
  CHECK(window("fig", TreeState::bearing, orchard, dates).closes.on == d(2027, 3, 15));
  dates.first_bloom = seen(d(2027, 3, 4));
  CHECK(window("almond", TreeState::bearing, orchard, dates).closes.on == d(2027, 2, 25));
  CHECK(window("peach", TreeState::bearing, orchard, dates).closes.on == d(2027, 3, 7));
}

TEST_CASE("buds have swollen before they bloom: a dated bloom closes what bud swell would have") {
  // BBCH: 51 to 54, bud swell and burst, come before 60, first flowers open.
  Tree apple = tree_of("apple");
  TreeDates dates;
  const PruningWindow usual =
      window_for(apple, TreeState::bearing, dates, northern_orchard(), 2026);
  dates.first_bloom = EventDate{plus_days(usual.closes.on, -10), DateKind::estimated};
  CHECK(window_for(apple, TreeState::bearing, dates, northern_orchard(), 2026).closes.on ==
        plus_days(usual.closes.on, -10));
  dates.first_bloom = EventDate{plus_days(usual.closes.on, 10), DateKind::estimated};
  CHECK(window_for(apple, TreeState::bearing, dates, northern_orchard(), 2026).closes.on ==
        usual.closes.on);
}

TEST_CASE("the calendar alone opens and closes where the rule says so") {
  const Orchard orchard = northern_orchard();
  TreeDates dates;
  dates.leaf_fall = dates.bud_swell = dates.first_bloom = dates.petal_fall = seen(d(2026, 12, 1));
  const PruningWindow plum = window("european_plum", TreeState::bearing, orchard, dates);
  CHECK(plum.opens.on == d(2027, 6, 15));
  CHECK(plum.closes.on == d(2027, 8, 31));
  CHECK(plum.opens.basis == EdgeBasis::calendar);
  CHECK(window("walnut", TreeState::bearing, orchard, dates).closes.on == d(2027, 1, 15));
}

TEST_CASE("a harvest on record opens the summer window, one that is only expected does not") {
  const Orchard orchard = northern_orchard();
  TreeDates dates;
  for (const Date harvest : {d(2027, 6, 28), d(2027, 7, 15), d(2027, 8, 4)}) {
    dates.harvest = seen(harvest);
    const PruningWindow w = window("apricot", TreeState::bearing, orchard, dates);
    CHECK(w.opens.on == harvest);
    CHECK(w.opens.basis == EdgeBasis::seen);
    dates.harvest = estimated(harvest);
    CHECK(window("apricot", TreeState::bearing, orchard, dates).opens.on == d(2027, 7, 15));
  }
}

TEST_CASE("a window that closes before it opens holds no day and says so") {
  const Orchard orchard = no_disease_orchard();
  TreeDates dates;
  dates.bud_swell = seen(d(2027, 1, 15));
  const PruningWindow last_day = window("apple", TreeState::formative, orchard, dates);
  CHECK_FALSE(last_day.holds_no_day());
  CHECK(last_day.holds(d(2027, 1, 15)));
  dates.bud_swell = seen(d(2027, 1, 14));
  const PruningWindow w = window("apple", TreeState::formative, orchard, dates);
  CHECK(w.holds_no_day());
  CHECK_FALSE(w.holds(d(2027, 1, 14)));
  CHECK_FALSE(w.holds(d(2027, 1, 15)));
}

TEST_CASE("south of the equator every window falls six months later in the calendar") {
  const unsigned kDaysIn[] = {31, 29, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31};
  const auto shifted = [&](Date north) {
    // Written out again: the month six on, the same day, month ends to month ends.
    const unsigned month = unsigned{north.month()};
    const unsigned day = unsigned{north.day()};
    const unsigned there = month > 6 ? month - 6 : month + 6;
    // Winter 2026 runs in the south from March 2026 to February 2027, in the north from September
    // 2026.
    const int year = there >= 3 ? 2026 : 2027;
    const unsigned end = there == 2 ? 28 : kDaysIn[there - 1];
    return d(year, there, day == kDaysIn[month - 1] ? end : std::min(day, end));
  };
  for (const std::string& kind : species_ids()) {
    for (TreeState state : tree_states()) {
      for (District answer : {District::yes, District::no}) {
        Orchard north = northern_orchard();
        Orchard south = southern_orchard();
        north.district = south.district = district_all(answer);
        const PruningWindow a = window(kind, state, north);
        const PruningWindow b = window(kind, state, south);
        INFO(kind << " " << id_of(state) << " " << iso_date(a.opens.on) << " "
                  << iso_date(b.opens.on));
        CHECK(b.opens.on == shifted(a.opens.on));
        CHECK(b.closes.on == shifted(a.closes.on));
        CHECK(a.heavy_cuts.from.has_value() == b.heavy_cuts.from.has_value());
        if (a.heavy_cuts.from) CHECK(*b.heavy_cuts.from == shifted(*a.heavy_cuts.from));
      }
    }
  }
}

TEST_CASE("the last day of a month stays the last day across the equator") {
  const Orchard south = southern_orchard();
  const RuleYear common(south, 2026);  // March 2026 to February 2027
  const RuleYear leap(south, 2027);    // to February 2028
  CHECK(common.day({8, 31}) == d(2027, 2, 28));
  CHECK(leap.day({8, 31}) == d(2028, 2, 29));
  CHECK(leap.day({8, 30}) == d(2028, 2, 29));
  CHECK(common.day({2, 29}) == d(2026, 8, 31));
  CHECK(common.day({2, 28}) == d(2026, 8, 28));
  CHECK(common.day({4, 30}) == d(2026, 10, 31));
  CHECK(common.day({12, 31}) == d(2026, 6, 30));
  CHECK(common.day({12, 30}) == d(2026, 6, 30));
  const RuleYear north(northern_orchard(), 2027);
  CHECK(north.day({2, 29}) == d(2028, 2, 29));
  CHECK(RuleYear(northern_orchard(), 2026).day({2, 29}) == d(2027, 2, 28));
  CHECK(north.day({12, 15}) == d(2027, 12, 15));
  CHECK(north.day({8, 31}) == d(2028, 8, 31));
  CHECK(north.first() == d(2027, 9, 1));
  CHECK(north.last() == d(2028, 8, 31));
  CHECK(leap.first() == d(2027, 3, 1));
  CHECK(leap.last() == d(2028, 2, 29));
}

TEST_CASE("heavy cuts wait for their day, for leaves to drop, or for another window") {
  const Orchard orchard = no_disease_orchard();
  const PruningWindow apple = window("apple", TreeState::bearing, orchard);
  CHECK(apple.heavy_cuts.when == HeavyCuts::When::from);
  CHECK(apple.heavy_cuts.from == d(2027, 1, 1));
  CHECK(apple.ever_allows_heavy_cuts());
  CHECK(window("quince", TreeState::bearing, orchard).heavy_cuts.when == HeavyCuts::When::never);
  CHECK(window("fig", TreeState::bearing, orchard).heavy_cuts.when == HeavyCuts::When::always);
  TreeDates held;
  held.leaves_held = d(2026, 12, 20);
  const PruningWindow with_leaves = window("apple", TreeState::bearing, orchard, held);
  CHECK(with_leaves.heavy_cuts.when == HeavyCuts::When::when_leaves_drop);
  CHECK(with_leaves.opens.on == apple.opens.on);  // the dated opening holds
  TreeDates early;
  early.bud_swell = seen(d(2026, 12, 31));
  CHECK_FALSE(window("apple", TreeState::bearing, orchard, early).ever_allows_heavy_cuts());
}

TEST_CASE("every window carries its rule, source, mark, reason and weather") {
  for (const std::string& kind : species_ids()) {
    for (TreeState state : tree_states()) {
      const PruningWindow w = window(kind, state, northern_orchard());
      CHECK(w.reason == "window." + w.because.rule + ".reason");
      CHECK_FALSE(w.because.source.empty());
      CHECK(w.order_rank >= 1);
      CHECK((w.order_rank >= 40) == (w.season == WindowSeason::dry_summer));
      // Summer cuts know no frost limit; in winter every window has one, none above freezing.
      CHECK(w.min_temperature.has_value() == w.is_winter_work());
      if (w.min_temperature) CHECK(*w.min_temperature <= kFreezing);
    }
  }
  CHECK(window("apple", TreeState::bearing, northern_orchard()).min_temperature == Celsius(-6.0));
  CHECK(window("peach", TreeState::bearing, northern_orchard()).min_temperature == Celsius(-4.0));
}

TEST_CASE("the closing date outranks the rank, then mature before young, healthy before diseased") {
  const PlaceInLine base{d(2027, 3, 15), 3, TreeState::bearing, false};
  PlaceInLine other = base;
  CHECK_FALSE(goes_before(base, other));
  other.closes = d(2027, 3, 14);
  other.order_rank = 30;
  CHECK(goes_before(other, base));
  other = base;
  other.order_rank = 2;
  other.state = TreeState::formative;
  CHECK(goes_before(other, base));
  other = base;
  other.state = TreeState::formative;
  CHECK(goes_before(base, other));
  other.state = TreeState::neglected;  // old as any
  CHECK_FALSE(goes_before(base, other));
  CHECK_FALSE(goes_before(other, base));
  other = base;
  other.diseased = true;
  CHECK(goes_before(base, other));
}

TEST_CASE("advice comes when it is called for, and never as a window") {
  CHECK(advice_for({}).empty());
  AdviceFacts facts;
  facts.leaves_held = facts.chill_met = facts.dangerous_wood = true;
  facts.freeze_coming = facts.other_species = true;
  const auto all = advice_for(facts);
  CHECK(all.size() == advice_rules().size());
  CHECK(all.size() == 5);
  facts = {};
  facts.leaves_held = true;
  REQUIRE(advice_for(facts).size() == 1);
  CHECK(advice_for(facts)[0].text == "advice.leaves-held.text");
  for (const WindowRule& rule : window_rules()) CHECK_FALSE(rule.id.starts_with("advice"));
}
