// The words over a table's rows and what they mean; a line above may belong to them, a line of
// units may stand below.
#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "readers/temperature/header_words.h"
#include "readers/temperature/table_rows.h"

namespace winterfolio {

struct TableHeader {
  std::optional<HeadLine> line;
  std::vector<std::string> names;       ///< of the columns; empty if there are none
  std::vector<HeaderMeaning> meanings;  ///< as many; empty if no word is known

  bool understood() const { return !meanings.empty(); }
  ColumnRole role(std::size_t column) const;
  const HeaderMeaning& meaning(std::size_t column) const;
};

TableHeader header_over(const std::vector<HeadLine>& lines, const TableCut& table);

/// A line among the first that names times and temperatures, in a head that holds no rows: an
/// export that went through but for its readings. Nothing if there is none.
std::optional<HeadLine> header_without_rows(std::string_view head);

}  // namespace winterfolio
