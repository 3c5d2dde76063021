// Tests the limits of volunteer work against what is known.
#include "pruning/limits.h"

#include <algorithm>
#include <array>
#include <stdexcept>
#include <utility>

#include "pruning/table_cells.h"

namespace winterfolio {
namespace {

constexpr std::string_view kTable = "src/pruning/tables/volunteer_limits.csv";

constexpr std::array<std::pair<std::string_view, LimitCompare>, 6> kCompares = {{
    {"above", LimitCompare::above},
    {"below", LimitCompare::below},
    {"at_or_above", LimitCompare::at_or_above},
    {"at_or_below", LimitCompare::at_or_below},
    {"present", LimitCompare::present},
    {"absent", LimitCompare::absent},
}};
constexpr std::array<std::pair<std::string_view, Consequence>, 4> kConsequences = {{
    {"no_minors", Consequence::no_minors},
    {"hold", Consequence::hold},
    {"arborist_list", Consequence::arborist_list},
    {"go_home", Consequence::go_home},
}};

/// Figures that stand for measured where the keeper names the hazard: nobody has measured, so they
/// count as held.
constexpr std::array<std::pair<std::string_view, std::string_view>, 3> kHazardOfFigure = {{
    {"wire_distance", "wires"},
    {"slope", "steep_ground"},
    {"trunk_opening_share_of_width", "hollow_trunk"},
}};

LimitRule rule_of(const CsvRow& row) {
  LimitRule rule;
  rule.id = row.text("id");
  rule.limit = row.text("limit");
  rule.compare = named_cell(kCompares, row, "compare");
  rule.figure = row.number("figure");
  rule.unit = row.text("unit");
  rule.applies_to = cell_list(row.text("applies_to"), ';');
  rule.consequence = named_cell(kConsequences, row, "consequence");
  rule.why = "limit." + rule.id + ".why";
  if (row.text("of_the_tree") == "yes") rule.in_short = "limit." + rule.id + ".short";
  rule.because = evidence_of(row);
  const bool needs_figure =
      rule.compare != LimitCompare::present && rule.compare != LimitCompare::absent;
  if (needs_figure != rule.figure.has_value()) unknown_cell(row, "figure");
  return rule;
}

bool exceeds(const LimitRule& rule, double value) {
  switch (rule.compare) {
    case LimitCompare::above:
      return value > *rule.figure;
    case LimitCompare::below:
      return value < *rule.figure;
    case LimitCompare::at_or_above:
      return value >= *rule.figure;
    case LimitCompare::at_or_below:
      return value <= *rule.figure;
    case LimitCompare::present:
    case LimitCompare::absent:
      break;
  }
  throw std::logic_error("a limit without a figure was given one: " + rule.id);
}

bool hazard_named_for(const LimitRule& rule, const LimitFacts& facts) {
  return std::any_of(kHazardOfFigure.begin(), kHazardOfFigure.end(), [&](const auto& pair) {
    return pair.first == rule.limit && facts.present.contains(pair.second);
  });
}

LimitFacts facts_of(const Tree& tree) {
  LimitFacts facts;
  if (tree.height) facts.figures["tree_height"] = tree.height->metres();
  facts.present.insert(tree.hazards.begin(), tree.hazards.end());
  return facts;
}

}  // namespace

std::string_view id_of(Consequence consequence) { return name_in(kConsequences, consequence); }

std::span<const LimitRule> limit_rules() {
  static const std::vector<LimitRule> rules = [] {
    std::vector<LimitRule> read;
    const CsvTable table = CsvTable::embedded(kTable);
    for (const CsvRow row : table) read.push_back(rule_of(row));
    return read;
  }();
  return rules;
}

std::optional<bool> holds(const LimitRule& rule, const LimitFacts& facts) {
  if (rule.figure) {
    const auto value = facts.figures.find(rule.limit);
    if (value == facts.figures.end()) return std::nullopt;
    return exceeds(rule, value->second);
  }
  const bool is_present = facts.present.contains(rule.limit);
  const bool is_absent = facts.absent.contains(rule.limit);
  if (!is_present && !is_absent) return std::nullopt;
  return rule.compare == LimitCompare::present ? is_present : is_absent;
}

std::vector<const LimitRule*> limits_that_hold(const LimitFacts& facts) {
  std::vector<const LimitRule*> held;
  for (const LimitRule& rule : limit_rules())
    if (holds(rule, facts).value_or(false)) held.push_back(&rule);
  return held;
}

bool TreeLimits::holds_activity(std::string_view activity) const {
  return std::any_of(held.begin(), held.end(), [&](const LimitHit& hit) {
    const auto& of = hit.rule->applies_to;
    return std::find(of.begin(), of.end(), activity) != of.end();
  });
}

TreeLimits limits_of(const Tree& tree) {
  const LimitFacts facts = facts_of(tree);
  TreeLimits limits;
  for (const LimitRule& rule : limit_rules()) {
    if (rule.in_short.empty()) continue;
    const std::optional<bool> known = holds(rule, facts);
    const bool assumed = !known && hazard_named_for(rule, facts);
    if (!known && !assumed) {
      if (rule.consequence == Consequence::arborist_list) limits.check_on_site.push_back(&rule);
      continue;
    }
    if (!assumed && !*known) continue;
    const LimitHit hit{&rule, assumed};
    if (rule.consequence == Consequence::arborist_list) limits.arborist.push_back(hit);
    if (rule.consequence == Consequence::hold) limits.held.push_back(hit);
    if (rule.consequence == Consequence::no_minors) limits.adults_only.push_back(hit);
  }
  return limits;
}

}  // namespace winterfolio
