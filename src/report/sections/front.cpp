// The front page: the verdict in one sentence and as one mark a tree, the winter's line among the
// past ones, four figures with their ranges, and what to do now.
#include <algorithm>
#include <cmath>
#include <map>

#include "document/chart.h"
#include "models/chill/registry.h"
#include "report/reckoning.h"
#include "report/sections.h"
#include "report/speak.h"
#include "report/tasks.h"

namespace winterfolio {
namespace {

constexpr double kNothing = 0.05;  ///< of an amount: prints as nought

constexpr std::size_t kMostNeeds = 12;  ///< lines of the chart's table

using States = std::map<VerdictState, std::vector<const TreeSeason*>>;

States trees_grouped(const SeasonFacts& facts) {
  States states;
  for (const TreeSeason* tree : facts.resting())
    states[tree->verdict.leading().verdict.state].push_back(tree);
  return states;
}

long how_many(const States& states, VerdictState state) {
  const auto found = states.find(state);
  return found == states.end() ? 0 : static_cast<long>(found->second.size());
}

// ---- the sentence and the squares
// ------------------------------------------------------------------------------------

Text verdict_sentence(const SeasonFacts& facts, const States& states) {
  const long all = static_cast<long>(facts.resting().size());
  if (all == 0) return say("front.no-trees");
  if (all == 1) return say_one_of("front.single", id_of(states.begin()->first));
  const bool over = facts.today.winter_over();
  if (how_many(states, VerdictState::unknown) == all)
    return say(over ? "front.none-told-over" : "front.none-told", {{"all", count(all)}});
  TextList clauses;
  const long met = how_many(states, VerdictState::met);
  clauses.items.push_back(
      say(over ? "front.met-over" : "front.met", {{"met", count(met)}, {"all", count(all)}}));
  const auto clause = [&](VerdictState state, const char* id) {
    if (const long n = how_many(states, state); n > 0)
      clauses.items.push_back(say(id, {{"n", count(n)}}));
  };
  clause(VerdictState::nearly, "front.nearly");
  clause(VerdictState::short_of, over ? "front.short-over" : "front.short");
  clause(VerdictState::undecided, "front.undecided");
  clause(VerdictState::unknown, "front.unknown");
  return say("front.verdict", {{"clauses", clauses}});
}

/// Met first in the order of their days, then the others from nearest to farthest.
std::vector<std::string> ids_in_order(std::vector<const TreeSeason*> trees) {
  const auto key = [](const TreeSeason* tree) {
    const Verdict& verdict = tree->verdict.leading().verdict;
    const int met = verdict.met_on ? days_between(date_of(2000, 1, 1), *verdict.met_on) : 0;
    return std::pair(met, -verdict.share().value_or(0.0));
  };
  std::stable_sort(trees.begin(), trees.end(),
                   [&](const TreeSeason* a, const TreeSeason* b) { return key(a) < key(b); });
  std::vector<std::string> ids;
  for (const TreeSeason* tree : trees) ids.push_back(tree->tree->id);
  return ids;
}

Figure tally_of(const SeasonFacts& facts, const States& states) {
  VerdictTally tally;
  for (const VerdictState state : {VerdictState::met, VerdictState::nearly, VerdictState::short_of,
                                   VerdictState::undecided, VerdictState::unknown}) {
    const long n = how_many(states, state);
    if (n == 0) continue;
    const bool so_far = state == VerdictState::short_of && !facts.today.winter_over();
    tally.groups.push_back(
        {mark_of(state),
         say(so_far ? "state-count.short-so-far" : "state-count." + std::string(id_of(state)),
             {{"n", count(n)}}),
         ids_in_order(states.at(state))});
  }
  Figure figure;
  figure.chart = std::make_shared<const Chart>(Chart{std::move(tally)});
  figure.height = FigureHeight::own;
  return figure;
}

// ---- the chart
// -------------------------------------------------------------------------------------------------------

/// Whether this winter and every other gave nothing that the measure counts.
bool no_cold_here(const SeasonFacts& facts, const ShownMeasure& shown) {
  if (facts.chill.for_verdict(shown.measure).utmost.high > kNothing) return false;
  return shown.past.winters.size() >= 3 &&
         std::all_of(shown.past.winters.begin(), shown.past.winters.end(),
                     [](const PastCurve& winter) { return winter.by_day.back() < kNothing; });
}

Text chart_title(const SeasonFacts& facts, const ShownMeasure& shown) {
  if (no_cold_here(facts, shown))
    return say("chart.no-cold", {{"measure", measure_text(shown.measure)}});
  const auto place = place_among_winters(shown.years);
  return place ? place_text(*place, facts.today.winter_over())
               : say("chart.alone", {{"measure", measure_title(shown.measure)}});
}

Text chart_subtitle(const SeasonFacts& facts, const ShownMeasure& shown) {
  const MeasuredChill& chill = facts.chill.for_verdict(shown.measure);
  const std::vector<NamedValue> values = {
      {"measure", measure_title(shown.measure)},
      {"from", day(chill.counted_from)},
      {"n", count(static_cast<long>(shown.past.winters.size()))}};
  const Text lines = say(!shown.past.low.empty()      ? "chart.build-up.with-band"
                         : !shown.past.median.empty() ? "chart.build-up.with-median"
                                                      : "chart.build-up.plain",
                         values);
  return facts.reduced ? say("chart.build-up.and-alike", {{"lines", lines}}) : lines;
}

std::vector<ChillBuildUp::Point> points_of(const MeasuredChill& chill, const Today& today) {
  std::vector<ChillBuildUp::Point> points = {{LocalHour::at(chill.counted_from, 0), 0.0}};
  for (std::size_t i = 0; i < chill.by_day.size(); ++i) {
    const LocalHour end = LocalHour::at(chill.counted_from, 24) + static_cast<std::int32_t>(i) * 24;
    points.push_back({std::min(end, today.counted_to()), chill.by_day[i]});
  }
  return points;
}

/// Gaps of a day and more are marked; what is shorter does not show at this scale.
std::vector<ReadingGap> gaps_of(const SeasonFacts& facts) {
  std::vector<ReadingGap> gaps;
  for (const Gap& gap : facts.chill.gaps) {
    if (gap.hours() < 24) continue;
    std::vector<Text> label;
    if (gaps.empty()) {
      label = {say("chart.no-readings"), value_text(days(gap.from.date(), (gap.to - 1).date()))};
    }
    gaps.push_back({gap.from, gap.to, std::move(label)});
  }
  return gaps;
}

ChillBuildUp::LastReading last_reading_of(const SeasonFacts& facts, const MeasuredChill& chill) {
  ChillBuildUp::LastReading last;
  last.recorded = {facts.today.counted_to(), chill.total().amount()};
  last.label.push_back(
      say("chart.this-winter", {{"day", day((facts.today.counted_to() - 1).date())}}));
  if (chill.gaps == GapRange::known) {
    last.with_gaps = Spread{chill.range.low, chill.range.high};
    last.label.push_back(
        say("chart.recorded-and-range", {{"amount", amount(chill.measure, chill.total().amount())},
                                         {"range", amount(chill.measure, chill.range)}}));
  } else {
    last.label.push_back(
        say(chill.gaps == GapRange::no_gap ? "chart.recorded" : "chart.recorded-range-unknown",
            {{"amount", amount(chill.measure, chill.total().amount())}}));
  }
  return last;
}

ChillBuildUp::Extreme extreme_of(const SeasonFacts& facts, const PastCurves& past,
                                 std::size_t index, const char* words) {
  const PastCurve& curve = past.winters[index];
  return {
      {facts.today.winter.from, curve.by_day},
      say(words, {{"winter", winter_years(curve.year, !facts.today.window.crosses_new_year())}})};
}

std::optional<ChillBuildUp::Forecast> forecast_of(const StillToCome& to_come) {
  DailyForecast daily = daily_forecast(to_come);
  if (daily.middle.empty()) return std::nullopt;
  ChillBuildUp::Forecast forecast;
  forecast.first = daily.first;
  forecast.low = std::move(daily.low);
  forecast.middle = std::move(daily.middle);
  forecast.high = std::move(daily.high);
  return forecast;
}

/// When a need was met, or how likely it is to be.
Text when_met(const Verdict& verdict, const std::optional<ChanceOfMeeting>& chance) {
  if (verdict.state == VerdictState::met && verdict.met_on)
    return value_text(day(*verdict.met_on, DateForm::brief));
  if (!chance || chance->winters == 0 || verdict.state == VerdictState::unknown) return {};
  if (chance->early && chance->late)
    return value_text(days(*chance->early, *chance->late, DateForm::brief));
  const int low = chance->fewest();
  if (low < chance->reaching_low_at_best) {
    return say("chart.in-low-to-high-of", {{"low", count(low)},
                                           {"high", count(chance->reaching_low_at_best)},
                                           {"all", count(chance->winters)}});
  }
  return say("chart.in-n-of", {{"n", count(low)}, {"all", count(chance->winters)}});
}

/// Where the drawn curve stands at the end of a day.
ChillBuildUp::Point on_the_curve(const MeasuredChill& chill, Date day) {
  return {LocalHour::at(day, 24), chill.curve.end_of(day).amount()};
}

/// Trees whose need is compared in another making than the heavy line of the chart is drawn in.
bool any_by_extremes(const SeasonFacts& facts, ChillMeasure measure) {
  for (const TreeSeason* tree : facts.resting()) {
    const Standing standing = facts.standing_of(*tree->tree);
    for (const PartVerdict& part : tree->verdict.parts) {
      if (part.verdict.need && part.verdict.need->measure == measure &&
          part.verdict.basis != standing.chill->detail)
        return true;
    }
  }
  return false;
}

/// One line for each cultivar and need in the chart's measure, the most demanding first.
std::vector<ChillBuildUp::Need> needs_of_chart(const SeasonFacts& facts, ChillMeasure measure) {
  std::vector<ChillBuildUp::Need> needs;
  std::vector<std::pair<std::string, DecidingNeed>> seen;
  for (const TreeSeason* tree : facts.resting()) {
    for (const PartVerdict& part : tree->verdict.parts) {
      const auto& need = part.verdict.need;
      if (!need || need->measure != measure) continue;
      const bool known = std::any_of(seen.begin(), seen.end(), [&](const auto& one) {
        return one.first == part.part.cultivar && one.second.low == need->low &&
               one.second.high == need->high;
      });
      if (known) continue;
      seen.emplace_back(part.part.cultivar, *need);
      ChillBuildUp::Need line;
      const double high = need->high.value_or(need->low.value_or(0.0));
      line.amount = {need->low.value_or(high), high};
      line.state = mark_of(part.verdict.state);
      line.name = part.part.cultivar.empty()
                      ? say("chart.tree", {{"id", literal(tree->tree->id)},
                                           {"species", species_text(*tree->tree)}})
                      : literal(part.part.cultivar);
      const Standing standing = facts.standing_of(*tree->tree);
      const bool by_extremes = part.verdict.basis != standing.chill->detail;
      line.figure = by_extremes ? say("chart.need-by-extremes", {{"need", need_text(*need)}})
                                : need_text(*need);
      const ShownMeasure* shown = standing.find(measure);
      line.when =
          when_met(part.verdict, shown ? chance_of_meeting(shown->to_come_for(part.verdict), *need)
                                       : std::nullopt);
      // The curves are those of the orchard's thermometer.
      if (part.verdict.state == VerdictState::met && part.verdict.met_on && !standing.place) {
        line.met = on_the_curve(standing.chill_for(part.verdict).for_verdict(measure),
                                *part.verdict.met_on);
      }
      needs.push_back(std::move(line));
    }
  }
  std::stable_sort(needs.begin(), needs.end(),
                   [](const auto& a, const auto& b) { return a.amount.high > b.amount.high; });
  return needs;
}

Figure build_up(const SeasonFacts& facts, const ShownMeasure& shown) {
  const MeasuredChill& chill = facts.chill.for_verdict(shown.measure);
  ChillBuildUp chart;
  chart.days = {facts.today.winter.from, facts.today.winter.to};
  chart.this_winter = points_of(chill, facts.today);
  if (facts.reduced)
    chart.as_past_winters =
        points_of(facts.reduced->for_verdict(shown.measure), facts.reduced->today);
  chart.gaps = gaps_of(facts);
  chart.last = last_reading_of(facts, chill);
  if (!shown.past.low.empty()) {
    chart.middle_low = DailyCurve{facts.today.winter.from, shown.past.low};
    chart.middle_high = DailyCurve{facts.today.winter.from, shown.past.high};
  }
  if (!shown.past.median.empty())
    chart.median = DailyCurve{facts.today.winter.from, shown.past.median};
  const auto end_of = [&](std::size_t index) { return shown.past.winters[index].by_day.back(); };
  if (shown.past.winters.size() >= 3 && end_of(*shown.past.most) > end_of(*shown.past.least)) {
    chart.extremes.push_back(extreme_of(facts, shown.past, *shown.past.most, "chart.coldest"));
    chart.extremes.push_back(extreme_of(facts, shown.past, *shown.past.least, "chart.mildest"));
  }
  chart.forecast = forecast_of(shown.to_come);
  chart.needs = needs_of_chart(facts, shown.measure);
  if (chart.needs.size() > kMostNeeds) {
    const long left = static_cast<long>(chart.needs.size() - kMostNeeds);
    chart.needs.resize(kMostNeeds);
    chart.note = say("chart.needs-left-out", {{"n", count(left)}});
  } else if (const long n = judged_by_another(facts, shown.measure); n > 0) {
    chart.note = say("chart.judged-elsewhere", {{"n", count(n)}});
  }
  if (any_by_extremes(facts, shown.measure)) {
    const Text by_extremes = say("chart.by-extremes-note");
    chart.note = chart.note.empty()
                     ? by_extremes
                     : say("chart.two-notes", {{"one", chart.note}, {"two", by_extremes}});
  }
  if (!chart.needs.empty()) {
    chart.needs_head = say("chart.needs-head");
    chart.when_head = say("chart.when-head");
  }
  Figure figure;
  figure.title = chart_title(facts, shown);
  figure.subtitle = chart_subtitle(facts, shown);
  figure.chart = std::make_shared<const Chart>(Chart{std::move(chart)});
  figure.height = FigureHeight::third;
  return figure;
}

// ---- four figures
// ----------------------------------------------------------------------------------------------------

/// reduced   the same winter by daily extremes, where past winters are known so; nullptr else
BigFigures::Entry received_entry(const ShownMeasure& shown, const MeasuredChill& chill,
                                 const WinterChill* reduced) {
  BigFigures::Entry entry;
  entry.label = say("figure.received", {{"measure", measure_title(chill.measure)}});
  const double total = chill.total().amount();
  if (chill.gaps == GapRange::known) {
    entry.value = value_text(range(chill.range.low, chill.range.high));
  } else {
    entry.value = value_text(number(total));
  }
  TextList notes;
  notes.joined = TextList::Joined::plain;
  if (chill.gaps == GapRange::unknown) {
    entry.note = say("figure.range-unknown", {{"hours", number(chill.missing_hours, 0, "hours")}});
  } else if (shown.years.same_day_median && std::abs(*shown.years.same_day_median) < kNothing) {
    entry.note = say("figure.none-by-now");
  } else if (shown.years.same_day_median && reduced) {
    const MeasuredChill& alike = reduced->for_verdict(chill.measure);
    entry.note = say("figure.recorded-and-alike",
                     {{"alike", alike.gaps == GapRange::known
                                    ? Value(amount(chill.measure, alike.range))
                                    : Value(amount(chill.measure, alike.total().amount()))},
                      {"median", amount(chill.measure, *shown.years.same_day_median)}});
  } else if (shown.years.same_day_median) {
    entry.note = say(chill.gaps == GapRange::known ? "figure.recorded-and-median" : "figure.median",
                     {{"amount", amount(chill.measure, total)},
                      {"median", amount(chill.measure, *shown.years.same_day_median)}});
  } else if (chill.gaps == GapRange::known) {
    entry.note = say("figure.recorded", {{"amount", amount(chill.measure, total)}});
  } else {
    entry.note = say("figure.no-past");
  }
  return entry;
}

BigFigures::Entry likely_entry(const SeasonFacts& facts, const ShownMeasure& shown) {
  BigFigures::Entry entry;
  const Text measure = measure_text(shown.measure);
  entry.label = say("figure.likely", {{"measure", measure}, {"end", day(facts.today.winter.to)}});
  if (facts.today.winter_over()) {
    entry.label = say("figure.nine-of-ten", {{"measure", measure}});
    if (const auto& amount_reached = shown.years.exceeded_in_nine_of_ten) {
      entry.value = value_text(number(*amount_reached));
      entry.note =
          say(shown.years.few_winters ? "figure.nine-of-ten-few" : "figure.nine-of-ten-note",
              {{"n", count(shown.years.whole_winters)}});
      return entry;
    }
  } else if (!shown.to_come.paths.empty()) {
    entry.value = value_text(range(shown.to_come.at_end.low, shown.to_come.at_end.high));
    entry.note = say(shown.to_come.few_winters ? "figure.likely-few" : "figure.likely-note",
                     {{"n", count(static_cast<long>(shown.to_come.paths.size()))}});
    return entry;
  }
  entry.value = say("figure.not-known");
  entry.note = say("figure.no-past");
  return entry;
}

BigFigures::Entry frost_entry(const SeasonFacts& facts) {
  BigFigures::Entry entry;
  entry.label =
      say(facts.chill.counts.missing > 0 ? "figure.frost-nights-read" : "figure.frost-nights");
  entry.value = value_text(number(static_cast<double>(facts.frost_nights.size())));
  if (facts.frost_nights.empty()) {
    entry.note = say("figure.no-frost", {{"line", line_temperature(*facts.orchard, kFreezing)}});
    return entry;
  }
  const NightLow* coldest = coldest_night(facts);
  entry.note = say("figure.coldest", {{"lowest", temperature(*facts.orchard, coldest->lowest)},
                                      {"hour", HourOfDay{coldest->at, DateForm::day_month}}});
  return entry;
}

BigFigures big_figures(const SeasonFacts& facts) {
  BigFigures figures;
  const ShownMeasure& first = facts.shown.front();
  const WinterChill* reduced = facts.reduced ? &*facts.reduced : nullptr;
  figures.entries.push_back(received_entry(first, facts.chill.for_verdict(first.measure), reduced));
  const ShownMeasure* second = facts.find(ChillMeasure::chill_hours);
  if (second == &first) second = facts.shown.size() > 1 ? &facts.shown[1] : nullptr;
  if (second)
    figures.entries.push_back(
        received_entry(*second, facts.chill.for_verdict(second->measure), reduced));
  figures.entries.push_back(likely_entry(facts, first));
  figures.entries.push_back(frost_entry(facts));
  return figures;
}

}  // namespace

Blocks front_section(const SeasonFacts& facts) {
  const States states = trees_grouped(facts);
  const WinterYears winter =
      winter_years(facts.today.winter.year, !facts.today.window.crosses_new_year());
  TitleBlock title;
  title.over_left = literal(facts.orchard->name);
  title.over_right = say("report.season");
  title.title = say("front.title", {{"winter", winter}});
  title.aside = say(facts.orchard->units == TemperatureUnits::fahrenheit ? "front.aside-fahrenheit"
                                                                         : "front.aside-celsius",
                    {{"trees", count(static_cast<long>(facts.trees.size()))},
                     {"kinds", count(kinds_of_trees(facts))}});
  Blocks blocks;
  blocks.emplace_back(std::move(title), Importance::essential);
  blocks.emplace_back(Paragraph{Role::verdict, verdict_sentence(facts, states)},
                      Importance::essential);
  if (!states.empty()) blocks.emplace_back(tally_of(facts, states), Importance::essential);
  blocks.emplace_back(build_up(facts, facts.shown.front()), Importance::essential);
  blocks.emplace_back(big_figures(facts), Importance::essential);
  Table tasks = tasks_table(facts, 0, kTasksInFront);
  if (!tasks.groups.front().rows.empty()) {
    blocks.emplace_back(Heading{1, say("front.what-to-do"), {}}, Importance::essential);
    blocks.emplace_back(std::move(tasks), Importance::essential);
  }
  return blocks;
}

}  // namespace winterfolio
