// Cuts numbers and units apart.
#include "readers/orchard/quantities.h"

#include <algorithm>
#include <stdexcept>
#include <vector>

#include "base/csv_table.h"

namespace winterfolio {
namespace {

constexpr std::string_view kTypographicMinus = "−";
constexpr std::string_view kHardBlank = "\u00A0";
constexpr std::string_view kNarrowBlank = "\u202F";
constexpr int kMinutesOfDay = 24 * 60;
constexpr int kFarthestOffset = 14 * 60;

struct UnitWord {
  std::string quantity;
  std::string word;
  std::string unit;
};

const std::vector<UnitWord>& unit_words() {
  static const std::vector<UnitWord> words = [] {
    std::vector<UnitWord> found;
    const CsvTable table = CsvTable::embedded("src/orchard/tables/unit_words.csv");
    for (const CsvRow row : table) {
      found.push_back({row.text("quantity"), row.text("word"), row.text("unit")});
    }
    return found;
  }();
  return words;
}

bool is_digit(char c) { return c >= '0' && c <= '9'; }

std::string small_letters(std::string_view text) {
  std::string small;
  for (const char c : text) small += c >= 'A' && c <= 'Z' ? static_cast<char>(c - 'A' + 'a') : c;
  return small;
}

std::string_view without_blanks_before(std::string_view text) {
  for (;;) {
    if (text.starts_with(' ')) {
      text.remove_prefix(1);
    } else if (text.starts_with(kHardBlank)) {
      text.remove_prefix(kHardBlank.size());
    } else if (text.starts_with(kNarrowBlank)) {
      text.remove_prefix(kNarrowBlank.size());
    } else {
      return text;
    }
  }
}

/// The bytes of a sign in front of a number.
std::size_t sign_length(std::string_view text) {
  if (text.starts_with('-') || text.starts_with('+')) return 1;
  return text.starts_with(kTypographicMinus) ? kTypographicMinus.size() : 0;
}

/// One or two digits at the start of text, cut off it.
std::optional<int> take_one_or_two_digits(std::string_view& text) {
  std::size_t digits = 0;
  while (digits < text.size() && is_digit(text[digits])) ++digits;
  if (digits < 1 || digits > 2) return std::nullopt;
  const std::string_view number = text.substr(0, digits);
  text.remove_prefix(digits);
  return digits == 1 ? number[0] - '0' : (number[0] - '0') * 10 + (number[1] - '0');
}

/// Minutes of "H:MM" or "HH:MM", whatever the hour.
std::optional<int> parse_hours_and_minutes(std::string_view text) {
  const auto hours = take_one_or_two_digits(text);
  if (!hours || text.size() != 3 || text[0] != ':' || !is_digit(text[1]) || !is_digit(text[2])) {
    return std::nullopt;
  }
  const int minutes = (text[1] - '0') * 10 + (text[2] - '0');
  if (minutes > 59) return std::nullopt;
  return *hours * 60 + minutes;
}

}  // namespace

std::optional<double> parse_decimal(std::string_view text) {
  const std::size_t sign = sign_length(text);
  const std::string_view digits = text.substr(sign);
  const auto allowed = [](char c) { return is_digit(c) || c == '.'; };
  if (digits.empty() || !std::all_of(digits.begin(), digits.end(), allowed)) return std::nullopt;
  if (!is_digit(digits.front()) || !is_digit(digits.back())) return std::nullopt;
  if (digits.size() > 1 && digits[0] == '0' && digits[1] != '.') return std::nullopt;
  const bool negative = sign > 0 && text[0] != '+';
  const auto value = parse_number(digits);
  if (!value) return std::nullopt;
  return negative ? -*value : *value;
}

std::optional<int> parse_whole(std::string_view text) {
  const std::size_t sign = sign_length(text);
  const std::string_view digits = text.substr(sign);
  if (digits.empty() || !std::all_of(digits.begin(), digits.end(), is_digit)) return std::nullopt;
  if (digits.size() > 1 && digits[0] == '0') return std::nullopt;
  const auto value = parse_integer(digits);
  if (!value) return std::nullopt;
  return sign > 0 && text[0] != '+' ? -*value : *value;
}

WrittenQuantity split_quantity(std::string_view text) {
  std::size_t end = sign_length(text);
  const std::size_t first_digit = end;
  // A comma belongs to the number so that "1,5 m" is told as a number with a comma, not as an odd
  // unit.
  while (end < text.size() && (is_digit(text[end]) || text[end] == '.' || text[end] == ',')) ++end;
  if (end == first_digit) return {text.substr(0, 0), text};
  return {text.substr(0, end), without_blanks_before(text.substr(end))};
}

std::string unit_named(std::string_view quantity, std::string_view word) {
  for (const UnitWord& row : unit_words()) {
    if (row.quantity == quantity && row.word == word) return row.unit;
  }
  const std::string small = small_letters(word);
  for (const UnitWord& row : unit_words()) {
    if (row.quantity == quantity && small_letters(row.word) == small) return row.unit;
  }
  return {};
}

std::string units_of(std::string_view quantity) {
  std::vector<std::string> firsts;
  std::string last_unit;
  for (const UnitWord& row : unit_words()) {
    if (row.quantity != quantity || row.unit == last_unit) continue;
    firsts.push_back(row.word);
    last_unit = row.unit;
  }
  std::string list;
  for (std::size_t i = 0; i < firsts.size(); ++i) {
    if (i > 0) list += i + 1 == firsts.size() ? " or " : ", ";
    list += firsts[i];
  }
  return list;
}

Metres length_in(double number, std::string_view unit) {
  if (unit.empty() || unit == "metre") return Metres(number);
  if (unit == "centimetre") return Metres(number / 100.0);
  if (unit == "foot") return Metres::from_feet(number);
  if (unit == "inch") return Metres::from_feet(number / 12.0);
  throw std::logic_error("no length in " + std::string(unit));
}

CelsiusDelta temperature_difference_in(double number, std::string_view unit) {
  if (unit.empty() || unit == "celsius" || unit == "kelvin") return CelsiusDelta(number);
  if (unit == "fahrenheit") return CelsiusDelta::from_fahrenheit(number);
  throw std::logic_error("no temperature difference in " + std::string(unit));
}

double minutes_in(double number, std::string_view unit) {
  if (unit.empty() || unit == "minute") return number;
  if (unit == "hour") return number * 60.0;
  throw std::logic_error("no time in " + std::string(unit));
}

std::optional<Range> parse_range(std::string_view text) {
  const std::size_t dots = text.find("..");
  if (dots == std::string_view::npos) {
    const auto value = parse_decimal(text);
    if (!value) return std::nullopt;
    return Range{*value, *value};
  }
  std::string_view low_text = text.substr(0, dots);
  while (low_text.ends_with(' ')) low_text.remove_suffix(1);
  const auto low = parse_decimal(low_text);
  const auto high = parse_decimal(without_blanks_before(text.substr(dots + 2)));
  if (!low || !high) return std::nullopt;
  return Range{*low, *high};
}

std::optional<int> parse_time_of_day(std::string_view text) {
  const auto minutes = parse_hours_and_minutes(text);
  return minutes && *minutes < kMinutesOfDay ? minutes : std::nullopt;
}

std::optional<int> parse_utc_offset(std::string_view text) {
  if (text == "Z") return 0;
  const std::size_t sign = sign_length(text);
  if (sign == 0) return std::nullopt;
  const auto minutes = parse_hours_and_minutes(text.substr(sign));
  if (!minutes || *minutes > kFarthestOffset) return std::nullopt;
  return text[0] == '+' ? *minutes : -*minutes;
}

std::optional<bool> parse_yes_no(std::string_view text) {
  const std::string small = small_letters(text);
  if (small == "yes" || small == "true") return true;
  if (small == "no" || small == "false") return false;
  return std::nullopt;
}

}  // namespace winterfolio
