// The cold hour by hour: every hour as a cell, every day's range, and what each week brought, on
// one axis of days.
#include <algorithm>
#include <cmath>

#include "document/chart.h"
#include "findings/statistics.h"
#include "report/sections.h"
#include "report/speak.h"
#include "weather/daily_to_hourly.h"
#include "weather/solar.h"

namespace winterfolio {
namespace {

/// The days drawn: from the winter's first to the last reading's.
DaySpan days_so_far(const SeasonFacts& facts) {
  return {facts.today.winter.from,
          std::max(facts.today.winter.from, (facts.today.counted_to() - 1).date())};
}

std::vector<ReadingGap> day_gaps(const SeasonFacts& facts) {
  std::vector<ReadingGap> gaps;
  for (const Gap& gap : facts.chill.gaps) {
    if (gap.hours() < 24) continue;
    gaps.push_back(
        {gap.from, gap.to,
         gaps.empty() ? std::vector<Text>{say("chart.no-readings")} : std::vector<Text>{}});
  }
  return gaps;
}

// ---- raster
// ----------------------------------------------------------------------------------------------------------

/// Edges between the eight classes: the trade's three lines, and the middles between and beyond
/// them.
std::vector<HourRaster::Edge> raster_edges(const Orchard& orchard) {
  struct Row {
    double fahrenheit;
    HourRaster::Line line;
  };
  constexpr Row kRows[] = {{27, HourRaster::Line::none},   {32, HourRaster::Line::freezing},
                           {38.5, HourRaster::Line::none}, {45, HourRaster::Line::chill},
                           {52.5, HourRaster::Line::none}, {60, HourRaster::Line::warm},
                           {67.5, HourRaster::Line::none}};
  std::vector<HourRaster::Edge> edges;
  for (const Row& row : kRows) {
    const Celsius at = Celsius::from_fahrenheit(row.fahrenheit);
    const double shown =
        orchard.units == TemperatureUnits::fahrenheit ? row.fahrenheit : at.degrees();
    edges.push_back({at, value_text(number(shown, shown == std::round(shown) ? 0 : 1)), row.line});
  }
  return edges;
}

void add_sun(HourRaster& raster, const SeasonFacts& facts) {
  const Orchard& orchard = *facts.orchard;
  if (!orchard.longitude || !facts.utc_offset_minutes) return;
  for (Date date = raster.days.from; date <= raster.days.to; date = plus_days(date, 1)) {
    const AlmanacSun sun = almanac_sun(orchard.latitude, day_of_year(date));
    if (sun.day_length <= 0.0 || sun.day_length >= 24.0) {
      raster.sunset.clear();
      raster.sunrise.clear();
      return;
    }
    const double down =
        (sun.sunset_utc(*orchard.longitude) + *facts.utc_offset_minutes) / 60.0 - 12.0;
    const AlmanacSun next = almanac_sun(orchard.latitude, day_of_year(plus_days(date, 1)));
    const double up =
        (next.sunrise_utc(*orchard.longitude) + *facts.utc_offset_minutes) / 60.0 + 12.0;
    raster.sunset.push_back(std::remainder(down - 12.0, 24.0) + 12.0);
    raster.sunrise.push_back(std::remainder(up - 12.0, 24.0) + 12.0);
  }
  raster.sunset_label = say("chart.sunset");
  raster.sunrise_label = say("chart.sunrise");
}

long cold_hours(const SeasonFacts& facts, LocalHour from, LocalHour to) {
  long n = 0;
  for (LocalHour hour = from; hour < to; hour = hour + 1) {
    const auto reading = facts.record->hours.at(hour);
    n += reading && reading->mean <= kChillLine + kLineSlack;
  }
  return n;
}

Text raster_title(const SeasonFacts& facts) {
  const LocalHour from = facts.today.winter.begin();
  const LocalHour to = facts.today.counted_to();
  const long known = facts.chill.counts.hours - facts.chill.counts.missing;
  const long cold = cold_hours(facts, from, to);
  if (known == 0 || cold == 0)
    return say("hours.raster-none", {{"line", line_temperature(*facts.orchard, kChillLine)}});
  const LocalHour middle = from + (to - from) / 2;
  const long early = cold_hours(facts, from, middle);
  // The days on which a quarter and three quarters of the cold hours had come tell where the cold
  // lay.
  const char* id = early * 3 < cold       ? "hours.raster-late"
                   : early * 3 > cold * 2 ? "hours.raster-early"
                                          : "hours.raster-even";
  return say(id, {{"cold", count(cold)},
                  {"known", count(known)},
                  {"line", line_temperature(*facts.orchard, kChillLine)},
                  {"middle", day(middle.date())}});
}

Figure raster_figure(const SeasonFacts& facts) {
  HourRaster raster;
  raster.days = days_so_far(facts);
  const LocalHour noon = LocalHour::at(raster.days.from, 12);
  for (LocalHour hour = noon; hour < LocalHour::at(raster.days.to, 36); hour = hour + 1) {
    const auto reading =
        hour < facts.today.counted_to() ? facts.record->hours.at(hour) : std::nullopt;
    raster.hours.push_back(reading ? std::optional(reading->mean) : std::nullopt);
  }
  raster.edges = raster_edges(*facts.orchard);
  add_sun(raster, facts);
  raster.colder = say("chart.colder");
  raster.warmer =
      say("chart.warmer", {{"freezing", value_text(line_temperature(*facts.orchard, kFreezing))},
                           {"chill", value_text(line_temperature(*facts.orchard, kChillLine))},
                           {"warm", value_text(line_temperature(*facts.orchard, kWarmLine))}});
  Figure figure;
  figure.title = raster_title(facts);
  figure.subtitle = say(facts.chill.detail == WinterDetail::hourly ? "hours.raster-subtitle"
                                                                   : "hours.raster-subtitle-daily");
  figure.chart = std::make_shared<const Chart>(Chart{std::move(raster)});
  figure.height = FigureHeight::own;
  return figure;
}

// ---- daily range
// -----------------------------------------------------------------------------------------------------

struct WarmAndCold {
  long warm_days = 0;
};

std::vector<DailyRange::Day> daily_values(const SeasonFacts& facts, long& warm_days) {
  std::vector<DailyRange::Day> values;
  const DaySpan span = days_so_far(facts);
  for (Date date = span.from; date <= span.to; date = plus_days(date, 1)) {
    std::optional<DailyRange::Day> day;
    for (int hour = 0; hour < 24; ++hour) {
      const LocalHour at = LocalHour::at(date, hour);
      const auto reading =
          at < facts.today.counted_to() ? facts.record->hours.at(at) : std::nullopt;
      if (!reading) continue;
      if (!day) day = DailyRange::Day{date, reading->lowest, reading->mean};
      day->low = std::min(day->low, reading->lowest);
      day->high = std::max(day->high, reading->mean);
    }
    if (!day) continue;
    warm_days += day->high > kWarmLine + kLineSlack;
    values.push_back(*day);
  }
  return values;
}

/// The average day of past winters: the mean of each day's extremes, smoothed over a week either
/// side.
std::optional<DailyCurve> usual(const SeasonFacts& facts, bool low) {
  constexpr int kSmooth = 7;
  const std::vector<Winter> winters =
      winters_on_record(*facts.record, facts.today.window, facts.today.winter.year);
  if (winters.size() < 3) return std::nullopt;
  const HourlySeries& hours =
      facts.record->by_extremes.empty() ? facts.record->hours : facts.record->by_extremes;
  const DaySpan span = days_so_far(facts);
  const int days = days_between(span.from, span.to) + 1;
  std::vector<double> sums(static_cast<std::size_t>(days), 0.0);
  std::vector<int> counts(static_cast<std::size_t>(days), 0);
  for (const Winter& winter : winters) {
    for (int day = 0; day < days; ++day) {
      std::optional<Celsius> extreme;
      for (int hour = 0; hour < 24; ++hour) {
        const auto reading = hours.at(winter.begin() + day * 24 + hour);
        if (!reading) continue;
        const Celsius value = low ? reading->lowest : reading->mean;
        if (!extreme || (low ? value < *extreme : value > *extreme)) extreme = value;
      }
      if (!extreme) continue;
      sums[static_cast<std::size_t>(day)] += extreme->degrees();
      ++counts[static_cast<std::size_t>(day)];
    }
  }
  DailyCurve curve{span.from, {}};
  for (int day = 0; day < days; ++day) {
    double sum = 0.0;
    int n = 0;
    for (int near = std::max(0, day - kSmooth); near <= std::min(days - 1, day + kSmooth); ++near) {
      sum += sums[static_cast<std::size_t>(near)];
      n += counts[static_cast<std::size_t>(near)];
    }
    if (n == 0) return std::nullopt;
    curve.values.push_back(sum / n);
  }
  return curve;
}

std::vector<DailyRange::Event> events_of(const SeasonFacts& facts) {
  std::vector<DailyRange::Event> events;
  if (!facts.frost_nights.empty()) {
    const auto coldest =
        std::min_element(facts.frost_nights.begin(), facts.frost_nights.end(),
                         [](const auto& a, const auto& b) { return a.lowest < b.lowest; });
    events.push_back(
        {coldest->at.date(),
         say("event.coldest", {{"lowest", temperature(*facts.orchard, coldest->lowest)},
                               {"day", day(coldest->at.date())}})});
  }
  for (const Workday& workday : facts.orchard->workdays) {
    if (workday.on >= facts.today.winter.from && workday.on <= facts.today.as_of) {
      events.push_back(
          {workday.on, say("event.workday", {{"day", day(workday.on, DateForm::brief)}})});
    }
  }
  std::sort(events.begin(), events.end(), [](const auto& a, const auto& b) { return a.on < b.on; });
  return events;
}

Figure range_figure(const SeasonFacts& facts) {
  DailyRange range;
  range.days = days_so_far(facts);
  range.scale = facts.orchard->units == TemperatureUnits::fahrenheit ? DegreeScale::fahrenheit
                                                                     : DegreeScale::celsius;
  long warm_days = 0;
  range.values = daily_values(facts, warm_days);
  range.usual_low = usual(facts, true);
  range.usual_high = usual(facts, false);
  range.gaps = day_gaps(facts);
  range.events = events_of(facts);
  range.freezing_label = value_text(line_temperature(*facts.orchard, kFreezing));
  range.chill_label = value_text(line_temperature(*facts.orchard, kChillLine));
  range.warm_label = value_text(line_temperature(*facts.orchard, kWarmLine));
  Figure figure;
  figure.title =
      say("hours.range-title", {{"frosts", count(static_cast<long>(facts.frost_nights.size()))},
                                {"warm", count(warm_days)},
                                {"line", line_temperature(*facts.orchard, kWarmLine)}});
  figure.subtitle = say(range.usual_low ? "hours.range-subtitle-usual" : "hours.range-subtitle");
  figure.chart = std::make_shared<const Chart>(Chart{std::move(range)});
  figure.height = FigureHeight::quarter;
  return figure;
}

// ---- weeks
// -----------------------------------------------------------------------------------------------------------

double value_at(const std::vector<double>& totals, int day) {
  if (day < 0 || totals.empty()) return 0.0;
  return totals[std::min(static_cast<std::size_t>(day), totals.size() - 1)];
}

std::optional<double> median_gain(const PastCurves& past, int first, int last) {
  if (past.winters.size() < 3) return std::nullopt;
  std::vector<double> gains;
  for (const PastCurve& winter : past.winters)
    gains.push_back(value_at(winter.by_day, last) - value_at(winter.by_day, first - 1));
  return quantile(gains, 0.5);
}

/// What missing hours may have added between two days: the difference of the ranges' upper ends.
double most_gained(const MeasuredChill& chill, int first, int last) {
  if (chill.by_day_range.empty())
    return value_at(chill.by_day, last) - value_at(chill.by_day, first - 1);
  const auto high = [&](int day) {
    if (day < 0) return 0.0;
    return chill
        .by_day_range[std::min(static_cast<std::size_t>(day), chill.by_day_range.size() - 1)]
        .high;
  };
  return high(last) - high(first - 1);
}

bool gap_in(const SeasonFacts& facts, Date from, Date to) {
  return facts.record->hours.missing_in(
             LocalHour::at(from, 0), std::min(LocalHour::at(to, 24), facts.today.counted_to())) > 0;
}

Figure weeks_figure(const SeasonFacts& facts, const ShownMeasure& shown) {
  const MeasuredChill& chill = facts.chill.of(shown.measure);
  WeeklyGain weekly;
  weekly.days = days_so_far(facts);
  long under = 0;
  long compared = 0;
  const int days = days_between(weekly.days.from, weekly.days.to) + 1;
  for (int first = 0; first + 7 <= days; first += 7) {
    WeeklyGain::Week week;
    week.days = {plus_days(weekly.days.from, first), plus_days(weekly.days.from, first + 6)};
    const double gain = value_at(chill.by_day, first + 6) - value_at(chill.by_day, first - 1);
    const bool gap = gap_in(facts, week.days.from, week.days.to) && chill.gaps == GapRange::known;
    week.gain = {gain, gap ? std::max(gain, most_gained(chill, first, first + 6)) : gain};
    week.median = median_gain(shown.past, first, first + 6);
    week.figure = value_text(amount(shown.measure, Range{week.gain.low, week.gain.high}));
    if (week.median) {
      ++compared;
      under += week.gain.high < *week.median;
    }
    weekly.weeks.push_back(std::move(week));
  }
  Figure figure;
  figure.title = compared > 0
                     ? say("hours.weeks-title", {{"under", count(under)}, {"all", count(compared)}})
                     : say("hours.weeks-title-alone");
  figure.subtitle = say(compared > 0 ? "hours.weeks-subtitle-median" : "hours.weeks-subtitle",
                        {{"measure", measure_title(shown.measure)}});
  figure.chart = std::make_shared<const Chart>(Chart{std::move(weekly)});
  figure.height = FigureHeight::own;
  return figure;
}

// ---- how good the readings are
// ---------------------------------------------------------------------------------------

Text readings_sentence(const SeasonFacts& facts) {
  const HourCounts& counts = facts.chill.counts;
  TextList sentences;
  sentences.joined = TextList::Joined::plain;
  if (counts.missing == 0) {
    return say("readings.none-missing", {{"hours", count(counts.hours)}});
  }
  const Gap& longest = facts.chill.gaps.front();
  return say(facts.chill.gaps.size() == 1 ? "readings.one-gap" : "readings.several-gaps",
             {{"missing", count(counts.missing)},
              {"hours", count(counts.hours)},
              {"share", number(100.0 * counts.missing / std::max(1, counts.hours), 1, "percent")},
              {"from", HourOfDay{longest.from, DateForm::day_month}},
              {"to", HourOfDay{longest.to, DateForm::day_month}},
              {"longest", number(longest.hours(), 0, "hours")},
              {"gaps", count(static_cast<long>(facts.chill.gaps.size()))}});
}

Columns readings_block(const SeasonFacts& facts) {
  Columns columns;
  Blocks left;
  left.emplace_back(Heading{3, say("readings.how-good"), {}});
  Blocks right;
  right.emplace_back(Paragraph{Role::body, readings_sentence(facts)}, Importance::essential);
  right.emplace_back(Paragraph{Role::body, say("readings.see-more")});
  columns.columns.push_back({3, std::move(left)});
  columns.columns.push_back({9, std::move(right)});
  return columns;
}

}  // namespace

Blocks hours_section(const SeasonFacts& facts) {
  Blocks blocks;
  blocks.emplace_back(Heading{1, say("hours.title"), {}}, Importance::essential);
  if (facts.chill.counts.hours == facts.chill.counts.missing) {
    blocks.emplace_back(Paragraph{Role::body, say("hours.no-hours")}, Importance::essential);
    return blocks;
  }
  blocks.emplace_back(raster_figure(facts), Importance::essential);
  blocks.emplace_back(range_figure(facts), Importance::essential);
  blocks.emplace_back(weeks_figure(facts, facts.shown.front()));
  blocks.emplace_back(readings_block(facts), Importance::essential);
  return blocks;
}

}  // namespace winterfolio
