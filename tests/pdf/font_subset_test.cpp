// The part of a font that travels in a file, held against the whole font, part by part and by a
// reading of its own, and against the sums and sizes that OpenType 1.9 asks of a file.
#include "pdf/font_subset.h"

#include <cstdint>
#include <map>
#include <string>
#include <vector>

#include "pdf/font_table.h"
#include "pdf/pdf_document.h"
#include "support/catch.h"
#include "support/files.h"

using namespace winterfolio;

namespace {

/// The tables of a TrueType file by name, read by nothing but the directory's layout.
struct Read {
  explicit Read(const std::string& bytes) : whole(bytes, kName) {
    for (unsigned i = 0; i < whole.u16(4); ++i) {
      const std::size_t record = 12 + 16 * std::size_t{i};
      tables.emplace(std::string(whole.from(record, 4)),
                     whole.part(whole.u32(record + 8), whole.u32(record + 12)));
    }
  }
  const FontTable& operator[](const std::string& name) const { return tables.at(name); }
  std::size_t offset(std::size_t glyph) const {
    return (*this)["head"].i16(50) != 0 ? (*this)["loca"].u32(4 * glyph)
                                        : 2 * std::size_t{(*this)["loca"].u16(2 * glyph)};
  }
  std::string_view outline(std::size_t glyph) const {
    return (*this)["glyf"].from(offset(glyph), offset(glyph + 1) - offset(glyph));
  }
  /// What is drawn for a glyph, with the parts of composed ones in place of their numbers.
  std::string drawn(std::size_t glyph, int depth = 0) const {
    REQUIRE(depth < 8);
    const std::string_view bytes = outline(glyph);
    std::string out;
    if (bytes.empty()) return out;
    const FontTable table(bytes, kName);
    if (table.i16(0) >= 0) return std::string(bytes.substr(0, length_of_simple(table)));
    std::size_t at = 10;
    out = bytes.substr(0, at);
    for (bool more = true; more;) {
      const unsigned flags = table.u16(at);
      const std::size_t rest = ((flags & 1) ? 4 : 2) + ((flags & 8)     ? 2
                                                        : (flags & 64)  ? 4
                                                        : (flags & 128) ? 8
                                                                        : 0);
      out += bytes.substr(at, 2);
      out += drawn(table.u16(at + 2), depth + 1);
      out += bytes.substr(at + 4, rest);
      at += 4 + rest;
      more = (flags & 32) != 0;
    }
    return out;
  }
  /// Without the bytes that pad it: "glyf", simple glyph description.
  static std::size_t length_of_simple(const FontTable& glyph) {
    const auto contours = static_cast<std::size_t>(glyph.i16(0));
    if (contours == 0) return 10;
    const unsigned points = glyph.u16(10 + 2 * (contours - 1)) + 1;
    std::size_t at = 10 + 2 * contours;
    at += 2 + glyph.u16(at);
    std::size_t places = 0;
    for (unsigned point = 0; point < points;) {
      const unsigned flag = glyph.u8(at++);
      const unsigned times = (flag & 8) ? 1 + glyph.u8(at++) : 1;
      const std::size_t x = (flag & 2)    ? 1
                            : (flag & 16) ? 0
                                          : 2,
                        y = (flag & 4)    ? 1
                            : (flag & 32) ? 0
                                          : 2;
      places += times * (x + y);
      point += times;
    }
    return at + places;
  }

  static inline const std::string kName = "of the test";
  FontTable whole;
  std::map<std::string, FontTable> tables;
};

std::uint32_t sum_of(std::string bytes) {
  bytes.resize((bytes.size() + 3) / 4 * 4, '\0');
  const FontTable table(bytes, Read::kName);
  std::uint32_t sum = 0;
  for (std::size_t at = 0; at < bytes.size(); at += 4) sum += table.u32(at);
  return sum;
}

/// Rising, as pages hand them on: plain ones, composed ones, gaps without ink, signs.
std::vector<unsigned> some_letters() {
  std::vector<unsigned> letters;
  for (unsigned c = 0x20; c < 0x7F; ++c) letters.push_back(c);
  for (unsigned c = 0xA0; c < 0x180; ++c) letters.push_back(c);
  for (const unsigned c : {0x2009u, 0x2013u, 0x2019u, 0x2026u, 0x2212u, 0x2265u})
    letters.push_back(c);
  return letters;
}

}  // namespace

TEST_CASE("Every letter of a subset is drawn and measured as in the whole font") {
  for (const std::string& file : {lato_fonts().regular, lato_fonts().bold}) {
    const std::string bytes = test::read_file(file);
    const TrueTypeFont font(bytes, file);
    const FontSubset subset = font_subset(font, some_letters());
    const Read whole(bytes), part(subset.file);
    REQUIRE(subset.glyphs.size() == some_letters().size());
    for (std::size_t i = 0; i < subset.glyphs.size(); ++i) {
      const unsigned letter = some_letters()[i], before = font.glyph_of(letter),
                     after = subset.glyphs[i];
      INFO(file << " U+" << std::hex << letter);
      CHECK(part.drawn(after) == whole.drawn(before));
      CHECK(part["hmtx"].u32(4 * std::size_t{after}) == whole["hmtx"].u32(4 * std::size_t{before}));
    }
    CHECK(part.drawn(0) == whole.drawn(0));  // the empty box, which every font begins with
  }
}

TEST_CASE("A subset is a whole TrueType file, and a small one") {
  const std::string file = lato_fonts().regular, bytes = test::read_file(file);
  const FontSubset subset = font_subset(TrueTypeFont(bytes, file), some_letters());
  const Read part(subset.file);
  // ISO 32000-1:2008, 9.9: these tables a program for a composite font must have.
  for (const char* name : {"glyf", "head", "hhea", "hmtx", "loca", "maxp"})
    CHECK(part.tables.count(name) == 1);
  const std::size_t glyphs = part["maxp"].u16(4);
  CHECK(part["hhea"].u16(34) == glyphs);
  CHECK(part["hmtx"].size() == 4 * glyphs);
  CHECK(part["loca"].size() == 4 * (glyphs + 1));
  CHECK(part.offset(glyphs) == part["glyf"].size());
  // OpenType 1.9, "Calculating checksums": the sum over the whole file, and over each table but
  // head, whose own field counts as nought.
  CHECK(sum_of(subset.file) == 0xB1B0AFBAu);
  std::string last;
  for (unsigned i = 0; i < part.whole.u16(4); ++i) {
    const std::size_t record = 12 + 16 * std::size_t{i};
    const std::string name(part.whole.from(record, 4));
    INFO(name);
    CHECK(last < name);  // in the order of names
    last = name;
    CHECK(part.whole.u32(record + 8) % 4 == 0);
    std::string table(part[name].bytes());
    if (name == "head") table.replace(8, 4, 4, '\0');
    CHECK(part.whole.u32(record + 4) == sum_of(table));
  }
  CHECK(subset.file.size() * 5 < bytes.size());
}

TEST_CASE("A letter the font lacks is its empty box, and comes once") {
  const TrueTypeFont font(test::read_file(lato_fonts().regular), "regular");
  const std::vector<unsigned> letters = {'A', 0x2603, 0x2604};
  const FontSubset subset = font_subset(font, letters);
  CHECK(subset.glyphs == std::vector<std::uint16_t>{1, 0, 0});
  CHECK(Read(subset.file)["maxp"].u16(4) == 2);
}
