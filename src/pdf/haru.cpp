#include "pdf/haru.h"

#include <fmt/format.h>

#include <algorithm>
#include <cstddef>
#include <string_view>

#include "base/utf8.h"
#include "pdf/pdf_error.h"

namespace winterfolio {

namespace {

/// Blanks out the widths of every letter of a whole font ("/W [ ... ]"), thousands of numbers that
/// the second pass would read only to put those of the used letters in their place. Same length, so
/// all offsets stay.
void blank_widths(std::string& file) {
  static constexpr std::string_view kWidths = "/W [";
  for (std::size_t at = file.find(kWidths); at != std::string::npos;
       at = file.find(kWidths, at + 1)) {
    std::size_t depth = 1, i = at + kWidths.size();
    const std::size_t start = i;
    for (; i < file.size() && depth > 0; ++i) {
      const char c = file[i];
      if (c == '[') ++depth;
      if (c == ']') --depth;
      if (c != '[' && c != ']' && c != ' ' && c != '\n' && c != '\r' && (c < '0' || c > '9')) break;
    }
    if (depth != 0) continue;  // something else that looks alike
    std::fill(file.begin() + static_cast<std::ptrdiff_t>(start),
              file.begin() + static_cast<std::ptrdiff_t>(i) - 1, ' ');
  }
}

}  // namespace

HaruDocument::HaruDocument()
    : error_(std::make_unique<FirstError>()),
      doc_(HPDF_New(&HaruDocument::remember, error_.get())) {
  if (!doc_)
    throw PdfError("the PDF library cannot start",
                   "close other programs: there is too little memory");
  HPDF_UseUTFEncodings(get());
  check("starting");
  // The second pass compresses.
  HPDF_SetCompressionMode(get(), HPDF_COMP_NONE);
  check("starting");
}

void HaruDocument::remember(HPDF_STATUS code, HPDF_STATUS detail, void* where) {
  auto* first = static_cast<FirstError*>(where);
  if (first->code == 0) *first = {code, detail};
}

void HaruDocument::check(const char* doing) const {
  if (error_->code == 0) return;
  throw PdfError(fmt::format("the PDF library failed while {} (code 0x{:04x}, detail {})", doing,
                             error_->code, error_->detail));
}

HPDF_Font HaruDocument::load_font(const std::string& file) {
  const char* name = HPDF_LoadTTFontFromFile(get(), file.c_str(), HPDF_TRUE);
  check("loading a font");
  HPDF_Font font = HPDF_GetFont(get(), name, "UTF-8");
  check("preparing a font");
  return font;
}

void HaruDocument::keep_letters(HPDF_Font font, const std::bitset<0x10000>& letters) {
  // The library keeps what it has once measured.
  std::string text;
  const auto measure = [&] {
    HPDF_Font_TextWidth(font, reinterpret_cast<const HPDF_BYTE*>(text.data()),
                        static_cast<HPDF_UINT>(text.size()));
    check("choosing letters");
    text.clear();
  };
  for (char32_t letter = 0; letter < letters.size(); ++letter) {
    if (!letters.test(letter)) continue;
    append_letter(text, letter);
    if (text.size() > 1000) measure();
  }
  if (!text.empty()) measure();
}

std::string HaruDocument::save() {
  HPDF_SaveToStream(get());
  check("finishing the file");
  HPDF_UINT32 size = HPDF_GetStreamSize(get());
  std::string bytes(size, '\0');
  HPDF_ResetStream(get());
  HPDF_ReadFromStream(get(), reinterpret_cast<HPDF_BYTE*>(bytes.data()), &size);
  check("reading the file back");
  if (size != bytes.size()) throw PdfError("the PDF library gave back less than it wrote");
  blank_widths(bytes);
  return bytes;
}

HPDF_Page HaruDocument::add_page(double width, double height) {
  HPDF_Page page = HPDF_AddPage(get());
  check("adding a page");
  HPDF_Page_SetWidth(page, static_cast<HPDF_REAL>(width));
  HPDF_Page_SetHeight(page, static_cast<HPDF_REAL>(height));
  check("sizing a page");
  return page;
}

}  // namespace winterfolio
