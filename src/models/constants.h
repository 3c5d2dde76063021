// The constants of a formula, from its table of names and values.
#pragma once

#include <string_view>

namespace winterfolio {

/// The value named `name` in an embedded table with columns name, value. Throws std::logic_error if
/// there is none.
double constant(std::string_view path, std::string_view name);

}  // namespace winterfolio
