// Letters of UTF-8 text, by the table of well-formed byte sequences (The Unicode Standard, table
// 3-7).
#include "base/utf8.h"

#include "support/catch.h"

using namespace winterfolio;

TEST_CASE("Letters of one to four bytes, and back") {
  const std::string text = "a°−😀";
  std::u32string letters;
  std::string back;
  for (std::size_t i = 0; i < text.size();) letters += next_letter(text, i);
  for (char32_t letter : letters) append_letter(back, letter);
  CHECK(letters == U"a°−😀");
  CHECK(back == text);
  CHECK(letter_count(text) == 4);
}

TEST_CASE("A broken byte is passed alone") {
  const std::string text = "a\xE2\x88z\xFFq\xC0";
  std::u32string letters;
  for (std::size_t i = 0; i < text.size();) letters += next_letter(text, i);
  CHECK(letters.front() == U'a');
  CHECK(letters.find(U'z') != std::u32string::npos);
  CHECK(letters.find(U'q') != std::u32string::npos);
  CHECK(letters.back() == char32_t{0xFFFD});
}
