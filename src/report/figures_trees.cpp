// Tree by tree: needs with their sources, the verdict with its ranges and reasons, the tree's own
// years, chance, bloom, dates and what was seen; and how many trees stand in each state.
#include <algorithm>
#include <cmath>
#include <set>

#include "findings/verdict.h"
#include "orchard/cultivars.h"
#include "report/figure_branches.h"
#include "report/figure_ids.h"
#include "report/reckoning.h"
#include "report/tree_map.h"
#include "report/tree_season.h"

namespace winterfolio::figures {
namespace {

namespace unit = figure_unit;

constexpr FigureUnit kUncounted{"amount", 3};  ///< of figures that no measure can be compared with

FigureUnit unit_of(const std::optional<ChillMeasure>& measure) {
  return measure ? amount_unit(*measure) : kUncounted;
}

std::string text_of(const PartialDate& date) {
  if (date.month && date.day) return iso_date(date_of(date.year, *date.month, *date.day));
  std::string text = std::to_string(date.year);
  if (date.month) text += (*date.month < 10 ? "-0" : "-") + std::to_string(*date.month);
  return text;
}

FigureNode partial_date(const std::optional<PartialDate>& date) {
  return date ? FigureNode(figure_unit::kDate, text_of(*date)) : date_figure(std::nullopt);
}

// ---- needs and verdicts
// --------------------------------------------------------------------------------

FigureNode need(const Need& one) {
  const FigureUnit amount = unit_of(one.measure);
  return FigureNode::map()
      .set("kind", id_figure(id_of(one.kind)))
      .set("measure", id_figure(one.measure ? id_of(*one.measure) : std::string_view()))
      .set("low", amount_figure(one.low, amount))
      .set("high", amount_figure(one.high, amount))
      .set("may_decide", yes_no_figure(one.may_decide()))
      .set("assumed", yes_no_figure(one.assumed))
      .set("from_memory", yes_no_figure(one.from_memory))
      .set("source", text_figure(one.source))
      .set("note", text_figure(one.note));
}

FigureNode deciding_need(const DecidingNeed& one) {
  const FigureUnit amount = amount_unit(one.measure);
  return FigureNode::map()
      .set("measure", id_figure(id_of(one.measure)))
      .set("kind", id_figure(id_of(one.kind)))
      .set("low", amount_figure(one.low, amount))
      .set("high", amount_figure(one.high, amount))
      .set("assumed", yes_no_figure(one.assumed))
      .set("sources", texts_figure(one.sources));
}

FigureNode verdict(const Verdict& one) {
  const FigureUnit amount =
      one.need ? amount_unit(one.need->measure) : unit_of(std::optional<ChillMeasure>());
  std::vector<std::string> reasons;
  for (const VerdictReason reason : one.reasons) reasons.emplace_back(id_of(reason));
  return FigureNode::map()
      .set("state", id_figure(id_of(one.state)))
      .set("reasons", ids_figure(reasons))
      .set("so_far", yes_no_figure(one.so_far))
      .set("need", if_known(one.need, deciding_need))
      .set("received", amount_figure(one.need ? std::optional(one.received) : std::nullopt, amount))
      .set("basis", id_figure(name(one.basis)))
      .set("received_range", range(one.received_range, amount))
      .set("thermometer", range(one.thermometer, amount))
      .set("received_utmost", range(one.received_utmost, amount))
      .set("thermometer_could_turn", yes_no_figure(one.thermometer_could_turn))
      .set("share_of_least_needed", amount_figure(one.share(), unit::kShare))
      .set("short_by", range(one.short_by, amount))
      .set("counted_from", date_figure(one.counted_from))
      .set("met_on", date_figure(one.met_on))
      .set("least_needed_met_on", date_figure(one.low_end_on))
      .set("fell_since", yes_no_figure(one.fell_since));
}

FigureNode chance(const ChanceOfMeeting& one) {
  return FigureNode::map()
      .set("winters", count_figure(one.winters, unit::kWinters))
      .set("reaching_least_needed", count_figure(one.reaching_low, unit::kWinters))
      .set("reaching_least_needed_at_best", count_figure(one.reaching_low_at_best, unit::kWinters))
      .set("reaching_most_needed", count_figure(one.reaching_high, unit::kWinters))
      .set("reaching_at_worst", count_figure(one.reaching_at_worst, unit::kWinters))
      .set("reaching_at_best", count_figure(one.reaching_at_best, unit::kWinters))
      .set("early", date_figure(one.early))
      .set("middle", date_figure(one.middle))
      .set("late", date_figure(one.late));
}

/// The chance of a part, which the chart of the front page tells cultivar by cultivar.
FigureNode chance_of_part(const SeasonFacts& facts, const Tree& tree, const PartVerdict& part) {
  const Standing at = facts.standing_of(tree);
  const ShownMeasure* shown = part.verdict.need ? at.find(part.verdict.need->measure) : nullptr;
  if (!shown) return FigureNode::none();
  return if_known(chance_of_meeting(shown->to_come_for(part.verdict), *part.verdict.need), chance);
}

FigureNode part(const SeasonFacts& facts, const Tree& tree, const PartVerdict& one) {
  FigureNode needs = FigureNode::list();
  for (const Need& each : one.part.needs) needs.append(need(each));
  return FigureNode::map()
      .set("cultivar", text_figure(one.part.cultivar))
      .set("needs", std::move(needs))
      .set("verdict", verdict(one.verdict))
      .set("chance", chance_of_part(facts, tree, one));
}

std::int64_t leading_part(const TreeVerdict& verdict) {
  return &verdict.leading() - verdict.parts.data();
}

// ---- own years, bloom, dates
// ---------------------------------------------------------------------------

FigureNode evidence_year(const EvidenceYear& year, FigureUnit amount) {
  return FigureNode::map()
      .set("year", count_figure(year.year, unit::kYear))
      .set("name", text_figure(year.name))
      .set("chill", amount_figure(year.chill, amount))
      .set("leafing", id_figure(name(year.leafing)))
      .set("first_bloom", date_figure(year.first_bloom))
      .set("harvest", text_figure(year.harvest));
}

FigureNode own_evidence(const OwnEvidence& one, BracketUse use) {
  const FigureUnit amount = amount_unit(one.measure);
  FigureNode years = FigureNode::list();
  for (const EvidenceYear& year : one.years) years.append(evidence_year(year, amount));
  return FigureNode::map()
      .set("measure", id_figure(id_of(one.measure)))
      .set("basis", id_figure(name(one.basis)))
      .set("use", id_figure(name(use)))
      .set("too_little", amount_figure(one.too_little, amount))
      .set("enough", amount_figure(one.enough, amount))
      .set("contradicts_itself", yes_no_figure(one.contradicts_itself))
      .set("years", std::move(years));
}

FigureNode bloom_year(const OwnBloomYear& one) {
  return FigureNode::map()
      .set("year", count_figure(one.year, unit::kYear))
      .set("bloomed", date_figure(one.bloomed))
      .set("heat", amount_figure(one.heat, unit::kWarmth))
      .set("error", amount_figure(one.error_days, unit::kDays));
}

/// No date is told to less than a day.
std::optional<double> whole_days(const std::optional<double>& days) {
  return days ? std::optional(std::max(1.0, std::round(*days))) : std::nullopt;
}

FigureNode seen_stage(const SeenStage& one) {
  return FigureNode::map()
      .set("stage", id_figure(one.what))
      .set("bbch", count_figure(one.bbch, unit::kPlace))
      .set("on", date_figure(one.on))
      .set("age", amount_figure(one.age_days, unit::kDays));
}

FigureNode bloom(const BloomFinding& one) {
  FigureNode years = FigureNode::list();
  for (const OwnBloomYear& year : one.own_years) years.append(bloom_year(year));
  return FigureNode::map()
      .set("stage", id_figure(one.stage))
      .set("method", id_figure(id_of(one.method)))
      .set("why_none", id_figure(id_of(one.why_none)))
      .set("expected", date_figure(one.expected))
      .set("early", date_figure(one.early))
      .set("late", date_figure(one.late))
      .set("passed", yes_no_figure(one.passed))
      .set("rest_ended", date_figure(one.rest_ended))
      .set("from_fixed_date", yes_no_figure(one.from_fixed_date))
      .set("heat_needed", range(one.heat_needed, unit::kWarmth))
      .set("heat_so_far", amount_figure(one.heat_so_far, unit::kWarmth))
      .set("error", amount_figure(one.error_days, unit::kDays))
      .set("error_in_whole_days", amount_figure(whole_days(one.error_days), unit::kDays))
      .set("source", text_figure(one.source))
      .set("place", text_figure(one.place))
      .set("stage_there", text_figure(one.stage_there))
      .set("last_seen", if_known(one.last_seen, seen_stage))
      .set("seen_by", date_figure(one.seen_by))
      .set("moved_by_seen", yes_no_figure(one.moved_by_seen))
      .set("number_of_own_years",
           count_figure(static_cast<std::int64_t>(one.own_years.size()), unit::kSprings))
      .set("own_years", std::move(years));
}

FigureNode event(const EventDate& one) {
  return FigureNode::map().set("on", date_figure(one.on)).set("kind", id_figure(name(one.kind)));
}

FigureNode dates(const TreeDates& one) {
  return FigureNode::map()
      .set("leaf_fall", if_known(one.leaf_fall, event))
      .set("leaf_fall_half", if_known(one.leaf_fall_half, event))
      .set("first_freeze", if_known(one.first_freeze, event))
      .set("bud_swell", if_known(one.bud_swell, event))
      .set("first_bloom", if_known(one.first_bloom, event))
      .set("petal_fall", if_known(one.petal_fall, event))
      .set("harvest", if_known(one.harvest, event))
      .set("leaves_held", date_figure(one.leaves_held));
}

FigureNode observations(const Tree& tree) {
  FigureNode list = FigureNode::list();
  for (const Observation& seen : tree.observed) {
    list.append(FigureNode::map()
                    .set("on", partial_date(seen.on))
                    .set("what", id_figure(seen.what))
                    .set("amount", text_figure(seen.amount.value_or("")))
                    .set("minutes", amount_figure(seen.minutes, unit::kMinutes))
                    .set("note", text_figure(seen.note)));
  }
  return list;
}

/// The spans of the season as strips and the calendar draw them.
FigureNode bud_spans(const SeasonFacts& facts, const TreeSeason& tree) {
  FigureNode list = FigureNode::list();
  if (tree.other_kind) return list;
  for (const PhaseSpan& span : bud_phases(facts, tree)) {
    list.append(FigureNode::map()
                    .set("phase", id_figure(name(span.phase)))
                    .set("from", date_figure(span.days.from))
                    .set("to", date_figure(span.days.to)));
  }
  return list;
}

// ---- the tree itself
// -----------------------------------------------------------------------------------

FigureNode row_place(const RowPlace& place) {
  return FigureNode::map()
      .set("row", count_figure(place.row, unit::kPlace))
      .set("place", count_figure(place.place, unit::kPlace));
}

FigureNode measured_place(const MeasuredPlace& place) {
  return FigureNode::map()
      .set("east", amount_figure(place.east.metres(), unit::kMetres))
      .set("north", amount_figure(place.north.metres(), unit::kMetres));
}

/// What the orchard file says of a tree.
FigureNode described(const Tree& tree) {
  return FigureNode::map()
      .set("id", id_figure(tree.id))
      .set("tag", text_figure(tree.tag))
      .set("species", id_figure(tree.species))
      .set("other", text_figure(tree.other))
      .set("cultivar", text_figure(tree.cultivar))
      .set("grafts", texts_figure(tree.grafts))
      .set("rootstock", text_figure(tree.rootstock))
      .set("planted", partial_date(tree.planted))
      .set("planted_in", count_figure(tree.planted ? std::optional<std::int64_t>(tree.planted->year)
                                                   : std::nullopt,
                                      unit::kYear))
      .set("lost", partial_date(tree.lost))
      .set("block", id_figure(tree.block.value_or("")))
      .set("row_place", if_known(tree.row_place, row_place))
      .set("measured_place", if_known(tree.measured_place, measured_place))
      .set("form", id_figure(tree.form))
      .set("height",
           amount_figure(tree.height ? std::optional(tree.height->metres()) : std::nullopt,
                         unit::kMetres));
}

FigureNode tree_season(const SeasonFacts& facts, const TreeSeason& season) {
  const Tree& tree = *season.tree;
  const Standing at = facts.standing_of(tree);
  FigureNode parts = FigureNode::list();
  for (const PartVerdict& one : season.verdict.parts) parts.append(part(facts, tree, one));
  FigureNode found = described(tree);
  found.set("thermometer_of", id_figure(at.place ? at.place->weather->block : std::string()));
  found.set("state", id_figure(id_of(season.plan.state)));
  found.set("rests", yes_no_figure(!season.other_kind));
  const GraftsJudged grafts = grafts_judged(season);
  found.set("number_of_parts", count_figure(grafts.all, unit::kCount));
  found.set("parts_not_known", count_figure(grafts.not_known, unit::kCount));
  found.set("leading_part", count_figure(leading_part(season.verdict), unit::kPlace));
  found.set("parts", std::move(parts));
  found.set("own_evidence", if_known(season.evidence, [&](const OwnEvidence& one) {
              return own_evidence(one, season.bracket);
            }));
  found.set("chance", if_known(season.chance, chance));
  found.set("bloom", bloom(season.bloom));
  FigureNode stages = FigureNode::list();
  for (const BloomFinding& stage : season.stages) stages.append(bloom(stage));
  found.set("stages", std::move(stages));
  found.set("dates", dates(season.dates));
  found.set("seen", observations(tree));
  found.set("buds", bud_spans(facts, season));
  found.set("harm", harm(facts, season));
  found.set("pollination", pollination(season));
  found.set("pruning", pruning(facts, season));
  return found;
}

/// Keys of cultivar sources and codes of pages that a text names.
void collect(const FigureNode& figure, std::set<std::string>& keys, std::set<std::string>& codes) {
  if (figure.is_map()) {
    for (const auto& [key, member] : figure.members()) collect(member, keys, codes);
  } else if (figure.is_list()) {
    for (const FigureNode& item : figure.items()) collect(item, keys, codes);
  } else if (figure.unit().id == unit::kText.id && figure.known()) {
    const std::string& text = std::get<std::string>(figure.value());
    if (find_cultivar_source(text)) keys.insert(text);
    for (std::string& code : source_codes(text)) codes.insert(std::move(code));
  }
}

}  // namespace

FigureNode verdicts(const SeasonFacts& facts) {
  const std::map<VerdictState, long> states = trees_by_state(facts);
  FigureNode found = FigureNode::map();
  found.set("resting_trees",
            count_figure(static_cast<std::int64_t>(facts.resting().size()), unit::kTrees));
  for (const VerdictState state : {VerdictState::met, VerdictState::nearly, VerdictState::short_of,
                                   VerdictState::undecided, VerdictState::unknown}) {
    const auto trees = states.find(state);
    found.set(std::string(id_of(state)),
              count_figure(trees == states.end() ? 0 : trees->second, unit::kTrees));
  }
  return found.set(
      "judged_by_another_measure_than_the_first",
      count_figure(judged_by_another(facts, facts.shown.front().measure), unit::kTrees));
}

FigureNode trees(const SeasonFacts& facts) {
  FigureNode list = FigureNode::list();
  for (const TreeSeason& tree : facts.trees) list.append(tree_season(facts, tree));
  return list;
}

FigureNode lost_trees(const SeasonFacts& facts) {
  FigureNode list = FigureNode::list();
  for (const Tree* tree : facts.lost) list.append(described(*tree));
  return list;
}

FigureNode sources(const FigureNode& all) {
  std::set<std::string> keys;
  std::set<std::string> codes;
  collect(all, keys, codes);
  FigureNode list = FigureNode::list();
  for (const CultivarSource& source : cultivar_sources_table()) {
    if (keys.count(source.key) == 0) continue;
    list.append(FigureNode::map()
                    .set("key", id_figure(source.key))
                    .set("reference", text_figure(source.reference))
                    .set("page", text_figure("")));
  }
  for (const SourcePage& source : source_pages()) {
    if (codes.count(source.code) == 0) continue;
    list.append(FigureNode::map()
                    .set("key", id_figure(source.code))
                    .set("reference", text_figure(source.reference))
                    .set("page", text_figure(source.page)));
  }
  return list;
}

}  // namespace winterfolio::figures
