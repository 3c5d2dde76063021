// YAML files become trees that know where everything stands, and what YAML alone would let pass is
// a fault. The grammar is that of YAML 1.2; places are counted by hand.
#include "readers/yaml_document.h"

#include "support/catch.h"

using namespace winterfolio;

namespace {

YamlDocument read(std::string_view text) {
  Diagnostics diagnostics;
  auto document = read_yaml("f.yaml", text, diagnostics);
  for (const Diagnostic& diagnostic : diagnostics.all()) FAIL(to_text(diagnostic));
  REQUIRE(document.has_value());
  return std::move(*document);
}

/// The one fault of a text: its id and "line:column+width".
std::string fault_of(std::string_view text) {
  Diagnostics diagnostics;
  const auto document = read_yaml("f.yaml", text, diagnostics);
  REQUIRE(diagnostics.all().size() == 1);
  const Diagnostic& fault = diagnostics.all()[0];
  return fault.id + " " + std::to_string(fault.at.line) + ":" + std::to_string(fault.at.column) +
         "+" + std::to_string(fault.width);
}

void check_span(const SourceSpan& span, int line, int column, int width) {
  CHECK(span.line == line);
  CHECK(span.column == column);
  CHECK(span.width == width);
}

}  // namespace

TEST_CASE("values stay the texts that were written") {
  const YamlDocument document =
      read("a: yes\nb: 012\nc: 3.5 m\nd: \"7\"\ne: 2027-01-16\nf: .nan\ng: 0x1F\n");
  const char* expected[] = {"yes", "012", "3.5 m", "7", "2027-01-16", ".nan", "0x1F"};
  REQUIRE(document.root.entries.size() == 7);
  for (std::size_t i = 0; i < 7; ++i) CHECK(document.root.entries[i].value.text == expected[i]);
}

TEST_CASE("a tree called Null is no missing value, and a missing value is none") {
  const YamlDocument document = read(
      "a: Null\nb: null # the cultivar\nc: ~\nd:\ne: x\nl:\n  - null\n  -\n  - y\nm: {n: NULL, o: "
      "}\n");
  CHECK(document.root.find("a")->kind == YamlKind::text);
  CHECK(document.root.find("a")->text == "Null");
  CHECK(document.root.find("b")->text == "null");
  CHECK(document.root.find("c")->kind == YamlKind::nothing);
  CHECK(document.root.find("d")->kind == YamlKind::nothing);
  const YamlNode* list = document.root.find("l");
  REQUIRE(list->items.size() == 3);
  CHECK(list->items[0].text == "null");
  CHECK(list->items[1].kind == YamlKind::nothing);
  CHECK(list->items[2].text == "y");
  CHECK(document.root.find("m")->find("n")->text == "NULL");
  CHECK(document.root.find("m")->find("o")->kind == YamlKind::nothing);
}

TEST_CASE("an empty value before a key called null stays empty") {
  const YamlDocument document = read("a:\nnull: 3\n");
  CHECK(document.root.find("a")->kind == YamlKind::nothing);
  CHECK(document.root.find("null")->text == "3");
}

TEST_CASE("places are counted in characters, not in bytes") {
  const YamlDocument document = read("a: Búlida\nb: {é: ü, frost: -1.5 °C}\n");
  check_span(document.root.find("a")->at, 1, 4, 6);
  const YamlNode* map = document.root.find("b");
  check_span(map->entries[0].key_at, 2, 5, 1);
  check_span(map->entries[0].value.at, 2, 8, 1);
  check_span(map->entries[1].value.at, 2, 18, 7);
}

TEST_CASE("the place of a quoted text has its quotes in it") {
  const YamlDocument document =
      read("a: \"x \\\" y\" # c\nb: 'it''s'\nc: |\n  two\n  lines\nd: one\n  two # not this\n");
  check_span(document.root.find("a")->at, 1, 4, 8);
  CHECK(document.root.find("a")->text == "x \" y");
  check_span(document.root.find("b")->at, 2, 4, 7);
  CHECK(document.root.find("b")->text == "it's");
  check_span(document.root.find("c")->at, 3, 4, 1);
  CHECK(document.root.find("c")->text == "two\nlines\n");
  check_span(document.root.find("d")->at, 6, 4, 3);
  CHECK(document.root.find("d")->text == "one two");
}

TEST_CASE("byte order marks and every kind of line end are read alike") {
  for (const char* text : {"a: 1\nb:\n  c: 2\n",
                           "\xEF\xBB\xBF"
                           "a: 1\nb:\n  c: 2\n",
                           "a: 1\r\nb:\r\n  c: 2\r\n", "a: 1\rb:\r  c: 2\r"}) {
    const YamlDocument document = read(text);
    check_span(document.root.find("a")->at, 1, 4, 1);
    check_span(document.root.find("b")->find("c")->at, 3, 6, 1);
    CHECK(document.root.find("b")->find("c")->text == "2");
  }
}

TEST_CASE("a directive and document marks around one document are allowed") {
  CHECK(read("%YAML 1.2\n---\na: 1\n...\n").root.find("a")->text == "1");
}

TEST_CASE("what YAML lets pass and keepers never mean is a fault with its place") {
  CHECK(fault_of("a: 1\nb: 2\na: 3\n") == "yaml.duplicate-key 3:1+1");
  CHECK(fault_of("é: {größe: 1, größe: 2}\n") == "yaml.duplicate-key 1:15+5");
  CHECK(fault_of("a: &x 1\n") == "yaml.alias 1:4+1");
  CHECK(fault_of("a: *x\n") == "yaml.alias 1:4+1");
  CHECK(fault_of("a: !!int 1\n") == "yaml.tag 1:4+1");
  CHECK(fault_of("? {a: 1}\n: 2\n").substr(0, 17) == "yaml.key-not-text");
  CHECK(fault_of("a: 1\n---\nb: 2\n") == "yaml.several-documents 2:1+3");
  CHECK(fault_of("a: \"x\nb: 1\n") ==
        "yaml.unclosed-quote 1:4+1");  // the library itself would not mind
  CHECK(fault_of("a: 'x\n") == "yaml.unclosed-quote 1:4+1");
  CHECK(fault_of("\ta: 1\n") == "yaml.tab 1:1+1");
  CHECK(fault_of("a:\n  \t\tb: 1\n") == "yaml.tab 2:3+2");
  CHECK(fault_of("") == "yaml.empty 0:0+1");
  CHECK(fault_of("a: \x04\nb: 1\n") ==
        "yaml.control-character 1:4+1");  // where the library would stop reading
  CHECK(fault_of(std::string_view("a: \0\n", 5)) == "yaml.control-character 1:4+1");
}

TEST_CASE("broken UTF-8 of every kind is found where it stands") {
  // Unicode standard, table 3-7, well-formed UTF-8 byte sequences.
  for (const char* broken : {"\x80", "\xC3", "\xC0\xAF", "\xE0\x80\xAF", "\xED\xA0\x80",
                             "\xF4\x90\x80\x80", "\xF8\x88\x80\x80", "\xFF"}) {
    CHECK(fault_of("n: ü\nm: ä" + std::string(broken) + "\n") == "yaml.not-utf8 2:5+1");
  }
  for (const char* whole : {"\xC2\xA0", "\xDF\xBF", "\xE0\xA0\x80", "\xED\x9F\xBF", "\xEF\xBF\xBD",
                            "\xF0\x90\x80\x80", "\xF4\x8F\xBF\xBF"}) {
    CHECK(read("m: a" + std::string(whole) + "b\n").root.find("m")->text ==
          "a" + std::string(whole) + "b");
  }
}

TEST_CASE("twelve levels are read, thirteen are not") {
  CHECK(
      read("a: " + std::string(11, '[') + "x" + std::string(11, ']') + "\n").root.find("a")->kind ==
      YamlKind::list);
  CHECK(fault_of("a: " + std::string(12, '[') + "x" + std::string(12, ']') + "\n") ==
        "yaml.too-deep 1:15+1");
}

TEST_CASE("a file of exactly one mebibyte is read, one byte more is not") {
  std::string text = "a: 1\n";
  while (text.size() < kMostYamlBytes) text += "# comment\n";
  text.resize(kMostYamlBytes);
  CHECK(read(text).root.find("a")->text == "1");
  CHECK(fault_of(text + "#") == "yaml.too-large 0:0+1");
}

TEST_CASE("after a fault of the tree the rest of the file is still read") {
  Diagnostics diagnostics;
  const auto document = read_yaml("f.yaml", "a: 1\na: 2\nb: *x\nc: !t 3\n", diagnostics);
  // The alias names no anchor, which ends the library's reading; without it the rest is there.
  CHECK_FALSE(document.has_value());
  Diagnostics others;
  const auto rest = read_yaml("f.yaml", "a: 1\na: 2\nb: &x 4\nc: !t 3\nd: 5\n", others);
  REQUIRE(rest.has_value());
  CHECK(others.errors() == 3);
  CHECK(rest->root.find("a")->text == "1");
  CHECK(rest->root.find("d")->text == "5");
}

TEST_CASE("a list that would hold itself is told as two aliases, and reading ends") {
  Diagnostics diagnostics;
  read_yaml("f.yaml", "a: &a [*a]\n", diagnostics);
  REQUIRE(diagnostics.all().size() == 2);
  CHECK(diagnostics.all()[0].id == "yaml.alias");
  CHECK(diagnostics.all()[1].id == "yaml.alias");
}
