#include "readers/words_reader.h"

#include <fmt/format.h>

#include <charconv>
#include <stdexcept>
#include <string>
#include <utility>
#include <vector>

#include "base/embedded_files.h"
#include "base/utf8.h"

namespace winterfolio {

namespace {

/// What is wrong at one place, before it has its file and line.
struct Fault {
  std::string id;
  std::string message;
  std::string expected;
  std::string mend;
};

class WordsFile {
 public:
  WordsFile(std::string_view bytes, std::string_view file, Diagnostics& diagnostics)
      : bytes_(bytes), file_(file), diagnostics_(diagnostics) {
    if (bytes_.starts_with("\xEF\xBB\xBF")) position_ = 3;
  }

  Words::Entries read() {
    while (position_ < bytes_.size()) read_line();
    if (!levels_.empty() && levels_.back().awaits) report(levels_.back().key_at, nothing_here());
    return std::move(entries_);
  }

 private:
  struct Level {
    std::size_t indent;   ///< blanks before its keys
    std::size_t path;     ///< length of the path its keys are added to
    bool awaits = false;  ///< its last key has neither words nor deeper keys yet
    std::size_t key_at = 0;
  };

  static Fault nothing_here() {
    return {"words.empty", "no words are given here",
            "words, or \"\" where nothing is to be printed", "write the words after the colon"};
  }

  char at(std::size_t i) const { return i < bytes_.size() ? bytes_[i] : '\n'; }
  bool blank(std::size_t i) const { return at(i) == ' '; }
  bool line_end(std::size_t i) const { return at(i) == '\n' || at(i) == '\r'; }
  void skip_line() { position_ = std::min(bytes_.find('\n', position_), bytes_.size() - 1) + 1; }
  void skip_blanks() {
    while (blank(position_)) ++position_;
  }
  /// Past blanks, a comment and the line end; false if something else stands there.
  bool finish_line() {
    skip_blanks();
    const bool nothing_more =
        position_ >= bytes_.size() || line_end(position_) || at(position_) == '#';
    skip_line();
    return nothing_more;
  }

  void read_line() {
    const std::size_t start = position_;
    skip_blanks();
    if (line_end(position_) || at(position_) == '#') {
      skip_line();
      return;
    }
    const std::size_t key_at = position_, indent = position_ - start;
    const std::size_t end = std::min(bytes_.find('\n', position_), bytes_.size());
    std::size_t colon = position_;
    while (colon < end && !(bytes_[colon] == ':' && (blank(colon + 1) || line_end(colon + 1))))
      ++colon;
    const std::string_view key = bytes_.substr(key_at, colon - key_at);
    if (colon == end || key.empty() ||
        key.find_first_of(" \t\"'[]{}#&*!|>") != std::string_view::npos) {
      report(key_at, {"words.no-key", "this line does not begin with a key and a colon",
                      "a line such as 'title: Words'",
                      "write the key without blanks, a colon, a blank and the words"});
      skip_line();
      return;
    }
    if (!enter_level(indent, key_at)) {
      skip_line();
      return;
    }
    path_.resize(levels_.back().path);
    if (!path_.empty()) path_ += '.';
    path_ += key;
    position_ = colon + 1;
    skip_blanks();
    levels_.back().key_at = key_at;
    if (line_end(position_) || at(position_) == '#') {
      levels_.back().awaits = true;
      skip_line();
      return;
    }
    read_value();
  }

  /// Finds the level a key belongs to by its blanks; opens one below a key that awaits its own.
  bool enter_level(std::size_t indent, std::size_t key_at) {
    if (levels_.empty()) {
      levels_.push_back({indent, 0});
      return true;
    }
    if (indent > levels_.back().indent && levels_.back().awaits) {
      levels_.back().awaits = false;
      levels_.push_back({indent, path_.size()});
      return true;
    }
    if (levels_.back().awaits) {
      report(levels_.back().key_at, nothing_here());
      levels_.back().awaits = false;
    }
    while (levels_.size() > 1 && indent < levels_.back().indent) levels_.pop_back();
    if (indent == levels_.back().indent) return true;
    report(key_at, {"words.indent", "this key stands under none of the keys above it",
                    "as many blanks before it as before its neighbours",
                    "set it in by two blanks for each level"});
    return false;
  }

  void read_value() {
    const char first = at(position_);
    if (first == '[') {
      read_list();
      return;
    }
    const std::size_t value_at = position_;
    if (first == '"') {
      const auto words = read_quoted();
      if (!words) return;
      add(value_at, path_, *words);
      if (!finish_line()) report(value_at, after_quotes());
      return;
    }
    if (std::string_view("'{}&*!|>%@`-?,#]").find(first) != std::string_view::npos) {
      report(value_at, {"words.form", fmt::format("words cannot begin with {}", first),
                        "words, plain or in double quotes", "put the words in double quotes"});
      skip_line();
      return;
    }
    add(value_at, path_, read_plain(false));
    skip_line();
  }

  static Fault after_quotes() {
    return {"words.after-quotes", "something stands after the closing quote", "the line's end",
            "put a backslash before a quote that belongs to the words"};
  }

  /// Plain words to the line's end or a comment; in a list, to the comma or bracket too.
  std::string read_plain(bool in_list) {
    const std::size_t start = position_;
    while (!line_end(position_)) {
      const char c = at(position_);
      if (in_list && (c == ',' || c == ']')) break;
      if (c == '#' && position_ > start && blank(position_ - 1)) break;
      if (!in_list && c == ':' && (blank(position_ + 1) || line_end(position_ + 1))) {
        report(position_,
               {"words.colon", "a colon stands in plain words",
                "words with a colon in double quotes", "put the words in double quotes"});
        break;
      }
      ++position_;
    }
    std::size_t end = position_;
    while (end > start && blank(end - 1)) --end;
    return std::string(bytes_.substr(start, end - start));
  }

  /// Words in double quotes with their escapes; a line end within is a blank.
  std::optional<std::string> read_quoted() {
    const std::size_t opening = position_++;
    std::string words;
    while (position_ < bytes_.size()) {
      const char c = bytes_[position_];
      if (c == '"') {
        ++position_;
        return words;
      }
      if (c == '\\') {
        if (!read_escape(words)) return std::nullopt;
      } else if (c == '\n' || c == '\r') {
        while (!words.empty() && words.back() == ' ') words.pop_back();
        skip_line();
        skip_blanks();
        words += ' ';
      } else {
        words += c;
        ++position_;
      }
    }
    report(opening, {"words.open-quote", "this quote is never closed", "a closing quote",
                     "end the words with a quote"});
    return std::nullopt;
  }

  /// The escapes of YAML that words need: a quote, a backslash, a no-break blank, a letter by its
  /// number.
  bool read_escape(std::string& words) {
    const std::size_t start = position_;
    const char kind = at(position_ + 1);
    position_ += 2;
    if (kind == '"' || kind == '\\') {
      words += kind;
      return true;
    }
    if (kind == '_') {
      append_letter(words, 0x00A0);
      return true;
    }
    if (kind == 'u' && position_ + 4 <= bytes_.size()) {
      unsigned letter = 0;
      const char* digits = bytes_.data() + position_;
      const auto [end, error] = std::from_chars(digits, digits + 4, letter, 16);
      if (error == std::errc() && end == digits + 4) {
        position_ += 4;
        append_letter(words, letter);
        return true;
      }
    }
    report(start, {"words.escape", "no letter is written like this",
                   "\\\" \\\\ \\_ or \\u and four digits", "write the letter itself"});
    skip_line();
    return false;
  }

  void read_list() {
    const std::size_t opening = position_++;
    int number = 0;
    for (;;) {
      while (position_ < bytes_.size() && (blank(position_) || line_end(position_))) ++position_;
      if (position_ >= bytes_.size()) {
        report(opening, {"words.open-list", "this list is never closed", "a closing bracket",
                         "end the list with ']'"});
        return;
      }
      if (at(position_) == ']') {
        ++position_;
        if (!finish_line()) report(opening, after_quotes());
        return;
      }
      const std::size_t item_at = position_;
      std::optional<std::string> words = at(position_) == '"' ? read_quoted() : read_plain(true);
      if (!words) return;
      add(item_at, fmt::format("{}.{}", path_, ++number), std::move(*words));
      while (blank(position_) || (position_ < bytes_.size() && line_end(position_))) ++position_;
      if (at(position_) == ',') ++position_;
    }
  }

  void add(std::size_t where, const std::string& id, std::string words) {
    if (!entries_.emplace(id, std::move(words)).second)
      report(where, {"words.twice", fmt::format("the id '{}' has words already", id),
                     "each id once", "delete one of the two"});
  }

  void report(std::size_t where, Fault fault) {
    int line = 1;
    std::size_t start = 0;
    for (std::size_t i = 0; i < where && i < bytes_.size(); ++i) {
      if (bytes_[i] != '\n') continue;
      ++line;
      start = i + 1;
    }
    const std::string text = line_of(bytes_, line);
    diagnostics_.add({std::move(fault.id),
                      Severity::error,
                      {std::string(file_), line, column_of_byte(text, where - start)},
                      std::move(fault.message),
                      std::move(fault.expected),
                      std::move(fault.mend),
                      text,
                      1});
  }

  std::string_view bytes_;
  std::string_view file_;
  Diagnostics& diagnostics_;
  std::size_t position_ = 0;
  std::vector<Level> levels_;
  std::string path_;
  Words::Entries entries_;
};

}  // namespace

std::optional<Words> read_words(std::string_view bytes, std::string_view file,
                                Diagnostics& diagnostics) {
  const int errors_before = diagnostics.errors();
  Words::Entries entries = WordsFile(bytes, file, diagnostics).read();
  if (diagnostics.errors() > errors_before) return std::nullopt;
  std::string language = entries.contains("language") ? entries.at("language") : std::string();
  if (language.empty()) {
    diagnostics.add({"words.no-language",
                     Severity::error,
                     {std::string(file), 0, 0},
                     "the file names no language",
                     "a line such as 'language: en'",
                     "add that line at the top",
                     {},
                     1});
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
