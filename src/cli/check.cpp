// Reads everything an orchard names and says how much there is; the faults and doubts go to
// standard error.
#include "cli/check.h"

#include <fmt/format.h>

#include <nlohmann/json.hpp>
#include <set>

#include "cli/load.h"
#include "cli/standing_day.h"
#include "orchard/tree_dates.h"
#include "report/season_facts.h"

namespace winterfolio {
namespace {

/// What is told of one orchard.
struct Checked {
  std::string file;
  std::optional<LoadedOrchard> loaded;
  int errors = 0;
  int warnings = 0;
};

struct WinterHours {
  Winter winter;
  std::int32_t hours = 0;
  std::int32_t missing = 0;
};

/// Every winter with a known hour, oldest first; hours after the last reading are not counted.
std::vector<WinterHours> winters_of(const LoadedOrchard& loaded) {
  std::vector<WinterHours> winters;
  for (const Winter& winter : winters_on_record(loaded.record, loaded.window)) {
    const LocalHour end = std::min(winter.end(), loaded.record.hours.end());
    winters.push_back(
        {winter, end - winter.begin(), loaded.record.hours.missing_in(winter.begin(), end)});
  }
  return winters;
}

std::size_t kinds_of(const Orchard& orchard) {
  std::set<std::string> kinds;
  for (const Tree& tree : orchard.trees)
    kinds.insert(tree.species == "other" ? tree.other : tree.species);
  return kinds.size();
}

std::string date_or_dash(const std::optional<Date>& date) { return date ? iso_date(*date) : "-"; }

/// "1 tree", "2 trees".
std::string counted(std::size_t number, std::string_view what) {
  return fmt::format("{} {}{}", number, what, number == 1 ? "" : "s");
}

std::string as_text(const Checked& checked) {
  if (!checked.loaded) {
    return fmt::format("{}: {} {} to mend, {} {}\n", checked.file, checked.errors,
                       checked.errors == 1 ? "error" : "errors", checked.warnings,
                       checked.warnings == 1 ? "warning" : "warnings");
  }
  const Orchard& orchard = checked.loaded->orchard;
  std::string out = fmt::format(
      "{}: {}\n  {} of {}, {}\n", checked.file, orchard.name, counted(orchard.trees.size(), "tree"),
      counted(kinds_of(orchard), "kind"), counted(orchard.workdays.size(), "workday"));
  for (const ReadingsFile& file : checked.loaded->files) {
    out += fmt::format("  {}: {}, {} {} from {} to {}, {} hours missing\n", file.file, file.format,
                       file.readings, file.daily ? "days" : "readings", date_or_dash(file.first),
                       date_or_dash(file.last), file.missing_hours);
    const std::int64_t aside =
        file.impossible + file.duplicates + file.spikes + file.flagged + file.unreadable;
    if (aside > 0) {
      out += fmt::format(
          "    set aside: {} impossible, {} told twice, {} spikes, {} flagged by the publisher, {} "
          "unreadable\n",
          file.impossible, file.duplicates, file.spikes, file.flagged, file.unreadable);
    }
    if (!file.doubts.empty())
      out +=
          fmt::format("    {}, used all the same\n", counted(file.doubts.size(), "doubtful run"));
  }
  for (const WinterHours& winter : winters_of(*checked.loaded)) {
    out += fmt::format("  winter {}: {} hours, {} missing\n", winter.winter.name(), winter.hours,
                       winter.missing);
  }
  return out;
}

std::string_view word_of(Severity severity) {
  return severity == Severity::error ? "error" : severity == Severity::warning ? "warning" : "note";
}

nlohmann::ordered_json json_of(const Diagnostic& d) {
  return {{"id", d.id},
          {"severity", word_of(d.severity)},
          {"file", d.at.file},
          {"line", d.at.line},
          {"column", d.at.column},
          {"message", d.message},
          {"expected", d.expected},
          {"mend", d.mend}};
}

nlohmann::ordered_json json_of(const Checked& checked) {
  nlohmann::ordered_json result = {
      {"file", checked.file}, {"errors", checked.errors}, {"warnings", checked.warnings}};
  if (!checked.loaded) return result;
  const Orchard& orchard = checked.loaded->orchard;
  result["id"] = orchard.id;
  result["name"] = orchard.name;
  result["trees"] = orchard.trees.size();
  result["workdays"] = orchard.workdays.size();
  result["temperatures"] = nlohmann::ordered_json::array();
  for (const ReadingsFile& file : checked.loaded->files) {
    nlohmann::ordered_json one = {{"file", file.file},
                                  {"format", file.format},
                                  {"readings", file.readings},
                                  {"missing_hours", file.missing_hours},
                                  {"first", nullptr},
                                  {"last", nullptr},
                                  {"impossible", file.impossible},
                                  {"duplicates", file.duplicates},
                                  {"spikes", file.spikes},
                                  {"flagged", file.flagged},
                                  {"unreadable", file.unreadable},
                                  {"doubtful_runs", file.doubts.size()}};
    if (file.first) one["first"] = iso_date(*file.first);
    if (file.last) one["last"] = iso_date(*file.last);
    result["temperatures"].push_back(std::move(one));
  }
  result["winters"] = nlohmann::ordered_json::array();
  for (const WinterHours& winter : winters_of(*checked.loaded)) {
    result["winters"].push_back({{"winter", winter.winter.name()},
                                 {"hours", winter.hours},
                                 {"missing_hours", winter.missing}});
  }
  return result;
}

}  // namespace

Outcome run_check(const CheckCommand& command) {
  Outcome outcome;
  nlohmann::ordered_json orchards = nlohmann::ordered_json::array();
  for (const std::string& file : command.orchards) {
    const int errors = outcome.diagnostics.errors();
    const int warnings = outcome.diagnostics.warnings();
    Checked checked{file, load_orchard(file, outcome.diagnostics), 0, 0};
    // What print would refuse for want of readings is a fault here too.
    if (checked.loaded) today_of(*checked.loaded, {}, {}, outcome.diagnostics);
    checked.errors = outcome.diagnostics.errors() - errors;
    checked.warnings = outcome.diagnostics.warnings() - warnings;
    if (command.as == OutputAs::json) {
      orchards.push_back(json_of(checked));
    } else {
      outcome.out += as_text(checked);
    }
  }
  if (command.as == OutputAs::json) {
    nlohmann::ordered_json diagnostics = nlohmann::ordered_json::array();
    for (const Diagnostic& diagnostic : outcome.diagnostics.all())
      diagnostics.push_back(json_of(diagnostic));
    outcome.out = nlohmann::ordered_json{{"orchards", orchards}, {"diagnostics", diagnostics}}.dump(
                      1, ' ', false, nlohmann::ordered_json::error_handler_t::replace) +
                  "\n";
  }
  outcome.status = outcome.diagnostics.has_errors() ? kMendInput : kDone;
  return outcome;
}

}  // namespace winterfolio
