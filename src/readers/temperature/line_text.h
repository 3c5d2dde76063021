// Small tools for formats with fixed places and for looking at the first lines of a file.
#pragma once

#include <functional>
#include <optional>
#include <string_view>

namespace winterfolio {

/// A whole number with blanks around it, a sign allowed, the whole text; nothing if it is anything
/// else.
std::optional<int> padded_integer(std::string_view text);

/// Calls `look` with each of the first `most` lines that are not blank, without their ends, until
/// it returns false. Returns whether all were liked and there was at least one.
bool first_lines(std::string_view head, int most,
                 const std::function<bool(std::string_view)>& look);

/// The first line of the head, without its end.
std::string_view first_line(std::string_view head);

}  // namespace winterfolio
