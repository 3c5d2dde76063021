// The part of a font that a report needs: a TrueType file with the letters on its pages and nothing
// else, a twentieth of the whole.
//
// Glyphs are numbered anew, the empty box first, so that no table speaks of letters that are not
// there:
//
//   letter 'A' -> glyph 37 of the font -> glyph 1 of the subset
//   letter 'é' -> glyph 412, made of 'e' and an accent -> glyph 2; 'e' and the accent come along
#pragma once

#include <cstdint>
#include <span>
#include <string>
#include <vector>

#include "pdf/true_type.h"

namespace winterfolio {

struct FontSubset {
  std::string file;                   ///< the tables that ISO 32000-1:2008, 9.9 asks for
  std::vector<std::uint16_t> glyphs;  ///< of each letter asked for, in the same order
};

/// `letters` are codes of the basic plane; one that the font lacks is the empty box. Throws
/// PdfError if the font's outlines are damaged.
FontSubset font_subset(const TrueTypeFont& font, std::span<const unsigned> letters);

}  // namespace winterfolio
