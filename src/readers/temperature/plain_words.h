// Words of file headers made comparable: lower case, no accents, whichever of the usual encodings
// they came in.
#pragma once

#include <string>
#include <string_view>

namespace winterfolio {

/// ASCII lower case; accented Latin letters (UTF-8 or Latin-1) become their plain letters, ß
/// becomes ss, ° becomes '*' followed by nothing, everything else that is not ASCII becomes '?'.
std::string plain_word(std::string_view text);

std::string_view trimmed(
    std::string_view text);  ///< without blanks, tabs and no-break spaces at either end

}  // namespace winterfolio
