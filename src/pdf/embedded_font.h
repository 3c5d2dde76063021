// A face inside the file: the letters that pages use, their widths, and the map by which a reader
// finds and copies words.
#pragma once

#include <string>
#include <vector>

#define POINTERHOLDER_TRANSITION 4
#include <qpdf/QPDF.hh>
#include <qpdf/QPDFObjectHandle.hh>

#include "pdf/true_type.h"

namespace winterfolio {

/// The font object for text of two bytes a letter, each letter's own code (ISO 32000-1:2008, 9.7).
/// `name` is what the font calls itself: "Lato-Regular". `letters` rise and are at least one.
/// Throws PdfError if the font is damaged.
QPDFObjectHandle embedded_font(QPDF& pdf, const TrueTypeFont& font, const std::string& name,
                               const std::vector<unsigned>& letters);

}  // namespace winterfolio
