// An ink. Which inks there are is said once, in drawing/style.h.
#pragma once

#include <cstdint>

namespace winterfolio {

struct Colour {
  std::uint8_t red = 0;
  std::uint8_t green = 0;
  std::uint8_t blue = 0;
  constexpr bool operator==(const Colour&) const = default;
};

constexpr Colour grey(std::uint8_t level) { return {level, level, level}; }

/// What a grey photocopier sees of an ink, 0 black to 255 white (ITU-R BT.601 weights).
constexpr double luma(Colour c) { return 0.299 * c.red + 0.587 * c.green + 0.114 * c.blue; }

}  // namespace winterfolio
