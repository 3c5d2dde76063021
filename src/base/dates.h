// Days and hours of an orchard's own clock: local standard time the whole year, so that no hour is
// lost or told twice.
#pragma once

#include <chrono>
#include <compare>
#include <cstdint>
#include <optional>
#include <string>
#include <string_view>

namespace winterfolio {

using Date = std::chrono::year_month_day;

constexpr Date date_of(int year, unsigned month, unsigned day) {
  return Date{std::chrono::year{year}, std::chrono::month{month}, std::chrono::day{day}};
}

/// Whole days from a to b; negative if b comes first.
int days_between(Date a, Date b);
Date plus_days(Date date, int days);
/// 1 to 366.
int day_of_year(Date date);
bool is_leap_year(int year);
unsigned last_day_of(int year, unsigned month);

/// One clock hour in local standard time, counted from 1970-01-01 00:00; the hour begins at its
/// stamp.
class LocalHour {
 public:
  constexpr LocalHour() = default;
  constexpr explicit LocalHour(std::int32_t hours_since_1970) : hours_(hours_since_1970) {}
  static LocalHour at(Date date, int hour_of_day);
  constexpr std::int32_t hours_since_1970() const { return hours_; }
  Date date() const;
  int hour_of_day() const;  ///< 0 to 23
  constexpr auto operator<=>(const LocalHour&) const = default;
  constexpr LocalHour operator+(std::int32_t hours) const { return LocalHour(hours_ + hours); }
  constexpr LocalHour operator-(std::int32_t hours) const { return LocalHour(hours_ - hours); }
  constexpr std::int32_t operator-(LocalHour other) const { return hours_ - other.hours_; }

 private:
  std::int32_t hours_ = 0;
};

/// A day of any year, written MM-DD. 02-29 means the last day of February.
struct MonthDay {
  unsigned month = 1;
  unsigned day = 1;
  Date in_year(
      int year) const;  ///< 02-29, and any day past a month's end, becomes the month's last day
  auto operator<=>(const MonthDay&) const = default;
};

/// Reads "2027-01-16". Nothing if it is not a real day written so.
std::optional<Date> parse_date(std::string_view text);
/// Reads "11-01".
std::optional<MonthDay> parse_month_day(std::string_view text);

std::string iso_date(Date date);       ///< 2027-01-16
std::string iso_hour(LocalHour hour);  ///< 2027-01-16T23:00

/// A date known to the day, the month or the year only, as people remember when a tree was planted.
struct PartialDate {
  int year = 0;
  std::optional<unsigned> month;
  std::optional<unsigned> day;
  Date earliest() const;  ///< the first day it can mean
  auto operator<=>(const PartialDate&) const = default;
};
/// Reads "2019", "2019-02" or "2019-02-14".
std::optional<PartialDate> parse_partial_date(std::string_view text);

}  // namespace winterfolio
