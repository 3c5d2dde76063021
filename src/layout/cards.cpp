#include "layout/cards.h"

#include <algorithm>

#include "charts/charts.h"
#include "layout/lines.h"
#include "layout/marks.h"

namespace winterfolio {

namespace {

/// Baselines of a card's head, counted from its rule, and its thumbnail.
struct Anatomy {
  Length name = Length::points(16);
  Length detail = Length::points(27.5);
  Length verdict = Length::points(40.5);
  Length after_head = Length::points(3);
  Size thumbnail{Length::points(46), Length::points(29)};
  Length thumbnail_top = Length::points(3.5);
  Length id_room = Length::points(32);  ///< at least; from the left edge to the name
  Length id_gap = Length::points(8);
  Length detail_lead = Length::points(10.5);
};

class CardSetter {
 public:
  CardSetter(const Cards& cards, Room room, Setting& setting)
      : cards_(cards), room_(room), setting_(setting), tools_(setting.tools) {
    across_ = static_cast<std::size_t>(std::clamp(cards.across, 1, 4));
    const Length gutter = tools_.page.gutter;
    width_ = (room.width + gutter) / static_cast<double>(across_) - gutter;
    for (const Card& card : cards.cards) {
      const Length id = natural_width(tools_.words.rich(card.id), tools_.style.card_id, tools_);
      anatomy_.id_room = std::max(anatomy_.id_room, std::min(id + anatomy_.id_gap, width_ * 0.4));
    }
  }

  Slices set() {
    std::vector<Frame> frames;
    const Length page =
        tools_.page.line * static_cast<double>(tools_.page.last_line - tools_.page.first_line + 1);
    for (const Card& card : cards_.cards) {
      Frame head = head_of(card);
      Slices body = set_blocks(card.body, {width_, true}, setting_);
      const Length height = head.height() + stacked_height(body, tools_);
      if (height > page) {
        // Nothing could print it in one piece; it goes on like any other text.
        add_rows(frames);
        frames.clear();
        add_loose(std::move(head), std::move(body));
        continue;
      }
      const Length head_height = head.height();
      head.set_size({width_, half_lines_up(height, tools_)});
      head.place({{}, head_height}, stacked(std::move(body), tools_));
      frames.push_back(std::move(head));
    }
    add_rows(frames);
    return std::move(slices_);
  }

 private:
  Frame head_of(const Card& card) const {
    const Style& style = tools_.style;
    Frame frame({width_, Length{}});
    frame.line({}, {width_, {}}, style.rule);
    std::string bookmark = tools_.words.plain(card.bookmark);
    if (!card.anchor.empty())
      frame.add({}, Anchor{card.anchor, drawable(std::move(bookmark), Face::regular, tools_), 1});
    const Length thumbnail =
        card.thumbnail ? anatomy_.thumbnail.width + Length::points(6) : Length{};
    const Length name_room = width_ - anatomy_.id_room - thumbnail;
    draw_line(frame, {{}, anatomy_.name}, Align::left,
              fit_line(tools_.words.rich(card.id), style.card_id,
                       anatomy_.id_room - anatomy_.id_gap, tools_));
    draw_line(frame, {anatomy_.id_room, anatomy_.name}, Align::left,
              fit_line(tools_.words.rich(card.name), style.card_name, name_room, tools_));
    Length y = draw_lines(frame, {}, anatomy_.detail, anatomy_.detail_lead,
                          break_lines(tools_.words.rich(card.detail), style.unit_line,
                                      width_ - thumbnail, Rag::ragged, tools_));
    if (card.thumbnail)
      frame.place(
          {width_ - anatomy_.thumbnail.width, anatomy_.thumbnail_top},
          draw_chart(*card.thumbnail, anatomy_.thumbnail, tools_.metrics, style, tools_.words));
    y = add_verdict(frame, card, y + (anatomy_.verdict - anatomy_.detail));
    frame.set_size({width_, y + anatomy_.after_head});
    return frame;
  }

  Length add_verdict(Frame& frame, const Card& card, Length baseline) const {
    const RichText words = tools_.words.rich(card.verdict);
    if (words.empty()) return baseline - (anatomy_.verdict - anatomy_.detail);
    const Style& style = tools_.style;
    Length x;
    if (card.mark) {
      const Length side = style.verdict_square;
      mark_box(frame, {{{}, baseline - side + Length::points(0.4)}, {side, side}},
               fill_of(*card.mark), style.violet, style);
      x = side + Length::points(4.4);
    }
    return draw_lines(frame, x, baseline, style.note.leading,
                      break_lines(words, style.body, width_ - x, Rag::ragged, tools_));
  }

  /// Rows of cards, each row as high as its highest: a long card costs its own row only.
  void add_rows(std::vector<Frame>& frames) {
    for (std::size_t first = 0; first < frames.size(); first += across_) {
      const std::size_t end = std::min(frames.size(), first + across_);
      Length height;
      for (std::size_t i = first; i < end; ++i) height = std::max(height, frames[i].height());
      Slice slice;
      slice.frame = Frame({room_.width, height});
      for (std::size_t i = first; i < end; ++i)
        slice.frame.place({(width_ + tools_.page.gutter) * static_cast<double>(i - first), {}},
                          std::move(frames[i]));
      if (!slices_.empty()) slice.air = tools_.page.half_line();
      slice.air_may_grow = true;
      slices_.push_back(std::move(slice));
    }
  }

  void add_loose(Frame head, Slices body) {
    Slice slice;
    head.set_size({room_.width, head.height()});
    slice.frame = std::move(head);
    if (!slices_.empty()) slice.air = tools_.page.line;
    slice.may_break_after = false;
    slices_.push_back(std::move(slice));
    for (Slice& part : body) slices_.push_back(std::move(part));
    slices_.back().back_to_grid = true;
  }

  const Cards& cards_;
  Room room_;
  Setting& setting_;
  const Tools& tools_;
  Anatomy anatomy_;
  std::size_t across_ = 2;
  Length width_;
  Slices slices_;
};

}  // namespace

Slices set_cards(const Cards& cards, Room room, Setting& setting) {
  return CardSetter(cards, room, setting).set();
}

}  // namespace winterfolio
