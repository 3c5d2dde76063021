// Made-up charts of every kind, of any size, from dice; nothing in them is a fact.
#pragma once

#include <algorithm>
#include <cmath>
#include <random>

#include "charts/charts.h"

namespace winterfolio::test {

using Dice = std::mt19937;

inline double between(Dice& dice, double low, double high) {
  return low + (high - low) * (static_cast<double>(dice()) / 4294967296.0);
}
inline int one_of(Dice& dice, int n) { return static_cast<int>(dice() % static_cast<unsigned>(n)); }
inline bool heads(Dice& dice) { return dice() % 2 == 0; }

inline const Date kFirst = date_of(2026, 11, 1);
inline const Date kEnd = date_of(2027, 2, 28);

inline std::string made_up_name(Dice& dice) {
  static const char* const kParts[] = {"Golden", "Old", "Gate",   "Late",        "Fern",
                                       "Mill",   "Red", "Winter", "of the Lane", "Röd"};
  std::string name;
  for (int n = 1 + one_of(dice, 3); n > 0; --n)
    name += (name.empty() ? "" : " ") + std::string(kParts[one_of(dice, 10)]);
  return name;
}
inline MarkState any_state(Dice& dice) { return static_cast<MarkState>(one_of(dice, 4)); }

/// A curve that rises through the winter to about `end`, standing still now and then.
inline std::vector<double> rising(Dice& dice, double end) {
  std::vector<double> v;
  double sum = 0.0;
  for (int i = 0; i < 120; ++i)
    v.push_back(sum += end / 60.0 * between(dice, 0, 1) * (one_of(dice, 5) > 0 ? 1 : 0));
  return v;
}

inline ChillBuildUp made_up_build_up(Dice& dice, int needs) {
  ChillBuildUp c;
  c.days = {kFirst, kEnd};
  const int days = 20 + one_of(dice, 90);
  const double scale = between(dice, 20, 90);
  const std::vector<double> own = rising(dice, scale);
  c.this_winter.push_back({LocalHour::at(kFirst, 0), 0.0});
  for (int i = 0; i < days; ++i)
    c.this_winter.push_back(
        {LocalHour::at(plus_days(kFirst, i + 1), 0), own[static_cast<std::size_t>(i)]});
  const ChillBuildUp::Point last = c.this_winter.back();
  if (heads(dice)) {
    const int from = one_of(dice, days - 8);
    c.gaps.push_back({LocalHour::at(plus_days(kFirst, from), 5),
                      LocalHour::at(plus_days(kFirst, from + 7), 3),
                      {literal("no readings"), literal("for a week")}});
  }
  c.last = ChillBuildUp::LastReading{
      last,
      Spread{last.amount, last.amount + between(dice, 0, 6)},
      {literal("This winter, 7 February:"), literal("49.4 recorded, 51–55")}};
  if (heads(dice)) {
    c.median = DailyCurve{kFirst, rising(dice, scale)};
    c.middle_low = c.middle_high = c.median;
    for (double& v : c.middle_low->values) v *= 0.85;
    for (double& v : c.middle_high->values) v *= 1.15;
    c.extremes = {{{kFirst, rising(dice, scale * 1.3)}, literal("2015–16, most cold")},
                  {{kFirst, rising(dice, scale * 0.7)}, literal("2024–25, least cold")}};
    ChillBuildUp::Forecast f{plus_days(kFirst, days), {}, {}, {}};
    for (int i = days; i < 120; ++i) {
      const double more = (i - days) * 0.5;
      f.low.push_back(last.amount + more * 0.8);
      f.middle.push_back(last.amount + more);
      f.high.push_back(last.amount + more * 1.2);
    }
    c.forecast = f;
  }
  for (int i = 0; i < needs; ++i) {
    const double low = between(dice, 5, scale * 1.3),
                 high = heads(dice) ? low : low + between(dice, 0, 12);
    c.needs.push_back({{low, high},
                       any_state(dice),
                       literal(made_up_name(dice)),
                       value_text(range(low, high)),
                       literal(heads(dice) ? "in 9 of 12" : "31 Jan"),
                       std::nullopt,
                       one_of(dice, 4) == 0});
  }
  c.needs_head = literal("needs");
  c.when_head = literal("when");
  c.note = literal("Rings: a need met. In 9 of 12: met by 28 February in nine of twelve winters.");
  return c;
}

inline DailyRange made_up_range(Dice& dice, int events) {
  DailyRange c;
  c.days = {kFirst, date_of(2027, 2, 7)};
  c.scale = heads(dice) ? DegreeScale::celsius : DegreeScale::fahrenheit;
  for (int i = 0; i < 99; ++i) {
    if (i > 36 && i < 45) continue;
    const double low = between(dice, -6, 9);
    c.values.push_back({plus_days(kFirst, i), Celsius(low), Celsius(low + between(dice, 2, 18))});
  }
  c.gaps = {{LocalHour::at(plus_days(kFirst, 37), 0),
             LocalHour::at(plus_days(kFirst, 45), 0),
             {literal("no readings")}}};
  for (int i = 0; i < events; ++i) {
    c.events.push_back(
        {plus_days(kFirst, one_of(dice, 99)), literal(made_up_name(dice) + " on a day")});
  }
  c.freezing_label = literal("32");
  c.chill_label = literal("45");
  c.warm_label = literal("60");
  return c;
}

inline HourRaster made_up_raster(Dice& dice) {
  HourRaster c;
  c.days = {kFirst, plus_days(kFirst, 20 + one_of(dice, 90))};
  const int nights = days_between(c.days.from, c.days.to) + 1;
  for (int i = 0; i < nights * 24 - 12; ++i) {
    const double t = 8.0 - 8.0 * std::sin((i % 24) * 0.26) + between(dice, -4, 4);
    c.hours.push_back(i > 300 && i < 400 ? std::nullopt : std::optional<Celsius>(Celsius(t)));
  }
  for (const double f : {27.0, 32.0, 38.5, 45.0, 52.5, 60.0, 67.5}) {
    const auto line = f == 32   ? HourRaster::Line::freezing
                      : f == 45 ? HourRaster::Line::chill
                      : f == 60 ? HourRaster::Line::warm
                                : HourRaster::Line::none;
    c.edges.push_back(
        {Celsius::from_fahrenheit(f), value_text(number(f, f == 38.5 ? 1 : 0)), line});
  }
  for (int i = 0; i < nights; ++i) {
    c.sunset.push_back(5.0);
    c.sunrise.push_back(19.0);
  }
  c.sunset_label = literal("sunset");
  c.sunrise_label = literal("sunrise");
  c.colder = literal("colder");
  c.warmer = literal("warmer");
  return c;
}

inline WeeklyGain made_up_weeks(Dice& dice) {
  WeeklyGain c;
  c.days = {kFirst, plus_days(kFirst, 97)};
  for (int w = 0; w < 14; ++w) {
    const double low = between(dice, 0, 7), high = one_of(dice, 5) == 0 ? low + 3 : low;
    c.weeks.push_back({{plus_days(kFirst, w * 7), plus_days(kFirst, w * 7 + 6)},
                       {low, high},
                       heads(dice) ? std::optional(between(dice, 0, 7)) : std::nullopt,
                       value_text(range(low, high, 1))});
  }
  return c;
}

inline SeasonStrip made_up_strip(Dice& dice) {
  SeasonStrip c;
  c.days = {kFirst, date_of(2027, 4, 30)};
  Date at = plus_days(kFirst, one_of(dice, 30));
  for (int phase = 0; phase < 7 && at < c.days.to; ++phase) {
    const Date to = plus_days(at, 3 + one_of(dice, 40));
    if (heads(dice)) c.buds.push_back({static_cast<BudPhase>(phase), {at, to}});
    at = plus_days(to, 1);
  }
  for (int i = 0; i < 6; ++i) c.frost_nights.push_back(plus_days(kFirst, one_of(dice, 98)));
  c.frost_possible = DaySpan{date_of(2027, 2, 8), date_of(2027, 3, 20)};
  if (heads(dice))
    c.work_words = literal("in dry summer weather");
  else
    c.pruning = DaySpan{date_of(2026, 12, 15), date_of(2027, 3, 1)};
  c.work = {{date_of(2027, 2, 13), heads(dice)}};
  c.last_reading = date_of(2027, 2, 7);
  c.buds_label = literal("buds");
  c.frost_label = literal("frost");
  c.work_label = literal("work");
  return c;
}

inline SeasonCalendar made_up_calendar(Dice& dice, int groups, int rows) {
  SeasonCalendar c;
  c.days = {kFirst, date_of(2027, 5, 15)};
  for (int g = 0; g < groups; ++g) {
    SeasonCalendar::Group group{literal(made_up_name(dice).substr(0, 14)), {}};
    for (int r = 0; r < 1 + one_of(dice, rows); ++r) {
      const SeasonStrip strip = made_up_strip(dice);
      group.rows.push_back({std::string(1, static_cast<char>('A' + g % 26)) + std::to_string(r + 1),
                            literal(made_up_name(dice)), strip.buds, one_of(dice, 9) == 0,
                            strip.pruning, strip.work, literal("13 Feb")});
    }
    c.groups.push_back(group);
  }
  c.frost_nights = {date_of(2026, 12, 24), date_of(2026, 12, 25)};
  c.frost_label = literal("two frost nights");
  c.workdays = {{date_of(2027, 1, 16), literal("16")}, {date_of(2027, 2, 13), literal("13")}};
  c.workdays_label = literal("workdays");
  c.last_frosts = {{date_of(2027, 2, 19), literal("19 Feb")},
                   {date_of(2027, 3, 18), literal("18 Mar")}};
  c.last_reading = SeasonCalendar::Line{date_of(2027, 2, 7), literal("last reading, 7 February")};
  c.left_head = literal("species, tree and cultivar");
  c.right_head = literal("prune");
  return c;
}

inline OrchardMap made_up_map(Dice& dice, int trees) {
  OrchardMap m;
  m.measured = true;
  m.north_label = literal("N");
  m.scale_bar = OrchardMap::ScaleBar{10, literal("10 m")};
  const int across = 1 + static_cast<int>(std::sqrt(trees));
  OrchardMap::Area area{literal("The hollow"), {}};
  for (int i = 0; i < trees; ++i) {
    OrchardMap::Tree tree;
    tree.id =
        std::string(1, static_cast<char>('A' + i / across % 26)) + std::to_string(i % across + 1);
    tree.east = 6.0 * (i % across) + between(dice, -1, 1);
    tree.north = -5.0 * (i / across) + between(dice, -1, 1);
    if (heads(dice)) tree.state = any_state(dice);
    tree.lost = one_of(dice, 20) == 0;
    tree.highlighted = i == trees / 2;
    if (i < across) area.trees.push_back(m.trees.size());
    m.trees.push_back(tree);
  }
  m.areas = {area};
  return m;
}

inline VerdictTally made_up_tally(Dice& dice, int trees) {
  VerdictTally t;
  for (int g = 0; g < 4; ++g)
    t.groups.push_back({static_cast<MarkState>(g), literal("some words"), {}});
  for (int i = 0; i < trees; ++i) {
    t.groups[static_cast<std::size_t>(one_of(dice, 4))].ids.push_back(
        std::string(1, static_cast<char>('A' + i / 12 % 26)) + std::to_string(i % 12 + 1));
  }
  return t;
}

inline RankedWinters made_up_ranks(Dice& dice, int winters) {
  RankedWinters r;
  for (int i = 0; i < winters; ++i) {
    const double low = between(dice, 10, 90), high = i == 3 ? low + 4 : low;
    r.rows.push_back(
        {value_text(WinterYears{2000 + i}), {low, high}, value_text(range(low, high)), i == 3});
  }
  return r;
}

inline NeedBar made_up_bar(Dice& dice) {
  NeedBar b;
  b.scale_end = 80;
  const double has = between(dice, 0, 75);
  b.has = {has, has + between(dice, 0, 6)};
  if (heads(dice)) b.likely = Spread{b.has.high, b.has.high + between(dice, 0, 20)};
  const double need = between(dice, 1, 95);
  b.need = Spread{need, heads(dice) ? need : need + 6};
  b.need_from_memory = heads(dice);
  b.measure = literal("chill portions");
  b.need_label = literal("needs 48–53");
  b.has_label = literal("has 49–55");
  b.likely_label = literal("likely 58–66");
  return b;
}

inline SeasonKey whole_key() {
  SeasonKey key;
  for (int i = 0; i <= static_cast<int>(SeasonKey::Mark::last_frost); ++i) {
    key.entries.push_back({static_cast<SeasonKey::Mark>(i), literal("mark " + std::to_string(i))});
  }
  return key;
}

}  // namespace winterfolio::test
