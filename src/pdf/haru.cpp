#include "pdf/haru.h"

#include <fmt/format.h>

#include "pdf/pdf_error.h"

namespace winterfolio {

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

std::string HaruDocument::save() {
  HPDF_SaveToStream(get());
  check("finishing the file");
  HPDF_UINT32 size = HPDF_GetStreamSize(get());
  std::string bytes(size, '\0');
  HPDF_ResetStream(get());
  HPDF_ReadFromStream(get(), reinterpret_cast<HPDF_BYTE*>(bytes.data()), &size);
  check("reading the file back");
  if (size != bytes.size()) throw PdfError("the PDF library gave back less than it wrote");
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
