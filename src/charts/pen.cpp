#include "charts/pen.h"

#include <algorithm>

#include "base/utf8.h"
#include "document/state.h"

namespace winterfolio {
namespace {

/// Before the byte at `end` there begins a letter; this is where.
std::size_t letter_before(const std::string& text, std::size_t end) {
  do --end;
  while (end > 0 && (static_cast<unsigned char>(text[end]) & 0xC0) == 0x80);
  return end;
}

/// As the face can draw it: gaps that only keep words together become blanks, letters it lacks a
/// question mark. (Layout reports missing letters where the same names stand in its own lines.)
std::string drawable(const std::string& text, Face face, const FontMetrics& metrics) {
  const auto plain = [](char c) { return static_cast<unsigned char>(c) < 0x80; };
  if (std::all_of(text.begin(), text.end(), plain)) return text;
  std::string out;
  for (std::size_t at = 0; at < text.size();) {
    const std::size_t start = at;
    const char32_t letter = next_letter(text, at);
    const bool gap = letter == 0x00A0 ||
                     ((letter == 0x2009 || letter == 0x202F) && !metrics.covers(face, letter));
    if (gap)
      out += ' ';
    else if (metrics.covers(face, letter))
      out.append(text, start, at - start);
    else
      out += '?';
  }
  return out;
}

}  // namespace

double Pen::width(const std::string& text, const TextStyle& look) const {
  return text.empty()
             ? 0.0
             : metrics.advance(look.face, look.size, drawable(text, look.face, metrics)).pt();
}

Rect Pen::write(Frame& frame, double x, double y, Align align, const std::string& text,
                const TextStyle& look) const {
  return add_text(frame, pt_at(x, y), align, drawable(text, look.face, metrics), look, metrics);
}

std::string Pen::shortened(const std::string& text, double room, const TextStyle& look) const {
  if (width(text, look) <= room) return text;
  const std::string ellipsis = "…";
  std::size_t end = text.size();
  while (end > 0) {
    end = letter_before(text, end);
    while (end > 0 && text[end - 1] == ' ') --end;
    std::string cut = text.substr(0, end) + ellipsis;
    if (width(cut, look) <= room) return cut;
  }
  return {};
}

std::vector<std::string> Pen::wrapped(const std::string& text, double room,
                                      const TextStyle& look) const {
  std::vector<std::string> lines;
  std::size_t at = 0;
  while (at < text.size()) {
    std::size_t end = text.find(' ', at);
    if (end == std::string::npos) end = text.size();
    const std::string word = text.substr(at, end - at);
    at = end + 1;
    if (word.empty()) continue;
    if (!lines.empty() && width(lines.back() + " " + word, look) <= room) {
      lines.back() += " " + word;
    } else {
      lines.push_back(word);
    }
  }
  return lines;
}

Rect Pen::box(double x, double y, const std::string& text, const TextStyle& look) const {
  const double up = metrics.ascent(look.face, look.size).pt();
  const double down = metrics.descent(look.face, look.size).pt();
  return {pt_at(x, y - up), {Length::points(width(text, look)), Length::points(up + down)}};
}

void state_mark(Frame& frame, Rect box, MarkState state, const Style& style) {
  static constexpr MarkFill kFills[] = {MarkFill::solid, MarkFill::hatched, MarkFill::outlined,
                                        MarkFill::dotted};
  mark_box(frame, box, kFills[static_cast<int>(state)], style.violet, style);
}

std::vector<std::string> left_out_lines(const std::vector<std::string>& names, double room,
                                        const Pen& pen) {
  if (names.empty()) return {};
  TextList list;
  list.joined = TextList::Joined::plain;
  for (const std::string& name : names) list.items.push_back(literal(name));
  return pen.wrapped(pen.say(say("chart.left-out", {{"what", list}})), room, pen.style.note);
}

}  // namespace winterfolio
