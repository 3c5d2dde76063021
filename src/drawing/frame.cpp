#include "drawing/frame.h"

#include <algorithm>
#include <iterator>

namespace winterfolio {

void Frame::place(Point at, Frame child) {
  items_.reserve(items_.size() + child.items_.size());
  for (Placed& placed : child.items_) {
    placed.at = placed.at + at;
    items_.push_back(std::move(placed));
  }
}

void Frame::stroke(Path path, Stroke stroke) {
  if (!path.empty()) add(DrawnPath{std::move(path), std::nullopt, stroke});
}

void Frame::fill(Path path, Colour colour) {
  if (!path.empty()) add(DrawnPath{std::move(path), colour, std::nullopt});
}

void Frame::line(Point from, Point to, Stroke stroke) { this->stroke(line_path(from, to), stroke); }

void Frame::fill_rect(Rect rect, Colour colour) { fill(rectangle_path(rect), colour); }

void Frame::stroke_rect(Rect rect, Stroke stroke) { this->stroke(rectangle_path(rect), stroke); }

Frame stack(Frame above, Frame below, Length gap) {
  const Length y = above.height() + gap;
  Frame both({std::max(above.width(), below.width()), y + below.height()}, above.baseline());
  both.place({}, std::move(above));
  both.place({{}, y}, std::move(below));
  return both;
}

Frame beside(Frame left, Frame right, Length gap) {
  const Length baseline = std::max(left.baseline(), right.baseline());
  const Length under = std::max(left.height() - left.baseline(), right.height() - right.baseline());
  const Length x = left.width() + gap;
  Frame both({x + right.width(), baseline + under}, baseline);
  const Length left_y = baseline - left.baseline(), right_y = baseline - right.baseline();
  both.place({{}, left_y}, std::move(left));
  both.place({x, right_y}, std::move(right));
  return both;
}

Frame overlay(Frame under, Frame over) {
  under.place({}, std::move(over));
  return under;
}

Group clipped(Frame frame, Path clip) { return {std::move(clip), std::move(frame.items())}; }

TextRun text_run(std::string text, const TextStyle& style, const FontMetrics& metrics) {
  const Length width = metrics.advance(style.face, style.size, text);
  return {style.face, style.size, style.colour, std::move(text), width};
}

Rect add_text(Frame& frame, Point at, Align align, std::string text, const TextStyle& style,
              const FontMetrics& metrics) {
  if (text.empty()) return {at, {}};
  TextRun run = text_run(std::move(text), style, metrics);
  const Length width = run.width;
  if (align == Align::centre) at.x -= width / 2.0;
  if (align == Align::right) at.x -= width;
  frame.add(at, std::move(run));
  const Length up = metrics.ascent(style.face, style.size),
               down = metrics.descent(style.face, style.size);
  return {{at.x, at.y - up}, {width, up + down}};
}

Frame text_line(std::string text, const TextStyle& style, const FontMetrics& metrics) {
  const Length up = metrics.ascent(style.face, style.size),
               down = metrics.descent(style.face, style.size);
  const Length baseline = (style.leading - up - down) / 2.0 + up;
  Frame line({{}, style.leading}, baseline);
  const Rect box = add_text(line, {{}, baseline}, Align::left, std::move(text), style, metrics);
  line.set_size({box.size.width, style.leading});
  return line;
}

}  // namespace winterfolio
