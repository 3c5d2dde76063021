// Takes values out of a YAML tree one by one, checks each, and says what is wrong with it in words
// a keeper can act on.
//
// Every question is asked with the key's own row of the key table (keys.cpp), which says what
// belongs there and gives an example; a value that will not do leaves a fault and no value, and
// reading goes on.
#pragma once

#include <functional>
#include <optional>
#include <span>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include "orchard/names.h"
#include "orchard/orchard.h"
#include "readers/orchard/orchard_reader.h"
#include "readers/yaml_document.h"

namespace winterfolio {

/// A value with what is known of its key: what belongs there and how it is written.
struct Given {
  std::string_view key;
  std::string_view expected;  ///< "degrees from -90 to 90, south negative"
  std::string_view example;   ///< "38.75"
  SourceSpan key_at;
  const YamlNode& node;
};

struct Limits {
  double low;
  double high;
};

/// How values are written in a file: behind their keys, or in the cells of a table.
enum class Layout { keys, cells };

class Reading {
 public:
  /// Refers to all four, which must outlive it. `files` may be null: then no file is looked for.
  Reading(const SourceText& source, Diagnostics& diagnostics, const OrchardReadOptions& options,
          const FilesBeside* files, Layout layout = Layout::keys)
      : source_(source),
        diagnostics_(diagnostics),
        options_(options),
        files_(files),
        layout_(layout) {}

  const OrchardReadOptions& options() const { return options_; }
  const SourceText& source() const { return source_; }

  void error(SourceSpan at, std::string id, std::string message, std::string expected,
             std::string mend);
  void warning(SourceSpan at, std::string id, std::string message, std::string expected,
               std::string mend);
  void note(SourceSpan at, std::string id, std::string message);

  /// Each of these gives the value, or adds a fault and gives nothing.
  std::optional<std::string> text(const Given& given, int longest = 100);
  std::optional<double> number(const Given& given, Limits limits);
  std::optional<int> whole(const Given& given, Limits limits);
  std::optional<double> degrees(const Given& given, Limits limits);
  std::optional<Metres> length(const Given& given, Limits metres);
  std::optional<CelsiusDelta> temperature_difference(const Given& given, Limits celsius);
  std::optional<double> minutes(const Given& given, Limits limits);
  std::optional<double> percent_as_share(const Given& given);
  std::optional<Range> range(const Given& given, Limits limits, std::string_view quantity = {});
  std::optional<Date> date(const Given& given);
  std::optional<PartialDate> partial_date(const Given& given);
  std::optional<MonthDay> month_day(const Given& given);
  std::optional<int> time_of_day(const Given& given);
  std::optional<int> utc_offset(const Given& given);
  /// A name that files and sheets are known by: letters, digits and hyphens (and `also`), at most
  /// `longest`.
  std::optional<std::string> id(const Given& given, int longest, std::string_view also = {});
  /// The path of a file below the orchard's folder, which must be there.
  std::optional<std::string> file(const Given& given);
  /// The row of a table of words.
  const WordRow* word_of(const Given& given, const std::vector<WordRow>& table);

  /// One of a few words, each with its value.
  template <typename T>
  std::optional<T> choice(const Given& given,
                          std::initializer_list<std::pair<std::string_view, T>> choices) {
    const YamlNode* node = text_node(given);
    if (node == nullptr) return std::nullopt;
    std::vector<std::string> words;
    for (const auto& [word, value] : choices) {
      if (same_name(word, node->text)) return value;
      words.emplace_back(word);
    }
    // yes and true are one word, no and false the other.
    if (const auto yes = as_yes_no(node->text)) {
      for (const auto& [word, value] : choices) {
        if (word == (*yes ? "yes" : "no")) return value;
      }
    }
    unknown_word(given, words);
    return std::nullopt;
  }

  /// The entries of a list, each with the key of the list.
  std::vector<Given> list(const Given& given);

  /// Whether the value is a map; else a fault.
  bool is_map(const Given& given);

  /// Notes that a key was used, for the note about keys that nothing is made of yet.
  void saw_key(std::string_view section, const YamlEntry& entry);
  /// One note a section that names the keys seen which tables/keys_not_used_yet.csv lists; told
  /// when all else is right.
  void tell_unused_keys();

  /// A fault about a word that is none of `words`.
  void unknown_word(const Given& given, const std::vector<std::string>& words);

  /// "write it as in 'height: 4 m'"; in the cell of a table "write it as in '4 m'"
  std::string as_in(const Given& given) const;

 private:
  static std::optional<bool> as_yes_no(std::string_view text);
  /// The node, if it is a text and not empty; else a fault.
  const YamlNode* text_node(const Given& given);
  std::optional<double> in_limits(const Given& given, double value, Limits limits, double shown,
                                  std::string_view unit);
  void not_a_number(const Given& given, std::string_view number);
  /// The number of a text and the unit behind it.
  std::optional<std::pair<double, std::string>> quantity(const Given& given,
                                                         std::string_view quantity);
  void bad_date(const Given& given, std::string_view kind);
  void look_for_personal_data(const Given& given);
  void missing_file(const Given& given);

  const SourceText& source_;
  Diagnostics& diagnostics_;
  const OrchardReadOptions& options_;
  const FilesBeside* files_;
  Layout layout_;
  struct UnusedKeys {
    std::string section;
    SourceSpan first;
    std::vector<std::string> keys;
  };
  std::vector<UnusedKeys> unused_;
};

/// "a, b or c"
std::string either(const std::vector<std::string>& words);

/// What could have been written: the nearest word if there is one and the list is long, else all
/// words.
std::string one_of(std::string_view expected, const std::vector<std::string>& words,
                   const std::string& nearest);

/// nearest_name() for a word that a file holds: nothing for words longer than any name.
std::string nearest_word(std::string_view word, const std::vector<std::string>& candidates);

}  // namespace winterfolio
