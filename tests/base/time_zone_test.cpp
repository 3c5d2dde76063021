// Civil clocks with their jumps, against the dates on which the law of each place says the clocks
// change.
#include "base/time_zone.h"

#include "base/dates.h"
#include "support/catch.h"

using namespace winterfolio;

namespace {

std::int64_t at(int year, unsigned month, unsigned day, int hour, int minute = 0) {
  return std::int64_t{days_between(date_of(1970, 1, 1), date_of(year, month, day))} * 86400 +
         hour * 3600 + minute * 60;
}

using Kind = TimeZone::Stretch::Kind;

}  // namespace

TEST_CASE("Zones are found by name, and near misses are named") {
  CHECK_FALSE(TimeZone::named("America/Los_Angelos"));
  CHECK_FALSE(TimeZone::named(""));
  CHECK_FALSE(TimeZone::named("../../etc/passwd"));
  CHECK(TimeZone::nearest("America/Los_Angelos") == "America/Los_Angeles");
}

TEST_CASE(
    "Standard time is the smaller offset, north and south, whichever season the law calls "
    "standard") {
  CHECK(TimeZone::named("America/Los_Angeles")->standard_offset_minutes() == -480);
  CHECK(TimeZone::named("Europe/Dublin")->standard_offset_minutes() == 0);
  CHECK(TimeZone::named("Australia/Hobart")->standard_offset_minutes() == 600);
  CHECK(TimeZone::named("Asia/Kolkata")->standard_offset_minutes() == 330);
  CHECK(TimeZone::named("UTC")->standard_offset_minutes() == 0);
}

TEST_CASE(
    "The jumps of 2024 in California: 10 March 02:00 is skipped, 3 November 01:00 is told twice") {
  // United States, Energy Policy Act of 2005, section 110: second Sunday of March to first Sunday
  // of November, 2 a.m.
  const TimeZone zone = *TimeZone::named("America/Los_Angeles");
  const auto winter = zone.stretch_at(at(2024, 1, 15, 12));
  CHECK(winter.kind == Kind::unique);
  CHECK(winter.offset == -8 * 3600);
  CHECK(winter.from == at(2023, 11, 5, 2));
  CHECK(winter.to == at(2024, 3, 10, 2));
  const auto skipped = zone.stretch_at(at(2024, 3, 10, 2, 30));
  CHECK(skipped.kind == Kind::skipped);
  CHECK(skipped.from == at(2024, 3, 10, 2));
  CHECK(skipped.to == at(2024, 3, 10, 3));
  CHECK(skipped.offset == -8 * 3600);
  CHECK(skipped.later_offset == -7 * 3600);
  const auto summer = zone.stretch_at(at(2024, 3, 10, 3));
  CHECK(summer.kind == Kind::unique);
  CHECK(summer.from == at(2024, 3, 10, 3));
  CHECK(summer.to == at(2024, 11, 3, 1));
  const auto twice = zone.stretch_at(at(2024, 11, 3, 1, 30));
  CHECK(twice.kind == Kind::told_twice);
  CHECK(twice.from == at(2024, 11, 3, 1));
  CHECK(twice.to == at(2024, 11, 3, 2));
  CHECK(twice.offset == -7 * 3600);
  CHECK(twice.later_offset == -8 * 3600);
}

TEST_CASE("A zone without jumps has one long stretch") {
  const auto stretch = TimeZone::named("UTC")->stretch_at(at(2024, 6, 1, 0));
  CHECK(stretch.kind == Kind::unique);
  CHECK(stretch.offset == 0);
  CHECK(stretch.from < at(1900, 1, 1, 0));
  CHECK(stretch.to > at(2100, 1, 1, 0));
  CHECK(TimeZone::named("Asia/Kolkata")->offset_at_utc(at(2024, 6, 1, 0)) == 19800);
}
