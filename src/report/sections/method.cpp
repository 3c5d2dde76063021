// How every figure was reached, and after whom: measures, requirements, windows and cuts with their
// sources, so that the winter can be worked out again.
#include <algorithm>
#include <set>

#include "models/chill/registry.h"
#include "orchard/cultivars.h"
#include "report/sections.h"
#include "report/sources.h"
#include "report/speak.h"

namespace winterfolio {
namespace {

Table measures_table(const SeasonFacts& facts) {
  Table table;
  table.title = say("method.measures-title");
  table.air = Table::Air::dense;
  table.columns = {{say("method.measure"), ColumnKind::words, 3, false, false},
                   {say("method.counts"), ColumnKind::words, 4, false, false},
                   {say("method.source"), ColumnKind::words, 5, false, true}};
  TableGroup group;
  for (const MeasuredChill& chill : facts.chill.measures) {
    const ChillModel& model = chill_model(chill.measure);
    TableRow row;
    row.cells.push_back({measure_text(chill.measure), {}, {}});
    row.cells.push_back({say_one_of("measure-counts", id_of(chill.measure)), {}, {}});
    row.cells.push_back({literal(model.source()), {}, {}});
    group.rows.push_back(std::move(row));
  }
  table.groups.push_back(std::move(group));
  return table;
}

Text need_in_words(const Need& need) {
  const Text measure =
      need.measure ? measure_text(*need.measure) : say("need.hours-in-a-cold-room");
  Text amount;
  if (need.low && need.high) {
    amount = value_text(range(*need.low, *need.high));
  } else if (need.low) {
    amount = say("need.at-least", {{"low", number(*need.low)}});
  } else if (need.high) {
    amount = say("need.up-to", {{"high", number(*need.high)}});
  }
  return say("need.amount-of", {{"amount", amount}, {"measure", measure}});
}

Text source_of(const Need& need, std::set<std::string>& keys) {
  if (need.kind == NeedKind::tree || need.kind == NeedKind::own_cultivar) {
    return say("need.keepers", {{"source", literal(need.source.empty() ? "–" : need.source)}});
  }
  if (find_cultivar_source(need.source)) {
    keys.insert(need.source);
    return literal(need.source);
  }
  return say("need.memory");
}

/// The publications behind the keys, in the order of the table.
List references_of(const std::set<std::string>& keys) {
  List list;
  list.role = Role::note;
  for (const CultivarSource& source : cultivar_sources_table()) {
    if (keys.count(source.key) > 0) {
      list.items.push_back(say("sources.cultivar", {{"key", literal(source.key)},
                                                    {"reference", literal(source.reference)}}));
    }
  }
  return list;
}

/// The figures that decide for every cultivar that stands here, once each; where none may, those
/// that are told.
Table needs_table(const SeasonFacts& facts, std::set<std::string>& keys) {
  Table table;
  table.title = say("method.needs-title");
  table.air = Table::Air::dense;
  table.columns = {{say("method.cultivar"), ColumnKind::words, 3, false, false},
                   {say("method.need"), ColumnKind::words, 3, false, false},
                   {say("method.decides"), ColumnKind::words, 3, false, false},
                   {say("method.source"), ColumnKind::words, 3, false, true}};
  std::set<std::string> seen;
  TableGroup group;
  for (const TreeSeason* tree : facts.resting()) {
    for (const PartVerdict& part : tree->verdict.parts) {
      const bool only_species =
          std::all_of(part.part.needs.begin(), part.part.needs.end(),
                      [](const Need& need) { return need.kind == NeedKind::species_range; });
      const bool decided = std::any_of(part.part.needs.begin(), part.part.needs.end(),
                                       [](const Need& need) { return need.may_decide(); });
      for (const Need& need : part.part.needs) {
        if (need.kind == NeedKind::species_range && !only_species) continue;
        if (decided && !need.may_decide()) continue;
        const std::string key = tree->tree->species + "|" + part.part.cultivar + "|" + need.source +
                                "|" + std::string(need.measure ? id_of(*need.measure) : "") + "|" +
                                std::to_string(need.low.value_or(-1)) + "|" +
                                std::string(id_of(need.kind));
        if (!seen.insert(key).second) continue;
        TableRow row;
        row.cells.push_back(
            {part.part.cultivar.empty() ? species_text(*tree->tree) : literal(part.part.cultivar),
             {},
             {}});
        row.cells.push_back({need_in_words(need), {}, {}});
        row.cells.push_back(
            {need.may_decide() ? say(need.assumed ? "method.decides-assumed" : "method.decides-yes")
                               : say_one_of("need-kind", id_of(need.kind)),
             {},
             {}});
        row.cells.push_back({source_of(need, keys), {}, {}});
        group.rows.push_back(std::move(row));
      }
    }
  }
  table.groups.push_back(std::move(group));
  return table;
}

/// The windows in use, each rule once, with its days, reason and source.
Table windows_table(const SeasonFacts& facts, SourceList& sources) {
  Table table;
  table.title = say("method.windows-title");
  table.air = Table::Air::dense;
  table.columns = {{say("method.kind"), ColumnKind::words, 2, false, false},
                   {say("method.window"), ColumnKind::words, 2, false, false},
                   {say("method.reason"), ColumnKind::words, 4, false, false},
                   {say("method.source"), ColumnKind::words, 4, false, true}};
  TableGroup group;
  std::set<std::string> seen;
  for (const TreeSeason& tree : facts.trees) {
    const PruningWindow& window = tree.plan.window;
    if (!window.exists() || !seen.insert(window.because.rule).second) continue;
    sources.add(window.because.source);
    TableRow row;
    row.cells.push_back({species_text(*tree.tree), {}, {}});
    row.cells.push_back({window.holds_no_day()
                             ? say("when.no-day")
                             : value_text(days(window.opens.on, window.closes.on)),
                         {},
                         {}});
    row.cells.push_back({say(window.reason), {}, {}});
    row.cells.push_back({source_text(window.because), {}, {}});
    group.rows.push_back(std::move(row));
  }
  table.groups.push_back(std::move(group));
  return table;
}

/// The way of reckoning in short paragraphs, two columns of them.
Columns how_reached() {
  Columns columns;
  Columns::Column left, right;
  for (const char* id : {"method.hours", "method.verdicts"})
    left.blocks.emplace_back(Paragraph{Role::note, say(id)});
  for (const char* id : {"method.ranges", "method.past", "method.pruning"})
    right.blocks.emplace_back(Paragraph{Role::note, say(id)});
  columns.columns = {std::move(left), std::move(right)};
  return columns;
}

/// Both lists one after the other, half of their lines in each column.
Columns in_two_columns(List first, const List& second) {
  first.items.insert(first.items.end(), second.items.begin(), second.items.end());
  List other = first;
  const auto half = static_cast<std::ptrdiff_t>((first.items.size() + 1) / 2);
  other.items.erase(other.items.begin(), other.items.begin() + half);
  first.items.erase(first.items.begin() + half, first.items.end());
  Columns columns;
  columns.columns.push_back({6, {Block(std::move(first))}});
  if (!other.items.empty()) columns.columns.push_back({6, {Block(std::move(other))}});
  return columns;
}

}  // namespace

Blocks method_section(const SeasonFacts& facts) {
  Blocks blocks;
  SourceList sources;
  blocks.emplace_back(Heading{1, say("method.title"), {}}, Importance::essential);
  blocks.emplace_back(how_reached());
  blocks.emplace_back(measures_table(facts), Importance::essential);
  std::set<std::string> keys;
  Table needs = needs_table(facts, keys);
  if (!needs.groups.front().rows.empty())
    blocks.emplace_back(std::move(needs), Importance::essential);
  Table windows = windows_table(facts, sources);
  if (!windows.groups.front().rows.empty())
    blocks.emplace_back(std::move(windows), Importance::essential);
  if (!keys.empty() || !sources.empty()) blocks.emplace_back(Heading{2, say("sources.title"), {}});
  if (!keys.empty() || !sources.empty())
    blocks.emplace_back(in_two_columns(references_of(keys), sources.as_list()));
  return blocks;
}

}  // namespace winterfolio
