#include "layout/blocks.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <optional>
#include <set>
#include <tuple>
#include <utility>

#include "charts/charts.h"
#include "layout/cards.h"
#include "layout/lines.h"
#include "layout/table.h"

namespace winterfolio {

namespace {

/// The widest a line of running text may be, in sizes of its type: about 70 letters.
constexpr double kMeasureInEms = 35.0;

/// Columns beside each other that find no common place to break for so many lines are cut anyhow.
constexpr double kBandLines = 12.0;
/// Of small type alone, which runs in half lines of its own and soon finds one.
constexpr double kBandLinesOfSmall = 20.0;

TextStyle style_of(Role role, Room room, const Tools& tools) {
  const Style& style = tools.style;
  if (room.compact) return style.note;
  switch (role) {
    case Role::body:
    case Role::caution:
      return tools.outdoor ? style.outdoor : style.body;
    case Role::verdict:
      return style.verdict;
    case Role::lead:
      return style.lead;
    case Role::note:
      return style.note;
  }
  return style.body;
}

Length line_of(Room room, const Tools& tools) {
  if (room.compact) return tools.style.note.leading;
  return tools.page.line;
}

/// One column's slices with where each begins.
struct LaidColumn {
  Length x;
  Slices slices;
  std::vector<Length> tops;
  Length height;
};

class BlockSetter {
 public:
  BlockSetter(Room room, Setting& setting)
      : room_(room), setting_(setting), tools_(setting.tools) {}

  Slices set(const Blocks& blocks) {
    const Block* before = nullptr;
    for (std::size_t i = 0; i < blocks.size(); ++i) {
      const std::size_t first = slices_.size();
      held_above_ = held_above(air_between(before, blocks[i]));
      std::visit([&](const auto& content) { add(content); }, blocks[i].content);
      if (slices_.size() == first) continue;
      slices_[first].air = air_between(before, blocks[i]);
      if (break_pending_) {
        slices_[first].starts_page = true;
        break_pending_ = false;
      }
      for (std::size_t s = first; s < slices_.size(); ++s) {
        slices_[s].importance = blocks[i].importance;
        slices_[s].block = static_cast<int>(i);
      }
      before = &blocks[i];
    }
    return std::move(slices_);
  }

 private:
  /// What the headings just above ask of the page that the next block begins on: their height and
  /// the air under them; nothing where a page may end above it.
  Length held_above(Length air) const {
    Length held;
    for (std::size_t i = slices_.size(); i > 0 && !slices_[i - 1].may_break_after; --i) {
      const Slice& slice = slices_[i - 1];
      held += slice.frame.height() + air;
      air = slice.air;
      if (i == 1 || slices_[i - 2].may_break_after) held -= slice.top_trim;
    }
    return held;
  }

  // ---- air between blocks, in half lines

  static Spacing spacing_of(const Block& block) {
    struct Visitor {
      Spacing operator()(const TitleBlock&) const { return {0, 3}; }
      Spacing operator()(const Heading& h) const { return {h.level == 3 ? 2.0 : 3.0, 0}; }
      Spacing operator()(const Paragraph& p) const {
        if (p.role == Role::verdict) return {1, 3};
        if (p.role == Role::lead) return {1, 2};
        return {1, 1};
      }
      Spacing operator()(const List&) const { return {1, 1}; }
      Spacing operator()(const Table& t) const {
        return {t.title.empty() ? 2.0 : 3.0, t.footnotes.empty() ? 1.0 : 2.0};
      }
      Spacing operator()(const Figure& f) const { return {f.title.empty() ? 1.0 : 2.0, 2}; }
      Spacing operator()(const Cards&) const { return {1, 2}; }
      Spacing operator()(const BigFigures&) const { return {2, 2}; }
      Spacing operator()(const Columns&) const { return {2, 2}; }
      Spacing operator()(const KeepTogether&) const { return {1, 1}; }
      Spacing operator()(const Boxed&) const { return {2, 2}; }
      Spacing operator()(const WritingLines&) const { return {1, 2}; }
      Spacing operator()(const Contents&) const { return {1, 2}; }
      Spacing operator()(const PageBreak&) const { return {0, 0}; }
      Spacing operator()(const Rule&) const { return {1, 1}; }
    };
    if (const auto* keep = std::get_if<KeepTogether>(&block.content)) {
      if (keep->blocks.empty()) return {0, 0};
      return {spacing_of(keep->blocks.front()).above, spacing_of(keep->blocks.back()).below};
    }
    return std::visit(Visitor{}, block.content);
  }

  static const Block& last_of(const Block& block) {
    const auto* keep = std::get_if<KeepTogether>(&block.content);
    return keep && !keep->blocks.empty() ? last_of(keep->blocks.back()) : block;
  }
  static const Block& first_of(const Block& block) {
    const auto* keep = std::get_if<KeepTogether>(&block.content);
    return keep && !keep->blocks.empty() ? first_of(keep->blocks.front()) : block;
  }

  /// After a heading what it heads stands close; else the larger wish of the two holds.
  Length air_between(const Block* before, const Block& next) const {
    if (!before) return {};
    if (room_.compact) return compact_air(*before, next);
    const Length half = tools_.page.half_line();
    double wish = std::max(spacing_of(*before).below, spacing_of(next).above);
    if (const auto* heading = std::get_if<Heading>(&last_of(*before).content)) {
      const Block& first = first_of(next);
      const bool text = std::holds_alternative<Paragraph>(first.content) ||
                        std::holds_alternative<List>(first.content);
      const auto* figure = std::get_if<Figure>(&first.content);
      const bool titled =
          std::holds_alternative<Heading>(first.content) || (figure && !figure->title.empty());
      wish = heading->level == 1 ? (titled ? 2 : 1) : text ? 0 : 1;
    }
    return half * wish;
  }

  /// Inside cards things stand close; columns and tables have a little air about them.
  Length compact_air(const Block& before, const Block& next) const {
    const auto set_off = [](const Block& block) {
      return std::holds_alternative<Columns>(block.content) ||
             std::holds_alternative<Table>(block.content);
    };
    const bool chart_before = std::holds_alternative<Figure>(before.content);
    if (chart_before && std::holds_alternative<Figure>(next.content)) return Length::points(2);
    if (chart_before) return Length::points(0.5);  // a strip ends in its months
    if (set_off(next) && !std::holds_alternative<Heading>(before.content))
      return tools_.style.note.leading / 2.0;
    if (set_off(before)) return Length::points(2);
    // Sentences of their own stand a hair apart; what a heading names does not.
    const bool sentence = std::holds_alternative<Paragraph>(next.content) &&
                          !std::holds_alternative<Heading>(before.content);
    return sentence ? Length::points(2) : Length{};
  }

  // ---- kinds of blocks

  void add(const TitleBlock& title) {
    const Style& style = tools_.style;
    const Length line = tools_.page.line;
    const RichText over_right = tools_.words.rich(title.over_right);
    const Length right_width =
        std::min(room_.width / 2.0, natural_width(over_right, style.over_title, tools_));
    const Length left_room = room_.width - right_width - tools_.page.gutter;
    const RichText aside = tools_.words.rich(title.aside);
    const Length aside_width =
        std::min(room_.width * 0.4, natural_width(aside, style.unit_line, tools_));
    const Length title_room =
        aside.empty() ? room_.width : room_.width - aside_width - tools_.page.gutter;
    auto lines =
        break_lines(tools_.words.rich(title.title), style.title, title_room, Rag::balanced, tools_);
    const Length first = line * 3.0;
    const Length last =
        first + style.title.leading * static_cast<double>(lines.empty() ? 0 : lines.size() - 1);
    Slice slice;
    slice.frame = Frame({room_.width, half_lines_up(last, tools_)});
    draw_line(slice.frame, {{}, line}, Align::left,
              fit_line(tools_.words.rich(title.over_left), style.over_title, left_room, tools_));
    draw_line(slice.frame, {room_.width, line}, Align::right,
              fit_line(over_right, style.over_title, right_width, tools_));
    draw_lines(slice.frame, {}, first, style.title.leading, std::move(lines));
    draw_line(slice.frame, {room_.width, last}, Align::right,
              fit_line(aside, style.unit_line, aside_width, tools_));
    slice.may_break_after = false;
    slices_.push_back(std::move(slice));
  }

  void add(const Heading& heading) {
    const Style& style = tools_.style;
    const TextStyle text = room_.compact        ? style.note.bold()
                           : heading.level == 1 ? style.section
                           : heading.level == 2 ? style.chart_title
                                                : style.subheading;
    const Length line = line_of(room_, tools_);
    const Length first =
        room_.compact ? line : half_lines_up(text.leading - Length::points(0.01), tools_);
    const RichText words = tools_.words.rich(heading.text),
                   aside = tools_.words.rich(heading.aside);
    const TextStyle aside_style =
        heading.level == 1 ? style.body.in(style.secondary) : style.unit_line;
    const Length aside_width =
        std::min(room_.width * 0.4, natural_width(aside, aside_style, tools_));
    const Length measure =
        aside.empty() ? room_.width : room_.width - aside_width - tools_.page.gutter;
    auto lines = break_lines(words, text, measure, Rag::balanced, tools_);
    if (lines.empty()) return;
    const Length last = first + text.leading * static_cast<double>(lines.size() - 1);
    Slice slice;
    slice.frame = Frame({room_.width, room_.compact ? last : half_lines_up(last, tools_)});
    if (heading.level <= 2 && !room_.compact) {
      std::string title;
      for (const Span& span : words) title += drawable(span.text, Face::regular, tools_);
      slice.frame.add({{}, first - text.size},
                      Anchor{heading_anchor(setting_.next_heading++), title, heading.level - 1});
    }
    draw_lines(slice.frame, {}, first, text.leading, std::move(lines));
    draw_line(slice.frame, {room_.width, last}, Align::right,
              fit_line(aside, aside_style, aside_width, tools_));
    slice.top_trim = first - line;
    slice.may_break_after = false;
    slices_.push_back(std::move(slice));
  }

  void add(const Paragraph& paragraph) {
    const TextStyle style = style_of(paragraph.role, room_, tools_);
    const Length measure = std::min(room_.width, style.size * kMeasureInEms);
    const Rag rag = paragraph.role == Role::verdict || paragraph.role == Role::lead ? Rag::balanced
                                                                                    : Rag::ragged;
    add_lines(break_lines(tools_.words.rich(paragraph.text), style, measure, rag, tools_), style,
              Length{});
  }

  /// A slice a line; never one line alone at the foot or head of a page. Small type goes back to
  /// the grid where a run of it ends, so that within the run all gaps are alike.
  void add_lines(std::vector<SetLine> lines, const TextStyle& style, Length indent) {
    const std::size_t n = lines.size();
    const Length line = line_of(room_, tools_);
    const bool on_grid = room_.compact || nearly_equal(style.leading, line);
    const bool runs_on = !on_grid && small_run_end_ == slices_.size() && !slices_.empty();
    if (runs_on) slices_.back().back_to_grid = false;
    for (std::size_t i = 0; i < n; ++i) {
      Slice slice;
      Length height = style.leading;
      if (i == 0 && !on_grid && !runs_on)
        height = std::max(line, half_lines_up(style.leading - Length::points(0.01), tools_));
      if (i == 0) slice.top_trim = height - std::min(height, line);
      slice.frame = Frame({room_.width, height});
      slice.small = !on_grid;
      slice.back_to_grid = i + 1 == n && !on_grid;
      draw_line(slice.frame, {indent, height}, Align::left, std::move(lines[i]));
      slice.may_break_after = !(n > 1 && (i == 0 || i + 2 == n));
      slices_.push_back(std::move(slice));
    }
    if (!on_grid) small_run_end_ = slices_.size();
  }

  void add(const List& list) {
    const TextStyle style = style_of(list.role, room_, tools_);
    const bool outdoor_box = tools_.outdoor && list.marker == List::Marker::box && !room_.compact;
    const Length box = outdoor_box ? tools_.style.outdoor_box : tools_.style.indoor_box;
    Length indent = room_.compact ? Length::points(11) : Length::points(14);
    if (list.marker == List::Marker::box)
      indent = std::max(indent, box + Length::points(outdoor_box ? 6 : 4));
    if (list.items.size() > 9 && list.marker == List::Marker::number) indent += Length::points(5);
    const Length measure = std::min(room_.width, indent + style.size * kMeasureInEms) - indent;
    std::vector<std::vector<SetLine>> items;
    bool long_items = false;
    for (const Text& item : list.items) {
      items.push_back(break_lines(tools_.words.rich(item), style, measure, Rag::ragged, tools_));
      long_items = long_items || items.back().size() > 1;
    }
    bool first_item = true;
    for (std::size_t i = 0; i < items.size(); ++i) {
      if (items[i].empty()) continue;
      const std::size_t first = slices_.size();
      add_lines(std::move(items[i]), style, indent);
      Slice& slice = slices_[first];
      const Length baseline =
          std::min(slice.frame.height(), std::max(style.leading, line_of(room_, tools_)));
      add_marker(slice.frame, list.marker, i + 1, baseline, style, box, outdoor_box);
      if (!first_item && long_items && !room_.compact && !list.close)
        slice.air = slice.small ? style.leading * 0.5 : tools_.page.half_line();
      // Two items stay together at either end of the list.
      if (items.size() > 2 && (i == 0 || i + 2 == items.size())) slices_.back().break_cost = 8;
      first_item = false;
    }
  }

  void add_marker(Frame& frame, List::Marker marker, std::size_t number, Length baseline,
                  const TextStyle& style, Length box, bool outdoor) const {
    if (marker == List::Marker::dash) {
      const Length y = baseline - tools_.metrics.x_height(style.face, style.size) * 0.5;
      frame.line({{}, y}, {Length::points(room_.compact ? 4.5 : 6), y},
                 tools_.style.outline(style.colour));
    } else if (marker == List::Marker::number) {
      add_text(frame, {{}, baseline}, Align::left, fmt::format("{}", number), style.bold(),
               tools_.metrics);
    } else {
      const Length middle = baseline - tools_.metrics.cap_height(style.face, style.size) / 2.0;
      frame.stroke_rect({{tools_.style.rule.width / 2.0, middle - box / 2.0}, {box, box}},
                        outdoor ? tools_.style.tick_box : tools_.style.tick_box_indoors);
    }
  }

  void add(const Table& table) {
    for (Slice& slice : set_table(table, room_, tools_)) slices_.push_back(std::move(slice));
  }

  void add(const Figure& figure);

  void add(const Cards& cards) {
    for (Slice& slice : set_cards(cards, room_, setting_)) slices_.push_back(std::move(slice));
  }

  void add(const BigFigures& figures) {
    const std::size_t across = std::min<std::size_t>(4, figures.entries.size());
    if (across == 0) return;
    const Length gutter = tools_.page.gutter;
    const Length width =
        (room_.width - gutter * static_cast<double>(across - 1)) / static_cast<double>(across);
    for (std::size_t first = 0; first < figures.entries.size(); first += across) {
      const std::size_t last = std::min(figures.entries.size(), first + across);
      slices_.push_back(figures_row(figures, first, last, width, width + gutter));
      if (first > 0) slices_.back().air = tools_.page.line;
    }
  }

  Slice figures_row(const BigFigures& figures, std::size_t first, std::size_t last, Length width,
                    Length pitch) const {
    const Style& style = tools_.style;
    Slice slice;
    slice.frame = Frame({room_.width, Length{}});
    slice.frame.line({}, {room_.width, {}}, style.rule);
    // All figures of a row are of one size: the one at which the widest fits.
    TextStyle figure_style = style.big_figure;
    for (std::size_t i = first; i < last; ++i) {
      const Length natural =
          natural_width(tools_.words.rich(figures.entries[i].value), style.big_figure, tools_);
      if (natural > width)
        figure_style.size = std::max(
            style.smallest, std::min(figure_style.size, style.big_figure.size * (width / natural)));
    }
    std::size_t label_lines = 1;
    std::vector<std::vector<SetLine>> labels;
    for (std::size_t i = first; i < last; ++i) {
      labels.push_back(break_lines(tools_.words.rich(figures.entries[i].label), style.unit_line,
                                   width, Rag::balanced, tools_));
      label_lines = std::max(label_lines, labels.back().size());
    }
    const Length label =
        tools_.page.line + style.unit_line.leading * static_cast<double>(label_lines - 1);
    const Length value = label + Length::points(22), note = value + Length::points(15);
    Length bottom = value;
    for (std::size_t i = first; i < last; ++i) {
      const Length x = pitch * static_cast<double>(i - first);
      auto& lines = labels[i - first];
      const Length top = label - style.unit_line.leading *
                                     static_cast<double>(lines.empty() ? 0 : lines.size() - 1);
      draw_lines(slice.frame, x, top, style.unit_line.leading, std::move(lines));
      draw_line(slice.frame, {x, value}, Align::left,
                fit_line(tools_.words.rich(figures.entries[i].value), figure_style, width, tools_));
      auto notes = break_lines(tools_.words.rich(figures.entries[i].note), style.note, width,
                               Rag::ragged, tools_);
      if (!notes.empty())
        bottom = std::max(bottom,
                          draw_lines(slice.frame, x, note, style.note.leading, std::move(notes)));
    }
    slice.frame.set_size({room_.width, half_lines_up(bottom, tools_)});
    return slice;
  }

  void add(const Columns& columns);
  void place_slices(Slice& band, LaidColumn& column, std::size_t first, std::size_t last,
                    Length base) const;
  void add_long_band(std::vector<LaidColumn>& laid, std::vector<std::size_t>& done,
                     const std::vector<std::size_t>& to, Length start, Length air, bool all_small);

  void add(const KeepTogether& keep) {
    Slices inner = BlockSetter(room_, setting_).set(keep.blocks);
    for (std::size_t i = 0; i + 1 < inner.size(); ++i) inner[i].may_break_after = false;
    for (Slice& slice : inner) slices_.push_back(std::move(slice));
  }

  void add(const Boxed& boxed) {
    const Length padding = Length::points(9);
    const Room inside{room_.width - padding * 2.0, room_.compact};
    Frame inner = stacked(BlockSetter(inside, setting_).set(boxed.blocks), tools_);
    Slice slice;
    // A body line's own white above its capitals is as much as the half line under the last.
    const Length height = half_lines_up(inner.height(), tools_) + tools_.page.half_line();
    slice.frame = Frame({room_.width, height});
    const Length inset = tools_.style.rule.width / 2.0;
    slice.frame.stroke_rect({{inset, inset}, {room_.width - inset * 2.0, height - inset * 2.0}},
                            tools_.style.rule);
    slice.frame.place({padding, {}}, std::move(inner));
    slices_.push_back(std::move(slice));
  }

  void add(const WritingLines& writing) {
    const std::size_t across = writing.across < 1 ? 1 : static_cast<std::size_t>(writing.across);
    const TextStyle& style = tools_.outdoor ? tools_.style.outdoor : tools_.style.body;
    const Length gutter = tools_.page.gutter;
    const Length width =
        (room_.width - gutter * static_cast<double>(across - 1)) / static_cast<double>(across);
    const Length height = half_lines_up(tools_.style.writing_gap, tools_);
    for (std::size_t first = 0; first < writing.labels.size(); first += across) {
      Slice slice;
      slice.frame = Frame({room_.width, height});
      for (std::size_t i = first; i < std::min(writing.labels.size(), first + across); ++i) {
        const Length x = (width + gutter) * static_cast<double>(i - first);
        SetLine label = fit_line(tools_.words.rich(writing.labels[i]), style, width * 0.6, tools_);
        const Length start = x + label.width + (label.empty() ? Length{} : Length::points(6));
        draw_line(slice.frame, {x, height}, Align::left, std::move(label));
        slice.frame.line({start, height + Length::points(2)},
                         {x + width, height + Length::points(2)}, tools_.style.blank);
      }
      slices_.push_back(std::move(slice));
    }
  }

  void add(const Contents&) {
    const TextStyle& style = tools_.style.body;
    // The number stands first, close to its title: no leader dots, and no eye gone astray.
    const Length number_end = Length::points(17), indent = Length::points(26);
    const Length measure = std::min(room_.width, style.size * kMeasureInEms);
    for (const ContentsLine& entry : setting_.contents) {
      auto lines = break_lines(entry.text, style, measure - indent, Rag::balanced, tools_);
      Slice slice;
      const Length height =
          style.leading * static_cast<double>(std::max<std::size_t>(1, lines.size()));
      slice.frame = Frame({room_.width, height});
      slice.frame.add({number_end, style.leading},
                      page_reference(entry.anchor, style.in(tools_.style.secondary)));
      draw_lines(slice.frame, indent, style.leading, style.leading, std::move(lines));
      slice.frame.add({{}, Length::points(3)}, Link{{measure, height}, "#" + entry.anchor});
      slices_.push_back(std::move(slice));
    }
  }

  void add(const PageBreak&) { break_pending_ = true; }

  void add(const Rule&) {
    Slice slice;
    slice.frame = Frame({room_.width, tools_.page.half_line()});
    slice.frame.line({{}, tools_.page.half_line()}, {room_.width, tools_.page.half_line()},
                     tools_.style.rule);
    slices_.push_back(std::move(slice));
  }

  Room room_;
  Setting& setting_;
  const Tools& tools_;
  Slices slices_;
  bool break_pending_ = false;
  std::size_t small_run_end_ = 0;  ///< one past the last slice of small running text
  Length held_above_;              ///< of the block being added
};

// ---- figures

/// Lines of text that a figure of a wished height takes; 0 asks the chart.
double lines_of(FigureHeight height) {
  switch (height) {
    case FigureHeight::own:
      return 0;
    case FigureHeight::strip:
      return 4;
    case FigureHeight::quarter:
      return 11;
    case FigureHeight::third:
      return 15;
    case FigureHeight::half:
      return 22;
    case FigureHeight::page:
      return 44;
  }
  return 15;
}

/// A chart's own height, and the chart itself if it had to be drawn for that.
std::pair<Length, std::optional<Frame>> own_chart(const Chart& chart, Length width,
                                                  const Tools& tools) {
  if (takes_height(chart))
    return {chart_height(chart, width, tools.metrics, tools.style, tools.words), std::nullopt};
  Frame drawn = draw_chart(chart, {width, {}}, tools.metrics, tools.style, tools.words);
  const Length height = drawn.height();
  return {height, std::move(drawn)};
}

void BlockSetter::add(const Figure& figure) {
  if (!figure.chart) return;
  const Style& style = tools_.style;
  const Length line = line_of(room_, tools_);
  const TextStyle title_style = room_.compact ? style.note.bold() : style.chart_title;
  auto title =
      break_lines(tools_.words.rich(figure.title), title_style, room_.width, Rag::balanced, tools_);
  auto subtitle = break_lines(tools_.words.rich(figure.subtitle), style.unit_line, room_.width,
                              Rag::ragged, tools_);
  Slice slice;
  Frame frame;
  Length y;
  if (!title.empty()) y = draw_lines(frame, {}, line, line, std::move(title));
  if (!subtitle.empty())
    y = draw_lines(frame, {}, y + line, style.unit_line.leading, std::move(subtitle));
  if (y > Length{} && !room_.compact) y = half_lines_up(y + Length::points(4), tools_);

  const Length full =
      tools_.page.line * static_cast<double>(tools_.page.last_line - tools_.page.first_line + 1);
  Length height = tools_.page.line * lines_of(figure.height);
  std::optional<Frame> drawn;
  const bool own = figure.height == FigureHeight::own || room_.compact;
  if (own) {
    std::tie(height, drawn) = own_chart(*figure.chart, room_.width, tools_);
    if (!room_.compact) height = half_lines_up(height, tools_);
  }
  auto note = break_lines(tools_.words.rich(figure.note), style.note.in(style.secondary),
                          room_.width, Rag::ragged, tools_);
  const Length note_height =
      note.empty()
          ? Length{}
          : half_lines_up(line + style.note.leading * static_cast<double>(note.size() - 1), tools_);
  const Length most_room = full - y - note_height - std::min(held_above_, full / 2.0);

  // A chart of rows higher than a page goes on over several.
  std::vector<std::shared_ptr<const Chart>> parts = {figure.chart};
  while (own && !room_.compact) {
    const Length part_room = parts.size() == 1 ? most_room : full - line * 1.5;
    auto broken =
        break_chart(*parts.back(), {room_.width, part_room}, tools_.metrics, style, tools_.words);
    if (!broken) break;
    parts.back() = broken->first;
    parts.push_back(broken->second);
  }
  for (std::size_t i = 0; i < parts.size(); ++i) {
    if (i > 0) {
      slice = {};
      frame = {};
      y = line * 1.5;
      draw_line(frame, {{}, line}, Align::left,
                fit_line(tools_.words.rich(say("page.continued", {{"title", figure.title}})),
                         style.unit_line, room_.width, tools_));
    }
    if (parts.size() > 1) {
      std::tie(height, drawn) = own_chart(*parts[i], room_.width, tools_);
      height = half_lines_up(height, tools_);
    }
    const Length own_room = std::min(height, i == 0 ? most_room : full - y);
    ElasticChart elastic{parts[i], room_.width, own_room, own_room, std::move(drawn)};
    if (!own) {
      elastic.least = tools_.page.line * std::floor(own_room * 0.75 / tools_.page.line);
      elastic.most = std::max(
          own_room,
          std::min(most_room, tools_.page.line * std::floor(own_room * 1.2 / tools_.page.line)));
    }
    frame.set_size({room_.width, y + own_room});
    slice.frame = std::move(frame);
    slice.elastic = std::move(elastic);
    slice.elastic_top = y;
    slice.may_break_after = note.empty() || i + 1 < parts.size();
    slices_.push_back(std::move(slice));
  }
  if (note.empty()) return;
  Slice below;
  below.frame = Frame(
      {room_.width, room_.compact ? line + style.note.leading * static_cast<double>(note.size() - 1)
                                  : note_height});
  draw_lines(below.frame, {}, line, style.note.leading, std::move(note));
  slices_.push_back(std::move(below));
}

// ---- columns

/// Whether a page may end at `y` as far as one column goes: between two slices that may part, or
/// past its end.
bool may_end_at(const LaidColumn& column, Length y) {
  for (std::size_t i = 0; i < column.slices.size(); ++i) {
    const Length bottom = column.tops[i] + column.slices[i].frame.height();
    const bool last = i + 1 == column.slices.size();
    const Length free_until = last ? Length::points(1e9) : column.tops[i + 1];
    if (y + Length::points(0.01) < bottom) return i > 0 ? false : y <= column.tops[0];
    if (y <= free_until + Length::points(0.01)) return last || column.slices[i].may_break_after;
  }
  return true;
}

/// Where a column's slices from `first` to before `last` may be cut in `room` below `base`, as
/// counts: between two paragraphs; nowhere there, between two lines; else after the first.
std::vector<std::size_t> cuts_of(const LaidColumn& column, std::size_t first, std::size_t last,
                                 Length base, Length room) {
  std::vector<std::size_t> lines, paragraphs;
  std::size_t i = first;
  for (; i < last; ++i) {
    if (i > first && column.tops[i] + column.slices[i].frame.height() - base > room) break;
    if (i + 1 == last) return {last};
    if (!column.slices[i].may_break_after) continue;
    lines.push_back(i + 1);
    if (column.slices[i + 1].air > Length{}) paragraphs.push_back(i + 1);
  }
  if (!paragraphs.empty()) return paragraphs;
  return lines.empty() ? std::vector{i} : lines;
}

void BlockSetter::place_slices(Slice& band, LaidColumn& column, std::size_t first, std::size_t last,
                               Length base) const {
  Frame beside({band.frame.width(), band.frame.height()});
  Placing placing(beside);
  for (std::size_t i = first; i < last; ++i) {
    Slice& slice = column.slices[i];
    if (slice.elastic) draw_elastic(slice, slice.frame.height() - slice.elastic_top, tools_);
    placing.add({column.x, column.tops[i] - base}, slice);
  }
  placing.end();
  band.beside.push_back(std::move(beside));
}

/// How far down a column's cut lies.
Length depth_of(const LaidColumn& column, std::size_t cut, Length base) {
  return column.tops[cut - 1] + column.slices[cut - 1].frame.height() - base;
}

/// Cuts of all columns that lie closest to one height, in the lower half of the room; a column that
/// ends there follows none.
std::vector<std::size_t> even_cuts(const std::vector<LaidColumn>& laid,
                                   const std::vector<std::vector<std::size_t>>& cuts,
                                   const std::vector<std::size_t>& to,
                                   const std::vector<Length>& bases, Length room) {
  std::vector<std::size_t> best(laid.size(), 0);
  Length least_spread = Length::points(1e9);
  const auto goes_on = [&](std::size_t c) { return !cuts[c].empty() && cuts[c].back() < to[c]; };
  for (std::size_t c = 0; c < laid.size(); ++c)
    if (!cuts[c].empty()) best[c] = cuts[c].back();
  for (std::size_t leader = 0; leader < laid.size(); ++leader) {
    if (!goes_on(leader)) continue;
    for (const std::size_t cut : cuts[leader]) {
      const Length depth = depth_of(laid[leader], cut, bases[leader]);
      if (depth < room * 0.5) continue;
      Length spread;
      std::vector<std::size_t> chosen = best;
      for (std::size_t c = 0; c < laid.size(); ++c) {
        if (!goes_on(c)) continue;
        const auto apart = [&](std::size_t at) {
          const Length d = depth_of(laid[c], at, bases[c]) - depth;
          return std::max(d, d * -1.0);
        };
        chosen[c] = *std::min_element(cuts[c].begin(), cuts[c].end(),
                                      [&](auto a, auto b) { return apart(a) < apart(b); });
        spread = std::max(spread, apart(chosen[c]));
      }
      if (spread > least_spread) continue;
      least_spread = spread;
      best = chosen;
    }
  }
  return best;
}

/// Where a column ends, the others end with it if little of them is left.
void end_together(const std::vector<LaidColumn>& laid, const std::vector<std::size_t>& to,
                  const std::vector<Length>& bases, Length room, std::vector<std::size_t>& ends) {
  const auto over = [&](std::size_t c) { return ends[c] == 0 || ends[c] == to[c]; };
  bool any_over = false, little_left = true;
  for (std::size_t c = 0; c < laid.size(); ++c) {
    any_over = any_over || over(c);
    if (!over(c)) little_left = little_left && depth_of(laid[c], to[c], bases[c]) <= room * 1.6;
  }
  if (!any_over || !little_left) return;
  for (std::size_t c = 0; c < laid.size(); ++c)
    if (!over(c)) ends[c] = to[c];
}

/// Whether any slice of the columns stands in an earlier band.
bool any_of_it_placed(const std::vector<std::size_t>& done) {
  return std::any_of(done.begin(), done.end(), [](std::size_t count) { return count > 0; });
}

/// Columns that nowhere end a line together are cut each for itself, as near to one height as may
/// be, and go on from one height; small type alone keeps its own rhythm over the cut.
void BlockSetter::add_long_band(std::vector<LaidColumn>& laid, std::vector<std::size_t>& done,
                                const std::vector<std::size_t>& to, Length start, Length air,
                                bool all_small) {
  const Length room = tools_.page.line * kBandLines;
  for (bool first_band = true;; first_band = false) {
    Slice band;
    band.goes_on_beside = any_of_it_placed(done);
    Length height, between;
    bool any = false;
    std::vector<Length> bases(laid.size(), start);
    std::vector<std::vector<std::size_t>> cuts(laid.size());
    for (std::size_t c = 0; c < laid.size(); ++c) {
      if (done[c] >= to[c]) continue;
      any = true;
      if (!first_band) bases[c] = laid[c].tops[done[c]];
      between = std::max(between, laid[c].slices[done[c]].air);
      cuts[c] = cuts_of(laid[c], done[c], to[c], bases[c], room);
    }
    if (!any) return;
    std::vector<std::size_t> ends = even_cuts(laid, cuts, to, bases, room);
    end_together(laid, to, bases, room, ends);
    for (std::size_t c = 0; c < laid.size(); ++c)
      if (!cuts[c].empty()) height = std::max(height, depth_of(laid[c], ends[c], bases[c]));
    band.frame = Frame({room_.width, all_small ? height : half_lines_up(height, tools_)});
    band.air = first_band ? air : all_small ? between : half_lines_up(between, tools_);
    for (std::size_t c = 0; c < laid.size(); ++c) {
      if (cuts[c].empty()) ends[c] = done[c];
      place_slices(band, laid[c], done[c], ends[c], bases[c]);
      done[c] = ends[c];
    }
    band.back_to_grid = all_small && done == to;
    band.break_cost = 6;
    slices_.push_back(std::move(band));
  }
}

void BlockSetter::add(const Columns& columns) {
  const Length gutter = room_.compact ? tools_.page.gutter * 0.7 : tools_.page.gutter;
  const Length unit = (room_.width + gutter) / 12.0;
  std::vector<LaidColumn> laid;
  int before = 0;
  for (const Columns::Column& column : columns.columns) {
    const int span = std::clamp(column.span, 1, 12 - std::min(before, 11));
    LaidColumn next{};
    next.x = unit * before;
    next.slices = BlockSetter({unit * span - gutter, room_.compact}, setting_).set(column.blocks);
    for (std::size_t i = 0; i < next.slices.size(); ++i) {
      if (i > 0) next.height += next.slices[i].air;
      next.tops.push_back(next.height);
      next.height = bottom_of(next.slices[i], next.height, tools_);
    }
    laid.push_back(std::move(next));
    before += span;
  }
  const bool all_small = std::all_of(laid.begin(), laid.end(), [](const LaidColumn& column) {
    return std::all_of(column.slices.begin(), column.slices.end(),
                       [](const Slice& slice) { return slice.small; });
  });
  std::set<Length> ends;
  for (const LaidColumn& column : laid) {
    for (std::size_t i = 0; i < column.slices.size(); ++i) {
      const Length end = bottom_of(column.slices[i], column.tops[i], tools_);
      const bool last = i + 1 == column.slices.size();
      // Ends within small type are left out where what stands beside them would leave the grid.
      const bool within_small = !last && column.slices[i].small && column.slices[i + 1].small;
      const bool on_grid = nearly_equal(end, half_lines_up(end, tools_));
      if ((on_grid && !within_small) || all_small || room_.compact || last) ends.insert(end);
    }
  }
  // Bands between the places where every column may break.
  Length top;
  const Length longest = tools_.page.line * (all_small ? kBandLinesOfSmall : kBandLines);
  std::vector<std::size_t> done(laid.size(), 0);
  for (Length end : ends) {
    const bool last = end == *ends.rbegin();
    const bool everywhere = last || std::all_of(laid.begin(), laid.end(), [&](const LaidColumn& c) {
                              return may_end_at(c, end);
                            });
    if (!everywhere) continue;
    // The band begins at its highest slice; what is above it is air, dropped at the top of a page.
    Length start = end;
    for (std::size_t c = 0; c < laid.size(); ++c)
      if (done[c] < laid[c].slices.size()) start = std::min(start, laid[c].tops[done[c]]);
    // Small type may begin off the grid; what stands beside it must not.
    if (!room_.compact && !all_small) start = half_lines_down(start, tools_);
    std::vector<std::size_t> to = done;
    for (std::size_t c = 0; c < laid.size(); ++c) {
      while (to[c] < laid[c].slices.size() && laid[c].tops[to[c]] < end - Length::points(0.01))
        ++to[c];
    }
    if (!room_.compact && end - start > longest) {
      add_long_band(laid, done, to, start, start - top, all_small);
    } else {
      Slice band;
      band.goes_on_beside = any_of_it_placed(done);
      band.air = start - top;
      band.frame = Frame({room_.width, end - start});
      band.back_to_grid = all_small && last;  // small type keeps its own rhythm until then
      for (std::size_t c = 0; c < laid.size(); ++c)
        place_slices(band, laid[c], done[c], to[c], start);
      done = to;
      slices_.push_back(std::move(band));
    }
    slices_.back().break_cost = last ? 0 : 6;
    top = end;
  }
}

}  // namespace

std::string heading_anchor(int number) { return fmt::format("heading-{}", number); }

Slices set_blocks(const Blocks& blocks, Room room, Setting& setting) {
  return BlockSetter(room, setting).set(blocks);
}

}  // namespace winterfolio
