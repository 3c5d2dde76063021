// The front page of an orchard whose winter is reckoned by hand (tests/support/report_orchard.h).
#include "report/sections.h"
#include "support/blocks.h"
#include "support/catch.h"
#include "support/report_orchard.h"

using namespace winterfolio;
using namespace winterfolio::test;

namespace {

std::vector<std::string> ids_of(const VerdictTally& tally, MarkState state) {
  std::vector<std::string> ids;
  for (const auto& group : tally.groups) {
    if (group.state == state) ids.insert(ids.end(), group.ids.begin(), group.ids.end());
  }
  return ids;
}

using Ids = std::vector<std::string>;

/// The row of the front's table of tasks whose text says `id`; nullptr if none does.
const TableRow* task_row(const Blocks& blocks, std::string_view id) {
  for (const Table* table : blocks_of<Table>(blocks)) {
    for (const TableGroup& group : table->groups) {
      for (const TableRow& row : group.rows) {
        if (says(row.cells[1].text, id)) return &row;
      }
    }
  }
  return nullptr;
}

}  // namespace

TEST_CASE("the sentence counts the ten resting trees by their states and no tree of another kind") {
  const auto orchard = report_orchard();
  const Blocks front = front_section(orchard->facts());
  // Met: A1, B3, C1, C2, C4, D1.
  CHECK(count_of(message_in(front, "front.met"), "met") == 6);
  CHECK(count_of(message_in(front, "front.met"), "all") == 10);
  CHECK(count_of(message_in(front, "front.nearly"), "n") == 1);
  CHECK(count_of(message_in(front, "front.short"), "n") == 1);
  CHECK(count_of(message_in(front, "front.undecided"), "n") == 1);
  CHECK(count_of(message_in(front, "front.unknown"), "n") == 1);
}

TEST_CASE("each resting tree has one square in the group of its state") {
  const auto orchard = report_orchard();
  const Blocks front = front_section(orchard->facts());
  const auto* tally = chart_in<VerdictTally>(front);
  REQUIRE(tally);
  // Met first by the day: 300, 400, 500, 1000, 1200 and 1400 hours at 18 a day.
  CHECK(ids_of(*tally, MarkState::met) == Ids{"C1", "D1", "B3", "A1", "C2", "C4"});
  CHECK(ids_of(*tally, MarkState::nearly) == Ids{"A2"});
  CHECK(ids_of(*tally, MarkState::short_so_far) == Ids{"A3"});
  // Undecided and unknown share the dotted mark.
  CHECK(ids_of(*tally, MarkState::not_known) == Ids{"A4", "B1"});
}

TEST_CASE(
    "the chart's line ends at the last reading with what was received, and ranks the winter") {
  const auto orchard = report_orchard();
  const Blocks front = front_section(orchard->facts());
  const auto* chart = chart_in<ChillBuildUp>(front);
  REQUIRE(chart);
  REQUIRE(chart->last);
  CHECK(chart->last->recorded.amount == Approx(1656));
  CHECK(chart->last->recorded.at == LocalHour::at(date_of(2027, 2, 1), 0));
  CHECK_FALSE(chart->last->with_gaps);
  const Message* rank =
      message_in(figure_with<ChillBuildUp>(front)->title, "chart.rank.nth-coldest");
  CHECK(count_of(rank, "n") == 2);
  CHECK(count_of(rank, "all") == 5);
}

TEST_CASE("a need of the chart stands where the curve reaches it") {
  const auto orchard = report_orchard();
  const Blocks front = front_section(orchard->facts());
  const auto* chart = chart_in<ChillBuildUp>(front);
  REQUIRE(chart);
  const auto need = [&](double amount) {
    for (const auto& one : chart->needs) {
      if (one.amount.high == amount) return one;
    }
    return ChillBuildUp::Need{};
  };
  REQUIRE(need(1000).met);
  CHECK(need(1000).state == MarkState::met);
  CHECK(need(1000).met->at == LocalHour::at(date_of(2026, 12, 27), 0));  // the end of the 26th
  CHECK(need(1000).met->amount == Approx(1008));
  CHECK(need(2500).state == MarkState::short_so_far);
  CHECK_FALSE(need(2500).met);
}

TEST_CASE("four figures: what was received, what is likely, and the frost nights") {
  const auto orchard = report_orchard();
  const Blocks front = front_section(orchard->facts());
  const auto figures = blocks_of<BigFigures>(front);
  REQUIRE(figures.size() == 1);
  const auto& entries = figures[0]->entries;
  REQUIRE(entries.size() >= 3);
  const auto* received = value_in<Number>(entries.front().value);
  REQUIRE(received);
  CHECK(received->value == Approx(1656));
  // Half of 1104, 1472, 1840 and 920 lie over 1288.
  const auto* median =
      value_of<Number>(message_in(entries.front().note, "figure.median"), "median");
  REQUIRE(median);
  CHECK(median->value == Approx(1288));
  const auto* frosts = value_in<Number>(entries.back().value);
  REQUIRE(frosts);
  CHECK(frosts->value == 1);
  const Message* coldest = message_in(entries.back().note, "figure.coldest");
  const auto* lowest = value_of<Number>(coldest, "lowest");
  REQUIRE(lowest);
  CHECK(lowest->value == Approx(-3));
  CHECK(lowest->unit == "celsius");
  const auto* hour = value_of<HourOfDay>(coldest, "hour");
  REQUIRE(hour);
  CHECK(hour->hour == LocalHour::at(date_of(2027, 1, 10), 5));
}

TEST_CASE("what is likely spans the tenth to the ninetieth of the past winters' remainders") {
  const auto orchard = report_orchard();
  const Blocks front = front_section(orchard->facts());
  const auto figures = blocks_of<BigFigures>(front);
  REQUIRE(figures.size() == 1);
  const NumberRange* likely = nullptr;
  for (const auto& entry : figures[0]->entries) {
    if (const auto* found = value_in<NumberRange>(entry.value)) likely = found;
  }
  REQUIRE(likely);
  // Ends of 1936, 1992, 2104, 2216: quantiles of type 7 at 0.3 and 2.7 of the three steps.
  CHECK(likely->low == Approx(1936 + 0.3 * 56));
  CHECK(likely->high == Approx(2104 + 0.7 * 112));
}

TEST_CASE("Fahrenheit orchards read their frost in Fahrenheit") {
  ReportWish wish;
  wish.fahrenheit = true;
  const auto orchard = report_orchard(wish);
  const Blocks front = front_section(orchard->facts());
  const auto* lowest = value_of<Number>(message_in(front, "figure.coldest"), "lowest");
  REQUIRE(lowest);
  CHECK(lowest->unit == "fahrenheit");
  CHECK(lowest->value == Approx(26.6));
}

TEST_CASE("a gap gives a range: the days filled from other winters") {
  ReportWish wish;
  wish.gap = true;
  const auto orchard = report_orchard(wish);
  const Blocks front = front_section(orchard->facts());
  const auto* chart = chart_in<ChillBuildUp>(front);
  REQUIRE(chart);
  REQUIRE(chart->last->with_gaps);
  // Three days of 18 hours lost; those of the others hold 10 to 20 a day, so far apart that all of
  // the 72 hours, or none, may have been cold.
  CHECK(chart->last->recorded.amount == Approx(1602));
  CHECK(chart->last->with_gaps->low == Approx(1602));
  CHECK(chart->last->with_gaps->high == Approx(1674));
  REQUIRE(chart->gaps.size() == 1);
  CHECK(chart->gaps[0].from == LocalHour::at(date_of(2027, 1, 5), 0));
  CHECK(chart->gaps[0].until == LocalHour::at(date_of(2027, 1, 8), 0));
}

TEST_CASE("a winter without past years says so and claims no rank, no median and no forecast") {
  ReportWish wish;
  wish.past_winters = false;
  const auto orchard = report_orchard(wish);
  const Blocks front = front_section(orchard->facts());
  const auto* chart = chart_in<ChillBuildUp>(front);
  REQUIRE(chart);
  CHECK_FALSE(chart->median);
  CHECK_FALSE(chart->forecast);
  CHECK(chart->extremes.empty());
  CHECK(says(figure_with<ChillBuildUp>(front)->title, "chart.alone"));
  CHECK(says(front, "figure.not-known"));
  CHECK(says(front, "figure.no-past"));
  CHECK_FALSE(says_any_of(front, "chart.rank"));
}

TEST_CASE("what to do now is dated by windows: what closes first, then the workday's trees") {
  const auto orchard = report_orchard();
  const Blocks front = front_section(orchard->facts());
  const TableRow* closing = task_row(front, "task.closing");
  REQUIRE(closing);
  const auto* by = value_of<Day>(message_in(closing->cells[0].text, "task.by"), "day");
  REQUIRE(by);
  CHECK(by->date == date_of(2027, 1, 31));
  CHECK(literals_in(closing->cells[2].text) == Ids{"D1"});
  // A3 is short and A4 may be: the day's cuts are light.
  const TableRow* workday = task_row(front, "task.workday-light");
  REQUIRE(workday);
  const auto* on = value_in<Day>(workday->cells[0].text);
  REQUIRE(on);
  CHECK(on->date == date_of(2027, 2, 13));
  CHECK(literals_in(workday->cells[2].text) == Ids{"A1", "A2", "A3", "A4", "B1"});
}

TEST_CASE("without a workday, the trees in their time stand with its days") {
  ReportWish wish;
  wish.workday = false;
  const auto orchard = report_orchard(wish);
  const Blocks front = front_section(orchard->facts());
  const TableRow* row = task_row(front, "task.without-workday");
  REQUIRE(row);
  const auto* when = value_in<DayRange>(row->cells[0].text);
  REQUIRE(when);
  CHECK(when->from == date_of(2027, 1, 31));
  CHECK(when->to == date_of(2027, 3, 15));  // tests/published/pruning_windows.csv: apple
}

TEST_CASE("a single tree is spoken of as one") {
  ReportWish wish;
  wish.trees = {report_orchard_parts::trees().front()};
  const auto orchard = report_orchard(wish);
  const Blocks front = front_section(orchard->facts());
  CHECK(says(front, "front.single.met"));
  CHECK_FALSE(says(front, "front.verdict"));
}

TEST_CASE("an orchard of other kinds alone has no verdict and no squares") {
  ReportWish wish;
  wish.trees = {report_orchard_parts::trees()[5]};
  const auto orchard = report_orchard(wish);
  const Blocks front = front_section(orchard->facts());
  CHECK(says(front, "front.no-trees"));
  CHECK_FALSE(chart_in<VerdictTally>(front));
}
