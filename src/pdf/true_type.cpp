#include "pdf/true_type.h"

#include <fmt/format.h>

#include <algorithm>
#include <optional>

#include "pdf/pdf_error.h"

namespace winterfolio {

namespace {

/// Big-endian numbers of a table; reading past its end is a damaged font.
class Table {
 public:
  Table(std::string_view bytes, const std::string& file) : bytes_(bytes), file_(file) {}
  unsigned u8(std::size_t at) const { return byte(at); }
  unsigned u16(std::size_t at) const { return byte(at) << 8 | byte(at + 1); }
  int i16(std::size_t at) const { return static_cast<std::int16_t>(u16(at)); }
  std::uint32_t u32(std::size_t at) const {
    return static_cast<std::uint32_t>(u16(at)) << 16 | u16(at + 2);
  }
  std::string_view from(std::size_t at, std::size_t length) const {
    if (at > bytes_.size() || length > bytes_.size() - at) damaged();
    return bytes_.substr(at, length);
  }
  std::size_t size() const { return bytes_.size(); }
  [[noreturn]] void damaged() const {
    throw PdfError(fmt::format("the font file {} is damaged or not TrueType", file_),
                   "install the package fonts-lato anew");
  }

 private:
  unsigned byte(std::size_t at) const {
    if (at >= bytes_.size()) damaged();
    return static_cast<unsigned char>(bytes_[at]);
  }
  std::string_view bytes_;
  const std::string& file_;
};

std::string_view table_named(const Table& font, std::string_view name) {
  const unsigned count = font.u16(4);
  for (unsigned i = 0; i < count; ++i) {
    const std::size_t record = 12 + 16 * static_cast<std::size_t>(i);
    if (font.from(record, 4) == name) return font.from(font.u32(record + 8), font.u32(record + 12));
  }
  font.damaged();
}

}  // namespace

TrueTypeFont::TrueTypeFont(std::string_view bytes, const std::string& file) {
  const Table font(bytes, file);
  const auto table = [&](std::string_view name) { return Table(table_named(font, name), file); };
  const Table head = table("head"), hhea = table("hhea"), hmtx = table("hmtx"), os2 = table("OS/2");
  const int em = static_cast<int>(head.u16(18));
  if (em <= 0) font.damaged();
  const auto thousandths = [&](int units) { return units * 1000 / em; };
  ascent_ = thousandths(hhea.i16(4));
  descent_ = thousandths(-hhea.i16(6));
  x_height_ = thousandths(os2.i16(86));
  cap_height_ = thousandths(os2.i16(88));
  long_offsets_ = head.i16(50) != 0;
  loca_ = table_named(font, "loca");
  glyf_ = table_named(font, "glyf");

  const unsigned glyphs = table("maxp").u16(4), metrics = hhea.u16(34);
  if (glyphs == 0 || metrics == 0) font.damaged();
  advances_.resize(glyphs);
  for (unsigned g = 0; g < glyphs; ++g)  // the last width holds for all glyphs after it
    advances_[g] = static_cast<std::uint16_t>(hmtx.u16(4 * std::size_t{std::min(g, metrics - 1)}) *
                                              1000 / static_cast<unsigned>(em));
  read_character_map(table_named(font, "cmap"), file);
}

void TrueTypeFont::read_character_map(std::string_view bytes, const std::string& file) {
  const Table cmap(bytes, file);
  std::optional<std::size_t> at;
  for (unsigned i = 0; i < cmap.u16(2); ++i) {
    const std::size_t record = 4 + 8 * std::size_t{i};
    if (cmap.u16(record) == 3 && cmap.u16(record + 2) == 1) at = cmap.u32(record + 4);
  }
  if (!at || cmap.u16(*at) != 4) cmap.damaged();
  glyphs_.assign(0x10000, 0);
  const std::size_t twice = cmap.u16(*at + 6), ends = *at + 14, starts = ends + twice + 2;
  const std::size_t deltas = starts + twice, offsets = deltas + twice;
  for (std::size_t s = 0; s < twice; s += 2) {
    const unsigned first = cmap.u16(starts + s), last = cmap.u16(ends + s);
    const unsigned delta = cmap.u16(deltas + s), offset = cmap.u16(offsets + s);
    for (unsigned letter = first; letter <= last && letter != 0xFFFF; ++letter) {
      unsigned glyph = letter;
      if (offset != 0) glyph = cmap.u16(offsets + s + offset + 2 * std::size_t{letter - first});
      if (glyph != 0 || offset == 0) glyph = (glyph + delta) & 0xFFFF;
      glyphs_[letter] =
          glyph < advances_.size() ? static_cast<std::uint16_t>(glyph) : std::uint16_t{0};
    }
  }
}

int TrueTypeFont::nesting_depth(std::u32string_view letters) const {
  const std::string file = "of letters";
  const Table loca(loca_, file), glyf(glyf_, file);
  const auto offset_of = [&](std::size_t glyph) -> std::size_t {
    return long_offsets_ ? loca.u32(4 * glyph) : 2 * std::size_t{loca.u16(2 * glyph)};
  };
  const auto depth_of = [&](const auto& self, std::size_t glyph) -> int {
    const std::size_t at = offset_of(glyph);
    if (offset_of(glyph + 1) <= at || glyf.i16(at) >= 0)
      return 0;  // nothing drawn, or outlines of its own
    int deepest = 0;
    for (std::size_t part = at + 10;;) {
      const unsigned flags = glyf.u16(part);
      deepest = std::max(deepest, 1 + self(self, glyf.u16(part + 2)));
      part += 4 + ((flags & 0x1) ? 4 : 2) +
              ((flags & 0x8)    ? 2
               : (flags & 0x40) ? 4
               : (flags & 0x80) ? 8
                                : 0);
      if (!(flags & 0x20)) return deepest;
    }
  };
  int deepest = 0;
  for (char32_t letter : letters) deepest = std::max(deepest, depth_of(depth_of, glyph_of(letter)));
  return deepest;
}

}  // namespace winterfolio
