// What a font file says of its letters: which there are and how wide. Read from the file itself,
// because the PDF library tells neither which letters are missing nor a width without loading the
// whole font into a document.
#pragma once

#include <cstdint>
#include <string>
#include <string_view>
#include <vector>

namespace winterfolio {

/// The tables of one TrueType font that setting a line needs (OpenType 1.9: head, hhea, hmtx, cmap
/// format 4, OS/2). Widths and heights are thousandths of the type size, rounded down as the PDF
/// library writes them into the file.
class TrueTypeFont {
 public:
  /// Throws PdfError (pdf/pdf_error.h) if `bytes` are not a font it can read; `file` is its name in
  /// the message.
  TrueTypeFont(std::string_view bytes, const std::string& file);

  bool covers(char32_t letter) const { return glyph_of(letter) != 0; }
  int advance(char32_t letter) const {
    return advances_[glyph_of(letter)];
  }  ///< of a missing one: the empty box's
  int ascent() const { return ascent_; }
  int descent() const { return descent_; }  ///< positive
  int cap_height() const { return cap_height_; }
  int x_height() const { return x_height_; }
  /// The deepest that letters are built of letters that are built of letters, among those given.
  /// The PDF library keeps one level only, and drops what lies below.
  int nesting_depth(std::u32string_view letters) const;

 private:
  std::uint16_t glyph_of(char32_t letter) const {
    return letter < 0x10000 ? glyphs_[letter] : std::uint16_t{0};
  }
  void read_character_map(std::string_view cmap, const std::string& file);

  std::vector<std::uint16_t> glyphs_;    // by letter of the basic plane
  std::vector<std::uint16_t> advances_;  // by glyph
  std::string loca_;
  std::string glyf_;
  bool long_offsets_ = false;
  int ascent_ = 0, descent_ = 0, cap_height_ = 0, x_height_ = 0;
};

}  // namespace winterfolio
