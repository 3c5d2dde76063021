// What to tell a keeper when a file is no YAML: the YAML library's own words name rules, these name
// the slip. Used by yaml_document.cpp only.
#pragma once

#include <string>
#include <vector>

#include "base/diagnostic.h"
#include "readers/source_text.h"

namespace winterfolio {

/// Where the YAML library stopped, and what it had read before.
struct YamlStop {
  std::string reason;  ///< the library's words
  int line = 0;
  std::size_t byte = 0;    ///< within the line, from 0
  SourceSpan last_text;    ///< the last text read; line 0 if none
  int last_text_ends = 0;  ///< the line on which that text ended
  bool last_text_quoted = false;
  bool last_text_is_value = false;  ///< behind a key, not a key itself
  std::vector<SourceSpan> open;     ///< lists and maps that were open, or ended just before
};

/// The fault that a person can mend.
Diagnostic syntax_fault(const SourceText& source, const YamlStop& stop);

}  // namespace winterfolio
