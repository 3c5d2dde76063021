#include "charts/pen.h"

#include "document/state.h"

namespace winterfolio {
namespace {

/// Before the byte at `end` there begins a letter; this is where.
std::size_t letter_before(const std::string& text, std::size_t end) {
  do --end;
  while (end > 0 && (static_cast<unsigned char>(text[end]) & 0xC0) == 0x80);
  return end;
}

}  // namespace

double Pen::width(const std::string& text, const TextStyle& look) const {
  return text.empty() ? 0.0 : metrics.advance(look.face, look.size, text).pt();
}

Rect Pen::write(Frame& frame, double x, double y, Align align, const std::string& text, const TextStyle& look) const {
  return add_text(frame, pt_at(x, y), align, text, look, metrics);
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

std::vector<std::string> Pen::wrapped(const std::string& text, double room, const TextStyle& look) const {
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
  static constexpr MarkFill kFills[] = {MarkFill::solid, MarkFill::hatched, MarkFill::outlined, MarkFill::dotted};
  mark_box(frame, box, kFills[static_cast<int>(state)], style.violet, style);
}

std::vector<std::string> left_out_lines(const std::vector<std::string>& names, double room, const Pen& pen) {
  if (names.empty()) return {};
  TextList list;
  list.joined = TextList::Joined::plain;
  for (const std::string& name : names) list.items.push_back(literal(name));
  return pen.wrapped(pen.say(say("chart.left-out", {{"what", list}})), room, pen.style.note);
}

}  // namespace winterfolio
