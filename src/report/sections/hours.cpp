// The cold hour by hour: every hour as a cell, every day's range, and what each week brought, on
// one axis of days.
#include <algorithm>
#include <cmath>

#include "document/chart.h"
#include "report/reckoning.h"
#include "report/sections.h"
#include "report/speak.h"

namespace winterfolio {
namespace {

constexpr std::int32_t kHoursForHalves = 24 * 14;  ///< from which halves of a winter mean something

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
  SunTimes sun = sun_times(facts);
  if (sun.sunset.empty()) return;
  raster.sunset = std::move(sun.sunset);
  raster.sunrise = std::move(sun.sunrise);
  raster.sunset_label = say("chart.sunset");
  raster.sunrise_label = say("chart.sunrise");
}

Text raster_title(const SeasonFacts& facts) {
  const ColdHours hours = cold_hours(facts);
  const Number line = line_temperature(*facts.orchard, kChillLine);
  if (hours.known == 0 || hours.cold == 0) return say("hours.raster-none", {{"line", line}});
  // Under a third of them, or over two thirds, came in the first half of the hours so far.
  const long early = hours.cold_before_middle;
  const bool told = facts.chill.counts.coverage() >= kLeastCoverage &&
                    facts.chill.counts.hours >= kHoursForHalves;
  const char* id = !told                        ? "hours.raster-even"
                   : early * 3 < hours.cold     ? "hours.raster-late"
                   : early * 3 > hours.cold * 2 ? "hours.raster-early"
                                                : "hours.raster-even";
  return say(id, {{"cold", count(hours.cold)},
                  {"known", count(hours.known)},
                  {"line", line},
                  {"middle", day(hours.middle.date())}});
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

std::vector<DailyRange::Day> daily_values(const DaysOfWinter& days) {
  std::vector<DailyRange::Day> values;
  for (std::size_t i = 0; i < days.low.size(); ++i) {
    if (days.low[i] && days.high[i])
      values.push_back({plus_days(days.first, static_cast<int>(i)), Celsius(*days.low[i]),
                        Celsius(*days.high[i])});
  }
  return values;
}

std::optional<DailyCurve> usual(const DaysOfWinter& days, std::vector<double> values) {
  return values.empty() ? std::nullopt : std::optional(DailyCurve{days.first, std::move(values)});
}

std::vector<DailyRange::Event> events_of(const SeasonFacts& facts) {
  std::vector<DailyRange::Event> events;
  if (const NightLow* coldest = coldest_night(facts)) {
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
  const DaysOfWinter days = days_of_winter(facts);
  range.values = daily_values(days);
  range.usual_low = usual(days, days.usual_low);
  range.usual_high = usual(days, days.usual_high);
  range.gaps = day_gaps(facts);
  range.events = events_of(facts);
  range.freezing_label = value_text(line_temperature(*facts.orchard, kFreezing));
  range.chill_label = value_text(line_temperature(*facts.orchard, kChillLine));
  range.warm_label = value_text(line_temperature(*facts.orchard, kWarmLine));
  Figure figure;
  const bool few = facts.chill.counts.coverage() < kLeastCoverage;
  figure.title = say(few ? "hours.range-title-few" : "hours.range-title",
                     {{"frosts", count(static_cast<long>(facts.frost_nights.size()))},
                      {"warm", count(days.warm_days)},
                      {"line", line_temperature(*facts.orchard, kWarmLine)}});
  figure.subtitle = say(range.usual_low ? "hours.range-subtitle-usual" : "hours.range-subtitle");
  figure.chart = std::make_shared<const Chart>(Chart{std::move(range)});
  figure.height = FigureHeight::quarter;
  return figure;
}

// ---- weeks
// -----------------------------------------------------------------------------------------------------------

Figure weeks_figure(const SeasonFacts& facts, const ShownMeasure& shown) {
  WeeklyGain weekly;
  weekly.days = days_so_far(facts);
  const std::vector<WeekGain> gains = weekly_gains(facts, shown);
  for (const WeekGain& week : gains) {
    weekly.weeks.push_back({week.days,
                            {week.gain.low, week.gain.high},
                            week.median,
                            value_text(amount(shown.measure, week.gain))});
  }
  const WeeksCompared compared = weeks_compared(gains);
  // Where so much is missing that most weeks may be either, no count is told.
  const bool told = compared.all > 0 &&
                    2 * (compared.perhaps_under - compared.under) <= compared.all &&
                    facts.chill.counts.coverage() >= kLeastCoverage;
  Figure figure;
  figure.title = !told ? say("hours.weeks-title-alone")
                       : say(compared.under == compared.perhaps_under ? "hours.weeks-title"
                                                                      : "hours.weeks-title-between",
                             {{"under", count(compared.under)},
                              {"most", count(compared.perhaps_under)},
                              {"all", count(compared.all)}});
  figure.subtitle = say(compared.all == 0 ? "hours.weeks-subtitle"
                        : facts.reduced   ? "hours.weeks-subtitle-extremes"
                                          : "hours.weeks-subtitle-median",
                        {{"measure", measure_title(shown.measure)}});
  figure.chart = std::make_shared<const Chart>(Chart{std::move(weekly)});
  figure.height = FigureHeight::own;
  return figure;
}

// ---- how good the readings are
// ---------------------------------------------------------------------------------------

Text readings_sentence(const SeasonFacts& facts) {
  const HourCounts& counts = facts.chill.counts;
  if (counts.missing == 0) return say("readings.none-missing", {{"hours", count(counts.hours)}});
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
  if (!weekly_gains(facts, facts.shown.front()).empty())
    blocks.emplace_back(weeks_figure(facts, facts.shown.front()));
  blocks.emplace_back(readings_block(facts), Importance::essential);
  return blocks;
}

}  // namespace winterfolio
