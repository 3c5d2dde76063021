// A slice: the smallest piece of a page that is never broken; a line of a paragraph, a row of a
// table, a card. Blocks become slices at their width; the page breaker then chooses where pages end
// between them.
//
//   text stands at the bottom of its slice:      |  air: dropped at the top of a page
//                                                |--------------------------------- top of the
//                                                slice
//        Sixteen of the 34 trees that rest       |_________________________________ bottom, and
//        baseline
//
// so that heights add up to baselines: 13 pt a line of body text, everything else whole half lines.
#pragma once

#include <memory>
#include <optional>
#include <string>
#include <vector>

#include "document/block.h"
#include "drawing/frame.h"
#include "layout/tools.h"

namespace winterfolio {

/// A figure's chart, drawn once its page is known: it may shrink to fit or grow to fill.
struct ElasticChart {
  std::shared_ptr<const Chart> chart;
  Length width;
  Length least, most;          ///< of its height; whole lines apart from the slice's own
  std::optional<Frame> drawn;  ///< of a chart that has one height only and was drawn to know it
};

struct Slice {
  Frame frame;
  std::vector<Frame> beside;    ///< columns beside each other, each as wide and high as the frame
  bool goes_on_beside = false;  ///< of columns: with those of the slice before
  Length air;                   ///< above, unless it begins a page
  bool air_may_grow = false;    ///< to fill a page that others follow: rows of cards
  Length top_trim;  ///< what the first line's own height exceeds a body line's by: off, when it
                    ///< begins a page
  bool may_break_after = true;
  double break_cost = 0.0;  ///< of ending a page after this slice
  bool starts_page = false;
  bool small = false;         ///< a line of small running text, which leaves the grid
  bool back_to_grid = false;  ///< what follows begins on a whole half line: small type ends here
  Importance importance = Importance::useful;
  int block = 0;  ///< the section's block it comes from, counted from 0
  std::optional<ElasticChart>
      elastic;         ///< drawn below the frame's own items; the frame's height counts it
  Length elastic_top;  ///< where the chart begins in the frame
  std::shared_ptr<const Frame>
      repeated_head;  ///< set above the slice if it begins a page: a table's head
};

using Slices = std::vector<Slice>;

/// Where a slice that begins at `top` ends, both counted from the top of the text area.
Length bottom_of(const Slice& slice, Length top, const Tools& tools);

/// Places slices in a frame, one under another, so that columns beside each other are read one
/// after the other however many slices they run through.
class Placing {
 public:
  explicit Placing(Frame& into) : into_(into) {}
  void add(Point at, Slice& slice);
  void end() { place_columns(); }  ///< after the last slice

 private:
  struct Beside {
    Point at;
    std::vector<Frame> columns;
  };
  void place_columns();
  Frame& into_;
  std::vector<Beside> waiting_;
};

/// Slices one under another as a single frame, nothing broken; charts at their own height.
Frame stacked(Slices slices, const Tools& tools);
Length stacked_height(const Slices& slices, const Tools& tools);

/// Draws an elastic chart into its slice, `height` high instead of its own.
void draw_elastic(Slice& slice, Length height, const Tools& tools);

/// Rounds up, or down, to whole half lines.
Length half_lines_up(Length length, const Tools& tools);
Length half_lines_down(Length length, const Tools& tools);

/// Marks a text in a frame that stands for the page number of an anchor; resolved when all pages
/// are known. The number is set with its right end where the mark stands.
TextRun page_reference(const std::string& anchor, const TextStyle& style);

}  // namespace winterfolio
