// The words in which temperature files are found fault with, and the two ways to mend each: the key
// in the orchard file and the option of `tally`.
#pragma once

#include <cstdint>
#include <string>
#include <string_view>

#include "base/diagnostic.h"

namespace winterfolio {

/// A diagnostic "temperature.<id>" about a file as a whole.
Diagnostic about_file(Severity severity, std::string_view id, const std::string& file,
                      std::string message, std::string expected, std::string mend);

/// The same about one line; `part` is what the caret points at, and must lie inside `line` (or be
/// empty: no caret).
Diagnostic about_line(Severity severity, std::string_view id, const std::string& file,
                      std::int64_t number, std::string_view line, std::string_view part,
                      std::string message, std::string expected, std::string mend);

/// "'unit: F' for this file in the orchard file, or --unit F"
std::string key_or_option(std::string_view key, std::string_view value);

/// "12,345": groups of thousands, for counts in messages.
std::string grouped(std::int64_t count);

/// "1 reading", "2,000 readings".
std::string counted(std::int64_t count, std::string_view one, std::string_view many);

}  // namespace winterfolio
