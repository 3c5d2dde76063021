// The cautions of work among trees, by what this winter's work involves, each with its source;
// local rules, the label and licensed practice first.
#include <algorithm>
#include <map>

#include "report/sections.h"
#include "report/sources.h"

namespace winterfolio {
namespace {

constexpr std::size_t kMostForOne = 4;  ///< cautions under one head
constexpr std::size_t kMostForAny = 6;  ///< under the head of what holds on any day
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

/// A caution and, quiet behind it, who says so; the first of its matter names it.
Text item_of(const Caution& caution, bool first_of_matter, CautionFor matter) {
  const Text what = say(caution.text_words()), source = source_text(caution.because);
  if (!first_of_matter) return say("cautions.item", {{"what", what}, {"source", source}});
  return say(
      "cautions.first-item",
      {{"matter", say_one_of("caution-for", id_of(matter))}, {"what", what}, {"source", source}});
}

/// All of them, half in each of two columns, so that they hang by the shed door on one sheet.
Columns in_two_columns(const ByMatter& by_matter) {
  std::vector<Text> items;
  for (const auto& [matter, cautions] : by_matter) {
    for (const Caution* caution : cautions)
      items.push_back(item_of(*caution, caution == cautions.front(), matter));
  }
  Columns columns;
  const std::size_t half = (items.size() + 1) / 2;
  for (std::size_t first = 0; first < items.size(); first += half) {
    List list;
    list.role = Role::note;
    for (std::size_t i = first; i < std::min(items.size(), first + half); ++i)
      list.items.push_back(std::move(items[i]));
    columns.columns.push_back({6, {Block(std::move(list), Importance::essential)}});
  }
  return columns;
}

}  // namespace

Blocks cautions_section(const SeasonFacts& facts) {
  Blocks blocks;
  blocks.emplace_back(Heading{1, say("cautions.title"), {}}, Importance::essential);
  ByMatter by_matter;
  for (const Caution* caution : cautions_for(facts_for_page(facts), kMostInAll)) {
    auto& group = by_matter[caution->importance == 1 ? CautionFor::any : caution->applies_when];
    const std::size_t most = caution->applies_when == CautionFor::any ? kMostForAny : kMostForOne;
    if (caution->importance == 1 || group.size() < most) group.push_back(caution);
  }
  blocks.emplace_back(Paragraph{Role::caution, say("cautions.lead")}, Importance::essential);
  blocks.emplace_back(in_two_columns(by_matter), Importance::essential);
  return blocks;
}

}  // namespace winterfolio
