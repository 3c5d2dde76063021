// Reads an orchard file and its records: what the keeper wrote, checked, as an Orchard that
// everything else may trust.
//
// Every fault is found in one run: misspelt keys, values that are none, dates that do not exist,
// trees in blocks that are not there, files that are missing. Keys that nothing is made of yet are
// listed in one table (tables/keys_not_used_yet.csv), read, checked, and named in a note.
#pragma once

#include <optional>
#include <span>
#include <string>
#include <string_view>
#include <vector>

#include "base/diagnostic.h"
#include "orchard/orchard.h"

namespace winterfolio {

struct OrchardReadOptions {
  /// The temperature formats that can be read, by name; empty: names of formats are not checked.
  std::span<const std::string_view> temperature_formats;
};

/// The files that stand below an orchard's folder, on a disk or, in tests, in memory.
class FilesBeside {
 public:
  virtual ~FilesBeside() = default;
  /// Whether there is something to read at a path below the folder.
  virtual bool is_file(const std::string& path) const = 0;
  /// The names of the files in a folder below the folder ("" is the folder itself), sorted.
  virtual std::vector<std::string> names_in(const std::string& folder) const = 0;
  /// The bytes of a file, at most `most` and one more; nothing if it cannot be read.
  virtual std::optional<std::string> bytes_of(const std::string& path, std::size_t most) const = 0;
};

/// Reads the orchard file at `path` and the records beside it.
/// Adds what is wrong to `diagnostics`; gives the orchard unless there was an error among it.
std::optional<Orchard> read_orchard(const std::string& path, Diagnostics& diagnostics,
                                    const OrchardReadOptions& options = {});

/// The same from bytes. `path` names the file in messages and gives the folder; without `files`
/// nothing is looked for on any disk, and records are not read.
std::optional<Orchard> read_orchard_bytes(const std::string& path, std::string_view bytes,
                                          Diagnostics& diagnostics,
                                          const OrchardReadOptions& options = {},
                                          const FilesBeside* files = nullptr);

}  // namespace winterfolio
