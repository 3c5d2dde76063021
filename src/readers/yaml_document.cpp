// Builds the tree from the YAML library's events, and guards it.
#include "readers/yaml_document.h"

#include <fmt/format.h>
#include <yaml-cpp/emitterstyle.h>
#include <yaml-cpp/eventhandler.h>
#include <yaml-cpp/exceptions.h>
#include <yaml-cpp/mark.h>
#include <yaml-cpp/parser.h>

#include <istream>
#include <map>
#include <streambuf>

#include "readers/yaml_syntax.h"

namespace winterfolio {
namespace {

/// Reads a text in memory as a stream, without copying it.
class TextBuffer : public std::streambuf {
 public:
  explicit TextBuffer(std::string_view text) {
    // The library only reads; a stream buffer asks for writable memory all the same.
    char* begin = const_cast<char*>(text.data());  // NOLINT(cppcoreguidelines-pro-type-const-cast)
    setg(begin, begin, begin + text.size());
  }
};

/// Thrown out of the library when a file is nested deeper than any of ours; no std::exception, so
/// that nothing between here and there takes it for its own.
struct TooDeep {
  YAML::Mark at;
};

/// The bytes of a quoted text from its opening quote, within one line; npos if it does not end
/// there.
std::size_t quoted_length(std::string_view text) {
  const char quote = text[0];
  for (std::size_t i = 1; i < text.size(); ++i) {
    if (quote == '"' && text[i] == '\\') {
      ++i;
    } else if (text[i] == quote) {
      if (quote == '\'' && text.substr(i + 1, 1) == "'") {
        ++i;
      } else {
        return i + 1;
      }
    }
  }
  return std::string_view::npos;
}

bool opens_quote(std::string_view text) {
  return !text.empty() && (text[0] == '"' || text[0] == '\'');
}

/// A word that YAML takes for "no value", though a tree may well be called so.
std::string_view null_word(std::string_view text) {
  for (const std::string_view word : {"null", "Null", "NULL", "~"}) {
    if (!text.starts_with(word)) continue;
    const std::string_view rest = text.substr(word.size());
    if (rest.empty() || std::string_view(" :,]}").find(rest[0]) != std::string_view::npos)
      return word;
  }
  return {};
}

class TreeBuilder : public YAML::EventHandler {
 public:
  TreeBuilder(const SourceText& source, Diagnostics& diagnostics)
      : source_(source), diagnostics_(diagnostics) {}

  YamlNode take_root() { return std::move(root_); }
  bool unclosed() const { return unclosed_; }

  void OnDocumentStart(const YAML::Mark& /*mark*/) override {}
  void OnDocumentEnd() override {}

  void OnNull(const YAML::Mark& mark, YAML::anchor_t anchor) override {
    YamlNode node;
    node.at = span(mark, 1);
    const std::string_view word = null_word(rest_of_line(mark));
    if (!word.empty() && word != "~" && is_here(mark)) {
      node.kind = YamlKind::text;
      node.text = word;
      node.at = span(mark, word.size());
    }
    check_anchor(mark, anchor);
    add(std::move(node));
  }

  void OnAlias(const YAML::Mark& mark, YAML::anchor_t /*anchor*/) override {
    report_alias(mark);
    YamlNode node;
    node.kind = YamlKind::faulty;
    node.at = span(mark, 1);
    add(std::move(node));
  }

  void OnScalar(const YAML::Mark& mark, const std::string& tag, YAML::anchor_t anchor,
                const std::string& value) override {
    YamlNode node;
    node.kind = YamlKind::text;
    node.text = value;
    node.at = span_of_scalar(mark, value);
    check_anchor(mark, anchor);
    check_tag(mark, tag);
    check_quote(mark);
    remember(node, mark);
    add(std::move(node));
  }

  void OnSequenceStart(const YAML::Mark& mark, const std::string& tag, YAML::anchor_t anchor,
                       YAML::EmitterStyle::value /*style*/) override {
    open(YamlKind::list, mark, tag, anchor);
  }
  void OnMapStart(const YAML::Mark& mark, const std::string& tag, YAML::anchor_t anchor,
                  YAML::EmitterStyle::value /*style*/) override {
    open(YamlKind::map, mark, tag, anchor);
  }
  void OnSequenceEnd() override { close(); }
  void OnMapEnd() override { close(); }

  /// What was being read when the library gave up.
  YamlStop stop(const YAML::Exception& error) const {
    YamlStop stop;
    stop.reason = error.msg;
    stop.line = error.mark.line + 1;
    stop.byte = static_cast<std::size_t>(std::max(0, error.mark.column));
    stop.last_text = last_text_;
    stop.last_text_ends = last_text_ends_;
    stop.last_text_quoted = last_text_quoted_;
    stop.last_text_is_value = last_text_is_value_;
    for (const Frame& frame : frames_) stop.open.push_back(frame.node.at);
    stop.open.insert(stop.open.end(), closed_.begin(), closed_.end());
    return stop;
  }

 private:
  /// A list or map that is still being read.
  struct Frame {
    YamlNode node;
    bool has_key = false;
    bool drop_value = false;  ///< the key is a fault of its own; its value goes nowhere
    YamlEntry pending;
    std::map<std::string, int, std::less<>> lines_of_keys;
  };

  std::string_view rest_of_line(const YAML::Mark& mark) const {
    const std::string_view line = source_.line(mark.line + 1);
    const auto column = static_cast<std::size_t>(std::max(0, mark.column));
    return column < line.size() ? line.substr(column) : std::string_view();
  }

  SourceSpan span(const YAML::Mark& mark, std::size_t bytes) const {
    return source_.span_of_bytes(mark.line + 1, static_cast<std::size_t>(std::max(0, mark.column)),
                                 bytes);
  }

  SourceSpan span_of_scalar(const YAML::Mark& mark, const std::string& value) const {
    const std::string_view rest = rest_of_line(mark);
    if (opens_quote(rest)) return span(mark, std::min(quoted_length(rest), rest.size()));
    if (rest.starts_with(value)) return span(mark, value.size());
    if (rest.starts_with('|') || rest.starts_with('>')) return span(mark, 1);
    // A plain text over several lines: what stands on its first one, without a comment or blanks
    // behind it.
    std::string_view first = rest.substr(0, rest.find(" #"));
    while (!first.empty() && first.back() == ' ') first.remove_suffix(1);
    return span(mark, std::max<std::size_t>(1, first.size()));
  }

  /// Whether a mark of an empty value lies at the value itself and not at the next key.
  bool is_here(const YAML::Mark& mark) const {
    if (frames_.empty() || frames_.back().node.kind != YamlKind::map || !frames_.back().has_key)
      return true;
    const SourceSpan& key = frames_.back().pending.key_at;
    return mark.line + 1 == key.line || span(mark, 1).column > key.column;
  }

  void report(const YAML::Mark& mark, std::size_t bytes, Diagnostic fault) {
    diagnostics_.add(source_.fault(span(mark, bytes), std::move(fault)));
  }

  void report_alias(const YAML::Mark& mark) {
    report(
        mark, 1,
        make_error("yaml.alias",
                   "'&' and '*' at the beginning of a value share it with other places; these "
                   "files do without",
                   "the value itself",
                   "write the value out here, or put it in quotes if it begins with '&' or '*'"));
  }

  void check_anchor(const YAML::Mark& mark, YAML::anchor_t anchor) {
    if (anchor != 0) report_alias(mark);
  }

  void check_tag(const YAML::Mark& mark, const std::string& tag) {
    if (tag.empty() || tag == "?" || tag == "!") return;
    report(
        mark, 1,
        make_error(
            "yaml.tag", "'!' at the beginning of a value names a YAML type; these files do without",
            "the value itself",
            "take the word with '!' away, or put the value in quotes if it begins with '!'"));
  }

  /// The library takes a quote that nobody closes for one that ends with the file.
  void check_quote(const YAML::Mark& mark) {
    const std::string_view rest = rest_of_line(mark);
    if (!opens_quote(rest)) return;
    std::string_view text = source_.bytes();
    text.remove_prefix(static_cast<std::size_t>(rest.data() - text.data()));
    const std::size_t length = quoted_length(text);
    last_text_quoted_ = true;
    last_text_ends_ = mark.line + 1;
    if (length != std::string_view::npos) {
      for (const char c : text.substr(0, length)) last_text_ends_ += c == '\n';
      return;
    }
    unclosed_ = true;
    YamlStop stop;
    stop.last_text = span(mark, 1);
    stop.last_text_quoted = true;
    stop.last_text_ends = source_.line_count() + 1;
    diagnostics_.add(syntax_fault(source_, stop));
  }

  void remember(const YamlNode& node, const YAML::Mark& mark) {
    if (!opens_quote(rest_of_line(mark))) {
      last_text_quoted_ = false;
      last_text_ends_ = mark.line + 1;
    }
    closed_.clear();
    last_text_ = node.at;
    last_text_is_value_ =
        !frames_.empty() && (frames_.back().has_key || frames_.back().node.kind == YamlKind::list);
  }

  void open(YamlKind kind, const YAML::Mark& mark, const std::string& tag, YAML::anchor_t anchor) {
    check_anchor(mark, anchor);
    check_tag(mark, tag);
    if (frames_.size() >= kMostYamlLevels) throw TooDeep{mark};
    Frame frame;
    frame.node.kind = kind;
    frame.node.at = span(mark, 1);
    frames_.push_back(std::move(frame));
  }

  void close() {
    YamlNode node = std::move(frames_.back().node);
    frames_.pop_back();
    closed_.push_back(node.at);
    add(std::move(node));
  }

  void add(YamlNode node) {
    if (frames_.empty()) {
      root_ = std::move(node);
      return;
    }
    Frame& frame = frames_.back();
    if (frame.node.kind == YamlKind::list) {
      frame.node.items.push_back(std::move(node));
    } else if (!frame.has_key) {
      begin_entry(frame, std::move(node));
    } else {
      frame.pending.value = std::move(node);
      if (!frame.drop_value) frame.node.entries.push_back(std::move(frame.pending));
      frame.pending = YamlEntry();
      frame.has_key = false;
    }
  }

  void begin_entry(Frame& frame, YamlNode key) {
    frame.has_key = true;
    frame.drop_value = false;
    if (frame.node.entries.empty() && frame.lines_of_keys.empty()) frame.node.at = key.at;
    if (key.kind != YamlKind::text) {
      frame.drop_value = true;
      if (key.kind != YamlKind::faulty) report_key_kind(key);
      return;
    }
    const auto [first, is_new] = frame.lines_of_keys.emplace(key.text, key.at.line);
    if (!is_new) {
      frame.drop_value = true;
      report_duplicate(key, first->second);
    }
    frame.pending.key = std::move(key.text);
    frame.pending.key_at = key.at;
  }

  void report_key_kind(const YamlNode& key) {
    diagnostics_.add(source_.fault(
        key.at,
        make_error("yaml.key-not-text",
                   key.kind == YamlKind::nothing ? "a colon stands here without a key before it"
                                                 : "a key cannot be a list or a map",
                   "a word, a colon, a space, a value",
                   "write the key as one word, as in 'name: Old Gate'")));
  }

  void report_duplicate(const YamlNode& key, int first_line) {
    diagnostics_.add(source_.fault(
        key.at,
        make_error("yaml.duplicate-key",
                   fmt::format("the key '{}' stands here a second time; it is already on line {}",
                               key.text, first_line),
                   "each key once", "keep one of the two and delete the other")));
  }

  const SourceText& source_;
  Diagnostics& diagnostics_;
  std::vector<Frame> frames_;
  std::vector<SourceSpan> closed_;  ///< lists and maps that ended since the last text
  YamlNode root_;
  SourceSpan last_text_;
  int last_text_ends_ = 0;
  bool last_text_quoted_ = false;
  bool last_text_is_value_ = false;
  bool unclosed_ = false;
};

Diagnostic whole_file(const std::string& file, Diagnostic fault) {
  fault.at = {file, 0, 0};
  return fault;
}

/// Blanks are what sets lines under one another in YAML; a tab has no width that two editors agree
/// on.
bool check_tabs(const SourceText& source, Diagnostics& diagnostics) {
  bool clean = true;
  for (int number = 1; number <= source.line_count(); ++number) {
    const std::string_view line = source.line(number);
    const std::size_t first = line.find_first_not_of(" \t");
    const std::size_t tab = line.find('\t');
    if (first == std::string_view::npos || line[first] == '#' || tab >= first) continue;
    std::size_t end = tab;
    while (line[end] == '\t') ++end;
    diagnostics.add(
        source.fault(source.span_of_bytes(number, tab, end - tab),
                     make_error("yaml.tab", "a tab stands in front of this line",
                                "spaces in front of a line, two for each step",
                                "replace the tab by as many spaces as the lines beside it have")));
    clean = false;
  }
  return clean;
}

void report_too_deep(const SourceText& source, const YAML::Mark& mark, Diagnostics& diagnostics) {
  diagnostics.add(source.fault(
      source.span_of_bytes(mark.line + 1, static_cast<std::size_t>(std::max(0, mark.column)), 1),
      make_error("yaml.too-deep",
                 fmt::format("lists and maps stand more than {} deep within one another here",
                             kMostYamlLevels),
                 "a key with its value, or a list of them",
                 "close brackets that were left open, or take out dashes that follow one "
                 "another")));
}

/// The line on which a second document begins, for the caret.
SourceSpan second_document(const SourceText& source) {
  bool seen = false;
  for (int number = 1; number <= source.line_count(); ++number) {
    const std::string_view line = source.line(number);
    if (seen && line.starts_with("---")) return source.span_of_bytes(number, 0, 3);
    const std::size_t first = line.find_first_not_of(' ');
    seen = seen || (first != std::string_view::npos && line[first] != '#' && line[first] != '%');
  }
  return {source.line_count(), 1, 1};
}

bool run_parser(const SourceText& source, TreeBuilder& builder, Diagnostics& diagnostics) {
  TextBuffer buffer(source.bytes());
  std::istream stream(&buffer);
  YAML::Parser parser(stream);
  if (!parser.HandleNextDocument(builder)) {
    diagnostics.add(whole_file(
        source.file(), make_error("yaml.empty", "the file is empty", "keys and their values",
                                  "write the file's first keys, or name another file")));
    return false;
  }
  Diagnostics ignored;
  TreeBuilder rest(source, ignored);
  if (parser.HandleNextDocument(rest)) {
    diagnostics.add(source.fault(
        second_document(source),
        make_error("yaml.several-documents", "a second document begins here", "one document a file",
                   "take the line with '---' away, or keep what follows in a file of its own")));
    return false;
  }
  return !builder.unclosed();
}

}  // namespace

const YamlNode* YamlNode::find(std::string_view key) const {
  for (const YamlEntry& entry : entries) {
    if (entry.key == key) return &entry.value;
  }
  return nullptr;
}

std::optional<YamlDocument> read_yaml(std::string file, std::string_view bytes,
                                      Diagnostics& diagnostics) {
  if (bytes.size() > kMostYamlBytes) {
    diagnostics.add(whole_file(
        file,
        make_error("yaml.too-large", "the file is larger than a description of this kind can be",
                   fmt::format("at most {} bytes (1 MiB)", kMostYamlBytes),
                   "keep temperatures and records in files of their own, or divide the file")));
    return std::nullopt;
  }
  YamlDocument document{SourceText(std::move(file), bytes), YamlNode()};
  if (!check_encoding(document.source, diagnostics)) return std::nullopt;
  if (!check_tabs(document.source, diagnostics)) return std::nullopt;
  TreeBuilder builder(document.source, diagnostics);
  try {
    if (!run_parser(document.source, builder, diagnostics)) return std::nullopt;
  } catch (const YAML::Exception& error) {
    if (!builder.unclosed()) diagnostics.add(syntax_fault(document.source, builder.stop(error)));
    return std::nullopt;
  } catch (const TooDeep& deep) {
    report_too_deep(document.source, deep.at, diagnostics);
    return std::nullopt;
  }
  document.root = builder.take_root();
  return document;
}

}  // namespace winterfolio
