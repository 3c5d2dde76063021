// Met, nearly, short, undecided, unknown: both sides of every line, and the laws that hold for any
// winter.
#include "findings/verdict.h"

#include <algorithm>
#include <map>

#include "findings/winters_test.h"
#include "orchard/cultivars.h"
#include "orchard/species.h"
#include "support/catch.h"

using namespace winterfolio;
using namespace winterfolio::test;

namespace {

const WinterWindow kNorth = default_winter_window(false);

PartNeeds needing(ChillMeasure measure, std::optional<double> low, std::optional<double> high) {
  PartNeeds part;
  part.deciding = DecidingNeed{measure, low, high, NeedKind::tree, false, {"own records"}};
  return part;
}

/// A winter of `days` at 5 °C from 1 November: 24 chill hours and Utah units a day.
HourlySeries cold_days(int days, double celsius = 5.0) {
  return series_of(LocalHour::at(date_of(2024, 11, 1), 0),
                   std::vector<double>(static_cast<std::size_t>(24 * days), celsius));
}

WinterChill chill_of(const HourlySeries& hours, std::optional<Date> as_of = {}) {
  const WeatherRecord record = record_of(hours);
  return winter_chill(record, stand_at(record, kNorth, {}, as_of).value());
}

bool has(const Verdict& verdict, VerdictReason reason) {
  return std::find(verdict.reasons.begin(), verdict.reasons.end(), reason) != verdict.reasons.end();
}

VerdictState state_at(double low, double high) {
  return verdict_on(needing(ChillMeasure::chill_hours, low, high), chill_of(cold_days(20)))
      .state;  // 480 hours
}

}  // namespace

TEST_CASE("both sides of met and of nearly") {
  CHECK(state_at(480, 480) == VerdictState::met);
  CHECK(state_at(480.001, 480.001) == VerdictState::nearly);
  CHECK(state_at(533.33, 533.33) == VerdictState::nearly);  // 480 is nine tenths of 533.33...
  CHECK(state_at(533.34, 533.34) == VerdictState::short_of);
  CHECK(state_at(400, 480) == VerdictState::met);
  CHECK(state_at(400, 481) == VerdictState::undecided);
  CHECK(state_at(481, 600) == VerdictState::nearly);
  CHECK(state_at(534, 600) == VerdictState::short_of);
}

TEST_CASE("a verdict says when, how much is lacking, and that more may come") {
  const WinterChill chill = chill_of(cold_days(20));
  const Verdict met = verdict_on(needing(ChillMeasure::chill_hours, 100, 240), chill);
  CHECK(met.state == VerdictState::met);
  CHECK(met.low_end_on == date_of(2024, 11, 5));
  CHECK(met.met_on == date_of(2024, 11, 10));
  CHECK(met.so_far);
  CHECK_FALSE(met.short_by.has_value());
  const Verdict lacking = verdict_on(needing(ChillMeasure::chill_hours, 600, 650), chill);
  CHECK(lacking.short_by == Range{120, 170});
  CHECK_THAT(lacking.share().value(), WithinAbs(0.8, 1e-12));
  CHECK_FALSE(lacking.met_on.has_value());
}

TEST_CASE("a bound on one side decides only what it can") {
  const WinterChill chill = chill_of(cold_days(20));
  CHECK(verdict_on(needing(ChillMeasure::chill_hours, 300, {}), chill).state ==
        VerdictState::undecided);
  CHECK(verdict_on(needing(ChillMeasure::chill_hours, 600, {}), chill).state ==
        VerdictState::short_of);
  CHECK(verdict_on(needing(ChillMeasure::chill_hours, {}, 300), chill).state == VerdictState::met);
  CHECK(verdict_on(needing(ChillMeasure::chill_hours, {}, 600), chill).state ==
        VerdictState::undecided);
}

TEST_CASE("what was met and has fallen since stays met, and is said to have fallen") {
  std::vector<double> celsius(24 * 20, 5.0);
  celsius.insert(celsius.end(), 24 * 10, 20.0);  // ten warm days take 240 Utah units
  const WinterChill chill = chill_of(series_of(LocalHour::at(date_of(2024, 11, 1), 0), celsius));
  const Verdict verdict = verdict_on(needing(ChillMeasure::utah, 400, 400), chill);
  CHECK(verdict.received == 240.0);
  CHECK(verdict.state == VerdictState::met);
  CHECK(verdict.met_on == date_of(2024, 11, 17));
  CHECK(verdict.fell_since);
  CHECK(has(verdict, VerdictReason::fell_since));
}

TEST_CASE("under nine tenths of the hours there is no verdict") {
  HourlySeries hours = cold_days(40);
  knock_out(hours, date_of(2024, 11, 11), 4);
  CHECK(verdict_on(needing(ChillMeasure::chill_hours, 2000, 2000), chill_of(hours)).state ==
        VerdictState::short_of);
  for (int hour = 5; hour < 9; ++hour)
    hours.clear(LocalHour::at(date_of(2024, 11, 20), hour));  // too long for a line
  const Verdict withheld =
      verdict_on(needing(ChillMeasure::chill_hours, 2000, 2000), chill_of(hours));
  CHECK(withheld.state == VerdictState::unknown);
  CHECK(has(withheld, VerdictReason::few_hours));
}

TEST_CASE("a gap that could turn the verdict withholds it") {
  HourlySeries hours = years_of_weather(11, 2015, 8, 10.0);
  const WeatherRecord whole = record_of(hours);
  const Winter winter = winter_of(kNorth, 2022);
  knock_out(hours, date_of(2023, 1, 8), 10);
  const WinterChill chill =
      winter_chill(record_of(hours), stand_at(record_of(hours), kNorth, 2022, winter.to).value());
  const MeasuredChill& portions = chill.of(ChillMeasure::portions);
  REQUIRE(portions.gaps == GapRange::known);
  const double middle = (portions.range.low + portions.range.high) / 2.0;
  const Verdict turned = verdict_on(needing(ChillMeasure::portions, middle, middle), chill);
  CHECK(turned.state == VerdictState::undecided);
  CHECK(has(turned, VerdictReason::gap_could_turn));
  // Out of reach whatever the gap held, within a tenth only at its best: short, by a range.
  const double beyond = portions.range.high + 0.5;
  const double least = portions.range.low / beyond;
  const Verdict lacking = verdict_on(needing(ChillMeasure::portions, beyond, beyond), chill);
  CHECK(lacking.state == (least >= kNearly ? VerdictState::nearly : VerdictState::short_of));
  REQUIRE(lacking.short_by);
  CHECK_THAT(lacking.short_by->low, WithinAbs(0.5, 1e-9));
  CHECK_THAT(lacking.short_by->high, WithinAbs(beyond - portions.range.low, 1e-9));
  const double at_best = portions.range.high / 0.95;
  const double at_worst = portions.range.low / at_best;
  REQUIRE(at_worst < kNearly);
  CHECK(verdict_on(needing(ChillMeasure::portions, at_best, at_best), chill).state ==
        VerdictState::short_of);
  const double clear = portions.range.low - 1.0;
  CHECK(verdict_on(needing(ChillMeasure::portions, clear, clear), chill).state ==
        VerdictState::met);
}

TEST_CASE("without another winter a gap decides only what no gap could change") {
  HourlySeries hours = cold_days(40);
  knock_out(hours, date_of(2024, 11, 20), 3);  // 72 hours: 888 of 960 are known
  const WinterChill chill = chill_of(hours);
  CHECK(verdict_on(needing(ChillMeasure::chill_hours, 888, 888), chill).state == VerdictState::met);
  CHECK(verdict_on(needing(ChillMeasure::chill_hours, 1200, 1200), chill).state ==
        VerdictState::short_of);
  const Verdict open = verdict_on(needing(ChillMeasure::chill_hours, 950, 950), chill);
  CHECK(open.state == VerdictState::unknown);
  CHECK(has(open, VerdictReason::gap_range_unknown));
  CHECK_FALSE(open.received_range.has_value());
}

TEST_CASE("what is lacking has a range where nobody knows what missing hours held") {
  HourlySeries hours = cold_days(40);
  knock_out(hours, date_of(2024, 11, 20), 3);  // 888 hours known and cold, 72 may have been
  const Verdict verdict =
      verdict_on(needing(ChillMeasure::chill_hours, 1200, 1300), chill_of(hours));
  CHECK(verdict.state == VerdictState::short_of);
  CHECK(verdict.short_by == Range{1200 - 960, 1300 - 888});
}

TEST_CASE(
    "the day on which it was met is that on which it was reached, whatever was missing then") {
  HourlySeries hours = cold_days(14);
  for (int hour = 0; hour < 24 * 46; ++hour)
    hours.set(LocalHour::at(date_of(2024, 11, 15), hour), reading(10.0));
  for (int day = 3; day < 7; ++day) knock_out(hours, date_of(2024, 11, 1 + unsigned(day)), 1);
  // Ten cold days are known by 14 November, of fourteen; nine tenths of all days only later.
  const Verdict verdict = verdict_on(needing(ChillMeasure::chill_hours, 240, 240), chill_of(hours));
  CHECK(verdict.state == VerdictState::met);
  CHECK(verdict.met_on == date_of(2024, 11, 14));
}

TEST_CASE("a requirement whose least was reached is not short because warm hours came after") {
  std::vector<double> celsius(24 * 20, 5.0);     // 480 Utah units
  celsius.insert(celsius.end(), 24 * 15, 20.0);  // fifteen warm days take 360
  const WinterChill chill = chill_of(series_of(LocalHour::at(date_of(2024, 11, 1), 0), celsius));
  for (const std::optional<double> most : {std::optional(600.0), std::optional<double>()}) {
    const Verdict verdict = verdict_on(needing(ChillMeasure::utah, 480, most), chill);
    CHECK(verdict.received == 120.0);
    CHECK(verdict.low_end_on == date_of(2024, 11, 20));
    CHECK(verdict.state == VerdictState::undecided);
    REQUIRE_FALSE(verdict.reasons.empty());
    CHECK(verdict.reasons.front() == VerdictReason::fell_since);
    CHECK_FALSE(verdict.short_by.has_value());
  }
  // One unit more at the least, and it never was reached.
  CHECK(verdict_on(needing(ChillMeasure::utah, 481, 600), chill).state == VerdictState::short_of);
}

TEST_CASE("figures that may not decide never yield met, nearly or short") {
  const WinterChill chill = chill_of(cold_days(20));
  const auto of_kind = [&](NeedKind kind, std::optional<ChillMeasure> measure) {
    PartNeeds part;
    part.needs.push_back({.kind = kind,
                          .measure = measure,
                          .low = 100,
                          .high = 900,
                          .source = "memory",
                          .note = {}});
    return verdict_on(part, chill);
  };
  CHECK(of_kind(NeedKind::memory, ChillMeasure::chill_hours).reasons ==
        std::vector{VerdictReason::only_memory});
  CHECK(of_kind(NeedKind::set_range, ChillMeasure::chill_hours).reasons ==
        std::vector{VerdictReason::only_set_range});
  CHECK(of_kind(NeedKind::constant_temperature, {}).reasons ==
        std::vector{VerdictReason::only_constant_temperature});
  CHECK(of_kind(NeedKind::species_range, ChillMeasure::portions).reasons ==
        std::vector{VerdictReason::only_species_range});
  CHECK(verdict_on(PartNeeds{}, chill).reasons == std::vector{VerdictReason::no_figure});
  CHECK(verdict_on(PartNeeds{}, chill, true).reasons == std::vector{VerdictReason::other_kind});
  for (const NeedKind kind : {NeedKind::memory, NeedKind::set_range, NeedKind::constant_temperature,
                              NeedKind::species_range}) {
    CHECK(of_kind(kind, ChillMeasure::chill_hours).state == VerdictState::unknown);
  }
}

TEST_CASE(
    "Utah units count from their autumn minimum in verdicts and say so; the tally stays plain") {
  // Source: Richardson, Seeley & Walker 1974 (from memory): counting begins on the day after the
  // running sum is at its lowest. Ten warm days take 24 units each, then each cold day gives 24.
  std::vector<double> celsius(24 * 10, 20.0);
  celsius.insert(celsius.end(), 24 * 20, 5.0);
  for (const bool southern : {false, true}) {
    const WinterWindow window = default_winter_window(southern);
    const Date first = southern ? date_of(2024, 5, 1) : date_of(2024, 11, 1);
    const WeatherRecord record =
        weather_record(series_of(LocalHour::at(first, 0), celsius), {}, southern ? -33.0 : 38.0);
    const WinterChill chill = winter_chill(record, stand_at(record, window).value());
    CHECK(chill.of(ChillMeasure::utah).total().amount() == 240.0);
    const Verdict verdict = verdict_on(needing(ChillMeasure::utah, 480, 480), chill);
    CHECK(verdict.received == 480.0);
    CHECK(verdict.state == VerdictState::met);
    CHECK(verdict.counted_from == plus_days(first, 10));
    CHECK(has(verdict, VerdictReason::counted_from_minimum));
    const Verdict hours = verdict_on(needing(ChillMeasure::chill_hours, 480, 480), chill);
    CHECK(hours.counted_from == first);
    CHECK_FALSE(has(hours, VerdictReason::counted_from_minimum));
  }
}

TEST_CASE("gaps, and a thermometer half a degree off, make one range") {
  // 480 hours at 7.0 °C: half a degree warmer none of them counts, half a degree colder all do.
  const WinterChill edge = chill_of(cold_days(20, 7.0));
  const Verdict verdict = verdict_on(needing(ChillMeasure::chill_hours, 400, 450), edge);
  CHECK(verdict.thermometer == Range{0, 480});
  CHECK(verdict.received_utmost == Range{0, 480});
  CHECK(verdict.state == VerdictState::met);
  CHECK(verdict.thermometer_could_turn);
  const Verdict sure =
      verdict_on(needing(ChillMeasure::chill_hours, 400, 450), chill_of(cold_days(20)));
  CHECK(sure.received_utmost == Range{480, 480});
  CHECK_FALSE(sure.thermometer_could_turn);
  // With a gap both ranges are laid end to end.
  HourlySeries hours = years_of_weather(12, 2015, 8, 10.0);
  knock_out(hours, date_of(2023, 1, 8), 6);
  const WeatherRecord record = record_of(hours);
  const WinterChill chill =
      winter_chill(record, stand_at(record, kNorth, 2022, date_of(2023, 2, 28)).value());
  for (const ChillMeasure measure : kChillMeasures) {
    INFO(id_of(measure));
    const MeasuredChill& one = chill.for_verdict(measure);
    const double total = one.total().amount();
    const Range utmost = received_utmost(one).value();
    CHECK_THAT(utmost.low, WithinAbs(one.range.low + one.thermometer.low - total, 1e-9));
    CHECK_THAT(utmost.high, WithinAbs(one.range.high + one.thermometer.high - total, 1e-9));
    CHECK(utmost.low <= one.range.low);
    CHECK(one.range.high <= utmost.high);
    CHECK(utmost.low <= one.thermometer.low + (one.range.low - total));
  }
  HourlySeries alone = cold_days(40);
  knock_out(alone, date_of(2024, 11, 20), 3);
  CHECK_FALSE(verdict_on(needing(ChillMeasure::chill_hours, 950, 950), chill_of(alone))
                  .received_utmost.has_value());
}

TEST_CASE("half a degree off is worked out with every reading half a degree off") {
  const HourlySeries hours = years_of_weather(13, 2020, 1);
  const WeatherRecord record = record_of(hours);
  const Today today = stand_at(record, kNorth, 2020, date_of(2021, 2, 10)).value();
  const WinterChill chill = winter_chill(record, today);
  const auto moved = [&](double by) {
    HourlySeries other;
    for (LocalHour hour = today.winter.begin(); hour < today.now; hour = hour + 1)
      other.set(hour, reading(hours.at(hour)->mean.degrees() + by));
    return tally_chill(other, today.winter.begin(), today.now);
  };
  const ChillTally warmer = moved(0.5);
  const ChillTally colder = moved(-0.5);
  for (const MeasuredChill& one : chill.measures) {
    INFO(id_of(one.measure));
    const double total = one.total().amount();
    const double a = warmer.total(one.measure).amount();
    const double b = colder.total(one.measure).amount();
    CHECK_THAT(one.thermometer.low, WithinAbs(std::min({a, b, total}), 1e-6));
    CHECK_THAT(one.thermometer.high, WithinAbs(std::max({a, b, total}), 1e-6));
  }
}

TEST_CASE("a long January gap withholds the verdict it could turn") {
  HourlySeries hours = years_of_weather(14, 2014, 9, 11.0);
  const Winter winter = winter_of(kNorth, 2022);
  const Date as_of = winter.to;
  knock_out(hours, date_of(2023, 1, 9), 11);  // nine tenths of the winter are still known
  const WeatherRecord record = record_of(hours);
  const WinterChill chill = winter_chill(record, stand_at(record, kNorth, 2022, as_of).value());
  for (const ChillMeasure measure : kChillMeasures) {
    INFO(id_of(measure));
    const MeasuredChill& one = chill.for_verdict(measure);
    REQUIRE(one.gaps == GapRange::known);
    REQUIRE(one.coverage() >= kLeastCoverage);
    const double inside = one.range.low + 0.4 * (one.range.high - one.range.low);
    const Verdict withheld = verdict_on(needing(measure, inside, inside), chill);
    if (!withheld.met_on) {  // a measure that falls may have met it before the gap
      CHECK(withheld.state == VerdictState::undecided);
      CHECK(has(withheld, VerdictReason::gap_could_turn));
      CHECK_FALSE(withheld.short_by.has_value());
    }
    const double far = 1.2 * std::max(1.0, one.range.high) / kNearly;
    CHECK(verdict_on(needing(measure, far, far), chill).state == VerdictState::short_of);
  }
}

TEST_CASE("figures from memory, group spans and species spans never print short, however mild") {
  const WinterChill warm = chill_of(cold_days(30, 18.0));
  for (const SpeciesRow& species : species_table()) {
    Tree tree;
    tree.species = species.id;
    for (const CultivarRow& row : cultivars_table()) {
      if (row.species != species.id) continue;
      tree.cultivar = row.cultivar;
      const std::vector<const CultivarRow*> rows = find_cultivar(tree.species, tree.cultivar);
      const bool none_seen = std::none_of(rows.begin(), rows.end(), [](const CultivarRow* one) {
        const bool figure = one->chill_hours || one->portions || one->utah;
        // Portions and units beside a cold room's hours were counted outdoors.
        const bool outdoors =
            one->mark == CultivarMark::constant_temperature && (one->portions || one->utah);
        return figure && !one->from_memory && (one->mark == CultivarMark::seen || outdoors);
      });
      if (!none_seen) continue;
      INFO(species.id << " " << row.cultivar);
      CHECK(verdict_on(tree, {}, warm).leading().verdict.state == VerdictState::unknown);
    }
    tree.cultivar.clear();
    CHECK(verdict_on(tree, {}, warm).leading().verdict.state == VerdictState::unknown);
  }
}

TEST_CASE("a later gap, or hours that lack later, take back no day on which it was surely met") {
  HourlySeries hours = cold_days(60);
  for (LocalHour hour = LocalHour::at(date_of(2024, 11, 25), 0); hour < hours.end() - 1;
       hour = hour + 1)
    hours.clear(hour);  // under nine tenths are known now
  const Verdict verdict = verdict_on(needing(ChillMeasure::chill_hours, 400, 480), chill_of(hours));
  CHECK(verdict.state == VerdictState::met);
  CHECK(verdict.met_on == date_of(2024, 11, 20));
}

TEST_CASE("a grafted tree is spoken for by the part that needs attention most") {
  Orchard orchard;
  Tree tree;
  tree.species = "apple";
  tree.grafts = {"Anna", "Golden Delicious"};  // 400 h; 50 portions (both seen)
  const TreeVerdict verdict = verdict_on(tree, orchard, chill_of(cold_days(20)));
  REQUIRE(verdict.parts.size() == 2);
  CHECK(verdict.parts[0].verdict.state == VerdictState::met);
  CHECK(verdict.parts[1].verdict.state == VerdictState::short_of);
  CHECK(verdict.leading().part.cultivar == "Golden Delicious");
}

TEST_CASE("measures that cannot fall never take back what was met") {
  for (std::uint64_t seed = 1; seed <= 12; ++seed) {
    HourlySeries hours = years_of_weather(100 + seed, 2018, 4, 13.0);
    std::mt19937_64 random(seed);
    for (int hole = 0; hole < 3; ++hole)
      knock_out(hours, plus_days(date_of(2021, 11, 5), static_cast<int>(random() % 100)),
                1 + static_cast<int>(random() % 6));
    const WeatherRecord record = record_of(hours);
    for (const ChillMeasure measure :
         {ChillMeasure::chill_hours, ChillMeasure::portions, ChillMeasure::utah_daily_positive}) {
      const double end =
          tally_chill(record.hours, winter_of(kNorth, 2021).begin(), winter_of(kNorth, 2021).end())
              .total(measure)
              .amount();
      const PartNeeds part = needing(measure, 0.6 * end, 0.6 * end);
      bool met = false;
      for (Date day = date_of(2021, 11, 10); day <= date_of(2022, 2, 28); day = plus_days(day, 3)) {
        const auto measures = {measure};
        const Verdict verdict = verdict_on(
            part, winter_chill(record, stand_at(record, kNorth, 2021, day).value(), measures));
        INFO("seed " << seed << ", " << id_of(measure) << ", " << iso_date(day));
        if (met) CHECK(verdict.state == VerdictState::met);
        met = met || verdict.state == VerdictState::met;
      }
    }
  }
}

TEST_CASE("without another winter, hours that come to be known never widen what may have been") {
  std::mt19937_64 random(7);
  for (int trial = 0; trial < 20; ++trial) {
    const HourlySeries whole = years_of_weather(300 + static_cast<std::uint64_t>(trial), 2020, 1);
    int from = 0;
    int to = 4 + static_cast<int>(random() % 200);
    const LocalHour gap =
        LocalHour::at(date_of(2020, 11, 20), 0) + static_cast<int>(random() % 700);
    std::map<ChillMeasure, Range> before;
    for (; to - from > 3; random() % 2 == 0 ? from += 3 : to -= 3) {
      HourlySeries holed = whole;
      for (int hour = from; hour < to; ++hour) holed.clear(gap + hour);
      const WeatherRecord record = record_of(holed);
      const WinterChill chill =
          winter_chill(record, stand_at(record, kNorth, 2020, date_of(2021, 2, 10)).value());
      for (const MeasuredChill& one : chill.measures) {
        REQUIRE(one.gaps == GapRange::unknown);
        const auto at = before.find(one.measure);
        INFO(id_of(one.measure) << ", " << to - from << " hours");
        if (at != before.end())
          CHECK(one.utmost.high - one.utmost.low <= at->second.high - at->second.low + 1e-9);
        before[one.measure] = one.utmost;
      }
    }
  }
}
