// What too little cold does to the trees that are short, in graded words, and what their keeper can
// then do.
#include <algorithm>
#include <set>
#include <string>
#include <vector>

#include "pruning/evidence.h"
#include "report/sections.h"
#include "report/speak.h"
#include "report/tree_season.h"

namespace winterfolio {
namespace {

constexpr double kShowsFrom = 0.1;  ///< share of the need; under it a tree counts as nearly met

/// Trees whose shortfall reads the same: at most so much, and so sure.
struct ShortTrees {
  const ShortfallEffect* effect = nullptr;
  TreeShortfall::Standing standing = TreeShortfall::Standing::ended;
  std::vector<const TreeSeason*> trees;
};

/// The trees that are short, by what may come at most. Within a tenth of the need it hardly shows.
std::vector<ShortTrees> trees_by_shortfall(const SeasonFacts& facts) {
  std::vector<ShortTrees> found;
  for (const TreeSeason* tree : from_worst_to_best(facts)) {
    if (tree->verdict.leading().verdict.state != VerdictState::short_of) continue;
    if (!tree->shortfall || !tree->shortfall->at_most) continue;
    const TreeShortfall& shortfall = *tree->shortfall;
    if (shortfall.at_most->short_from < kShowsFrom) continue;
    auto same = std::find_if(found.begin(), found.end(), [&](const ShortTrees& one) {
      return one.effect == shortfall.at_most && one.standing == shortfall.standing;
    });
    if (same == found.end())
      same = found.insert(found.end(), {shortfall.at_most, shortfall.standing, {}});
    same->trees.push_back(tree);
  }
  return found;
}

Table shortfall_table(const std::vector<ShortTrees>& bands) {
  Table table;
  table.title = say("too-little.title");
  table.air = Table::Air::dense;
  table.columns = {{{}, ColumnKind::words, 2, false, true},
                   {{}, ColumnKind::words, 10, false, false}};
  for (const ShortTrees& band : bands) {
    TableGroup group;
    TextList trees;
    for (const TreeSeason* tree : band.trees) {
      const Range& share = tree->shortfall->share;
      trees.items.push_back(
          say("too-little.tree",
              {{"tree", literal(tree->tree->id)},
               {"share", range(share.low * 100.0, share.high * 100.0, 0, "percent")}}));
    }
    group.name = say("too-little.band." + std::string(id_of(band.standing)), {{"trees", trees}});
    const auto add = [&](const char* matter, Text what) {
      TableRow row;
      row.cells = {{say_one_of("too-little", matter)}, {std::move(what)}};
      group.rows.push_back(std::move(row));
    };
    add("leafing", say(band.effect->words("leafing")));
    add("bloom", say(band.effect->words("bloom")));
    add("fruit", say("too-little.two", {{"one", say(band.effect->words("fruit_set"))},
                                        {"two", say(band.effect->words("fruit"))}}));
    add("keeper_can", say(band.effect->words("keeper_can")));
    add("do_not", say(band.effect->words("do_not")));
    table.groups.push_back(std::move(group));
  }
  return table;
}

/// The codes of those who say so, each once.
TextList codes_of(const std::vector<ShortTrees>& bands) {
  std::set<std::string> codes;
  for (const ShortTrees& band : bands)
    for (std::string& code : source_codes(band.effect->because.source))
      codes.insert(std::move(code));
  TextList list;
  list.joined = TextList::Joined::plain;
  for (const std::string& code : codes) list.items.push_back(literal(code));
  return list;
}

}  // namespace

Blocks shortfall_blocks(const SeasonFacts& facts) {
  Blocks blocks;
  const std::vector<ShortTrees> bands = trees_by_shortfall(facts);
  if (bands.empty()) return blocks;
  blocks.emplace_back(shortfall_table(bands));
  blocks.emplace_back(
      Paragraph{Role::note, say("too-little.note", {{"sources", codes_of(bands)}})});
  return blocks;
}

std::vector<std::string> shortfall_sources(const SeasonFacts& facts) {
  std::vector<std::string> sources;
  for (const ShortTrees& band : trees_by_shortfall(facts))
    sources.push_back(band.effect->because.source);
  return sources;
}

}  // namespace winterfolio
