// The words that are printed: the file reads, every id used in the program has words, and no
// sentence hides in C++.
#include <yaml-cpp/yaml.h>

#include <algorithm>
#include <cctype>
#include <filesystem>
#include <functional>
#include <map>
#include <regex>
#include <vector>

#include "base/embedded_files.h"
#include "base/utf8.h"
#include "readers/words_reader.h"
#include "support/catch.h"
#include "support/files.h"

namespace fs = std::filesystem;
using namespace winterfolio;

namespace {

/// Source files of the rooms whose pages a person reads.
std::map<std::string, std::string> sources(std::initializer_list<const char*> rooms) {
  std::map<std::string, std::string> found;
  for (const char* room : rooms) {
    const fs::path folder = fs::path(test::source_dir()) / "src" / room;
    if (!fs::exists(folder)) continue;
    for (const fs::directory_entry& entry : fs::recursive_directory_iterator(folder)) {
      const std::string extension = entry.path().extension().string();
      if (extension == ".h" || extension == ".cpp")
        found[entry.path().string()] = test::read_file(entry.path().string());
    }
  }
  return found;
}

/// A string of the code, and what stands before it back to the end of the statement before the
/// last.
struct Quoted {
  std::string text;
  std::string before;
  std::string after;  ///< the next letters
};

/// The code without comments, and every string in it with where it stands in that code.
struct Scanned {
  std::string code;
  std::vector<std::pair<std::size_t, std::string>> strings;
};

Scanned scan(const std::string& source) {
  Scanned out;
  for (std::size_t i = 0; i < source.size(); ++i) {
    if (source.compare(i, 2, "//") == 0) {
      i = std::min(source.find('\n', i), source.size() - 1);
      out.code += '\n';
    } else if (source[i] == '\'' && i > 0 &&
               !std::isalnum(static_cast<unsigned char>(source[i - 1]))) {
      i += source[i + 1] == '\\' ? 3 : 2;  // a letter; digit separators follow a digit
    } else if (source[i] == '"') {
      const std::size_t start = ++i;
      while (i < source.size() && source[i] != '"') i += source[i] == '\\' ? 2 : 1;
      out.strings.emplace_back(out.code.size(), source.substr(start, i - start));
      out.code += "\"\"";
    } else {
      out.code += source[i];
    }
  }
  return out;
}

std::vector<Quoted> quoted(const std::string& source) {
  const Scanned scanned = scan(source);
  std::vector<Quoted> all;
  for (const auto& [at, text] : scanned.strings) {
    std::size_t start = at;
    for (int statement = 0; statement < 2 && start != std::string::npos && start > 0; ++statement)
      start = scanned.code.find_last_of(";}", start - 1);
    if (start == std::string::npos) start = 0;
    all.push_back({text, scanned.code.substr(start, at - start), scanned.code.substr(at + 2, 8)});
  }
  return all;
}

Diagnostics read(const std::string& bytes, std::optional<Words>* words = nullptr) {
  Diagnostics diagnostics;
  auto result = read_words(bytes, "words.yaml", diagnostics);
  if (words) *words = std::move(result);
  return diagnostics;
}

}  // namespace

TEST_CASE("The built-in English words read, and print numbers and dates") {
  const Words words = built_in_words("en");
  CHECK(words.language() == "en");
  CHECK(words.number(2208) == "2,208");
  CHECK(words.number(-3.0, 0, "celsius") == "−3°C");
  CHECK(words.number_range(26, 28, 0, "fahrenheit") == "26–28°F");
  CHECK(words.number(3.0, 1, "percent") == "3.0\u2009%");
  CHECK(words.number(1, 0, "portions") == "1\u00a0portion");
  CHECK(words.date(date_of(2027, 1, 31), DateForm::weekday) == "Sunday 31\u00a0January\u00a02027");
  CHECK(words.date_range(date_of(2026, 12, 7), date_of(2026, 12, 10), DateForm::day_month) ==
        "7–10\u00a0December");
  CHECK(words.hour(23) == "11\u00a0pm");
  CHECK(words.count_word(12) == "twelve");
  CHECK(words.count_spelled(99) == "ninety-nine");
  CHECK(words.ordinal(3) == "third");
  CHECK(words.winter({2026, false}) == "2026–27");
  for (unsigned m = 1; m <= 12; ++m) CHECK(words.month(m).substr(0, 3) == words.month_brief(m));
}

TEST_CASE("Nested keys and lists become ids") {
  std::optional<Words> words;
  const Diagnostics diagnostics = read(
      "# first\nlanguage: xx\n\na:  # why\n  b:\n    c: one two # three\n    d: \"t\\\"w\\u00e9o\n "
      "     and\\_on\"\n  e: [x,\n    \"y, z\"]\r\nf: \"\"\n",
      &words);
  REQUIRE(words);
  CHECK(diagnostics.all().empty());
  CHECK(words->entries().at("a.b.c") == "one two");
  CHECK(words->entries().at("a.b.d") == "t\"wéo and\u00a0on");
  CHECK(words->entries().at("a.e.1") == "x");
  CHECK(words->entries().at("a.e.2") == "y, z");
  CHECK(words->entries().at("f").empty());
  CHECK(words->has_family("a"));
  CHECK(!words->has_family("f"));
}

TEST_CASE("Faults of a words file carry their place") {
  const auto only_fault = [](const std::string& bytes) {
    const Diagnostics diagnostics = read(bytes);
    REQUIRE(diagnostics.all().size() == 1);
    CHECK(!diagnostics.all()[0].expected.empty());
    CHECK(!diagnostics.all()[0].mend.empty());
    return diagnostics.all()[0];
  };
  const Diagnostic twice = only_fault("language: en\na: one\na: two\n");
  CHECK(twice.id == "words.twice");
  CHECK(twice.at.line == 3);
  CHECK(twice.at.column == 4);
  CHECK(only_fault("language: en\na:\n").id == "words.empty");
  CHECK(only_fault("language: en\na:\nb: x\n").at.line == 2);
  CHECK(only_fault("language: en\na: &x one\n").id == "words.form");
  CHECK(only_fault("language: en\na: {b: c}\n").id == "words.form");
  CHECK(only_fault("language: en\na: one: two\n").id == "words.colon");
  CHECK(only_fault("language: en\na: \"one\n").id == "words.open-quote");
  CHECK(only_fault("language: en\na: \"one\" two\n").id == "words.after-quotes");
  CHECK(only_fault("language: en\na: \"o\\qne\"\n").id == "words.escape");
  CHECK(only_fault("language: en\na: [one\n").id == "words.open-list");
  CHECK(only_fault("language: en\nno key here\n").id == "words.no-key");
  CHECK(only_fault("language: en\n  a: one\n").id == "words.indent");
  CHECK(only_fault("a: one\n").id == "words.no-language");
}

TEST_CASE("Every id used in the program has words") {
  const Words words = built_in_words("en");
  // say("id", ...) and say_one_of("family", ...). Ids that are put together at run time begin with
  // their family and a dot: say("family." + ...).
  const std::regex said("\\bsay\\(\\s*$"), family("\\bsay_one_of\\(\\s*$");
  int found = 0;
  for (const auto& [file, source] :
       sources({"report", "charts", "layout", "document", "cli", "pruning", "findings"})) {
    for (const Quoted& string : quoted(source)) {
      const bool says = std::regex_search(string.before, said),
                 says_one = std::regex_search(string.before, family);
      if (!says && !says_one) continue;
      INFO(file << " says " << string.text);
      ++found;
      if (says_one)
        CHECK(words.has_family(string.text));
      else if (string.text.ends_with('.'))
        CHECK(words.has_family(string.text.substr(0, string.text.size() - 1)));
      else if (string.after.find('+') == std::string::npos)
        CHECK(words.has(string.text));
    }
  }
  CHECK(found > 3);
}

TEST_CASE("No printed sentence stands in C++") {
  // Two words with a blank between them, in a string of a room that makes pages. Messages to the
  // person at the keyboard (diagnostics, faults of the program) are not printed; their statements
  // say so.
  const std::regex sentence("[A-Za-z]{2,} [A-Za-z]{2,}");
  const std::regex not_printed("fault|_error|remark|iagnostic|throw ");
  int strings = 0;
  for (const auto& [file, source] : sources({"report", "charts", "layout"})) {
    for (const Quoted& string : quoted(source)) {
      ++strings;
      if (!std::regex_search(string.text, sentence) ||
          std::regex_search(string.before, not_printed))
        continue;
      FAIL_CHECK(file << " holds the words '" << string.text
                      << "'; put them in templates/words/en.yaml");
    }
  }
  CHECK(strings > 50);
}

TEST_CASE("The words file is YAML: a whole YAML reader finds the same ids and words in it") {
  // yaml-cpp as an independent judge. It writes the escape \\_ as one byte A0, which is not UTF-8;
  // ours writes U+00A0.
  const std::string bytes(embedded_file("templates/words/en.yaml"));
  std::map<std::string, std::string> expected;
  const std::function<void(const YAML::Node&, const std::string&)> walk =
      [&](const YAML::Node& node, const std::string& path) {
        if (node.IsMap()) {
          for (const auto& pair : node)
            walk(pair.second, (path.empty() ? "" : path + ".") + pair.first.as<std::string>());
        } else if (node.IsSequence()) {
          int i = 0;
          for (const auto& item : node) walk(item, path + "." + std::to_string(++i));
        } else {
          std::string text = node.as<std::string>(), fixed;
          for (std::size_t i = 0; i < text.size();) {
            // Passed letter by letter: an A0 that begins one is the stray byte.
            if (static_cast<unsigned char>(text[i]) == 0xA0) {
              fixed += "\u00a0";
              ++i;
              continue;
            }
            const std::size_t from = i;
            next_letter(text, i);
            fixed += text.substr(from, i - from);
          }
          expected[path] = fixed;
        }
      };
  walk(YAML::Load(bytes), "");
  const Words words = built_in_words("en");
  CHECK(words.entries().size() == expected.size());
  for (const auto& [id, text] : expected) {
    INFO(id);
    REQUIRE(words.has(id));
    CHECK(words.entries().at(id) == text);
  }
}

TEST_CASE("Words are written as the house prints them") {
  // No hyphen for a minus or between numbers, no double blanks, no blank before a full stop,
  // typographic apostrophes.
  const Words words = built_in_words("en");
  const std::regex ascii_range("[0-9]-[0-9]"), ascii_apostrophe("[A-Za-z]'[A-Za-z]"), doubled("  "),
      loose(" [.,;](?![0-9])");
  for (const auto& [id, text] : words.entries()) {
    INFO(id << ": " << text);
    CHECK(!std::regex_search(text, ascii_range));
    CHECK(!std::regex_search(text, ascii_apostrophe));
    CHECK(!std::regex_search(text, doubled));
    CHECK(!std::regex_search(text, loose));
    CHECK(std::count(text.begin(), text.end(), '{') == std::count(text.begin(), text.end(), '}'));
  }
}
