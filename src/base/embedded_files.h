// The facts and words that travel inside the program: tables of src/, templates and printed words.
#pragma once

#include <optional>
#include <span>
#include <string_view>

namespace winterfolio {

struct EmbeddedFile {
  std::string_view path;  ///< as in the project, e.g. "src/models/chill/tables/utah.csv"
  std::string_view bytes;
};

/// Every embedded file, sorted by path.
std::span<const EmbeddedFile> embedded_files();

/// The bytes of one embedded file. Throws std::logic_error for a path that is not embedded: our
/// fault, not an input's.
std::string_view embedded_file(std::string_view path);

/// The same for a name that a person chose: nothing if there is no such file.
std::optional<std::string_view> find_embedded_file(std::string_view path);

}  // namespace winterfolio
