// Letters of Latin-1 and Latin Extended-A down to ASCII.
#include "readers/temperature/plain_words.h"

namespace winterfolio {
namespace {

/// U+00C0 to U+017F, one letter each; the few that need two are dealt with apart.
constexpr std::string_view kLatin =
    "aaaaaaaceeeeiiiidnooooo?ouuuuyts"   // C0-DF
    "aaaaaaaceeeeiiiidnooooo?ouuuuyty"   // E0-FF
    "aaaaaaccccccccddddeeeeeeeeeegggg"   // 100-11F
    "gggghhhhiiiiiiiiiiiijjkkklllllll"   // 120-13F
    "lllnnnnnnnnnoooooooorrrrrrssssss"   // 140-15F
    "ssttttttuuuuuuuuuuuuwwyyyzzzzzzs";  // 160-17F

char plain_letter(unsigned code) {
  if (code == 0xB0 || code == 0xBA) return '*';
  if (code == 0xA0) return ' ';
  if (code >= 0xC0 && code - 0xC0 < kLatin.size()) return kLatin[code - 0xC0];
  return '?';
}

/// The signs for degrees and degrees Celsius in the older encodings of Korea, China and Japan, two
/// bytes each that begin no letter elsewhere; empty if none stands here.
std::string_view degree_sign_at(std::string_view text) {
  const std::string_view sign = text.substr(0, 2);
  if (sign == "\xA1\xC6" || sign == "\xA1\xE3" || sign == "\x81\x8B") return "*";
  if (sign == "\xA1\xC9" || sign == "\xA1\xE6" || sign == "\x81\x8E") return "*c";
  return {};
}

}  // namespace

std::string plain_word(std::string_view text) {
  std::string plain;
  plain.reserve(text.size());
  for (std::size_t i = 0; i < text.size(); ++i) {
    const auto byte = static_cast<unsigned char>(text[i]);
    if (byte < 0x80) {
      plain += byte >= 'A' && byte <= 'Z' ? static_cast<char>(byte + 32) : text[i];
      continue;
    }
    const auto next = i + 1 < text.size() ? static_cast<unsigned char>(text[i + 1]) : 0U;
    if (const std::string_view sign = degree_sign_at(text.substr(i)); !sign.empty()) {
      plain += sign;
      ++i;
      continue;
    }
    unsigned code = byte;  // Latin-1, unless it goes on as UTF-8
    if ((byte & 0xE0U) == 0xC0U && (next & 0xC0U) == 0x80U) {
      code = (byte & 0x1FU) << 6U | (next & 0x3FU);
      ++i;
    } else if ((byte & 0xF0U) == 0xE0U && (next & 0xC0U) == 0x80U) {
      code = 0xFFFF;
      i += 2;
      // The single characters for degrees Celsius and Fahrenheit.
      if (byte == 0xE2 && next == 0x84 && i < text.size()) {
        const auto last = static_cast<unsigned char>(text[i]);
        if (last == 0x83 || last == 0x89) {
          plain += last == 0x83 ? "*c" : "*f";
          continue;
        }
      }
    } else if ((byte & 0xF8U) == 0xF0U && (next & 0xC0U) == 0x80U) {
      code = 0xFFFF;
      i += 3;
    }
    if (code == 0xDF) {
      plain += "ss";
    } else {
      plain += plain_letter(code);
    }
  }
  return plain;
}

std::string_view trimmed(std::string_view text) {
  const auto blank_at_front = [&] {
    if (text.empty()) return 0;
    if (text.front() == ' ' || text.front() == '\t') return 1;
    return text.substr(0, 2) == "\xC2\xA0" ? 2 : 0;
  };
  const auto blank_at_back = [&] {
    if (text.empty()) return 0;
    if (text.back() == ' ' || text.back() == '\t' || text.back() == '\r') return 1;
    return text.size() >= 2 && text.substr(text.size() - 2) == "\xC2\xA0" ? 2 : 0;
  };
  while (const int count = blank_at_front()) text.remove_prefix(static_cast<std::size_t>(count));
  while (const int count = blank_at_back()) text.remove_suffix(static_cast<std::size_t>(count));
  return text;
}

}  // namespace winterfolio
