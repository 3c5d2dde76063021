// Names sources on a page: the words without their codes, and the pages behind the codes once, in a
// list.
#pragma once

#include <set>
#include <string>

#include "document/block.h"
#include "pruning/evidence.h"

namespace winterfolio {

/// Who says so and, unless it was read on a page, how well it is founded: "share of wood (from
/// memory)".
Text source_text(const Evidence& because);

/// The same by the codes under which a list names the pages: "S10, S19"; without codes, in words.
Text source_codes_text(const Evidence& because);

/// Collects the codes that a section names, for its list of sources.
class SourceList {
 public:
  void add(const std::string& source);
  bool empty() const { return codes_.empty(); }
  /// One line for each page, in the order of the codes.
  List as_list() const;

 private:
  std::set<std::string> codes_;
};

}  // namespace winterfolio
