// Folds names for comparing, letter by letter.
#include "orchard/names.h"

#include <algorithm>
#include <map>

#include "base/csv_table.h"

namespace winterfolio {
namespace {

using Letters = std::map<std::string, std::string, std::less<>>;

const Letters& plain_letters() {
  static const Letters letters = [] {
    Letters found;
    const CsvTable table = CsvTable::embedded("src/orchard/tables/letters.csv");
    for (const CsvRow row : table) found.emplace(row.text("letter"), row.text("plain"));
    return found;
  }();
  return letters;
}

/// The bytes of the character that starts at `position`.
std::string_view character_at(std::string_view text, std::size_t position) {
  std::size_t end = position + 1;
  while (end < text.size() && (static_cast<unsigned char>(text[end]) & 0xC0U) == 0x80U) ++end;
  return text.substr(position, end - position);
}

bool is_dropped(std::string_view character) {
  // Apostrophes and quotes as keyboards and word processors make them, accents as characters of
  // their own.
  static constexpr std::string_view kDropped[] = {"'", "`", ".", "\"", "‘", "’",
                                                  "‛", "′", "ʼ", "´",  "“", "”"};
  if (std::find(std::begin(kDropped), std::end(kDropped), character) != std::end(kDropped))
    return true;
  const bool combining =
      character.size() == 2 &&
      (character[0] == '\xCC' ||
       (character[0] == '\xCD' && static_cast<unsigned char>(character[1]) <= 0xAFU));
  return combining;
}

bool is_blank(std::string_view character) {
  static constexpr std::string_view kBlanks[] = {
      " ", "\t", "\n", "-", "_", "\u00A0", "\u202F", "\u2010", "\u2011", "\u2013", "\u2014"};
  return std::find(std::begin(kBlanks), std::end(kBlanks), character) != std::end(kBlanks);
}

/// A letter of English or a digit: most of what names are made of, and neither dropped nor blank.
bool is_plain(std::string_view character) {
  const char c = character[0];
  return character.size() == 1 &&
         ((c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z') || (c >= '0' && c <= '9'));
}

}  // namespace

std::string folded_name(std::string_view name) {
  std::string folded;
  folded.reserve(name.size());
  bool blank = false;
  for (std::size_t i = 0; i < name.size();) {
    const std::string_view character = character_at(name, i);
    i += character.size();
    const bool plain = is_plain(character);
    if (!plain && is_dropped(character)) continue;
    if (!plain && is_blank(character)) {
      blank = true;
      continue;
    }
    if (blank && !folded.empty()) folded += ' ';
    blank = false;
    if (character.size() == 1) {
      const char c = character[0];
      folded += c >= 'A' && c <= 'Z' ? static_cast<char>(c - 'A' + 'a') : c;
    } else {
      const auto found = plain_letters().find(character);
      folded += found == plain_letters().end() ? std::string(character) : found->second;
    }
  }
  return folded;
}

bool same_name(std::string_view a, std::string_view b) { return folded_name(a) == folded_name(b); }

const WordRow* find_word(const std::vector<WordRow>& table, std::string_view text) {
  const std::string wanted = folded_name(text);
  for (const WordRow& row : table) {
    if (folded_name(row.id) == wanted) return &row;
    for (const std::string& word : row.words) {
      if (folded_name(word) == wanted) return &row;
    }
  }
  return nullptr;
}

std::vector<std::string> first_words(const std::vector<WordRow>& table) {
  std::vector<std::string> words;
  for (const WordRow& row : table) words.push_back(row.words.front());
  return words;
}

}  // namespace winterfolio
