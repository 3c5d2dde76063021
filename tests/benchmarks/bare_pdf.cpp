// The least that a report of twelve sparse pages costs through the two PDF libraries as they come:
// two embedded faces, 24 lines of text and one curve of a winter's days a page, then the pass that
// makes the file compressed and repeatable. Nothing is computed, measured or laid out. What the
// program spends above this is its own.
//
//   bare_pdf REGULAR.ttf BOLD.ttf OUT.pdf
#include <hpdf.h>

#define POINTERHOLDER_TRANSITION 4
#include <cstdio>
#include <cstdlib>
#include <qpdf/QPDF.hh>
#include <qpdf/QPDFWriter.hh>
#include <string>

namespace {

constexpr int kPages = 12, kLines = 24, kDays = 212;

void give_up(HPDF_STATUS code, HPDF_STATUS detail, void*) {
  std::fprintf(stderr, "the PDF library failed: 0x%04lx, %lu\n", code, detail);
  std::exit(1);
}

HPDF_Font face(HPDF_Doc pdf, const char* file) {
  return HPDF_GetFont(pdf, HPDF_LoadTTFontFromFile(pdf, file, HPDF_TRUE), "UTF-8");
}

void fill(HPDF_Page page, int number, HPDF_Font regular, HPDF_Font bold) {
  HPDF_Page_SetSize(page, HPDF_PAGE_SIZE_A4, HPDF_PAGE_PORTRAIT);
  HPDF_Page_BeginText(page);
  for (int line = 0; line < kLines; ++line) {
    char text[80];
    std::snprintf(text, sizeof text, "Line %d of page %d, some fifty letters and 0123456789 a line",
                  line + 1, number);
    HPDF_Page_SetFontAndSize(page, line == 0 ? bold : regular, line == 0 ? 16.0F : 9.0F);
    HPDF_Page_TextOut(page, 50.0F, 780.0F - 16.0F * static_cast<float>(line), text);
  }
  HPDF_Page_EndText(page);
  HPDF_Page_SetLineWidth(page, 0.7F);
  HPDF_Page_MoveTo(page, 50.0F, 100.0F);
  for (int day = 1; day <= kDays; ++day)
    HPDF_Page_LineTo(page, 50.0F + 2.3F * static_cast<float>(day),
                     100.0F + static_cast<float>(day * 37 % 211));
  HPDF_Page_Stroke(page);
}

std::string saved(HPDF_Doc pdf) {
  HPDF_SaveToStream(pdf);
  HPDF_UINT32 size = HPDF_GetStreamSize(pdf);
  std::string bytes(size, '\0');
  HPDF_ResetStream(pdf);
  HPDF_ReadFromStream(pdf, reinterpret_cast<HPDF_BYTE*>(bytes.data()), &size);
  return bytes;
}

}  // namespace

int main(int argc, char** argv) {
  if (argc != 4) return std::fprintf(stderr, "usage: bare_pdf REGULAR.ttf BOLD.ttf OUT.pdf\n"), 2;
  HPDF_Doc pdf = HPDF_New(give_up, nullptr);
  if (pdf == nullptr) return 1;
  HPDF_UseUTFEncodings(pdf);
  HPDF_Font regular = face(pdf, argv[1]), bold = face(pdf, argv[2]);
  for (int page = 1; page <= kPages; ++page) fill(HPDF_AddPage(pdf), page, regular, bold);
  const std::string pages = saved(pdf);
  QPDF again;
  again.processMemoryFile("pages", pages.data(), pages.size());
  QPDFWriter writer(again, argv[3]);
  writer.setDeterministicID(true);
  writer.setObjectStreamMode(qpdf_o_generate);
  writer.setCompressStreams(true);
  writer.write();
  HPDF_Free(pdf);
  return 0;
}
