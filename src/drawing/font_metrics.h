// How wide and high letters are, without knowing where they come from: layout and charts measure
// with it, pdf/ gives the real one, tests a fake in which every letter is half its size wide.
#pragma once

#include <string_view>

#include "base/units.h"

namespace winterfolio {

/// The two faces of the one family all pages are set in.
enum class Face { regular, bold };

class FontMetrics {
 public:
  virtual ~FontMetrics() = default;
  /// Width of a line of UTF-8 text: the sum of its letters' advances, unkerned.
  virtual Length advance(Face face, Length size, std::string_view text) const = 0;
  /// Whether the face can draw this letter.
  virtual bool covers(Face face, char32_t letter) const = 0;
  virtual Length ascent(Face face,
                        Length size) const = 0;  ///< from the baseline up to the highest letters
  virtual Length descent(Face face, Length size) const = 0;  ///< from the baseline down, positive
  virtual Length cap_height(Face face, Length size) const = 0;  ///< of a capital above the baseline
  virtual Length x_height(Face face,
                          Length size) const = 0;  ///< of a small letter above the baseline
};

}  // namespace winterfolio
