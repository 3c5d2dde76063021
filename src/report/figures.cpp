// The list of branches, and those of the orchard, the winter and its readings.
#include "report/figures.h"

#include <array>

#include "models/chill/tally.h"
#include "report/figure_branches.h"
#include "report/figure_ids.h"
#include "report/reckoning.h"
#include "report/tree_map.h"

namespace winterfolio {
namespace figures {
namespace {

namespace unit = figure_unit;

FigureNode gap(const Gap& one) {
  return FigureNode::map()
      .set("from", hour_figure(one.from))
      .set("to", hour_figure(one.to))
      .set("hours", count_figure(one.hours(), unit::kHours));
}

FigureNode doubt(const ReadingsFile::Doubt& one) {
  return FigureNode::map()
      .set("kind", id_figure(one.kind))
      .set("from", hour_figure(one.from))
      .set("to", hour_figure(one.to))
      .set("first_line", count_figure(one.first_line, unit::kPlace))
      .set("last_line", count_figure(one.last_line, unit::kPlace));
}

/// The line of a file where something first happened.
FigureNode line_figure(std::int64_t line) {
  return count_figure(line > 0 ? std::optional(line) : std::nullopt, unit::kPlace);
}

FigureNode overlap(const std::optional<SharedHours>& shared) {
  const SharedHours hours = shared.value_or(SharedHours{});
  return FigureNode::map()
      .set("shared_hours", count_figure(hours.shared, unit::kHours))
      .set("differing_hours", count_figure(hours.differing, unit::kHours))
      .set("largest_difference", amount_figure(shared ? std::optional(hours.largest) : std::nullopt,
                                               unit::kCelsiusDifference));
}

FigureNode nearby_fill(const std::optional<NearbyFill>& fill) {
  const NearbyFill done = fill.value_or(NearbyFill{});
  const auto told = [&](CelsiusDelta delta) {
    return amount_figure(fill ? std::optional(delta.degrees()) : std::nullopt,
                         unit::kCelsiusDifference);
  };
  return FigureNode::map()
      .set("filled_hours", count_figure(done.filled, unit::kHours))
      .set("shared_hours", count_figure(done.fit.shared_hours, unit::kHours))
      .set("own_minus_nearby", told(done.fit.offset))
      .set("error", told(done.fit.error));
}

FigureNode nearby_days_fill(const std::optional<NearbyDaysFill>& fill) {
  const NearbyDaysFill done = fill.value_or(NearbyDaysFill{});
  const auto told = [&](CelsiusDelta delta) {
    return amount_figure(fill ? std::optional(delta.degrees()) : std::nullopt,
                         unit::kCelsiusDifference);
  };
  return FigureNode::map()
      .set("filled_days", count_figure(done.filled, unit::kDays))
      .set("shared_days", count_figure(done.fit.shared_days, unit::kDays))
      .set("own_minus_nearby_minimum", told(done.fit.minimum))
      .set("own_minus_nearby_maximum", told(done.fit.maximum))
      .set("error", told(done.fit.error));
}

FigureNode file(const ReadingsFile& one) {
  FigureNode doubts = FigureNode::list();
  for (const ReadingsFile::Doubt& each : one.doubts) doubts.append(doubt(each));
  const std::int64_t all =
      one.impossible + one.duplicates + one.spikes + one.flagged + one.unreadable;
  return FigureNode::map()
      .set("file", text_figure(one.file))
      .set("format", id_figure(one.format))
      .set("stands_for", id_figure(name(one.stands_for)))
      .set("block", id_figure(one.block))
      .set("daily", yes_no_figure(one.daily))
      .set("readings", count_figure(one.readings, unit::kReadings))
      .set("missing_hours", count_figure(one.missing_hours, unit::kHours))
      .set("first", date_figure(one.first))
      .set("last", date_figure(one.last))
      .set("set_aside", FigureNode::map()
                            .set("all", count_figure(all, unit::kReadings))
                            .set("impossible", count_figure(one.impossible, unit::kReadings))
                            .set("duplicates", count_figure(one.duplicates, unit::kReadings))
                            .set("spikes", count_figure(one.spikes, unit::kReadings))
                            .set("flagged", count_figure(one.flagged, unit::kReadings))
                            .set("unreadable", count_figure(one.unreadable, unit::kReadings)))
      .set("first_set_aside", FigureNode::map()
                                  .set("impossible", line_figure(one.first_impossible))
                                  .set("duplicates", line_figure(one.first_duplicate))
                                  .set("spikes", line_figure(one.first_spike))
                                  .set("flagged", line_figure(one.first_flagged))
                                  .set("unreadable", line_figure(one.first_unreadable)))
      .set("overlap", overlap(one.overlap))
      .set("nearby_fill", nearby_fill(one.nearby))
      .set("nearby_days_fill", nearby_days_fill(one.nearby_days))
      .set("doubts", std::move(doubts));
}

FigureNode districts(const DistrictPressures& district) {
  return FigureNode::map()
      .set("wet_winters", id_figure(name(district.wet_winters)))
      .set("silver_leaf", id_figure(name(district.silver_leaf)))
      .set("eutypa", id_figure(name(district.eutypa)))
      .set("bacterial_canker", id_figure(name(district.bacterial_canker)))
      .set("fire_blight", id_figure(name(district.fire_blight)));
}

FigureNode workday(const Workday& one) {
  return FigureNode::map()
      .set("on", date_figure(one.on))
      .set("from_minute", count_figure(one.from_minute, unit::kMinutes))
      .set("to_minute", count_figure(one.to_minute, unit::kMinutes))
      .set("adults", count_figure(one.adults, unit::kPeople))
      .set("minors", count_figure(one.minors, unit::kPeople))
      .set("skilled", count_figure(one.skilled, unit::kPeople))
      .set("saw_hands", count_figure(one.saw_hands, unit::kPeople))
      .set("ladders", count_figure(one.ladders, unit::kCount))
      .set("tool_sets", count_figure(one.tool_sets, unit::kCount))
      .set("no_show", amount_figure(one.no_show, unit::kShare));
}

FigureNode block(const OrchardBlock& one) {
  return FigureNode::map()
      .set("id", id_figure(one.id))
      .set("name", text_figure(one.name))
      .set("frost_offset", amount_figure(one.frost_offset.degrees(), unit::kCelsiusDifference));
}

/// What the map says of its own size; the places of the trees stand with the trees.
FigureNode map_of(const SeasonFacts& facts) {
  const auto map = orchard_map(facts);
  if (!map) return FigureNode::none();
  return FigureNode::map()
      .set("measured", yes_no_figure(map->measured))
      .set("scale_bar",
           amount_figure(map->scale_bar ? std::optional(map->scale_bar->metres) : std::nullopt,
                         unit::kMetres));
}

/// One value an hour of a series.
template <class Value>
FigureNode each_hour(const SeasonFacts& facts, Value value) {
  FigureNode list = FigureNode::list();
  for (LocalHour hour = facts.today.winter.begin(); hour < facts.today.counted_to();
       hour = hour + 1) {
    list.append(value(facts.record->hours.at(hour)));
  }
  return list;
}

}  // namespace

FigureNode range(const std::optional<Range>& range, FigureUnit unit) {
  if (!range) return FigureNode::none();
  return FigureNode::map()
      .set("low", amount_figure(range->low, unit))
      .set("high", amount_figure(range->high, unit));
}

FigureNode period(const std::optional<Date>& from, const std::optional<Date>& to) {
  return FigureNode::map().set("from", date_figure(from)).set("to", date_figure(to));
}

FigureNode source(const Evidence& because) {
  return FigureNode::map()
      .set("rule", id_figure(because.rule))
      .set("source", text_figure(because.source))
      .set("mark", id_figure(id_of(because.mark)));
}

FigureNode orchard(const SeasonFacts& facts) {
  const Orchard& orchard = *facts.orchard;
  FigureNode blocks = FigureNode::list();
  for (const OrchardBlock& one : orchard.blocks) blocks.append(block(one));
  FigureNode workdays = FigureNode::list();
  for (const Workday& one : orchard.workdays) workdays.append(workday(one));
  return FigureNode::map()
      .set("id", id_figure(orchard.id))
      .set("name", text_figure(orchard.name))
      .set("latitude", amount_figure(orchard.latitude, unit::kDegrees))
      .set("longitude", amount_figure(orchard.longitude, unit::kDegrees))
      .set("elevation", amount_figure(orchard.elevation ? std::optional(orchard.elevation->metres())
                                                        : std::nullopt,
                                      unit::kMetres))
      .set("time_zone", text_figure(orchard.time_zone))
      .set("utc_offset", amount_figure(facts.utc_offset_minutes, unit::kMinutes))
      .set("units_of_pages", id_figure(name(orchard.units)))
      .set("lengths_of_pages", id_figure(name(orchard.lengths)))
      .set("district", districts(orchard.district))
      .set("trees", count_figure(static_cast<std::int64_t>(facts.trees.size()), unit::kTrees))
      .set("kinds", count_figure(kinds_of_trees(facts), unit::kKinds))
      .set("blocks", std::move(blocks))
      .set("workdays", std::move(workdays))
      .set("map", map_of(facts));
}

FigureNode winter(const SeasonFacts& facts) {
  const Today& today = facts.today;
  return FigureNode::map()
      .set("year", count_figure(today.winter.year, unit::kYear))
      .set("name", text_figure(today.winter.name()))
      .set("from", date_figure(today.winter.from))
      .set("to", date_figure(today.winter.to))
      .set("as_of", date_figure(today.as_of))
      .set("last_hour", hour_figure(today.now - 1))
      .set("last_reading", hour_figure(last_reading(facts)))
      .set("counted_to", hour_figure(today.counted_to()))
      .set("over", yes_no_figure(today.winter_over()))
      .set("days_so_far", period(days_so_far(facts).from, days_so_far(facts).to))
      .set("detail", id_figure(name(facts.chill.detail)));
}

FigureNode lines(const SeasonFacts&) {
  // The edges between the classes in which hours are drawn: the three lines, the middles between
  // them, and as much beyond.
  constexpr std::array<double, 7> kEdgesFahrenheit = {27, 32, 38.5, 45, 52.5, 60, 67.5};
  FigureNode edges = FigureNode::list();
  for (const double edge : kEdgesFahrenheit)
    edges.append(temperature_figure(Celsius::from_fahrenheit(edge)));
  return FigureNode::map()
      .set("freezing", temperature_figure(kFreezing))
      .set("chill", temperature_figure(kChillLine))
      .set("warm", temperature_figure(kWarmLine))
      .set("hard_freeze", temperature_figure(kHardFreeze))
      .set("clear_night_margin",
           amount_figure(kClearNightMargin.degrees(), unit::kCelsiusDifference))
      .set("great_swing", amount_figure(kGreatSwing.degrees(), unit::kCelsiusDifference))
      .set("thermometer_error",
           amount_figure(kThermometerError.degrees(), unit::kCelsiusDifference))
      .set("classes_of_hours", std::move(edges));
}

FigureNode readings(const SeasonFacts& facts) {
  const HourCounts& counts = facts.chill.counts;
  const ColdHours cold = cold_hours(facts);
  FigureNode gaps = FigureNode::list();
  for (const Gap& one : facts.chill.gaps) gaps.append(gap(one));
  FigureNode files = FigureNode::list();
  for (const ReadingsFile& one : facts.files) files.append(file(one));
  return FigureNode::map()
      .set("hours", count_figure(counts.hours, unit::kHours))
      .set("known", count_figure(cold.known, unit::kHours))
      .set("observed", count_figure(counts.observed, unit::kHours))
      .set("by_line", count_figure(counts.by_line, unit::kHours))
      .set("nearby", count_figure(counts.nearby, unit::kHours))
      .set("by_extremes", count_figure(counts.by_extremes, unit::kHours))
      .set("missing", count_figure(counts.missing, unit::kHours))
      .set("missing_percent",
           amount_figure(100.0 * counts.missing / std::max(1, counts.hours), unit::kPercent))
      .set("number_of_gaps",
           count_figure(static_cast<std::int64_t>(facts.chill.gaps.size()), unit::kCount))
      .set("gaps", std::move(gaps))
      .set("files", std::move(files));
}

FigureNode days(const SeasonFacts& facts) {
  const DaysOfWinter days = days_of_winter(facts);
  const SunTimes sun = sun_times(facts);
  const ColdHours cold = cold_hours(facts);
  return FigureNode::map()
      .set("cold_hours", count_figure(cold.cold, unit::kHours))
      .set("cold_hours_before_middle", count_figure(cold.cold_before_middle, unit::kHours))
      .set("middle", hour_figure(cold.middle))
      .set("warm_days", amount_figure(static_cast<double>(days.warm_days), unit::kDays))
      .set("first", date_figure(days.first))
      .set("lowest", series_figure(days.low, unit::kCelsius))
      .set("highest", series_figure(days.high, unit::kCelsius))
      .set("usual_lowest", series_figure(days.usual_low, unit::kCelsius))
      .set("usual_highest", series_figure(days.usual_high, unit::kCelsius))
      .set("sunset", series_figure(sun.sunset, unit::kHoursAfterNoon))
      .set("sunrise", series_figure(sun.sunrise, unit::kHoursAfterNoon));
}

FigureNode frost(const SeasonFacts& facts) {
  const auto night = [](const NightLow& one) {
    return FigureNode::map()
        .set("evening", date_figure(one.evening))
        .set("lowest", temperature_figure(one.lowest))
        .set("at", hour_figure(one.at));
  };
  FigureNode nights = FigureNode::list();
  for (const NightLow& one : facts.frost_nights) nights.append(night(one));
  const NightLow* coldest = coldest_night(facts);
  return FigureNode::map()
      .set("number_of_nights",
           count_figure(static_cast<std::int64_t>(facts.frost_nights.size()), unit::kNights))
      .set("coldest", coldest ? night(*coldest) : FigureNode::none())
      .set("nights", std::move(nights));
}

FigureNode hourly(const SeasonFacts& facts) {
  const LocalHour from = facts.today.winter.begin();
  const LocalHour to = facts.today.counted_to();
  FigureNode measures = FigureNode::map();
  for (const ChillMeasure measure : kChillMeasures) {
    const ChillCurve curve = chill_curve(measure, facts.record->hours, from, to);
    measures.set(std::string(id_of(measure)), series_figure(curve.by_hour(), amount_unit(measure)));
  }
  FigureNode from_minimum = FigureNode::none();
  if (const auto& utah = facts.chill.utah_from_minimum) {
    from_minimum =
        FigureNode::map()
            .set("first", hour_figure(utah->curve.from()))
            .set("total", series_figure(utah->curve.by_hour(), amount_unit(utah->measure)));
  }
  using Reading = std::optional<HourReading>;
  return FigureNode::map()
      .set("first", hour_figure(from))
      .set("temperature", each_hour(facts,
                                    [](const Reading& reading) {
                                      return temperature_figure(
                                          reading ? std::optional(reading->mean) : std::nullopt);
                                    }))
      .set("lowest", each_hour(facts,
                               [](const Reading& reading) {
                                 return temperature_figure(reading ? std::optional(reading->lowest)
                                                                   : std::nullopt);
                               }))
      .set("origin",
           each_hour(facts,
                     [](const Reading& reading) {
                       return id_figure(name(reading ? reading->origin : HourOrigin::missing));
                     }))
      .set("measures", std::move(measures))
      .set("utah_from_minimum", std::move(from_minimum));
}

}  // namespace figures

namespace {

struct Branch {
  const char* key;
  FigureNode (*figures)(const SeasonFacts&);
};

/// Every branch, in the order in which it is printed.
constexpr Branch kBranches[] = {
    {"orchard", figures::orchard},   {"winter", figures::winter},
    {"lines", figures::lines},       {"verdicts", figures::verdicts},
    {"cold", figures::cold},         {"weeks", figures::weeks},
    {"days", figures::days},         {"frost", figures::frost},
    {"spring", figures::spring},     {"warm_hours", figures::warm_hours},
    {"site", figures::site},         {"places", figures::places},
    {"trees", figures::trees},       {"lost", figures::lost_trees},
    {"work", figures::work},         {"tasks", figures::tasks},
    {"readings", figures::readings}, {"cautions", figures::cautions},
};

}  // namespace

FigureNode figures_of(const SeasonFacts& facts, bool hourly) {
  FigureNode all = FigureNode::map();
  all.set("version", count_figure(1, figure_unit::kPlace));
  for (const Branch& branch : kBranches) all.set(branch.key, branch.figures(facts));
  all.set("sources", figures::sources(all));
  if (hourly) all.set("hourly", figures::hourly(facts));
  return all;
}

}  // namespace winterfolio
