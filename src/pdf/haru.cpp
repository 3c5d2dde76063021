#include "pdf/haru.h"

#include <fmt/format.h>

#include <cmath>
#include <stdexcept>
#include <utility>

#include "base/utf8.h"
#include "pdf/pdf_error.h"

namespace winterfolio {

namespace {

/// Hundredths of a point, 3.5 µm: finer than any printer, coarse enough to keep the file small and repeatable.
long hundredths(Length length) {
  const double value = length.pt() * 100.0;
  if (!std::isfinite(value)) throw std::logic_error("a place on the page is not a number");
  return std::lround(value);
}

HPDF_REAL real(long hundredths) { return static_cast<HPDF_REAL>(static_cast<double>(hundredths) / 100.0); }

HPDF_REAL part(std::uint8_t level) { return static_cast<HPDF_REAL>(level / 255.0); }

/// 16 bits are all the library's text can hold of a letter.
char32_t drawable(char32_t letter) { return letter < 0x10000 ? letter : char32_t{0xFFFD}; }

}  // namespace

HaruDocument::HaruDocument()
    : error_(std::make_unique<FirstError>()), doc_(HPDF_New(&HaruDocument::remember, error_.get())) {
  if (!doc_) throw PdfError("the PDF library cannot start", "close other programs: there is too little memory");
  HPDF_UseUTFEncodings(get());
  check("starting");
  // The second pass compresses better and once.
  HPDF_SetCompressionMode(get(), HPDF_COMP_NONE);
  check("starting");
}

void HaruDocument::remember(HPDF_STATUS code, HPDF_STATUS detail, void* where) {
  auto* first = static_cast<FirstError*>(where);
  if (first->code == 0) *first = {code, detail};
}

void HaruDocument::check(const char* doing) const {
  if (error_->code == 0) return;
  throw PdfError(fmt::format("the PDF library failed while {} (code 0x{:04x}, detail {})", doing, error_->code,
                             error_->detail));
}

HPDF_Font HaruDocument::load_font(const std::string& file) {
  const char* name = HPDF_LoadTTFontFromFile(get(), file.c_str(), HPDF_TRUE);
  check("loading a font");
  HPDF_Font font = HPDF_GetFont(get(), name, "UTF-8");
  check("preparing a font");
  return font;
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

HaruPage::HaruPage(HaruDocument& doc, Size paper, FontOf font_of, UsedLetters& used)
    : doc_(doc), page_(HPDF_AddPage(doc.get())), height_(paper.height), font_of_(std::move(font_of)), used_(used) {
  doc_.check("adding a page");
  HPDF_Page_SetWidth(page_, real(hundredths(paper.width)));
  HPDF_Page_SetHeight(page_, real(hundredths(paper.height)));
  doc_.check("sizing a page");
}

HPDF_REAL HaruPage::x(Length x) const { return real(hundredths(x)); }
HPDF_REAL HaruPage::y(Length y) const { return real(hundredths(height_) - hundredths(y)); }

void HaruPage::draw(const Frame& frame) { draw(frame.items(), {}); }

void HaruPage::finish() { end_text(); }

void HaruPage::draw(const std::vector<Placed>& items, Point at) {
  for (const Placed& placed : items) {
    const Point here = at + placed.at;
    if (const auto* run = std::get_if<TextRun>(&placed.item))
      draw(*run, here);
    else if (const auto* path = std::get_if<DrawnPath>(&placed.item))
      draw(*path, here);
    else if (const auto* group = std::get_if<Group>(&placed.item))
      draw(*group, here);
  }
}

void HaruPage::draw(const TextRun& run, Point at) {
  set_fill(run.colour);
  if (!in_text_) {
    HPDF_Page_BeginText(page_);
    in_text_ = true;
    text_x_ = text_y_ = 0;
  }
  if (pen_.face != run.face || pen_.size != run.size) {
    HPDF_Page_SetFontAndSize(page_, font_of_(run.face), real(hundredths(run.size)));
    pen_.face = run.face;
    pen_.size = run.size;
  }
  const long x = hundredths(at.x), y = hundredths(height_) - hundredths(at.y);
  HPDF_Page_MoveTextPos(page_, real(x - text_x_), real(y - text_y_));
  text_x_ = x;
  text_y_ = y;
  auto& used = used_[run.face == Face::bold ? 1 : 0];
  for (std::size_t i = 0; i < run.text.size();) used.set(drawable(next_letter(run.text, i)));
  HPDF_Page_ShowText(page_, run.text.c_str());
  doc_.check("writing text");
}

void HaruPage::end_text() {
  if (!in_text_) return;
  HPDF_Page_EndText(page_);
  doc_.check("ending text");
  in_text_ = false;
}

void HaruPage::trace(const Path& path, Point at) {
  std::size_t next = 0;
  const auto points = path.points();
  const auto px = [&](std::size_t i) { return x(at.x + points[i].x); };
  const auto py = [&](std::size_t i) { return y(at.y + points[i].y); };
  for (Path::Verb verb : path.verbs()) {
    switch (verb) {
      case Path::Verb::move: HPDF_Page_MoveTo(page_, px(next), py(next)); next += 1; break;
      case Path::Verb::line: HPDF_Page_LineTo(page_, px(next), py(next)); next += 1; break;
      case Path::Verb::curve:
        HPDF_Page_CurveTo(page_, px(next), py(next), px(next + 1), py(next + 1), px(next + 2), py(next + 2));
        next += 3;
        break;
      case Path::Verb::close: HPDF_Page_ClosePath(page_); break;
    }
    doc_.check("tracing a line");
  }
}

void HaruPage::draw(const DrawnPath& drawn, Point at) {
  if (drawn.path.empty() || (!drawn.fill && !drawn.stroke)) return;
  end_text();
  if (drawn.fill) set_fill(*drawn.fill);
  if (drawn.stroke) set_stroke(*drawn.stroke);
  trace(drawn.path, at);
  if (drawn.fill && drawn.stroke)
    HPDF_Page_FillStroke(page_);
  else if (drawn.fill)
    HPDF_Page_Fill(page_);
  else
    HPDF_Page_Stroke(page_);
  doc_.check("drawing a line");
}

void HaruPage::draw(const Group& group, Point at) {
  if (!group.clip) {
    draw(group.items, at);
    return;
  }
  end_text();
  const Pen before = pen_;
  HPDF_Page_GSave(page_);
  trace(*group.clip, at);
  HPDF_Page_Clip(page_);
  HPDF_Page_EndPath(page_);
  doc_.check("clipping");
  draw(group.items, at);
  end_text();
  HPDF_Page_GRestore(page_);
  doc_.check("ending a clip");
  pen_ = before;
}

void HaruPage::set_fill(Colour colour) {
  if (pen_.fill == colour) return;
  if (colour.red == colour.green && colour.green == colour.blue)
    HPDF_Page_SetGrayFill(page_, part(colour.red));
  else
    HPDF_Page_SetRGBFill(page_, part(colour.red), part(colour.green), part(colour.blue));
  doc_.check("choosing an ink");
  pen_.fill = colour;
}

void HaruPage::set_stroke(const Stroke& stroke) {
  const Colour c = stroke.colour;
  if (pen_.stroke != c) {
    if (c.red == c.green && c.green == c.blue)
      HPDF_Page_SetGrayStroke(page_, part(c.red));
    else
      HPDF_Page_SetRGBStroke(page_, part(c.red), part(c.green), part(c.blue));
    pen_.stroke = c;
  }
  if (!pen_.width_known || pen_.line_width != stroke.width) {
    HPDF_Page_SetLineWidth(page_, real(hundredths(stroke.width)));
    pen_.line_width = stroke.width;
    pen_.width_known = true;
  }
  if (pen_.dash != stroke.dash) {
    const HPDF_UINT16 pattern[2] = {stroke.dash.on, stroke.dash.off};
    HPDF_Page_SetDash(page_, pattern, stroke.dash.on == 0 ? 0 : 2, 0);
    pen_.dash = stroke.dash;
  }
  if (pen_.cap != stroke.cap) {
    HPDF_Page_SetLineCap(page_, stroke.cap == LineCap::butt    ? HPDF_BUTT_END
                                : stroke.cap == LineCap::round ? HPDF_ROUND_END
                                                               : HPDF_PROJECTING_SCUARE_END);
    pen_.cap = stroke.cap;
  }
  if (pen_.join != stroke.join) {
    HPDF_Page_SetLineJoin(page_, stroke.join == LineJoin::mitre   ? HPDF_MITER_JOIN
                                 : stroke.join == LineJoin::round ? HPDF_ROUND_JOIN
                                                                  : HPDF_BEVEL_JOIN);
    pen_.join = stroke.join;
  }
  doc_.check("choosing a pen");
}

}  // namespace winterfolio
