// Picks the cleaning rules of a disease.
#include "pruning/hygiene.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <stdexcept>
#include <utility>

#include "pruning/table_cells.h"

namespace winterfolio {
namespace {

constexpr std::string_view kTable = "src/pruning/tables/tool_hygiene.csv";
constexpr std::string_view kNone = "none";
constexpr std::string_view kUnknown = "unknown";

constexpr std::array<std::pair<std::string_view, CleaningTime>, 4> kTimes = {{
    {"between_cuts", CleaningTime::between_cuts},
    {"between_trees", CleaningTime::between_trees},
    {"between_species", CleaningTime::between_species},
    {"end_of_day", CleaningTime::end_of_day},
}};
constexpr std::array<std::pair<std::string_view, HygienePreference>, 3> kPreferences = {{
    {"yes", HygienePreference::first},
    {"no", HygienePreference::second},
    {"also", HygienePreference::also},
}};
constexpr std::array<std::pair<std::string_view, std::optional<GrowthSeason>>, 3> kSeasons = {{
    {"any", std::nullopt},
    {"dormant", GrowthSeason::dormant},
    {"growing", GrowthSeason::growing},
}};

HygieneRule rule_of(const CsvRow& row) {
  HygieneRule rule;
  rule.id = row.text("id");
  rule.disease = row.text("disease");
  rule.season = named_cell(kSeasons, row, "season");
  rule.when = named_cell(kTimes, row, "when");
  rule.agent = row.text("agent");
  rule.contact_seconds = whole_number(row, "contact_time_s");
  rule.brush = cell_list(row.text("brush"), '|');
  rule.has_caution = row.text("has_caution") == "yes";
  rule.preference = named_cell(kPreferences, row, "prefer");
  rule.because = evidence_of(row);
  return rule;
}

bool has_rules(std::string_view disease) {
  const auto rules = hygiene_rules();
  return std::any_of(rules.begin(), rules.end(),
                     [&](const HygieneRule& rule) { return rule.disease == disease; });
}

std::string_view disease_in_table(std::string_view disease, bool flagged) {
  if (disease.empty()) return flagged ? kUnknown : kNone;
  return has_rules(disease) ? disease : kUnknown;
}

}  // namespace

std::string_view id_of(CleaningTime time) { return name_in(kTimes, time); }

std::string HygieneRule::strength_words() const {
  return agent == kNone ? "" : "hygiene." + id + ".strength";
}
std::string HygieneRule::plan_words() const { return "hygiene." + id + ".plan"; }
std::string HygieneRule::why_words() const { return "hygiene." + id + ".why"; }
std::string HygieneRule::caution_words() const {
  return has_caution ? "hygiene." + id + ".caution" : "";
}

std::span<const HygieneRule> hygiene_rules() {
  static const std::vector<HygieneRule> rules = [] {
    std::vector<HygieneRule> read;
    const CsvTable table = CsvTable::embedded(kTable);
    for (const CsvRow row : table) read.push_back(rule_of(row));
    return read;
  }();
  return rules;
}

bool HygienePlan::uses_disinfectant() const {
  return first->agent == "alcohol" || first->agent == "bleach";
}

HygienePlan hygiene_for(std::string_view disease, bool flagged_diseased, GrowthSeason season) {
  const std::string_view wanted = disease_in_table(disease, flagged_diseased);
  HygienePlan plan;
  plan.last_in_round = wanted != kNone;
  plan.not_cut = wanted == kUnknown;
  for (const HygieneRule& rule : hygiene_rules()) {
    if (rule.disease != wanted || (rule.season && *rule.season != season)) continue;
    if (rule.preference == HygienePreference::first) plan.first = &rule;
    if (rule.preference == HygienePreference::also) plan.also.push_back(&rule);
    if (rule.preference == HygienePreference::second) plan.second.push_back(&rule);
  }
  if (!plan.first) throw std::logic_error(fmt::format("{}: no agent for {}", kTable, wanted));
  return plan;
}

HygienePlan hygiene_for(const Tree& tree, GrowthSeason season) {
  const bool flagged =
      std::find(tree.see_to.begin(), tree.see_to.end(), "diseased") != tree.see_to.end();
  return hygiene_for(tree.disease, flagged, season);
}

}  // namespace winterfolio
