// Numbers of sections are those of ISO 32000-1:2008.
#include "pdf/finish.h"

#include <fmt/format.h>

#define POINTERHOLDER_TRANSITION 4
#include <qpdf/Buffer.hh>
#include <qpdf/Pl_Flate.hh>
#include <qpdf/QPDF.hh>
#include <qpdf/QPDFObjectHandle.hh>
#include <qpdf/QPDFPageDocumentHelper.hh>
#include <qpdf/QPDFWriter.hh>

#include "pdf/pdf_error.h"

namespace winterfolio {

namespace {

/// Of zlib. Higher costs half as much again and saves one part in seventy.
constexpr int kCompression = 4;

/// Numbers in a page's content as short as they can be: the library rounds to single precision and prints the noise,
/// "62.36999" for 62.37. Two decimals are all a place was given; numbers under 1 keep three, for inks.
std::string without_noise(std::string_view content) {
  std::string out;
  out.reserve(content.size());
  const auto digit = [&](std::size_t i) { return i < content.size() && content[i] >= '0' && content[i] <= '9'; };
  std::size_t copied = 0;  // content before this is in `out` already
  for (std::size_t i = content.find_first_of("<."); i < content.size(); i = content.find_first_of("<.", i)) {
    if (content[i] == '<') {  // a hexadecimal string, passed whole
      i = std::min(content.find('>', i), content.size());
      continue;
    }
    const std::size_t point = i;
    while (digit(i + 1)) ++i;
    const std::size_t end = ++i, decimals = end - point - 1;
    std::size_t start = point;
    long value = 0, scale = 1;
    while (start > copied && digit(start - 1)) value += scale * (content[--start] - '0'), scale *= 10;
    const std::size_t kept = value == 0 ? 3 : 2;
    if (decimals <= kept) continue;
    for (std::size_t k = 1; k <= kept; ++k) value = value * 10 + (content[point + k] - '0');
    if (content[point + kept + 1] >= '5') ++value;
    out += content.substr(copied, start - copied);
    copied = end;
    char text[24];
    std::size_t length = sizeof text;
    bool significant = false;  // zeros at the end of the decimals are left out
    for (std::size_t k = 0; k < kept; ++k, value /= 10) {
      significant = significant || value % 10 != 0;
      if (significant) text[--length] = static_cast<char>('0' + value % 10);
    }
    if (significant) text[--length] = '.';
    do text[--length] = static_cast<char>('0' + value % 10);
    while ((value /= 10) != 0);
    out.append(text + length, sizeof text - length);
  }
  out += content.substr(copied);
  return out;
}

/// A letter's code as a reader should find it: gaps that only keep words together are blanks to a reader.
unsigned extracted(unsigned letter) {
  const bool gap = letter == 0x00A0 || letter == 0x2009 || letter == 0x202F;
  return gap ? 0x20u : letter;
}

/// 9.10.3: from code to letter, for the used ones only, at most a hundred a block.
std::string text_map(const std::bitset<0x10000>& used) {
  std::vector<unsigned> letters;
  for (unsigned letter = 1; letter < 0x10000; ++letter)
    if (used.test(letter)) letters.push_back(letter);
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

std::string xml_escaped(std::string_view text) {
  std::string out;
  for (char c : text) {
    if (c == '&') out += "&amp;";
    else if (c == '<') out += "&lt;";
    else if (c == '>') out += "&gt;";
    else out += c;
  }
  return out;
}

/// 14.3.2: the same facts as the information dictionary.
std::string metadata(const PdfInfo& info) {
  std::string date;
  if (info.created) {
    const std::string day = iso_date(*info.created);
    date = fmt::format("<xmp:CreateDate>{0}T00:00:00+00:00</xmp:CreateDate>\n<xmp:ModifyDate>{0}T00:00:00+00:00</xmp:ModifyDate>\n", day);
  }
  return fmt::format(
      "<?xpacket begin=\"\xEF\xBB\xBF\" id=\"W5M0MpCehiHzreSzNTczkc9d\"?>\n"
      "<x:xmpmeta xmlns:x=\"adobe:ns:meta/\">\n<rdf:RDF xmlns:rdf=\"http://www.w3.org/1999/02/22-rdf-syntax-ns#\">\n"
      "<rdf:Description rdf:about=\"\" xmlns:dc=\"http://purl.org/dc/elements/1.1/\" "
      "xmlns:xmp=\"http://ns.adobe.com/xap/1.0/\" xmlns:pdf=\"http://ns.adobe.com/pdf/1.3/\">\n"
      "<dc:title><rdf:Alt><rdf:li xml:lang=\"x-default\">{}</rdf:li></rdf:Alt></dc:title>\n"
      "<dc:description><rdf:Alt><rdf:li xml:lang=\"x-default\">{}</rdf:li></rdf:Alt></dc:description>\n"
      "<dc:language><rdf:Bag><rdf:li>{}</rdf:li></rdf:Bag></dc:language>\n"
      "<pdf:Producer>{}</pdf:Producer>\n{}"
      "</rdf:Description>\n</rdf:RDF>\n</x:xmpmeta>\n<?xpacket end=\"r\"?>\n",
      xml_escaped(info.title), xml_escaped(info.subject), xml_escaped(info.language), xml_escaped(info.producer),
      date);
}

QPDFObjectHandle name(const char* text) { return QPDFObjectHandle::newName(text); }

class Finisher {
 public:
  Finisher(QPDF& pdf, const PdfInfo& info, const UsedLetters& used, const std::array<FinishedFace, 2>& faces)
      : pdf_(pdf), info_(info), used_(used), faces_(faces) {}

  void mend_objects() {
    for (QPDFObjectHandle object : pdf_.getAllObjects()) {
      if (!object.isDictionary()) continue;
      if (object.hasKey("/Type") && object.getKey("/Type").isNameAndEquals("/Font")) mend_font(object);
      if (object.hasKey("/Dest")) mend_destination(object.getKey("/Dest"));
      if (object.hasKey("/Subtype") && object.getKey("/Subtype").isNameAndEquals("/Link"))
        object.replaceKey("/F", QPDFObjectHandle::newInteger(4));  // 12.5.3: links stay in print
    }
  }

  /// Shorter content, deflated at once.
  void shorten_pages() {
    for (QPDFPageObjectHelper& page : QPDFPageDocumentHelper(pdf_).getAllPages()) {
      QPDFObjectHandle contents = page.getObjectHandle().getKey("/Contents");
      if (!contents.isStream()) continue;
      const auto drawn = contents.getRawStreamData();
      const std::string_view bytes(reinterpret_cast<const char*>(drawn->getBuffer()), drawn->getSize());
      contents.replaceStreamData(without_noise(bytes), QPDFObjectHandle::newNull(), QPDFObjectHandle::newNull());
    }
  }

  void describe(bool has_bookmarks) {
    QPDFObjectHandle root = pdf_.getRoot();
    root.replaceKey("/Lang", QPDFObjectHandle::newUnicodeString(info_.language));
    QPDFObjectHandle viewer = QPDFObjectHandle::newDictionary();
    viewer.replaceKey("/DisplayDocTitle", QPDFObjectHandle::newBool(true));
    root.replaceKey("/ViewerPreferences", viewer);
    root.replaceKey("/PageMode", name(has_bookmarks ? "/UseOutlines" : "/UseNone"));
    QPDFObjectHandle xmp = QPDFObjectHandle::newStream(&pdf_, metadata(info_));
    xmp.getDict().replaceKey("/Type", name("/Metadata"));
    xmp.getDict().replaceKey("/Subtype", name("/XML"));
    root.replaceKey("/Metadata", pdf_.makeIndirectObject(xmp));

    QPDFObjectHandle facts = QPDFObjectHandle::newDictionary();
    facts.replaceKey("/Title", QPDFObjectHandle::newUnicodeString(info_.title));
    if (!info_.subject.empty()) facts.replaceKey("/Subject", QPDFObjectHandle::newUnicodeString(info_.subject));
    facts.replaceKey("/Producer", QPDFObjectHandle::newUnicodeString(info_.producer));
    if (info_.created) {
      const auto date = QPDFObjectHandle::newString(
          fmt::format("D:{:04}{:02}{:02}000000+00'00'", static_cast<int>(info_.created->year()),
                      static_cast<unsigned>(info_.created->month()), static_cast<unsigned>(info_.created->day())));
      facts.replaceKey("/CreationDate", date);
      facts.replaceKey("/ModDate", date);
    }
    pdf_.getTrailer().replaceKey("/Info", pdf_.makeIndirectObject(facts));
  }

 private:
  /// Which face a font is, by its name: "HPDFAA+Lato-Regular", "HPDFAB+Lato-Bold,Bold".
  std::optional<std::size_t> face_of(QPDFObjectHandle font) const {
    const std::string base = font.getKey("/BaseFont").isName() ? font.getKey("/BaseFont").getName() : "";
    for (std::size_t face = 0; face < faces_.size(); ++face)
      if (base.find(faces_[face].file_name) != std::string::npos) return face;
    return std::nullopt;
  }

  void mend_font(QPDFObjectHandle font) {
    const auto face = face_of(font);
    if (!face) return;
    drop_style(font, "/BaseFont");
    if (font.getKey("/Subtype").isNameAndEquals("/Type0")) {
      font.replaceKey("/ToUnicode", pdf_.makeIndirectObject(QPDFObjectHandle::newStream(&pdf_, text_map(used_[*face]))));
      return;
    }
    font.removeKey("/DW2");  // the library writes one for vertical text, and wrong
    mend_widths(font, used_[*face], *faces_[*face].font);
    mend_glyph_map(font.getKey("/CIDToGIDMap"), used_[*face]);
    QPDFObjectHandle descriptor = font.getKey("/FontDescriptor");
    if (!descriptor.isDictionary()) return;
    drop_style(descriptor, "/FontName");
    descriptor.replaceKey("/CapHeight", QPDFObjectHandle::newInteger(faces_[*face].font->cap_height()));
  }

  /// 9.7.4.3: "first [width width ...]"; the library lists every letter of the whole font.
  static void mend_widths(QPDFObjectHandle font, const std::bitset<0x10000>& used, const TrueTypeFont& measures) {
    QPDFObjectHandle widths = QPDFObjectHandle::newArray(), run;
    for (unsigned letter = 0; letter < 0x10000; ++letter) {
      if (!used.test(letter)) continue;
      if (letter == 0 || !used.test(letter - 1)) {
        run = QPDFObjectHandle::newArray();
        widths.appendItem(QPDFObjectHandle::newInteger(static_cast<int>(letter)));
        widths.appendItem(run);
      }
      run.appendItem(QPDFObjectHandle::newInteger(measures.advance(letter)));
    }
    font.replaceKey("/W", widths);
  }

  /// 9.7.4.2: two bytes a letter; the library lists every letter of the whole font. Only the used ones are drawn.
  static void mend_glyph_map(QPDFObjectHandle map, const std::bitset<0x10000>& used) {
    if (!map.isStream()) return;
    const auto whole = map.getStreamData(qpdf_dl_generalized);
    const char* glyphs = reinterpret_cast<const char*>(whole->getBuffer());
    std::size_t letters = whole->getSize() / 2;
    while (letters > 1 && !used.test(letters - 1)) --letters;
    std::string kept(2 * letters, '\0');
    for (std::size_t letter = 0; letter < letters; ++letter)
      if (used.test(letter)) kept.replace(2 * letter, 2, glyphs + 2 * letter, 2);
    map.replaceStreamData(kept, QPDFObjectHandle::newNull(), QPDFObjectHandle::newNull());
  }

  /// 9.8.1: the name is the font's own; the library adds ",Bold", which belongs to fonts that are not embedded.
  static void drop_style(QPDFObjectHandle dictionary, const std::string& key) {
    if (!dictionary.getKey(key).isName()) return;
    const std::string font = dictionary.getKey(key).getName();
    dictionary.replaceKey(key, QPDFObjectHandle::newName(font.substr(0, font.find(','))));
  }

  /// 12.3.2.2: null keeps the reader's own zoom; the library can only write a number.
  static void mend_destination(QPDFObjectHandle destination) {
    if (destination.isArray() && destination.getArrayNItems() == 5 &&
        destination.getArrayItem(1).isNameAndEquals("/XYZ"))
      destination.setArrayItem(4, QPDFObjectHandle::newNull());
  }

  QPDF& pdf_;
  const PdfInfo& info_;
  const UsedLetters& used_;
  const std::array<FinishedFace, 2>& faces_;
};

}  // namespace

std::string finish_pdf(const std::string& drawn, const PdfInfo& info, const UsedLetters& used,
                       const std::array<FinishedFace, 2>& faces, bool has_bookmarks) {
  try {
    QPDF pdf;
    pdf.setSuppressWarnings(true);
    pdf.processMemoryFile("the drawn pages", drawn.data(), drawn.size());
    Finisher finisher(pdf, info, used, faces);
    finisher.mend_objects();
    finisher.shorten_pages();
    finisher.describe(has_bookmarks);
    Pl_Flate::setCompressionLevel(kCompression);
    QPDFWriter writer(pdf);
    writer.setOutputMemory();
    writer.setMinimumPDFVersion("1.7");
    writer.setDeterministicID(true);
    writer.setObjectStreamMode(qpdf_o_generate);
    writer.setStreamDataMode(qpdf_s_compress);
    writer.write();
    const auto buffer = writer.getBufferSharedPointer();
    return {reinterpret_cast<const char*>(buffer->getBuffer()), buffer->getSize()};
  } catch (const std::exception& e) {
    throw PdfError(fmt::format("the finished pages could not be put in order: {}", e.what()));
  }
}

}  // namespace winterfolio
