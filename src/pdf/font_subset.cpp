// Tables and flags after OpenType 1.9: "Organization of an OpenType Font", glyf, head, hhea, hmtx,
// loca, maxp.
#include "pdf/font_subset.h"

#include <bit>
#include <string_view>
#include <utility>

namespace winterfolio {

namespace {

void append_u16(std::string& out, unsigned value) {
  out += static_cast<char>(value >> 8 & 0xFF);
  out += static_cast<char>(value & 0xFF);
}

void append_u32(std::string& out, std::uint32_t value) {
  append_u16(out, value >> 16);
  append_u16(out, value & 0xFFFF);
}

void put_u16(std::string& out, std::size_t at, unsigned value) {
  out.at(at) = static_cast<char>(value >> 8 & 0xFF);
  out.at(at + 1) = static_cast<char>(value & 0xFF);
}

void put_u32(std::string& out, std::size_t at, std::uint32_t value) {
  put_u16(out, at, value >> 16);
  put_u16(out, at + 2, value & 0xFFFF);
}

void pad_to_four(std::string& out) { out.resize((out.size() + 3) / 4 * 4, '\0'); }

/// The sum of a table's four-byte numbers, missing bytes taken as nought.
std::uint32_t checksum(std::string_view bytes) {
  std::uint32_t sum = 0;
  for (std::size_t i = 0; i < bytes.size(); ++i)
    sum += static_cast<std::uint32_t>(static_cast<unsigned char>(bytes[i])) << (24 - 8 * (i % 4));
  return sum;
}

/// The glyphs that are kept, in the order of their new numbers, and their outlines.
class Glyphs {
 public:
  explicit Glyphs(const TrueTypeFont& font)
      : loca_(font.table("loca")),
        glyf_(font.table("glyf")),
        long_offsets_(font.table("head").i16(50) != 0),
        new_numbers_(font.glyph_count(), kNone) {
    keep(0);
  }

  /// The new number of a glyph, which is kept from now on.
  std::uint16_t keep(unsigned glyph) {
    if (glyph >= new_numbers_.size()) glyf_.damaged();
    std::uint16_t& number = new_numbers_[glyph];
    if (number == kNone) {
      number = static_cast<std::uint16_t>(kept_.size());
      kept_.push_back(glyph);
    }
    return number;
  }

  /// Copies the outlines of all kept glyphs and of what they are made of. Called once, after the
  /// last letter.
  void copy_outlines() {
    for (std::size_t i = 0; i < kept_.size(); ++i) {  // grows as parts come along
      append_u32(offsets_, static_cast<std::uint32_t>(outlines_.size()));
      outlines_ += renumbered(outline_of(kept_[i]));
      pad_to_four(outlines_);
    }
    append_u32(offsets_, static_cast<std::uint32_t>(outlines_.size()));
  }

  const std::vector<unsigned>& kept() const { return kept_; }
  std::string take_outlines() { return std::move(outlines_); }
  std::string take_offsets() { return std::move(offsets_); }

 private:
  static constexpr std::uint16_t kNone = 0xFFFF;

  std::size_t offset_of(std::size_t glyph) const {
    return long_offsets_ ? loca_.u32(4 * glyph) : 2 * std::size_t{loca_.u16(2 * glyph)};
  }

  /// Empty for a blank.
  FontTable outline_of(std::size_t glyph) const {
    const std::size_t begin = offset_of(glyph), end = offset_of(glyph + 1);
    if (end < begin) glyf_.damaged();
    return glyf_.part(begin, end - begin);
  }

  /// A glyph made of others (a negative count of contours) names them by number.
  std::string renumbered(const FontTable& outline) {
    constexpr unsigned kWordArguments = 0x1, kScale = 0x8, kMore = 0x20, kTwoScales = 0x40,
                       kMatrix = 0x80;
    std::string out(outline.bytes());
    if (out.empty() || outline.i16(0) >= 0) return out;
    for (std::size_t part = 10;;) {
      const unsigned flags = outline.u16(part);
      put_u16(out, part + 2, keep(outline.u16(part + 2)));
      if ((flags & kMore) == 0) return out;
      part += 4 + ((flags & kWordArguments) ? 4 : 2);
      part += (flags & kScale) ? 2 : (flags & kTwoScales) ? 4 : (flags & kMatrix) ? 8 : 0;
    }
  }

  FontTable loca_, glyf_;
  bool long_offsets_;
  std::vector<std::uint16_t> new_numbers_;  // by old number
  std::vector<unsigned> kept_;              // old numbers by new ones
  std::string outlines_, offsets_;
};

/// Width and left bearing of each kept glyph; the last width of the table holds for all after it.
std::string metrics_of(const TrueTypeFont& font, const std::vector<unsigned>& kept) {
  const FontTable hmtx = font.table("hmtx");
  const unsigned metrics = font.table("hhea").u16(34);
  std::string out;
  for (const unsigned glyph : kept) {
    const bool own = glyph < metrics;
    append_u16(out, hmtx.u16(4 * std::size_t{own ? glyph : metrics - 1}));
    append_u16(out, hmtx.u16(own ? 4 * std::size_t{glyph} + 2 : 2 * std::size_t{metrics + glyph}));
  }
  return out;
}

struct NamedTable {
  std::string_view name;
  std::string bytes;
};

/// The file: a directory, then the tables, each from a multiple of four on. The sum over the whole
/// file is stored in head, and comes out as a fixed number.
std::string font_file(const std::vector<NamedTable>& tables) {
  const auto count = static_cast<unsigned>(tables.size()), power = std::bit_floor(count);
  std::string file;
  append_u32(file, 0x00010000);
  append_u16(file, count);
  append_u16(file, 16 * power);
  append_u16(file, static_cast<unsigned>(std::bit_width(power)) - 1);
  append_u16(file, 16 * (count - power));
  std::size_t at = file.size() + 16 * tables.size(), sum_at = 0;
  std::uint32_t sum = 0;
  for (const NamedTable& table : tables) {
    if (table.name == "head") sum_at = at + 8;
    const std::uint32_t of_table = checksum(table.bytes);
    file += table.name;
    append_u32(file, of_table);
    append_u32(file, static_cast<std::uint32_t>(at));
    append_u32(file, static_cast<std::uint32_t>(table.bytes.size()));
    sum += of_table;
    at += (table.bytes.size() + 3) / 4 * 4;
  }
  sum += checksum(file);
  for (const NamedTable& table : tables) {
    file += table.bytes;
    pad_to_four(file);
  }
  put_u32(file, sum_at, 0xB1B0AFBAu - sum);
  return file;
}

}  // namespace

FontSubset font_subset(const TrueTypeFont& font, std::span<const unsigned> letters) {
  Glyphs glyphs(font);
  FontSubset subset;
  for (const unsigned letter : letters) subset.glyphs.push_back(glyphs.keep(font.glyph_of(letter)));
  glyphs.copy_outlines();

  const auto count = static_cast<unsigned>(glyphs.kept().size());
  const auto copy_of = [&](std::string_view name) { return std::string(font.table(name).bytes()); };
  std::string head = copy_of("head"), hhea = copy_of("hhea"), maxp = copy_of("maxp");
  put_u32(head, 8, 0);   // the file's sum, set last
  put_u16(head, 50, 1);  // four-byte offsets
  put_u16(hhea, 34, count);
  put_u16(maxp, 4, count);

  std::vector<NamedTable> tables;  // in the order of their names
  for (const char* hints : {"cvt ", "fpgm"})
    if (font.find_table(hints)) tables.push_back({hints, copy_of(hints)});
  tables.push_back({"glyf", glyphs.take_outlines()});
  tables.push_back({"head", std::move(head)});
  tables.push_back({"hhea", std::move(hhea)});
  tables.push_back({"hmtx", metrics_of(font, glyphs.kept())});
  tables.push_back({"loca", glyphs.take_offsets()});
  tables.push_back({"maxp", std::move(maxp)});
  if (font.find_table("prep")) tables.push_back({"prep", copy_of("prep")});
  subset.file = font_file(tables);
  return subset;
}

}  // namespace winterfolio
