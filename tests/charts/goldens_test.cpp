// One small chart of each kind as text, as a person last agreed to it: steadiness, not truth.
// Letters are half an em wide.
#include "charts/sample_charts.h"
#include "support/catch.h"
#include "support/frame_text.h"
#include "support/golden.h"
#include "support/half_em_metrics.h"
#include "support/test_words.h"

using namespace winterfolio;
using namespace winterfolio::test;

namespace {

void golden(const std::string& name, const std::string& to_be_seen, Chart::Kind kind, double width,
            double height = 0.0) {
  const HalfEmMetrics metrics;
  const Words words = test_words({{"chart.left-out", "No room above for: {what}"}});
  const Frame frame =
      draw_chart(Chart{std::move(kind)}, {Length::points(width), Length::points(height)}, metrics,
                 Style{}, words);
  check_golden("charts/" + name + ".txt", "# " + to_be_seen + "\n" + frame_text(frame));
}

}  // namespace

TEST_CASE("charts look as agreed") {
  Dice dice(99);
  golden(
      "build-up",
      "Two lines of words at the gap, five needs in a table, each with its square and its leader.",
      made_up_build_up(dice, 5), 420, 220);
  golden("need-bar", "A bar with its need above it as a bracket, and what there is below.",
         made_up_bar(dice), 246);
  golden("strip", "Three rows over month names; the last reading as one line through all of them.",
         made_up_strip(dice), 246);
  golden("weeks", "Fourteen bars with their numbers above them.", made_up_weeks(dice), 420);
  golden("ranks", "Five winters, the fourth in bold and violet with a hatched end.",
         made_up_ranks(dice, 5), 260);
  golden("tally", "Twelve squares in four groups, ids under them.", made_up_tally(dice, 12), 504);
  golden("map", "Nine trees with their names, one ringed, the hollow's outline around three.",
         made_up_map(dice, 9), 246, 158);
  golden("calendar", "Two species with their rows, a line for the last reading from rule to rule.",
         made_up_calendar(dice, 2, 3), 504);
  golden("key", "Every mark with its words, broken over lines.", whole_key(), 300);
  HourRaster raster = made_up_raster(dice);
  raster.days.to = plus_days(raster.days.from, 2);
  raster.hours.resize(60);
  golden("raster", "Three columns, the last half paper; two sun lines over them; the key below.",
         raster, 300, 160);
  golden("range",
         "Stems with cold under them and warmth over them; a hatched week; two events at the foot.",
         made_up_range(dice, 2), 420, 180);
}
