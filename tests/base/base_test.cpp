// Units, dates, tables and messages: the small things that everything else trusts.
#include "base/dates.h"
#include "base/diagnostic.h"
#include "base/units.h"
#include "support/catch.h"
#include "support/files.h"

using namespace winterfolio;

// No way leads from one measure to another, nor from a difference to a temperature. Checked by the
// compiler.
static_assert(!std::is_convertible_v<ChillHours, ChillPortions>);
static_assert(!std::is_constructible_v<ChillPortions, ChillHours>);
static_assert(!std::is_assignable_v<ChillPortions&, UtahUnits>);
static_assert(!std::is_constructible_v<UtahUnits, UtahDailyPositiveUnits>);
static_assert(!std::is_convertible_v<CelsiusDelta, Celsius>);
static_assert(!std::is_constructible_v<Celsius, CelsiusDelta>);
static_assert(!std::is_convertible_v<double, Celsius>);
template <typename A, typename B>
concept Comparable = requires(A a, B b) {
  a < b;
};
template <typename A, typename B>
concept Addable = requires(A a, B b) {
  a + b;
};
static_assert(Comparable<ChillHours, ChillHours>);
static_assert(!Comparable<ChillHours, ChillPortions>);
static_assert(!Addable<ChillHours, ChillPortions>);
static_assert(!Addable<Celsius, Celsius>);
static_assert(Addable<Celsius, CelsiusDelta>);

TEST_CASE("fixed points of the two scales (definition of the Fahrenheit scale)") {
  CHECK(Celsius::from_fahrenheit(32.0).degrees() == 0.0);
  CHECK(Celsius::from_fahrenheit(212.0).degrees() == 100.0);
  CHECK_THAT(Celsius(-40.0).fahrenheit(), WithinAbs(-40.0, 1e-12));
  CHECK_THAT(Celsius::from_kelvin(273.15).degrees(), WithinAbs(0.0, 1e-12));
}

TEST_CASE("a difference converts as a difference: 0.5 °C is 0.9 °F") {
  CHECK_THAT(CelsiusDelta(0.5).fahrenheit(), WithinAbs(0.9, 1e-12));
  CHECK_THAT(CelsiusDelta::from_fahrenheit(-2.7).degrees(), WithinAbs(-1.5, 1e-12));
}

TEST_CASE("lengths (international foot of 1959, point of 1/72 inch)") {
  CHECK_THAT(Metres::from_feet(10.0).metres(), WithinAbs(3.048, 1e-12));
  CHECK_THAT(Length::millimetres(25.4).pt(), WithinAbs(72.0, 1e-12));
}

TEST_CASE("every measure's id leads back to it") {
  for (const ChillMeasure measure : kChillMeasures)
    CHECK(chill_measure_named(id_of(measure)) == measure);
  CHECK_FALSE(chill_measure_named("portion").has_value());
}

TEST_CASE("days and hours count across leap days and before 1970") {
  CHECK(days_between(date_of(2024, 2, 28), date_of(2024, 3, 1)) == 2);
  CHECK(days_between(date_of(2023, 2, 28), date_of(2023, 3, 1)) == 1);
  CHECK(day_of_year(date_of(2024, 12, 31)) == 366);
  CHECK(LocalHour::at(date_of(1970, 1, 1), 0).hours_since_1970() == 0);
  const LocalHour before = LocalHour::at(date_of(1969, 12, 31), 23);
  CHECK(before.hours_since_1970() == -1);
  CHECK(before.hour_of_day() == 23);
  CHECK(iso_hour(before) == "1969-12-31T23:00");
}

TEST_CASE("dates are read only where they are real") {
  CHECK(parse_date("2024-02-29") == date_of(2024, 2, 29));
  CHECK_FALSE(parse_date("2023-02-29").has_value());
  CHECK_FALSE(parse_date("2023-2-9").has_value());
  CHECK_FALSE(parse_date("2023-02-09 ").has_value());
  CHECK(parse_partial_date("2019-02")->month == 2U);
  CHECK_FALSE(parse_partial_date("2019-13").has_value());
}

TEST_CASE("02-29 means the last day of February") {
  const MonthDay day = *parse_month_day("02-29");
  CHECK(day.in_year(2024) == date_of(2024, 2, 29));
  CHECK(day.in_year(2025) == date_of(2025, 2, 28));
  CHECK_FALSE(parse_month_day("02-30").has_value());
  CHECK_FALSE(parse_month_day("13-01").has_value());
}

TEST_CASE("a message shows its line, caret, expectation and remedy") {
  Diagnostic d;
  d.at = {"orchard.yaml", 23, 15};
  d.message = "unknown species 'aple'";
  d.expected = "an id of the species table; did you mean 'apple'?";
  d.mend = "write 'species: apple'";
  d.source_line = "    species: \taple";
  d.at.column = 15;
  d.width = 4;
  CHECK(to_text(d) ==
        "orchard.yaml:23:15: error: unknown species 'aple'\n"
        "   23 |     species:  aple\n"
        "      |               ^^^^\n"
        "  expected: an id of the species table; did you mean 'apple'?\n"
        "  mend:     write 'species: apple'\n");
}

TEST_CASE("a line of a megabyte is cut around its caret") {
  Diagnostic d;
  d.at = {"t.csv", 1, 500001};
  d.message = "m";
  d.source_line = std::string(500000, 'a') + "X" + std::string(500000, 'b');
  const std::string text = to_text(d);
  CHECK(text.size() < 600);
  const std::size_t shown = text.find(" | ") + 3;
  const std::size_t caret_line = text.find(" | ", shown) + 3;
  const std::size_t caret = text.find('^') - caret_line;
  // Every character before the X is one byte but the ellipsis, which has three.
  CHECK(text.find('X') - shown - 2 == caret);
}

TEST_CASE("columns count characters, not bytes") {
  const std::string line = "größe: x";
  CHECK(column_of_byte(line, line.find('x')) == 8);
  CHECK(column_of_byte(line, 0) == 1);
}

TEST_CASE("the nearest name is offered only when it is near") {
  const std::vector<std::string> names = {"apple", "pear", "sweet_cherry"};
  CHECK(nearest_name("aple", names) == "apple");
  CHECK(nearest_name("Sweet_chery", names) == "sweet_cherry");
  CHECK(nearest_name("zzz", names).empty());
}

TEST_CASE("tables follow RFC 4180: quotes, doubled quotes, commas and line breaks inside cells") {
  const CsvTable table("t.csv",
                       "# what:   a test\n# source: RFC 4180,\n#   section 2\r\n"
                       "a,b\r\n\"x, y\",\"he said \"\"no\"\"\"\r\n\"two\nlines\",3.5\n");
  CHECK(table.header("source") == "RFC 4180, section 2");
  CHECK(table.row(0).text("a") == "x, y");
  CHECK(table.row(0).text("b") == "he said \"no\"");
  CHECK(table.row(1).text("a") == "two\nlines");
  CHECK(table.row(1).number("b") == 3.5);
  CHECK(table.row(1).line() == 6);
  CHECK_THROWS_AS(table.row(0).number("a"), std::logic_error);
  CHECK_THROWS_AS(CsvTable("t.csv", "a,b\n1\n"), std::logic_error);
}

TEST_CASE("numbers are the whole text, with a point, and finite") {
  CHECK(parse_number("-1.5") == -1.5);
  CHECK(parse_number("+7") == 7.0);
  CHECK_FALSE(parse_number("1,5").has_value());
  CHECK_FALSE(parse_number("1.5 ").has_value());
  CHECK_FALSE(parse_number("nan").has_value());
  CHECK_FALSE(parse_number("1e999").has_value());
  CHECK_FALSE(parse_number("").has_value());
}
