// Names as people write them: "Cox’s Orange Pippin", "coxs orange-pippin" and "COX'S ORANGE PIPPIN"
// are one cultivar.
#pragma once

#include <string>
#include <string_view>
#include <vector>

namespace winterfolio {

/// The name without what people vary: small letters, accents off (tables/letters.csv), apostrophes
/// of every kind and full stops dropped; hyphens, underscores and runs of blanks become one blank.
/// For comparing, never for printing.
std::string folded_name(std::string_view name);

/// Whether two names are the same but for capitals, accents, apostrophes, hyphens and blanks.
bool same_name(std::string_view a, std::string_view b);

/// A row of a table of words: what the program calls a thing, and the words by which the files may
/// name it.
struct WordRow {
  std::string id;
  std::vector<std::string> words;  ///< the first is the one of the orchard file
};

/// The row that `text` names, by one of its words or its id; nullptr if none does.
const WordRow* find_word(const std::vector<WordRow>& table, std::string_view text);

/// The first words of a table, for listing what could have been written.
std::vector<std::string> first_words(const std::vector<WordRow>& table);

}  // namespace winterfolio
