// Numbers of sections are those of ISO 32000-1:2008.
#include "pdf/embedded_font.h"

#include <fmt/format.h>

#include <algorithm>

#include "pdf/font_subset.h"

namespace winterfolio {

namespace {

QPDFObjectHandle number(int value) { return QPDFObjectHandle::newInteger(value); }
QPDFObjectHandle name_object(const std::string& name) { return QPDFObjectHandle::newName(name); }

/// A letter's code as a reader should find it: gaps that only keep words together are blanks to a
/// reader.
unsigned extracted(unsigned letter) {
  const bool gap = letter == 0x00A0 || letter == 0x2009 || letter == 0x202F;
  return gap ? 0x20u : letter;
}

/// 9.10.3: from code to letter, for the used ones only, at most a hundred a block.
std::string text_map(const std::vector<unsigned>& letters) {
  std::string map =
      "/CIDInit /ProcSet findresource begin\n12 dict begin\nbegincmap\n"
      "/CIDSystemInfo << /Registry (Adobe) /Ordering (UCS) /Supplement 0 >> def\n"
      "/CMapName /Adobe-Identity-UCS def\n/CMapType 2 def\n"
      "1 begincodespacerange\n<0000> <FFFF>\nendcodespacerange\n";
  for (std::size_t i = 0; i < letters.size(); i += 100) {
    const std::size_t n = std::min<std::size_t>(100, letters.size() - i);
    map += fmt::format("{} beginbfchar\n", n);
    for (std::size_t k = i; k < i + n; ++k)
      map += fmt::format("<{:04X}> <{:04X}>\n", letters[k], extracted(letters[k]));
    map += "endbfchar\n";
  }
  return map + "endcmap\nCMapName currentdict /CMap defineresource pop\nend\nend\n";
}

/// 9.6.4: six capitals that tell this choice of letters from another of the same font.
std::string subset_tag(const std::vector<unsigned>& letters) {
  std::uint64_t mixed = 0xcbf29ce484222325u;  // FNV-1a, 64 bits
  for (const unsigned letter : letters) mixed = (mixed ^ letter) * 0x100000001b3u;
  std::string tag;
  for (int i = 0; i < 6; ++i, mixed /= 26) tag += static_cast<char>('A' + mixed % 26);
  return tag;
}

/// 9.7.4.3: "first [width width ...]" for each run of neighbours.
QPDFObjectHandle widths_of(const TrueTypeFont& font, const std::vector<unsigned>& letters) {
  QPDFObjectHandle widths = QPDFObjectHandle::newArray(), run;
  for (std::size_t i = 0; i < letters.size(); ++i) {
    if (i == 0 || letters[i] != letters[i - 1] + 1) {
      run = QPDFObjectHandle::newArray();
      widths.appendItem(number(static_cast<int>(letters[i])));
      widths.appendItem(run);
    }
    run.appendItem(number(font.advance(letters[i])));
  }
  return widths;
}

/// 9.7.4.2: the glyph of every code up to the last letter, two bytes each.
std::string glyph_map(const std::vector<unsigned>& letters,
                      const std::vector<std::uint16_t>& glyphs) {
  std::string map(2 * (std::size_t{letters.back()} + 1), '\0');
  for (std::size_t i = 0; i < letters.size(); ++i) {
    map[2 * letters[i]] = static_cast<char>(glyphs[i] >> 8);
    map[2 * letters[i] + 1] = static_cast<char>(glyphs[i] & 0xFF);
  }
  return map;
}

/// 9.8: what a viewer without the font's file would need to know.
QPDFObjectHandle descriptor_of(const TrueTypeFont& font, const std::string& name) {
  constexpr int kLatinLetters = 1 << 5, kForceBold = 1 << 18;
  QPDFObjectHandle box = QPDFObjectHandle::newArray();
  for (const int side : font.box()) box.appendItem(number(side));
  QPDFObjectHandle descriptor = QPDFObjectHandle::newDictionary();
  descriptor.replaceKey("/Type", name_object("/FontDescriptor"));
  descriptor.replaceKey("/FontName", name_object(name));
  descriptor.replaceKey("/Flags", number(kLatinLetters | (font.bold() ? kForceBold : 0)));
  descriptor.replaceKey("/FontBBox", box);
  descriptor.replaceKey("/ItalicAngle", number(0));
  descriptor.replaceKey("/Ascent", number(font.ascent()));
  descriptor.replaceKey("/Descent", number(-font.descent()));
  descriptor.replaceKey("/CapHeight", number(font.cap_height()));
  descriptor.replaceKey("/XHeight", number(font.x_height()));
  descriptor.replaceKey("/StemV", number(0));  // not known
  return descriptor;
}

}  // namespace

QPDFObjectHandle embedded_font(QPDF& pdf, const TrueTypeFont& font, const std::string& name,
                               const std::vector<unsigned>& letters) {
  const auto stream = [&](const std::string& bytes) { return pdf.newStream(bytes); };
  const std::string tagged = "/" + subset_tag(letters) + "+" + name;
  const FontSubset subset = font_subset(font, letters);

  QPDFObjectHandle file = stream(subset.file);
  file.getDict().replaceKey("/Length1", number(static_cast<int>(subset.file.size())));
  QPDFObjectHandle descriptor = descriptor_of(font, tagged);
  descriptor.replaceKey("/FontFile2", file);

  QPDFObjectHandle collection = QPDFObjectHandle::newDictionary();
  collection.replaceKey("/Registry", QPDFObjectHandle::newString("Adobe"));
  collection.replaceKey("/Ordering", QPDFObjectHandle::newString("Identity"));
  collection.replaceKey("/Supplement", number(0));
  QPDFObjectHandle letters_font = QPDFObjectHandle::newDictionary();
  letters_font.replaceKey("/Type", name_object("/Font"));
  letters_font.replaceKey("/Subtype", name_object("/CIDFontType2"));
  letters_font.replaceKey("/BaseFont", name_object(tagged));
  letters_font.replaceKey("/CIDSystemInfo", collection);
  letters_font.replaceKey("/FontDescriptor", pdf.makeIndirectObject(descriptor));
  letters_font.replaceKey("/W", widths_of(font, letters));
  letters_font.replaceKey("/CIDToGIDMap", stream(glyph_map(letters, subset.glyphs)));
  QPDFObjectHandle parts = QPDFObjectHandle::newArray();
  parts.appendItem(pdf.makeIndirectObject(letters_font));

  QPDFObjectHandle whole = QPDFObjectHandle::newDictionary();
  whole.replaceKey("/Type", name_object("/Font"));
  whole.replaceKey("/Subtype", name_object("/Type0"));
  whole.replaceKey("/BaseFont", name_object(tagged));
  whole.replaceKey("/Encoding", name_object("/Identity-H"));
  whole.replaceKey("/DescendantFonts", parts);
  whole.replaceKey("/ToUnicode", stream(text_map(letters)));
  return pdf.makeIndirectObject(whole);
}

}  // namespace winterfolio
