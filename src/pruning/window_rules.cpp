// Reads the window rules and lets the one that names most of a tree win.
#include "pruning/window_rules.h"

#include <algorithm>
#include <array>
#include <utility>

#include "pruning/table_cells.h"

namespace winterfolio {
namespace {

constexpr std::string_view kTable = "src/pruning/tables/windows.csv";
constexpr std::string_view kAny = "any";
constexpr std::string_view kOther = "other";
constexpr std::string_view kAdvice = "advice";

constexpr std::array<std::pair<std::string_view, WindowSeason>, 4> kSeasons = {{
    {"none", WindowSeason::none},
    {"winter", WindowSeason::winter},
    {"late_winter", WindowSeason::late_winter},
    {"dry_summer", WindowSeason::dry_summer},
}};
constexpr std::array<std::pair<std::string_view, TreeState>, 4> kStates = {{
    {"planted", TreeState::planted},
    {"formative", TreeState::formative},
    {"bearing", TreeState::bearing},
    {"neglected", TreeState::neglected},
}};
constexpr std::array<std::pair<std::string_view, District DistrictPressures::*>, 5> kDistrictKeys =
    {{
        {"wet_winters", &DistrictPressures::wet_winters},
        {"silver_leaf", &DistrictPressures::silver_leaf},
        {"eutypa", &DistrictPressures::eutypa},
        {"bacterial_canker", &DistrictPressures::bacterial_canker},
        {"fire_blight", &DistrictPressures::fire_blight},
    }};

District DistrictPressures::*district_key(const CsvRow& row, std::string_view name) {
  for (const auto& [known, key] : kDistrictKeys)
    if (known == name) return key;
  unknown_cell(row, "when_district");
}

/// "eutypa=no;bacterial_canker|silver_leaf=yes"
std::vector<DistrictClause> clauses_of(const CsvRow& row) {
  std::vector<DistrictClause> clauses;
  for (const std::string& part : cell_list(row.text("when_district"), ';')) {
    const std::vector<std::string> sides = cell_list(part, '=');
    if (sides.size() != 2 || (sides[1] != "yes" && sides[1] != "no"))
      unknown_cell(row, "when_district");
    DistrictClause clause{{}, sides[1] == "yes"};
    for (const std::string& name : cell_list(sides[0], '|'))
      clause.keys.push_back(district_key(row, name));
    if (!clause.yes && clause.keys.size() != 1) unknown_cell(row, "when_district");
    clauses.push_back(std::move(clause));
  }
  return clauses;
}

MonthDay month_day(const CsvRow& row, std::string_view column) {
  const auto day = parse_month_day(row.text(column));
  if (!day) unknown_cell(row, column);
  return *day;
}

PlantEvent event(const CsvRow& row, std::string_view column) {
  const auto found = plant_event_named(row.text(column));
  if (!found) unknown_cell(row, column);
  return *found;
}

void read_heavy_cuts(WindowRule& rule, const CsvRow& row) {
  constexpr std::string_view kAfter = "after ";
  const std::string& cell = row.text("heavy_cuts");
  if (cell == "no") {
    rule.heavy_cuts = HeavyCutRule::none;
  } else if (cell == "yes") {
    rule.heavy_cuts = HeavyCutRule::allowed;
  } else {
    const auto day =
        cell.starts_with(kAfter) ? parse_month_day(cell.substr(kAfter.size())) : std::nullopt;
    if (!day) unknown_cell(row, "heavy_cuts");
    rule.heavy_cuts = HeavyCutRule::from_day;
    rule.heavy_cuts_from = *day;
  }
}

WindowRule rule_of(const CsvRow& row) {
  WindowRule rule;
  rule.id = row.text("id");
  rule.species = row.text("species");
  rule.state = row.text("state");
  rule.when = clauses_of(row);
  rule.season = named_cell(kSeasons, row, "season");
  rule.opens_event = event(row, "opens_event");
  rule.opens_offset_days = whole_number(row, "opens_offset_days");
  rule.opens_fallback = month_day(row, "opens_fallback");
  rule.closes_event = event(row, "closes_event");
  rule.closes_offset_days = whole_number(row, "closes_offset_days");
  rule.closes_fallback = month_day(row, "closes_fallback");
  rule.dates_mark = rule_mark_named(row.text("dates_mark"));
  rule.order_rank = whole_number(row, "order_rank");
  rule.dry_days_before = whole_number(row, "dry_days_before");
  rule.dry_days_after = whole_number(row, "dry_days_after");
  rule.dry_mark = rule_mark_named(row.text("dry_mark"));
  if (const auto degrees = row.number("min_temp_c")) {
    rule.min_temperature = Celsius(*degrees);
    rule.min_temperature_mark = rule_mark_named(row.text("min_temp_mark"));
  }
  read_heavy_cuts(rule, row);
  rule.because = evidence_of(row);
  return rule;
}

}  // namespace

std::string_view id_of(WindowSeason season) { return name_in(kSeasons, season); }
std::string_view id_of(TreeState state) { return name_in(kStates, state); }

bool DistrictClause::holds(const DistrictPressures& district) const {
  if (!yes) return district.*keys.front() == District::no;
  return std::any_of(keys.begin(), keys.end(),
                     [&](auto key) { return district.*key != District::no; });
}

bool WindowRule::matches(std::string_view tree_species, std::string_view tree_state,
                         const DistrictPressures& district) const {
  if (tree_species == kOther) return false;
  if (species != kAny && species != tree_species) return false;
  if (state != kAny && state != tree_state) return false;
  return std::all_of(when.begin(), when.end(), [&](const auto& c) { return c.holds(district); });
}

int WindowRule::score() const {
  return (species != kAny ? 4 : 0) + (state != kAny ? 2 : 0) + (when.empty() ? 0 : 1);
}

std::span<const WindowRule> window_rules() {
  static const std::vector<WindowRule> rules = [] {
    std::vector<WindowRule> read;
    const CsvTable table = CsvTable::embedded(kTable);
    for (const CsvRow row : table)
      if (row.text("season") != kAdvice) read.push_back(rule_of(row));
    return read;
  }();
  return rules;
}

const WindowRule* window_rule_for(std::string_view species, TreeState state,
                                  const DistrictPressures& district) {
  const WindowRule* best = nullptr;
  for (const WindowRule& rule : window_rules())
    if (rule.matches(species, id_of(state), district) && (!best || rule.score() > best->score()))
      best = &rule;
  return best;
}

std::span<const AdviceRule> advice_rules() {
  static const std::vector<AdviceRule> rules = [] {
    constexpr std::string_view kPrefix = "advice-";
    std::vector<AdviceRule> read;
    const CsvTable table = CsvTable::embedded(kTable);
    for (const CsvRow row : table)
      if (row.text("season") == kAdvice)
        read.push_back({row.text("id").substr(kPrefix.size()), evidence_of(row)});
    return read;
  }();
  return rules;
}

}  // namespace winterfolio
