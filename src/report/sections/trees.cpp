// Tree by tree, from worst to best: what each needs and has, its season, what to cut in which
// order, what past winters gave, and a sentence of advice.
#include <algorithm>
#include <cmath>

#include "document/chart.h"
#include "orchard/observations.h"
#include "pruning/shortfall.h"
#include "report/reckoning.h"
#include "report/sections.h"
#include "report/sources.h"
#include "report/speak.h"
#include "report/tree_map.h"
#include "report/tree_season.h"

namespace winterfolio {
namespace {

constexpr std::size_t kPastWinters = 4;

Figure bare(Chart::Kind kind) {
  Figure figure;
  figure.chart = std::make_shared<const Chart>(Chart{std::move(kind)});
  figure.height = FigureHeight::own;
  return figure;
}

Text detail_of(const SeasonFacts& facts, const Tree& tree) {
  TextList parts;
  parts.joined = TextList::Joined::plain;
  parts.items.push_back(species_text(tree));
  if (!tree.form.empty()) parts.items.push_back(say_one_of("form", tree.form));
  if (tree.planted)
    parts.items.push_back(
        say("tree.planted", {{"year", literal(std::to_string(tree.planted->year))}}));
  if (tree.height) parts.items.push_back(value_text(length(*facts.orchard, *tree.height)));
  return say("tree.detail", {{"parts", parts}});
}

/// One scale for all bars of a measure: as far as the greatest need or likely total goes.
double scale_end(const SeasonFacts& facts, const Standing& standing, ChillMeasure measure) {
  double most = standing.chill->for_verdict(measure).range.high;
  if (standing.reduced) most = std::max(most, standing.reduced->for_verdict(measure).range.high);
  if (const ShownMeasure* shown = standing.find(measure)) {
    most = std::max(most, shown->to_come.at_end.high);
    if (const auto& by_extremes = shown->to_come_by_extremes)
      most = std::max(most, by_extremes->at_end.high);
  }
  for (const TreeSeason& tree : facts.trees) {
    for (const PartVerdict& part : tree.verdict.parts) {
      if (part.verdict.need && part.verdict.need->measure == measure) {
        most =
            std::max(most, part.verdict.need->high.value_or(part.verdict.need->low.value_or(0.0)));
      }
    }
  }
  return most * 1.05;
}

/// What is known of a tree's need where nothing may decide: the first figure that can be compared.
const Need* told_need(const PartVerdict& part) {
  for (const Need& need : part.part.needs) {
    if (need.measure && (need.low || need.high)) return &need;
  }
  return nullptr;
}

/// The measure a card speaks in: that of the need that decides, else of the one that is told.
ChillMeasure measure_of_card(const Standing& standing, const PartVerdict& part) {
  std::optional<ChillMeasure> measure;
  if (part.verdict.need) {
    measure = part.verdict.need->measure;
  } else if (const Need* told = told_need(part)) {
    measure = told->measure;
  }
  return measure && standing.find(*measure) ? *measure : standing.shown->front().measure;
}

NeedBar need_bar(const SeasonFacts& facts, const Standing& standing, const PartVerdict& part) {
  NeedBar bar;
  const Need* told = part.verdict.need ? nullptr : told_need(part);
  const ChillMeasure measure = measure_of_card(standing, part);
  const bool counted = told && told->measure == measure;
  const WinterChill& winter = standing.chill_for(part.verdict);
  const MeasuredChill& chill = winter.for_verdict(measure);
  Range has = chill.gaps == GapRange::known ? chill.range
                                            : Range{chill.total().amount(), chill.total().amount()};
  if (part.verdict.need && part.verdict.received_range) has = *part.verdict.received_range;
  bar.scale_end = std::max(1.0, scale_end(facts, standing, measure));
  bar.has = {has.low, has.high};
  if (const auto& utmost = part.verdict.received_utmost) bar.utmost = {utmost->low, utmost->high};
  bar.measure = measure_text(measure);
  if (winter.detail != standing.chill->detail) bar.making = say("bar.by-extremes");
  bar.has_label = say("bar.has", {{"amount", range(has.low, has.high)}});
  const ShownMeasure* shown = standing.find(measure);
  if (shown && !facts.today.winter_over()) {
    const StillToCome& to_come = shown->to_come_for(part.verdict);
    if (!to_come.paths.empty()) {
      bar.likely = Spread{to_come.at_end.low, to_come.at_end.high};
      bar.likely_label =
          say("bar.likely", {{"amount", range(to_come.at_end.low, to_come.at_end.high)}});
    }
  }
  if (part.verdict.need) {
    const double high = part.verdict.need->high.value_or(part.verdict.need->low.value_or(0.0));
    bar.need = Spread{part.verdict.need->low.value_or(high), high};
    const bool own = part.verdict.need->kind == NeedKind::own_years;
    const bool alone = part.verdict.need->sources.empty();
    bar.need_label = say(!own    ? "bar.needs"
                         : alone ? "bar.needs-own"
                                 : "bar.needs-both",
                         {{"amount", need_text(*part.verdict.need)}});
  } else if (told && counted) {
    const double high = told->high.value_or(told->low.value_or(0.0));
    bar.need = Spread{told->low.value_or(high), high};
    bar.scale_end = std::max(bar.scale_end, high * 1.05);
    bar.need_from_memory = true;
    bar.need_label = say("bar.said-to-need", {{"amount", range(bar.need->low, bar.need->high)}});
  }
  return bar;
}

/// Whether whoever may cut it does so in dry summer weather.
bool cut_in_summer(const TreePlan& plan) {
  return plan.window.exists() && !plan.window.is_winter_work();
}

/// Why the strip shows no time to prune.
const char* work_words_of(const TreePlan& plan) {
  switch (plan.work) {
    case TreeWork::arborist:
      if (near_wires(plan)) return "wires";
      return cut_in_summer(plan) ? "arborist-summer" : "arborist";
    case TreeWork::lead_first:
      return cut_in_summer(plan) ? "lead-first-summer" : "lead-first";
    case TreeWork::dry_summer:
      return "summer";
    case TreeWork::crew:
    case TreeWork::no_day:
    case TreeWork::no_window:
      break;
  }
  return "none";
}

SeasonStrip season_strip(const SeasonFacts& facts, const TreeSeason& tree) {
  SeasonStrip strip;
  strip.days = season_days(facts);
  strip.buds = bud_phases(facts, tree);
  for (const NightLow& night : frost_nights(*facts.standing_of(*tree.tree).nights, facts.today))
    strip.frost_nights.push_back(night.evening);
  const auto frosts = last_frost_days(facts);
  if (frosts && frosts->last > facts.today.as_of)
    strip.frost_possible = DaySpan{plus_days(facts.today.as_of, 1), frosts->last};
  strip.pruning = pruning_span(facts, tree);
  strip.work = work_marks(facts, tree);
  if (!strip.pruning) strip.work_words = say_one_of("work-words", work_words_of(tree.plan));
  strip.last_reading = last_reading(facts).date();
  strip.buds_label = say("strip.buds");
  strip.frost_label = say("strip.frost");
  strip.work_label = say("strip.work");
  return strip;
}

// ---- cuts
// ------------------------------------------------------------------------------------------------------------

/// What the tree or its place has that sets these limits: what is known, else what a named hazard
/// has assumed.
TextList limits_text(const std::vector<LimitHit>& hits) {
  const bool any_known =
      std::any_of(hits.begin(), hits.end(), [](const LimitHit& hit) { return !hit.assumed; });
  TextList list;
  list.joined = TextList::Joined::plain;
  for (const LimitHit& hit : hits) {
    if (!hit.assumed || !any_known) list.items.push_back(say(hit.rule->in_short));
  }
  return list;
}

/// Why nobody of the crew cuts this tree; empty where they do.
Text not_cut_words(const TreePlan& plan) {
  switch (plan.work) {
    case TreeWork::crew:
      return {};
    case TreeWork::arborist: {
      const char* words = near_wires(plan)      ? "cuts.wires"
                          : cut_in_summer(plan) ? "cuts.arborist-summer"
                                                : "cuts.arborist";
      return say(words, {{"limits", limits_text(plan.limits.arborist)}});
    }
    case TreeWork::lead_first:
      return say(cut_in_summer(plan) ? "cuts.lead-first-summer" : "cuts.lead-first");
    case TreeWork::dry_summer:
      return say("cuts.summer");
    case TreeWork::no_day:
      return say("cuts.no-day");
    case TreeWork::no_window:
      return say("cuts.no-window");
  }
  return {};
}

/// The limit in two or three words: the stop rule of the same row.
std::string until_of(const CutLine& line) {
  std::string id = line.stop;
  return id.replace(id.rfind(".stop"), 5, ".until");
}

std::string brief_of(const CutLine& line) { return "cut." + line.words + ".brief"; }

Blocks cuts_blocks(const SeasonFacts& facts, const TreeSeason& tree) {
  Blocks blocks;
  const std::vector<WorkMark> marks = work_marks(facts, tree);
  const bool done = !marks.empty() && marks.front().done;
  const Text not_cut =
      done ? say("cuts.done", {{"day", day(marks.front().on)}}) : not_cut_words(tree.plan);
  blocks.emplace_back(Heading{3, say(not_cut.empty() ? "cuts.head" : "cuts.head-none"), {}});
  if (!not_cut.empty()) {
    blocks.emplace_back(Paragraph{Role::note, not_cut}, Importance::essential);
    return blocks;
  }
  List list;
  list.marker = List::Marker::box;
  list.role = Role::note;
  for (const CutLine& line : tree.plan.cuts.lines) {
    list.items.push_back(
        say("cuts.line", {{"what", say(brief_of(line))}, {"until", say(until_of(line))}}));
  }
  if (list.items.empty()) {
    blocks.emplace_back(Paragraph{Role::note, say("cuts.nothing")});
  } else {
    blocks.emplace_back(std::move(list), Importance::essential);
  }
  std::vector<LimitHit> care = tree.plan.limits.held;
  const auto& adults = tree.plan.limits.adults_only;
  care.insert(care.end(), adults.begin(), adults.end());
  if (!care.empty())
    blocks.emplace_back(Paragraph{Role::note, say("cuts.care", {{"limits", limits_text(care)}})},
                        Importance::essential);
  return blocks;
}

// ---- past winters
// ----------------------------------------------------------------------------------------------------

/// What the keeper noted of the leafing, or the crop, of the year after a past winter.
Text seen_after(const SeasonFacts& facts, const Tree& tree, int winter_year) {
  const int year = facts.today.window.crosses_new_year() ? winter_year + 1 : winter_year;
  std::optional<std::string> harvest;
  bool uneven = false;
  for (const Observation& seen : tree.observed) {
    if (seen.on.year != year) continue;
    uneven = uneven || seen.what == "leafed_unevenly";
    if (seen.what == "harvest") harvest = seen.amount;
  }
  if (uneven && harvest) return say("past.crop-uneven", {{"crop", literal(*harvest)}});
  if (uneven) return say("past.uneven");
  return harvest ? literal(*harvest) : Text{};
}

/// The last winters: their cold, and what was seen after them.
Blocks past_blocks(const SeasonFacts& facts, const TreeSeason& tree) {
  const Standing standing = facts.standing_of(*tree.tree);
  const ShownMeasure* shown = standing.find(measure_of_card(standing, tree.verdict.leading()));
  if (!shown) return {};
  Table table;
  table.full_width = false;
  table.columns = {{say("past.head")}, {say("past.cold"), ColumnKind::numbers}, {say("past.crop")}};
  table.groups.emplace_back();
  const auto& winters = shown->years.winters;
  const std::size_t first = winters.size() > kPastWinters ? winters.size() - kPastWinters : 0;
  for (std::size_t i = first; i < winters.size(); ++i) {
    if (!winters[i].whole) continue;
    TableRow row;
    row.cells = {{winter_text(winters[i].year, !facts.today.window.crosses_new_year())},
                 {value_text(number(*winters[i].whole))},
                 {seen_after(facts, *tree.tree, winters[i].year)}};
    table.groups.front().rows.push_back(std::move(row));
  }
  if (table.groups.front().rows.empty()) return {};
  return {Block(std::move(table))};
}

/// What to cut, and beside it what past winters gave.
Block cuts_and_past(const SeasonFacts& facts, const TreeSeason& tree) {
  Columns columns;
  columns.columns.push_back({7, facts.looking_back() ? Blocks{} : cuts_blocks(facts, tree)});
  columns.columns.push_back({5, past_blocks(facts, tree)});
  return Block(std::move(columns), Importance::essential);
}

// ---- advice
// ----------------------------------------------------------------------------------------------------------

Text bloom_text(const SeasonFacts& facts, const TreeSeason& tree) {
  const BloomFinding& bloom = tree.bloom;
  if (!bloom.expected) return {};
  if (bloom.seen_by) return say("bloom.seen-by", {{"day", day(*bloom.seen_by)}});
  if (bloom.method == BloomMethod::seen) return say("bloom.seen", {{"day", day(*bloom.expected)}});
  if (facts.looking_back()) return {};
  const bool elsewhere = bloom.method == BloomMethod::species_elsewhere;
  const Date early = bloom.early.value_or(*bloom.expected);
  if (!bloom.late)
    return say(elsewhere ? "bloom.elsewhere-from" : "bloom.from", {{"day", day(early)}});
  // What has not been noted yet is not told to have come.
  if (elsewhere && early <= facts.today.as_of)
    return say("bloom.elsewhere-by", {{"day", day(*bloom.late)}});
  return say(elsewhere ? "bloom.elsewhere" : "bloom.expected",
             {{"days", days(early, *bloom.late, DateForm::brief)}});
}

/// How the tree leafed this spring, where the keeper noted it.
Text leafed_text(const SeasonFacts& facts, const TreeSeason& tree) {
  const Observation* seen = leafing_noted(facts, tree);
  return seen ? say_one_of("leafed", seen->what, {{"day", day(seen->on.earliest())}}) : Text{};
}

/// Whether at least half of the other winters' rests would bring it enough.
bool most_bring_enough(const TreeSeason& tree) {
  return tree.chance && 2 * tree.chance->reaching_high >= tree.chance->winters;
}

Text advice_text(const SeasonFacts& facts, const TreeSeason& tree) {
  const Verdict& verdict = tree.verdict.leading().verdict;
  if (verdict.state == VerdictState::short_of) {
    const auto& shortfall = tree.shortfall;
    if (!shortfall || !shortfall->at_least) {
      // Without past winters nothing tells what is still to come.
      const bool told = tree.chance && tree.chance->winters > 0;
      return say(told ? "advice-line.likely-enough" : "advice-line.short-open");
    }
    const Value bloom = say(shortfall->at_least->words("bloom"));
    if (shortfall->standing == TreeShortfall::Standing::ended)
      return say("advice-line.short", {{"bloom", bloom}});
    if (shortfall->at_least == shortfall->at_most)
      return say("advice-line.short-likely", {{"bloom", bloom}});
    const bool never = tree.chance && tree.chance->reaching_low_at_best == 0;
    if (most_bring_enough(tree)) return say("advice-line.likely-enough");
    if (shortfall->share.low <= 0.0)
      return say(never ? "advice-line.short-hardly" : "advice-line.short-maybe");
    return say("advice-line.short-at-best", {{"bloom", bloom}});
  }
  const bool met = verdict.state == VerdictState::met;
  const bool nearly = verdict.state == VerdictState::nearly;
  if (nearly && !verdict.so_far) return say("advice-line.nearly-over");
  if (nearly && !most_bring_enough(tree)) return say("advice-line.nearly-open");
  if (verdict.thermometer_could_turn && (met || nearly))
    return say(met ? "advice-line.met-hangs" : "advice-line.nearly-hangs",
               {{"error", difference(*facts.orchard, kThermometerError)}});
  if (nearly) return say("advice-line.nearly");
  if (met) return say("advice-line.met");
  if (verdict.state == VerdictState::undecided) {
    const bool cut = tree.plan.work == TreeWork::crew;
    return say(cut ? "advice-line.undecided" : "advice-line.undecided-uncut");
  }
  // With a figure that decides it is the readings that lack.
  return say(verdict.need ? "advice-line.too-many-missing" : "advice-line.unknown");
}

/// Of several grafts: which one the card speaks of, and how many nobody can tell of.
Text grafts_text(const TreeSeason& tree) {
  const GraftsJudged grafts = grafts_judged(tree);
  if (grafts.all < 2) return {};
  return say("card.grafts", {{"cultivar", literal(tree.verdict.leading().part.cultivar)},
                             {"n", count(grafts.not_known)},
                             {"all", count(grafts.all)}});
}

/// The sentences under a card: its bloom, and what to do.
Text sentences_of(const SeasonFacts& facts, const TreeSeason& tree) {
  const Text bloom = bloom_text(facts, tree);
  const Text leafed = leafed_text(facts, tree);
  if (facts.looking_back() && leafed.empty()) return bloom;
  // What the tree did tells more than what its cold let expect.
  Text advice = leafed.empty() ? advice_text(facts, tree) : leafed;
  if (leafed.empty() && tree.verdict.leading().verdict.state == VerdictState::undecided) {
    const Text likely = likely_text(facts, tree);
    if (!likely.empty())
      advice =
          say("card.two", {{"one", say("card.chance", {{"likely", likely}})}, {"two", advice}});
  }
  const Text grafts = grafts_text(tree);
  if (!grafts.empty()) advice = say("card.two", {{"one", grafts}, {"two", advice}});
  return bloom.empty() ? advice : say("card.two", {{"one", bloom}, {"two", advice}});
}

Card card_of(const SeasonFacts& facts, const TreeSeason& tree) {
  const Tree& what = *tree.tree;
  Card card;
  card.anchor = "tree-" + what.id;
  card.id = literal(what.id);
  card.name = cultivar_text(what);
  card.detail = detail_of(facts, what);
  if (auto map = orchard_map(facts, &what))
    card.thumbnail = std::make_shared<const Chart>(Chart{std::move(*map)});
  card.mark = mark_of(tree.verdict.leading().verdict.state);
  card.verdict = verdict_line(facts, tree);
  card.body.emplace_back(bare(need_bar(facts, facts.standing_of(what), tree.verdict.leading())),
                         Importance::essential);
  card.body.emplace_back(bare(season_strip(facts, tree)), Importance::essential);
  card.body.push_back(cuts_and_past(facts, tree));
  if (Text sentences = sentences_of(facts, tree); !sentences.empty())
    card.body.emplace_back(Paragraph{Role::note, std::move(sentences)});
  card.bookmark = say("tree.bookmark", {{"id", literal(what.id)}, {"name", cultivar_text(what)}});
  return card;
}

bool any_uneven(const SeasonFacts& facts) {
  for (const TreeSeason* tree : facts.resting()) {
    for (const Observation& seen : tree->tree->observed)
      if (seen.what == "leafed_unevenly") return true;
  }
  return false;
}

SeasonKey key_of_cards(const SeasonFacts& facts) {
  SeasonKey key;
  using Mark = SeasonKey::Mark;
  const std::pair<Mark, const char*> entries[] = {{Mark::resting, "key.resting"},
                                                  {Mark::likely_met, "key.likely-met"},
                                                  {Mark::met, "key.met"},
                                                  {Mark::swelling, "key.swelling"},
                                                  {Mark::bloom, "key.bloom"},
                                                  {Mark::bloom_estimated, "key.bloom-estimated"},
                                                  {Mark::no_date, "key.no-date"},
                                                  {Mark::frost, "key.frost"},
                                                  {Mark::last_reading, "key.last-reading"},
                                                  {Mark::pruning, "key.pruning"}};
  for (const auto& [mark, words] : entries) key.entries.push_back({mark, say(words)});
  const bool any_range =
      std::any_of(facts.trees.begin(), facts.trees.end(), [](const TreeSeason& tree) {
        return tree.verdict.leading().verdict.received_utmost.has_value();
      });
  if (any_range)
    key.entries.push_back(
        {Mark::thermometer,
         say("key.thermometer", {{"error", difference(*facts.orchard, kThermometerError)}})});
  if (any_uneven(facts)) key.entries.push_back({Mark::sign, say("key.uneven")});
  return key;
}

}  // namespace

Blocks trees_section(const SeasonFacts& facts) {
  Blocks blocks;
  const std::vector<const TreeSeason*> trees = from_worst_to_best(facts);
  if (trees.empty()) return blocks;
  blocks.emplace_back(Heading{1, say("trees.title"), {}}, Importance::essential);
  blocks.emplace_back(bare(key_of_cards(facts)), Importance::essential);
  Cards cards;
  for (const TreeSeason* tree : trees) cards.cards.push_back(card_of(facts, *tree));
  blocks.emplace_back(std::move(cards), Importance::essential);
  if (facts.outlook.basis == WinterDetail::daily_extremes)
    blocks.emplace_back(Paragraph{Role::note, say("trees.note-extremes")});
  return blocks;
}

}  // namespace winterfolio
