// The winters among each other: what is said of a change from year to year.
#include "report/sections.h"
#include "support/blocks.h"
#include "support/catch.h"
#include "support/report_orchard.h"

using namespace winterfolio;
using namespace winterfolio::test;

namespace {

/// The years of the small orchard, its first measure changed as told.
Blocks years_with(const Trend& trend) {
  const auto orchard = report_orchard();
  SeasonFacts facts = orchard->facts();
  facts.shown.front().years.trend = trend;
  return years_section(facts);
}

const NamedValue* value_of(const Message& message, std::string_view name) {
  for (const NamedValue& value : message.values) {
    if (value.name == name) return &value;
  }
  return nullptr;
}

Trend rising(double p) {
  Trend trend;
  trend.test = {9, 36, 92.0, 3.649, p};
  trend.line = {36, 100.0, 90.0, 110.0};
  trend.word = TrendWord::rising;
  trend.first_year = 2018;
  trend.last_year = 2026;
  return trend;
}

}  // namespace

TEST_CASE("a change from year to year is told from a winter on, not from a count") {
  const Blocks years = years_with(rising(0.02));
  const Message* note = message_in(years, "years.trend-note");
  REQUIRE(note);
  const NamedValue* first = value_of(*note, "first");
  REQUIRE(first);
  const auto* winter = std::get_if<WinterYears>(&first->value);
  REQUIRE(winter);  // a count would print as 2,018
  CHECK(winter->began == 2018);
}

TEST_CASE("no chance is told as nought") {
  // Nine winters each colder than the last: two orders of 9! = 362 880 are as far from nought.
  const Blocks years = years_with(rising(2.0 / 362880.0));
  CHECK(message_in(years, "years.trend-note-rare"));
  CHECK_FALSE(message_in(years, "years.trend-note"));
  const Blocks at_one = years_with(rising(0.01));
  CHECK(message_in(at_one, "years.trend-note"));
}
