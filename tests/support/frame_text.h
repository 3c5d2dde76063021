// Frames as text, one item a line, so that a difference says what moved; and the words of a frame
// with their boxes.
//
//   text 12.0 40.5 regular-8.5 000000 left "November"
//   fill 2b266e 10.0 20.0 30.0 40.0 (5 points)      ink, then the box around the path: left, top,
//   right, bottom line 000000 0.5 10.0 20.0 90.0 20.0 (2 points)  ink, width, the box line ... dash
//   4 2 group                                            items inside, indented; "clip" if only a
//   part is seen
#pragma once

#include <fmt/format.h>

#include <string>
#include <vector>

#include "drawing/frame.h"

namespace winterfolio::test {

inline std::string ink_text(Colour c) {
  return fmt::format("{:02x}{:02x}{:02x}", c.red, c.green, c.blue);
}

/// One decimal and no "-0.0".
inline std::string length_text(Length length) {
  const std::string text = fmt::format("{:.1f}", length.pt());
  return text == "-0.0" ? "0.0" : text;
}

inline std::string box_text(Rect box, Point by) {
  return fmt::format("{} {} {} {}", length_text(box.left() + by.x), length_text(box.top() + by.y),
                     length_text(box.right() + by.x), length_text(box.bottom() + by.y));
}

inline void append_items(std::string& out, const std::vector<Placed>& items, Point by, int depth) {
  const std::string indent(static_cast<std::size_t>(depth) * 2, ' ');
  for (const Placed& placed : items) {
    const Point at = placed.at + by;
    if (const auto* run = std::get_if<TextRun>(&placed.item)) {
      out += fmt::format("{}text {} {} {}-{:g} {} \"{}\"\n", indent, length_text(at.x),
                         length_text(at.y), run->face == Face::bold ? "bold" : "regular",
                         run->size.pt(), ink_text(run->colour), run->text);
    } else if (const auto* path = std::get_if<DrawnPath>(&placed.item)) {
      const std::string box = box_text(path->path.bounds(), at);
      const std::size_t points = path->path.points().size();
      if (path->fill)
        out +=
            fmt::format("{}fill {} {} ({} points)\n", indent, ink_text(*path->fill), box, points);
      if (path->stroke) {
        out += fmt::format("{}line {} {:g} {} ({} points)", indent, ink_text(path->stroke->colour),
                           path->stroke->width.pt(), box, points);
        if (path->stroke->dash.on > 0)
          out += fmt::format(" dash {} {}", path->stroke->dash.on, path->stroke->dash.off);
        out += '\n';
      }
    } else if (const auto* group = std::get_if<Group>(&placed.item)) {
      out += fmt::format("{}group{}\n", indent,
                         group->clip ? " clip " + box_text(group->clip->bounds(), at) : "");
      append_items(out, group->items, at, depth + 1);
    } else if (const auto* link = std::get_if<Link>(&placed.item)) {
      out += fmt::format("{}link {} {}\n", indent, box_text({{}, link->size}, at), link->target);
    } else if (const auto* anchor = std::get_if<Anchor>(&placed.item)) {
      out += fmt::format("{}anchor {} {} {} \"{}\"\n", indent, length_text(at.y), anchor->name,
                         anchor->level, anchor->title);
    }
  }
}

inline std::string frame_text(const Frame& frame) {
  std::string out = fmt::format("frame {} {} baseline {}\n", length_text(frame.width()),
                                length_text(frame.height()), length_text(frame.baseline()));
  append_items(out, frame.items(), {}, 0);
  return out;
}

/// A run of words and the box its letters fill.
struct WordBox {
  std::string text;
  Rect box;
  Length baseline;
};

inline void append_words(std::vector<WordBox>& out, const std::vector<Placed>& items, Point by,
                         const FontMetrics& metrics) {
  for (const Placed& placed : items) {
    const Point at = placed.at + by;
    if (const auto* run = std::get_if<TextRun>(&placed.item)) {
      // From the top of capitals to the baseline: what the eye sees as the word's body.
      const Length up = metrics.cap_height(run->face, run->size);
      out.push_back({run->text, {{at.x, at.y - up}, {run->width, up}}, at.y});
    } else if (const auto* group = std::get_if<Group>(&placed.item)) {
      append_words(out, group->items, at, metrics);
    }
  }
}

inline std::vector<WordBox> words_of(const Frame& frame, const FontMetrics& metrics) {
  std::vector<WordBox> out;
  append_words(out, frame.items(), {}, metrics);
  return out;
}

}  // namespace winterfolio::test
