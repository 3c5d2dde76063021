// Pages as text, as a person last agreed to them: steadiness, not truth. Letters are half an em
// wide; no charts here.
#include "layout/layout.h"
#include "support/catch.h"
#include "support/frame_text.h"
#include "support/golden.h"
#include "support/half_em_metrics.h"
#include "support/test_words.h"

using namespace winterfolio;
using namespace winterfolio::test;

namespace {

void golden(const std::string& name, const std::string& to_be_seen, Phrases& p,
            std::vector<Section> sections, const PageGeometry& page = letter_geometry()) {
  const HalfEmMetrics metrics;
  Document document;
  document.head_left = literal("Harrow Bottom Orchard");
  document.head_right = literal("Season report");
  document.foot_left = literal("Readings to 31 January");
  document.sections = std::move(sections);
  std::string text = "# " + to_be_seen + "\n";
  const LaidOut out = layout_document(document, page, Style{}, metrics, p.words());
  for (std::size_t i = 0; i < out.pages.size(); ++i)
    text += "page " + std::to_string(i + 1) + "\n" + frame_text(out.pages[i]);
  for (const Diagnostic& remark : out.remarks)
    text += "remark " + remark.id + " " + remark.message + "\n";
  check_golden("layout/" + name + ".txt", text);
}

Section section(Blocks blocks) { return {"s", std::move(blocks), true, std::nullopt}; }

}  // namespace

TEST_CASE("Pages look as agreed") {
  Phrases p;
  golden(
      "title",
      "A title under the orchard's name, no running head; a verdict in even lines; three figures "
      "under one rule, their "
      "numbers on one line; a table of tasks with bold days.",
      p,
      {section({TitleBlock{literal("Harrow Bottom Orchard"), p.say("Season report"),
                           p.say("The winter of 2026–27"), p.say("36 trees")},
                Paragraph{Role::verdict, p.say("Sixteen of the 34 trees that rest in winter have "
                                               "had the cold they need; nine are still short.")},
                BigFigures{{{p.say("Chill portions"), p.say("42–45"),
                             p.say("42.0 recorded; half of past winters had over 47.9.")},
                            {p.say("Likely by 28 February"), p.say("57–63"),
                             p.say("From twelve past winters.")},
                            {p.say("Frost nights"), p.say("6"), {}}}},
                Heading{1, p.say("What to do now"), {}},
                Table{{},
                      {{{}, ColumnKind::words, 3, true}, {{}, ColumnKind::words, 9}},
                      {{{},
                        {{{{p.say("6 February")},
                           {p.say("Workday: eight apples and the early peach. Cut lightly where "
                                  "cold is short; leave spurs until live buds show.")}}},
                         {{{p.say("Not now")},
                           {p.say("Plums and cherries: in dry summer weather.")}}}}}},
                      {},
                      Table::Air::airy}})});

  golden(
      "prose",
      "A heading on the first baseline with a note at its right; two paragraphs of even lines, "
      "bold words among them; two "
      "columns, a dashed list at the right; a small note; a box; two lines to write on.",
      p,
      {section(
          {Heading{1, p.say("How it was worked out"), p.say("in short")},
           Paragraph{Role::body, p.say("Every hour is the mean of the readings stamped within it. "
                                       "*Three hours or fewer* without a reading are bridged by a "
                                       "straight line; what is left stays missing.")},
           Paragraph{
               Role::body,
               p.say("A range is found by filling the gap from each other winter on record.")},
           Columns{
               {{6,
                 {Heading{3, p.say("Set aside"), {}},
                  Paragraph{Role::body, p.say("One spike of 104 on 3 November at 5 am.")}}},
                {6,
                 {Heading{3, p.say("Kept"), {}},
                  List{List::Marker::dash,
                       {p.say(
                            "Two warm afternoons in January, with the sun on the box and no wind."),
                        p.say("A flat run.")}}}}}},
           Paragraph{Role::note, p.say("Small type for what stands beside the main thing.")},
           Boxed{{Paragraph{
               Role::caution,
               p.say("*Local rules come first:* where they say otherwise, they are right.")}}},
           WritingLines{{p.say("Seen"), p.say("By")}, 2}})});

  Table table;
  table.columns = {{p.say("tree"), ColumnKind::words, 0, true},
                   {p.say("cultivar")},
                   {p.say("need"), ColumnKind::numbers},
                   {p.say("state")}};
  TableGroup group;
  for (int i = 0; i < 60; ++i)
    group.rows.push_back(
        {{{literal("A" + std::to_string(i))},
          {literal(i % 3 ? "Winter Lantern" : "Quince")},
          {i % 4 == 1 ? Text{} : value_text(number(30.5 + i, i % 2)), std::nullopt,
           i % 4 == 1 ? "m" : ""},
          {literal(i % 2 ? "met" : "short"), i % 2 ? MarkState::met : MarkState::short_so_far}}});
  table.groups = {group};
  table.footnotes = {{"m", p.say("Not measured in any winter.")}};
  golden("table",
         "A table over two A4 pages: rules above and below the head, the head again on page 2 with "
         "the word continued above "
         "it, air every five rows, numbers on their decimals, dashes with a small figure, one rule "
         "at the very end, then the "
         "footnote.",
         p, {section({table})}, a4_geometry());

  Cards cards;
  for (int i = 0; i < 3; ++i) {
    Card card;
    card.anchor = "t" + std::to_string(i);
    card.id = literal("E" + std::to_string(i));
    card.name = literal(i == 1 ? "Late Pippin of the Long and Winding Meadow" : "Quince");
    card.detail = p.say("quince · bush · planted 2015");
    card.mark = static_cast<MarkState>(i);
    card.verdict = p.say("*Short by 3–11 so far;* likely 14–18 February");
    card.body = {Columns{{{7,
                           {Heading{3, p.say("Cut, in this order"), {}},
                            List{List::Marker::box, {p.say("dead wood"), p.say("water sprouts")}}}},
                          {5,
                           {Table{{},
                                  {{p.say("Past")}, {p.say("crop")}},
                                  {{{}, {{{{literal("2024–25")}, {literal("good")}}}}}}}}}}},
                 Paragraph{Role::body, p.say("Bloom most likely between 12 and 26 March.")}};
    cards.cards.push_back(card);
  }
  golden("cards",
         "Three cards, two across, a rule over each; id and name on one line, the second name set "
         "smaller to fit; the mark "
         "before the verdict; boxes to tick beside past winters; one sentence at the end.",
         p, {section({Heading{1, p.say("Tree by tree"), {}}, cards})});

  golden("contents",
         "Three lines of contents, page numbers before the titles, each over a link that leads to "
         "its heading.",
         p,
         {section({Heading{1, p.say("Contents"), {}}, Contents{}}),
          section({Heading{1, p.say("The cold"), {}}, Heading{2, p.say("By day"), {}},
                   Paragraph{Role::body, p.say("Text.")}}),
          section({Heading{1, p.say("The trees"), {}}})});
}
