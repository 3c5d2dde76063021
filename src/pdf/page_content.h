// What stands on a page, as the operators of a PDF content stream (ISO 32000-1:2008, 8.4 to 9.4):
// the frames' text, lines and areas. The y axis is turned over here, once, and every number is
// finite and rounded to a hundredth of a point.
//
//   0 g BT /R 15 Tf 62.36 727 Td (...) Tj ET          text: two bytes a letter
//   0.6 w 62.36 720.5 m 308.83 720.5 l S                a line
#pragma once

#include <array>
#include <bitset>
#include <optional>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include "drawing/frame.h"

namespace winterfolio {

/// Letters used in each face, regular first.
using UsedLetters = std::array<std::bitset<0x10000>, 2>;

/// The names under which pages call the two faces.
constexpr const char* kRegularName = "/R";
constexpr const char* kBoldName = "/B";

class PageContent {
 public:
  /// `used` collects the letters drawn; it outlives the page.
  PageContent(Length paper_height, UsedLetters& used)
      : height_(hundredths(paper_height)), used_(&used) {}

  /// Throws std::logic_error for a place that is no number.
  void draw(const Frame& frame);
  std::string take() { return std::move(out_); }

 private:
  /// What the page was last told, so that it is told once.
  struct Pen {
    std::optional<Colour> fill, stroke;
    std::optional<long> line_width;
    Dash dash;
    LineCap cap = LineCap::butt;
    LineJoin join = LineJoin::mitre;
    std::optional<Face> face;
    long size = 0;
  };

  static long hundredths(Length length);
  long x(Length length) const { return hundredths(length); }
  long y(Length length) const { return height_ - hundredths(length); }

  void draw(const std::vector<Placed>& items, Point at);
  void draw(const TextRun& run, Point at);
  void draw(const DrawnPath& path, Point at);
  void draw(const Group& group, Point at);
  void trace(const Path& path, Point at);
  void set_ink(Colour colour, std::optional<Colour>& known, std::string_view grey,
               std::string_view rgb);
  void set_pen(const Stroke& stroke);
  void end_text();
  void number(long hundredths);  ///< and a blank
  void op(std::string_view name);

  std::string out_;
  long height_;
  UsedLetters* used_;
  Pen pen_;
  bool in_text_ = false;
  long text_x_ = 0, text_y_ = 0;  // where the last run began
};

}  // namespace winterfolio
