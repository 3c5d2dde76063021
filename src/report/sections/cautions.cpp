// The cautions of work among trees, by what this winter's work involves, each with its source;
// local rules, the label and licensed practice first.
#include <array>
#include <map>

#include "report/sections.h"
#include "report/sources.h"

namespace winterfolio {
namespace {

constexpr std::size_t kMostForOne = 4;  ///< cautions under one head
constexpr std::size_t kMostInAll = 30;

using ByMatter = std::map<CautionFor, std::vector<const Caution*>>;

/// What a crew among trees meets in winter whatever the plan says, and what the plan adds.
CautionFacts facts_for_page(const SeasonFacts& facts) {
  std::vector<TreePlan> plans;
  for (const TreeSeason& tree : facts.trees) plans.push_back(tree.plan);
  CautionFacts involved = caution_facts(plans, *facts.orchard);
  involved.ladder = involved.saw = involved.cold = involved.disinfectant = involved.minors = true;
  return involved;
}

TableRow row_of(const Caution& caution) {
  TableRow row;
  row.cells.push_back({say(caution.text_words()), {}, {}});
  row.cells.push_back({source_text(caution.because), {}, {}});
  return row;
}

}  // namespace

Blocks cautions_section(const SeasonFacts& facts) {
  Blocks blocks;
  blocks.emplace_back(Heading{1, say("cautions.title"), {}}, Importance::essential);
  ByMatter by_matter;
  for (const Caution* caution : cautions_for(facts_for_page(facts), kMostInAll)) {
    auto& group = by_matter[caution->importance == 1 ? CautionFor::any : caution->applies_when];
    if (caution->importance == 1 || group.size() < kMostForOne) group.push_back(caution);
  }
  Table table;
  table.columns = {{say("cautions.head"), ColumnKind::words, 8, false, false},
                   {say("cautions.source-head"), ColumnKind::words, 4, false, true}};
  table.air = Table::Air::dense;
  for (const auto& [matter, cautions] : by_matter) {
    TableGroup group;
    group.name = say_one_of("caution-for", id_of(matter));
    for (const Caution* caution : cautions) group.rows.push_back(row_of(*caution));
    table.groups.push_back(std::move(group));
  }
  blocks.emplace_back(Paragraph{Role::caution, say("cautions.lead")}, Importance::essential);
  blocks.emplace_back(std::move(table), Importance::essential);
  return blocks;
}

}  // namespace winterfolio
