// Words enough to set a page without reading a file: how English writes numbers and dates, and what
// a test adds.
#pragma once

#include <string>
#include <utility>
#include <vector>

#include "document/words.h"

namespace winterfolio::test {

inline Words test_words(std::vector<std::pair<std::string, std::string>> more = {}) {
  Words::Entries e = {
      {"value", "{value}"},
      {"dates.full", "{day} {month} {year}"},
      {"dates.weekday", "{weekday} {day} {month} {year}"},
      {"dates.day-month", "{day} {month}"},
      {"dates.weekday-month", "{weekday} {day} {month}"},
      {"dates.brief", "{day} {mon}"},
      {"dates.month-year", "{month} {year}"},
      {"dates.month", "{month}"},
      {"dates.month-brief", "{mon}"},
      {"dates.range-days", "{first}–{last}"},
      {"dates.range", "{first} to {last}"},
      {"dates.range-brief", "{first} – {last}"},
      {"dates.winter", "{first}–{last}"},
      {"times.midnight", "midnight"},
      {"times.noon", "noon"},
      {"times.morning", "{n} am"},
      {"times.afternoon", "{n} pm"},
      {"times.with-day", "{day}, {time}"},
      {"numbers.decimal", "."},
      {"numbers.thousands", ","},
      {"numbers.minus", "−"},
      {"numbers.range", "{low}–{high}"},
      {"numbers.range-negative", "{low} to {high}"},
      {"numbers.tens-and-ones", "{tens}-{ones}"},
      {"numbers.ordinal-1", "{n}st"},
      {"numbers.ordinal-2", "{n}nd"},
      {"numbers.ordinal-3", "{n}rd"},
      {"numbers.ordinal-other", "{n}th"},
      {"lists.comma", ", "},
      {"lists.and", " and "},
      {"lists.or", " or "},
      {"units.fahrenheit", "{amount}°F"},
      {"units.hours", "{amount} {n?hour|hours}"},
      {"page.number", "page {page} of {pages}"},
      {"page.continued", "{title}, continued"},
      {"page.table-continued", "continued"},
      {"page.not-known", "–"},
      {"page.contents", "Contents"},
  };
  const auto listed = [&](const std::string& family, const std::vector<std::string>& words) {
    for (std::size_t i = 0; i < words.size(); ++i)
      e[family + "." + std::to_string(i + 1)] = words[i];
  };
  listed("months.long", {"January", "February", "March", "April", "May", "June", "July", "August",
                         "September", "October", "November", "December"});
  listed("months.brief",
         {"Jan", "Feb", "Mar", "Apr", "May", "Jun", "Jul", "Aug", "Sep", "Oct", "Nov", "Dec"});
  listed("weekdays",
         {"Monday", "Tuesday", "Wednesday", "Thursday", "Friday", "Saturday", "Sunday"});
  listed("numbers.words",
         {"zero",     "one",     "two",     "three",     "four",     "five",    "six",
          "seven",    "eight",   "nine",    "ten",       "eleven",   "twelve",  "thirteen",
          "fourteen", "fifteen", "sixteen", "seventeen", "eighteen", "nineteen"});
  listed("numbers.tens",
         {"twenty", "thirty", "forty", "fifty", "sixty", "seventy", "eighty", "ninety"});
  listed("numbers.ordinals", {"first", "second", "third", "fourth", "fifth", "sixth", "seventh",
                              "eighth", "ninth", "tenth", "eleventh", "twelfth"});
  for (auto& [id, words] : more) e[id] = words;
  return Words("en", std::move(e));
}

/// Text with *bold* spans, as a message whose words are these.
class Phrases {
 public:
  Text say(const std::string& words) {
    const std::string id = "test." + std::to_string(entries_.size());
    entries_.emplace_back(id, words);
    return winterfolio::say(id);
  }
  Words words() const { return test_words(entries_); }

 private:
  std::vector<std::pair<std::string, std::string>> entries_;
};

}  // namespace winterfolio::test
