#include "layout/table.h"

#include <fmt/format.h>

#include <algorithm>
#include <map>

#include "layout/lines.h"
#include "layout/marks.h"

namespace winterfolio {

namespace {

/// Columns further apart than this (with the plain gap added) no longer read as one row.
constexpr Length kWidestGap = Length::points(44);

/// The upper rule stands a little nearer to what is under it than to what is over it.
constexpr Length kRuleDrop = Length::points(1.5);

/// The measures of one table.
struct Look {
  TextStyle text;
  TextStyle head;
  Length line;  ///< from row to row
  Length half;
  Length gap;        ///< between columns, at least
  Length mark_room;  ///< a state's square and the gap after it
};

struct ColumnPlan {
  Length x;
  Length width;
  Length tail;  ///< numbers: widest part from the decimal mark on
};

struct CellText {
  RichText text;
  std::optional<MarkState> mark;
  std::string note;  ///< the footnote's figure
};

class TableSetter {
 public:
  TableSetter(const Table& table, Room room, const Tools& tools)
      : table_(table), room_(room), tools_(tools), look_(look_of(table, room, tools)) {}

  Slices set() {
    read_cells();
    plan_columns();
    const bool has_head =
        std::any_of(head_.begin(), head_.end(), [](const RichText& t) { return !t.empty(); });
    Frame head = head_frame(has_head);
    if (!table_.title.empty()) add_title();
    auto repeated = std::make_shared<Frame>(repeated_head(head));
    Slice head_slice;
    head_slice.frame = std::move(head);
    head_slice.may_break_after = false;
    slices_.push_back(std::move(head_slice));
    add_rows(repeated);
    close();
    add_footnotes();
    return std::move(slices_);
  }

 private:
  static Look look_of(const Table& table, Room room, const Tools& tools) {
    const Style& style = tools.style;
    const bool dense = table.air == Table::Air::dense || room.compact;
    Look look;
    look.text = tools.outdoor && !dense ? style.outdoor : dense ? style.note : style.body;
    look.head = style.unit_line;
    look.line = tools.outdoor && !dense ? style.outdoor.leading
                : dense                 ? style.note.leading
                                        : tools.page.line;
    look.half = look.line / 2.0;
    look.gap = room.compact ? tools.page.gutter * 0.7 : tools.page.gutter;
    look.mark_room = style.label_square + Length::points(4);
    return look;
  }

  TextStyle style_of(std::size_t column, bool total) const {
    TextStyle style = look_.text;
    if (table_.columns[column].bold || total) style.face = Face::bold;
    if (table_.columns[column].quiet) style.colour = tools_.style.secondary;
    return style;
  }

  void read_cells() {
    for (const TableColumn& column : table_.columns)
      head_.push_back(tools_.words.rich(column.head));
    std::map<std::string, std::string> figures;
    for (std::size_t i = 0; i < table_.footnotes.size(); ++i)
      figures[table_.footnotes[i].first] = fmt::format("{}", i + 1);
    const RichText not_known = tools_.words.rich(say("page.not-known"));
    for (const TableGroup& group : table_.groups) {
      for (const TableRow& row : group.rows) {
        std::vector<CellText> cells(table_.columns.size());
        for (std::size_t c = 0; c < cells.size(); ++c) {
          if (c >= row.cells.size()) continue;
          const TableCell& cell = row.cells[c];
          cells[c] = {cell.text.empty() ? not_known : tools_.words.rich(cell.text), cell.mark,
                      figures[cell.note]};
        }
        rows_.push_back(std::move(cells));
      }
    }
  }

  static std::string plain(const RichText& text) {
    std::string all;
    for (const Span& span : text) all += span.text;
    return all;
  }

  /// The part of a number from its decimal mark on; empty if it has none.
  std::string tail_of(const RichText& text) const {
    const std::string all = plain(text);
    const std::string& mark = tools_.words.entries().at("numbers.decimal");
    const std::size_t at = all.rfind(mark);
    const bool digits = at != std::string::npos && at > 0 && at + mark.size() < all.size() &&
                        is_digit(all[at - 1]) && is_digit(all[at + mark.size()]);
    return digits ? all.substr(at) : std::string();
  }
  static bool is_digit(char c) { return c >= '0' && c <= '9'; }

  Length measure(const std::string& text, const TextStyle& style) const {
    return text.empty() ? Length{} : tools_.metrics.advance(style.face, style.size, text);
  }

  Length extra_of(const CellText& cell) const { return cell.mark ? look_.mark_room : Length{}; }

  /// Widths that content asks for: natural, least, and the decimals' part.
  struct Wish {
    Length natural, least, tail, note;
  };

  Wish wish_of(std::size_t c) const {
    Wish wish;
    const bool numbers = table_.columns[c].kind == ColumnKind::numbers;
    Length before_point;
    std::size_t index = 0;
    for (const TableGroup& group : table_.groups) {
      for (const TableRow& row : group.rows) {
        const CellText& cell = rows_[index++][c];
        const TextStyle style = style_of(c, row.total);
        const Length width = natural_width(cell.text, style, tools_) + extra_of(cell);
        if (!cell.note.empty()) wish.note = std::max(wish.note, note_width(cell.note));
        if (numbers) {
          const Length tail = measure(tail_of(cell.text), style);
          wish.tail = std::max(wish.tail, tail);
          before_point = std::max(before_point, width - tail);
        } else {
          wish.natural = std::max(wish.natural, width);
          wish.least = std::max(wish.least, widest_word(cell.text, style, tools_) + extra_of(cell));
        }
      }
    }
    if (numbers) wish.natural = wish.least = before_point + wish.tail;
    wish.natural += wish.note;
    wish.least += wish.note;
    wish.natural = std::max(wish.natural, natural_head(c));
    wish.least = std::max(wish.least, widest_word(head_[c], look_.head, tools_));
    return wish;
  }

  /// A long head over short numbers stands on two lines or three, so that the column stays narrow.
  Length natural_head(std::size_t c) const {
    const Length whole = natural_width(head_[c], look_.head, tools_);
    const bool numbers = table_.columns[c].kind == ColumnKind::numbers;
    if (!numbers || whole <= Length::points(44)) return whole;
    return std::max({widest_word(head_[c], look_.head, tools_),
                     std::min(whole * 0.58, Length::points(72)), whole * 0.36});
  }

  Length note_width(const std::string& figure) const {
    return measure(figure, note_style()) + Length::points(0.8);
  }
  TextStyle note_style() const {
    TextStyle style = look_.text;
    style.size = style.size * 0.68;
    return style;
  }

  std::vector<Wish> wishes() const {
    std::vector<Wish> all;
    for (std::size_t c = 0; c < table_.columns.size(); ++c) all.push_back(wish_of(c));
    return all;
  }

  /// Width of the whole table if every column had what `of` says; spanned columns have their own.
  Length total(const std::vector<Wish>& wishes, Length Wish::*of) const {
    Length sum = look_.gap * static_cast<double>(wishes.size() - 1);
    for (const Wish& wish : wishes) sum += wish.*of;
    return sum;
  }

  /// A table a little too wide for single lines, or for its longest words, is set closer, then
  /// smaller.
  std::vector<Wish> settle_look() {
    std::vector<Wish> first = wishes();
    const bool planned = std::any_of(table_.columns.begin(), table_.columns.end(),
                                     [](const TableColumn& c) { return c.span > 0; });
    if (planned || total(first, &Wish::natural) <= room_.width) return first;
    const Look before = look_;
    const Length smaller = std::max(tools_.style.smallest, look_.text.size - Length::points(1));
    for (Length Wish::*of : {&Wish::natural, &Wish::least}) {
      if (of == &Wish::least && total(first, of) <= room_.width) break;
      for (const Length size : {before.text.size, smaller}) {
        look_.gap = before.gap * 0.7;
        look_.text.size = size;
        std::vector<Wish> closer = wishes();
        if (total(closer, of) <= room_.width) return closer;
      }
    }
    if (total(first, &Wish::least) > room_.width)
      return wishes();  // words will be cut: the smaller look cuts fewer
    look_ = before;
    return first;
  }

  void plan_columns() {
    const std::size_t n = table_.columns.size();
    const std::vector<Wish> wishes = settle_look();
    columns_.resize(n);
    std::vector<bool> settled(n, false);
    Length room = room_.width - look_.gap * (n > 0 ? static_cast<double>(n - 1) : 0.0);
    for (std::size_t c = 0; c < n; ++c) {
      columns_[c].tail = wishes[c].tail;
      const int span = table_.columns[c].span;
      if (span > 0) {
        // The span's columns and the gutters between them; the gutter after it is the gap.
        const Length whole = (room_.width + look_.gap) * (span / 12.0) - look_.gap;
        columns_[c].width = std::max(whole, Length{});
        settled[c] = true;
      } else if (table_.columns[c].kind == ColumnKind::numbers) {
        columns_[c].width = wishes[c].natural;
        settled[c] = true;
      }
      if (settled[c]) room -= columns_[c].width;
    }
    share_out(room, wishes, settled);
    shrink_to_fit();
    place_columns();
  }

  /// Gives the columns of words what they ask for, or, if that is too much, what is left: narrow
  /// ones first.
  void share_out(Length room, const std::vector<Wish>& wishes, std::vector<bool> settled) {
    for (;;) {
      Length natural;
      std::size_t open = 0;
      for (std::size_t c = 0; c < settled.size(); ++c) {
        if (settled[c]) continue;
        natural += wishes[c].natural;
        ++open;
      }
      if (open == 0) return;
      const Length fair = room / static_cast<double>(open);
      bool changed = false;
      for (std::size_t c = 0; c < settled.size() && !changed; ++c) {
        if (settled[c]) continue;
        if (natural <= room || wishes[c].natural <= fair) {
          columns_[c].width = wishes[c].natural;
        } else if (wishes[c].least >= fair) {
          columns_[c].width = std::max(Length::points(24), std::min(wishes[c].least, room * 0.6));
        } else {
          continue;
        }
        settled[c] = true;
        room -= columns_[c].width;
        changed = true;
      }
      if (changed) continue;
      // All that are left want more than their share: by what they ask for.
      for (std::size_t c = 0; c < settled.size(); ++c) {
        if (settled[c]) continue;
        const Length part = room * (wishes[c].natural / natural);
        columns_[c].width = std::max(part, std::min(wishes[c].least, fair));
        settled[c] = true;
        room -= columns_[c].width;
        natural -= wishes[c].natural;
      }
      return;
    }
  }

  Length used_width() const {
    Length used = look_.gap * (columns_.empty() ? 0.0 : static_cast<double>(columns_.size() - 1));
    for (const ColumnPlan& column : columns_) used += column.width;
    return used;
  }

  /// Last resort: columns that together are too wide give way in proportion; their words will be
  /// cut.
  void shrink_to_fit() {
    const Length gaps =
        look_.gap * (columns_.empty() ? 0.0 : static_cast<double>(columns_.size() - 1));
    const Length used = used_width();
    if (used <= room_.width + Length::points(0.01)) return;
    const double factor = (room_.width - gaps) / (used - gaps);
    for (ColumnPlan& column : columns_) column.width = column.width * std::max(0.05, factor);
  }

  void place_columns() {
    const std::size_t n = columns_.size();
    const bool planned = std::any_of(table_.columns.begin(), table_.columns.end(),
                                     [](const TableColumn& c) { return c.span > 0; });
    Length spare = room_.width - used_width();
    width_ = room_.width;
    Length gap = look_.gap;
    if (!table_.full_width) {
      width_ = std::min(room_.width, used_width());
    } else if (spare > Length{} && n > 1 && !planned) {
      // A table fills the measure if its columns stay in each other's sight; else it stands
      // narrower.
      const Length even = spare / static_cast<double>(n - 1);
      const Length more = even <= kWidestGap ? even : look_.gap * 1.4;
      gap += more;
      spare -= more * static_cast<double>(n - 1);
      width_ = room_.width - spare;
    }
    Length x;
    for (ColumnPlan& column : columns_) {
      column.x = x;
      x += column.width + gap;
    }
  }

  // ---- drawing

  void rule_at(Frame& frame, Length y) const {
    frame.line({{}, y}, {width_, y}, tools_.style.rule);
  }

  void add_title() {
    Slice slice;
    const TextStyle& style = room_.compact ? tools_.style.note : tools_.style.chart_title;
    const auto lines = break_lines(tools_.words.rich(table_.title), style.bold(), room_.width,
                                   Rag::balanced, tools_);
    const Length line = room_.compact ? look_.line : tools_.page.line;
    Frame frame({room_.width,
                 line * static_cast<double>(std::max<std::size_t>(1, lines.size())) + look_.half});
    draw_lines(frame, {}, line, line, lines);
    slice.frame = std::move(frame);
    slice.may_break_after = false;
    slices_.push_back(std::move(slice));
  }

  /// Rule, head words standing on one baseline, rule; without words only the rule above.
  Frame head_frame(bool has_words) const {
    Length height;
    Frame frame;
    if (!has_words) {
      frame.set_size({room_.width, Length{}});
      if (!room_.compact) rule_at(frame, kRuleDrop);
      return frame;
    }
    std::vector<std::vector<SetLine>> heads;
    std::size_t most = 1;
    for (std::size_t c = 0; c < columns_.size(); ++c) {
      heads.push_back(break_lines(head_[c], look_.head, columns_[c].width, Rag::balanced, tools_));
      most = std::max(most, heads.back().size());
    }
    const Length leading = tools_.style.note.leading;
    const Length baseline =
        (room_.compact ? look_.line : tools_.page.line) + leading * static_cast<double>(most - 1);
    height = room_.compact ? baseline : half_lines_up(baseline + look_.half * 0.9, tools_);
    frame.set_size({room_.width, height});
    for (std::size_t c = 0; c < columns_.size(); ++c) {
      const bool numbers = table_.columns[c].kind == ColumnKind::numbers;
      const Length x = numbers ? columns_[c].x + columns_[c].width : columns_[c].x;
      for (std::size_t l = 0; l < heads[c].size(); ++l) {
        const Length y = baseline - leading * static_cast<double>(heads[c].size() - 1 - l);
        draw_line(frame, {x, y}, numbers ? Align::right : Align::left, std::move(heads[c][l]));
      }
    }
    if (!room_.compact) {
      rule_at(frame, kRuleDrop);
      rule_at(frame, baseline + Length::points(4.5));
    }
    return frame;
  }

  /// The head as it stands on the pages that follow.
  Frame repeated_head(const Frame& head) const {
    const Length line = tools_.page.line;
    Frame both({room_.width, line + look_.half + head.height()});
    RichText words;
    if (table_.title.empty())
      words = tools_.words.rich(say("page.table-continued"));
    else
      words = tools_.words.rich(say("page.continued", {{"title", table_.title}}));
    draw_line(both, {{}, line}, Align::left,
              fit_line(words, tools_.style.unit_line, width_, tools_));
    Frame copy = head;
    both.place({{}, line + look_.half}, std::move(copy));
    return both;
  }

  void add_rows(const std::shared_ptr<const Frame>& repeated) {
    std::size_t index = 0;
    bool first_of_table = true;
    for (const TableGroup& group : table_.groups) {
      const bool named = !group.name.empty();
      if (named) add_group_name(group.name, first_of_table, repeated);
      const bool in_fives = table_.air != Table::Air::airy && mostly_low(group, index);
      for (std::size_t r = 0; r < group.rows.size(); ++r) {
        const bool five_before = in_fives && r > 0 && r % 5 == 0 && group.rows.size() - r > 1;
        Length air;
        if (table_.air == Table::Air::airy && !(first_of_table && r == 0)) air = look_.half;
        if (five_before) air = look_.half;
        // Rows of several lines must not run together; in small type a little air tells them apart.
        const bool tall = lines_of_row(index, group.rows[r].total) > 1 ||
                          (r > 0 && lines_of_row(index - 1, false) > 1);
        if (tall && r > 0 && !room_.compact)
          air = std::max(air, dense() ? Length::points(3) : look_.half);
        if (!named && r == 0 && !first_of_table && table_.air != Table::Air::airy) air = look_.half;
        if (group.rows[r].total) air = std::max(air, look_.half);
        add_row(index++, group.rows[r].total, air, repeated);
        if (named && r == 0) slices_.back().break_cost = 20;
        // A row alone at either side of a page's end is worth some white; in a short table more so.
        if (r == 0 || r + 2 == group.rows.size())
          slices_.back().break_cost =
              std::max(slices_.back().break_cost, group.rows.size() > 3 ? 12.0 : 20.0);
        first_of_table = false;
      }
    }
    if (!slices_.empty())
      slices_.back().may_break_after = false;  // the closing rule belongs to the last row
  }

  /// Long runs of rows of one line are told apart by fives; where heights differ, the air would
  /// only look uneven.
  bool mostly_low(const TableGroup& group, std::size_t first) {
    std::size_t tall = 0;
    for (std::size_t r = 0; r < group.rows.size(); ++r)
      tall += lines_of_row(first + r, group.rows[r].total) > 1;
    return group.rows.size() >= 10 && tall * 10 <= group.rows.size();
  }

  bool dense() const { return table_.air == Table::Air::dense; }

  Length room_of(const CellText& cell, std::size_t c) const {
    const Length note = cell.note.empty() ? Length{} : note_width(cell.note);
    return std::max(Length::points(1), columns_[c].width - extra_of(cell) - note);
  }

  /// The lines of every cell of a row, set once.
  std::vector<std::vector<SetLine>>& set_row(std::size_t index, bool total) {
    if (set_rows_.size() != rows_.size()) set_rows_.resize(rows_.size());
    auto& lines = set_rows_[index];
    if (!lines.empty()) return lines;
    const std::vector<CellText>& cells = rows_[index];
    lines.resize(cells.size());
    for (std::size_t c = 0; c < cells.size(); ++c) {
      const TextStyle style = style_of(c, total);
      if (table_.columns[c].kind == ColumnKind::numbers)
        lines[c].push_back(fit_line(cells[c].text, style, room_of(cells[c], c), tools_));
      else
        lines[c] = break_lines(cells[c].text, style, room_of(cells[c], c), Rag::ragged, tools_);
    }
    return lines;
  }

  /// Asked of a row before it is placed, and of the one above it after.
  std::size_t lines_of_row(std::size_t index, bool total) {
    if (line_counts_.size() != rows_.size()) line_counts_.resize(rows_.size(), 0);
    std::size_t& most = line_counts_[index];
    if (most == 0) {
      most = 1;
      for (const auto& cell : set_row(index, total)) most = std::max(most, cell.size());
    }
    return most;
  }

  void add_group_name(const Text& name, bool first, const std::shared_ptr<const Frame>& repeated) {
    Slice slice;
    const TextStyle style = look_.text.bold();
    const auto lines = break_lines(tools_.words.rich(name), style, width_, Rag::ragged, tools_);
    Frame frame(
        {room_.width, look_.line * static_cast<double>(std::max<std::size_t>(1, lines.size()))});
    draw_lines(frame, {}, look_.line, look_.line, lines);
    slice.frame = std::move(frame);
    if (!first) slice.air = look_.half;
    slice.may_break_after = false;
    slice.repeated_head = repeated;
    slices_.push_back(std::move(slice));
  }

  void add_row(std::size_t index, bool total, Length air,
               const std::shared_ptr<const Frame>& repeated) {
    const std::vector<CellText>& cells = rows_[index];
    const std::size_t most = lines_of_row(index, total);
    std::vector<std::vector<SetLine>>& lines = set_row(index, total);
    // A row of very many lines may break within; any other stays whole.
    const bool breaks = most > 14;
    const std::size_t whole = breaks ? 1 : most;
    for (std::size_t from = 0; from < most; from += whole) {
      Slice slice;
      slice.frame = row_frame(cells, lines, from, std::min(most, from + whole), total);
      slice.air = from == 0 ? air : Length{};
      slice.repeated_head = repeated;
      const bool inner_edge = breaks && (from == 0 || from + 2 == most);
      slice.may_break_after = !inner_edge;
      slices_.push_back(std::move(slice));
    }
  }

  Frame row_frame(const std::vector<CellText>& cells, std::vector<std::vector<SetLine>>& lines,
                  std::size_t from, std::size_t to, bool total) const {
    Frame frame({room_.width, look_.line * static_cast<double>(to - from)});
    for (std::size_t c = 0; c < cells.size(); ++c) {
      for (std::size_t l = from; l < std::min(to, lines[c].size()); ++l) {
        const Length baseline = look_.line * static_cast<double>(l - from + 1);
        draw_cell(frame, cells[c], c, l, baseline, std::move(lines[c][l]), total, lines[c].size());
      }
    }
    return frame;
  }

  void draw_cell(Frame& frame, const CellText& cell, std::size_t c, std::size_t l, Length baseline,
                 SetLine line, bool total, std::size_t line_count) const {
    const ColumnPlan& column = columns_[c];
    const TextStyle style = style_of(c, total);
    Length x = column.x, end;
    if (table_.columns[c].kind == ColumnKind::numbers) {
      const Length tail = measure(tail_of(cell.text), style);
      const Length note = cell.note.empty() ? Length{} : note_width(cell.note);
      const Length point =
          std::min(column.x + column.width - column.tail + tail, column.x + column.width - note);
      end = point;
      draw_line(frame, {std::max(point, column.x + line.width), baseline}, Align::right,
                std::move(line));
    } else {
      if (cell.mark && l == 0) draw_state(frame, {x, baseline}, *cell.mark, tools_);
      x += extra_of(cell);
      end = x + line.width;
      draw_line(frame, {x, baseline}, Align::left, std::move(line));
    }
    if (!cell.note.empty() && l + 1 == line_count) {
      const Length up = tools_.metrics.x_height(style.face, style.size) * 0.62;
      add_text(frame, {end + Length::points(0.6), baseline - up}, Align::left, cell.note,
               note_style(), tools_.metrics);
    }
  }

  void close() {
    Slice slice;
    const Length depth = room_.compact ? Length{} : tools_.page.half_line();
    slice.frame = Frame({room_.width, depth});
    if (!room_.compact) rule_at(slice.frame, depth);
    slice.back_to_grid = !room_.compact;  // rows of small type have left the grid
    slice.repeated_head = nullptr;
    slice.may_break_after = table_.footnotes.empty();
    slices_.push_back(std::move(slice));
  }

  void add_footnotes() {
    const TextStyle& style = tools_.style.note;
    for (std::size_t i = 0; i < table_.footnotes.size(); ++i) {
      const std::string figure = fmt::format("{}", i + 1);
      TextStyle raised = style;
      raised.size = style.size * 0.75;
      const Length indent = Length::points(9);
      const Length measure = std::min(room_.width, style.size * 38.0) - indent;
      auto lines = break_lines(tools_.words.rich(table_.footnotes[i].second), style, measure,
                               Rag::ragged, tools_);
      const Length first = tools_.page.line;
      const Length height =
          first + style.leading * static_cast<double>(lines.empty() ? 0 : lines.size() - 1);
      Slice slice;
      slice.frame = Frame({room_.width, height});
      slice.back_to_grid = !room_.compact;
      add_text(slice.frame, {{}, first - Length::points(2.5)}, Align::left, figure, raised,
               tools_.metrics);
      draw_lines(slice.frame, indent, first, style.leading, std::move(lines));
      slice.may_break_after = i + 1 == table_.footnotes.size();
      slices_.push_back(std::move(slice));
    }
  }

  const Table& table_;
  Room room_;
  const Tools& tools_;
  Look look_;
  std::vector<RichText> head_;
  std::vector<std::vector<CellText>> rows_;
  std::vector<ColumnPlan> columns_;
  std::vector<std::vector<std::vector<SetLine>>> set_rows_;  // by row, cell, line
  std::vector<std::size_t> line_counts_;                     // by row; 0 if not asked yet
  Length width_;
  Slices slices_;
};

}  // namespace

Slices set_table(const Table& table, Room room, const Tools& tools) {
  if (table.columns.empty()) return {};
  return TableSetter(table, room, tools).set();
}

}  // namespace winterfolio
