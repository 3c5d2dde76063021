// The second pass over a file the PDF library has made: what stands on the pages, the faces with
// the letters used, title, language and metadata, then one compressed, repeatable form.
#pragma once

#include <array>
#include <span>
#include <string>

#include "pdf/page_content.h"
#include "pdf/pdf_document.h"

namespace winterfolio {

/// A face to embed.
struct FinishedFace {
  std::string name;                    ///< as the font calls itself: "Lato-Regular"
  const TrueTypeFont* font = nullptr;  ///< owned by the caller
};

/// The finished file. `contents` are the pages', in order; `used` and `faces` are regular, bold.
/// Throws PdfError.
std::string finish_pdf(const std::string& empty_pages, std::span<const std::string> contents,
                       const PdfInfo& info, const UsedLetters& used,
                       const std::array<FinishedFace, 2>& faces, bool has_bookmarks);

}  // namespace winterfolio
