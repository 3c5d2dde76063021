// Frost, bloom and partners: the nights against what the buds can bear, when each tree blooms and
// after whom, who pollinates it and for how many days, and what warm spells cost.
//
// Nothing here is ever called safe: a night is above a published figure, or it is not.
#include <algorithm>
#include <cmath>
#include <map>
#include <set>
#include <utility>

#include "report/reckoning.h"
#include "report/sections.h"
#include "report/speak.h"

namespace winterfolio {
namespace {

constexpr std::size_t kMostPartners = 3;
constexpr std::size_t kMostTrees = 10;  ///< named in a row

/// "tight cluster", by the id of its words.
Text stage_text(const CriticalTemperature& stage) {
  std::string id = stage.stage;
  std::replace(id.begin(), id.end(), ' ', '_');
  return say_one_of("bud-stage", id);
}

Number kill_temperature(const SeasonFacts& facts, Celsius at) {
  return line_temperature(*facts.orchard, at);
}

// ---- nights against stages

/// Trees of one kind in one stage.
struct StageGroup {
  const CriticalTemperature* stage = nullptr;
  bool known = false;  ///< by the keeper or by an expected bloom that has passed
  bool seen = false;
  int age_days = 0;   ///< since it was seen; 0 where it was not, or is long over
  bool over = false;  ///< bloom is
  std::vector<const TreeSeason*> trees;
};

/// The kinds with published figures, in the order in which they stand in the orchard, each with its
/// stages of today.
std::vector<std::pair<std::string, std::vector<StageGroup>>> stage_groups(
    const SeasonFacts& facts) {
  std::vector<std::pair<std::string, std::vector<StageGroup>>> kinds;
  for (const TreeSeason* tree : facts.resting()) {
    if (!tree->frost.published) continue;
    const std::string& species = tree->tree->species;
    auto kind = std::find_if(kinds.begin(), kinds.end(),
                             [&](const auto& one) { return one.first == species; });
    if (kind == kinds.end()) kind = kinds.insert(kinds.end(), {species, {}});
    const StageOnDay& now = tree->frost.now;
    const bool known = now.stage != nullptr;
    const CriticalTemperature* stage = known ? now.stage : &critical_temperatures(species).front();
    const bool over = tree->frost.bloom_over;
    if (over) stage = first_bloom_temperature(species);
    const bool seen = known && now.seen && !over;
    const int age = seen ? now.age_days : 0;
    auto group = std::find_if(kind->second.begin(), kind->second.end(), [&](const StageGroup& one) {
      return one.stage == stage && one.known == known && one.seen == seen && one.age_days == age &&
             one.over == over;
    });
    if (group == kind->second.end()) {
      group = kind->second.insert(kind->second.end(), StageGroup{});
      group->stage = stage;
      group->known = known;
      group->seen = seen;
      group->age_days = age;
      group->over = over;
    }
    group->trees.push_back(tree);
  }
  for (auto& [species, groups] : kinds) {
    std::stable_sort(groups.begin(), groups.end(), [](const StageGroup& a, const StageGroup& b) {
      return std::pair(a.stage->order, a.known) < std::pair(b.stage->order, b.known);
    });
  }
  return kinds;
}

/// The night that a row tells of.
struct ToldNight {
  Celsius low;
  NightLow night;
  FrostLevel level = FrostLevel::above;
  const CriticalTemperature* earlier = nullptr;  ///< the stage it fell in, where that is over
};

/// The night that went furthest against a tree's stage at the time, else the coldest since today's.
std::optional<ToldNight> told_night(const SeasonFacts& facts, const TreeSeason& tree) {
  const TreeFrost& frost = tree.frost;
  if (const TreeNight* worst = frost.worst()) {
    const bool over = worst->night.at.date() < plus_days(facts.today.as_of, -frost.now.age_days);
    return ToldNight{worst->at_tree, worst->night, worst->level,
                     over ? worst->stage.stage : nullptr};
  }
  const auto low = at_the_tree(facts, tree, frost.coldest_in_stage);
  if (!low) return std::nullopt;
  return ToldNight{*low, *frost.coldest_in_stage, FrostLevel::above, nullptr};
}

/// The one to tell of any tree of the group.
Text coldest_text(const SeasonFacts& facts, const StageGroup& group) {
  std::optional<ToldNight> told;
  for (const TreeSeason* tree : group.trees) {
    const auto night = told_night(facts, *tree);
    if (!night) continue;
    if (!told || night->level > told->level ||
        (night->level == told->level && night->low < told->low))
      told = night;
  }
  if (!group.known || !told) return {};
  std::vector<NamedValue> values = {{"low", temperature(*facts.orchard, told->low)},
                                    {"day", day(told->night.at.date(), DateForm::brief)},
                                    {"level", say_one_of("frost-level", id_of(told->level))}};
  if (!told->earlier) return say("frost.coldest", std::move(values));
  values.push_back({"stage", stage_text(*told->earlier)});
  return say("frost.coldest-earlier", std::move(values));
}

/// The coldest of the forecast's nights that come near what buds can bear.
Text coming_text(const SeasonFacts& facts, const SpringSigns::Trees& trees) {
  const TreeNight* coldest = coldest_coming(facts);
  return say("frost.coming", {{"low", temperature(*facts.orchard, coldest->at_tree)},
                              {"day", day(coldest->night.at.date())},
                              {"trees", tree_ids(trees)}});
}

TableRow stage_row(const SeasonFacts& facts, const StageGroup& group) {
  std::vector<const Tree*> trees;
  for (const TreeSeason* tree : group.trees) trees.push_back(tree->tree);
  const char* how = group.over     ? "frost.stage-over"
                    : !group.known ? "frost.stage-first"
                    : group.seen   ? "frost.stage-seen"
                                   : "frost.stage-expected";
  TableRow row;
  row.cells = {
      {group.seen ? say(how, {{"stage", stage_text(*group.stage)}, {"age", count(group.age_days)}})
                  : say(how, {{"stage", stage_text(*group.stage)}})},
      {some_tree_ids(trees, kMostTrees)},
      {value_text(kill_temperature(facts, group.stage->kill10))},
      {group.stage->kill90 ? value_text(kill_temperature(facts, *group.stage->kill90)) : Text{}},
      {coldest_text(facts, group)}};
  return row;
}

/// The kind, with what it bears in first bloom: what every stage before it leads to.
Text kind_name(const SeasonFacts& facts, const std::string& species) {
  const Text kind = say_one_of("species", species);
  const CriticalTemperature* bloom = first_bloom_temperature(species);
  if (!bloom || !bloom->kill90) return kind;
  return say("frost.kind-in-bloom", {{"kind", kind},
                                     {"tenth", kill_temperature(facts, bloom->kill10)},
                                     {"nine", kill_temperature(facts, *bloom->kill90)}});
}

Table stages_table(const SeasonFacts& facts) {
  Table table;
  table.title = say("frost.stages-title");
  table.air = Table::Air::dense;
  table.columns = {{say("frost.stage"), ColumnKind::words, 4},
                   {say("frost.trees"), ColumnKind::words, 3},
                   {say("frost.kill-tenth"), ColumnKind::numbers, 1},
                   {say("frost.kill-nine-tenths"), ColumnKind::numbers, 1},
                   {say("frost.coldest-since"), ColumnKind::words, 3}};
  for (const auto& [species, groups] : stage_groups(facts)) {
    TableGroup rows;
    rows.name = kind_name(facts, species);
    for (const StageGroup& group : groups) rows.rows.push_back(stage_row(facts, group));
    table.groups.push_back(std::move(rows));
  }
  return table;
}

/// The kinds that grow here and have no pair of figures.
TextList kinds_without_figures(const SeasonFacts& facts) {
  TextList kinds;
  std::set<std::string> told;
  for (const TreeSeason* tree : facts.resting()) {
    if (tree->frost.published || !told.insert(tree->tree->species).second) continue;
    kinds.items.push_back(say_one_of("species", tree->tree->species));
  }
  return kinds;
}

/// The page in one sentence.
Text finding(const SpringSigns& signs) {
  const auto of = [](const SpringSigns::Trees& trees) {
    return count(static_cast<long>(trees.size()));
  };
  if (!signs.coming.empty()) return say("frost.finding-coming", {{"n", of(signs.coming)}});
  if (!signs.nights_at.empty()) return say("frost.finding-damage", {{"n", of(signs.nights_at)}});
  if (!signs.nights_near.empty()) return say("frost.finding-watch", {{"n", of(signs.nights_near)}});
  return signs.buds_moved.empty() ? say("frost.finding-not-moved")
                                  : say("frost.finding-above", {{"n", of(signs.buds_moved)}});
}

// ---- bloom and partners

Text bloom_text(const BloomFinding& bloom) {
  if (!bloom.expected) return say_one_of("bloom-none", id_of(bloom.why_none));
  if (bloom.seen_by)
    return say("frost.bloom-seen-by", {{"day", day(*bloom.seen_by, DateForm::brief)}});
  if (bloom.method == BloomMethod::seen)
    return say("frost.bloom-seen", {{"day", day(*bloom.expected, DateForm::brief)}});
  const Date early = bloom.early.value_or(*bloom.expected);
  if (!bloom.late) return say("frost.bloom-from", {{"day", day(early, DateForm::brief)}});
  return value_text(days(early, *bloom.late, DateForm::brief));
}

Text bloom_source(const BloomFinding& bloom) {
  if (!bloom.expected) return {};
  switch (bloom.method) {
    case BloomMethod::own_records: {
      const Count years = count(static_cast<long>(bloom.own_years.size()));
      if (!bloom.error_days) return say("bloom-by.own", {{"n", years}});
      return say("bloom-by.own-error",
                 {{"n", years},
                  {"days", number(std::max(1.0, std::round(*bloom.error_days)), 0, "days")}});
    }
    case BloomMethod::species_elsewhere:
      return say("bloom-by.elsewhere", {{"place", literal(bloom.place)}});
    case BloomMethod::own_figure:
      return say("bloom-by.keeper");
    case BloomMethod::published_figure:
      return say("bloom-by.published");
    case BloomMethod::seen:
      return say("bloom-by.seen");
    case BloomMethod::none:
      break;
  }
  return {};
}

Text later_text(const TreeFrost& frost) {
  if (!frost.after_bloom) return {};
  return say("frost.later", {{"n", count(frost.after_bloom->with_damage)},
                             {"all", count(frost.after_bloom->springs)}});
}

/// The trees that can serve, the best first.
Text partner_ids(const PartPartners& part) {
  TextList ids;
  ids.joined = TextList::Joined::plain;
  std::set<std::string> told;
  long more = 0;
  for (const Partner& partner : part.partners) {
    if (partner.bar != PartnerBar::none || !told.insert(partner.tree->id).second) continue;
    // What is only possible does not stand beside what is known.
    if (partner.overlap.known_by != part.partners.front().overlap.known_by) continue;
    if (ids.items.size() < kMostPartners) {
      ids.items.push_back(partner.same_tree ? say("partner.same-tree") : literal(partner.tree->id));
    } else {
      ++more;
    }
  }
  return more > 0 ? say("partner.ids-more", {{"ids", ids}, {"more", count(more)}})
                  : say("partner.ids", {{"ids", ids}});
}

/// Why the tree stands alone this year, by the neighbour that comes nearest.
Text none_this_year_text(const PartPartners& part) {
  for (const Partner& partner : part.partners) {
    if (partner.bar < PartnerBar::lost) continue;
    return say("partner.none-this-year", {{"id", literal(partner.tree->id)},
                                          {"why", say_one_of("partner-bar", id_of(partner.bar))}});
  }
  return say_one_of("partner-state", id_of(part.state));
}

Text partner_text(const PartPartners& part) {
  // Some fruit comes without a partner, too.
  const bool partly = part.need == PartnerNeed::better_with;
  switch (part.state) {
    case PartnerState::served:
    case PartnerState::likely:
      return partly ? say("partner.better-with", {{"ids", partner_ids(part)}}) : partner_ids(part);
    case PartnerState::not_known:
      if (!part.best()) break;
      return say("partner.perhaps", {{"ids", partner_ids(part)}});
    case PartnerState::none_this_year:
      return none_this_year_text(part);
    case PartnerState::none_here:
      if (partly) return say("partner.none-here-partly");
      break;
    case PartnerState::sets_alone:
    case PartnerState::not_bearing:
      break;
  }
  return say_one_of("partner-state", id_of(part.state));
}

Text together_text(const PartPartners& part) {
  const Partner* best = part.best();
  if (!best || part.state > PartnerState::likely || part.state < PartnerState::served) return {};
  if (best->overlap.known_by != BloomOverlap::KnownBy::dates) return say("partner.by-groups");
  return say(best->overlap.expected ? "partner.days-about" : "partner.days",
             {{"days", number(best->overlap.days, 0, "days")}});
}

TableRow bloom_row(const TreeSeason& tree) {
  TableRow row;
  const PartPartners* part = tree.partners.leading();
  row.cells = {{tree_text(*tree.tree)},
               {bloom_text(tree.bloom)},
               {bloom_source(tree.bloom)},
               {later_text(tree.frost)},
               {part ? partner_text(*part) : Text{}},
               {part ? together_text(*part) : Text{}}};
  return row;
}

Table bloom_table(const SeasonFacts& facts) {
  Table table;
  table.title = say("frost.bloom-title");
  table.air = Table::Air::dense;
  table.columns = {{say("frost.tree"), ColumnKind::words, 0},
                   {say("frost.first-bloom"), ColumnKind::words, 0},
                   {say("frost.bloom-by"), ColumnKind::words, 0, false, true},
                   {say("frost.later-head"), ColumnKind::words, 0},
                   {say("frost.partner"), ColumnKind::words, 0},
                   {say("frost.together"), ColumnKind::words, 0}};
  std::vector<std::string> order;
  std::map<std::string, TableGroup> groups;
  for (const TreeSeason* tree : facts.resting()) {
    TableGroup& group = groups[tree->tree->species];
    if (group.rows.empty()) {
      order.push_back(tree->tree->species);
      group.name = say_one_of("species", tree->tree->species);
    }
    group.rows.push_back(bloom_row(*tree));
  }
  for (const std::string& species : order) table.groups.push_back(std::move(groups[species]));
  return table;
}

// ---- what else happened

/// "183 Utah units and 96 chill hours less warm hours".
TextList losses(const SeasonFacts& facts) {
  TextList taken;
  for (const WarmHours::Loss& loss : facts.warm.losses) {
    if (loss.taken < 0.5) continue;
    taken.items.push_back(say(
        "frost.loss", {{"amount", number(loss.taken)}, {"measure", measure_text(loss.measure)}}));
  }
  return taken;
}

Text warm_text(const SeasonFacts& facts) {
  const Number line = line_temperature(*facts.orchard, kWarmLine);
  const Count hours = count(facts.warm.hours);
  const TextList taken = losses(facts);
  if (facts.warm.hours == 0) return say("frost.warm-none", {{"line", line}});
  if (taken.items.empty()) return say("frost.warm", {{"n", hours}, {"line", line}});
  return say("frost.warm-cost", {{"n", hours}, {"line", line}, {"taken", taken}});
}

Text last_frost_text(const SeasonFacts& facts) {
  const auto days = last_frost_days(facts);
  if (!days) return {};
  return say("frost.last", {{"line", line_temperature(*facts.orchard, kFreezing)},
                            {"n", count(days->springs)},
                            {"half", day(days->middle)},
                            {"first", day(days->first)},
                            {"last", day(days->last)}});
}

/// One sentence for the trees that have something; nothing where none does.
void add_sign(List& list, const char* id, const SpringSigns::Trees& trees,
              std::vector<NamedValue> values = {}) {
  if (trees.empty()) return;
  values.push_back({"trees", tree_ids(trees)});
  values.push_back({"n", count(static_cast<long>(trees.size()))});
  list.items.push_back(say(id, std::move(values)));
}

List signs_list(const SeasonFacts& facts, const SpringSigns& signs) {
  List list;
  list.items.push_back(warm_text(facts));
  if (Text last = last_frost_text(facts); !last.empty()) list.items.push_back(std::move(last));
  if (!signs.coming.empty()) list.items.push_back(coming_text(facts, signs.coming));
  add_sign(list, "frost.damage-seen", signs.damage_seen);
  add_sign(list, "frost.crop-perhaps", signs.crop_perhaps);
  add_sign(list, "frost.crop-unlikely", signs.crop_unlikely);
  add_sign(list, "frost.look-again", signs.look_again);
  add_sign(list, "frost.leaves-held", signs.leaves_held);
  add_sign(list, "frost.out-of-season", signs.bloom_out_of_season);
  add_sign(list, "frost.in-leaf", signs.freezes_in_leaf,
           {{"line", line_temperature(*facts.orchard, kHardFreeze)}});
  add_sign(list, "frost.dormant-watch", signs.dormant_watch);
  add_sign(list, "frost.dormant-likely", signs.dormant_likely);
  add_sign(list, "frost.swings", signs.swings, {{"step", difference(*facts.orchard, kGreatSwing)}});
  return list;
}

}  // namespace

Blocks frost_section(const SeasonFacts& facts) {
  Blocks blocks;
  if (facts.resting().empty()) return blocks;
  blocks.emplace_back(Heading{1, say("frost.title"), {}}, Importance::essential);
  const SpringSigns signs = spring_signs(facts);
  const Table stages = stages_table(facts);
  Blocks notes;
  notes.emplace_back(Heading{3, say("frost.notes-title"), {}});
  if (!stages.groups.empty()) {
    blocks.emplace_back(Paragraph{Role::lead, finding(signs)}, Importance::essential);
    blocks.emplace_back(stages, Importance::essential);
    notes.emplace_back(Paragraph{
        Role::note, say("frost.stages-note",
                        {{"margin", value_text(difference(*facts.orchard, kClearNightMargin))}})});
  }
  const TextList without = kinds_without_figures(facts);
  if (!without.items.empty())
    notes.emplace_back(Paragraph{Role::note, say("frost.no-figures", {{"kinds", without}})});
  notes.emplace_back(Paragraph{Role::note, say("frost.bloom-note")});
  blocks.emplace_back(bloom_table(facts), Importance::essential);
  for (Block& block : shortfall_blocks(facts)) blocks.push_back(std::move(block));
  Blocks other;
  other.emplace_back(Heading{3, say("frost.other-title"), {}});
  other.emplace_back(signs_list(facts, signs));
  Columns below;
  below.columns.push_back({6, std::move(other)});
  below.columns.push_back({6, std::move(notes)});
  blocks.emplace_back(std::move(below), Importance::essential);
  return blocks;
}

}  // namespace winterfolio
