// Temperatures as whole numbers of a millionth of a millionth of a degree, so that sums of readings
// are exact and an hour with one reading gives back the very decimal that was written.
#pragma once

#include <cstdint>
#include <optional>
#include <string_view>

namespace winterfolio {

/// Parts in one degree.
constexpr std::int64_t kPartsPerDegree = 1'000'000'000'000;

/// A decimal number as parts: sign, digits with at most one decimal mark, an exponent if there is
/// one. The whole text; nothing if it is anything else, or beyond ±9 million. Digits past the
/// twelfth decimal are dropped.
std::optional<std::int64_t> parse_parts(std::string_view text, char decimal_mark);

/// How many digits stand after the decimal mark (0 if there is none).
int decimals_in(std::string_view text, char decimal_mark);

constexpr std::int64_t parts_of(double degrees) {
  return static_cast<std::int64_t>(degrees * static_cast<double>(kPartsPerDegree) +
                                   (degrees < 0 ? -0.5 : 0.5));
}
constexpr double degrees_of(std::int64_t parts) {
  return static_cast<double>(parts) / static_cast<double>(kPartsPerDegree);
}

}  // namespace winterfolio
