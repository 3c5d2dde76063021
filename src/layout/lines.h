// Breaking words into lines: ragged at the right, as even as the words allow, never more lines than
// needed, no last line of one short word where another break can avoid it.
//
// Lines break at blanks, after a hyphen between letters, and after a slash between longer words. A
// word wider than the measure is cut where it must be. Of all ways to fill the fewest lines, the
// one whose line ends lie closest together is taken (a shortest path through the possible breaks).
#pragma once

#include <vector>

#include "document/words.h"
#include "layout/tools.h"

namespace winterfolio {

/// One line, as runs of one face each, from left to right without gaps.
struct SetLine {
  std::vector<TextRun> runs;
  Length width;
  bool empty() const { return runs.empty(); }
};

/// Ragged fills lines and leaves the last short; balanced makes all of one length, for headings and
/// short sentences.
enum class Rag { ragged, balanced };

/// The lines of a text within `measure`. Bold spans take the bold face of `style`. Empty text gives
/// no line.
std::vector<SetLine> break_lines(const RichText& text, const TextStyle& style, Length measure,
                                 Rag rag, const Tools& tools);

/// One line only, set smaller to fit, at most down to the smallest size; then cut, with an
/// ellipsis.
SetLine fit_line(const RichText& text, const TextStyle& style, Length measure, const Tools& tools);

/// Width of a text on one line, and of its widest part that cannot be broken.
Length natural_width(const RichText& text, const TextStyle& style, const Tools& tools);
Length widest_word(const RichText& text, const TextStyle& style, const Tools& tools);

/// Draws a line with its baseline at `at.y`; `at.x` is its left end, middle or right end.
void draw_line(Frame& frame, Point at, Align align, SetLine line);

/// A paragraph's lines as drawn one under another: the first baseline at `first_baseline`, then
/// every `leading`. Returns the last baseline.
Length draw_lines(Frame& frame, Length x, Length first_baseline, Length leading,
                  std::vector<SetLine> lines);

}  // namespace winterfolio
