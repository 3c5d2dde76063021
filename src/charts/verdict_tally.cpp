// A square a tree, in groups by what can be said of its cold: the verdict's sentence, to be counted, and the place where
// a reader learns what solid, hatched, outlined and dotted mean on every later page.
#include <algorithm>

#include "charts/kinds.h"
#include "charts/marks.h"

namespace winterfolio {
namespace {

constexpr double kGroupGap = 12.0;   // between groups in a line
constexpr double kLabelToSquare = 5.0;
constexpr double kIdGap = 3.0;       // between ids of neighbours
constexpr double kLineGap = 9.0;     // between lines of squares

/// How far squares stand apart: so that the widest id keeps clear of its neighbours'.
double pitch_of(const VerdictTally& c, const Pen& pen) {
  double widest = 0.0;
  for (const auto& group : c.groups) {
    for (const std::string& id : group.ids) widest = std::max(widest, pen.width(id, pen.style.tiny));
  }
  return std::max(pen.style.tally_pitch.pt(), widest + kIdGap);
}

/// Some squares of a group in one line; the first piece carries the group's words.
struct Piece {
  std::size_t group = 0, from = 0, count = 0;
  bool first = false;
};
struct Line {
  std::vector<Piece> pieces;
  bool has_words = false;
};

struct Layout {
  double pitch = 0.0;
  std::vector<Line> lines;
  double words = 0.0, line = 0.0;  ///< heights of the words over a line and of the line itself
  double height_of(const Line& l) const { return (l.has_words ? words : 0.0) + line; }
};

double words_width(const VerdictTally::Group& group, const Pen& pen) {
  double width = 0.0;
  for (const Span& span : pen.words.rich(group.label)) {
    width += pen.width(span.text, span.bold ? pen.style.note.bold() : pen.style.note);
  }
  return width;
}

Layout lay_out(const VerdictTally& c, double width, const Pen& pen) {
  Layout out;
  out.pitch = pitch_of(c, pen);
  const double square = pen.style.tally_square.pt();
  out.words = pen.metrics.ascent(Face::regular, pen.style.note.size).pt() + kLabelToSquare;
  out.line = square + 2.5 + pen.metrics.ascent(Face::regular, pen.style.tiny.size).pt() +
             pen.metrics.descent(Face::regular, pen.style.tiny.size).pt();
  const auto fitting = [&](double room) {
    return room < square ? std::size_t{0} : static_cast<std::size_t>((room - square) / out.pitch + 1e-9) + 1;
  };
  double x = 0.0;
  for (std::size_t g = 0; g < c.groups.size(); ++g) {
    const auto& group = c.groups[g];
    if (group.ids.empty()) continue;
    const double squares = out.pitch * static_cast<double>(group.ids.size() - 1) + square;
    const double whole = std::max(squares, words_width(group, pen));
    // A group goes on in the same line if all of it fits; else it begins a line of its own.
    if (out.lines.empty() || x + whole > width) {
      out.lines.emplace_back();
      x = 0.0;
    }
    std::size_t from = 0;
    while (from < group.ids.size()) {
      const std::size_t count = std::min(group.ids.size() - from, std::max<std::size_t>(1, fitting(width - x)));
      Line& line = out.lines.back();
      line.pieces.push_back({g, from, count, from == 0});
      line.has_words = line.has_words || from == 0;
      from += count;
      x += out.pitch * static_cast<double>(count - 1) + square;
      if (from < group.ids.size()) {
        out.lines.emplace_back();
        x = 0.0;
      }
    }
    const double end = from == group.ids.size() && out.lines.back().pieces.back().first ? std::max(whole, x) : x;
    x = (out.lines.back().pieces.size() == 1 ? std::max(end, out.lines.back().pieces.back().first ? whole : 0.0) : x) + kGroupGap;
  }
  return out;
}

double left_of_next(const Line& line, std::size_t piece, const VerdictTally& c, const Layout& layout, double x, const Pen& pen) {
  const Piece& p = line.pieces[piece];
  const double squares = layout.pitch * static_cast<double>(p.count - 1) + pen.style.tally_square.pt();
  return x + std::max(squares, p.first ? words_width(c.groups[p.group], pen) : 0.0) + kGroupGap;
}

}  // namespace

Frame draw(const VerdictTally& c, Size room, const Pen& pen) {
  const Style& style = pen.style;
  const Layout layout = lay_out(c, room.width.pt(), pen);
  const double square = style.tally_square.pt();
  Frame frame({room.width, {}});
  double y = 0.0;
  for (std::size_t l = 0; l < layout.lines.size(); ++l) {
    const Line& line = layout.lines[l];
    if (l > 0) y += line.has_words ? kLineGap : 3.0;
    const double top = y + (line.has_words ? layout.words : 0.0);
    double x = 0.0;
    for (std::size_t p = 0; p < line.pieces.size(); ++p) {
      const Piece& piece = line.pieces[p];
      const auto& group = c.groups[piece.group];
      if (piece.first) {
        double at = x;
        for (const Span& span : pen.words.rich(group.label)) {
          const TextStyle look = span.bold ? style.note.bold() : style.note;
          pen.write(frame, at, top - kLabelToSquare, Align::left, span.text, look);
          at += pen.width(span.text, look);
        }
      }
      for (std::size_t i = 0; i < piece.count; ++i) {
        const double left = x + layout.pitch * static_cast<double>(i);
        state_mark(frame, {pt_at(left, top), {style.tally_square, style.tally_square}}, group.state, style);
        pen.write(frame, left + square / 2.0, top + square + 2.0 + pen.cap(style.tiny) + 1.0, Align::centre,
                  group.ids[piece.from + i], style.tiny);
      }
      x = left_of_next(line, p, c, layout, x, pen);
    }
    y = top + layout.line;
  }
  frame.set_size({room.width, Length::points(y)});
  frame.set_baseline(Length::points(y));
  return frame;
}

std::optional<std::pair<VerdictTally, VerdictTally>> parted(const VerdictTally& c, Size room, const Pen& pen) {
  const Layout layout = lay_out(c, room.width.pt(), pen);
  double y = 0.0;
  std::size_t fits = 0;
  for (; fits < layout.lines.size(); ++fits) {
    const Line& line = layout.lines[fits];
    y += (fits > 0 ? (line.has_words ? kLineGap : 3.0) : 0.0) + layout.height_of(line);
    if (y > room.height.pt() + 0.01) break;
  }
  if (fits == 0 || fits == layout.lines.size()) return std::nullopt;
  VerdictTally head, tail;
  for (std::size_t l = 0; l < layout.lines.size(); ++l) {
    VerdictTally& part = l < fits ? head : tail;
    for (const Piece& piece : layout.lines[l].pieces) {
      const auto& group = c.groups[piece.group];
      const auto begin = group.ids.begin() + static_cast<std::ptrdiff_t>(piece.from);
      const std::vector<std::string> ids(begin, begin + static_cast<std::ptrdiff_t>(piece.count));
      if (!part.groups.empty() && !piece.first && l != fits) {
        part.groups.back().ids.insert(part.groups.back().ids.end(), ids.begin(), ids.end());
      } else {
        part.groups.push_back({group.state, group.label, ids});
      }
    }
  }
  return std::pair{std::move(head), std::move(tail)};
}

}  // namespace winterfolio
