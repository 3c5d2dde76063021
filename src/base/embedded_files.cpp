// Looks embedded tables and templates up by their path.
#include "base/embedded_files.h"

#include <stdexcept>
#include <string>

namespace winterfolio {

std::optional<std::string_view> find_embedded_file(std::string_view path) {
  for (const EmbeddedFile& file : embedded_files()) {
    if (file.path == path) return file.bytes;
  }
  return std::nullopt;
}

std::string_view embedded_file(std::string_view path) {
  if (const auto bytes = find_embedded_file(path)) return *bytes;
  throw std::logic_error("no embedded file " + std::string(path));
}

}  // namespace winterfolio
