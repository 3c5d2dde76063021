// From blocks to slices: what each kind of block looks like at a given width. Page numbers and page
// ends are not known here.
#pragma once

#include <string>
#include <vector>

#include "layout/slice.h"

namespace winterfolio {

/// A line of the contents, and where it leads.
struct ContentsLine {
  RichText text;
  std::string anchor;
};

/// What blocks share while a document is set: the contents, and names for anchors.
struct Setting {
  const Tools& tools;
  const std::vector<ContentsLine>& contents;
  int next_heading = 0;  ///< numbers the anchors of headings, in document order
};

/// The anchor of the n-th heading of a document.
std::string heading_anchor(int number);

/// The slices of blocks one under another in `room`.
Slices set_blocks(const Blocks& blocks, Room room, Setting& setting);

/// Space above and below a block, as whole half lines; between two blocks the larger holds.
struct Spacing {
  double above = 1;  ///< half lines
  double below = 0;
};

}  // namespace winterfolio
