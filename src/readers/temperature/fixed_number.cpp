// Digit by digit: no locale, no rounding before the end.
#include "readers/temperature/fixed_number.h"

#include <array>

namespace winterfolio {
namespace {

constexpr int kDecimals = 12;
constexpr std::int64_t kMostDegrees = 9'000'000;

bool is_digit(char c) { return c >= '0' && c <= '9'; }

/// The typographer's minus and the dashes that are written for it.
constexpr std::array<std::string_view, 4> kMinusSigns = {"\xE2\x88\x92", "\xE2\x80\x93",
                                                         "\xE2\x80\x91", "\xEF\xBC\x8D"};

/// Cuts a sign off, and blanks between it and the number; true if it was a minus.
bool take_sign(std::string_view& text) {
  if (text.empty()) return false;
  std::size_t size = text.front() == '-' || text.front() == '+' ? 1 : 0;
  bool minus = text.front() == '-';
  if (static_cast<unsigned char>(text.front()) >= 0x80) {
    for (const std::string_view sign : kMinusSigns) {
      if (!text.starts_with(sign)) continue;
      minus = true;
      size = sign.size();
    }
  }
  if (size == 0) return false;
  text.remove_prefix(size);
  while (!text.empty() && text.front() == ' ') text.remove_prefix(1);
  return minus;
}

/// "e-3" and the like, the whole text; nothing if it is anything else.
std::optional<int> exponent_of(std::string_view text) {
  if (text.empty()) return 0;
  if (text.front() != 'e' && text.front() != 'E') return std::nullopt;
  text.remove_prefix(1);
  const bool minus = take_sign(text);
  if (text.empty() || text.size() > 3) return std::nullopt;
  int value = 0;
  for (const char c : text) {
    if (!is_digit(c)) return std::nullopt;
    value = value * 10 + (c - '0');
  }
  return minus ? -value : value;
}

}  // namespace

std::optional<std::int64_t> parse_parts(std::string_view text, char decimal_mark) {
  const bool minus = take_sign(text);
  std::int64_t mantissa = 0;
  int decimals = 0;
  int digits = 0;
  bool after_mark = false;
  std::size_t i = 0;
  for (; i < text.size(); ++i) {
    const char c = text[i];
    if (c == decimal_mark && !after_mark) {
      after_mark = true;
      continue;
    }
    if (!is_digit(c)) break;
    ++digits;
    if (decimals >= kDecimals) continue;
    if (mantissa > kMostDegrees * kPartsPerDegree / 10 - 10) {
      if (!after_mark) return std::nullopt;
      continue;
    }
    mantissa = mantissa * 10 + (c - '0');
    decimals += after_mark;
  }
  if (digits == 0) return std::nullopt;
  const auto exponent = exponent_of(text.substr(i));
  if (!exponent) return std::nullopt;
  int shift = kDecimals - decimals + *exponent;
  for (; shift > 0; --shift) {
    if (mantissa > kMostDegrees * (kPartsPerDegree / 10)) return std::nullopt;
    mantissa *= 10;
  }
  for (; shift < 0; ++shift) mantissa /= 10;
  if (mantissa > kMostDegrees * kPartsPerDegree) return std::nullopt;
  return minus ? -mantissa : mantissa;
}

int decimals_in(std::string_view text, char decimal_mark) {
  const std::size_t mark = text.find(decimal_mark);
  if (mark == std::string_view::npos) return 0;
  int count = 0;
  for (std::size_t i = mark + 1; i < text.size() && is_digit(text[i]); ++i) ++count;
  return count;
}

}  // namespace winterfolio
