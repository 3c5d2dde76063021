// Where a rule comes from, so that every line a crew is given can name its reason.
//
// A rule's source is words with codes in brackets, "Penn State Extension 2016, ... [S10]"; the
// codes stand in tables/sources.csv with the page that was read.
#pragma once

#include <span>
#include <string>
#include <string_view>
#include <vector>

namespace winterfolio {

/// How well a rule is founded. Printed with it, so that an estimate is never taken for a finding.
enum class RuleMark {
  seen,             ///< read on a page
  memory,           ///< known to the trade, not confirmed
  common_practice,  ///< widely done, no single source
  estimate,         ///< a planning value of ours
};

/// "seen", "memory", "common_practice", "estimate": for words and figures.
std::string_view id_of(RuleMark mark);
/// Reads a table's cell ("common practice"). Throws std::logic_error for anything else.
RuleMark rule_mark_named(std::string_view text);

/// The row of a table that decided, and what stands behind it.
struct Evidence {
  std::string rule;    ///< the row's id, e.g. "apple-wet"
  std::string source;  ///< as in the table, codes included
  RuleMark mark = RuleMark::estimate;
};

/// A page that was read for these tables.
struct SourcePage {
  std::string code;  ///< "S10"
  std::string reference;
  std::string page;  ///< where the copy stood
};

/// Every page, by code in the order of the table.
std::span<const SourcePage> source_pages();
/// nullptr for a code that was never given out.
const SourcePage* find_source_page(std::string_view code);

/// The codes named in a source, in their order, each once: {"S10", "S1"}.
std::vector<std::string> source_codes(std::string_view source);
/// The source without its codes, for a line that has no room for them.
std::string without_codes(std::string_view source);

}  // namespace winterfolio
