#include "base/utf8.h"

namespace winterfolio {

char32_t next_letter(std::string_view text, std::size_t& position) {
  const auto byte = [&](std::size_t i) { return static_cast<unsigned char>(text[i]); };
  const unsigned first = byte(position++);
  if (first < 0x80) return first;
  const int more = first >= 0xF0 && first < 0xF5 ? 3 : first >= 0xE0 ? 2 : first >= 0xC2 ? 1 : 0;
  if (more == 0 || position + static_cast<std::size_t>(more) > text.size()) return 0xFFFD;
  char32_t letter = first & (0x3Fu >> more);
  for (int i = 0; i < more; ++i) {
    const unsigned next = byte(position + static_cast<std::size_t>(i));
    if ((next & 0xC0) != 0x80) return 0xFFFD;
    letter = letter << 6 | (next & 0x3F);
  }
  position += static_cast<std::size_t>(more);
  return letter;
}

void append_letter(std::string& text, char32_t letter) {
  const auto put = [&](char32_t byte) { text += static_cast<char>(byte); };
  if (letter < 0x80) {
    put(letter);
  } else if (letter < 0x800) {
    put(0xC0 | letter >> 6);
    put(0x80 | (letter & 0x3F));
  } else if (letter < 0x10000) {
    put(0xE0 | letter >> 12);
    put(0x80 | (letter >> 6 & 0x3F));
    put(0x80 | (letter & 0x3F));
  } else {
    put(0xF0 | letter >> 18);
    put(0x80 | (letter >> 12 & 0x3F));
    put(0x80 | (letter >> 6 & 0x3F));
    put(0x80 | (letter & 0x3F));
  }
}

std::size_t letter_count(std::string_view text) {
  std::size_t count = 0;
  for (std::size_t position = 0; position < text.size(); ++count) next_letter(text, position);
  return count;
}

}  // namespace winterfolio
