// Breaking lines, checked by hand: at 10 pt every letter is 5 pt wide, so a measure of 100 pt holds
// 20 letters.
#include "layout/lines.h"
#include "support/catch.h"
#include "support/half_em_metrics.h"
#include "support/test_words.h"

using namespace winterfolio;
using namespace winterfolio::literals;
using winterfolio::test::HalfEmMetrics;
using winterfolio::test::test_words;

namespace {

struct Desk {
  explicit Desk(std::u32string missing = {}) : metrics(std::move(missing)) {}
  HalfEmMetrics metrics;
  Style style;
  Words words = test_words();
  PageGeometry page = letter_geometry();
  Remarks remarks;
  Tools tools{metrics, style, words, page, remarks};
};

const TextStyle kTenPoint{Face::regular, 10_pt, 13_pt, Colour{}};

std::string text_of(const SetLine& line) {
  std::string text;
  for (const TextRun& run : line.runs) text += run.text;
  return text;
}

std::vector<std::string> broken(const RichText& text, double letters, Rag rag = Rag::ragged) {
  Desk desk;
  std::vector<std::string> lines;
  for (const SetLine& line :
       break_lines(text, kTenPoint, Length::points(5 * letters), rag, desk.tools))
    lines.push_back(text_of(line));
  return lines;
}
std::vector<std::string> broken(const std::string& text, double letters, Rag rag = Rag::ragged) {
  return broken(RichText{{text, false}}, letters, rag);
}
using Lines = std::vector<std::string>;

}  // namespace

TEST_CASE("A text that fits stays on one line; an empty one gives none") {
  CHECK(broken("one two three", 13) == Lines{"one two three"});
  CHECK(broken("", 10).empty());
  CHECK(broken("   ", 10).empty());
}

TEST_CASE("Blanks at the ends and in a row count once") {
  CHECK(broken("  one   two  ", 20) == Lines{"one two"});
}

TEST_CASE("No line is wider than the measure and no more lines are taken than needed") {
  // 19 letters a line: greedy gives the quick brown fox (19) / jumps over the lazy (19) / dog,
  // three lines.
  const Lines lines = broken("the quick brown fox jumps over the lazy dog", 19);
  CHECK(lines.size() == 3);
  for (const std::string& line : lines) CHECK(line.size() <= 19);
}

TEST_CASE("A last line of one short word is avoided by breaking earlier") {
  const Lines lines = broken("the quick brown fox jumps over the lazy dog", 19);
  CHECK(lines.back() != "dog");
  CHECK(lines == Lines{"the quick brown", "fox jumps over the", "lazy dog"});
}

TEST_CASE("A lone last word stays where nothing else would fit") {
  CHECK(broken("aaaaaaaa bbbbbbbb cc", 8) == Lines{"aaaaaaaa", "bbbbbbbb", "cc"});
}

TEST_CASE("Balanced lines are of one length") {
  // 30 letters with blanks on lines of 20: two lines of 14 and 15 rather than 20 and 9.
  CHECK(broken("aaaa bbbb cccc dddd eeee ffff", 20, Rag::balanced) ==
        Lines{"aaaa bbbb cccc", "dddd eeee ffff"});
  CHECK(broken("aaaa bbbb cccc dddd eeee ffff", 20, Rag::ragged) ==
        Lines{"aaaa bbbb cccc dddd", "eeee ffff"});
}

TEST_CASE("A word wider than the measure is cut with a hyphen, never printed beyond it") {
  CHECK(broken("Llanfairpwllgwyngyll", 8) == Lines{"Llanfai-", "rpwllgw-", "yngyll"});
  CHECK(broken("a Llanfairpwllgwyngyll b", 8) == Lines{"a", "Llanfai-", "rpwllgw-", "yngyll b"});
}

TEST_CASE("A number or a file name is cut without a hyphen, which would be taken for its own") {
  CHECK(broken("winter_2026.csv", 8) == Lines{"winter_2", "026.csv"});
  CHECK(broken("1234567890", 4) == Lines{"1234", "5678", "90"});
}

TEST_CASE("Accented letters are cut between letters, not within") {
  CHECK(broken("éééééééééé", 4) == Lines{"ééé-", "ééé-", "éééé"});
}

TEST_CASE("A measure narrower than a letter still gives a letter a line") {
  CHECK(broken("abc", 0.5) == Lines{"a", "b", "c"});
}

TEST_CASE("Lines break after a hyphen between letters, not in a range or a date") {
  CHECK(broken("half-hardened", 7) == Lines{"half-", "harden-", "ed"});
  CHECK(broken("xx half-open", 8) == Lines{"xx half-", "open"});
  CHECK(broken("xx 2026-27 yy", 8) == Lines{"xx", "2026-27", "yy"});
  CHECK(broken("xx 42–45 y", 6) == Lines{"xx", "42–45", "y"});
}

TEST_CASE("No-break blanks keep words together and print as blanks") {
  CHECK(broken("on 6\u00a0February", 10) == Lines{"on", "6 February"});
}

TEST_CASE("Bold spans get runs of their own; neighbours of one face are one run") {
  Desk desk;
  const auto lines = break_lines({{"By ", false}, {"6 Feb", true}, {", rain or not", false}},
                                 kTenPoint, 200_pt, Rag::ragged, desk.tools);
  REQUIRE(lines.size() == 1);
  REQUIRE(lines[0].runs.size() == 3);
  CHECK(lines[0].runs[0].text == "By ");
  CHECK(lines[0].runs[1].text == "6 Feb");
  CHECK(lines[0].runs[1].face == Face::bold);
  CHECK(lines[0].runs[2].text == ", rain or not");
  CHECK(lines[0].width == 105_pt);
}

TEST_CASE("Quiet spans get runs of their own in the grey of secondary text") {
  Desk desk;
  const auto lines = break_lines({{"Cut ", false}, {"says who", false, true}}, kTenPoint, 200_pt,
                                 Rag::ragged, desk.tools);
  REQUIRE(lines.size() == 1);
  REQUIRE(lines[0].runs.size() == 2);
  CHECK(lines[0].runs[1].text == "says who");
  CHECK(lines[0].runs[1].face == Face::regular);
  CHECK(lines[0].runs[0].colour == kTenPoint.colour);
  CHECK(lines[0].runs[1].colour == desk.tools.style.secondary);
}

TEST_CASE("A word half bold is never broken at the change of face") {
  CHECK(broken({{"aaa bb", true}, {"bb cc", false}}, 7) == Lines{"aaa", "bbbb cc"});
}

TEST_CASE("A line that must fit is set smaller, then cut with an ellipsis") {
  Desk desk;
  const SetLine smaller = fit_line({{"twenty letters long!", false}}, kTenPoint, 90_pt, desk.tools);
  CHECK(smaller.runs[0].size == 9_pt);
  CHECK(smaller.width <= 90_pt);
  const SetLine cut = fit_line({{"twenty letters long!", false}}, kTenPoint, 40_pt, desk.tools);
  CHECK(cut.runs[0].size == 8_pt);  // 4 pt a letter: nine letters and the sign
  CHECK(text_of(cut) == "twenty le…");
  CHECK(cut.width <= 40_pt);
}

TEST_CASE("Letters the font lacks are replaced and said once") {
  Desk desk(U"\u2011☃");
  CHECK(drawable("half\u2011open", Face::regular, desk.tools) == "half-open");
  CHECK(desk.remarks.take().empty());
  CHECK(drawable("Snow ☃", Face::regular, desk.tools) == "Snow ◊");
  CHECK(drawable("Snow ☃", Face::regular, desk.tools) == "Snow ◊");
  const auto remarks = desk.remarks.take();
  REQUIRE(remarks.size() == 1);
  CHECK(remarks[0].id == "layout.missing-letter");
  CHECK(remarks[0].message == "the font has no letter U+2603, needed in 'Snow ☃'");
}
