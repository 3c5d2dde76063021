// Nights against stages: both sides of each line, a real frost night, offsets, and how often frost
// comes after bloom.
#include "findings/frost.h"

#include "findings/winter_events.h"
#include "findings/winters_test.h"
#include "orchard/growth_stages.h"
#include "support/catch.h"
#include "support/files.h"

using namespace winterfolio;
using namespace winterfolio::test;

namespace {

const WinterWindow kNorth = default_winter_window(false);

Celsius f(double degrees) { return Celsius::from_fahrenheit(degrees); }

FrostLevel level(const char* species, const char* stage, double fahrenheit) {
  const CriticalTemperature* critical = critical_temperature(species, stage);
  REQUIRE(critical != nullptr);
  return frost_level(f(fahrenheit), *critical);
}

/// Hours at 8 °C with nights whose lowest is given, from 1 November 2024.
HourlySeries nights_at(int days, const std::map<Date, double>& lows) {
  HourlySeries hours = series_of(LocalHour::at(date_of(2024, 11, 1), 0),
                                 std::vector<double>(static_cast<std::size_t>(24 * days), 8.0));
  for (const auto& [morning, low] : lows)
    hours.set(LocalHour::at(morning, 5), {Celsius(low + 1.0), Celsius(low), HourOrigin::observed});
  return hours;
}

Tree tree_of(const std::string& species) {
  Tree tree;
  tree.id = "T1";
  tree.species = species;
  return tree;
}

void saw(Tree& tree, const std::string& what, Date on) {
  Observation seen;
  seen.what = what;
  seen.on = {int{on.year()}, unsigned{on.month()}, unsigned{on.day()}};
  tree.observed.push_back(seen);
}

}  // namespace

TEST_CASE("both sides of each stage's two figures") {
  for (const char* species : {"apple", "pear", "peach", "apricot", "european_plum", "sweet_cherry",
                              "tart_cherry", "nectarine"}) {
    const auto stages = critical_temperatures(species);
    REQUIRE_FALSE(stages.empty());
    for (const CriticalTemperature& stage : stages) {
      INFO(species << ", " << stage.stage);
      const double ten = stage.kill10.fahrenheit();
      CHECK(level(species, stage.stage.c_str(), ten) ==
            (stage.kill90 && *stage.kill90 >= stage.kill10 ? FrostLevel::ninety_percent
                                                           : FrostLevel::ten_percent));
      CHECK(level(species, stage.stage.c_str(), ten + 0.1) == FrostLevel::watch);
      CHECK(level(species, stage.stage.c_str(), ten + 1.8) ==
            FrostLevel::watch);  // one degree Celsius
      CHECK(level(species, stage.stage.c_str(), ten + 1.9) == FrostLevel::above);
      if (!stage.kill90) continue;
      CHECK(*stage.kill90 < stage.kill10);
      CHECK(level(species, stage.stage.c_str(), stage.kill90->fahrenheit()) ==
            FrostLevel::ninety_percent);
      CHECK(level(species, stage.stage.c_str(), stage.kill90->fahrenheit() + 0.1) ==
            FrostLevel::ten_percent);
    }
  }
}

TEST_CASE("every kind with figures has its stages, so that what is noted is laid against nights") {
  for (const char* species : {"apple", "pear", "peach", "apricot", "european_plum", "sweet_cherry",
                              "tart_cherry", "nectarine"}) {
    INFO(species);
    for (const int bbch : {57, 60, 65, 69}) {
      const BudStage* bud = bud_stage_at(species, bbch);
      REQUIRE(bud);
      CHECK(critical_temperature(species, bud->stage));
    }
    CHECK(bud_stage_at(species, 60)->stage == "first bloom");
  }
}

TEST_CASE("figures as the extension pages print them") {
  // Source: Penn State Extension, Orchard Frost, after the 1989 Spray Guide for Eastern Washington
  // (seen).
  CHECK(critical_temperature("apple", "silver tip")->kill10 == f(15));
  CHECK(critical_temperature("apple", "full bloom")->kill90 == f(25));
  CHECK(critical_temperature("pear", "blossom buds exposed")->kill90 == f(6));
  CHECK(critical_temperature("peach", "first bloom")->kill10 == f(26));
  CHECK(critical_temperature("sweet_cherry", "tight cluster")->kill10 == f(26));
  // Source: Utah State University Extension (seen): tart cherry, first white and first bloom, nine
  // tenths at 24 °F.
  CHECK(critical_temperature("tart_cherry", "first white")->kill90 == f(24));
  CHECK(critical_temperature("tart_cherry", "first bloom")->kill90 == f(24));
  CHECK_FALSE(critical_temperature("apricot", "first swelling")->kill90.has_value());
  for (const char* species : {"almond", "quince", "persimmon", "fig", "pomegranate"})
    CHECK(critical_temperatures(species).empty());
}

TEST_CASE("peach in first bloom at 31 °F stands above its published 10 % figure") {
  // Common practice, no source: growers do not light heaters for it.
  CHECK(level("peach", "first bloom", 31.0) == FrostLevel::above);
}

TEST_CASE(
    "every stage of the frost table is one that a keeper can note, and colder stages come first") {
  for (const char* species :
       {"apple", "pear", "peach", "apricot", "european_plum", "sweet_cherry"}) {
    int before = 0;
    for (const CriticalTemperature& stage : critical_temperatures(species)) {
      INFO(species << ", " << stage.stage);
      bool paired = false;
      for (const BudStage& bud : bud_stages_table())
        paired = paired || (bud.species == species && bud.stage == stage.stage);
      CHECK(paired);
      CHECK(stage.order == before + 1);
      before = stage.order;
    }
  }
}

TEST_CASE("a real frost night: its lowest reading and the hours it froze") {
  // Source: Western Farm Press 2009 (readings); "close to seven hours" of freezing at both
  // orchards.
  HourlySeries chowchilla;
  HourlySeries hanford;
  int freezing = 0;
  for (const CsvRow row : published("frost_night_2009.csv")) {
    const auto date = parse_date(row.text("local_time").substr(0, 10));
    const auto hour = parse_integer(row.text("local_time").substr(11, 2));
    const LocalHour at = LocalHour::at(date.value(), hour.value());
    chowchilla.set(at, reading(f(row.required_number("chowchilla_F")).degrees()));
    hanford.set(at, reading(f(row.required_number("hanford_F")).degrees()));
    freezing += row.required_number("hanford_F") <= 32.0;
  }
  CHECK(freezing == 7);
  const auto nights = night_lows(record_of(chowchilla), date_of(2009, 3, 8), date_of(2009, 3, 11));
  REQUIRE(nights.size() == 1);
  CHECK(nights.front().evening == date_of(2009, 3, 9));
  CHECK_THAT(nights.front().lowest.fahrenheit(), WithinAbs(28.9, 1e-5));
  CHECK(nights.front().at == LocalHour::at(date_of(2009, 3, 10), 5));
  CHECK_THAT(night_lows(record_of(hanford), date_of(2009, 3, 9), date_of(2009, 3, 9))
                 .front()
                 .lowest.fahrenheit(),
             WithinAbs(27.7, 1e-5));
}

TEST_CASE(
    "the hour's lowest reading counts, not its mean, and the block's offset on frosty nights") {
  Orchard orchard;
  orchard.blocks.emplace_back();
  orchard.blocks.front().id = "hollow";
  orchard.blocks.front().frost_offset = CelsiusDelta(-1.5);
  Tree tree = tree_of("peach");
  saw(tree, "first_bloom", date_of(2025, 2, 20));
  const WeatherRecord record =
      record_of(nights_at(125, {{date_of(2025, 2, 23), -2.6}, {date_of(2025, 2, 26), 3.0}}));
  const Today today = stand_at(record, kNorth).value();
  const BloomFinding bloom;
  const WinterNights nights = winter_nights(record, today);
  const auto frost = [&] {
    return frost_of(tree, bloom, {&nights, frost_offset_of(tree, orchard)}, today);
  };
  const TreeFrost open = frost();  // 26 °F is -3.33 °C: -2.6 is within a degree
  REQUIRE(open.nights.size() == 1);
  CHECK(open.nights.front().level == FrostLevel::watch);
  CHECK(open.nights.front().night.evening == date_of(2025, 2, 22));
  CHECK(open.nights.front().stage.seen);
  CHECK(open.nights.front().stage.age_days == 3);
  tree.block = "hollow";
  const TreeFrost hollow = frost();
  REQUIRE(hollow.nights.size() == 1);
  CHECK(hollow.nights.front().level == FrostLevel::ten_percent);
  CHECK_THAT(hollow.nights.front().at_tree.degrees(), WithinAbs(-4.1, 1e-6));
  CHECK(at_tree(Celsius(3.0), CelsiusDelta(-1.5)) == Celsius(3.0));
  CHECK(open.buds_needed == Range{10, 15});
}

TEST_CASE(
    "a stage holds from the day it was seen until the next; an expected bloom stands in where "
    "nothing was seen") {
  Tree tree = tree_of("apple");
  const Winter winter = winter_of(kNorth, 2024);
  BloomFinding bloom;
  bloom.stage = "first_bloom";
  bloom.expected = date_of(2025, 3, 20);
  const auto on = [&](Date day) { return stage_on(stages_of(tree, winter, false, bloom), day); };
  CHECK(on(date_of(2025, 3, 19)).stage == nullptr);
  CHECK(on(date_of(2025, 3, 22)).stage->stage == "first bloom");
  CHECK_FALSE(on(date_of(2025, 3, 22)).seen);
  saw(tree, "bud_swell", date_of(2024, 11, 15));  // out of season
  saw(tree, "green_tip", date_of(2025, 3, 1));
  saw(tree, "pink_or_white_bud", date_of(2025, 3, 12));
  CHECK(on(date_of(2025, 2, 28)).stage == nullptr);
  CHECK(on(date_of(2025, 3, 11)).stage->stage == "green tip");
  CHECK(on(date_of(2025, 3, 22)).stage->stage == "first pink");
  CHECK(on(date_of(2025, 3, 22)).age_days == 10);
}

TEST_CASE("past springs with a damaging night after bloom are counted by hand") {
  HourlySeries hours = years_of_weather(51, 2016, 9, 14.0);
  for (const int year : {2018, 2021, 2023})
    hours.set(LocalHour::at(date_of(year, 4, 6), 5),
              {Celsius(-4.0), Celsius(-5.0), HourOrigin::observed});
  const WeatherRecord record = record_of(hours);
  const Today today = stand_at(record, kNorth, 2024, date_of(2025, 2, 1)).value();
  BloomFinding bloom;
  bloom.stage = "first_bloom";
  bloom.expected = date_of(2025, 4, 1);
  const WinterNights nights = winter_nights(record, today);
  const auto later =
      frost_of(tree_of("peach"), bloom, {&nights, CelsiusDelta(0.0)}, today).after_bloom;
  REQUIRE(later.has_value());
  CHECK(later->springs == 8);
  int expected = 0;
  for (int year = 2017; year <= 2024; ++year) {
    bool damage = false;
    for (LocalHour hour = LocalHour::at(date_of(year, 4, 1), 12);
         hour < LocalHour::at(date_of(year, 6, 1), 12); hour = hour + 1) {
      damage = damage || hours.at(hour)->lowest.degrees() <= (26.0 - 32.0) / 1.8 + 1e-6;
    }
    expected += damage;
  }
  CHECK(later->with_damage == expected);
  CHECK(expected >= 3);
}

TEST_CASE(
    "a daily record's night has the day's own minimum, not the curve's reading at a whole hour") {
  DailySeries days;
  for (Date day = date_of(2025, 1, 1); day <= date_of(2025, 1, 20); day = plus_days(day, 1))
    days.set(day, DailyExtremes{Celsius(-3.0), Celsius(9.0)});
  const WeatherRecord record = weather_record({}, days, 38.0);
  CHECK(night_lows(record, date_of(2025, 1, 5), date_of(2025, 1, 5)).front().lowest ==
        Celsius(-3.0));
  CHECK(night_lows(record, date_of(2025, 1, 5), date_of(2025, 1, 5)).front().by_extremes);
}

TEST_CASE("warm hours, and what they took") {
  std::vector<double> celsius(24 * 10, 5.0);
  celsius.insert(celsius.end(), 10, 17.0);  // Utah takes a half an hour
  celsius.insert(celsius.end(), 6, 20.0);   // and one
  celsius.insert(celsius.end(), 24, Celsius::from_fahrenheit(60.0).degrees());
  const WeatherRecord record =
      record_of(series_of(LocalHour::at(date_of(2024, 11, 1), 0), celsius));
  const WarmHours warm = warm_hours(record, winter_chill(record, stand_at(record, kNorth).value()));
  CHECK(warm.hours == 16);
  for (const WarmHours::Loss& loss : warm.losses) {
    if (loss.measure == ChillMeasure::utah) CHECK(loss.taken == 11.0);
    if (loss.measure == ChillMeasure::chill_hours_less_warm) CHECK(loss.taken == 16.0);
    CHECK(chill_model(loss.measure).can_fall);
  }
}

TEST_CASE("hard freezes while leaves are on, and midwinter lows against dormant buds") {
  const WeatherRecord record = record_of(nights_at(
      100,
      {{date_of(2024, 11, 5), -2.3}, {date_of(2024, 11, 9), -2.1}, {date_of(2025, 1, 20), -18.5}}));
  const Today today = stand_at(record, kNorth).value();
  const WinterNights nights = winter_nights(record, today);
  const auto freezes =
      freezes_before_leaf_fall(nights.now, date_of(2024, 11, 1), date_of(2024, 12, 1));
  REQUIRE(freezes.size() == 1);
  CHECK(freezes.front().evening == date_of(2024, 11, 4));
  const auto peach = dormant_cold(tree_of("peach"), {&nights, CelsiusDelta(0.0)},
                                  today);  // watched from 0 °F, -17.8 °C
  REQUIRE(peach.has_value());
  CHECK_FALSE(peach->likely);
  CHECK_FALSE(dormant_cold(tree_of("apple"), {&nights, CelsiusDelta(0.0)}, today).has_value());
  CHECK_FALSE(dormant_cold(tree_of("fig"), {&nights, CelsiusDelta(0.0)}, today).has_value());
}

TEST_CASE("swings of more than 20 °C in two days, after rest has ended only") {
  std::vector<double> celsius(24 * 30, 8.0);
  celsius[24 * 5 + 14] = 20.0;
  celsius[24 * 6 + 5] = -2.0;  // before rest ends
  celsius[24 * 20 + 14] = 21.0;
  celsius[24 * 22 + 5] = 0.9;  // 39 hours later, 20.1 °C colder
  celsius[24 * 25 + 14] = 19.0;
  celsius[24 * 27 + 20] = -3.0;  // 54 hours later
  const WeatherRecord record =
      record_of(series_of(LocalHour::at(date_of(2024, 11, 1), 0), celsius));
  const auto swings = swings_after(record, date_of(2024, 11, 12), stand_at(record, kNorth).value());
  REQUIRE(swings.size() == 1);
  CHECK(swings.front().from == LocalHour::at(date_of(2024, 11, 21), 14));
  CHECK_THAT(swings.front().by.degrees(), WithinAbs(20.1, 1e-5));
}

TEST_CASE("what is left of a crop follows from the buds killed and the buds needed") {
  // Source: Utah State University Extension (seen): apple, pear and peach may need 10 to 15 of 100
  // buds for a full crop, cherry well over half.
  const auto after = [](const char* species, std::vector<double> lows_fahrenheit) {
    Tree tree = tree_of(species);
    saw(tree, "full_bloom", date_of(2025, 2, 10));
    std::map<Date, double> lows;
    for (std::size_t i = 0; i < lows_fahrenheit.size(); ++i)
      lows[plus_days(date_of(2025, 2, 12), static_cast<int>(i))] = f(lows_fahrenheit[i]).degrees();
    const WeatherRecord record = record_of(nights_at(115, lows));
    const Today today = stand_at(record, kNorth).value();
    const WinterNights nights = winter_nights(record, today);
    return frost_of(tree, {}, {&nights, CelsiusDelta(0.0)}, today);
  };
  const TreeFrost untouched = after("apple", {28.5});  // the 10 % figure is 28 °F
  REQUIRE(untouched.crop.has_value());
  CHECK(untouched.crop->word == CropLeft::Word::not_touched);
  CHECK(untouched.worst()->level == FrostLevel::watch);
  const TreeFrost part = after("apple", {27.0});  // 10 to 90 of 100 live: 15 are needed
  CHECK(part.crop->word == CropLeft::Word::perhaps);
  CHECK(part.crop->alive == Range{10, 90});
  CHECK(part.crop->damaging_nights == 1);
  // After a second such night no published figure holds a floor.
  CHECK(after("apple", {27.0, 27.0}).crop->alive == Range{0, 90});
  const TreeFrost lost = after("apple", {24.0});  // nine tenths at 25 °F
  CHECK(lost.crop->word == CropLeft::Word::unlikely);
  CHECK(lost.crop->alive == Range{0, 10});
  const TreeFrost cherry = after("sweet_cherry", {27.0});
  CHECK(cherry.crop->needed == Range{50, 100});
  CHECK(cherry.crop->word == CropLeft::Word::perhaps);
  CHECK(after("sweet_cherry", {24.0}).crop->word == CropLeft::Word::unlikely);
  // Where no share is published none is made up.
  CHECK_FALSE(after("apricot", {20.0}).crop.has_value());
  CHECK(after("apricot", {20.0}).worst()->level == FrostLevel::ninety_percent);
}

TEST_CASE("an old note of the buds is told to be old once bloom was expected since") {
  Tree tree = tree_of("peach");
  saw(tree, "bud_swell", date_of(2025, 1, 20));
  BloomFinding bloom;
  bloom.stage = "first_bloom";
  bloom.method = BloomMethod::own_records;
  bloom.expected = date_of(2025, 2, 15);
  const WeatherRecord record = record_of(nights_at(115, {}));
  const WinterNights nights = winter_nights(record, stand_at(record, kNorth).value());
  const auto frost = [&](Date day) {
    const Today today = stand_at(record, kNorth, 2024, day).value();
    return frost_of(tree, bloom, {&nights, CelsiusDelta(0.0)}, today);
  };
  CHECK_FALSE(frost(date_of(2025, 2, 14)).look_again);
  const TreeFrost later = frost(date_of(2025, 2, 20));
  CHECK(later.look_again);
  CHECK(later.now.stage->stage == "first swelling");
  CHECK(later.now.age_days == 31);
  saw(tree, "full_bloom", date_of(2025, 2, 18));
  CHECK_FALSE(frost(date_of(2025, 2, 20)).look_again);
}

TEST_CASE("two months after bloom a frost is no longer laid against blossom") {
  Tree tree = tree_of("peach");
  saw(tree, "first_bloom", date_of(2025, 3, 1));
  // The next autumn's first frost is as cold as what kills blossom.
  const WeatherRecord record =
      record_of(nights_at(364, {{date_of(2025, 4, 28), -5.0}, {date_of(2025, 10, 20), -5.0}}));
  const WinterNights nights = winter_nights(record, stand_at(record, kNorth, 2024).value());
  const auto frost = [&](Date day) {
    const Today today = stand_at(record, kNorth, 2024, day).value();
    return frost_of(tree, {}, {&nights, CelsiusDelta(0.0)}, today);
  };
  CHECK_FALSE(frost(date_of(2025, 4, 29)).bloom_over);
  const TreeFrost later = frost(date_of(2025, 10, 25));
  CHECK(later.bloom_over);
  REQUIRE(later.nights.size() == 1);
  CHECK(later.nights[0].night.at.date() == date_of(2025, 4, 28));
}

TEST_CASE("nights to come are not known yet") {
  const WeatherRecord record =
      record_of(nights_at(115, {{date_of(2025, 2, 11), -6.0}, {date_of(2025, 2, 15), -9.0}}));
  const Today today = stand_at(record, kNorth, 2024, date_of(2025, 2, 10)).value();
  for (const NightLow& night : winter_nights(record, today).now) {
    CHECK(night.at < today.now);
    CHECK(night.lowest > Celsius(-6.0));
  }
}

TEST_CASE("the coldest night is told of the stage of today, and a forecast is laid against it") {
  // Peach, 10 %: 26 °F in first bloom, 18 °F at first swelling (the table's source).
  Tree tree = tree_of("peach");
  saw(tree, "bud_swell", date_of(2025, 2, 10));
  saw(tree, "first_bloom", date_of(2025, 2, 20));
  WeatherRecord record =
      record_of(nights_at(116, {{date_of(2025, 2, 15), -5.0}, {date_of(2025, 2, 23), -2.0}}));
  const Today today = stand_at(record, kNorth).value();
  const auto frost = [&] {
    const WinterNights nights = winter_nights(record, today);
    return frost_of(tree, BloomFinding{}, {&nights, CelsiusDelta(0.0)}, today);
  };
  const TreeFrost now = frost();
  REQUIRE(now.coldest);
  CHECK(now.coldest->at.date() == date_of(2025, 2, 15));
  REQUIRE(now.coldest_in_stage);
  CHECK(now.coldest_in_stage->at.date() == date_of(2025, 2, 23));
  CHECK(now.nights.empty());  // -2.0 °C is more than a degree above 26 °F, -3.33 °C
  CHECK_FALSE(now.coming);
  record.forecast = HourlySeries(today.now);
  for (int hour = 0; hour < 48; ++hour)
    record.forecast.set(today.now + hour, reading(hour == 29 ? -3.4 : 6.0));
  const TreeFrost warned = frost();
  REQUIRE(warned.coming);
  CHECK(warned.coming->level == FrostLevel::ten_percent);  // 26 °F is -3.33 °C
  CHECK(warned.coming->night.at == today.now + 29);
  CHECK(warned.nights.size() == now.nights.size());
}

TEST_CASE("the last frost of past springs, where every night after it is known") {
  HourlySeries hours(LocalHour::at(date_of(2020, 9, 1), 0));
  for (LocalHour hour = hours.first(); hour < LocalHour::at(date_of(2025, 2, 1), 0);
       hour = hour + 1)
    hours.set(hour, reading(9.0));
  const auto freeze = [&](Date morning, double low) {
    hours.set(LocalHour::at(morning, 5), {Celsius(low + 1.0), Celsius(low), HourOrigin::observed});
  };
  freeze(date_of(2021, 3, 3), -1.0);
  freeze(date_of(2021, 4, 9), 0.0);  // at 0 °C it counts
  freeze(date_of(2021, 4, 20), 0.1);
  freeze(date_of(2022, 3, 30), -2.0);
  knock_out(hours, date_of(2022, 5, 10), 2);  // a later frost may have gone unread
  freeze(date_of(2024, 1, 2), -3.0);
  const WeatherRecord record = record_of(hours);
  const Today today = stand_at(record, kNorth).value();
  const LastFrosts last = last_frosts(winter_nights(record, today), today, false);
  REQUIRE(last.springs.size() == 2);
  CHECK(last.springs[0].year == 2020);
  CHECK(last.springs[0].night.at == LocalHour::at(date_of(2021, 4, 9), 5));
  CHECK(last.springs[0].this_year == date_of(2025, 4, 9));
  CHECK(last.springs[1].night.at.date() == date_of(2024, 1, 2));
  CHECK(last.without == 1);    // 2022-23
  CHECK(last.not_known == 1);  // 2021-22
}

TEST_CASE("a keeper who lets the winter begin after New Year still has autumn behind it") {
  const Winter late = winter_of({{1, 1}, {3, 31}}, 2025);
  CHECK(spring_buds_from(late, false) == date_of(2024, 12, 1));
  CHECK(spring_buds_from(winter_of(kNorth, 2024), false) == date_of(2024, 12, 1));
  CHECK(spring_buds_from(winter_of({{9, 1}, {4, 30}}, 2024), false) == date_of(2024, 12, 1));
  CHECK(spring_buds_from(winter_of(default_winter_window(true), 2025), true) ==
        date_of(2025, 6, 1));
}

TEST_CASE("leaves held and bloom out of season are told until leaves fall and spring begins") {
  Tree tree = tree_of("apple");
  const WeatherRecord record = record_of(nights_at(110, {}));
  const Today today = stand_at(record, kNorth).value();
  CHECK_FALSE(odd_signs(tree, today, false).any());
  saw(tree, "leaves_held", date_of(2024, 11, 20));  // still the time for it
  saw(tree, "first_bloom", date_of(2024, 11, 12));
  CHECK_FALSE(odd_signs(tree, today, false).leaves_held.has_value());
  CHECK(odd_signs(tree, today, false).bloom_out_of_season == date_of(2024, 11, 12));
  // Flowers of autumn are no stage of the spring's buds.
  CHECK(stages_of(tree, today.winter, false, {}).empty());
  saw(tree, "leaves_held", date_of(2025, 1, 5));
  CHECK(odd_signs(tree, today, false).leaves_held == date_of(2025, 1, 5));
  saw(tree, "leaves_fallen", date_of(2025, 1, 20));
  CHECK_FALSE(odd_signs(tree, today, false).leaves_held.has_value());
}

TEST_CASE("a long fall is one swing, from its height to its depth") {
  // Two days at 10 °C, then a degree an hour down to -20 °C within thirty hours, and no change.
  std::vector<double> celsius(48 + 24 * 10, 10.0);
  for (int hour = 1; hour <= 30; ++hour) celsius.push_back(10.0 - hour);
  celsius.insert(celsius.end(), 72, -20.0);
  const LocalHour first = LocalHour::at(date_of(2024, 11, 1), 0);
  const WeatherRecord record = record_of(series_of(first, celsius));
  const auto swings = swings_after(record, date_of(2024, 11, 5), stand_at(record, kNorth).value());
  REQUIRE(swings.size() == 1);
  CHECK_THAT(swings.front().by.degrees(), WithinAbs(30.0, 1e-5));
  CHECK(swings.front().to == first + (48 + 24 * 10 + 29));
}

TEST_CASE("swings of two days that follow one another are told one by one") {
  std::vector<double> celsius(24 * 30, 8.0);
  celsius[24 * 10 + 14] = 22.0;
  celsius[24 * 11 + 5] = 0.0;  // 22 °C down
  celsius[24 * 14 + 5] = -1.0;
  celsius[24 * 15 + 14] = 21.0;  // 22 °C up within 33 hours
  const WeatherRecord record =
      record_of(series_of(LocalHour::at(date_of(2024, 11, 1), 0), celsius));
  const auto swings = swings_after(record, date_of(2024, 11, 5), stand_at(record, kNorth).value());
  REQUIRE(swings.size() == 2);
  CHECK(swings[0].from == LocalHour::at(date_of(2024, 11, 11), 14));
  CHECK(swings[0].to < swings[1].from);
  CHECK_THAT(swings[1].by.degrees(), WithinAbs(22.0, 1e-9));
}
