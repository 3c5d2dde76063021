// Words around values: counts, numbers, dates and lists as a person writes them. Expected texts are
// written by hand from the house's rules of style (common practice, no source).
#include <stdexcept>

#include "document/block.h"
#include "document/words.h"
#include "support/catch.h"
#include "support/test_words.h"

using namespace winterfolio;
using winterfolio::test::test_words;

namespace {

std::string printed(const std::string& words, std::vector<NamedValue> values = {}) {
  return test_words({{"t", words}}).plain(say("t", std::move(values)));
}

}  // namespace

TEST_CASE(
    "Counts choose their noun, are spelled up to twelve and start a sentence with a capital") {
  const std::string words = "{^n:word} of the {all} {all?tree|trees}";
  CHECK(printed(words, {{"n", count(5)}, {"all", count(34)}}) == "Five of the 34 trees");
  CHECK(printed(words, {{"n", count(12)}, {"all", count(1)}}) == "Twelve of the 1 tree");
  CHECK(printed(words, {{"n", count(13)}, {"all", count(2)}}) == "13 of the 2 trees");
  CHECK(printed("{^n:spelled} of them", {{"n", count(21)}}) == "Twenty-one of them");
  CHECK(printed("{n:spelled}", {{"n", count(40)}}) == "forty");
  CHECK(printed("{n:spelled}", {{"n", count(100)}}) == "100");
}

TEST_CASE("A count of nothing, or any one number, can have words of its own") {
  const std::string words =
      "{n?=0 no trees are|=2 both trees are|{n:word} tree is|{n} trees are} short";
  CHECK(printed(words, {{"n", count(0)}}) == "no trees are short");
  CHECK(printed(words, {{"n", count(1)}}) == "one tree is short");
  CHECK(printed(words, {{"n", count(2)}}) == "both trees are short");
  CHECK(printed(words, {{"n", count(17)}}) == "17 trees are short");
}

TEST_CASE("Ordinals are words up to twelfth and take the right ending beyond") {
  const auto ordinal = [](long n) { return printed("{n:ordinal}", {{"n", count(n)}}); };
  CHECK(ordinal(1) == "first");
  CHECK(ordinal(12) == "twelfth");
  CHECK(ordinal(13) == "13th");
  CHECK(ordinal(21) == "21st");
  CHECK(ordinal(22) == "22nd");
  CHECK(ordinal(103) == "103rd");
  CHECK(ordinal(111) == "111th");
}

TEST_CASE("Numbers have a true minus, thousands and fixed decimals") {
  const Words words = test_words();
  CHECK(words.number(2208) == "2,208");
  CHECK(words.number(1234567.891, 1) == "1,234,567.9");
  CHECK(words.number(999) == "999");
  CHECK(words.number(-3.25, 1) == "−3.2");
  CHECK(words.number(-0.04, 1) == "0.0");
  CHECK(words.number(42, 1) == "42.0");
}

TEST_CASE(
    "Ranges take an en dash, words where an end is negative, and shrink to one number where ends "
    "agree") {
  const Words words = test_words();
  CHECK(words.number_range(42, 45) == "42–45");
  CHECK(words.number_range(41.96, 42.04, 1) == "42.0");
  CHECK(words.number_range(-3, 2) == "−3 to 2");
  CHECK(words.number_range(26, 28, 0, "fahrenheit") == "26–28°F");
  CHECK(words.number(1, 0, "hours") == "1 hour");
  CHECK(words.number_range(1, 3, 0, "hours") == "1–3 hours");
}

TEST_CASE("Dates in every form") {
  const Words words = test_words();
  const Date date = date_of(2027, 1, 31);  // a Sunday, by ISO 8601 reckoning
  CHECK(words.date(date, DateForm::full) == "31 January 2027");
  CHECK(words.date(date, DateForm::weekday) == "Sunday 31 January 2027");
  CHECK(words.date(date, DateForm::day_month) == "31 January");
  CHECK(words.date(date, DateForm::weekday_month) == "Sunday 31 January");
  CHECK(words.date(date, DateForm::brief) == "31 Jan");
  CHECK(words.date(date, DateForm::month_year) == "January 2027");
  CHECK(words.date(date, DateForm::month_brief) == "Jan");
  CHECK(words.date(date, DateForm::iso) == "2027-01-31");
  CHECK(printed("{d:weekday}", {{"d", day(date, DateForm::brief)}}) == "Sunday 31 January 2027");
}

TEST_CASE("Ranges of days name month and year once where they agree") {
  const Words words = test_words();
  const auto between = [&](Date a, Date b, DateForm form) { return words.date_range(a, b, form); };
  CHECK(between(date_of(2026, 12, 7), date_of(2026, 12, 10), DateForm::day_month) ==
        "7–10 December");
  CHECK(between(date_of(2026, 12, 7), date_of(2026, 12, 10), DateForm::full) ==
        "7–10 December 2026");
  CHECK(between(date_of(2027, 1, 28), date_of(2027, 2, 2), DateForm::day_month) ==
        "28 January to 2 February");
  CHECK(between(date_of(2027, 1, 28), date_of(2027, 2, 2), DateForm::brief) == "28 Jan – 2 Feb");
  CHECK(between(date_of(2026, 12, 28), date_of(2027, 1, 2), DateForm::full) ==
        "28 December 2026 to 2 January 2027");
  CHECK(between(date_of(2027, 1, 28), date_of(2027, 2, 2), DateForm::full) ==
        "28 January to 2 February 2027");
  CHECK(between(date_of(2027, 1, 28), date_of(2027, 1, 28), DateForm::brief) == "28 Jan");
}

TEST_CASE("Hours of the day, and winters of either hemisphere") {
  const Words words = test_words();
  CHECK(words.hour(0) == "midnight");
  CHECK(words.hour(12) == "noon");
  CHECK(words.hour(5) == "5 am");
  CHECK(words.hour(23) == "11 pm");
  CHECK(printed("{h}", {{"h", HourOfDay{LocalHour::at(date_of(2027, 1, 31), 23),
                                        DateForm::weekday}}}) == "Sunday 31 January 2027, 11 pm");
  CHECK(words.winter({2026, false}) == "2026–27");
  CHECK(words.winter({1999, false}) == "1999–00");
  CHECK(words.winter({2026, true}) == "2026");
}

TEST_CASE("Lists join with commas and a last word") {
  const auto list = [](std::vector<std::string> names, TextList::Joined joined) {
    TextList texts;
    texts.joined = joined;
    for (std::string& name : names) texts.items.push_back(literal(name));
    return printed("{l}", {{"l", texts}});
  };
  CHECK(list({"A1"}, TextList::Joined::with_and) == "A1");
  CHECK(list({"A1", "B2"}, TextList::Joined::with_and) == "A1 and B2");
  CHECK(list({"A1", "B2", "C3"}, TextList::Joined::with_or) == "A1, B2 or C3");
  CHECK(list({"A1", "B2", "C3"}, TextList::Joined::plain) == "A1, B2, C3");
}

TEST_CASE("Bold spans, also around values and nested words") {
  const Words words = test_words({{"t", "*{n} met,* and {inner}"}, {"inner", "the *rest* wait"}});
  const RichText rich = words.rich(say("t", {{"n", count(16)}, {"inner", say("inner")}}));
  const RichText expected = {
      {"16 met,", true}, {" and the ", false}, {"rest", true}, {" wait", false}};
  CHECK(rich == expected);
  CHECK(printed("5 ** 3 is {{x}}") == "5 * 3 is {x}");
  CHECK(printed("about ~~5 ~by the book~") == "about ~5 by the book");
}

TEST_CASE("A name is printed as it is, whatever marks it holds") {
  CHECK(printed("{name} is met", {{"name", literal("Rye*{n}*|x")}}) == "Rye*{n}*|x is met");
  CHECK(test_words().plain(literal("*A1*")) == "*A1*");
}

TEST_CASE("A first letter with an accent gets its capital") {
  CHECK(printed("{^name}", {{"name", literal("élan")}}) == "Élan");
  CHECK(printed("{^name}", {{"name", literal("Zed")}}) == "Zed");
}

TEST_CASE("Broken words and missing values are faults of the program") {
  CHECK_THROWS_AS(test_words().plain(say("no.such.id")), std::logic_error);
  CHECK_THROWS_AS(printed("{x} trees"), std::logic_error);
  CHECK_THROWS_AS(printed("{n trees", {{"n", count(1)}}), std::logic_error);
  CHECK_THROWS_AS(printed("n} trees"), std::logic_error);
  CHECK_THROWS_AS(printed("{n?a|b|c}", {{"n", count(1)}}), std::logic_error);
  CHECK_THROWS_AS(printed("{n:loud}", {{"n", count(1)}}), std::logic_error);
}

TEST_CASE("Blocks are made from their kinds and carry an importance") {
  Blocks blocks;
  blocks.push_back(Heading{1, literal("Frost"), {}});
  blocks.push_back({Paragraph{Role::note, literal("x")}, Importance::extra});
  blocks.push_back(KeepTogether{{Heading{2, literal("In"), {}}}});
  const Blocks copy = blocks;
  CHECK(copy[0].importance == Importance::useful);
  CHECK(copy[1].importance == Importance::extra);
  CHECK(std::get<KeepTogether>(copy[2].content).blocks.size() == 1);
  CHECK(message_id(say("a.b")) == "a.b");
  CHECK(message_id(literal("a.b")).empty());
}
