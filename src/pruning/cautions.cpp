// Chooses cautions by what is involved, and shares out scarce room among them.
#include "pruning/cautions.h"

#include <algorithm>
#include <array>
#include <tuple>
#include <utility>

#include "pruning/table_cells.h"

namespace winterfolio {
namespace {

constexpr std::string_view kTable = "src/report/tables/cautions.csv";
constexpr int kAlwaysFirst = 1;

constexpr std::array<std::pair<std::string_view, CautionFor>, 11> kWhat = {{
    {"any", CautionFor::any},
    {"ladder", CautionFor::ladder},
    {"saw", CautionFor::saw},
    {"pole", CautionFor::pole},
    {"cold", CautionFor::cold},
    {"ice", CautionFor::ice},
    {"wind", CautionFor::wind},
    {"disinfectant", CautionFor::disinfectant},
    {"chainsaw", CautionFor::chainsaw},
    {"power_line", CautionFor::power_line},
    {"minors", CautionFor::minors},
}};

Caution caution_of(const CsvRow& row) {
  Caution caution;
  caution.id = row.text("id");
  caution.topic = row.text("topic");
  caution.applies_when = named_cell(kWhat, row, "applies_when");
  caution.importance = whole_number(row, "importance");
  caution.has_figure = row.text("has_figure") == "yes";
  caution.because = evidence_of(row);
  return caution;
}

/// How many cautions for the same thing stand before this one.
std::size_t turn_of(const std::vector<const Caution*>& sorted, std::size_t index) {
  std::size_t turn = 0;
  for (std::size_t i = 0; i < index; ++i)
    turn += sorted[i]->applies_when == sorted[index]->applies_when &&
            sorted[i]->importance != kAlwaysFirst;
  return turn;
}

/// Keeps `room` of them, going round the things involved: everyone's first, then everyone's second.
std::vector<const Caution*> shared_out(std::vector<const Caution*> sorted, std::size_t room) {
  struct Turn {
    std::size_t turn;
    std::size_t index;
  };
  std::vector<Turn> turns;
  std::size_t always = 0;
  for (std::size_t i = 0; i < sorted.size(); ++i) {
    if (sorted[i]->importance == kAlwaysFirst)
      ++always;
    else
      turns.push_back({turn_of(sorted, i), i});
  }
  // What a plan involves comes before what holds on any day.
  std::stable_sort(turns.begin(), turns.end(), [&](const Turn& a, const Turn& b) {
    const auto key = [&](const Turn& t) {
      const CautionFor what = sorted[t.index]->applies_when;
      return std::tuple(t.turn, what == CautionFor::any, what);
    };
    return key(a) < key(b);
  });
  turns.resize(std::min(turns.size(), room - std::min(room, always)));
  std::vector<bool> kept(sorted.size(), false);
  for (std::size_t i = 0; i < always; ++i) kept[i] = true;
  for (const Turn& turn : turns) kept[turn.index] = true;
  std::vector<const Caution*> chosen;
  for (std::size_t i = 0; i < sorted.size(); ++i)
    if (kept[i]) chosen.push_back(sorted[i]);
  return chosen;
}

}  // namespace

std::string_view id_of(CautionFor what) { return name_in(kWhat, what); }

std::string Caution::text_words() const { return "caution." + id + ".text"; }
std::string Caution::figure_words() const { return has_figure ? "caution." + id + ".figure" : ""; }

bool CautionFacts::involves(CautionFor what) const {
  switch (what) {
    case CautionFor::any:
      return true;
    case CautionFor::ladder:
      return ladder;
    case CautionFor::saw:
      return saw;
    case CautionFor::pole:
      return pole;
    case CautionFor::cold:
      return cold;
    case CautionFor::ice:
      return ice;
    case CautionFor::wind:
      return wind;
    case CautionFor::disinfectant:
      return disinfectant;
    case CautionFor::chainsaw:
      return chainsaw;
    case CautionFor::power_line:
      return power_line;
    case CautionFor::minors:
      return minors;
  }
  return true;
}

std::span<const Caution> caution_table() {
  static const std::vector<Caution> cautions = [] {
    std::vector<Caution> read;
    const CsvTable table = CsvTable::embedded(kTable);
    for (const CsvRow row : table) read.push_back(caution_of(row));
    return read;
  }();
  return cautions;
}

std::vector<const Caution*> cautions_for(const CautionFacts& facts, std::optional<int> at_most) {
  std::vector<const Caution*> all;
  for (const Caution& caution : caution_table())
    if (facts.involves(caution.applies_when)) all.push_back(&caution);
  std::stable_sort(all.begin(), all.end(), [](const Caution* a, const Caution* b) {
    return a->importance < b->importance;
  });
  if (!at_most || all.size() <= static_cast<std::size_t>(std::max(0, *at_most))) return all;
  return shared_out(std::move(all), static_cast<std::size_t>(std::max(0, *at_most)));
}

}  // namespace winterfolio
