#include "layout/tools.h"

#include <fmt/format.h>

#include "base/utf8.h"

namespace winterfolio {

namespace {

constexpr char32_t kLozenge = 0x25CA;

/// What stands in for a letter that the face lacks; 0 leaves it out, itself if there is nothing.
char32_t stand_in(char32_t letter) {
  switch (letter) {
    case 0x2010:  // hyphen
    case 0x2011:  // no-break hyphen
      return '-';
    case 0x2012:  // figure dash
    case 0x2015:  // horizontal bar
      return 0x2013;
    case 0x2002:
    case 0x2003:
    case 0x2007:
    case 0x2008:
    case 0x2009:
    case 0x200A:
    case 0x202F:
    case 0x205F:
    case 0x3000:
      return ' ';
    case 0x00AD:  // soft hyphen
    case 0x200B:  // zero width space, joiners, byte order mark
    case 0x200C:
    case 0x200D:
    case 0x2060:
    case 0xFE0E:
    case 0xFE0F:
    case 0xFEFF:
      return 0;
    default:
      return letter;
  }
}

bool is_plain_ascii(std::string_view text) {
  for (char c : text)
    if (static_cast<unsigned char>(c) < 0x20 || static_cast<unsigned char>(c) >= 0x7F) return false;
  return true;
}

}  // namespace

void Remarks::add(Diagnostic diagnostic) {
  if (seen_.insert(diagnostic.id + '\n' + diagnostic.message).second)
    list_.push_back(std::move(diagnostic));
}

std::string drawable(std::string text, Face face, const Tools& tools) {
  if (is_plain_ascii(text)) return text;
  std::string out;
  out.reserve(text.size());
  for (std::size_t i = 0; i < text.size();) {
    char32_t letter = next_letter(text, i);
    if (letter == 0x00A0) letter = ' ';
    if (letter < 0x20 || letter == 0x7F) letter = ' ';
    if (tools.metrics.covers(face, letter)) {
      append_letter(out, letter);
      continue;
    }
    const char32_t other = stand_in(letter);
    if (other == 0) continue;
    if (other != letter && tools.metrics.covers(face, other)) {
      append_letter(out, other);
      continue;
    }
    append_letter(out, tools.metrics.covers(face, kLozenge) ? kLozenge : U'?');
    tools.remarks.add({"layout.missing-letter",
                       Severity::warning,
                       {},
                       fmt::format("the font has no letter U+{:04X}, needed in '{}'",
                                   static_cast<std::uint32_t>(letter), text),
                       "letters of the Latin, Greek or Cyrillic alphabets",
                       "spell the name with such letters; a lozenge is printed meanwhile",
                       {},
                       1});
  }
  return out;
}

}  // namespace winterfolio
