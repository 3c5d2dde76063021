// Counts lines and characters, and looks for bytes that are no text.
#include "readers/source_text.h"

#include <fmt/format.h>

#include <algorithm>

namespace winterfolio {
namespace {

constexpr std::string_view kByteOrderMark = "\xEF\xBB\xBF";
constexpr int kMostByteFaults = 10;

std::string with_plain_line_ends(std::string_view bytes) {
  std::string plain;
  plain.reserve(bytes.size());
  for (std::size_t i = 0; i < bytes.size(); ++i) {
    if (bytes[i] != '\r') {
      plain += bytes[i];
    } else if (i + 1 == bytes.size() || bytes[i + 1] != '\n') {
      plain += '\n';
    }
  }
  return plain;
}

bool is_continuation(std::string_view text, std::size_t index) {
  return index < text.size() && (static_cast<unsigned char>(text[index]) & 0xC0U) == 0x80U;
}

bool is_utf16(std::string_view bytes) {
  return bytes.starts_with("\xFF\xFE") || bytes.starts_with("\xFE\xFF");
}

/// The bytes of the first character of `text` that is a control character, other than a tab; 0 if
/// it is none.
std::size_t control_length(std::string_view text) {
  const auto first = static_cast<unsigned char>(text[0]);
  if ((first < 0x20U && first != '\t') || first == 0x7FU) return 1;
  const bool c1 = first == 0xC2U && text.size() > 1 && static_cast<unsigned char>(text[1]) < 0xA0U;
  return c1 ? 2 : 0;
}

Diagnostic broken_byte(unsigned char byte) {
  return make_error("yaml.not-utf8",
                    fmt::format("the byte {:02X} here is no character of UTF-8 text", byte),
                    "text in UTF-8, as editors call it",
                    "save the file again with the encoding UTF-8, and look whether the letters "
                    "with accents are still right");
}

Diagnostic control_character(std::string_view bytes) {
  const unsigned code = bytes.size() == 1 ? static_cast<unsigned char>(bytes[0])
                                          : static_cast<unsigned char>(bytes[1]);
  return make_error(
      "yaml.control-character",
      fmt::format("a control character (code {:02X}) stands here, which no editor shows", code),
      "letters, digits and signs only", "delete what stands at this place and write it again");
}

}  // namespace

Diagnostic make_fault(Severity severity, std::string id, std::string message, std::string expected,
                      std::string mend) {
  Diagnostic fault;
  fault.id = std::move(id);
  fault.severity = severity;
  fault.message = std::move(message);
  fault.expected = std::move(expected);
  fault.mend = std::move(mend);
  return fault;
}

Diagnostic make_error(std::string id, std::string message, std::string expected, std::string mend) {
  return make_fault(Severity::error, std::move(id), std::move(message), std::move(expected),
                    std::move(mend));
}

SourceText::SourceText(std::string file, std::string_view bytes) : file_(std::move(file)) {
  if (bytes.starts_with(kByteOrderMark)) bytes.remove_prefix(kByteOrderMark.size());
  bytes_ = with_plain_line_ends(bytes);
  starts_.push_back(0);
  for (std::size_t i = 0; i < bytes_.size(); ++i) {
    if (bytes_[i] == '\n' && i + 1 < bytes_.size()) starts_.push_back(i + 1);
  }
}

std::string_view SourceText::line(int number) const {
  if (number < 1 || number > line_count()) return {};
  const std::size_t start = starts_[static_cast<std::size_t>(number - 1)];
  const std::string_view rest = std::string_view(bytes_).substr(start);
  return rest.substr(0, rest.find('\n'));
}

SourceSpan SourceText::span_of_bytes(int number, std::size_t byte, std::size_t width) const {
  const std::string_view text = line(number);
  byte = std::min(byte, text.size());
  width = std::min(width, text.size() - byte);
  return {number, character_count(text.substr(0, byte)) + 1,
          std::max(1, character_count(text.substr(byte, width)))};
}

Diagnostic SourceText::fault(SourceSpan span, Diagnostic what) const {
  what.at = position(span);
  what.source_line = shown_utf8(line(span.line));
  what.width = span.width;
  return what;
}

std::size_t utf8_length(std::string_view text) {
  if (text.empty()) return 0;
  const auto first = static_cast<unsigned char>(text[0]);
  const auto second = text.size() > 1 ? static_cast<unsigned char>(text[1]) : 0U;
  if (first < 0x80U) return 1;
  if (first < 0xC2U || first > 0xF4U || !is_continuation(text, 1)) return 0;
  if (first < 0xE0U) return 2;
  // No detours (E0 80), no halves of UTF-16 pairs (ED A0), nothing past U+10FFFF (F4 90).
  if (first == 0xE0U && second < 0xA0U) return 0;
  if (first == 0xEDU && second > 0x9FU) return 0;
  if (!is_continuation(text, 2)) return 0;
  if (first < 0xF0U) return 3;
  if (first == 0xF0U && second < 0x90U) return 0;
  if (first == 0xF4U && second > 0x8FU) return 0;
  return is_continuation(text, 3) ? 4 : 0;
}

int character_count(std::string_view text) {
  int count = 0;
  while (!text.empty()) {
    text.remove_prefix(std::max<std::size_t>(1, utf8_length(text)));
    ++count;
  }
  return count;
}

std::string shown_utf8(std::string_view text) {
  std::string shown;
  while (!text.empty()) {
    const std::size_t length = utf8_length(text);
    shown += length == 0 ? std::string_view("\uFFFD") : text.substr(0, length);
    text.remove_prefix(std::max<std::size_t>(1, length));
  }
  return shown;
}

bool check_encoding(const SourceText& text, Diagnostics& diagnostics) {
  if (is_utf16(text.bytes())) {
    Diagnostic utf16 = broken_byte(0);
    utf16.message = "the file is written in UTF-16";
    utf16.at = {text.file(), 0, 0};
    diagnostics.add(utf16);
    return false;
  }
  int faults = 0;
  for (int number = 1; number <= text.line_count() && faults < kMostByteFaults; ++number) {
    const std::string_view line = text.line(number);
    for (std::size_t i = 0; i < line.size();) {
      const std::size_t length = utf8_length(line.substr(i));
      const std::size_t control = length == 0 ? 0 : control_length(line.substr(i));
      if (length == 0 || control > 0) {
        diagnostics.add(text.fault(text.span_of_bytes(number, i, std::max<std::size_t>(1, control)),
                                   length == 0 ? broken_byte(static_cast<unsigned char>(line[i]))
                                               : control_character(line.substr(i, control))));
        ++faults;
        break;  // one a line: a file in another encoding has them everywhere
      }
      i += length;
    }
  }
  return faults == 0;
}

}  // namespace winterfolio
