// Whatever is done to an orchard file, its reader ends, and gives either an orchard or a reason why
// not.
//
// Damage is made from a fixed seed by a generator written out here, so that every machine tries the
// same files.
#include <cstdint>
#include <ctime>

#include "readers/orchard/memory_files.h"
#include "readers/orchard/orchard_reader.h"
#include "support/catch.h"
#include "support/files.h"

using namespace winterfolio;

namespace {

/// A linear congruential generator (Knuth, MMIX constants); only its upper bits are used.
class Dice {
 public:
  explicit Dice(std::uint64_t seed) : state_(seed) {}
  std::size_t below(std::size_t limit) {
    state_ = state_ * 6364136223846793005ULL + 1442695040888963407ULL;
    return static_cast<std::size_t>((state_ >> 33U) % limit);
  }

 private:
  std::uint64_t state_;
};

std::vector<std::string> lines_of(const std::string& text) {
  std::vector<std::string> lines;
  std::size_t start = 0;
  while (start < text.size()) {
    const std::size_t end = std::min(text.find('\n', start), text.size() - 1);
    lines.push_back(text.substr(start, end - start + 1));
    start = end + 1;
  }
  return lines;
}

std::string joined(const std::vector<std::string>& lines) {
  std::string text;
  for (const std::string& line : lines) text += line;
  return text;
}

std::string flip_bytes(std::string text, Dice& dice) {
  for (std::size_t count = 1 + dice.below(4); count > 0; --count) {
    text[dice.below(text.size())] = static_cast<char>(dice.below(256));
  }
  return text;
}

std::string put_in_signs(std::string text, Dice& dice) {
  static const std::string kSigns = ":-[]{},#&*!|>'\"%@`?\\ \t\n~<=.0";
  for (std::size_t count = 1 + dice.below(3); count > 0; --count) {
    text.insert(dice.below(text.size()), 1, kSigns[dice.below(kSigns.size())]);
  }
  return text;
}

std::string swap_lines(const std::string& text, Dice& dice) {
  std::vector<std::string> lines = lines_of(text);
  for (std::size_t count = 1 + dice.below(5); count > 0; --count) {
    std::swap(lines[dice.below(lines.size())], lines[dice.below(lines.size())]);
  }
  return joined(lines);
}

std::string leave_out_lines(const std::string& text, Dice& dice) {
  std::vector<std::string> lines = lines_of(text);
  for (std::size_t count = 1 + dice.below(3); count > 0; --count) {
    lines.erase(lines.begin() + static_cast<std::ptrdiff_t>(dice.below(lines.size())));
  }
  return joined(lines);
}

std::string double_a_part(const std::string& text, Dice& dice) {
  const std::size_t from = dice.below(text.size());
  const std::string part = text.substr(from, dice.below(200));
  return text.substr(0, from) + part + text.substr(from);
}

/// Damages `text` in one of six ways.
std::string damaged(const std::string& text, Dice& dice) {
  switch (dice.below(6)) {
    case 0:
      return flip_bytes(text, dice);
    case 1:
      return text.substr(0, dice.below(text.size()));
    case 2:
      return swap_lines(text, dice);
    case 3:
      return leave_out_lines(text, dice);
    case 4:
      return double_a_part(text, dice);
    default:
      return put_in_signs(text, dice);
  }
}

/// Reads a pair of files and checks what must hold of any: an orchard, or an error that says where.
bool reads(const std::string& orchard_bytes, const std::string& records) {
  Diagnostics diagnostics;
  const test::MemoryFiles files({{"temperatures/2026-27.csv", ""},
                                 {"temperatures/airport.csv", ""},
                                 {"temperatures/forecast.csv", ""},
                                 {"temperatures/hollow.csv", ""},
                                 {"temperatures/top.csv", ""},
                                 {"records.csv", records}});
  const auto orchard = read_orchard_bytes("o.yaml", orchard_bytes, diagnostics, {}, &files);
  CHECK(orchard.has_value() == !diagnostics.has_errors());
  for (const Diagnostic& diagnostic : diagnostics.all()) {
    CHECK_FALSE(diagnostic.id.empty());
    CHECK_FALSE(diagnostic.message.empty());
    CHECK_FALSE(diagnostic.at.file.empty());
    if (diagnostic.severity == Severity::error) {
      CHECK_FALSE(diagnostic.expected.empty());
      CHECK_FALSE(diagnostic.mend.empty());
    }
    CHECK(to_text(diagnostic).size() < 4000);
  }
  return orchard.has_value();
}

const std::string kFolder = test::source_dir() + "/tests/readers/orchard/";

}  // namespace

TEST_CASE("a thousand damaged orchard files end in an orchard or an error") {
  const std::string whole = test::read_file(kFolder + "everything.yaml");
  const std::string records = test::read_file(kFolder + "everything_records.csv");
  Dice dice(20270116);
  int read = 0;
  for (int i = 0; i < 1000; ++i) {
    std::string text = damaged(whole, dice);
    if (dice.below(3) == 0 && !text.empty()) text = damaged(text, dice);
    INFO("damage " << i);
    read += reads(text, records) ? 1 : 0;
  }
  // Some damage does no harm (a letter of a note), most does.
  CHECK(read > 20);
  CHECK(read < 500);
}

TEST_CASE("three hundred damaged records end in an orchard or an error") {
  const std::string whole = test::read_file(kFolder + "everything.yaml");
  const std::string records = test::read_file(kFolder + "everything_records.csv");
  Dice dice(20270213);
  for (int i = 0; i < 300; ++i) {
    INFO("damage " << i);
    reads(whole, damaged(records, dice));
  }
}

TEST_CASE("files made to be slow are read in a blink all the same") {
  const auto repeated = [](const std::string& part, std::size_t bytes) {
    std::string text;
    while (text.size() + part.size() <= bytes) text += part;
    return text;
  };
  constexpr std::size_t kMebibyte = std::size_t{1} << 20U;
  std::vector<std::string> texts;
  for (const char* part :
       {"[",       "{",       "- ",    "? ",   "a: ",  "\"",       "'",    "x\n",
        "a: &a\n", "*a ",     "!",     "a:\n", "\n",   "#",        "{a: ", "[a, ",
        "|\n",     "a: |\n ", "---\n", "%",    "- - ", "\xC3\xA9", ": ",   ","}) {
    texts.push_back(repeated(part, kMebibyte / 4));
    texts.push_back("version: 1\norchard: {id: x, latitude: 1}\ntrees:\n" +
                    repeated(part, kMebibyte / 4));
  }
  std::string keys = "version: 1\n";
  std::string trees = "version: 1\norchard: {id: x, latitude: 1}\ntrees:\n";
  std::string cultivars = "version: 1\norchard: {id: x, latitude: 1}\ncultivars:\n";
  for (int i = 0; keys.size() < kMebibyte - 20; ++i) keys += "k" + std::to_string(i) + ":\n";
  for (int i = 0; trees.size() < kMebibyte - 60; ++i)
    trees += "- {id: T" + std::to_string(i) + ", species: apple, cultivar: x" + std::to_string(i) +
             "}\n";
  for (int i = 0; cultivars.size() < kMebibyte - 60; ++i)
    cultivars += "- {species: apple, name: n" + std::to_string(i) + "}\n";
  std::string strangers = cultivars.substr(0, kMebibyte / 3);
  strangers = strangers.substr(0, strangers.rfind('\n') + 1) + "blocks:\n";
  for (int i = 0; strangers.size() < kMebibyte / 3 * 2; ++i)
    strangers += "- {id: b" + std::to_string(i) + "}\n";
  strangers += "trees:\n";
  for (int i = 0; strangers.size() < kMebibyte - 80; ++i) {
    strangers += "- {id: T" + std::to_string(i) + ", species: apple, cultivar: m" +
                 std::to_string(i) + ", block: c" + std::to_string(i) + "}\n";
  }
  texts.push_back(strangers);
  texts.push_back(keys);
  texts.push_back(trees);
  texts.push_back(cultivars);
  texts.push_back("version: 1\norchard: {id: x, latitude: 1, name: " +
                  std::string(kMebibyte - 100, 'x') + "}\n");
  texts.push_back("version: 1\n" + std::string(kMebibyte - 100, 'x') + ": 1\n");
  for (std::size_t i = 0; i < texts.size(); ++i) {
    INFO("text " << i);
    const std::clock_t begin = std::clock();
    Diagnostics diagnostics;
    const auto orchard = read_orchard_bytes("o.yaml", texts[i], diagnostics);
    CHECK(orchard.has_value() == !diagnostics.has_errors());
    const double took = static_cast<double>(std::clock() - begin) / CLOCKS_PER_SEC;
    CHECK(took <
          20.0);  // [s] of the processor; far from what a quick machine needs, but no hang passes
  }
}
