// The PDF library behind one thin wall: it owns the document, its pages, bookmarks and links. Every
// call is followed by a look at the error it left.
//
// What stands on a page is written by pdf/page_content.h, not through the library's drawing calls:
// those cost ten times as much, round to single precision and know whole dashes only. Fonts are
// pdf/embedded_font.h's: the library looks up all 65,536 codes of each face, writes a map of text
// that viewers complain of, and drops parts of letters whose parts are made of others.
#pragma once

#include <hpdf.h>

#include <memory>
#include <string>

namespace winterfolio {

/// A library document and the first error it met.
class HaruDocument {
 public:
  HaruDocument();
  HaruDocument(const HaruDocument&) = delete;
  HaruDocument& operator=(const HaruDocument&) = delete;

  HPDF_Doc get() const { return doc_.get(); }
  /// Throws PdfError if a call has failed since the document was made; `doing` says what was tried.
  void check(const char* doing) const;
  /// An empty page of a size [pt].
  HPDF_Page add_page(double width, double height);
  /// The file as the second pass takes it.
  std::string save();

 private:
  struct FirstError {
    HPDF_STATUS code = 0;
    HPDF_STATUS detail = 0;
  };
  struct Free {
    void operator()(HPDF_Doc doc) const { HPDF_Free(doc); }
  };
  static void remember(HPDF_STATUS code, HPDF_STATUS detail, void* where);

  std::unique_ptr<FirstError> error_;  // at a fixed address: the library's callback writes here
  std::unique_ptr<std::remove_pointer_t<HPDF_Doc>, Free> doc_;
};

}  // namespace winterfolio
