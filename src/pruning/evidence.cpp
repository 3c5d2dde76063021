// Reads the list of sources and the codes that point into it.
#include "pruning/evidence.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <stdexcept>
#include <utility>

#include "base/csv_table.h"

namespace winterfolio {
namespace {

struct MarkName {
  RuleMark mark;
  std::string_view id;
  std::string_view cell;
};
constexpr std::array<MarkName, 4> kMarks = {{
    {RuleMark::seen, "seen", "seen"},
    {RuleMark::memory, "memory", "memory"},
    {RuleMark::common_practice, "common_practice", "common practice"},
    {RuleMark::estimate, "estimate", "estimate"},
}};

/// Calls `found` with the place of every "[S10]" in a source: where the bracket opens, where it
/// closes.
template <class Found>
void for_each_code(std::string_view source, Found found) {
  for (std::size_t open = source.find("[S"); open != std::string_view::npos;
       open = source.find("[S", open + 1)) {
    const std::size_t close = source.find(']', open);
    if (close == std::string_view::npos) return;
    found(open, close);
  }
}

}  // namespace

std::string_view id_of(RuleMark mark) {
  return std::find_if(kMarks.begin(), kMarks.end(), [&](const auto& m) { return m.mark == mark; })
      ->id;
}

RuleMark rule_mark_named(std::string_view text) {
  const auto named =
      std::find_if(kMarks.begin(), kMarks.end(), [&](const auto& m) { return m.cell == text; });
  if (named == kMarks.end()) throw std::logic_error(fmt::format("no mark '{}'", text));
  return named->mark;
}

std::span<const SourcePage> source_pages() {
  static const std::vector<SourcePage> pages = [] {
    std::vector<SourcePage> read;
    const CsvTable table = CsvTable::embedded("src/pruning/tables/sources.csv");
    for (const CsvRow row : table)
      read.push_back({row.text("code"), row.text("reference"), row.text("page")});
    return read;
  }();
  return pages;
}

const SourcePage* find_source_page(std::string_view code) {
  for (const SourcePage& page : source_pages())
    if (page.code == code) return &page;
  return nullptr;
}

std::vector<std::string> source_codes(std::string_view source) {
  std::vector<std::string> codes;
  for_each_code(source, [&](std::size_t open, std::size_t close) {
    std::string code(source.substr(open + 1, close - open - 1));
    if (std::find(codes.begin(), codes.end(), code) == codes.end())
      codes.push_back(std::move(code));
  });
  return codes;
}

std::string without_codes(std::string_view source) {
  std::string words;
  std::size_t kept = 0;
  for_each_code(source, [&](std::size_t open, std::size_t close) {
    std::string_view before = source.substr(kept, open - kept);
    // The blank before a code goes with it, and so does the comma between two codes.
    while (!before.empty() && (before.back() == ' ' || (kept > 0 && before == ",")))
      before.remove_suffix(1);
    words += before;
    kept = close + 1;
  });
  words += source.substr(kept);
  return words;
}

}  // namespace winterfolio
