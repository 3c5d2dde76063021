// A text file as its writer sees it: lines and columns counted from 1, columns in characters,
// whatever its line ends.
//
// Faults found in it are made here, so that each carries the file's name, its line and a caret of
// the right width.
#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "base/diagnostic.h"

namespace winterfolio {

/// A diagnostic without its place, for SourceText::fault().
Diagnostic make_fault(Severity severity, std::string id, std::string message, std::string expected,
                      std::string mend);
Diagnostic make_error(std::string id, std::string message, std::string expected, std::string mend);

/// A place in a text: `width` characters from `column` of `line`. Line 0: the whole file.
struct SourceSpan {
  int line = 0;
  int column = 0;
  int width = 1;
};

/// Owns the bytes of one file, with a byte order mark taken off and every line ended by '\n'.
class SourceText {
 public:
  SourceText(std::string file, std::string_view bytes);

  const std::string& file() const { return file_; }
  std::string_view bytes() const { return bytes_; }
  int line_count() const { return static_cast<int>(starts_.size()); }
  /// A line without its end; empty outside the file.
  std::string_view line(int number) const;
  /// The span of `width` bytes from byte `byte` (from 0) of a line.
  SourceSpan span_of_bytes(int line, std::size_t byte, std::size_t width) const;

  SourcePosition position(SourceSpan span) const { return {file_, span.line, span.column}; }
  /// A diagnostic at `span`, with its line and the caret's width filled in; ids, words and severity
  /// are the caller's.
  Diagnostic fault(SourceSpan span, Diagnostic what) const;

 private:
  std::string file_;
  std::string bytes_;
  std::vector<std::size_t> starts_;  ///< of each line
};

/// The number of bytes of the valid UTF-8 character that starts `text`; 0 if none does.
std::size_t utf8_length(std::string_view text);

/// How many characters a text has; broken bytes count one each.
int character_count(std::string_view text);

/// The text with every broken byte replaced by U+FFFD, fit to be shown.
std::string shown_utf8(std::string_view text);

/// Whether the bytes can be read as lines of UTF-8 text at all: adds a fault for other encodings,
/// broken bytes and control characters (at most ten), and says false if there was one.
bool check_encoding(const SourceText& text, Diagnostics& diagnostics);

}  // namespace winterfolio
