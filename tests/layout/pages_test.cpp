// Where pages end: widows and orphans, headings, tables, sections told to fit; by half-em letters
// on Letter paper, whose text area holds 53 lines of 13 pt.
#include <set>

#include "layout/layout.h"
#include "support/catch.h"
#include "support/frame_text.h"
#include "support/half_em_metrics.h"
#include "support/test_words.h"

using namespace winterfolio;
using namespace winterfolio::literals;
using winterfolio::test::HalfEmMetrics;
using winterfolio::test::test_words;

namespace {

const HalfEmMetrics kMetrics;
const Style kStyle;

LaidOut laid_out(std::vector<Section> sections) {
  Document document;
  document.head_left = literal("HEAD");
  document.foot_left = literal("FOOT");
  document.sections = std::move(sections);
  return layout_document(document, letter_geometry(), kStyle, kMetrics, test_words());
}
LaidOut laid_out(Blocks blocks) {
  return laid_out({Section{"s", std::move(blocks), true, std::nullopt}});
}

struct Line {
  double x, y;
  std::string text;
};

/// Texts of a page between head and foot, in the order they were placed.
std::vector<Line> body_of(const Frame& page) {
  std::vector<Line> lines;
  for (const Placed& placed : page.items()) {
    const auto* run = std::get_if<TextRun>(&placed.item);
    if (run && placed.at.y > 40_pt && placed.at.y < 750_pt)
      lines.push_back({placed.at.x.pt(), placed.at.y.pt(), run->text});
  }
  return lines;
}

/// A paragraph of exactly n lines at 35 em of 9.5 pt: 332.5 pt hold 70 letters of 4.75 pt.
Paragraph paragraph_of(int n) {
  std::string text;
  for (int i = 0; i < n; ++i) text += std::string(67, 'a') + (i + 1 < n ? " " : "");
  return {Role::body, literal(text)};
}

Table table_of(int rows) {
  Table table;
  table.columns = {{literal("tree")}, {literal("chill"), ColumnKind::numbers}};
  TableGroup group;
  for (int i = 0; i < rows; ++i)
    group.rows.push_back({{{literal("row" + std::to_string(i))}, {value_text(number(i, i % 2))}}});
  table.groups = {group};
  return table;
}

}  // namespace

TEST_CASE("The first line stands on baseline 65, the lines below every 13") {
  const LaidOut out = laid_out({paragraph_of(3)});
  REQUIRE(out.pages.size() == 1);
  const auto lines = body_of(out.pages[0]);
  REQUIRE(lines.size() == 3);
  CHECK(lines[0].y == Approx(65));
  CHECK(lines[1].y == Approx(78));
  CHECK(lines[0].x == Approx(Length::millimetres(22).pt()));
}

TEST_CASE("A page holds 53 lines, its last baseline at 741") {
  const LaidOut out = laid_out({paragraph_of(53)});
  REQUIRE(out.pages.size() == 1);
  CHECK(body_of(out.pages[0]).back().y == Approx(741));
  CHECK(laid_out({paragraph_of(55)}).pages.size() == 2);
}

TEST_CASE("No paragraph leaves one line behind or sends one ahead") {
  for (int n = 40; n <= 60; ++n) {
    const LaidOut out = laid_out({paragraph_of(20), paragraph_of(n)});
    REQUIRE(out.pages.size() == 2);
    const auto first = body_of(out.pages[0]), second = body_of(out.pages[1]);
    INFO(n);
    CHECK(first.size() + second.size() == static_cast<std::size_t>(20 + n));
    CHECK(first.size() != 21);
    CHECK(second.size() >= 2);
  }
}

TEST_CASE("A heading never ends a page") {
  for (int n = 44; n <= 53; ++n) {
    const LaidOut out =
        laid_out({paragraph_of(n), Heading{2, literal("HEADING"), {}}, paragraph_of(4)});
    for (const Frame& page : out.pages) {
      INFO(n);
      CHECK(body_of(page).back().text != "HEADING");
    }
  }
}

TEST_CASE("A heading at the top of a page stands on the first baseline whatever its size") {
  CHECK(body_of(laid_out({Heading{1, literal("H"), {}}}).pages[0])[0].y == Approx(65));
  CHECK(body_of(laid_out({Heading{2, literal("H"), {}}}).pages[0])[0].y == Approx(65));
}

TEST_CASE("A table breaks between rows, repeats its head and says that it goes on") {
  const LaidOut out = laid_out({table_of(90)});
  REQUIRE(out.pages.size() >= 2);
  std::set<std::string> seen;
  for (std::size_t p = 0; p < out.pages.size(); ++p) {
    const auto lines = body_of(out.pages[p]);
    int heads = 0, continued = 0;
    for (const Line& line : lines) {
      heads += line.text == "tree";
      continued += line.text == "continued";
      if (line.text.starts_with("row")) CHECK(seen.insert(line.text).second);
    }
    INFO(p);
    CHECK(heads == 1);
    CHECK(continued == (p == 0 ? 0 : 1));
  }
  CHECK(seen.size() == 90);
}

TEST_CASE("No page begins or ends with a single row of a table") {
  for (int rows = 45; rows <= 62; ++rows) {
    const LaidOut out = laid_out({table_of(rows)});
    if (out.pages.size() < 2) continue;
    int on_last = 0;
    for (const Line& line : body_of(out.pages.back())) on_last += line.text.starts_with("row");
    INFO(rows);
    CHECK(on_last >= 2);
  }
}

TEST_CASE("Numbers stand on their decimals") {
  const auto lines = body_of(laid_out({table_of(12)}).pages[0]);
  // Half-em letters: the whole part of "3.0" and of "4" must end at one x.
  std::optional<double> point;
  for (const Line& line : lines) {
    if (line.text.find_first_not_of("0123456789.") != std::string::npos) continue;
    const std::size_t dot = line.text.find('.');
    const double end =
        line.x + 4.75 * static_cast<double>(dot == std::string::npos ? line.text.size() : dot);
    if (point) CHECK(end == Approx(*point));
    point = end;
  }
  CHECK(point.has_value());
}

TEST_CASE("A half line of air follows every five rows") {
  const auto lines = body_of(laid_out({table_of(12)}).pages[0]);
  std::vector<double> rows;
  for (const Line& line : lines)
    if (line.text.starts_with("row")) rows.push_back(line.y);
  REQUIRE(rows.size() == 12);
  for (std::size_t i = 1; i < rows.size(); ++i)
    CHECK(rows[i] - rows[i - 1] == Approx(i % 5 == 0 ? 19.5 : 13.0));
}

TEST_CASE("An empty cell prints a dash, a footnote its figure") {
  Table table = table_of(2);
  table.groups[0].rows[1].cells[1] = {Text{}, std::nullopt, "why"};
  table.footnotes = {{"why", literal("not measured")}};
  const std::string text = test::frame_text(laid_out({table}).pages[0]);
  CHECK(text.find("\"–\"") != std::string::npos);
  CHECK(text.find("\"1\"") != std::string::npos);
  CHECK(text.find("not measured") != std::string::npos);
}

TEST_CASE("Pages are numbered with their count") {
  const LaidOut out = laid_out({paragraph_of(120)});
  REQUIRE(out.pages.size() == 3);
  for (std::size_t i = 0; i < 3; ++i)
    CHECK(test::frame_text(out.pages[i]).find("page " + std::to_string(i + 1) + " of 3") !=
          std::string::npos);
}

TEST_CASE("The page of a title has no running head, every other has") {
  Blocks first = {TitleBlock{{}, {}, literal("TITLE"), {}}, paragraph_of(80)};
  const LaidOut out = laid_out(first);
  REQUIRE(out.pages.size() == 2);
  CHECK(test::frame_text(out.pages[0]).find("HEAD") == std::string::npos);
  CHECK(test::frame_text(out.pages[1]).find("HEAD") != std::string::npos);
}

TEST_CASE("The contents name every section with its page and lead there") {
  Section front{"a", {Heading{1, literal("First"), {}}, Contents{}}, true, std::nullopt};
  Section next{"b", {Heading{1, literal("Second"), {}}, paragraph_of(70)}, true, std::nullopt};
  Section last{"c", {Heading{1, literal("Third"), {}}}, true, std::nullopt};
  const LaidOut out = laid_out({front, next, last});
  REQUIRE(out.pages.size() == 4);
  const std::string text = test::frame_text(out.pages[0]);
  const auto line_with = [&](const std::string& what) {
    const std::size_t at = text.find(what);
    REQUIRE(at != std::string::npos);
    return text.substr(text.rfind('\n', at) + 1, 12);
  };
  // Number and title of an entry stand on one baseline: "text x y".
  CHECK(text.find("\"4\"") != std::string::npos);
  CHECK(text.find("link") != std::string::npos);
  CHECK(text.find("#heading-2") != std::string::npos);
  CHECK(line_with("\"Third\"").substr(0, 4) == "text");
  CHECK(test::frame_text(out.pages[3]).find("anchor") != std::string::npos);
}

TEST_CASE("Told to fit, a section drops extras before what is useful, and never the essential") {
  const auto section = [](int fit) {
    Blocks blocks;
    blocks.push_back({paragraph_of(20), Importance::essential});
    blocks.push_back({Paragraph{Role::body, literal("USEFUL")}, Importance::useful});
    blocks.push_back({paragraph_of(25), Importance::extra});
    blocks.push_back({Paragraph{Role::body, literal("EXTRA")}, Importance::extra});
    blocks.push_back({paragraph_of(20), Importance::essential});
    return Section{"s", blocks, true, fit};
  };
  const LaidOut fitted = laid_out({section(1)});
  REQUIRE(fitted.pages.size() == 1);
  const std::string text = test::frame_text(fitted.pages[0]);
  CHECK(text.find("USEFUL") != std::string::npos);
  CHECK(text.find("EXTRA") == std::string::npos);
  REQUIRE(fitted.remarks.size() == 1);
  CHECK(fitted.remarks[0].id == "layout.left-out");
  const LaidOut free = laid_out({section(2)});
  CHECK(free.pages.size() == 2);
  CHECK((test::frame_text(free.pages[0]) + test::frame_text(free.pages[1])).find("EXTRA") !=
        std::string::npos);
  // Too much that is essential: printed whole, and said.
  Section too_much{"s", {{paragraph_of(90), Importance::essential}}, true, 1};
  const LaidOut over = laid_out({too_much});
  CHECK(over.pages.size() == 2);
  REQUIRE(over.remarks.size() == 1);
  CHECK(over.remarks[0].id == "layout.does-not-fit");
}

TEST_CASE("What is kept together moves whole to the next page") {
  const LaidOut out =
      laid_out({paragraph_of(48), KeepTogether{{paragraph_of(5), paragraph_of(5)}}});
  REQUIRE(out.pages.size() == 2);
  CHECK(body_of(out.pages[0]).size() == 48);
  CHECK(body_of(out.pages[1]).size() == 10);
}

TEST_CASE("A page break breaks, and a section may run on") {
  CHECK(laid_out({paragraph_of(3), PageBreak{}, paragraph_of(3)}).pages.size() == 2);
  Section a{"a", {paragraph_of(3)}, true, std::nullopt},
      b{"b", {paragraph_of(3)}, false, std::nullopt};
  CHECK(laid_out({a, b}).pages.size() == 1);
}

TEST_CASE("A section of which nothing is said runs on only where that saves a page") {
  const auto section = [](int lines) {
    return Section{"s", {paragraph_of(lines)}, std::nullopt, std::nullopt};
  };
  CHECK(laid_out({section(10), section(10)}).pages.size() == 1);
  CHECK(laid_out({section(10), section(10), section(10)}).pages.size() == 1);
  // Too long to stand below the first: both keep their pages.
  const LaidOut two = laid_out({section(30), section(40)});
  REQUIRE(two.pages.size() == 2);
  CHECK(body_of(two.pages[0]).size() == 30);
  // 80 lines after 20 fill two pages instead of three.
  CHECK(laid_out({section(20), section(80)}).pages.size() == 2);
}

TEST_CASE("Columns longer than a page go on side by side") {
  Columns columns;
  // Words of 67 letters are cut in two at 51: 120 and 110 lines.
  columns.columns = {{6, {paragraph_of(60)}}, {6, {paragraph_of(55)}}};
  const LaidOut out = laid_out({columns});
  REQUIRE(out.pages.size() == 3);
  for (const Frame& page : out.pages) {
    std::set<long> lefts;
    for (const Line& line : body_of(page)) lefts.insert(std::lround(line.x));
    CHECK(lefts.size() == 2);
  }
}

TEST_CASE("A card is never split, and a very long name never leaves it") {
  Cards cards;
  for (int i = 0; i < 9; ++i) {
    Card card;
    card.id = literal("ID" + std::to_string(i));
    card.name =
        literal("An exceedingly long name that no card of any width could ever hold on one line");
    card.body = {paragraph_of(12), Paragraph{Role::body, literal("END" + std::to_string(i))}};
    cards.cards.push_back(card);
  }
  const LaidOut out = laid_out({cards});
  const double right = (letter_geometry().paper.width - letter_geometry().right).pt();
  for (const Frame& page : out.pages) {
    std::set<std::string> begun, ended;
    for (const Placed& placed : page.items()) {
      const auto* run = std::get_if<TextRun>(&placed.item);
      if (!run) continue;
      CHECK((placed.at.x + run->width).pt() <= right + 0.01);
      if (run->text.starts_with("ID")) begun.insert(run->text.substr(2));
      if (run->text.starts_with("END")) ended.insert(run->text.substr(3));
    }
    CHECK(begun == ended);
  }
}

TEST_CASE("A row of more lines than a page holds still prints whole") {
  Table table = table_of(1);
  std::string words;
  for (int i = 0; i < 900; ++i) words += "word" + std::to_string(i) + " ";
  table.groups[0].rows[0].cells[0].text = literal(words);
  const LaidOut out = laid_out({table});
  std::string all;
  for (const Frame& page : out.pages) all += test::frame_text(page);
  for (int i = 0; i < 900; i += 37)
    CHECK(all.find("word" + std::to_string(i)) != std::string::npos);
  for (const Frame& page : out.pages)
    for (const Line& line : body_of(page)) CHECK(line.y <= 741.01);
}

TEST_CASE("An empty document has no pages, an empty section none either") {
  CHECK(laid_out(std::vector<Section>{}).pages.empty());
  CHECK(laid_out({Section{"a", {}, true, std::nullopt},
                  Section{"b", {paragraph_of(1)}, true, std::nullopt}})
            .pages.size() == 1);
}
