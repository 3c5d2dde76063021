// Builds diagnostics of temperature files.
#include "readers/temperature/messages.h"

#include <fmt/format.h>

namespace winterfolio {

Diagnostic about_file(Severity severity, std::string_view id, const std::string& file,
                      std::string message, std::string expected, std::string mend) {
  Diagnostic d;
  d.id = fmt::format("temperature.{}", id);
  d.severity = severity;
  d.at.file = file == "-" ? "standard input" : file;
  d.message = std::move(message);
  d.expected = std::move(expected);
  d.mend = std::move(mend);
  return d;
}

Diagnostic about_line(Severity severity, std::string_view id, const std::string& file,
                      std::int64_t number, std::string_view line, std::string_view part,
                      std::string message, std::string expected, std::string mend) {
  Diagnostic d =
      about_file(severity, id, file, std::move(message), std::move(expected), std::move(mend));
  constexpr std::size_t kKept = 4096;
  d.at.line = static_cast<int>(number < INT32_MAX ? number : INT32_MAX);
  d.source_line = std::string(line.substr(0, kKept));
  const bool inside = !part.empty() && part.data() >= line.data() &&
                      part.data() + part.size() <= line.data() + line.size();
  if (inside && static_cast<std::size_t>(part.data() - line.data()) < kKept) {
    d.at.column = column_of_byte(line, static_cast<std::size_t>(part.data() - line.data()));
    d.width = column_of_byte(part, part.size()) - 1;
    if (d.width < 1) d.width = 1;
  }
  return d;
}

std::string key_or_option(std::string_view key, std::string_view value) {
  std::string option(key);
  for (char& c : option) {
    if (c == '_') c = '-';
  }
  return fmt::format("'{0}: {2}' for this file in the orchard file, or --{1} {2}", key, option,
                     value);
}

std::string grouped(std::int64_t count) {
  std::string digits = fmt::format("{}", count);
  for (std::size_t i = digits.size(); i > 3 + (count < 0 ? 1U : 0U);) {
    i -= 3;
    digits.insert(i, ",");
  }
  return digits;
}

std::string counted(std::int64_t count, std::string_view one, std::string_view many) {
  return fmt::format("{} {}", grouped(count), count == 1 ? one : many);
}

}  // namespace winterfolio
