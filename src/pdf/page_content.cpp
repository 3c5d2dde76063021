#include "pdf/page_content.h"

#include <cmath>
#include <stdexcept>

#include "base/utf8.h"

namespace winterfolio {

namespace {

/// A letter of a string in parentheses (7.3.4.2): two bytes, the special ones escaped.
void append_code(std::string& out, char32_t letter) {
  for (const unsigned byte :
       {static_cast<unsigned>(letter >> 8), static_cast<unsigned>(letter & 0xFF)}) {
    const char c = static_cast<char>(byte);
    if (c == '\r') {
      out += "\\r";  // else a reader may take it for a line feed
      continue;
    }
    if (c == '(' || c == ')' || c == '\\') out += '\\';
    out += c;
  }
}

}  // namespace

long PageContent::hundredths(Length length) {
  const double value = length.pt() * 100.0;
  if (!(std::fabs(value) < 1e9)) throw std::logic_error("a place on the page is not a number");
  return std::lround(value);
}

void PageContent::number(long value) {
  char text[24];
  std::size_t at = sizeof text;
  text[--at] = ' ';
  const bool negative = value < 0;
  if (negative) value = -value;
  const long part = value % 100;
  value /= 100;
  if (part != 0) {
    if (part % 10 != 0) text[--at] = static_cast<char>('0' + part % 10);
    text[--at] = static_cast<char>('0' + part / 10);
    text[--at] = '.';
  }
  if (value != 0 || part == 0) do
      text[--at] = static_cast<char>('0' + value % 10);
    while ((value /= 10) != 0);
  if (negative) text[--at] = '-';
  out_.append(text + at, sizeof text - at);
}

void PageContent::op(std::string_view name) {
  out_ += name;
  out_ += '\n';
}

void PageContent::draw(const Frame& frame) {
  draw(frame.items(), {});
  end_text();
}

void PageContent::draw(const std::vector<Placed>& items, Point at) {
  for (const Placed& placed : items) {
    const Point here = at + placed.at;
    if (const auto* run = std::get_if<TextRun>(&placed.item))
      draw(*run, here);
    else if (const auto* path = std::get_if<DrawnPath>(&placed.item))
      draw(*path, here);
    else if (const auto* group = std::get_if<Group>(&placed.item))
      draw(*group, here);
  }
}

void PageContent::draw(const TextRun& run, Point at) {
  set_ink(run.colour, pen_.fill, "g", "rg");
  if (!in_text_) {
    op("BT");
    in_text_ = true;
    text_x_ = text_y_ = 0;
  }
  const std::size_t face = run.face == Face::bold ? 1 : 0;
  const long size = hundredths(run.size);
  if (pen_.face != run.face || pen_.size != size) {
    out_ += run.face == Face::bold ? kBoldName : kRegularName;
    out_ += ' ';
    number(size);
    op("Tf");
    pen_.face = run.face;
    pen_.size = size;
  }
  const long to_x = x(at.x), to_y = y(at.y);
  number(to_x - text_x_);
  number(to_y - text_y_);
  op("Td");
  text_x_ = to_x;
  text_y_ = to_y;
  out_ += '(';
  for (std::size_t i = 0; i < run.text.size();) {
    char32_t letter = next_letter(run.text, i);
    if (letter >= 0x10000) letter = 0xFFFD;  // two bytes are all that a code has
    (*used_)[face].set(letter);
    append_code(out_, letter);
  }
  op(")Tj");
}

void PageContent::end_text() {
  if (!in_text_) return;
  op("ET");
  in_text_ = false;
}

void PageContent::trace(const Path& path, Point at) {
  const auto points = path.points();
  std::size_t next = 0;
  const auto point = [&] {
    number(x(at.x + points[next].x));
    number(y(at.y + points[next].y));
    ++next;
  };
  for (Path::Verb verb : path.verbs()) {
    switch (verb) {
      case Path::Verb::move:
        point();
        op("m");
        break;
      case Path::Verb::line:
        point();
        op("l");
        break;
      case Path::Verb::curve:
        point();
        point();
        point();
        op("c");
        break;
      case Path::Verb::close:
        op("h");
        break;
    }
  }
}

void PageContent::draw(const DrawnPath& drawn, Point at) {
  if (drawn.path.empty() || (!drawn.fill && !drawn.stroke)) return;
  end_text();
  if (drawn.fill) set_ink(*drawn.fill, pen_.fill, "g", "rg");
  if (drawn.stroke) set_pen(*drawn.stroke);
  trace(drawn.path, at);
  op(drawn.fill && drawn.stroke ? "B" : drawn.fill ? "f" : "S");
}

void PageContent::draw(const Group& group, Point at) {
  if (!group.clip) {
    draw(group.items, at);
    return;
  }
  end_text();
  const Pen before = pen_;
  op("q");
  trace(*group.clip, at);
  op("W n");
  draw(group.items, at);
  end_text();
  op("Q");
  pen_ = before;
}

void PageContent::set_ink(Colour colour, std::optional<Colour>& known, std::string_view grey_op,
                          std::string_view rgb_op) {
  if (known == colour) return;
  known = colour;
  // Three decimals tell 256 steps apart.
  const auto part = [&](std::uint8_t level) {
    const int thousandths = (level * 1000 + 127) / 255;
    if (thousandths == 0 || thousandths == 1000) {
      out_ += thousandths == 0 ? "0 " : "1 ";
      return;
    }
    const char digits[] = {'.', static_cast<char>('0' + thousandths / 100),
                           static_cast<char>('0' + thousandths / 10 % 10),
                           static_cast<char>('0' + thousandths % 10), ' '};
    out_.append(digits, sizeof digits);
  };
  part(colour.red);
  if (colour.red == colour.green && colour.green == colour.blue) {
    op(grey_op);
    return;
  }
  part(colour.green);
  part(colour.blue);
  op(rgb_op);
}

void PageContent::set_pen(const Stroke& stroke) {
  set_ink(stroke.colour, pen_.stroke, "G", "RG");
  const long width = hundredths(stroke.width);
  if (pen_.line_width != width) {
    number(width);
    op("w");
    pen_.line_width = width;
  }
  if (pen_.dash != stroke.dash) {
    out_ += '[';
    if (stroke.dash.on != 0) {
      number(100L * stroke.dash.on);
      number(100L * stroke.dash.off);
      out_.back() = ']';
    } else {
      out_ += ']';
    }
    op(" 0 d");
    pen_.dash = stroke.dash;
  }
  if (pen_.cap != stroke.cap) {
    number(100L * static_cast<long>(stroke.cap));
    op("J");
    pen_.cap = stroke.cap;
  }
  if (pen_.join != stroke.join) {
    number(100L * static_cast<long>(stroke.join));
    op("j");
    pen_.join = stroke.join;
  }
}

}  // namespace winterfolio
