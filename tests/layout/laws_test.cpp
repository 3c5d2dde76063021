// Laws that every page obeys, tried on 200 documents made by a seeded generator: nothing outside
// the paper's text area, no text on another, body text on the grid, pages well filled, every word
// printed.
#include <algorithm>
#include <cmath>
#include <random>

#include "layout/layout.h"
#include "support/catch.h"
#include "support/half_em_metrics.h"
#include "support/page_laws.h"
#include "support/sample_document.h"

using namespace winterfolio;
using namespace winterfolio::literals;
using namespace winterfolio::test;

namespace {

/// Seeded and the same on every platform: the standard fixes the engine's numbers, not its
/// distributions.
class Dice {
 public:
  explicit Dice(unsigned seed, bool with_cards = true) : cards(with_cards), engine_(seed) {}
  int up_to(int n) { return static_cast<int>(engine_() % static_cast<unsigned>(n)); }
  bool one_in(int n) { return up_to(n) == 0; }
  const bool cards;

 private:
  std::mt19937 engine_;
};

std::string word(Dice& dice) {
  static const char* kParts[] = {"ap", "pear", "o",   "blos", "som", "frost", "chill",
                                 "é",  "pip",  "pin", "bud",  "–",   "win",   "ter"};
  std::string text;
  const int parts = 1 + dice.up_to(3) + (dice.one_in(60) ? 12 : 0);
  for (int i = 0; i < parts; ++i) text += kParts[dice.up_to(14)];
  return text;
}

std::string words(Dice& dice, int n) {
  std::string text;
  for (int i = 0; i < n; ++i)
    text += (i ? " " : "") + (dice.one_in(9) ? "*" + word(dice) + "*" : word(dice));
  return text;
}

Block block(Dice& dice, Phrases& p, int depth);

Table table(Dice& dice, Phrases& p) {
  Table t;
  const int columns = 1 + dice.up_to(7);
  for (int c = 0; c < columns; ++c)
    t.columns.push_back({p.say(words(dice, 1 + dice.up_to(4))),
                         dice.one_in(2) ? ColumnKind::numbers : ColumnKind::words, 0,
                         dice.one_in(4), dice.one_in(4)});
  t.air = static_cast<Table::Air>(dice.up_to(3));
  t.full_width = !dice.one_in(3);
  if (dice.one_in(3)) t.title = p.say(words(dice, 6));
  for (int g = 0; g <= dice.up_to(3); ++g) {
    TableGroup group;
    if (dice.one_in(2)) group.name = p.say(words(dice, 2));
    const int rows = 1 + dice.up_to(dice.one_in(4) ? 90 : 12);
    for (int r = 0; r < rows; ++r) {
      TableRow row;
      for (int c = 0; c < columns; ++c) {
        TableCell cell;
        if (t.columns[static_cast<std::size_t>(c)].kind == ColumnKind::numbers)
          cell.text = dice.one_in(8)
                          ? Text{}
                          : value_text(number(dice.up_to(4000) / 7.0 - 80, dice.up_to(3)));
        else
          cell.text = p.say(words(dice, 1 + dice.up_to(columns > 4 ? 2 : 8)));
        if (dice.one_in(7)) cell.mark = static_cast<MarkState>(dice.up_to(4));
        if (dice.one_in(9)) cell.note = "n";
        row.cells.push_back(cell);
      }
      group.rows.push_back(row);
    }
    t.groups.push_back(group);
  }
  t.footnotes = {{"n", p.say(words(dice, 12))}};
  return t;
}

Cards cards(Dice& dice, Phrases& p) {
  Cards c;
  c.across = 1 + dice.up_to(3);
  for (int i = 0; i < 1 + dice.up_to(9); ++i) {
    Card card;
    card.id = literal(word(dice));
    card.name = p.say(words(dice, 1 + dice.up_to(4)));
    card.detail = p.say(words(dice, 5));
    card.mark = static_cast<MarkState>(dice.up_to(4));
    card.verdict = p.say(words(dice, 5));
    card.body.push_back(
        List{List::Marker::box, {p.say(words(dice, 3)), p.say(words(dice, 4))}, Role::body});
    card.body.push_back(Paragraph{Role::body, p.say(words(dice, 14))});
    c.cards.push_back(card);
  }
  return c;
}

Block block(Dice& dice, Phrases& p, int depth) {
  switch (dice.up_to(depth > 0 ? 9 : 13)) {
    case 0:
      return Heading{1 + dice.up_to(3), p.say(words(dice, 2 + dice.up_to(9))),
                     dice.one_in(3) ? p.say(words(dice, 3)) : Text{}};
    case 1:
    case 2:
    case 3:
      return Paragraph{dice.one_in(6) ? static_cast<Role>(dice.up_to(5)) : Role::body,
                       p.say(words(dice, 5 + dice.up_to(120)))};
    case 4: {
      List list{static_cast<List::Marker>(dice.up_to(3)), {}, Role::body};
      for (int i = 0; i < 1 + dice.up_to(12); ++i)
        list.items.push_back(p.say(words(dice, 2 + dice.up_to(25))));
      return list;
    }
    case 5: {
      BigFigures figures;
      for (int i = 0; i < 1 + dice.up_to(4); ++i)
        figures.entries.push_back(
            {p.say(words(dice, 3)), p.say(word(dice)), p.say(words(dice, 8))});
      return figures;
    }
    case 6:
      return Boxed{{Paragraph{Role::body, p.say(words(dice, 30))}}};
    case 7:
      return WritingLines{{p.say(words(dice, 2)), p.say(words(dice, 1))}, 1 + dice.up_to(2)};
    case 8:
      return Figure{p.say(words(dice, 7)), p.say(words(dice, 9)),
                    test::chart_of(test::sample_ranks()), FigureHeight::own, p.say(words(dice, 6))};
    case 9: {
      Columns columns;
      const int left = 3 + dice.up_to(6);
      columns.columns.push_back({left, {block(dice, p, 1), block(dice, p, 1)}});
      columns.columns.push_back({12 - left, {block(dice, p, 1)}});
      return columns;
    }
    case 10:
      return table(dice, p);
    case 11:
      if (!dice.cards) return table(dice, p);
      return cards(dice, p);
    default:
      return KeepTogether{
          {Heading{2, p.say(words(dice, 4)), {}}, Paragraph{Role::body, p.say(words(dice, 40))}}};
  }
}

Document document(unsigned seed, Phrases& p, bool with_cards = true) {
  Dice dice(seed, with_cards);
  Document d;
  d.head_left = literal(words(dice, 4));
  d.head_right = literal(words(dice, 3));
  d.foot_left = literal(words(dice, 3));
  for (int s = 0; s < 1 + dice.up_to(4); ++s) {
    Section section{"s", {}, dice.one_in(2), std::nullopt};
    for (int b = 0; b < 2 + dice.up_to(9); ++b) section.blocks.push_back(block(dice, p, 0));
    d.sections.push_back(section);
  }
  return d;
}

void hold(const Breaches& breaches) {
  for (const std::string& one : breaches) FAIL_CHECK(one);
}

}  // namespace

TEST_CASE("Laws of 200 random documents on both papers") {
  const HalfEmMetrics metrics;
  const Style style;
  for (unsigned seed = 1; seed <= 200; ++seed) {
    Phrases p;
    const Document d = document(seed, p);
    const PageGeometry page = seed % 2 ? letter_geometry() : a4_geometry();
    const LaidOut out = layout_document(d, page, style, metrics, p.words());
    REQUIRE(!out.pages.empty());
    for (std::size_t n = 0; n < out.pages.size(); ++n) {
      INFO("seed " << seed << " page " << n + 1 << " of " << out.pages.size());
      hold(text_outside_page(out.pages[n], page));
      hold(texts_too_close(out.pages[n]));
      hold(text_too_small(out.pages[n], style));
    }
  }
}

TEST_CASE("Body text of 200 random documents stands on the half-line grid") {
  // Cards keep a rhythm of their own and are left out here; small type and charts have other sizes.
  const HalfEmMetrics metrics;
  const Style style;
  for (unsigned seed = 1; seed <= 200; ++seed) {
    Phrases p;
    const Document d = document(seed, p, false);
    for (const Frame& frame :
         layout_document(d, letter_geometry(), style, metrics, p.words()).pages) {
      for (const Ink& ink : inks_of(frame)) {
        if (ink.size != style.body.size.pt()) continue;
        const double half_lines = ink.baseline / 6.5;
        INFO("seed " << seed << " " << named(ink));
        REQUIRE(std::fabs(half_lines - std::round(half_lines)) < 0.01);
      }
    }
  }
}

TEST_CASE(
    "Pages of running text and tables are at least three fifths full unless a section ends there") {
  const HalfEmMetrics metrics;
  const Style style;
  const PageGeometry page = letter_geometry();
  for (unsigned seed = 1; seed <= 200; ++seed) {
    Phrases p;
    Dice dice(seed * 7919);
    Document d;
    Section section{"s", {}, true, std::nullopt};
    for (int b = 0; b < 12 + dice.up_to(12); ++b) section.blocks.push_back(block(dice, p, 0));
    d.sections = {section};
    const LaidOut out = layout_document(d, page, style, metrics, p.words());
    INFO("seed " << seed);
    hold(pages_with_voids(out.pages, page));
  }
}

TEST_CASE("The same document gives the same pages") {
  const HalfEmMetrics metrics;
  Phrases p, q;
  const Document a = document(5, p), b = document(5, q);
  const LaidOut one = layout_document(a, letter_geometry(), Style{}, metrics, p.words());
  const LaidOut two = layout_document(b, letter_geometry(), Style{}, metrics, q.words());
  REQUIRE(one.pages.size() == two.pages.size());
  for (std::size_t i = 0; i < one.pages.size(); ++i) {
    const std::vector<Ink> first = inks_of(one.pages[i]), second = inks_of(two.pages[i]);
    REQUIRE(first.size() == second.size());
    for (std::size_t k = 0; k < first.size(); ++k) CHECK(first[k].text == second[k].text);
  }
}
