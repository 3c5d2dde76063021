// How every figure was reached, and after whom: measures, requirements, windows and cuts with their
// sources, so that the winter can be worked out again.
#include <algorithm>
#include <cmath>
#include <set>
#include <string>
#include <vector>

#include "models/chill/registry.h"
#include "orchard/cultivars.h"
#include "report/sections.h"
#include "report/sources.h"
#include "report/speak.h"

namespace winterfolio {
namespace {

constexpr const char* kBlank = "\u00A0";  // an empty cell would print a dash

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
  const auto decimals = [](double value) { return std::abs(value - std::round(value)) > 0.01; };
  if (need.low && need.high) {
    amount = value_text(
        range(*need.low, *need.high, std::max(decimals(*need.low), decimals(*need.high))));
  } else if (need.low) {
    amount = say("need.at-least", {{"low", number(*need.low, decimals(*need.low))}});
  } else if (need.high) {
    amount = say("need.up-to", {{"high", number(*need.high, decimals(*need.high))}});
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

/// A need and the cultivar it is published for.
struct PublishedNeed {
  const Tree* tree = nullptr;
  std::string cultivar;  ///< empty: the kind's own
  const Need* need = nullptr;
};

/// The figures that decide for every cultivar that stands here, once each; where none may, those
/// that are told.
std::vector<PublishedNeed> needs_used(const SeasonFacts& facts) {
  std::set<std::string> seen;
  std::vector<PublishedNeed> used;
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
        if (seen.insert(key).second) used.push_back({tree->tree, part.part.cultivar, &need});
      }
    }
  }
  return used;
}

/// What a need's figure is marked with: nothing where its source says all.
std::string mark_of(const Need& need) {
  if (need.may_decide()) return need.assumed ? "assumed" : "";
  if (need.kind == NeedKind::memory) return "";
  return need.kind <= NeedKind::published ? "not-counted" : std::string(id_of(need.kind));
}

/// A need and its cultivar as two cells; blank where there is none.
void add_cells(TableRow& row, const PublishedNeed* one) {
  if (!one) {
    for (int i = 0; i < 2; ++i) row.cells.push_back({literal(kBlank)});
    return;
  }
  row.cells.push_back({one->cultivar.empty() ? species_text(*one->tree) : literal(one->cultivar)});
  row.cells.push_back({need_in_words(*one->need), {}, mark_of(*one->need)});
}

/// Needs that decide, and beside them those that are told only.
Table needs_table(const SeasonFacts& facts, std::set<std::string>& keys) {
  std::vector<PublishedNeed> deciding, told;
  std::set<std::string> marks;
  for (const PublishedNeed& one : needs_used(facts)) {
    (one.need->may_decide() ? deciding : told).push_back(one);
    if (std::string mark = mark_of(*one.need); !mark.empty()) marks.insert(std::move(mark));
  }
  Table table;
  table.title = say("method.needs-title");
  table.air = Table::Air::dense;
  if (!deciding.empty()) {
    table.columns = {{say("method.deciding"), ColumnKind::words, told.empty() ? 4 : 2},
                     {say("method.need"), ColumnKind::words, 3},
                     {say("method.source"), ColumnKind::words, told.empty() ? 5 : 2, false, true}};
  }
  if (!told.empty()) {
    table.columns.push_back({say("method.told"), ColumnKind::words, deciding.empty() ? 4 : 2});
    table.columns.push_back({say("method.need"), ColumnKind::words, deciding.empty() ? 8 : 3});
  }
  TableGroup group;
  for (std::size_t i = 0; i < std::max(deciding.size(), told.size()); ++i) {
    TableRow row;
    if (!deciding.empty()) {
      const bool any = i < deciding.size();
      add_cells(row, any ? &deciding[i] : nullptr);
      row.cells.push_back({any ? source_of(*deciding[i].need, keys) : literal(kBlank)});
    }
    if (!told.empty()) add_cells(row, i < told.size() ? &told[i] : nullptr);
    group.rows.push_back(std::move(row));
  }
  table.groups.push_back(std::move(group));
  for (const std::string& mark : marks)
    table.footnotes.emplace_back(mark, say("method.mark." + mark));
  return table;
}

/// The windows in use, each rule once, with its days, reason and source.
Table windows_table(const SeasonFacts& facts, SourceList& sources) {
  Table table;
  table.title = say("method.windows-title");
  table.air = Table::Air::dense;
  table.columns = {{say("method.kind"), ColumnKind::words, 2, false, false},
                   {say("method.window"), ColumnKind::words, 3, false, false},
                   {say("method.reason"), ColumnKind::words, 5, false, false},
                   {say("method.source"), ColumnKind::words, 2, false, true}};
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
    row.cells.push_back({source_codes_text(window.because), {}, {}});
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

/// How many letters of names and addresses a text holds.
std::size_t letters_in(const Text& text) {
  if (const auto* literal = std::get_if<Literal>(&text.content)) return literal->text.size();
  std::size_t letters = 0;
  for (const NamedValue& value : std::get<Message>(text.content).values) {
    if (const auto* inner = std::get_if<Text>(&value.value)) letters += letters_in(*inner);
  }
  return letters;
}

/// Both lists one after the other, half of their letters in each column.
Columns in_two_columns(List first, const List& second) {
  first.items.insert(first.items.end(), second.items.begin(), second.items.end());
  first.close = true;
  std::size_t all = 0, before = 0;
  for (const Text& item : first.items) all += letters_in(item);
  auto middle = first.items.begin();
  while (middle != first.items.end() && before + letters_in(*middle) / 2 < all / 2)
    before += letters_in(*middle++);
  List other = first;
  other.items.assign(middle, first.items.end());
  first.items.erase(middle, first.items.end());
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
  for (const std::string& source : shortfall_sources(facts)) sources.add(source);
  if (keys.empty() && sources.empty()) return blocks;
  blocks.emplace_back(Heading{2, say("sources.title"), say("sources.unmarked")});
  blocks.emplace_back(in_two_columns(references_of(keys), sources.as_list()));
  return blocks;
}

}  // namespace winterfolio
