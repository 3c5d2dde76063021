// Finds the slip behind a YAML error: an open quote or bracket, a line that stands too far in, a
// colon too many.
//
// The library reports where it could not go on, often a line after the slip; the line itself, the
// line before it and what was still open tell the rest. Where nothing fits, the place is shown and
// no cause is made up.
#include "readers/yaml_syntax.h"

#include <fmt/format.h>

#include <algorithm>

namespace winterfolio {
namespace {

std::size_t indent_of(std::string_view line) {
  return std::min(line.find_first_not_of(' '), line.size());
}

bool is_content(std::string_view line) {
  const std::size_t first = line.find_first_not_of(' ');
  return first != std::string_view::npos && line[first] != '#';
}

int content_line_before(const SourceText& source, int line) {
  int before = line - 1;
  while (before > 0 && !is_content(source.line(before))) --before;
  return before;
}

/// The line without the dashes of list entries in front, and without a comment.
std::string_view bare(std::string_view line) {
  line = line.substr(0, line.find(" #"));
  line.remove_prefix(indent_of(line));
  while (line.starts_with("- ")) {
    line.remove_prefix(2);
    line.remove_prefix(indent_of(line));
  }
  while (!line.empty() && line.back() == ' ') line.remove_suffix(1);
  return line;
}

bool has_key(std::string_view line) {
  const std::string_view text = bare(line);
  return text.ends_with(':') || text.find(": ") != std::string_view::npos;
}

/// "2, 4 or 8" from the columns where open lists and maps begin.
std::string open_indents(const YamlStop& stop) {
  std::vector<int> indents;
  for (const SourceSpan& span : stop.open) {
    if (std::find(indents.begin(), indents.end(), span.column - 1) == indents.end()) {
      indents.push_back(span.column - 1);
    }
  }
  std::sort(indents.begin(), indents.end());
  std::string text;
  for (std::size_t i = 0; i < indents.size(); ++i) {
    if (i > 0) text += i + 1 == indents.size() ? " or " : ", ";
    text += fmt::format("{}", indents[i]);
  }
  return text;
}

Diagnostic unclosed_quote(const SourceText& source, const YamlStop& stop) {
  SourceSpan quote = stop.last_text;
  quote.width = 1;
  return source.fault(
      quote,
      make_error("yaml.unclosed-quote", "the quote that opens here is not closed on this line",
                 "the same quote again at the end of the text",
                 "close the quote; within single quotes write '' for an apostrophe"));
}

/// The quote that opens the text after the last one read: where the library gives up at the end of
/// the file or at a "---", it has not said where the text began.
SourceSpan open_quote(const SourceText& source, const YamlStop& stop) {
  for (int line = std::max(1, stop.last_text.line); line <= source.line_count(); ++line) {
    const std::string_view text = source.line(line);
    for (std::size_t i = 0; i < text.size(); ++i) {
      if (text[i] != '"' && text[i] != '\'') continue;
      const bool begins =
          i == 0 || std::string_view(" [{,").find(text[i - 1]) != std::string_view::npos;
      const SourceSpan quote = source.span_of_bytes(line, i, 1);
      if (begins && (line > stop.last_text.line || quote.column > stop.last_text.column))
        return quote;
    }
  }
  return {stop.line, 1, 1};
}

Diagnostic unclosed_bracket(const SourceText& source, const YamlStop& stop) {
  const bool list = stop.reason.find("sequence") != std::string::npos;
  SourceSpan bracket = stop.open.empty() ? SourceSpan{stop.line, 1, 1} : stop.open.back();
  bracket.width = 1;
  // The caret of a map in braces stands at its first key; the brace is the nearest one before it.
  const std::string_view line = source.line(bracket.line);
  const std::size_t brace =
      line.rfind(list ? '[' : '{', static_cast<std::size_t>(std::max(0, bracket.column - 1)));
  if (brace != std::string_view::npos) bracket = source.span_of_bytes(bracket.line, brace, 1);
  return source.fault(
      bracket,
      make_error("yaml.unclosed-bracket",
                 fmt::format("the '{}' that opens here is not closed", list ? '[' : '{'),
                 fmt::format("values with commas between them, then '{}'", list ? ']' : '}'),
                 fmt::format("add the '{}', or the comma that is missing before the next value",
                             list ? ']' : '}')));
}

Diagnostic indentation(const SourceText& source, const YamlStop& stop) {
  const std::string_view line = source.line(stop.line);
  const std::size_t indent = indent_of(line);
  const std::string expected = open_indents(stop);
  return source.fault(
      source.span_of_bytes(stop.line, 0, std::max<std::size_t>(1, indent)),
      make_error("yaml.indentation",
                 fmt::format("this line has {} {} in front and so belongs to no line above it",
                             indent, indent == 1 ? "space" : "spaces"),
                 expected.empty()
                     ? "as many spaces as the lines it belongs with"
                     : fmt::format("{} spaces, as the lines it can belong with", expected),
                 "set the line exactly under the line it belongs with"));
}

Diagnostic further_in(const SourceText& source, const YamlStop& stop, int before) {
  const std::size_t indent = indent_of(source.line(stop.line));
  return source.fault(
      source.span_of_bytes(stop.line, 0, std::max<std::size_t>(1, indent)),
      make_error("yaml.indentation",
                 fmt::format("this line stands further in than line {}, which has a value already",
                             before),
                 fmt::format("its first letter under the first letter of line {}", before),
                 "set the line exactly under the line it belongs with"));
}

Diagnostic second_colon(const SourceText& source, const YamlStop& stop) {
  return source.fault(
      source.span_of_bytes(stop.line, stop.byte, 1),
      make_error("yaml.syntax", "a second ': ' stands on this line",
                 "one key and one value on a line",
                 "put the value in quotes if the colon belongs to it, or begin a new line"));
}

Diagnostic neither_key_nor_value(const SourceText& source, int line) {
  const std::string_view text = source.line(line);
  const std::string_view content = bare(text);
  const auto byte = static_cast<std::size_t>(content.data() - text.data());
  const std::size_t colon = content.find(':');
  const std::string mend = colon != std::string_view::npos
                               ? fmt::format("write a space after the colon: '{}: {}'",
                                             content.substr(0, colon), content.substr(colon + 1))
                               : "write a colon and a value after the word, or delete the line";
  return source.fault(
      source.span_of_bytes(line, byte, content.size()),
      make_error(
          "yaml.syntax",
          fmt::format("'{}' is neither a key with its value nor an entry of a list", content),
          "'key: value' with a space after the colon", mend));
}

Diagnostic odd_beginning(const SourceText& source, const YamlStop& stop) {
  const std::string_view rest =
      source.line(stop.line).substr(std::min(stop.byte, source.line(stop.line).size()));
  return source.fault(
      source.span_of_bytes(stop.line, stop.byte, 1),
      make_error("yaml.syntax", fmt::format("a value cannot begin with '{}'", rest.substr(0, 1)),
                 "a value that begins with a letter or a digit", "put the value in quotes"));
}

Diagnostic odd_escape(const SourceText& source, const YamlStop& stop) {
  const std::string_view line = source.line(stop.line);
  const std::size_t slash = line.rfind('\\', std::min(stop.byte, line.size()));
  return source.fault(
      source.span_of_bytes(stop.line, slash == std::string_view::npos ? stop.byte : slash, 2),
      make_error("yaml.syntax",
                 "a backslash within double quotes stands before a sign that it does not go with",
                 "text without a backslash, or '\\\\' for a backslash",
                 "use single quotes, within which a backslash is a sign like any other"));
}

Diagnostic list_on_key_line(const SourceText& source, const YamlStop& stop) {
  return source.fault(
      source.span_of_bytes(stop.line, stop.byte, 1),
      make_error(
          "yaml.syntax", "a list cannot begin on the line of its key",
          "'- ' at the beginning of the next line, or values in brackets: [a, b]",
          "begin a new line before the '-', or put the value in quotes if the '-' belongs to it"));
}

Diagnostic dash_among_keys(const SourceText& source, const YamlStop& stop) {
  return source.fault(
      source.span_of_bytes(stop.line, stop.byte, 1),
      make_error("yaml.syntax", "'-' begins an entry of a list here, among keys",
                 "another key, or the end of this map",
                 "set the '-' under the entries of the list it belongs with, or write a key"));
}

Diagnostic stray_bracket(const SourceText& source, const YamlStop& stop) {
  return source.fault(
      source.span_of_bytes(stop.line, stop.byte, 1),
      make_error("yaml.syntax", "a bracket closes here that was not opened", "brackets in pairs",
                 "delete the bracket, or put the value in quotes if it belongs to it"));
}

Diagnostic anything_else(const SourceText& source, const YamlStop& stop) {
  return source.fault(
      source.span_of_bytes(stop.line, stop.byte, 1),
      make_error("yaml.syntax", "what stands here does not go with what stands before it",
                 "'key: value', or '- ' and an entry of a list",
                 "look for a quote, a comma or a colon that is missing before this place"));
}

/// "illegal map value": a colon where no key can stand.
Diagnostic colon_fault(const SourceText& source, const YamlStop& stop) {
  if (stop.last_text_is_value && stop.last_text.line == stop.line)
    return second_colon(source, stop);
  const int before = content_line_before(source, stop.line);
  if (before > 0 && !has_key(source.line(before))) return neither_key_nor_value(source, before);
  if (before > 0 && indent_of(source.line(stop.line)) > indent_of(source.line(before))) {
    return further_in(source, stop, before);
  }
  return anything_else(source, stop);
}

/// "end of map not found": something that does not go on with what is open.
Diagnostic end_fault(const SourceText& source, const YamlStop& stop) {
  if (stop.byte > indent_of(source.line(stop.line))) return anything_else(source, stop);
  const bool fits = std::any_of(stop.open.begin(), stop.open.end(), [&](const SourceSpan& span) {
    return span.column - 1 == static_cast<int>(stop.byte);
  });
  if (!fits) return indentation(source, stop);
  const bool dash = source.line(stop.line).substr(stop.byte).starts_with('-');
  return dash ? dash_among_keys(source, stop) : anything_else(source, stop);
}

}  // namespace

Diagnostic syntax_fault(const SourceText& source, const YamlStop& stop) {
  const auto says = [&](std::string_view words) {
    return stop.reason.find(words) != std::string::npos;
  };
  if (stop.last_text_quoted && stop.last_text_ends > stop.last_text.line)
    return unclosed_quote(source, stop);
  if (says("in scalar") && (says("EOF") || says("document"))) {
    YamlStop opened = stop;
    opened.last_text = open_quote(source, stop);
    return unclosed_quote(source, opened);
  }
  if (says("map value")) return colon_fault(source, stop);
  if (says("flow not found")) return unclosed_bracket(source, stop);
  if (says("flow end")) return stray_bracket(source, stop);
  if (says("not found") && (says("end of map") || says("end of sequence")))
    return end_fault(source, stop);
  if (says("unknown token")) return odd_beginning(source, stop);
  if (says("escape") || says("hex number") || says("unicode")) return odd_escape(source, stop);
  if (says("block entry")) return list_on_key_line(source, stop);
  if (says("anchor") || says("alias")) {
    return source.fault(
        source.span_of_bytes(stop.line, stop.byte, 1),
        make_error("yaml.alias",
                   "'&' and '*' at the beginning of a value share it with other places; these "
                   "files do without",
                   "the value itself",
                   "write the value out here, or put it in quotes if it begins with '&' or '*'"));
  }
  return anything_else(source, stop);
}

}  // namespace winterfolio
