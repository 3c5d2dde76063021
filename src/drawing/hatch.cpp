#include "drawing/hatch.h"

#include <algorithm>
#include <cmath>

#include "drawing/style.h"

namespace winterfolio {

Path hatch_lines(Rect box, Length pitch) {
  Path path;
  if (pitch <= Length{} || box.size.width <= Length{} || box.size.height <= Length{}) return path;
  // A line rising to the right meets x + y = c. Counting c from the origin keeps neighbouring boxes
  // in step.
  const double step = pitch.pt() * std::sqrt(2.0);
  const double left = box.left().pt(), right = box.right().pt();
  const double top = box.top().pt(), bottom = box.bottom().pt();
  const double first = std::ceil((left + top) / step) * step;
  for (double c = first; c < right + bottom; c += step) {
    const double x0 = std::max(left, c - bottom), x1 = std::min(right, c - top);
    if (x1 - x0 < 0.05) continue;
    path.move_to(pt_at(x0, c - x0)).line_to(pt_at(x1, c - x1));
  }
  return path;
}

void hatch_rect(Frame& frame, Rect box, const Hatch& hatch) {
  frame.stroke(hatch_lines(box, hatch.pitch), hatch.stroke);
}

void hatch_shape(Frame& frame, const Path& shape, const Hatch& hatch) {
  Frame lines;
  hatch_rect(lines, shape.bounds(), hatch);
  if (!lines.empty()) frame.add(clipped(std::move(lines), shape));
}

void mark_box(Frame& frame, Rect box, MarkFill fill, Colour ink, const Style& style) {
  if (fill == MarkFill::solid) {
    frame.fill_rect(box, ink);
    return;
  }
  Stroke outline = style.outline(ink);
  if (fill == MarkFill::dotted) outline = style.unknown_outline;
  const Length inset = outline.width / 2.0;
  const Rect inner{{box.left() + inset, box.top() + inset},
                   {box.size.width - outline.width, box.size.height - outline.width}};
  if (fill == MarkFill::hatched) {
    Hatch hatch = style.small_hatch;
    hatch.stroke.colour = ink;
    hatch_rect(frame, inner, hatch);
  }
  frame.stroke_rect(inner, outline);
}

}  // namespace winterfolio
