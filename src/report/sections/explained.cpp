// What the cards say in a word or two, said in full: every cut in use this winter with its stop
// rule and who says so, and what the trees' own years tell of their needs.
#include <algorithm>
#include <map>
#include <string>
#include <utility>
#include <vector>

#include "report/sections.h"
#include "report/sources.h"
#include "report/speak.h"

namespace winterfolio {
namespace {

constexpr std::size_t kMostTrees = 12;  ///< named for a cut

/// One cut, and the trees that have it on their list.
struct CutInUse {
  const CutLine* line = nullptr;
  std::vector<const Tree*> trees;
};

/// Every cut on a crew's list, in working order. What a poor winter makes stop sooner is told once
/// over the table.
std::vector<CutInUse> cuts_in_use(const SeasonFacts& facts) {
  std::map<std::string, CutInUse> found;
  for (const TreeSeason& tree : facts.trees) {
    if (tree.plan.work != TreeWork::crew) continue;
    for (const CutLine& line : tree.plan.cuts.lines) {
      CutInUse& cut = found[line.words];
      if (!cut.line || cut.line->capped_by) cut.line = &line;
      cut.trees.push_back(tree.tree);
    }
  }
  std::vector<CutInUse> cuts;
  for (auto& [words, cut] : found) cuts.push_back(std::move(cut));
  std::stable_sort(cuts.begin(), cuts.end(), [](const CutInUse& a, const CutInUse& b) {
    return a.line->rank < b.line->rank;
  });
  return cuts;
}

/// The rule's own stop, whatever caps it this winter.
Text own_stop(const CutLine& line) {
  return say(line.capped_by ? "cut." + line.words + ".stop" : line.stop);
}

/// The crews' trees that have a cut which that stop rule caps.
std::vector<const Tree*> trees_stopped_at(const SeasonFacts& facts, std::string_view stop) {
  std::vector<const Tree*> trees;
  for (const TreeSeason& tree : facts.trees) {
    if (tree.plan.work != TreeWork::crew) continue;
    const auto& lines = tree.plan.cuts.lines;
    if (std::any_of(lines.begin(), lines.end(),
                    [&](const CutLine& line) { return line.stop == stop; }))
      trees.push_back(tree.tree);
  }
  return trees;
}
bool any_stops_at(const SeasonFacts& facts, std::string_view stop) {
  return !trees_stopped_at(facts, stop).empty();
}

bool counts_heavy_cuts(const CutInUse& cut) {
  const auto rules = cut_rules();
  return std::any_of(rules.begin(), rules.end(), [&](const CutRule& rule) {
    return rule.id == cut.line->rule && rule.allows_heavy_cuts;
  });
}

/// What the words of thickness mean, those that this winter's cards use.
Text thickness_text(const SeasonFacts& facts, const std::vector<CutInUse>& cuts) {
  Text text = say("explained.thickness");
  const auto add = [&](bool used, const char* words) {
    if (used) text = say("explained.and", {{"one", text}, {"two", say(words)}});
  };
  add(std::any_of(cuts.begin(), cuts.end(), counts_heavy_cuts), "explained.heavy");
  const std::vector<const Tree*> no_heavy = trees_stopped_at(facts, "cut.no_heavy_cut.stop");
  if (!no_heavy.empty())
    text =
        say("explained.and",
            {{"one", text},
             {"two", say("explained.no-heavy", {{"trees", some_tree_ids(no_heavy, kMostTrees)}})}});
  add(any_stops_at(facts, "cut.after_poor_chill.stop"), "explained.no-thick");
  add(any_stops_at(facts, "cut.leaves_held.stop"), "explained.not-yet");
  return text;
}

/// The cuts as a list in two columns, half in each.
Columns cuts_list(const std::vector<CutInUse>& cuts) {
  Columns columns;
  const std::size_t half = (cuts.size() + 1) / 2;
  for (std::size_t first = 0; first < cuts.size(); first += half) {
    List list;
    list.role = Role::note;
    for (std::size_t i = first; i < std::min(cuts.size(), first + half); ++i) {
      const CutInUse& cut = cuts[i];
      list.items.push_back(
          say("explained.cut", {{"brief", say("cut." + cut.line->words + ".brief")},
                                {"what", say(cut.line->what)},
                                {"stop", own_stop(*cut.line)},
                                {"trees", some_tree_ids(cut.trees, kMostTrees)},
                                {"source", source_text(cut.line->because)}}));
    }
    columns.columns.push_back({6, {Block(std::move(list))}});
  }
  return columns;
}

// ---- own years

/// The winter after which the tree leafed as said, with that much cold.
const EvidenceYear* year_of(const OwnEvidence& evidence, Leafing leafing, double chill) {
  for (const EvidenceYear& year : evidence.years) {
    if (year.leafing == leafing && year.chill == chill) return &year;
  }
  return nullptr;
}

TableCell bound_cell(const SeasonFacts& facts, const OwnEvidence& evidence, Leafing leafing,
                     std::optional<double> chill) {
  if (!chill) return {};
  const EvidenceYear* year = year_of(evidence, leafing, *chill);
  if (!year) return {value_text(number(*chill))};
  const WinterYears winter = winter_years(year->year, !facts.today.window.crosses_new_year());
  return {say("own-years.bound", {{"chill", number(*chill)}, {"winter", winter}})};
}

/// What stands in a table for the tree's cultivar, in the measure of its own years.
Text figure_elsewhere(const TreeSeason& tree) {
  for (const Need& need : tree.verdict.leading().part.needs) {
    if (!need.may_decide() || need.measure != tree.evidence->measure) continue;
    if (need.low && need.high) return value_text(range(*need.low, *need.high));
    if (need.low) return say("need.at-least", {{"low", number(*need.low)}});
    if (need.high) return say("need.up-to", {{"high", number(*need.high)}});
  }
  return {};
}

/// The trees whose own years say something of their need.
std::vector<const TreeSeason*> with_own_years(const SeasonFacts& facts) {
  std::vector<const TreeSeason*> trees;
  for (const TreeSeason* tree : facts.resting()) {
    if (tree->evidence && (tree->bracket != BracketUse::none || tree->evidence->contradicts_itself))
      trees.push_back(tree);
  }
  return trees;
}

/// How the tree's own years and the table go together.
Text outcome_of(const TreeSeason& tree) {
  if (tree.evidence->contradicts_itself) return say("own-years.contradicts");
  switch (tree.bracket) {
    case BracketUse::none:
      break;
    case BracketUse::alone:
      return say("own-years.alone");
    case BracketUse::agrees:
      return say("own-years.agrees");
    case BracketUse::narrows:
      return say("own-years.narrows");
    case BracketUse::overrules:
      return say("own-years.overrules");
  }
  return {};
}

Table own_years_table(const SeasonFacts& facts, const std::vector<const TreeSeason*>& trees) {
  Table table;
  table.title = say("own-years.title");
  table.air = Table::Air::dense;
  table.columns = {{say("own-years.tree"), ColumnKind::words, 3, false, false},
                   {say("own-years.too-little"), ColumnKind::words, 2, false, false},
                   {say("own-years.enough"), ColumnKind::words, 2, false, false},
                   {say("own-years.published"), ColumnKind::words, 2, false, false},
                   {say("own-years.so"), ColumnKind::words, 3, false, false}};
  std::map<ChillMeasure, TableGroup> groups;
  for (const TreeSeason* tree : trees) {
    const OwnEvidence& evidence = *tree->evidence;
    TableGroup& group = groups[evidence.measure];
    if (group.rows.empty()) {
      const bool extremes = evidence.basis == WinterDetail::daily_extremes;
      group.name = say(extremes ? "own-years.measure-extremes" : "own-years.measure",
                       {{"measure", measure_title(evidence.measure)}});
    }
    TableRow row;
    row.cells = {{tree_text(*tree->tree)},
                 bound_cell(facts, evidence, Leafing::badly, evidence.too_little),
                 bound_cell(facts, evidence, Leafing::well, evidence.enough),
                 {figure_elsewhere(*tree)},
                 {outcome_of(*tree)}};
    group.rows.push_back(std::move(row));
  }
  for (auto& [measure, group] : groups) table.groups.push_back(std::move(group));
  return table;
}

}  // namespace

Blocks explained_section(const SeasonFacts& facts) {
  Blocks blocks;
  const std::vector<CutInUse> cuts =
      facts.looking_back() ? std::vector<CutInUse>{} : cuts_in_use(facts);
  const std::vector<const TreeSeason*> own = with_own_years(facts);
  if (cuts.empty() && own.empty()) return blocks;
  blocks.emplace_back(Heading{1, say("explained.title"), {}}, Importance::essential);
  if (!cuts.empty()) {
    blocks.emplace_back(Heading{2, say("explained.cuts-title"), {}}, Importance::essential);
    blocks.emplace_back(Paragraph{Role::body, thickness_text(facts, cuts)}, Importance::essential);
    blocks.emplace_back(cuts_list(cuts), Importance::essential);
  }
  if (!own.empty()) {
    blocks.emplace_back(own_years_table(facts, own));
    const bool reduced = std::any_of(own.begin(), own.end(), [&](const TreeSeason* tree) {
      return tree->evidence->basis != facts.standing_of(*tree->tree).chill->detail;
    });
    blocks.emplace_back(
        Paragraph{Role::note, say(reduced ? "own-years.note-extremes" : "own-years.note")});
  }
  return blocks;
}

}  // namespace winterfolio
