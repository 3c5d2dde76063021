// Whole numbers and first lines.
#include "readers/temperature/line_text.h"

#include <algorithm>

namespace winterfolio {

std::optional<int> padded_integer(std::string_view text) {
  while (!text.empty() && text.front() == ' ') text.remove_prefix(1);
  while (!text.empty() && text.back() == ' ') text.remove_suffix(1);
  const bool minus = !text.empty() && text.front() == '-';
  if (!text.empty() && (text.front() == '-' || text.front() == '+')) text.remove_prefix(1);
  constexpr std::size_t kLongest = 8;
  if (text.empty() || text.size() > kLongest) return std::nullopt;
  int value = 0;
  for (const char c : text) {
    if (c < '0' || c > '9') return std::nullopt;
    value = value * 10 + (c - '0');
  }
  return minus ? -value : value;
}

bool first_lines(std::string_view head, int most,
                 const std::function<bool(std::string_view)>& look) {
  int liked = 0;
  while (!head.empty() && liked < most) {
    std::string_view line = head.substr(0, std::min(head.find('\n'), head.size()));
    head.remove_prefix(std::min(line.size() + 1, head.size()));
    if (!line.empty() && line.back() == '\r') line.remove_suffix(1);
    if (line.empty()) continue;
    if (!look(line)) return false;
    ++liked;
  }
  return liked > 0;
}

std::string_view first_line(std::string_view head) {
  return head.substr(0, std::min(head.find_first_of("\r\n"), head.size()));
}

}  // namespace winterfolio
