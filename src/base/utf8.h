// Letters of UTF-8 text, one by one.
#pragma once

#include <string>
#include <string_view>

namespace winterfolio {

/// The next letter of UTF-8 text; moves `position` past it. A broken byte gives U+FFFD and is
/// passed alone. Requires: position < text.size().
char32_t next_letter(std::string_view text, std::size_t& position);

/// Adds a letter to UTF-8 text.
void append_letter(std::string& text, char32_t letter);

/// How many letters a text has.
std::size_t letter_count(std::string_view text);

}  // namespace winterfolio
