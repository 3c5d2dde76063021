// What a font file says, held against the PDF library's own reading of it.
#include <hpdf.h>

#include <fstream>

#include "base/utf8.h"
#include "pdf/pdf_document.h"
#include "pdf/pdf_error.h"
#include "support/catch.h"
#include "support/files.h"

using namespace winterfolio;

namespace {

/// Letters that pages may hold: Latin with its supplements, Greek, Cyrillic, and the signs of the
/// house.
std::u32string promised() {
  std::u32string letters = U"–—‘’“”•…−×°½⅓≤≥→· ";
  for (char32_t c = 0x21; c < 0x7F; ++c) letters += c;
  for (char32_t c = 0xA1; c < 0x180; ++c) letters += c;
  for (char32_t c = 0x391; c < 0x3CA; ++c) letters += c;
  for (char32_t c = 0x410; c < 0x450; ++c) letters += c;
  return letters;
}

}  // namespace

TEST_CASE("Widths are those that the PDF library writes into the file") {
  const FontFiles files = lato_fonts();
  const PdfDocument pdf(files);
  HPDF_Doc doc = HPDF_New(nullptr, nullptr);
  HPDF_UseUTFEncodings(doc);
  for (Face face : {Face::regular, Face::bold}) {
    const std::string& file = face == Face::bold ? files.bold : files.regular;
    HPDF_Font font =
        HPDF_GetFont(doc, HPDF_LoadTTFontFromFile(doc, file.c_str(), HPDF_TRUE), "UTF-8");
    REQUIRE(font != nullptr);
    for (char32_t letter : promised()) {
      INFO(file << " U+" << std::hex << static_cast<unsigned>(letter));
      std::string text;
      append_letter(text, letter);
      const auto bytes = reinterpret_cast<const HPDF_BYTE*>(text.data());
      const HPDF_TextWidth width =
          HPDF_Font_TextWidth(font, bytes, static_cast<HPDF_UINT>(text.size()));
      CHECK(pdf.font(face).advance(letter) == static_cast<int>(width.width));
      CHECK(pdf.advance(face, Length::points(1000), text).pt() == Approx(width.width));
    }
    CHECK(pdf.font(face).ascent() == HPDF_Font_GetAscent(font));
    CHECK(-pdf.font(face).descent() == HPDF_Font_GetDescent(font));
    CHECK(pdf.font(face).x_height() == static_cast<int>(HPDF_Font_GetXHeight(font)));
    CHECK(pdf.font(face).cap_height() == static_cast<int>(HPDF_Font_GetCapHeight(font)));
  }
  HPDF_Free(doc);
}

TEST_CASE("Both faces have the letters and signs that pages use, and figures of one width") {
  const PdfDocument pdf(lato_fonts());
  for (Face face : {Face::regular, Face::bold}) {
    for (char32_t letter : std::u32string(U"Aaéßżółćělο°–—−’½≤≥→·…×\u00a0\u2009◊")) {
      INFO(static_cast<unsigned>(letter));
      CHECK(pdf.covers(face, letter));
    }
    CHECK(!pdf.covers(face, U'☃'));
    CHECK(!pdf.covers(face, U'😀'));
    for (char32_t digit = U'0'; digit <= U'9'; ++digit)
      CHECK(pdf.font(face).advance(digit) == pdf.font(face).advance(U'0'));
  }
}

// Printed by the program as print.no-pdf.
TEST_CASE("A missing font is one clear message with its remedy") {
  try {
    const PdfDocument pdf(lato_fonts("/nowhere"));
    FAIL("nothing was thrown");
  } catch (const PdfError& e) {
    CHECK(std::string(e.what()) == "the font file /nowhere/Lato-Regular.ttf cannot be read");
    CHECK(e.mend() == "install the package fonts-lato");
  }
}

TEST_CASE("A damaged font is refused, wherever it is cut") {
  const std::string whole = test::read_file(lato_fonts().regular);
  for (std::size_t kept :
       {std::size_t{0}, std::size_t{3}, std::size_t{100}, std::size_t{5000}, whole.size() / 2}) {
    INFO(kept);
    CHECK_THROWS_AS(TrueTypeFont(whole.substr(0, kept), "cut.ttf"), PdfError);
  }
}
