// Reads the printed words of a language: templates/words/en.yaml, a map of ids to words, nested as
// its writer likes.
//
//   season:
//     title: "The winter of {winter}"        id "season.title"
//     worst: From worst to best              id "season.worst"
//   months:
//     brief: [Jan, Feb]                      ids "months.brief.1", "months.brief.2"
//
// The file is YAML, but of YAML's many forms only these few lines: a key and its words, plain or in
// double quotes; a key alone, with deeper keys under it; a list in brackets. Words are read at
// every start of the program, and a whole YAML reader takes longer over them than all else
// together; a test holds this one against it.
#pragma once

#include <optional>
#include <string_view>

#include "base/diagnostic.h"
#include "document/words.h"

namespace winterfolio {

/// The words of a file. Every fault (another form, an id given twice, nothing where words should
/// be) is added to `diagnostics` with its place; nothing is returned if there is one. `file` is its
/// name in messages.
std::optional<Words> read_words(std::string_view bytes, std::string_view file,
                                Diagnostics& diagnostics);

/// The words that travel inside the program. Throws std::logic_error if they cannot be read: our
/// fault.
Words built_in_words(std::string_view language);

}  // namespace winterfolio
