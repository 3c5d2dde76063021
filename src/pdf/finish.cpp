// Numbers of sections are those of ISO 32000-1:2008.
#include "pdf/finish.h"

#include <fmt/format.h>

#include <vector>

#define POINTERHOLDER_TRANSITION 4
#include <qpdf/Buffer.hh>
#include <qpdf/Pl_Flate.hh>
#include <qpdf/QPDF.hh>
#include <qpdf/QPDFObjectHandle.hh>
#include <qpdf/QPDFPageDocumentHelper.hh>
#include <qpdf/QPDFWriter.hh>

#include "pdf/embedded_font.h"
#include "pdf/pdf_error.h"

namespace winterfolio {

namespace {

/// Of zlib: less than half the cost of the usual 6, for a file a fifth larger.
constexpr int kCompression = 2;

/// The letters of a face that pages use, rising.
std::vector<unsigned> letters_of(const std::bitset<0x10000>& used) {
  std::vector<unsigned> letters;
  for (unsigned letter = 1; letter < 0x10000; ++letter)
    if (used.test(letter)) letters.push_back(letter);
  return letters;
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
  Finisher(QPDF& pdf, const PdfInfo& info) : pdf_(pdf), info_(info) {}

  void mend_objects() {
    for (QPDFObjectHandle object : pdf_.getAllObjects()) {
      if (!object.isDictionary()) continue;
      if (object.hasKey("/Dest")) mend_destination(object.getKey("/Dest"));
      if (object.hasKey("/Subtype") && object.getKey("/Subtype").isNameAndEquals("/Link"))
        object.replaceKey("/F", QPDFObjectHandle::newInteger(4));  // 12.5.3: links stay in print
    }
  }

  /// 7.8.3: all pages share one dictionary of the faces, those that are used.
  void fill_pages(std::span<const std::string> contents, const UsedLetters& used,
                  const std::array<FinishedFace, 2>& faces) {
    QPDFObjectHandle fonts = QPDFObjectHandle::newDictionary(),
                     resources = QPDFObjectHandle::newDictionary();
    for (std::size_t face = 0; face < faces.size(); ++face) {
      const std::vector<unsigned> letters = letters_of(used[face]);
      if (letters.empty()) continue;
      fonts.replaceKey(face == 0 ? kRegularName : kBoldName,
                       embedded_font(pdf_, *faces[face].font, faces[face].name, letters));
    }
    resources.replaceKey("/Font", fonts);
    QPDFObjectHandle shared = pdf_.makeIndirectObject(resources);
    std::size_t next = 0;
    for (QPDFPageObjectHelper& page : QPDFPageDocumentHelper(pdf_).getAllPages()) {
      page.getObjectHandle().replaceKey("/Contents", pdf_.newStream(contents[next++]));
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
  /// 12.3.2.2: null keeps the reader's own zoom; the library can only write a number.
  static void mend_destination(QPDFObjectHandle destination) {
    if (destination.isArray() && destination.getArrayNItems() == 5 &&
        destination.getArrayItem(1).isNameAndEquals("/XYZ"))
      destination.setArrayItem(4, QPDFObjectHandle::newNull());
  }

  QPDF& pdf_;
  const PdfInfo& info_;
};

}  // namespace

std::string finish_pdf(const std::string& empty_pages, std::span<const std::string> contents,
                       const PdfInfo& info, const UsedLetters& used,
                       const std::array<FinishedFace, 2>& faces, bool has_bookmarks) {
  try {
    QPDF pdf;
    pdf.setSuppressWarnings(true);
    pdf.processMemoryFile("the empty pages", empty_pages.data(), empty_pages.size());
    Finisher finisher(pdf, info);
    finisher.mend_objects();
    finisher.fill_pages(contents, used, faces);
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
  } catch (const PdfError&) {
    throw;
  } catch (const std::exception& e) {
    throw PdfError(fmt::format("the finished pages could not be put in order: {}", e.what()));
  }
}

}  // namespace winterfolio
