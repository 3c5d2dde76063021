// What a page says, by meaning: headings, paragraphs, tables, figures, cards. No lengths, fonts,
// colours or page numbers; layout/ decides those. A report section is a function from findings to
// blocks, tested by reading the blocks back.
#pragma once

#include <memory>
#include <optional>
#include <string>
#include <variant>
#include <vector>

#include "document/state.h"
#include "document/text.h"

namespace winterfolio {

/// What a figure draws; its kinds are in document/chart.h, and charts/charts.h turns one into a
/// frame.
struct Chart;
struct Block;
using Blocks = std::vector<Block>;

/// What may go when a section is told to fit: extras first, then what is useful, the essential
/// never.
enum class Importance { extra, useful, essential };

/// The first lines of a report: over the title two short texts, beside it a note.
struct TitleBlock {
  Text over_left{};
  Text over_right{};
  Text title{};
  Text aside{};
};

/// A heading. Level 1 opens a section and is a bookmark and a line of the contents; 2 is a
/// bookmark; 3 is neither.
struct Heading {
  int level = 1;
  Text text{};
  Text aside{};  ///< a short note at the right end of the line
};

enum class Role {
  body,
  verdict,  ///< the one sentence of a report
  lead,     ///< an opening paragraph
  note,     ///< small, for what stands beside the main thing
  caution,  ///< a warning: set in bold lead-in words, never dropped nor shortened
};

/// Running text. Words may carry *bold* spans.
struct Paragraph {
  Role role = Role::body;
  Text text{};
};

/// Items one under another.
struct List {
  enum class Marker { dash, number, box };  ///< a box is there to be ticked
  Marker marker = Marker::dash;
  std::vector<Text> items{};
  Role role = Role::body;
  bool close = false;  ///< items close together, as in a list of references
};

/// How a column's cells line up: words at the left; numbers by their decimal, at the right.
enum class ColumnKind { words, numbers };

struct TableColumn {
  Text head{};
  ColumnKind kind = ColumnKind::words;
  int span = 0;        ///< columns of the page's twelve to take; 0: as wide as its content asks
  bool bold = false;   ///< ids and dates that the eye looks for
  bool quiet = false;  ///< secondary, in grey
};

struct TableCell {
  Text text{};
  std::optional<MarkState> mark{};  ///< a state's square before the words
  std::string note{};  ///< key of a footnote, e.g. "memory"; marked with a small figure
};

struct TableRow {
  std::vector<TableCell> cells{};
  bool total = false;  ///< set off by a rule and bold
};

/// Rows that belong together, under a word of their own if there is one.
struct TableGroup {
  Text name{};
  std::vector<TableRow> rows{};
};

/// A table; breaks between rows and repeats its head. An empty cell prints a dash.
struct Table {
  enum class Air {
    dense,
    normal,
    airy
  };             ///< small type; body type with air every five rows; half a line between rows
  Text title{};  ///< the finding, if the table has one
  std::vector<TableColumn> columns{};
  std::vector<TableGroup> groups{};
  std::vector<std::pair<std::string, Text>> footnotes{};  ///< by key, in order
  Air air = Air::normal;
  bool full_width = true;  ///< else no wider than its content
};

/// How high a figure wants to be. `own` asks the chart: rows of trees, maps and strips know their
/// height.
enum class FigureHeight { own, strip, quarter, third, half, page };

/// A chart under the sentence that it shows and a line that names what is drawn and its unit.
struct Figure {
  Text title{};
  Text subtitle{};
  std::shared_ptr<const Chart> chart{};
  FigureHeight height = FigureHeight::third;
  Text note{};  ///< under the chart
};

/// A tree, a workday: one thing with everything about it in one place. Never broken over pages.
struct Card {
  std::string anchor{};  ///< that contents and tables can jump to; empty for none
  Text id{};
  Text name{};
  Text detail{};
  std::shared_ptr<const Chart> thumbnail{};
  std::optional<MarkState> mark{};
  Text verdict{};   ///< beside the mark
  Blocks body{};    ///< set small
  Text bookmark{};  ///< empty for none
};

/// Cards of one kind, `across` beside each other, those of a row as high as its highest.
struct Cards {
  int across = 2;
  std::vector<Card> cards{};
};

/// A few figures set large, side by side under one rule.
struct BigFigures {
  struct Entry {
    Text label{};
    Text value{};
    Text note{};
  };
  std::vector<Entry> entries{};
};

/// Blocks beside each other; spans are columns of the page's twelve and add to at most twelve.
struct Columns {
  struct Column {
    int span = 6;
    Blocks blocks{};
  };
  std::vector<Column> columns{};
};

/// Blocks that stay on one page.
struct KeepTogether {
  Blocks blocks{};
};

/// Blocks in a ruled box.
struct Boxed {
  Blocks blocks{};
};

/// Lines to write on, each with its label; two labels in a row share a line if `across` is 2.
struct WritingLines {
  std::vector<Text> labels{};
  int across = 1;
};

/// The contents: every heading of level 1 with its page.
struct Contents {};

struct PageBreak {};

/// A thin rule across, with air.
struct Rule {};

struct Block {
  using Content =
      std::variant<TitleBlock, Heading, Paragraph, List, Table, Figure, Cards, BigFigures, Columns,
                   KeepTogether, Boxed, WritingLines, Contents, PageBreak, Rule>;
  Content content;
  Importance importance = Importance::useful;

  template <class T>
  requires std::is_constructible_v<Content, T&&> Block(
      T&& what,
      Importance how_much = Importance::useful)  // NOLINT: a block is made from any of its kinds
      : content(std::forward<T>(what)), importance(how_much) {}
};

/// A run of blocks that starts on a new page, runs on, or, where nothing is said, runs on if that
/// saves a page and leaves none half empty.
struct Section {
  std::string id{};  ///< of the registry, e.g. "trees"
  Blocks blocks{};
  std::optional<bool> new_page{};
  std::optional<int> fit_pages{};  ///< told to fit: drops what matters least until it does
};

/// A whole report, and what its head and foot say.
struct Document {
  Text title{};  ///< of the PDF
  Text subject{};
  std::string language = "en";
  Text head_left{};
  Text head_right{};
  Text foot_left{};
  bool outdoor = false;  ///< larger type, for sheets read at arm's length
  std::vector<Section> sections{};
};

}  // namespace winterfolio
