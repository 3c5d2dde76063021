// What is said, before it is said in any language: an id with named values, or a name that no one
// translates.
//
//   say("season.verdict", {{"met", count(16)}, {"all", count(34)}})   ->  "Sixteen of the 34 trees
//   ..." literal("Granny Smith")                                          ->  as it stands
//
// The words stand in templates/words/<language>.yaml; Words (document/words.h) puts the two
// together.
#pragma once

#include <initializer_list>
#include <optional>
#include <string>
#include <string_view>
#include <variant>
#include <vector>

#include "base/dates.h"

namespace winterfolio {

struct NamedValue;

/// Data that reads the same in every language: an id, a cultivar, a file name. Never marked up.
struct Literal {
  std::string text;
};

/// A printed sentence or word by its id, with the values its words may name.
struct Message {
  std::string id;
  std::vector<NamedValue> values;
};

/// Something to print. Empty by default, which prints nothing.
struct Text {
  std::variant<Literal, Message> content;
  bool empty() const;
};

/// How many of something; chooses singular or plural, and can be spelled ("sixteen").
struct Count {
  long value = 0;
};

/// An amount with fixed decimals and, if named, a unit of the words' `units:`.
struct Number {
  double value = 0.0;
  int decimals = 0;
  std::string unit;
};

/// Both ends of what an amount can be; prints as one number where they agree once rounded.
struct NumberRange {
  double low = 0.0;
  double high = 0.0;
  int decimals = 0;
  std::string unit;
};

/// How dates are written; the words' `dates:` hold a pattern for each.
enum class DateForm {
  full,           ///< 31 January 2027
  weekday,        ///< Sunday 31 January 2027
  day_month,      ///< 31 January
  weekday_month,  ///< Sunday 31 January
  brief,          ///< 31 Jan
  month_year,     ///< January 2027
  month,          ///< January
  month_brief,    ///< Jan
  iso,            ///< 2027-01-31
};

struct Day {
  Date date{};
  DateForm form = DateForm::day_month;
};

/// From one day to another, both meant; months and years that agree are named once.
struct DayRange {
  Date from{};
  Date to{};
  DateForm form = DateForm::day_month;
};

/// An hour of the orchard's clock: "11 pm", with its day in front if a form is given.
struct HourOfDay {
  LocalHour hour{};
  std::optional<DateForm> day;
};

/// A winter by the year it began in: "2026–27", in the south, where it lies in one year, "2027".
struct WinterYears {
  int began = 0;
  bool within_one_year = false;
};

/// Several texts in a row: "A1, A5 and B2" (and), "A1 or A5" (or), "A1, A5" (plain).
struct TextList {
  enum class Joined { plain, with_and, with_or };
  std::vector<Text> items;
  Joined joined = Joined::with_and;
};

using Value =
    std::variant<Count, Number, NumberRange, Day, DayRange, HourOfDay, WinterYears, Text, TextList>;

struct NamedValue {
  std::string name;
  Value value;
};

/// Builders, so that a section reads like what it says.
Text say(std::string id, std::vector<NamedValue> values = {});
/// One word of a family of words, e.g. say_one_of("species", "apple") for the id "species.apple".
Text say_one_of(std::string_view family, std::string_view member,
                std::vector<NamedValue> values = {});
Text literal(std::string text);
inline Count count(long value) { return {value}; }
inline Number number(double value, int decimals = 0, std::string unit = {}) {
  return {value, decimals, std::move(unit)};
}
inline NumberRange range(double low, double high, int decimals = 0, std::string unit = {}) {
  return {low, high, decimals, std::move(unit)};
}
inline Day day(Date date, DateForm form = DateForm::day_month) { return {date, form}; }
inline DayRange days(Date from, Date to, DateForm form = DateForm::day_month) {
  return {from, to, form};
}
/// A value alone, as a text: for table cells and big figures.
Text value_text(Value value);
/// The id and the values of a message, for tests that read a document back; empty for a literal.
std::string_view message_id(const Text& text);

}  // namespace winterfolio
