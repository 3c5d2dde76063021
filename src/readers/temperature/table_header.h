// The words over a table's rows and what they mean; a line above may belong to them, a line of
// units may stand below.
#pragma once

#include <optional>
#include <string>
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

}  // namespace winterfolio
