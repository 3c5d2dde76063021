// Laws that every page obeys whatever it says, checked on its finished frame:
//
//   text stands inside the page's text area, and inside the card it belongs to
//   texts keep 1.5 pt apart, whether side by side or one above the other
//   running text and headings stand on the baselines, every 6.5 pt; charts, cards and small type
//   have a rhythm of their own a page is at least three fifths full unless a section ends on it no
//   page ends with a heading, nothing is set smaller than 8 pt
//
// Each law answers with the places where it is broken, in words; an empty list means that it holds.
#pragma once

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "base/utf8.h"
#include "drawing/style.h"

namespace winterfolio::test {

using Breaches = std::vector<std::string>;

inline constexpr double kLeastTextGap = 1.5;   ///< [pt]
inline constexpr double kLeastFullness = 0.6;  ///< of a page's text area
inline constexpr double kPaperSlack = 0.05;    ///< of rounding [pt]

/// The ink of a text: from the top of its capitals to its baseline, or to the tails of letters that
/// have one. Lato’s capitals are 0.712 of its size high, its tails 0.19 deep.
struct Ink {
  double left = 0, right = 0, top = 0, bottom = 0;
  double baseline = 0;
  double size = 0;
  bool bold = false;
  Colour colour{};
  std::string text;
};

inline bool has_tails(std::string_view text) {
  return text.find_first_of("gjpqy,;Q()[]/") != std::string_view::npos;
}

inline bool is_blank(std::string_view text) {
  return text.find_first_not_of(' ') == std::string_view::npos;
}

inline void collect_inks(const std::vector<Placed>& items, Point at, std::vector<Ink>& out) {
  for (const Placed& placed : items) {
    const Point p = at + placed.at;
    if (const auto* run = std::get_if<TextRun>(&placed.item)) {
      const double size = run->size.pt();
      const double tail = has_tails(run->text) ? 0.19 : 0.02;
      out.push_back({p.x.pt(), (p.x + run->width).pt(), p.y.pt() - 0.712 * size,
                     p.y.pt() + tail * size, p.y.pt(), size, run->face == Face::bold, run->colour,
                     run->text});
    } else if (const auto* group = std::get_if<Group>(&placed.item)) {
      collect_inks(group->items, p, out);
    }
  }
}

inline std::vector<Ink> inks_of(const Frame& frame) {
  std::vector<Ink> inks;
  collect_inks(frame.items(), {}, inks);
  return inks;
}

inline std::string named(const Ink& ink) {
  return fmt::format("'{}' ({:g} pt at {:.1f}, {:.1f})", ink.text, ink.size, ink.left,
                     ink.baseline);
}

inline bool is_foot(const Ink& ink, const PageGeometry& page) {
  return std::fabs(ink.baseline - page.foot.pt()) < 1.0;
}

inline double text_area_top(const PageGeometry& page) {
  return (page.line * static_cast<double>(page.first_line - 1)).pt();
}
inline double text_area_bottom(const PageGeometry& page) {
  return (page.line * static_cast<double>(page.last_line)).pt();
}

inline Breaches text_outside_page(const Frame& frame, const PageGeometry& page) {
  const double left = page.left.pt() - kPaperSlack;
  const double right = (page.paper.width - page.right).pt() + kPaperSlack;
  // The first line that may carry ink is the running head's.
  const double top = (page.line * static_cast<double>(page.head_line - 1)).pt();
  Breaches breaches;
  for (const Ink& ink : inks_of(frame)) {
    const bool below = !is_foot(ink, page) && ink.baseline > text_area_bottom(page) + 0.5;
    if (ink.left < left || ink.right > right || ink.top < top || below)
      breaches.push_back(named(ink) + " is outside the text area");
  }
  return breaches;
}

/// Whether two texts are the neighbouring runs of one line, where the face or the colour
/// changes within it.
inline bool runs_of_one_line(const Ink& a, const Ink& b) {
  const bool one_line = std::fabs(a.baseline - b.baseline) < 0.01;
  const double gap = std::max(a.left, b.left) - std::min(a.right, b.right);
  return one_line && (a.bold != b.bold || a.colour != b.colour) && std::fabs(gap) < 0.05;
}

/// The small raised figure that leads from a word to its footnote, or opens the footnote. It
/// belongs to the word and stands close to it; it is the one thing set under 8 pt.
inline bool is_note_figure(const Ink& ink) {
  return ink.size < 7.0 && ink.size > 5.4 && !ink.bold &&
         ink.text.find_first_not_of("0123456789") == std::string::npos;
}

/// Texts nearer than 1.5 pt to each other in every direction.
inline Breaches texts_too_close(const Frame& frame) {
  std::vector<Ink> inks = inks_of(frame);
  std::erase_if(inks, [](const Ink& ink) { return is_blank(ink.text); });
  std::sort(inks.begin(), inks.end(), [](const Ink& a, const Ink& b) { return a.top < b.top; });
  Breaches breaches;
  for (std::size_t a = 0; a < inks.size(); ++a) {
    for (std::size_t b = a + 1;
         b < inks.size() && inks[b].top < inks[a].bottom + kLeastTextGap - 0.01; ++b) {
      const double gap =
          std::max(inks[a].left, inks[b].left) - std::min(inks[a].right, inks[b].right);
      const bool note_figure = is_note_figure(inks[a]) || is_note_figure(inks[b]);
      const double least = note_figure ? 0.5 : kLeastTextGap;
      if (gap >= least - 0.01 || runs_of_one_line(inks[a], inks[b])) continue;
      breaches.push_back(fmt::format("{} and {} are {:.2f} pt apart sideways, {:.2f} pt in height",
                                     named(inks[a]), named(inks[b]), gap,
                                     inks[b].top - inks[a].bottom));
    }
  }
  return breaches;
}

/// The cards that begin on a page: their anchors are named after their trees.
inline std::vector<Point> cards_on(const Frame& frame) {
  std::vector<Point> cards;
  for (const Placed& placed : frame.items()) {
    const auto* anchor = std::get_if<Anchor>(&placed.item);
    if (anchor && anchor->name.starts_with("tree-")) cards.push_back(placed.at);
  }
  return cards;
}

/// Where cards begin on a page; past the paper where it has none.
inline double first_card(const Frame& frame) {
  double y = 1e9;
  for (const Point& card : cards_on(frame)) y = std::min(y, card.y.pt());
  return y;
}

/// Where a title stands under the last cards; past the paper where nothing follows them.
inline double after_cards(const Frame& frame) {
  const std::vector<Point> cards = cards_on(frame);
  const double title = Style{}.chart_title.size.pt();
  constexpr double kHeadOfCard = 21.0;  // its name is as large as a title
  double end = 1e9;
  for (const Ink& ink : inks_of(frame)) {
    if (!ink.bold || ink.size != title || ink.baseline < first_card(frame)) continue;
    const bool name = std::any_of(cards.begin(), cards.end(), [&](const Point& card) {
      return ink.baseline > card.y.pt() && ink.baseline < card.y.pt() + kHeadOfCard;
    });
    if (!name) end = std::min(end, ink.baseline - title);
  }
  return end;
}

inline bool is_inside_cards(const Ink& ink, double first, double after) {
  return ink.baseline >= first && ink.baseline < after;
}

/// Text that begins in one column of cards and ends in the gutter or beyond.
inline Breaches text_outside_cards(const Frame& frame, const PageGeometry& page) {
  std::vector<double> columns;
  for (const Point& card : cards_on(frame)) columns.push_back(card.x.pt());
  std::sort(columns.begin(), columns.end());
  const double first = first_card(frame), after = after_cards(frame);
  Breaches breaches;
  for (const Ink& ink : inks_of(frame)) {
    if (!is_inside_cards(ink, first, after) || is_foot(ink, page)) continue;
    const auto next = std::upper_bound(columns.begin(), columns.end(), ink.left + kPaperSlack);
    if (next != columns.end() && ink.right > *next - page.gutter.pt() + kPaperSlack)
      breaches.push_back(named(ink) + " leaves its card");
  }
  return breaches;
}

/// Running text and headings between the half lines. Inside cards and in small type nothing is
/// asked.
inline Breaches text_off_the_grid(const Frame& frame, const PageGeometry& page,
                                  const Style& style) {
  const double half = page.half_line().pt();
  const double first = first_card(frame), after = after_cards(frame);
  Breaches breaches;
  for (const Ink& ink : inks_of(frame)) {
    const bool running = ink.size == style.body.size.pt();
    const bool heading = ink.bold && (ink.size == style.section.size.pt() ||
                                      ink.size == style.chart_title.size.pt());
    if (!(running || heading) || is_inside_cards(ink, first, after)) continue;
    const double lines = ink.baseline / half;
    if (std::fabs(lines - std::round(lines)) > 0.01)
      breaches.push_back(named(ink) + " stands between the baselines");
  }
  return breaches;
}

inline Breaches text_too_small(const Frame& frame, const Style& style) {
  Breaches breaches;
  for (const Ink& ink : inks_of(frame)) {
    if (ink.size < style.smallest.pt() - 0.001 && !is_note_figure(ink))
      breaches.push_back(named(ink) + " is too small");
  }
  return breaches;
}

/// The lowest ink of the page's text area, drawn or written.
inline double lowest_ink(const Frame& frame, const PageGeometry& page) {
  double lowest = 0.0;
  for (const Ink& ink : inks_of(frame)) {
    if (!is_foot(ink, page)) lowest = std::max(lowest, ink.bottom);
  }
  for (const Placed& placed : frame.items()) {
    if (const auto* path = std::get_if<DrawnPath>(&placed.item))
      lowest = std::max(lowest, (placed.at.y + path->path.bounds().bottom()).pt());
  }
  return lowest;
}

inline double fullness(const Frame& frame, const PageGeometry& page) {
  const double top = text_area_top(page);
  return (lowest_ink(frame, page) - top) / (text_area_bottom(page) - top);
}

/// Whether a page opens with the heading of a section.
inline bool opens_a_section(const Frame& frame, const PageGeometry& page) {
  return std::any_of(frame.items().begin(), frame.items().end(), [&](const Placed& placed) {
    const auto* anchor = std::get_if<Anchor>(&placed.item);
    return anchor && anchor->level == 0 && !anchor->title.empty() &&
           placed.at.y.pt() < text_area_top(page) + page.line.pt();
  });
}

/// Pages with a void although the section goes on overleaf.
inline Breaches pages_with_voids(const std::vector<Frame>& pages, const PageGeometry& page) {
  Breaches breaches;
  for (std::size_t i = 0; i + 1 < pages.size(); ++i) {
    if (opens_a_section(pages[i + 1], page)) continue;
    const double full = fullness(pages[i], page);
    if (full < kLeastFullness)
      breaches.push_back(fmt::format("page {} is {:.0f} % full", i + 1, full * 100));
  }
  return breaches;
}

/// The lowest line of text that is nothing but a heading.
inline Breaches heading_at_the_end(const Frame& frame, const PageGeometry& page,
                                   const Style& style) {
  std::vector<Ink> inks = inks_of(frame);
  std::erase_if(inks, [&](const Ink& ink) { return is_foot(ink, page) || is_blank(ink.text); });
  if (inks.empty()) return {};
  const double last = std::max_element(inks.begin(), inks.end(), [](const Ink& a, const Ink& b) {
                        return a.baseline < b.baseline;
                      })->baseline;
  if (lowest_ink(frame, page) > last + page.line.pt()) return {};  // a chart stands under it
  // A heading may have a note at the right end of its line; a small heading is told by standing
  // alone.
  bool large = false, only_small = true;
  for (const Ink& ink : inks) {
    if (std::fabs(ink.baseline - last) > 0.01) continue;
    large = large || (ink.bold && (ink.size == style.section.size.pt() ||
                                   ink.size == style.chart_title.size.pt()));
    only_small = only_small && ink.bold && ink.size == style.subheading.size.pt();
  }
  // A table's bold first cell ends in the table's rule, a small heading in nothing.
  const bool ruled_off = lowest_ink(frame, page) > last + 0.19 * style.subheading.size.pt() + 0.1;
  if (!large && (!only_small || ruled_off)) return {};
  return {fmt::format("a heading ends the page at {:.1f}", last)};
}

/// Everything that one page breaks by itself.
inline Breaches breaches_of_page(const Frame& frame, const PageGeometry& page, const Style& style) {
  Breaches all;
  const auto add = [&](Breaches more) {
    for (std::string& one : more) all.push_back(std::move(one));
  };
  add(text_outside_page(frame, page));
  add(text_outside_cards(frame, page));
  add(texts_too_close(frame));
  add(text_off_the_grid(frame, page, style));
  add(text_too_small(frame, style));
  add(heading_at_the_end(frame, page, style));
  return all;
}

}  // namespace winterfolio::test
