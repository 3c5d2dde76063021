// Turns diagnostics into text and finds the name a person probably meant.
#include "base/diagnostic.h"

#include <fmt/format.h>

#include <algorithm>

namespace winterfolio {
namespace {

constexpr std::size_t kLongestShownLine = 120;

std::string_view word_of(Severity severity) {
  switch (severity) {
    case Severity::note:
      return "note";
    case Severity::warning:
      return "warning";
    case Severity::error:
      return "error";
  }
  return "error";
}

bool starts_character(char byte) { return (static_cast<unsigned char>(byte) & 0xC0U) != 0x80U; }

/// The characters of a line, each as its bytes, with tabs and other control bytes shown as one
/// space.
std::vector<std::string> characters_of(std::string_view line) {
  std::vector<std::string> characters;
  for (const char byte : line) {
    const bool control = static_cast<unsigned char>(byte) < 0x20U || byte == 0x7F;
    if (control) {
      characters.emplace_back(" ");
    } else if (starts_character(byte) || characters.empty()) {
      characters.emplace_back(1, byte);
    } else {
      characters.back().push_back(byte);
    }
  }
  return characters;
}

std::string with_caret(const Diagnostic& d) {
  const std::vector<std::string> characters = characters_of(d.source_line);
  const std::size_t caret = d.at.column > 0 ? static_cast<std::size_t>(d.at.column - 1) : 0;
  std::size_t first = 0;
  if (characters.size() > kLongestShownLine && caret > kLongestShownLine / 2) {
    first = std::min(caret - kLongestShownLine / 2, characters.size() - kLongestShownLine);
  }
  const std::size_t last = std::min(characters.size(), first + kLongestShownLine);
  std::string shown = first > 0 ? "…" : "";
  for (std::size_t i = first; i < last; ++i) shown += characters[i];
  if (last < characters.size()) shown += "…";
  while (!shown.empty() && shown.back() == ' ') shown.pop_back();
  std::string text = fmt::format(" {:>4} | {}\n", d.at.line, shown);
  if (d.at.column > 0) {
    const std::size_t indent = caret - std::min(caret, first) + (first > 0 ? 1 : 0);
    const std::size_t room = kLongestShownLine > caret - std::min(caret, first)
                                 ? kLongestShownLine - (caret - std::min(caret, first))
                                 : 1;
    const std::size_t width =
        std::clamp<std::size_t>(static_cast<std::size_t>(std::max(d.width, 1)), 1, room);
    text += fmt::format("      | {}{}\n", std::string(indent, ' '), std::string(width, '^'));
  }
  return text;
}

char small(char c) { return c >= 'A' && c <= 'Z' ? static_cast<char>(c + 32) : c; }

/// Letters to add, leave out, change or swap with their neighbour to turn one word into the other,
/// capitals aside.
std::size_t edits_between(std::string_view a, std::string_view b) {
  std::vector<std::size_t> before_last(b.size() + 1);
  std::vector<std::size_t> last(b.size() + 1);
  std::vector<std::size_t> row(b.size() + 1);
  for (std::size_t j = 0; j <= b.size(); ++j) row[j] = j;
  for (std::size_t i = 1; i <= a.size(); ++i) {
    before_last.swap(last);
    last.swap(row);
    row[0] = i;
    for (std::size_t j = 1; j <= b.size(); ++j) {
      const bool same = small(a[i - 1]) == small(b[j - 1]);
      row[j] = std::min({last[j] + 1, row[j - 1] + 1, last[j - 1] + (same ? 0U : 1U)});
      const bool swapped = i > 1 && j > 1 && small(a[i - 1]) == small(b[j - 2]) &&
                           small(a[i - 2]) == small(b[j - 1]);
      if (swapped) row[j] = std::min(row[j], before_last[j - 2] + 1);
    }
  }
  return row[b.size()];
}

template <typename Text>
std::string_view nearest_of(std::string_view word, std::span<const Text> candidates) {
  std::string_view best;
  std::size_t best_edits = std::max<std::size_t>(1, word.size() / 3) + 1;
  for (const Text& candidate : candidates) {
    const std::size_t edits = edits_between(word, candidate);
    if (edits < best_edits) {
      best_edits = edits;
      best = candidate;
    }
  }
  return best;
}

}  // namespace

void Diagnostics::add(Diagnostic diagnostic) {
  errors_ += diagnostic.severity == Severity::error;
  warnings_ += diagnostic.severity == Severity::warning;
  list_.push_back(std::move(diagnostic));
}

std::string to_text(const Diagnostic& d) {
  std::string place = d.at.file;
  if (d.at.line > 0) place += fmt::format(":{}", d.at.line);
  if (d.at.line > 0 && d.at.column > 0) place += fmt::format(":{}", d.at.column);
  if (!place.empty()) place += ": ";
  std::string text = fmt::format("{}{}: {}\n", place, word_of(d.severity), d.message);
  if (d.at.line > 0 && !d.source_line.empty()) text += with_caret(d);
  if (!d.expected.empty()) text += fmt::format("  expected: {}\n", d.expected);
  if (!d.mend.empty()) text += fmt::format("  mend:     {}\n", d.mend);
  return text;
}

std::string line_of(std::string_view text, int line) {
  std::size_t start = 0;
  for (int n = 1; n < line; ++n) {
    const std::size_t end = text.find('\n', start);
    if (end == std::string_view::npos) return {};
    start = end + 1;
  }
  std::string_view found = text.substr(start, text.find('\n', start) - start);
  if (!found.empty() && found.back() == '\r') found.remove_suffix(1);
  return std::string(found);
}

int column_of_byte(std::string_view line, std::size_t byte) {
  int column = 1;
  for (std::size_t i = 1; i <= byte && i <= line.size(); ++i) {
    if (i == line.size() || starts_character(line[i])) ++column;
  }
  return column;
}

std::string_view nearest_name(std::string_view word, std::span<const std::string_view> candidates) {
  return nearest_of(word, candidates);
}

std::string nearest_name(std::string_view word, std::span<const std::string> candidates) {
  return std::string(nearest_of(word, candidates));
}

std::string did_you_mean(std::string_view nearest) {
  return nearest.empty() ? std::string() : fmt::format("; did you mean '{}'?", nearest);
}

}  // namespace winterfolio
