// A made-up report of several pages with every kind of block in it: what layout and PDF tests set,
// and what a person looks at when a page's look is changed. Nothing in it is a fact.
#pragma once

#include <memory>

#include "document/block.h"
#include "document/chart.h"
#include "support/test_words.h"

namespace winterfolio::test {

inline std::shared_ptr<const Chart> chart_of(Chart::Kind kind) {
  return std::make_shared<const Chart>(Chart{std::move(kind)});
}

inline RankedWinters sample_ranks() {
  RankedWinters ranks;
  for (int i = 0; i < 13; ++i) {
    const double low = 57 - 1.7 * i;
    ranks.rows.push_back({value_text(WinterYears{2014 + (i * 5) % 13}),
                          {low, i == 11 ? low + 3 : low},
                          value_text(i == 11 ? Value(range(low, low + 3)) : Value(number(low))),
                          i == 11});
  }
  return ranks;
}

inline OrchardMap sample_map(bool thumbnail, std::size_t highlighted) {
  OrchardMap map;
  map.thumbnail = thumbnail;
  for (int i = 0; i < 36; ++i) {
    OrchardMap::Tree tree;
    tree.id = std::string(1, static_cast<char>('A' + i / 6)) + std::to_string(i % 6 + 1);
    tree.east = 6.0 * (i % 6) + 0.7 * ((i * 7) % 3);
    tree.north = -5.0 * (i / 6) + 0.6 * ((i * 5) % 4);
    tree.highlighted = static_cast<std::size_t>(i) == highlighted;
    map.trees.push_back(tree);
  }
  return map;
}

inline Card sample_card(Phrases& p, int i) {
  Card card;
  const std::string id = std::string(1, static_cast<char>('A' + i / 6)) + std::to_string(i % 6 + 1);
  static const char* kNames[] = {"Amber Bell", "Late Pippin of the Long Meadow", "Quince",
                                 "Winter Lantern"};
  card.anchor = "tree-" + id;
  card.id = literal(id);
  card.name = literal(kNames[i % 4]);
  card.detail = literal("apple · central leader · planted 2012 · 14 ft");
  card.thumbnail = chart_of(sample_map(true, static_cast<std::size_t>(i)));
  card.mark = static_cast<MarkState>(i % 4);
  card.verdict = p.say("*Short by 14–17 so far;* enough in 9 of 12 winters");
  NeedBar bar;
  bar.scale_end = 80;
  bar.has = {42, 45};
  bar.likely = Spread{57, 63};
  bar.need = Spread{48.0 + i, 53.0 + i};
  bar.measure = literal("chill portions");
  bar.need_label = p.say("needs " + std::to_string(48 + i));
  bar.has_label = literal("has 42–45");
  bar.likely_label = literal("likely 57–63");
  card.body.push_back(Figure{{}, {}, chart_of(bar), FigureHeight::own, {}});
  SeasonStrip strip;
  strip.days = {date_of(2026, 11, 1), date_of(2027, 4, 30)};
  strip.buds = {{BudPhase::resting, {date_of(2026, 11, 20), date_of(2027, 2, 12)}},
                {BudPhase::likely_met, {date_of(2027, 2, 12), date_of(2027, 3, 1)}},
                {BudPhase::no_date, {date_of(2027, 3, 1), date_of(2027, 4, 20)}}};
  strip.frost_nights = {date_of(2026, 12, 24), date_of(2026, 12, 25), date_of(2026, 12, 27)};
  strip.pruning = DaySpan{date_of(2026, 12, 10), date_of(2027, 3, 2)};
  strip.work = {{date_of(2027, 2, 6), false}};
  strip.last_reading = date_of(2027, 1, 31);
  strip.buds_label = literal("buds");
  strip.frost_label = literal("frost");
  strip.work_label = literal("work");
  card.body.push_back(Figure{{}, {}, chart_of(strip), FigureHeight::own, {}});
  Columns two;
  List cuts{List::Marker::box,
            {literal("dead wood, top left"), literal("crossing limbs, no more than two"),
             literal("water sprouts")},
            Role::body};
  two.columns.push_back({7,
                         {Heading{3, literal("Cut, in this order"), {}}, cuts,
                          Paragraph{Role::body, literal("Stop at three cuts over a thumb.")}}});
  Table past;
  past.columns = {{literal("Past"), ColumnKind::words},
                  {literal("chill"), ColumnKind::numbers},
                  {literal("crop")}};
  TableGroup rows;
  for (int year = 2022; year < 2026; ++year)
    rows.rows.push_back({{{value_text(WinterYears{year})},
                          {value_text(number(50 + (year * 7) % 30))},
                          {literal(year == 2024 ? "poor" : "good")}}});
  past.groups = {rows};
  two.columns.push_back({5, {past}});
  card.body.push_back(two);
  card.body.push_back(
      Paragraph{Role::body, p.say("Cut lightly on 6 February and keep the spurs. If the end of "
                                  "February is warm, expect bloom to drag over three weeks.")});
  return card;
}

inline TableRow sample_task(Phrases& p, const char* when, const char* what, const char* which) {
  return {{{p.say(when)}, {p.say(what)}, {p.say(which)}}};
}

inline Section sample_front(Phrases& p) {
  Section front{"front", {}, true, std::nullopt};
  front.blocks.push_back({TitleBlock{literal("Harrow Bottom Orchard"), p.say("Season report"),
                                     p.say("The winter of 2026–27"),
                                     p.say("36 trees of 10 species, temperatures in °F")},
                          Importance::essential});
  front.blocks.push_back(
      {Paragraph{Role::verdict,
                 p.say("Sixteen of the 34 trees that rest in winter have had the cold they need "
                       "and five are within days of it; nine are still short, two of them probably "
                       "all season, and for four we cannot tell.")},
       Importance::essential});
  VerdictTally tally;
  static const char* kLabels[] = {"*16* met", "*5* nearly", "*9* short so far", "*4* not known"};
  const int sizes[] = {16, 5, 9, 4};
  int tree = 0;
  for (int g = 0; g < 4; ++g) {
    VerdictTally::Group group{static_cast<MarkState>(g), p.say(kLabels[g]), {}};
    for (int i = 0; i < sizes[g]; ++i, ++tree)
      group.ids.push_back(std::string(1, static_cast<char>('A' + tree / 6)) +
                          std::to_string(tree % 6 + 1));
    tally.groups.push_back(group);
  }
  front.blocks.push_back(Figure{{}, {}, chart_of(tally), FigureHeight::own, {}});
  front.blocks.push_back(
      Figure{p.say("One of the three mildest winters of thirteen"),
             p.say("Chill portions by 31 January; hatched: what the missing hours may have added."),
             chart_of(sample_ranks()),
             FigureHeight::own,
             {}});
  BigFigures figures;
  figures.entries = {{p.say("Chill portions"), p.say("42–45"),
                      p.say("42.0 recorded; half of past winters had over 47.9.")},
                     {p.say("Chill hours at or below 45°F"), p.say("473–515"),
                      p.say("473 recorded; half of past winters had over 689.")},
                     {p.say("Portions likely by 28 February"), p.say("57–63"),
                      p.say("From the Februaries of twelve past winters.")},
                     {p.say("Frost nights"), p.say("6"),
                      p.say("All from 23 to 28 December; coldest hour 26.3°F.")}};
  front.blocks.push_back(figures);
  front.blocks.push_back(Heading{1, p.say("What to do now"), {}});
  Table tasks;
  tasks.air = Table::Air::airy;
  tasks.columns = {
      {{}, ColumnKind::words, 3, true}, {{}, ColumnKind::words, 7}, {{}, ColumnKind::words, 2}};
  tasks.groups.push_back(
      {{},
       {sample_task(p, "Saturday 6 February",
                    "Workday: eight apples and pears and the early peach. Cut lightly where cold "
                    "is short; leave spurs until live buds show.",
                    "two sheets"),
        sample_task(p, "By 12 February",
                    "If rain stops the workday, cut the Kieffer pear first: its buds swell about "
                    "then and end the time for cutting.",
                    "B6"),
        sample_task(p, "10 to 20 February",
                    "Walk the rows twice and write down bud swell and first bloom. Nothing else "
                    "can settle the four unknowns.",
                    "B1, B2, B4, B5"),
        sample_task(p, "Not this winter",
                    "Almonds, plums, apricots and cherries: in dry summer weather.", "15 trees")}});
  front.blocks.push_back(tasks);
  return front;
}

inline Section sample_prose(Phrases& p) {
  Section prose{"method", {}, true, std::nullopt};
  const auto paragraph = [&](const char* words) { return Paragraph{Role::body, p.say(words)}; };
  prose.blocks.push_back(
      Heading{1, p.say("How it was worked out"), p.say("what follows is only an example")});
  prose.blocks.push_back(Contents{});
  prose.blocks.push_back(Heading{2, p.say("Readings and what is missing from them"), {}});
  prose.blocks.push_back(
      paragraph("Every hour is the mean of the readings stamped within it; its lowest reading is "
                "kept beside it for frost. Three hours or fewer without a reading are bridged by a "
                "straight line, longer gaps from a file nearby, and what is left stays missing: it "
                "adds nothing. Every figure then carries a range."));
  prose.blocks.push_back(paragraph(
      "A range is found by filling the gap from each other winter on record, shifted by a week and "
      "by three days either way, and by running the whole winter through again with its state. "
      "*Only impossible values, duplicates and spikes of an hour are set aside;* everything else "
      "that looks doubtful is marked, counted, listed and used."));
  Columns two;
  two.columns.push_back(
      {6,
       {Heading{3, p.say("What was set aside"), {}},
        paragraph(
            "One spike of 104°F on 3 November at 5 am. The hours either side of it read 51 and 50, "
            "and nothing warms and cools by fifty degrees within two hours at night."),
        paragraph("The clock change of 1 November was undone: the logger kept civil time, and its "
                  "second 1 am is standard time.")}});
  two.columns.push_back(
      {6,
       {Heading{3, p.say("What was kept, though doubtful"), {}},
        List{List::Marker::dash,
             {p.say("Two afternoons in January above 80°F, with the sun on the box."),
              p.say("A run of five equal readings on 12 December."),
              p.say("A day that rose by 31 degrees.")},
             Role::body}}});
  prose.blocks.push_back(two);
  prose.blocks.push_back(Heading{2, p.say("Needs and where they come from"), {}});
  Table needs;
  needs.columns = {{p.say("tree"), ColumnKind::words, 0, true},
                   {p.say("cultivar")},
                   {p.say("need, portions"), ColumnKind::numbers},
                   {p.say("heat, 1,000 degree hours"), ColumnKind::numbers},
                   {p.say("state")},
                   {p.say("from where"), ColumnKind::words, 0, false, true}};
  TableGroup rows;
  for (int i = 0; i < 34; ++i) {
    TableRow row;
    row.cells = {
        {literal(std::string(1, static_cast<char>('A' + i / 6)) + std::to_string(i % 6 + 1))},
        {literal(i % 9 == 4   ? "Late Pippin of the Long Meadow"
                 : i % 3 == 0 ? "Amber Bell"
                              : "Winter Lantern")},
        {value_text(i % 5 == 0 ? Value(range(30 + i, 34.5 + i, 1))
                               : Value(number(30.0 + i, i % 2)))},
        {i % 7 == 3 ? Text{} : value_text(number(5.25 + 0.31 * i, 2))},
        {literal(i % 4 == 0   ? "met"
                 : i % 4 == 1 ? "nearly"
                 : i % 4 == 2 ? "short"
                              : "not known"),
         static_cast<MarkState>(i % 4)},
        {literal(i % 6 == 2 ? "memory" : "trial, two seasons"), std::nullopt,
         i % 6 == 2 ? "memory" : ""}};
    rows.rows.push_back(row);
  }
  needs.groups = {rows};
  needs.footnotes = {
      {"memory", p.say("Written from memory, not from a trial; it is printed and never decides. "
                       "The tree’s own years will say more than any table.")}};
  prose.blocks.push_back(needs);
  prose.blocks.push_back(
      KeepTogether{{Heading{2, p.say("Four things that a chart cannot say"), {}},
                    List{List::Marker::number,
                         {p.say("*Bloom is late after a warm winter* and drags on, so a single "
                                "date would promise what no tree keeps."),
                          p.say("*A frost of an hour* is not a frost of a night."),
                          p.say("*Buds at the south wall* are a week ahead of the hollow."),
                          p.say("*Own years outrank a table.* Six winters of notes settle more "
                                "than sixty of theory.")},
                         Role::body}}});
  prose.blocks.push_back(Paragraph{
      Role::note, p.say("Small type for what stands beside the main thing: every number here, with "
                        "its source, is in the tables at the end, and the files are named with "
                        "their sums so that the winter can be worked out again.")});
  prose.blocks.push_back(Boxed{{Heading{3, p.say("Local rules come first"), {}},
                                paragraph("Where the label on a tin or the rules of the place say "
                                          "otherwise, they are right and this page is wrong.")}});
  prose.blocks.push_back(
      WritingLines{{p.say("Seen on site"), p.say("By"), p.say("Date"), p.say("Weather")}, 2});
  return prose;
}

inline Document sample_document(Phrases& p) {
  Document document;
  document.title = p.say("The winter of 2026–27 at Harrow Bottom Orchard");
  document.subject = p.say("Season report");
  document.head_left = literal("Harrow Bottom Orchard");
  document.head_right = p.say("Season report · winter 2026–27");
  document.foot_left = p.say("Readings to Sunday 31 January 2027, 11 pm");
  document.sections.push_back(sample_front(p));
  document.sections.push_back(sample_prose(p));
  Section trees{"trees", {}, true, std::nullopt};
  trees.blocks.push_back(
      Heading{1, p.say("Tree by tree, from worst to best"), p.say("fourteen of 36 cards")});
  Cards cards;
  for (int i = 0; i < 14; ++i) cards.cards.push_back(sample_card(p, i));
  trees.blocks.push_back(cards);
  document.sections.push_back(trees);
  return document;
}

}  // namespace winterfolio::test
