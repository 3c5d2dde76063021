// YAML files as keepers write them, read into a tree of texts, lists and maps that knows where
// everything stands.
//
// Every value stays the text that was written ("yes", "012", "3.5 m"); whoever asks for it says
// what it should be. What YAML allows but such a file never needs is a fault: aliases, tags, keys
// written twice, several documents in one file, more than a dozen levels. Faults of the YAML itself
// are told in plain words with the place at which to mend them.
//
//   blocks:                 map { "blocks": list [ map { "id": text "hollow",
//     - id: hollow                                         "frost_offset": text "-1.5 °C" } ] }
//       frost_offset: -1.5 °C
#pragma once

#include <memory>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "base/diagnostic.h"
#include "readers/source_text.h"

namespace winterfolio {

inline constexpr std::size_t kMostYamlBytes = std::size_t{1} << 20;
inline constexpr std::size_t kMostYamlLevels = 12;

enum class YamlKind {
  nothing,  ///< a key or a dash with no value behind it
  text,
  list,
  map,
  faulty,  ///< a value that already has its fault; readers pass it by
};

struct YamlEntry;

struct YamlNode {
  YamlKind kind = YamlKind::nothing;
  std::string text;                ///< of a text
  std::vector<YamlNode> items;     ///< of a list, in order
  std::vector<YamlEntry> entries;  ///< of a map, in order, each key once
  SourceSpan at;  ///< the text itself, quotes included; of a list or map its first line

  /// The value of a key in a map; nullptr if the map has no such key, or this is no map.
  const YamlNode* find(std::string_view key) const;
};

struct YamlEntry {
  std::string key;
  SourceSpan key_at;
  YamlNode value;
};

struct YamlDocument {
  SourceText source;
  YamlNode root;
};

/// Reads one YAML file from its bytes. `file` names it in messages.
/// Adds every fault of the YAML it can find; nothing is returned if the text cannot be read as a
/// tree. Duplicate keys, aliases and tags leave a tree that can be read further, so that one run
/// finds the other faults too.
std::optional<YamlDocument> read_yaml(std::string file, std::string_view bytes,
                                      Diagnostics& diagnostics);

}  // namespace winterfolio
