// What is wrong with an input, where, what was expected there and how to mend it, as a value.
//
// Readers add diagnostics and go on, so that one run lists every fault of every file; only cli/
// prints them. Facts are kept as fields; the text on screen is made from them in one place:
//
//   orchard.yaml:23:15: error: unknown species 'aple'
//      23 |     species: aple
//         |              ^^^^
//     expected: an id of the species table; did you mean 'apple'?
//     mend:     write 'species: apple'
#pragma once

#include <span>
#include <string>
#include <string_view>
#include <vector>

namespace winterfolio {

enum class Severity { note, warning, error };

/// A place in an input file. Lines and columns count from 1, columns in characters as an editor
/// shows them; 0 means the whole file, or the whole line.
struct SourcePosition {
  std::string file;  ///< as the person named it
  int line = 0;
  int column = 0;
};

struct Diagnostic {
  std::string id;  ///< room and fault, e.g. "orchard.unknown-key"; every id has its cases in
                   ///< tests/messages/
  Severity severity = Severity::error;
  SourcePosition at;
  std::string message;      ///< what was read, and why it will not do
  std::string expected;     ///< may be empty for a note
  std::string mend;         ///< may be empty for a note
  std::string source_line;  ///< the line itself, without its end; empty if there is none to show
  int width = 1;            ///< characters under the caret
};

/// The faults of one run, in the order they were found. Owned by the caller; passed down to every
/// reader.
class Diagnostics {
 public:
  void add(Diagnostic diagnostic);
  std::span<const Diagnostic> all() const { return list_; }
  bool has_errors() const { return errors_ > 0; }
  int errors() const { return errors_; }
  int warnings() const { return warnings_; }

 private:
  std::vector<Diagnostic> list_;
  int errors_ = 0;
  int warnings_ = 0;
};

/// The diagnostic as printed, with its line, caret, expectation and remedy; ends in a newline.
/// Tabs in the source line become single spaces and over-long lines are cut around the caret.
std::string to_text(const Diagnostic& diagnostic);

/// The 1-based line `line` of a text, without its line end.
std::string line_of(std::string_view text, int line);

/// A byte offset within one line as a 1-based column in characters (UTF-8 code points).
int column_of_byte(std::string_view line, std::size_t byte);

/// The candidate nearest to `word` by edits, if it is near enough to be what was meant; else empty.
std::string_view nearest_name(std::string_view word, std::span<const std::string_view> candidates);
std::string nearest_name(std::string_view word, std::span<const std::string> candidates);

/// "; did you mean 'x'?" for use at the end of an expectation, or nothing.
std::string did_you_mean(std::string_view nearest);

}  // namespace winterfolio
