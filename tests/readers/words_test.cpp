// The words that are printed: the file reads, every id used in the program has words, and no sentence hides in C++.
#include <filesystem>
#include <map>
#include <regex>
#include <set>

#include "base/embedded_files.h"
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
      if (extension == ".h" || extension == ".cpp") found[entry.path().string()] = test::read_file(entry.path().string());
    }
  }
  return found;
}

std::string without_comments(const std::string& code) {
  std::string out;
  for (std::size_t i = 0; i < code.size(); ++i) {
    if (code.compare(i, 2, "//") == 0) {
      i = std::min(code.find('\n', i), code.size() - 1);
      out += '\n';
    } else if (code.compare(i, 2, "/*") == 0) {
      i = std::min(code.find("*/", i), code.size() - 2) + 1;
    } else if (code[i] == '"') {
      const std::size_t start = i++;
      while (i < code.size() && code[i] != '"') i += code[i] == '\\' ? 2 : 1;
      out += code.substr(start, i - start + 1);
    } else {
      out += code[i];
    }
  }
  return out;
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
  CHECK(words.date_range(date_of(2026, 12, 7), date_of(2026, 12, 10), DateForm::day_month) == "7–10\u00a0December");
  CHECK(words.hour(23) == "11\u00a0pm");
  CHECK(words.count_word(12) == "twelve");
  CHECK(words.count_spelled(99) == "ninety-nine");
  CHECK(words.ordinal(3) == "third");
  CHECK(words.winter({2026, false}) == "2026–27");
  for (unsigned m = 1; m <= 12; ++m) CHECK(words.month(m).substr(0, 3) == words.month_brief(m));
}

TEST_CASE("Nested keys and lists become ids") {
  std::optional<Words> words;
  const Diagnostics diagnostics = read("language: xx\na:\n  b: {c: one, d: two}\n  e: [x, y]\nf: \"\"\n", &words);
  REQUIRE(words);
  CHECK(diagnostics.all().empty());
  CHECK(words->entries().at("a.b.c") == "one");
  CHECK(words->entries().at("a.b.d") == "two");
  CHECK(words->entries().at("a.e.2") == "y");
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
  CHECK(only_fault("language: en\na: &x one\nb: *x\n").id == "words.alias");
  CHECK(only_fault("a: one\n").id == "words.no-language");
  CHECK(only_fault("language: en\na: [one\nb: two\n").id == "words.not-yaml");
}

TEST_CASE("Every id used in the program has words") {
  const Words words = built_in_words("en");
  // say("id", ...) and say_one_of("family", ...); ids that are put together at run time are their room's to test.
  const std::regex said("\\bsay\\(\\s*\"([^\"]+)\"");
  const std::regex family("\\bsay_one_of\\(\\s*\"([^\"]+)\"");
  int found = 0;
  for (const auto& [file, code] : sources({"report", "charts", "layout", "document", "cli", "pruning", "findings"})) {
    const std::string plain = without_comments(code);
    for (std::sregex_iterator at(plain.begin(), plain.end(), said), end; at != end; ++at, ++found) {
      INFO(file << " says " << (*at)[1]);
      CHECK(words.has((*at)[1].str()));
    }
    for (std::sregex_iterator at(plain.begin(), plain.end(), family), end; at != end; ++at, ++found) {
      INFO(file << " says one of " << (*at)[1]);
      CHECK(words.has_family((*at)[1].str()));
    }
  }
  CHECK(found > 3);
}

TEST_CASE("No printed sentence stands in C++") {
  // Two words with a blank between them, in a string of a room that makes pages. Messages to the person at the keyboard
  // (diagnostics, faults of the program) are not printed; their lines say so.
  const std::regex sentence("\"[^\"]*[A-Za-z]{2,} [A-Za-z]{2,}[^\"]*\"");
  const std::regex not_printed("fault\\(|_error|remark|Diagnostic|diagnostics|throw ");
  for (const auto& [file, code] : sources({"report", "charts", "layout"})) {
    const std::string plain = without_comments(code);
    for (std::sregex_iterator at(plain.begin(), plain.end(), sentence), end; at != end; ++at) {
      // The statement it stands in: back to the last ; { or }.
      const auto position = static_cast<std::size_t>(at->position());
      const std::size_t start = plain.find_last_of(";{}", position);
      const std::string before = plain.substr(start == std::string::npos ? 0 : start, position - start);
      const std::size_t earlier = plain.find_last_of(";}", start == std::string::npos ? 0 : start);
      const std::string statement = plain.substr(earlier == std::string::npos ? 0 : earlier, position - earlier) + before;
      if (std::regex_search(statement, not_printed)) continue;
      FAIL_CHECK(file << " holds the words " << at->str() << "; put them in templates/words/en.yaml");
    }
  }
}

TEST_CASE("Words are written as the house prints them") {
  // No hyphen for a minus or between numbers, no double blanks, no blank before a full stop, typographic apostrophes.
  const Words words = built_in_words("en");
  const std::regex ascii_range("[0-9]-[0-9]"), ascii_apostrophe("[A-Za-z]'[A-Za-z]"), doubled("  "), loose(" [.,;:](?![0-9])");
  for (const auto& [id, text] : words.entries()) {
    INFO(id << ": " << text);
    CHECK(!std::regex_search(text, ascii_range));
    CHECK(!std::regex_search(text, ascii_apostrophe));
    CHECK(!std::regex_search(text, doubled));
    CHECK(!std::regex_search(text, loose));
    CHECK(std::count(text.begin(), text.end(), '{') == std::count(text.begin(), text.end(), '}'));
  }
}
