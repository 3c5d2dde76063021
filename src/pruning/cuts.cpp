// Chooses the lines of a cut list and tightens their stop rules where winter, window or species ask
// for it.
#include "pruning/cuts.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <stdexcept>

#include "pruning/table_cells.h"
#include "pruning/window_rules.h"

namespace winterfolio {
namespace {

constexpr std::string_view kTable = "src/pruning/tables/cuts.csv";
constexpr std::string_view kAny = "any";
constexpr std::string_view kUnknown = "unknown";
constexpr std::string_view kDiseased = "diseased";
constexpr std::string_view kAimOfForm = "aim_of_form";
constexpr std::string_view kFruitingWood = "fruiting_wood";
constexpr std::string_view kAfterPoorChill = "after_poor_chill";
constexpr std::string_view kCanopyShare = "canopy_share_pct";
/// The share for which the words have a stop rule of their own.
constexpr double kFifth = 20.0;

/// Wood that comes off whatever the winter was: dead, sick or broken, no wood at all, or none of
/// the crown's.
constexpr std::array<std::string_view, 5> kNotOfTheLivingCrown = {"dead", "diseased", "damaged",
                                                                  "mummies", "suckers"};

CutLimit limit_of(const CsvRow& row) {
  CutLimit limit{row.text("limit_of"), std::nullopt};
  if (const auto low = row.number("limit_low"))
    limit.figure = Range{*low, row.required_number("limit_high")};
  return limit;
}

CutRule rule_of(const CsvRow& row) {
  CutRule rule;
  rule.id = row.text("id");
  const std::string same = row.text("same_words_as");
  rule.words = same.empty() ? rule.id : same;
  rule.rank = whole_number(row, "rank");
  rule.wood = row.text("wood");
  rule.species = row.text("species");
  rule.form = row.text("form");
  rule.state = row.text("state");
  rule.disease = row.text("disease");
  rule.limit = limit_of(row);
  rule.stop_names_share = row.text("stop_names_share") == "yes";
  rule.allows_heavy_cuts = row.text("allows_heavy_cuts") == "yes";
  rule.because = evidence_of(row);
  return rule;
}

bool bears(TreeState state) { return state == TreeState::bearing || state == TreeState::neglected; }

/// Whether the rule as it stands lets nobody cut at all, or nothing thicker than a thumb.
bool is_strict_already(const CutRule& rule) {
  if (!rule.limit.figure) return false;
  if (rule.limit.of == "cm_diameter") return rule.limit.figure->high <= 2.5;
  return rule.limit.figure->high == 0.0 && rule.limit.of != "heavy_cuts";
}

CutLine line_of(const CutRule& rule) {
  CutLine line;
  line.rule = rule.id;
  line.wood = rule.wood;
  line.rank = rule.rank;
  line.words = rule.words;
  line.what = "cut." + rule.words + ".do";
  line.stop = "cut." + rule.words + ".stop";
  line.limit = rule.limit;
  line.because = rule.because;
  return line;
}

/// A lower share for the species outranks the rule's.
void lower_share(CutLine& line, const CutRule& rule, std::string_view species) {
  const auto share = max_canopy_share(species);
  if (rule.limit.of != kCanopyShare || !share || *share >= rule.limit.figure->high) return;
  line.limit.figure = Range{std::min(rule.limit.figure->low, *share), *share};
  if (!rule.stop_names_share) return;
  if (*share != kFifth)
    throw std::logic_error(fmt::format("no words for a share of {} % in {}", *share, rule.id));
  line.stop += "_fifth";
}

const CutRule& poor_chill_rule() {
  return *cut_rule_for(kAfterPoorChill, kAny, "", TreeState::bearing, "");
}

/// Whether its cuts may be thicker than a wrist though its stop rule does not count such.
bool takes_limbs(const CutRule& rule) {
  return rule.limit.of == kCanopyShare || rule.limit.of == "limbs";
}

/// The stricter rule of the day: after a poor winter, and while leaves are held, no thick cut into
/// living wood, in some windows no heavy one.
void cap(CutLine& line, const CutRule& rule, TreeState state, const CutFacts& facts) {
  const bool living = std::find(kNotOfTheLivingCrown.begin(), kNotOfTheLivingCrown.end(),
                                rule.wood) == kNotOfTheLivingCrown.end();
  // A tree just planted has no thick wood, and its one cut must stay one.
  const bool may_be_thick = living && state != TreeState::planted && !is_strict_already(rule);
  if (calls_for_light_cuts(facts.chill) && may_be_thick && rule.wood != kAfterPoorChill) {
    const CutRule& poor_chill = poor_chill_rule();
    line.stop = "cut." + poor_chill.words + ".stop";
    line.limit = poor_chill.limit;
    line.capped_by = poor_chill.because;
  } else if (facts.leaves_held && may_be_thick) {
    line.stop = "cut.leaves_held.stop";
    line.limit = {"thick_cuts", Range{0.0, 0.0}};
    line.capped_by = facts.leaves_held;
  } else if (facts.no_heavy_cuts && may_be_thick &&
             (rule.allows_heavy_cuts || (bears(state) && takes_limbs(rule)))) {
    line.stop = "cut.no_heavy_cut.stop";
    line.limit = {"thick_cuts", Range{3.0, 3.0}};
    line.capped_by = facts.no_heavy_cuts;
  }
}

/// The woods of this tree's list, flagged ones first; a named disease is itself a flag.
std::vector<std::string_view> woods_of(const Tree& tree, TreeState state, VerdictState chill) {
  std::vector<std::string_view> woods(tree.see_to.begin(), tree.see_to.end());
  if (!tree.disease.empty()) woods.push_back(kDiseased);
  woods.push_back(kAimOfForm);
  if (calls_for_light_cuts(chill))
    woods.push_back(kAfterPoorChill);
  else if (bears(state))
    woods.push_back(kFruitingWood);
  std::sort(woods.begin(), woods.end());
  woods.erase(std::unique(woods.begin(), woods.end()), woods.end());
  return woods;
}

/// A disease without a name, or with one that the table does not know, is not cut.
bool waits_for_lead(const Tree& tree) {
  const bool flagged =
      std::find(tree.see_to.begin(), tree.see_to.end(), kDiseased) != tree.see_to.end();
  if (tree.disease.empty()) return flagged;
  if (tree.disease == kUnknown) return true;
  const auto rules = cut_rules();
  return std::none_of(rules.begin(), rules.end(),
                      [&](const CutRule& rule) { return rule.disease == tree.disease; });
}

}  // namespace

bool calls_for_light_cuts(VerdictState chill) {
  return chill == VerdictState::short_of || chill == VerdictState::undecided;
}

bool CutRule::matches(std::string_view tree_species, std::string_view tree_form,
                      std::string_view tree_state, std::string_view tree_disease) const {
  const auto fits = [](const std::string& named, std::string_view tree) {
    return named == kAny || named == tree;
  };
  return fits(species, tree_species) && fits(form, tree_form) && fits(state, tree_state) &&
         fits(disease, tree_disease);
}

int CutRule::score() const {
  return (disease != kAny ? 8 : 0) + (species != kAny ? 4 : 0) + (form != kAny ? 2 : 0) +
         (state != kAny ? 1 : 0);
}

std::span<const CutRule> cut_rules() {
  static const std::vector<CutRule> rules = [] {
    std::vector<CutRule> read;
    const CsvTable table = CsvTable::embedded(kTable);
    for (const CsvRow row : table) read.push_back(rule_of(row));
    return read;
  }();
  return rules;
}

const CutRule* cut_rule_for(std::string_view wood, std::string_view species, std::string_view form,
                            TreeState state, std::string_view disease) {
  const CutRule* best = nullptr;
  for (const CutRule& rule : cut_rules())
    if (rule.wood == wood && rule.matches(species, form, id_of(state), disease) &&
        (!best || rule.score() > best->score()))
      best = &rule;
  return best;
}

std::optional<double> max_canopy_share(std::string_view species) {
  static const CsvTable table = CsvTable::embedded("src/pruning/tables/canopy_shares.csv");
  for (const CsvRow row : table)
    if (row.text("species") == species) return row.required_number("max_canopy_share_pct");
  return std::nullopt;
}

CutList cuts_for(const Tree& tree, TreeState state, const CutFacts& facts) {
  CutList list;
  if (tree.species == "other") return list;
  if (waits_for_lead(tree)) {
    list.wait_for_lead = true;
    list.lines.push_back(
        line_of(*cut_rule_for(kDiseased, tree.species, tree.form, state, kUnknown)));
    return list;
  }
  std::vector<CutLine> all;
  for (std::string_view wood : woods_of(tree, state, facts.chill)) {
    const CutRule* rule = cut_rule_for(wood, tree.species, tree.form, state, tree.disease);
    if (!rule) continue;  // wood that is no one's to cut
    CutLine line = line_of(*rule);
    lower_share(line, *rule, tree.species);
    cap(line, *rule, state, facts);
    all.push_back(std::move(line));
  }
  std::sort(all.begin(), all.end(),
            [](const CutLine& a, const CutLine& b) { return a.rank < b.rank; });
  for (CutLine& line : all)
    (list.lines.size() < kCutLinesATree ? list.lines : list.later).push_back(std::move(line));
  return list;
}

}  // namespace winterfolio
