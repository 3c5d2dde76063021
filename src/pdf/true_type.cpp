#include "pdf/true_type.h"

#include <algorithm>
#include <utility>

namespace winterfolio {

TrueTypeFont::TrueTypeFont(std::string bytes, std::string file)
    : bytes_(std::move(bytes)), file_(std::move(file)) {
  const FontTable head = table("head"), hhea = table("hhea"), hmtx = table("hmtx"),
                  os2 = table("OS/2");
  const int em = static_cast<int>(head.u16(18));
  if (em <= 0) head.damaged();
  const auto thousandths = [&](int units) { return units * 1000 / em; };
  ascent_ = thousandths(hhea.i16(4));
  descent_ = thousandths(-hhea.i16(6));
  x_height_ = thousandths(os2.i16(86));
  cap_height_ = thousandths(os2.i16(88));
  for (std::size_t side = 0; side < box_.size(); ++side)
    box_[side] = thousandths(head.i16(36 + 2 * side));
  bold_ = (head.u16(44) & 1) != 0;

  const unsigned glyphs = table("maxp").u16(4), metrics = hhea.u16(34);
  if (glyphs == 0 || metrics == 0) head.damaged();
  advances_.resize(glyphs);
  for (unsigned g = 0; g < glyphs; ++g)  // the last width holds for all glyphs after it
    advances_[g] = static_cast<std::uint16_t>(hmtx.u16(4 * std::size_t{std::min(g, metrics - 1)}) *
                                              1000 / static_cast<unsigned>(em));
  read_character_map(table("cmap"));
  table("glyf");  // the outlines are read when the font is embedded; a file without is refused now
  table("loca");
}

std::optional<FontTable> TrueTypeFont::find_table(std::string_view name) const {
  const FontTable whole(bytes_, file_);
  const unsigned count = whole.u16(4);
  for (unsigned i = 0; i < count; ++i) {
    const std::size_t record = 12 + 16 * static_cast<std::size_t>(i);
    if (whole.from(record, 4) == name)
      return whole.part(whole.u32(record + 8), whole.u32(record + 12));
  }
  return std::nullopt;
}

FontTable TrueTypeFont::table(std::string_view name) const {
  const auto found = find_table(name);
  if (!found) FontTable(bytes_, file_).damaged();
  return *found;
}

void TrueTypeFont::read_character_map(const FontTable& cmap) {
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

}  // namespace winterfolio
