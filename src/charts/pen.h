// What every chart draws with: letters, the look and the words; and the few things done with words
// that need measuring.
#pragma once

#include <string>
#include <vector>

#include "document/state.h"
#include "document/words.h"
#include "drawing/frame.h"
#include "drawing/style.h"

namespace winterfolio {

/// Refers to its three parts, which outlive it.
struct Pen {
  const FontMetrics& metrics;
  const Style& style;
  const Words& words;

  std::string say(const Text& text) const {
    return text.empty() ? std::string() : words.plain(text);
  }
  double width(const std::string& text, const TextStyle& look) const;
  /// Words with their baseline at (x, y) [pt]; returns their box.
  Rect write(Frame& frame, double x, double y, Align align, const std::string& text,
             const TextStyle& look) const;
  /// Cut with an ellipsis so that it is at most `room` wide.
  std::string shortened(const std::string& text, double room, const TextStyle& look) const;
  /// Broken at blanks into lines at most `room` wide; a longer word stands alone.
  std::vector<std::string> wrapped(const std::string& text, double room,
                                   const TextStyle& look) const;
  /// The box a line of words would fill with its baseline at (x, y), its left end at x.
  Rect box(double x, double y, const std::string& text, const TextStyle& look) const;
  /// From the baseline up to the top of capitals [pt].
  double cap(const TextStyle& look) const { return metrics.cap_height(look.face, look.size).pt(); }
};

/// The square of a state: solid, hatched, outlined or dotted.
void state_mark(Frame& frame, Rect box, MarkState state, const Style& style);

/// The last line of a chart: what found no place. Empty for none.
std::vector<std::string> left_out_lines(const std::vector<std::string>& names, double room,
                                        const Pen& pen);

}  // namespace winterfolio
