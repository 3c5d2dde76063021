// The cold by every measure that is counted: this winter, the winters before it, what is still to
// come, and what each week brought; at the orchard's thermometer and at those of blocks.
#include <algorithm>
#include <cmath>

#include "models/chill/registry.h"
#include "report/figure_branches.h"
#include "report/figure_ids.h"
#include "report/reckoning.h"

namespace winterfolio::figures {
namespace {

namespace unit = figure_unit;

std::optional<int> some(int value) { return value > 0 ? std::optional(value) : std::nullopt; }

// ---- this winter
// ---------------------------------------------------------------------------------------

FigureNode day_ranges(const std::vector<Range>& ranges, FigureUnit unit) {
  std::vector<double> low;
  std::vector<double> high;
  for (const Range& each : ranges) {
    low.push_back(each.low);
    high.push_back(each.high);
  }
  return FigureNode::map()
      .set("low", series_figure(low, unit))
      .set("high", series_figure(high, unit));
}

FigureNode received(const MeasuredChill& chill) {
  const FigureUnit amount = amount_unit(chill.measure);
  const bool known = chill.gaps != GapRange::unknown;
  return FigureNode::map()
      .set("counted_from", date_figure(chill.counted_from))
      .set("total", amount_figure(chill.total().amount(), amount))
      .set("gaps", id_figure(name(chill.gaps)))
      .set("range", range(known ? std::optional(chill.range) : std::nullopt, amount))
      .set("utmost", range(chill.utmost, amount))
      .set("thermometer", range(chill.thermometer, amount))
      .set("utmost_with_thermometer", range(received_utmost(chill), amount))
      .set("hours", count_figure(chill.hours, unit::kHours))
      .set("missing_hours", count_figure(chill.missing_hours, unit::kHours))
      .set("coverage", amount_figure(chill.coverage(), unit::kShare))
      .set("by_day", series_figure(chill.by_day, amount))
      .set("by_day_range", day_ranges(chill.by_day_range, amount));
}

// ---- the years
// -----------------------------------------------------------------------------------------

FigureNode past_winter(const PastWinterChill& winter, FigureUnit amount) {
  return FigureNode::map()
      .set("year", count_figure(winter.year, unit::kYear))
      .set("name", text_figure(winter.name))
      .set("same_day", amount_figure(winter.same_day, amount))
      .set("whole", amount_figure(winter.whole, amount))
      .set("bare_total", yes_no_figure(winter.bare_total))
      .set("from_where", text_figure(winter.from_where));
}

/// How much a winter brings more, or less, than the one before, between its limits; the word of the
/// trend says which.
FigureNode change(const Trend& one) {
  if (one.word == TrendWord::cannot_tell) return FigureNode::none();
  const double low = std::abs(one.line.low);
  const double high = std::abs(one.line.high);
  return range(Range{std::min(low, high), std::max(low, high)}, unit::kAmountPerYear);
}

FigureNode trend(const Trend& one) {
  return FigureNode::map()
      .set("word", id_figure(name(one.word)))
      .set("first_year", count_figure(one.first_year, unit::kYear))
      .set("last_year", count_figure(one.last_year, unit::kYear))
      .set("winters", count_figure(one.test.n, unit::kWinters))
      .set("s", count_figure(one.test.s, unit::kStatistic))
      .set("variance", amount_figure(one.test.variance, unit::kStatistic))
      .set("z", amount_figure(one.test.z, unit::kStatistic))
      .set("p", amount_figure(one.test.p, unit::kStatistic))
      .set("chance", amount_figure(100.0 * one.test.p, unit::kPercent))
      .set("slope", amount_figure(one.line.slope, unit::kAmountPerYear))
      .set("slope_low", amount_figure(one.line.low, unit::kAmountPerYear))
      .set("slope_high", amount_figure(one.line.high, unit::kAmountPerYear))
      .set("change", change(one));
}

FigureNode place(const PlaceAmongWinters& one) {
  return FigureNode::map()
      .set("from", id_figure(one.from_coldest ? "coldest" : "mildest"))
      .set("best", count_figure(one.best, unit::kPlace))
      .set("worst", count_figure(one.worst, unit::kPlace))
      .set("winters", count_figure(one.all, unit::kWinters));
}

FigureNode curves(const PastCurves& past, const Today& today) {
  const FigureUnit amount = amount_unit(past.measure);
  const auto year_of = [&](const std::optional<std::size_t>& index) {
    return count_figure(
        index ? std::optional<std::int64_t>(past.winters[*index].year) : std::nullopt, unit::kYear);
  };
  FigureNode winters = FigureNode::list();
  for (const PastCurve& winter : past.winters) {
    winters.append(FigureNode::map()
                       .set("year", count_figure(winter.year, unit::kYear))
                       .set("by_day", series_figure(winter.by_day, amount)));
  }
  return FigureNode::map()
      .set("first", date_figure(today.winter.from))
      .set("basis", id_figure(name(past.basis)))
      .set("number_of_winters",
           count_figure(static_cast<std::int64_t>(past.winters.size()), unit::kWinters))
      .set("low", series_figure(past.low, amount))
      .set("median", series_figure(past.median, amount))
      .set("high", series_figure(past.high, amount))
      .set("mildest", year_of(past.least))
      .set("coldest", year_of(past.most))
      .set("winters", std::move(winters));
}

FigureNode years(const ShownMeasure& shown) {
  const YearsFinding& found = shown.years;
  const FigureUnit amount = amount_unit(shown.measure);
  FigureNode winters = FigureNode::list();
  for (const PastWinterChill& winter : found.winters) winters.append(past_winter(winter, amount));
  const auto place_now = place_among_winters(found);
  return FigureNode::map()
      .set("basis", id_figure(name(found.basis)))
      .set("now", amount_figure(found.now, amount))
      .set("now_range", range(found.now_range, amount))
      .set("difference", amount_figure(found.difference, amount))
      .set("compared", count_figure(found.compared, unit::kWinters))
      .set("rank", count_figure(some(found.rank), unit::kPlace))
      .set("rank_withheld", yes_no_figure(found.rank_withheld))
      .set("rank_at_best", count_figure(found.rank_at_best, unit::kPlace))
      .set("rank_at_worst", count_figure(found.rank_at_worst, unit::kPlace))
      .set("place", if_known(place_now, place))
      .set("same_day_median", amount_figure(found.same_day_median, amount))
      .set("whole_winters", count_figure(found.whole_winters, unit::kWinters))
      .set("exceeded_in_nine_of_ten", amount_figure(found.exceeded_in_nine_of_ten, amount))
      .set("few_winters", yes_no_figure(found.few_winters))
      .set("median_whole", amount_figure(found.median_whole, amount))
      .set("left_out", count_figure(found.left_out, unit::kWinters))
      .set("trend", if_known(found.trend, trend))
      .set("winters", std::move(winters));
}

// ---- still to come
// -------------------------------------------------------------------------------------

FigureNode spread(const Percentiles& one, FigureUnit amount) {
  return FigureNode::map()
      .set("low", amount_figure(one.low, amount))
      .set("middle", amount_figure(one.middle, amount))
      .set("high", amount_figure(one.high, amount));
}

FigureNode fan_point(const FanPoint& point, FigureUnit amount) {
  return FigureNode::map()
      .set("day", date_figure(point.day))
      .set("low", amount_figure(point.spread.low, amount))
      .set("middle", amount_figure(point.spread.middle, amount))
      .set("high", amount_figure(point.spread.high, amount))
      .set("least", amount_figure(point.least, amount))
      .set("most", amount_figure(point.most, amount));
}

FigureNode hindcast(const HindcastScore& score) {
  return FigureNode::map()
      .set("winters", count_figure(score.winters, unit::kWinters))
      .set("trials", count_figure(score.trials, unit::kCount))
      .set("inside", count_figure(score.inside, unit::kCount))
      .set("share", amount_figure(score.share(), unit::kShare));
}

FigureNode to_come(const StillToCome& found, const std::optional<HindcastScore>& score) {
  const FigureUnit amount = amount_unit(found.measure);
  const bool any = !found.paths.empty();
  FigureNode fan = FigureNode::list();
  for (const FanPoint& point : found.fan) fan.append(fan_point(point, amount));
  FigureNode paths = FigureNode::list();
  for (const WinterPath& path : found.paths) {
    paths.append(FigureNode::map()
                     .set("year", count_figure(path.year, unit::kYear))
                     .set("end", amount_figure(path.end(), amount)));
  }
  const DailyForecast forecast = daily_forecast(found);
  return FigureNode::map()
      .set("first_day", date_figure(found.first_day))
      .set("basis", id_figure(name(found.basis)))
      .set("forecast_hours", count_figure(found.forecast_hours, unit::kHours))
      .set("number_of_winters",
           count_figure(static_cast<std::int64_t>(found.paths.size()), unit::kWinters))
      .set("few_winters", yes_no_figure(found.few_winters))
      .set("from_gaps", any ? range(found.from_gaps, amount) : FigureNode::none())
      .set("at_end", any ? spread(found.at_end, amount) : FigureNode::none())
      .set("by_week", std::move(fan))
      .set("by_day", FigureNode::map()
                         .set("low", series_figure(forecast.low, amount))
                         .set("middle", series_figure(forecast.middle, amount))
                         .set("high", series_figure(forecast.high, amount)))
      .set("paths", std::move(paths))
      .set("hindcast", if_known(score, hindcast));
}

// ---- all of it at one thermometer
// ----------------------------------------------------------------------

FigureNode measure(const MeasuredChill& plain, const WinterChill& chill,
                   const std::optional<WinterChill>& reduced,
                   const std::vector<ShownMeasure>& shown) {
  const ChillModel& model = chill_model(plain.measure);
  FigureNode found = FigureNode::map();
  found.set("source", text_figure(model.source()));
  found.set("mark", id_figure(name(model.mark())));
  found.set("can_fall", yes_no_figure(model.can_fall));
  found.set("received", received(plain));
  const MeasuredChill& judged = chill.for_verdict(plain.measure);
  found.set("for_verdict", &judged == &plain ? FigureNode::none() : received(judged));
  found.set("by_daily_extremes",
            reduced ? received(reduced->for_verdict(plain.measure)) : FigureNode::none());
  for (const ShownMeasure& one : shown) {
    if (one.measure != plain.measure) continue;
    found.set("years", years(one));
    found.set("past_by_day", curves(one.past, chill.today));
    found.set("to_come", to_come(one.to_come, one.hindcast));
    found.set("to_come_by_daily_extremes",
              one.to_come_by_extremes ? to_come(*one.to_come_by_extremes, {}) : FigureNode::none());
    return found;
  }
  return found.set("years", FigureNode::none())
      .set("past_by_day", FigureNode::none())
      .set("to_come", FigureNode::none())
      .set("to_come_by_daily_extremes", FigureNode::none());
}

FigureNode measures(const WinterChill& chill, const std::optional<WinterChill>& reduced,
                    const std::vector<ShownMeasure>& shown) {
  FigureNode all = FigureNode::map();
  for (const MeasuredChill& plain : chill.measures)
    all.set(std::string(id_of(plain.measure)), measure(plain, chill, reduced, shown));
  return all;
}

FigureNode disagreements(const std::vector<ShownMeasure>& shown) {
  FigureNode all = FigureNode::list();
  for (std::size_t i = 0; i < shown.size(); ++i) {
    for (std::size_t j = i + 1; j < shown.size(); ++j) {
      const auto found = disagreement_of(shown[i].years, shown[j].years);
      if (!found) continue;
      all.append(FigureNode::map()
                     .set("one", id_figure(id_of(found->one)))
                     .set("other", id_figure(id_of(found->other)))
                     .set("year", count_figure(found->year, unit::kYear)));
    }
  }
  return all;
}

FigureNode fit(const NearbyFit& one) {
  return FigureNode::map()
      .set("shared_hours", count_figure(one.shared_hours, unit::kHours))
      .set("offset", amount_figure(one.offset.degrees(), unit::kCelsiusDifference))
      .set("error", amount_figure(one.error.degrees(), unit::kCelsiusDifference));
}

FigureNode extremes_fit(const ExtremesFit& one) {
  return FigureNode::map()
      .set("shared_days", amount_figure(one.shared_days, unit::kDays))
      .set("minimum", amount_figure(one.minimum.degrees(), unit::kCelsiusDifference))
      .set("maximum", amount_figure(one.maximum.degrees(), unit::kCelsiusDifference))
      .set("error", amount_figure(one.error.degrees(), unit::kCelsiusDifference));
}

FigureNode place_season(const SeasonFacts& facts, const PlaceSeason& place) {
  FigureNode found = FigureNode::map();
  found.set("block", id_figure(place.weather->block));
  found.set("thermometer", text_figure(place.weather->thermometer));
  found.set("silent", yes_no_figure(place.silent));
  found.set("trees", count_figure(trees_judged_at(facts, place), unit::kTrees));
  found.set("own_winters", count_figure(place.own_winters, unit::kWinters));
  found.set("moved_winters", count_figure(place.moved_winters, unit::kWinters));
  found.set("moved_by_hour", if_known(place.weather->by_hour, fit));
  found.set("moved_by_extremes", if_known(place.weather->by_extremes, extremes_fit));
  found.set("measures",
            place.silent ? FigureNode::map() : measures(place.chill, place.reduced, place.shown));
  return found;
}

}  // namespace

FigureNode cold(const SeasonFacts& facts) {
  FigureNode shown = FigureNode::list();
  for (const ShownMeasure& one : facts.shown) shown.append(id_figure(id_of(one.measure)));
  return FigureNode::map()
      .set("shown", std::move(shown))
      .set("measures", measures(facts.chill, facts.reduced, facts.shown))
      .set("disagreements", disagreements(facts.shown));
}

FigureNode weeks(const SeasonFacts& facts) {
  const ShownMeasure& shown = facts.shown.front();
  const FigureUnit amount = amount_unit(shown.measure);
  const std::vector<WeekGain> gains = weekly_gains(facts, shown);
  const WeeksCompared compared = weeks_compared(gains);
  FigureNode list = FigureNode::list();
  for (const WeekGain& week : gains) {
    list.append(FigureNode::map()
                    .set("from", date_figure(week.days.from))
                    .set("to", date_figure(week.days.to))
                    .set("gain", range(week.gain, amount))
                    .set("median", amount_figure(week.median, amount)));
  }
  return FigureNode::map()
      .set("measure", id_figure(id_of(shown.measure)))
      .set("basis",
           id_figure(name(facts.reduced ? WinterDetail::daily_extremes : facts.chill.detail)))
      .set("compared", count_figure(compared.all, unit::kWeeks))
      .set("under_median", count_figure(compared.under, unit::kWeeks))
      .set("perhaps_under_median", count_figure(compared.perhaps_under, unit::kWeeks))
      .set("weeks", std::move(list));
}

FigureNode places(const SeasonFacts& facts) {
  FigureNode list = FigureNode::list();
  for (const PlaceSeason& place : facts.places) list.append(place_season(facts, place));
  return list;
}

}  // namespace winterfolio::figures
