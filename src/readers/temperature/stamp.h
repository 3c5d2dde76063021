// Dates and times of day as people and instruments write them.
//
//   2026-11-01 06:05   20261101T0605Z   01-nov-2026 06:05   11/01/26 06:05:00 AM   1.11.2026 24:00
//   2026305   1793512800   2026年11月1日 6時05分
//
// Whether 03/04/2026 is in March or April is not decided here: every order in which the date can be
// read is given.
#pragma once

#include <array>
#include <cstdint>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "orchard/orchard.h"

namespace winterfolio {

/// A set of date orders.
class DateOrders {
 public:
  constexpr DateOrders() = default;
  static constexpr DateOrders all() { return DateOrders(7); }
  static constexpr DateOrders only(DateOrder order) {
    return DateOrders(1U << static_cast<unsigned>(order));
  }
  constexpr bool has(DateOrder order) const {
    return (bits_ >> static_cast<unsigned>(order) & 1U) != 0;
  }
  constexpr DateOrders operator&(DateOrders other) const { return DateOrders(bits_ & other.bits_); }
  constexpr DateOrders operator|(DateOrders other) const { return DateOrders(bits_ | other.bits_); }
  constexpr bool empty() const { return bits_ == 0; }
  constexpr int count() const {
    return static_cast<int>((bits_ & 1U) + (bits_ >> 1U & 1U) + (bits_ >> 2U & 1U));
  }
  constexpr bool operator==(const DateOrders&) const = default;

 private:
  constexpr explicit DateOrders(unsigned bits) : bits_(bits) {}
  unsigned bits_ = 0;
};
constexpr std::array<DateOrder, 3> kDateOrders = {DateOrder::ymd, DateOrder::dmy, DateOrder::mdy};
std::string_view id_of(DateOrder order);  ///< "ymd"

/// A date in every order in which it is a real one.
struct ParsedDate {
  DateOrders orders;
  std::array<std::int32_t, 3> day{};  ///< days since 1970, by order; only those in `orders`
  bool matters = false;               ///< two orders give different days

  std::int32_t in(DateOrder order) const { return day[static_cast<std::size_t>(order)]; }
  static ParsedDate certain(std::int32_t days_since_1970);
};

/// Letters behind a stamp that weather services of several places write for clocks of their own.
struct ZoneLetters {
  struct Meaning {
    int minutes;  ///< east of UTC
    std::string zone;
  };
  std::string letters;  ///< as they are written, in capitals
  std::vector<Meaning> meanings;
};

/// What these letters, in any case, can mean as a clock; nullptr if they are none.
const ZoneLetters* zone_lettered(std::string_view letters);

struct ParsedStamp {
  ParsedDate date;
  std::optional<std::int32_t> second_of_day;  ///< 0 to 86400; nothing if the text holds a date only
  std::optional<std::int32_t> offset;         ///< clock minus UTC [s], where the text says so
  /// Letters that say so and have several meanings, of which `offset` is the first; else nullptr.
  const ZoneLetters* letters = nullptr;
};

/// Date, or date and time, the whole text. Nothing if it is neither. Years 1700 to 2200.
std::optional<ParsedStamp> parse_stamp(std::string_view text);

/// A time of day: "06:05", "6.05", "6:05:30 PM", "0605", "24:00", "06h05", "6". Seconds since
/// midnight.
std::optional<std::int32_t> parse_clock_time(std::string_view text);

/// "AM", "p.m.": which half of the day, in a cell of its own.
bool is_half_day(std::string_view text);

/// Days since 1970 of a real day in 1700 to 2200; nothing otherwise.
std::optional<std::int32_t> day_number(int year, int month, int day);
std::optional<std::int32_t> day_number(int year, int day_of_year);

/// 1 to 12 for a month's name or its beginning, in any of the languages of month_names.csv; 0 if it
/// is none.
int month_named(std::string_view word);

/// Days in a spreadsheet's serial date ("45292.5"); nothing outside 1927 to 2119.
std::optional<ParsedStamp> parse_spreadsheet_serial(std::string_view text, char decimal_mark);

}  // namespace winterfolio
