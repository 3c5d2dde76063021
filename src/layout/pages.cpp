#include "layout/pages.h"

#include <algorithm>
#include <cmath>
#include <limits>

namespace winterfolio {

namespace {

constexpr double kForbidden = 1e7;  // breaking where no break should be; only if nothing else holds
constexpr double kPage = 40.0;      // a page more
constexpr double kNearlyEmpty = 25;  // a last page of a few lines
constexpr double kVoid = 100.0;      // a whole page left empty, growing with the square
constexpr double kGaping = 600.0;    // each part of a page left empty beyond two fifths
constexpr double kChanged = 6.0;     // figures shrunk or grown as far as they go

Length air_of(const Slice& slice, bool tight, const Tools& tools) {
  if (!tight) return slice.air;
  // Half the air, in whole half lines, but never none where there was some.
  const Length half = tools.page.half_line();
  const double lines = std::ceil(slice.air / half / 2.0 - 0.26);
  return std::min(slice.air, half * std::max(slice.air > Length{} ? 1.0 : 0.0, lines));
}

/// Where a slice ends on its page if what is above it ends at `y`.
Length end_on_page(const Slice& slice, Length y, bool begins_page, bool tight, const Tools& tools) {
  if (!begins_page) return bottom_of(slice, y + air_of(slice, tight, tools), tools);
  const Length head = slice.repeated_head ? slice.repeated_head->height() : Length{};
  return bottom_of(slice, head - slice.top_trim, tools);
}

/// How far the figures of a page can change, in whole lines.
struct Give {
  Length shrink, grow;
  void add(const Slice& slice) {
    if (!slice.elastic) return;
    const Length own = slice.frame.height() - slice.elastic_top;
    shrink += own - slice.elastic->least;
    grow += slice.elastic->most - own;
  }
};

double page_cost(Length used, const Give& give, Length room, bool ends_run) {
  const double void_left = (room - used) / room;
  if (void_left < -1e-9) {
    const double part = (used - room) / give.shrink;
    return kPage + kChanged * part * part;
  }
  if (ends_run) return kPage + (used / room < 0.12 ? kNearlyEmpty : 0.0);
  const double filled = std::min(void_left, give.grow / room);
  const double rest = void_left - filled;
  double cost = kPage + kVoid * rest * rest;
  if (give.grow > Length{}) cost += kChanged * 0.5 * (filled * room.pt() / give.grow.pt());
  if (rest > 0.4) cost += kGaping * (rest - 0.4) + 100;
  return cost;
}

}  // namespace

std::vector<PagePlan> plan_pages(const Slices& slices, Length room, bool tight,
                                 const Tools& tools) {
  const std::size_t n = slices.size();
  std::vector<double> cost(n + 1, std::numeric_limits<double>::infinity());
  std::vector<std::size_t> next(n + 1, n);
  std::vector<Length> left(n + 1);
  cost[n] = 0;
  for (std::size_t first = n; first-- > 0;) {
    Length used;
    Give give;
    for (std::size_t i = first; i < n; ++i) {
      if (i > first && slices[i].starts_page) break;
      used = end_on_page(slices[i], used, i == first, tight, tools);
      give.add(slices[i]);
      const bool holds = used <= room + give.shrink + Length::points(0.01);
      if (!holds && i > first) break;
      const bool ends_run = i + 1 == n || slices[i + 1].starts_page;
      double here = holds ? page_cost(used, give, room, ends_run) : kForbidden;
      if (!ends_run) here += slices[i].may_break_after ? slices[i].break_cost : kForbidden;
      if (here + cost[i + 1] < cost[first]) {
        cost[first] = here + cost[i + 1];
        next[first] = i + 1;
        left[first] = room - used;
      }
      if (!holds) break;
    }
  }
  std::vector<PagePlan> pages;
  for (std::size_t first = 0; first < n; first = next[first])
    pages.push_back({first, next[first], left[first]});
  return pages;
}

namespace {

/// Shares a page's change of height out to its figures, by what each can give, in whole lines.
void share_out(Slices& slices, const PagePlan& plan, bool ends_run, const Tools& tools) {
  const Length line = tools.page.line;
  Give all;
  for (std::size_t i = plan.first; i < plan.last; ++i) all.add(slices[i]);
  Length change = plan.void_left;
  if (change > Length{} && ends_run) change = Length{};  // the last page keeps its white
  double lines_left = change < Length{} ? -std::ceil(-change / line - 1e-6)
                                        : std::floor(std::min(change, all.grow) / line + 1e-6);
  Length can = change < Length{} ? all.shrink : all.grow;
  for (std::size_t i = plan.first; i < plan.last; ++i) {
    Slice& slice = slices[i];
    if (!slice.elastic) continue;
    const Length own = slice.frame.height() - slice.elastic_top;
    const Length mine = change < Length{} ? own - slice.elastic->least : slice.elastic->most - own;
    double lines = can > Length{} ? std::round(lines_left * (mine / can)) : 0.0;
    const double most = std::floor(mine / line + 1e-6);
    lines = std::clamp(lines, -most, most);
    can -= mine;
    lines_left -= lines;
    const Length height = own + line * lines;
    slice.frame.set_size({slice.frame.width(), slice.elastic_top + height});
    draw_elastic(slice, height, tools);
  }
}

/// What the air above each slice that allows it may grow by, so that a page of cards is filled;
/// whole half lines, two lines at most.
Length air_to_add(const Slices& slices, const PagePlan& plan, bool ends_run, const Tools& tools) {
  if (ends_run || plan.void_left <= Length{}) return {};
  double places = 0;
  for (std::size_t i = plan.first; i < plan.last; ++i) {
    if (slices[i].elastic) return {};
    if (i > plan.first && slices[i].air_may_grow) ++places;
  }
  if (places == 0) return {};
  const Length half = tools.page.half_line();
  return half * std::min(4.0, std::floor(plan.void_left / places / half + 1e-6));
}

}  // namespace

Frame compose_page(Slices& slices, const PagePlan& plan, Point origin, bool tight,
                   const Tools& tools) {
  const bool ends_run = plan.last == slices.size() || slices[plan.last].starts_page;
  share_out(slices, plan, ends_run, tools);
  const Length more_air = air_to_add(slices, plan, ends_run, tools);
  Frame page(tools.page.paper);
  Length y;  // from the top of the text area
  Placing placing(page);
  for (std::size_t i = plan.first; i < plan.last; ++i) {
    Slice& slice = slices[i];
    if (i > plan.first) {
      y += air_of(slice, tight, tools) + (slice.air_may_grow ? more_air : Length{});
    } else {
      y -= slice.top_trim;
      if (slice.repeated_head) {
        Frame head = *slice.repeated_head;
        page.place({origin.x, origin.y + y}, std::move(head));
        y += slice.repeated_head->height();
      }
    }
    const Length bottom = bottom_of(slice, y, tools);
    placing.add({origin.x, origin.y + y}, slice);
    y = bottom;
  }
  placing.end();
  return page;
}

}  // namespace winterfolio
