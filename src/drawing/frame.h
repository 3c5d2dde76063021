// A frame: a box with a size, a baseline and things placed in it. Whole pages, table cells and
// charts are all frames; they are put together by placing one in another, and only pdf/ turns them
// into ink.
//
//   +--------------------------+ (0, 0), y grows downward
//   |  Chill portions          |
//   |__42–45___________________| baseline: where the frame's text line stands, for setting frames
//   beside each other |                          |
//   +--------------------------+ (width, height)
//
// Text stands with its baseline at the point it is placed at; everything else has its own origin
// there.
#pragma once

#include <memory>
#include <optional>
#include <string>
#include <string_view>
#include <variant>
#include <vector>

#include "drawing/font_metrics.h"
#include "drawing/geometry.h"
#include "drawing/path.h"

namespace winterfolio {

/// Letters of one face, size and ink on one baseline. Placed by the left end of its baseline.
struct TextRun {
  Face face = Face::regular;
  Length size;
  Colour colour{};
  std::string text;  ///< UTF-8, never empty, no line breaks
  Length width;      ///< its advance, as measured when it was made
};

/// A place that jumps lead to; with a title it is a bookmark too, shown in the reader's outline.
struct Anchor {
  std::string name;   ///< unique in a document
  std::string title;  ///< empty: no bookmark
  int level = 0;      ///< 0 for the outermost bookmarks
};

/// A box that leads to a page's anchor ("#name") or to an address on the web ("https://...").
struct Link {
  Size size;
  std::string target;
};

struct Placed;

/// Items drawn together, seen only inside `clip` if there is one.
struct Group {
  std::optional<Path> clip;
  std::vector<Placed> items;
};

using Item = std::variant<TextRun, DrawnPath, Group, Link, Anchor>;

struct Placed {
  Point at;
  Item item;
};

/// A frame owns all its items. Cheap to move; copy only what must be drawn twice.
class Frame {
 public:
  Frame() = default;
  explicit Frame(Size size) : size_(size), baseline_(size.height) {}
  Frame(Size size, Length baseline) : size_(size), baseline_(baseline) {}

  Size size() const { return size_; }
  Length width() const { return size_.width; }
  Length height() const { return size_.height; }
  Length baseline() const { return baseline_; }
  void set_size(Size size) { size_ = size; }
  void set_baseline(Length baseline) { baseline_ = baseline; }
  const std::vector<Placed>& items() const { return items_; }
  std::vector<Placed>& items() { return items_; }
  bool empty() const { return items_.empty(); }

  void add(Point at, Item item) { items_.push_back({at, std::move(item)}); }
  void add(Item item) { items_.push_back({Point{}, std::move(item)}); }
  /// Puts another frame's items here, moved by `at`. The size stays.
  void place(Point at, Frame child);

  /// Shorthands for what is drawn most.
  void stroke(Path path, Stroke stroke);
  void fill(Path path, Colour colour);
  void line(Point from, Point to, Stroke stroke);
  void fill_rect(Rect rect, Colour colour);
  void stroke_rect(Rect rect, Stroke stroke);

 private:
  Size size_;
  Length baseline_;
  std::vector<Placed> items_;
};

/// `below` under `above`, left edges and baseline of `above` kept.
Frame stack(Frame above, Frame below, Length gap = {});
/// `right` beside `left`, standing on one baseline.
Frame beside(Frame left, Frame right, Length gap = {});
/// `over` drawn on `under`, origins together; the size is `under`'s.
Frame overlay(Frame under, Frame over);
/// The items of a frame seen through `clip` only.
Group clipped(Frame frame, Path clip);

/// How text looks: which face, how large, how far its lines stand apart, in what ink.
struct TextStyle {
  Face face = Face::regular;
  Length size;
  Length leading;
  Colour colour{};
  TextStyle bold() const {
    TextStyle s = *this;
    s.face = Face::bold;
    return s;
  }
  TextStyle regular() const {
    TextStyle s = *this;
    s.face = Face::regular;
    return s;
  }
  TextStyle in(Colour ink) const {
    TextStyle s = *this;
    s.colour = ink;
    return s;
  }
};

enum class Align { left, centre, right };

/// A measured run of text. Requires: text not empty.
TextRun text_run(std::string text, const TextStyle& style, const FontMetrics& metrics);

/// Adds one line of text to a frame with its baseline at `at.y`; `at.x` is its left end, middle or
/// right end. Nothing happens for empty text. Returns the box the letters fill: ascent to descent,
/// advance wide.
Rect add_text(Frame& frame, Point at, Align align, std::string text, const TextStyle& style,
              const FontMetrics& metrics);

/// One line of text as a frame as wide as the text and one leading high, its baseline where a line
/// of `leading` has it.
Frame text_line(std::string text, const TextStyle& style, const FontMetrics& metrics);

}  // namespace winterfolio
