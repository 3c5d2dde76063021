// What must hold on every chart whatever it shows: words inside the frame, no word on another,
// nothing of no size, and what is broken into parts comes out whole.
#include <set>

#include "charts/sample_charts.h"
#include "support/catch.h"
#include "support/frame_text.h"
#include "support/half_em_metrics.h"
#include "support/test_words.h"

using namespace winterfolio;
using namespace winterfolio::test;

namespace {

const HalfEmMetrics kMetrics;
const Style kStyle;
const Words kWords = test_words({{"chart.left-out", "No room above for: {what}"}});

Frame drawn(Chart::Kind kind, double width, double height = 0.0) {
  return draw_chart(Chart{std::move(kind)}, {Length::points(width), Length::points(height)},
                    kMetrics, kStyle, kWords);
}

/// Words lie inside the frame and clear of each other: from the top of capitals to the baseline.
void check_words(const Frame& frame) {
  const std::vector<WordBox> words = words_of(frame, kMetrics);
  const double slack = 0.75;
  for (std::size_t i = 0; i < words.size(); ++i) {
    const Rect box = words[i].box;
    INFO("\"" << words[i].text << "\" at " << box.left().pt() << ", " << box.bottom().pt() << " in "
              << frame.width().pt() << " x " << frame.height().pt());
    CHECK(box.left().pt() >= -slack);
    CHECK(box.right().pt() <= frame.width().pt() + slack);
    CHECK(box.top().pt() >= -slack - 2.5);
    CHECK(box.bottom().pt() <= frame.height().pt() + slack);
    for (std::size_t k = 0; k < i; ++k) {
      const Rect other = words[k].box;
      const bool apart = box.left() >= other.right() || other.left() >= box.right() ||
                         box.top() >= other.bottom() || other.top() >= box.bottom();
      if (!apart) FAIL_CHECK("\"" << words[i].text << "\" lies on \"" << words[k].text << "\"");
    }
  }
}

template <class Maker>
void hold_for_many(unsigned seed, int rounds, const Maker& make) {
  Dice dice(seed);
  for (int i = 0; i < rounds; ++i) {
    INFO("round " << i);
    check_words(make(dice));
  }
}

}  // namespace

TEST_CASE("words keep clear of each other in a winter's cold, with up to thirty needs") {
  hold_for_many(11, 150, [](Dice& dice) {
    return drawn(made_up_build_up(dice, one_of(dice, 31)), between(dice, 420, 520),
                 heads(dice) ? 0.0 : between(dice, 200, 300));
  });
}

TEST_CASE("a chart of a winter's cold is as high as it is told") {
  Dice dice(12);
  for (int i = 0; i < 30; ++i)
    CHECK(drawn(made_up_build_up(dice, 25), 500, 240).height().pt() == Approx(240));
}

TEST_CASE("needs that find no line in the table are named under the chart") {
  Dice dice(13);
  ChillBuildUp c = made_up_build_up(dice, 0);
  for (int i = 0; i < 40; ++i) {
    c.needs.push_back({{i + 10.0, i + 10.0},
                       MarkState::short_so_far,
                       literal("cultivar " + std::to_string(i)),
                       literal(std::to_string(i + 10)),
                       literal("never"),
                       std::nullopt,
                       i % 2 == 0});
  }
  const Frame frame = drawn(c, 520, 300);
  std::string all;
  for (const WordBox& word : words_of(frame, kMetrics)) all += word.text + " ";
  for (int i = 0; i < 40; ++i)
    CHECK(all.find("cultivar " + std::to_string(i)) != std::string::npos);
}

TEST_CASE("words keep clear of each other in a daily range, with many events") {
  hold_for_many(14, 150, [](Dice& dice) {
    return drawn(made_up_range(dice, one_of(dice, 9)), 504, heads(dice) ? 0.0 : 220.0);
  });
}

TEST_CASE("words keep clear of each other in rasters and weeks") {
  hold_for_many(15, 40,
                [](Dice& dice) { return drawn(made_up_raster(dice), between(dice, 420, 520)); });
  hold_for_many(16, 40,
                [](Dice& dice) { return drawn(made_up_weeks(dice), between(dice, 420, 520)); });
}

TEST_CASE("words keep clear of each other on cards") {
  hold_for_many(17, 200, [](Dice& dice) { return drawn(made_up_bar(dice), 246); });
  hold_for_many(18, 60, [](Dice& dice) { return drawn(made_up_strip(dice), 246); });
}

TEST_CASE("words keep clear of each other in calendars and keys") {
  hold_for_many(19, 40, [](Dice& dice) {
    return drawn(made_up_calendar(dice, 1 + one_of(dice, 10), 8), between(dice, 480, 520));
  });
  check_words(drawn(whole_key(), 504));
  check_words(drawn(whole_key(), 200));
}

TEST_CASE("words keep clear of each other on maps of one tree to five hundred") {
  for (const int trees : {1, 2, 7, 36, 120, 500}) {
    hold_for_many(20, 4, [&](Dice& dice) {
      return drawn(made_up_map(dice, trees), 504, heads(dice) ? 0.0 : 300.0);
    });
    hold_for_many(21, 4, [&](Dice& dice) { return drawn(made_up_map(dice, trees), 246, 158); });
  }
}

TEST_CASE(
    "words keep clear of each other in tallies of one tree to five hundred, and each tree is there "
    "once") {
  for (const int trees : {1, 34, 120, 500}) {
    Dice dice(22);
    const VerdictTally tally = made_up_tally(dice, trees);
    const Frame frame = drawn(tally, 504);
    check_words(frame);
    std::multiset<std::string> printed, meant;
    for (const WordBox& word : words_of(frame, kMetrics)) {
      if (word.text != "some words") printed.insert(word.text);
    }
    for (const auto& group : tally.groups) meant.insert(group.ids.begin(), group.ids.end());
    CHECK(printed == meant);
  }
}

TEST_CASE("a calendar breaks between rows, and its parts hold every row once, in order") {
  Dice dice(23);
  for (int round = 0; round < 20; ++round) {
    const SeasonCalendar whole = made_up_calendar(dice, 1 + one_of(dice, 9), 30);
    std::vector<std::string> meant, got;
    for (const auto& group : whole.groups) {
      for (const auto& row : group.rows) meant.push_back(row.id);
    }
    auto rest = std::make_shared<const Chart>(Chart{whole});
    const double high = between(dice, 80, 500);
    for (int part = 0; part < 200; ++part) {
      const auto parts =
          break_chart(*rest, {Length::points(504), Length::points(high)}, kMetrics, kStyle, kWords);
      const auto& now = parts ? parts->first : rest;
      CHECK(chart_height(*now, Length::points(504), kMetrics, kStyle, kWords).pt() <= high + 0.01);
      for (const auto& group : std::get<SeasonCalendar>(now->kind).groups) {
        for (const auto& row : group.rows) got.push_back(row.id);
      }
      if (!parts) break;
      rest = parts->second;
    }
    CHECK(got == meant);
  }
}

TEST_CASE("a tally of five hundred breaks into parts that fit and hold every tree once") {
  Dice dice(24);
  const VerdictTally whole = made_up_tally(dice, 500);
  std::multiset<std::string> meant, got;
  for (const auto& group : whole.groups) meant.insert(group.ids.begin(), group.ids.end());
  auto rest = std::make_shared<const Chart>(Chart{whole});
  for (int part = 0; part < 50; ++part) {
    const auto parts =
        break_chart(*rest, {Length::points(504), Length::points(150)}, kMetrics, kStyle, kWords);
    const auto& now = parts ? parts->first : rest;
    CHECK(chart_height(*now, Length::points(504), kMetrics, kStyle, kWords).pt() <= 150.01);
    for (const auto& group : std::get<VerdictTally>(now->kind).groups)
      got.insert(group.ids.begin(), group.ids.end());
    if (!parts) break;
    rest = parts->second;
  }
  CHECK(got == meant);
}

TEST_CASE(
    "a chart has the height it asks for, and one that takes no other looks the same in any room") {
  Dice dice(25);
  for (int round = 0; round < 10; ++round) {
    for (const Chart::Kind& kind :
         {Chart::Kind(made_up_raster(dice)), Chart::Kind(made_up_weeks(dice)),
          Chart::Kind(made_up_range(dice, 4)), Chart::Kind(made_up_strip(dice)),
          Chart::Kind(made_up_calendar(dice, 3, 5)), Chart::Kind(made_up_tally(dice, 40))}) {
      const Frame own = drawn(kind, 504);
      CHECK(chart_height(Chart{kind}, Length::points(504), kMetrics, kStyle, kWords) ==
            own.height());
      if (takes_height(Chart{kind}))
        CHECK(drawn(kind, 504, 321).height() == Length::points(321));
      else
        CHECK(frame_text(drawn(kind, 504, 321)) == frame_text(own));
    }
  }
}

TEST_CASE("charts with nothing in them draw without fault") {
  for (const Chart::Kind& kind :
       {Chart::Kind(RankedWinters{}), Chart::Kind(SeasonKey{}), Chart::Kind(VerdictTally{}),
        Chart::Kind(OrchardMap{}), Chart::Kind(NeedBar{})}) {
    CHECK(drawn(kind, 300).width().pt() == 300);
  }
  ChillBuildUp c;
  c.days = {kFirst, kEnd};
  check_words(drawn(c, 300));
  HourRaster raster;
  raster.days = c.days;
  check_words(drawn(raster, 300));
  DailyRange days;
  days.days = c.days;
  check_words(drawn(days, 300));
  WeeklyGain weeks;
  weeks.days = c.days;
  check_words(drawn(weeks, 300));
}

TEST_CASE("an hour on a line counts on its colder side: 7.2, 7.22 and 45 °F are one colour") {
  const auto fills = [](double celsius) {
    HourRaster c;
    c.days = {kFirst, kFirst};
    c.hours.assign(24, Celsius(celsius));
    c.edges = {{kFreezing, literal("32"), HourRaster::Line::freezing},
               {kChillLine, literal("45"), HourRaster::Line::chill}};
    const Frame frame = drawn(c, 200);
    std::set<std::string> inks;
    for (const Placed& placed : frame.items()) {
      const auto* path = std::get_if<DrawnPath>(&placed.item);
      // The raster's one column is as high as its 24 rows; the key's boxes are lower.
      if (path && path->fill && path->path.bounds().size.height.pt() > 100)
        inks.insert(ink_text(*path->fill));
    }
    return inks;
  };
  CHECK(fills(7.2) == fills(7.22));
  CHECK(fills(7.2) == fills(Celsius::from_fahrenheit(45).degrees()));
  CHECK(fills(7.2) != fills(7.23));
  CHECK(fills(0.0) != fills(0.01));
}
