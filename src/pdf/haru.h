// The drawing library behind one thin wall: every call is followed by a look at the error it left, every number is
// finite and rounded to a hundredth of a point, and its y axis is turned over here, once.
#pragma once

#include <hpdf.h>

#include <array>
#include <bitset>
#include <functional>
#include <memory>
#include <optional>
#include <string>
#include <vector>

#include "drawing/frame.h"

namespace winterfolio {

/// Letters used in each face, for the text maps of the second pass.
using UsedLetters = std::array<std::bitset<0x10000>, 2>;

/// A library document and the first error it met.
class HaruDocument {
 public:
  HaruDocument();
  HaruDocument(const HaruDocument&) = delete;
  HaruDocument& operator=(const HaruDocument&) = delete;

  HPDF_Doc get() const { return doc_.get(); }
  /// Throws PdfError if a call has failed since the document was made; `doing` says what was tried.
  void check(const char* doing) const;
  /// Loads a face and gives it for UTF-8 text.
  HPDF_Font load_font(const std::string& file);
  /// The finished file, before the second pass.
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

/// Draws frames on one page.
class HaruPage {
 public:
  /// `fonts`: the two faces, loaded when first asked for.
  using FontOf = std::function<HPDF_Font(Face)>;
  HaruPage(HaruDocument& doc, Size paper, FontOf font_of, UsedLetters& used);

  HPDF_Page get() const { return page_; }
  void draw(const Frame& frame);
  /// Ends what is open; nothing may be drawn after it.
  void finish();
  /// In the library's coordinates.
  HPDF_REAL x(Length x) const;
  HPDF_REAL y(Length y) const;

 private:
  /// What the page was last told, so that it is told once.
  struct Pen {
    std::optional<Colour> fill, stroke;
    Length line_width;
    Dash dash;
    LineCap cap = LineCap::butt;
    LineJoin join = LineJoin::mitre;
    bool width_known = false;
    std::optional<Face> face;
    Length size;
  };

  void draw(const std::vector<Placed>& items, Point at);
  void draw(const TextRun& run, Point at);
  void draw(const DrawnPath& path, Point at);
  void draw(const Group& group, Point at);
  void trace(const Path& path, Point at);
  void set_fill(Colour colour);
  void set_stroke(const Stroke& stroke);
  void end_text();

  HaruDocument& doc_;
  HPDF_Page page_;
  Length height_;
  FontOf font_of_;
  UsedLetters& used_;
  Pen pen_;
  bool in_text_ = false;
  long text_x_ = 0, text_y_ = 0;  // hundredths of a point, where the last run began
};

}  // namespace winterfolio
