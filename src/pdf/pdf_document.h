// Pages of frames become the bytes of a PDF file: Lato in two faces, embedded, searchable, in one
// repeatable form.
//
//   PdfDocument pdf(lato_fonts());                     gives the font metrics that layout measures
//   with pages = layout_document(..., pdf, ...); bytes = pdf.write(pages, info); the file, the same
//   bytes for the same pages
//
// The PDF library makes pages, bookmarks and links (pdf/haru.h); pdf/page_content.h writes what
// stands on a page, pdf/embedded_font.h the letters it takes; a second pass puts all together, adds
// metadata and compresses (pdf/finish.h).
#pragma once

#include <array>
#include <memory>
#include <optional>
#include <span>
#include <string>

#include "base/dates.h"
#include "drawing/frame.h"
#include "pdf/true_type.h"

namespace winterfolio {

/// Where the two faces stand on disk.
struct FontFiles {
  std::string regular;
  std::string bold;
};

/// Lato as Debian's package fonts-lato installs it; another folder may be named.
FontFiles lato_fonts(const std::string& folder = "/usr/share/fonts/truetype/lato");

/// What the file says of itself.
struct PdfInfo {
  std::string title;
  std::string subject;
  std::string language = "en";
  std::string producer;         ///< "Winterfolio 0.1.0"
  std::optional<Date> created;  ///< from the input, never from the clock; no date if not given
};

/// Owns the library's document. Serves widths at once; fonts are embedded only when pages are
/// written.
class PdfDocument final : public FontMetrics {
 public:
  /// Throws PdfError if a font is missing or cannot be read.
  explicit PdfDocument(const FontFiles& fonts);
  ~PdfDocument() override;
  PdfDocument(const PdfDocument&) = delete;
  PdfDocument& operator=(const PdfDocument&) = delete;

  Length advance(Face face, Length size, std::string_view text) const override;
  bool covers(Face face, char32_t letter) const override;
  Length ascent(Face face, Length size) const override;
  Length descent(Face face, Length size) const override;
  Length cap_height(Face face, Length size) const override;
  Length x_height(Face face, Length size) const override;

  /// The file's bytes. A frame is a page as large as itself; anchors become bookmarks, links lead
  /// to anchors or the web. Requires: at least one page; called once. Throws PdfError if the
  /// library gives up, std::logic_error for a coordinate that is no number or a link to an anchor
  /// that is not there.
  std::string write(std::span<const Frame> pages, const PdfInfo& info);

  const TrueTypeFont& font(Face face) const { return fonts_[face == Face::bold ? 1 : 0]; }

 private:
  struct Library;
  std::array<TrueTypeFont, 2> fonts_;
  std::unique_ptr<Library> library_;
};

}  // namespace winterfolio
