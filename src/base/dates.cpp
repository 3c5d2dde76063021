// Calendar arithmetic on the proleptic Gregorian calendar, through <chrono>.
#include "base/dates.h"

#include <fmt/format.h>

#include <charconv>

namespace winterfolio {
namespace {

using std::chrono::days;
using std::chrono::sys_days;

/// A run of exactly `digits` decimal digits at the start of text, cut off it.
std::optional<int> take_digits(std::string_view& text, std::size_t digits) {
  if (text.size() < digits) return std::nullopt;
  int value = 0;
  for (const char c : text.substr(0, digits)) {
    if (c < '0' || c > '9') return std::nullopt;
    value = value * 10 + (c - '0');
  }
  text.remove_prefix(digits);
  return value;
}

bool take(std::string_view& text, char c) {
  if (text.empty() || text.front() != c) return false;
  text.remove_prefix(1);
  return true;
}

}  // namespace

int days_between(Date a, Date b) { return static_cast<int>((sys_days{b} - sys_days{a}).count()); }

Date plus_days(Date date, int count) { return Date{sys_days{date} + days{count}}; }

int day_of_year(Date date) {
  return days_between(Date{date.year(), std::chrono::January, std::chrono::day{1}}, date) + 1;
}

bool is_leap_year(int year) { return std::chrono::year{year}.is_leap(); }

unsigned last_day_of(int year, unsigned month) {
  return unsigned{std::chrono::year_month_day_last{
      std::chrono::year{year}, std::chrono::month_day_last{std::chrono::month{month}}}
                      .day()};
}

LocalHour LocalHour::at(Date date, int hour_of_day) {
  return LocalHour(static_cast<std::int32_t>(sys_days{date}.time_since_epoch().count()) * 24 +
                   hour_of_day);
}

Date LocalHour::date() const {
  return Date{sys_days{std::chrono::floor<days>(std::chrono::hours{hours_})}};
}

int LocalHour::hour_of_day() const {
  const int hour = hours_ % 24;
  return hour < 0 ? hour + 24 : hour;
}

Date MonthDay::in_year(int year) const {
  const unsigned last = last_day_of(year, month);
  const bool end_of_february = month == 2 && day >= 29;
  return date_of(year, month, end_of_february || day > last ? last : day);
}

std::optional<Date> parse_date(std::string_view text) {
  const auto partial = parse_partial_date(text);
  if (!partial || !partial->day) return std::nullopt;
  return partial->earliest();
}

std::optional<MonthDay> parse_month_day(std::string_view text) {
  const auto month = take_digits(text, 2);
  if (!month || *month < 1 || *month > 12 || !take(text, '-')) return std::nullopt;
  const auto day = take_digits(text, 2);
  const auto last = last_day_of(2024, static_cast<unsigned>(*month));
  if (!day || *day < 1 || static_cast<unsigned>(*day) > last || !text.empty()) return std::nullopt;
  return MonthDay{static_cast<unsigned>(*month), static_cast<unsigned>(*day)};
}

std::string iso_date(Date date) {
  return fmt::format("{:04}-{:02}-{:02}", int{date.year()}, unsigned{date.month()},
                     unsigned{date.day()});
}

std::string iso_hour(LocalHour hour) {
  return fmt::format("{}T{:02}:00", iso_date(hour.date()), hour.hour_of_day());
}

Date PartialDate::earliest() const { return date_of(year, month.value_or(1), day.value_or(1)); }

std::optional<PartialDate> parse_partial_date(std::string_view text) {
  const auto year = take_digits(text, 4);
  if (!year) return std::nullopt;
  PartialDate result{*year, std::nullopt, std::nullopt};
  if (text.empty()) return result;
  if (!take(text, '-')) return std::nullopt;
  const auto month = take_digits(text, 2);
  if (!month || *month < 1 || *month > 12) return std::nullopt;
  result.month = static_cast<unsigned>(*month);
  if (text.empty()) return result;
  if (!take(text, '-')) return std::nullopt;
  const auto day = take_digits(text, 2);
  if (!day || !text.empty()) return std::nullopt;
  result.day = static_cast<unsigned>(*day);
  if (!result.earliest().ok()) return std::nullopt;
  return result;
}

}  // namespace winterfolio
