// Hatching: 45° lines in a box or any shape, ours to draw because the PDF library has no patterns.
#pragma once

#include "drawing/frame.h"

namespace winterfolio {

struct Hatch {
  Length pitch;  ///< from line to line, across the lines
  Stroke stroke;
};

/// The lines of a hatched box, ended at its edges, as one path. Lines rise to the right and
/// are counted from the origin, so that neighbouring boxes stay in step.
Path hatch_lines(Rect box, Length pitch);

/// Draws a hatched box: lines cut at the edges, no clipping needed.
void hatch_rect(Frame& frame, Rect box, const Hatch& hatch);

/// Draws hatching seen only inside `shape` (given in the frame's coordinates).
void hatch_shape(Frame& frame, const Path& shape, const Hatch& hatch);

/// How a small mark is filled, so that a state reads on a grey photocopy too.
enum class MarkFill { solid, hatched, outlined, dotted };

struct Style;

/// Draws a box in one of the four fills: solid; hatched with an outline; outlined; a dotted black
/// outline. `ink` colours the first three. Outlines lie inside the box, so that all four are
/// equally large.
void mark_box(Frame& frame, Rect box, MarkFill fill, Colour ink, const Style& style);

}  // namespace winterfolio
