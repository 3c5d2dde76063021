// What a font file says of its letters: which there are, how wide they are and how they are drawn.
// Read from the file itself: the PDF library tells neither which letters are missing nor a width
// without looking up all of the font's 65,536 codes first, which costs more than all pages of a
// report.
#pragma once

#include <array>
#include <cstdint>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "pdf/font_table.h"

namespace winterfolio {

/// One TrueType font (OpenType 1.9: head, hhea, hmtx, maxp, cmap format 4, OS/2). Widths and
/// heights are thousandths of the type size, rounded down as PDF files have them. Owns the file's
/// bytes.
class TrueTypeFont {
 public:
  /// Throws PdfError (pdf/pdf_error.h) if `bytes` are not a font it can read; `file` is its name in
  /// the message.
  TrueTypeFont(std::string bytes, std::string file);

  bool covers(char32_t letter) const { return glyph_of(letter) != 0; }
  int advance(char32_t letter) const {
    return advances_[glyph_of(letter)];
  }  ///< of a missing one: the empty box's
  int ascent() const { return ascent_; }
  int descent() const { return descent_; }  ///< positive
  int cap_height() const { return cap_height_; }
  int x_height() const { return x_height_; }
  /// Left, bottom, right and top of all letters laid over each other.
  const std::array<int, 4>& box() const { return box_; }
  bool bold() const { return bold_; }

  /// 0, the empty box, for a missing letter.
  std::uint16_t glyph_of(char32_t letter) const {
    return letter < 0x10000 ? glyphs_[letter] : std::uint16_t{0};
  }
  std::size_t glyph_count() const { return advances_.size(); }
  /// A table of the file as it stands, if there is one.
  std::optional<FontTable> find_table(std::string_view name) const;
  FontTable table(std::string_view name) const;  ///< throws PdfError if there is none

 private:
  void read_character_map(const FontTable& cmap);

  std::string bytes_;
  std::string file_;
  std::vector<std::uint16_t> glyphs_;    // by letter of the basic plane
  std::vector<std::uint16_t> advances_;  // by glyph
  int ascent_ = 0, descent_ = 0, cap_height_ = 0, x_height_ = 0;
  std::array<int, 4> box_{};
  bool bold_ = false;
};

}  // namespace winterfolio
