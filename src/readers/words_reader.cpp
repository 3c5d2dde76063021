#include "readers/words_reader.h"

#include <fmt/format.h>
#include <yaml-cpp/eventhandler.h>
#include <yaml-cpp/exceptions.h>
#include <yaml-cpp/parser.h>

#include <sstream>
#include <stdexcept>
#include <string>
#include <utility>
#include <vector>

#include "base/embedded_files.h"

namespace winterfolio {

namespace {

/// Listens to the parser and writes every scalar down under its path of keys.
class WordsListener : public YAML::EventHandler {
 public:
  WordsListener(std::string_view bytes, std::string_view file, Diagnostics& diagnostics)
      : bytes_(bytes), file_(file), diagnostics_(diagnostics) {}

  void OnDocumentStart(const YAML::Mark&) override {}
  void OnDocumentEnd() override {}
  void OnNull(const YAML::Mark& mark, YAML::anchor_t) override {
    add_fault("words.empty", mark, "no words are given here", "words, in quotes if they are to be empty",
              "write the words after the colon");
    finish_value();
  }
  void OnAlias(const YAML::Mark& mark, YAML::anchor_t) override {
    add_fault("words.alias", mark, "an alias stands here", "words", "write the words out");
    finish_value();
  }
  void OnScalar(const YAML::Mark& mark, const std::string&, YAML::anchor_t, const std::string& value) override {
    if (!levels_.empty() && levels_.back().is_map && !levels_.back().has_key) {
      open_key(value);
      return;
    }
    const std::string id = path();
    if (!entries_.emplace(id, value).second)
      add_fault("words.twice", mark, fmt::format("the id '{}' has words already", id), "each id once",
                "delete one of the two");
    finish_value();
  }
  void OnSequenceStart(const YAML::Mark&, const std::string&, YAML::anchor_t, YAML::EmitterStyle::value) override {
    levels_.push_back({false, false, 1, prefix_length()});
    open_item();
  }
  void OnSequenceEnd() override { close_level(); }
  void OnMapStart(const YAML::Mark&, const std::string&, YAML::anchor_t, YAML::EmitterStyle::value) override {
    levels_.push_back({true, false, 0, prefix_length()});
  }
  void OnMapEnd() override { close_level(); }

  Words::Entries take() { return std::move(entries_); }

 private:
  struct Level {
    bool is_map;
    bool has_key;
    int item;
    std::size_t prefix;  ///< length of the path above this level
  };

  std::size_t prefix_length() const { return path_.size(); }
  const std::string& path() const { return path_; }
  void append(std::string_view part) {
    if (!path_.empty()) path_ += '.';
    path_ += part;
  }
  void open_key(const std::string& key) {
    append(key);
    levels_.back().has_key = true;
  }
  void open_item() { append(std::to_string(levels_.back().item)); }
  void finish_value() {
    if (levels_.empty()) return;
    Level& level = levels_.back();
    path_.resize(level.prefix);
    level.has_key = false;
    if (!level.is_map) {
      ++level.item;
      open_item();
    }
  }
  void close_level() {
    path_.resize(levels_.back().prefix);
    levels_.pop_back();
    finish_value();
  }
  void add_fault(std::string id, const YAML::Mark& mark, std::string message, std::string expected,
                 std::string mend) {
    const std::string line = line_of(bytes_, mark.line + 1);
    diagnostics_.add({std::move(id), Severity::error,
                      {std::string(file_), mark.line + 1, column_of_byte(line, static_cast<std::size_t>(mark.column))},
                      std::move(message), std::move(expected), std::move(mend), line, 1});
  }

  std::string_view bytes_;
  std::string_view file_;
  Diagnostics& diagnostics_;
  std::vector<Level> levels_;
  std::string path_;
  Words::Entries entries_;
};

}  // namespace

std::optional<Words> read_words(std::string_view bytes, std::string_view file, Diagnostics& diagnostics) {
  const int errors_before = diagnostics.errors();
  WordsListener listener(bytes, file, diagnostics);
  try {
    std::istringstream in{std::string(bytes)};
    YAML::Parser parser(in);
    parser.HandleNextDocument(listener);
  } catch (const YAML::Exception& e) {
    const int line = e.mark.line + 1;
    diagnostics.add({"words.not-yaml", Severity::error, {std::string(file), line, e.mark.column + 1},
                     fmt::format("this is not YAML: {}", e.msg), "a key, a colon and words in quotes",
                     "put words that hold ': ', '#' or begin with a brace in quotes", line_of(bytes, line), 1});
  }
  if (diagnostics.errors() > errors_before) return std::nullopt;
  Words::Entries entries = listener.take();
  std::string language = entries.contains("language") ? entries.at("language") : std::string();
  if (language.empty()) {
    diagnostics.add({"words.no-language", Severity::error, {std::string(file), 0, 0}, "the file names no language",
                     "a line such as 'language: en'", "add that line at the top", {}, 1});
    return std::nullopt;
  }
  return Words(std::move(language), std::move(entries));
}

Words built_in_words(std::string_view language) {
  const std::string path = fmt::format("templates/words/{}.yaml", language);
  Diagnostics diagnostics;
  auto words = read_words(embedded_file(path), path, diagnostics);
  if (words) return std::move(*words);
  std::string faults = "the built-in words cannot be read:\n";
  for (const Diagnostic& fault : diagnostics.all()) faults += to_text(fault);
  throw std::logic_error(faults);
}

}  // namespace winterfolio
