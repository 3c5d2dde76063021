// The second pass over a file the PDF library has made: what stands on the pages, text maps that
// every viewer can read, capital heights, title, language and metadata, then one compressed,
// repeatable form.
#pragma once

#include <array>
#include <span>
#include <string>

#include "pdf/page_content.h"
#include "pdf/pdf_document.h"

namespace winterfolio {

/// What the second pass must know of a face.
struct FinishedFace {
  std::string file_name;  ///< without folder and ending: "Lato-Regular", as the font calls itself
                          ///< inside the file
  const TrueTypeFont* font = nullptr;  ///< owned by the caller
};

/// The finished file. `contents` are the pages', in order; `used` and `faces` are regular, bold.
/// Throws PdfError.
std::string finish_pdf(const std::string& empty_pages, std::span<const std::string> contents,
                       const PdfInfo& info, const UsedLetters& used,
                       const std::array<FinishedFace, 2>& faces, bool has_bookmarks);

}  // namespace winterfolio
