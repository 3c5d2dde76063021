// Finds the row of minutes that fits a tree best.
#include "pruning/labour.h"

#include <algorithm>
#include <array>
#include <limits>
#include <stdexcept>
#include <utility>

#include "pruning/table_cells.h"

namespace winterfolio {
namespace {

/// Above this nothing is volunteer work (tables/volunteer_limits.csv, tree-height).
constexpr double kVolunteerHeight = 4.5;
constexpr std::string_view kAny = "any";

constexpr std::array<std::pair<std::string_view, LabourWay>, 4> kWays = {{
    {"ground", LabourWay::ground},
    {"pole", LabourWay::pole},
    {"ladder", LabourWay::ladder},
    {"arborist", LabourWay::arborist},
}};

LabourRule rule_of(const CsvRow& row) {
  LabourRule rule;
  rule.id = row.text("id");
  rule.species = row.text("species");
  rule.state = row.text("state");
  rule.form = row.text("form");
  rule.above_m = row.number("height_above_m");
  rule.to_m = row.number("height_to_m");
  rule.minutes = {row.required_number("minutes_low"), row.required_number("minutes_high")};
  if (!row.text("people").empty()) rule.people = whole_number(row, "people");
  rule.way = named_cell(kWays, row, "how");
  rule.plan_with = row.text("plan_with") == "yes";
  rule.because = evidence_of(row);
  return rule;
}

std::string_view state_word(TreeState state) {
  switch (state) {
    case TreeState::planted:
    case TreeState::formative:
      return "young";
    case TreeState::neglected:
      return "neglected";
    case TreeState::bearing:
      break;
  }
  return "mature";
}

/// How far a height lies outside a rule's span [m]; 0 within it, and where the height is not known.
double distance(const LabourRule& rule, std::optional<double> height) {
  if (!height) return 0.0;
  const double above = rule.above_m.value_or(0.0);
  const double to = rule.to_m.value_or(std::numeric_limits<double>::infinity());
  // The lower bound itself belongs to the row below: outside, by as little as can be.
  if (*height <= above && above > 0.0) return std::max(above - *height, 1e-9);
  return std::max(0.0, *height - to);
}

/// Among the rules that name this species, form and state, those at the least distance.
std::vector<const LabourRule*> nearest(std::string_view species, std::string_view form,
                                       std::string_view state, std::optional<double> height) {
  const bool tall = height && *height > kVolunteerHeight;
  std::vector<const LabourRule*> found;
  double least = std::numeric_limits<double>::infinity();
  for (const LabourRule& rule : labour_rules()) {
    if (!rule.plan_with || rule.species != species || rule.form != form || rule.state != state)
      continue;
    if ((rule.way == LabourWay::arborist) != tall) continue;
    const double away = distance(rule, height);
    if (away < least) found.clear();
    if (away <= least) found.push_back(&rule);
    least = std::min(least, away);
  }
  return found;
}

LabourEstimate estimate_from(const std::vector<const LabourRule*>& rules) {
  LabourEstimate estimate{rules.front()->minutes, 1, LabourWay::ground, {}};
  for (const LabourRule* rule : rules) {
    estimate.minutes.low = std::min(estimate.minutes.low, rule->minutes.low);
    estimate.minutes.high = std::max(estimate.minutes.high, rule->minutes.high);
    estimate.people = std::max(estimate.people, rule->people.value_or(1));
    estimate.way = std::max(estimate.way, rule->way);
    estimate.because.push_back(rule->because);
  }
  return estimate;
}

}  // namespace

std::span<const LabourRule> labour_rules() {
  static const std::vector<LabourRule> rules = [] {
    std::vector<LabourRule> read;
    const CsvTable table = CsvTable::embedded("src/pruning/tables/labour.csv");
    for (const CsvRow row : table) read.push_back(rule_of(row));
    return read;
  }();
  return rules;
}

std::optional<LabourEstimate> labour_for(const Tree& tree, TreeState state) {
  if (tree.species == "other") return std::nullopt;
  const auto height =
      tree.height ? std::optional<double>(tree.height->metres()) : std::optional<double>();
  // No young tree is that tall; where the file says so, the height decides.
  const bool tall = height && *height > kVolunteerHeight;
  const std::string_view word =
      tall && state != TreeState::neglected ? "mature" : state_word(state);
  for (const auto& [species, form] :
       {std::pair<std::string_view, std::string_view>(tree.species, tree.form),
        {kAny, tree.form},
        {tree.species, ""},
        {kAny, ""}}) {
    const auto rules = nearest(species, form, word, height);
    if (!rules.empty()) return estimate_from(rules);
  }
  throw std::logic_error("no minutes for any tree of a state");
}

std::span<const Overhead> workday_overheads() {
  static const std::vector<Overhead> overheads = [] {
    std::vector<Overhead> read;
    const CsvTable table = CsvTable::embedded("src/pruning/tables/workday_overheads.csv");
    for (const CsvRow row : table)
      read.push_back({row.text("id"), row.required_number("low"), row.required_number("high"),
                      row.required_number("default"), row.text("unit"), evidence_of(row)});
    return read;
  }();
  return overheads;
}

const Overhead& workday_overhead(std::string_view id) {
  for (const Overhead& overhead : workday_overheads())
    if (overhead.id == id) return overhead;
  throw std::logic_error("no overhead of a workday is called " + std::string(id));
}

}  // namespace winterfolio
