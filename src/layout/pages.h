// Where pages end: of all ways to break a run of slices into pages, the one that leaves least void,
// pulls no table or list apart by a row, and ends with no page of a line or two. Figures may give
// or take a few lines to make it fit.
//
// A page's cost is what its void costs; of the last page, only whether it holds too little to be
// worth a sheet. The cheapest way through all slices is found from the end backwards (a shortest
// path), so a void on page 3 is weighed against one on page 4.
#pragma once

#include <vector>

#include "layout/slice.h"

namespace winterfolio {

/// The slices of one page: first to last (not included), and by how much its figures change
/// together.
struct PagePlan {
  std::size_t first = 0;
  std::size_t last = 0;
  Length void_left;  ///< before figures grow or shrink; negative if they must shrink
};

/// Breaks a run of slices that begins on a new page. `tight` halves the air between blocks.
/// Every page holds at least one slice; one that is higher than a page alone is left as it is.
std::vector<PagePlan> plan_pages(const Slices& slices, Length room, bool tight, const Tools& tools);

/// Puts the slices of a plan on a page-sized frame, its text area's top left at `origin`.
Frame compose_page(Slices& slices, const PagePlan& plan, Point origin, bool tight,
                   const Tools& tools);

}  // namespace winterfolio
