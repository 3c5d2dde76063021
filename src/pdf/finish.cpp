// Numbers of sections are those of ISO 32000-1:2008.
#include "pdf/finish.h"

#include <fmt/format.h>

#include <algorithm>
#include <optional>
#include <vector>

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

/// Of zlib: a quarter cheaper than the usual 6, for a file a twentieth larger.
constexpr int kCompression = 3;

/// A letter's code as a reader should find it: gaps that only keep words together are blanks to a
/// reader.
unsigned extracted(unsigned letter) {
  const bool gap = letter == 0x00A0 || letter == 0x2009 || letter == 0x202F;
  return gap ? 0x20u : letter;
}

/// The letters of a face that pages use, rising.
std::vector<unsigned> letters_of(const std::bitset<0x10000>& used) {
  std::vector<unsigned> letters;
  for (unsigned letter = 1; letter < 0x10000; ++letter)
    if (used.test(letter)) letters.push_back(letter);
  return letters;
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

std::string xml_escaped(std::string_view text) {
  std::string out;
  for (char c : text) {
    if (c == '&')
      out += "&amp;";
    else if (c == '<')
      out += "&lt;";
    else if (c == '>')
      out += "&gt;";
    else
      out += c;
  }
  return out;
}

/// 14.3.2: the same facts as the information dictionary.
std::string metadata(const PdfInfo& info) {
  std::string date;
  if (info.created) {
    const std::string day = iso_date(*info.created);
    date = fmt::format(
        "<xmp:CreateDate>{0}T00:00:00+00:00</xmp:CreateDate>\n<xmp:ModifyDate>{0}T00:00:00+00:00</"
        "xmp:ModifyDate>\n",
        day);
  }
  return fmt::format(
      "<?xpacket begin=\"\xEF\xBB\xBF\" id=\"W5M0MpCehiHzreSzNTczkc9d\"?>\n"
      "<x:xmpmeta xmlns:x=\"adobe:ns:meta/\">\n<rdf:RDF "
      "xmlns:rdf=\"http://www.w3.org/1999/02/22-rdf-syntax-ns#\">\n"
      "<rdf:Description rdf:about=\"\" xmlns:dc=\"http://purl.org/dc/elements/1.1/\" "
      "xmlns:xmp=\"http://ns.adobe.com/xap/1.0/\" xmlns:pdf=\"http://ns.adobe.com/pdf/1.3/\">\n"
      "<dc:title><rdf:Alt><rdf:li xml:lang=\"x-default\">{}</rdf:li></rdf:Alt></dc:title>\n"
      "<dc:description><rdf:Alt><rdf:li "
      "xml:lang=\"x-default\">{}</rdf:li></rdf:Alt></dc:description>\n"
      "<dc:language><rdf:Bag><rdf:li>{}</rdf:li></rdf:Bag></dc:language>\n"
      "<pdf:Producer>{}</pdf:Producer>\n{}"
      "</rdf:Description>\n</rdf:RDF>\n</x:xmpmeta>\n<?xpacket end=\"r\"?>\n",
      xml_escaped(info.title), xml_escaped(info.subject), xml_escaped(info.language),
      xml_escaped(info.producer), date);
}

QPDFObjectHandle name(const char* text) { return QPDFObjectHandle::newName(text); }

class Finisher {
 public:
  Finisher(QPDF& pdf, const PdfInfo& info, const UsedLetters& used,
           const std::array<FinishedFace, 2>& faces)
      : pdf_(pdf), info_(info), letters_{letters_of(used[0]), letters_of(used[1])}, faces_(faces) {}

  void mend_objects() {
    for (QPDFObjectHandle object : pdf_.getAllObjects()) {
      if (!object.isDictionary()) continue;
      if (object.hasKey("/Type") && object.getKey("/Type").isNameAndEquals("/Font"))
        mend_font(object);
      if (object.hasKey("/Dest")) mend_destination(object.getKey("/Dest"));
      if (object.hasKey("/Subtype") && object.getKey("/Subtype").isNameAndEquals("/Link"))
        object.replaceKey("/F", QPDFObjectHandle::newInteger(4));  // 12.5.3: links stay in print
    }
  }

  /// 7.8.3: all pages share one dictionary of the faces.
  void fill_pages(std::span<const std::string> contents) {
    QPDFObjectHandle fonts = QPDFObjectHandle::newDictionary(),
                     resources = QPDFObjectHandle::newDictionary();
    if (face_objects_[0]) fonts.replaceKey(kRegularName, *face_objects_[0]);
    if (face_objects_[1]) fonts.replaceKey(kBoldName, *face_objects_[1]);
    resources.replaceKey("/Font", fonts);
    QPDFObjectHandle shared = pdf_.makeIndirectObject(resources);
    std::size_t next = 0;
    for (QPDFPageObjectHelper& page : QPDFPageDocumentHelper(pdf_).getAllPages()) {
      QPDFObjectHandle stream = QPDFObjectHandle::newStream(&pdf_, contents[next++]);
      page.getObjectHandle().replaceKey("/Contents", pdf_.makeIndirectObject(stream));
      page.getObjectHandle().replaceKey("/Resources", shared);
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
    if (!info_.subject.empty())
      facts.replaceKey("/Subject", QPDFObjectHandle::newUnicodeString(info_.subject));
    facts.replaceKey("/Producer", QPDFObjectHandle::newUnicodeString(info_.producer));
    if (info_.created) {
      const auto date = QPDFObjectHandle::newString(
          fmt::format("D:{:04}{:02}{:02}000000+00'00'", static_cast<int>(info_.created->year()),
                      static_cast<unsigned>(info_.created->month()),
                      static_cast<unsigned>(info_.created->day())));
      facts.replaceKey("/CreationDate", date);
      facts.replaceKey("/ModDate", date);
    }
    pdf_.getTrailer().replaceKey("/Info", pdf_.makeIndirectObject(facts));
  }

 private:
  /// Which face a font is, by its name: "HPDFAA+Lato-Regular", "HPDFAB+Lato-Bold,Bold".
  std::optional<std::size_t> face_of(QPDFObjectHandle font) const {
    const std::string base =
        font.getKey("/BaseFont").isName() ? font.getKey("/BaseFont").getName() : "";
    for (std::size_t face = 0; face < faces_.size(); ++face)
      if (base.find(faces_[face].file_name) != std::string::npos) return face;
    return std::nullopt;
  }

  void mend_font(QPDFObjectHandle font) {
    const auto face = face_of(font);
    if (!face) return;
    const std::vector<unsigned>& letters = letters_[*face];
    drop_style(font, "/BaseFont");
    if (font.getKey("/Subtype").isNameAndEquals("/Type0")) {
      face_objects_[*face] = font;
      font.replaceKey("/ToUnicode", pdf_.makeIndirectObject(
                                        QPDFObjectHandle::newStream(&pdf_, text_map(letters))));
      return;
    }
    font.removeKey("/DW2");  // the library writes one for vertical text, and wrong
    mend_widths(font, letters, *faces_[*face].font);
    mend_glyph_map(font.getKey("/CIDToGIDMap"), letters);
    QPDFObjectHandle descriptor = font.getKey("/FontDescriptor");
    if (!descriptor.isDictionary()) return;
    drop_style(descriptor, "/FontName");
    descriptor.replaceKey("/CapHeight",
                          QPDFObjectHandle::newInteger(faces_[*face].font->cap_height()));
  }

  /// 9.7.4.3: "first [width width ...]" for each run of neighbours; the library lists every letter
  /// of the whole font.
  static void mend_widths(QPDFObjectHandle font, const std::vector<unsigned>& letters,
                          const TrueTypeFont& measures) {
    QPDFObjectHandle widths = QPDFObjectHandle::newArray(), run;
    for (std::size_t i = 0; i < letters.size(); ++i) {
      if (i == 0 || letters[i] != letters[i - 1] + 1) {
        run = QPDFObjectHandle::newArray();
        widths.appendItem(QPDFObjectHandle::newInteger(static_cast<int>(letters[i])));
        widths.appendItem(run);
      }
      run.appendItem(QPDFObjectHandle::newInteger(measures.advance(letters[i])));
    }
    font.replaceKey("/W", widths);
  }

  /// 9.7.4.2: two bytes a letter; the library lists every letter of the whole font. Only the used
  /// ones are drawn.
  static void mend_glyph_map(QPDFObjectHandle map, const std::vector<unsigned>& letters) {
    if (!map.isStream() || letters.empty()) return;
    const auto whole = map.getStreamData(qpdf_dl_generalized);
    const char* glyphs = reinterpret_cast<const char*>(whole->getBuffer());
    std::string kept(2 * (std::size_t{letters.back()} + 1), '\0');
    for (const unsigned letter : letters)
      if (2 * std::size_t{letter} + 1 < whole->getSize())
        kept.replace(2 * letter, 2, glyphs + 2 * letter, 2);
    map.replaceStreamData(kept, QPDFObjectHandle::newNull(), QPDFObjectHandle::newNull());
  }

  /// 9.8.1: the name is the font's own; the library adds ",Bold", which belongs to fonts that are
  /// not embedded.
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
  const std::array<std::vector<unsigned>, 2> letters_;
  const std::array<FinishedFace, 2>& faces_;
  std::array<std::optional<QPDFObjectHandle>, 2> face_objects_;
};

}  // namespace

std::string finish_pdf(const std::string& empty_pages, std::span<const std::string> contents,
                       const PdfInfo& info, const UsedLetters& used,
                       const std::array<FinishedFace, 2>& faces, bool has_bookmarks) {
  try {
    QPDF pdf;
    pdf.setSuppressWarnings(true);
    pdf.processMemoryFile("the empty pages", empty_pages.data(), empty_pages.size());
    Finisher finisher(pdf, info, used, faces);
    finisher.mend_objects();
    finisher.fill_pages(contents);
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
