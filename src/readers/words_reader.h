// Reads the printed words of a language: templates/words/en.yaml, a map of ids to words, nested as its writer likes.
//
//   season:
//     title: "The winter of {winter}"        id "season.title"
//   months:
//     brief: [Jan, Feb]                      ids "months.brief.1", "months.brief.2"
#pragma once

#include <optional>
#include <string_view>

#include "base/diagnostic.h"
#include "document/words.h"

namespace winterfolio {

/// The words of a file. Faults (not YAML, an id given twice, an alias, nothing where words should be) are added to
/// `diagnostics` with their place; nothing is returned if there is one. `file` is its name in messages.
std::optional<Words> read_words(std::string_view bytes, std::string_view file, Diagnostics& diagnostics);

/// The words that travel inside the program. Throws std::logic_error if they cannot be read: our fault.
Words built_in_words(std::string_view language);

}  // namespace winterfolio
