// A square a tree, in groups by what can be said of its cold: the verdict's sentence, to be
// counted, and the place where a reader learns what solid, hatched, outlined and dotted mean on
// every later page.
#include <algorithm>

#include "charts/kinds.h"
#include "charts/marks.h"

namespace winterfolio {
namespace {

constexpr double kGroupGap = 11.8;  // between groups in a line
constexpr double kLabelToSquare = 5.0;
constexpr double kIdGap = 2.2;    // between ids of neighbours
constexpr double kLineGap = 9.0;  // between lines of squares

/// How far squares stand apart: so that the widest two neighbouring ids keep clear of each other.
double pitch_of(const VerdictTally& c, const Pen& pen) {
  double pitch = pen.style.tally_pitch.pt();
  for (const auto& group : c.groups) {
    double before = 0.0;
    for (const std::string& id : group.ids) {
      const double width = pen.width(id, pen.style.tiny);
      if (before > 0.0) pitch = std::max(pitch, (before + width) / 2.0 + kIdGap);
      before = width;
    }
  }
  return pitch;
}

/// How far the widest id of a group reaches past its square on either side.
double reach_of(const VerdictTally::Group& group, const Pen& pen) {
  double reach = 0.0;
  for (const std::string& id : group.ids) {
    const double over = (pen.width(id, pen.style.tiny) - pen.style.tally_square.pt()) / 2.0;
    reach = std::max(reach, over);
  }
  return reach;
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

/// What a line of a group's squares takes with its ids and its words; the words begin over the
/// first square.
double width_of(const VerdictTally::Group& group, std::size_t squares, double pitch,
                const Pen& pen) {
  const double reach = reach_of(group, pen);
  const double row = pitch * static_cast<double>(squares - 1) + pen.style.tally_square.pt();
  return reach + std::max(row + reach, words_width(group, pen));
}

/// Groups stand beside each other while they fit whole; one that needs several lines has them to
/// itself, evenly filled.
Layout lay_out(const VerdictTally& c, double width, const Pen& pen) {
  Layout out;
  out.pitch = pitch_of(c, pen);
  const double square = pen.style.tally_square.pt();
  out.words = pen.metrics.ascent(Face::regular, pen.style.note.size).pt() + kLabelToSquare;
  out.line = square + 2.5 + pen.metrics.ascent(Face::regular, pen.style.tiny.size).pt() +
             pen.metrics.descent(Face::regular, pen.style.tiny.size).pt();
  double x = 0.0;
  for (std::size_t g = 0; g < c.groups.size(); ++g) {
    const std::size_t n = c.groups[g].ids.size();
    if (n == 0) continue;
    const double whole = width_of(c.groups[g], n, out.pitch, pen);
    const double room = width - square - 2.0 * reach_of(c.groups[g], pen);
    const auto across = static_cast<std::size_t>(std::max(0.0, room / out.pitch + 1e-6)) + 1;
    if (out.lines.empty() || x + whole > width + 1e-6) {
      out.lines.emplace_back();
      x = 0.0;
    }
    const std::size_t lines = (n + across - 1) / across, per_line = (n + lines - 1) / lines;
    for (std::size_t from = 0; from < n; from += per_line) {
      if (from > 0) out.lines.emplace_back();
      out.lines.back().pieces.push_back({g, from, std::min(per_line, n - from), from == 0});
      out.lines.back().has_words = out.lines.back().has_words || from == 0;
    }
    x = lines > 1 ? width + 1.0 : x + whole + kGroupGap;
  }
  return out;
}

/// Where the next piece of a line begins.
double after(const Piece& piece, const VerdictTally& c, const Layout& layout, double x,
             const Pen& pen) {
  return x + width_of(c.groups[piece.group], piece.count, layout.pitch, pen) + kGroupGap;
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
    for (const Piece& piece : line.pieces) {
      const auto& group = c.groups[piece.group];
      const double first_square = x + reach_of(group, pen);
      if (piece.first) {
        double at = first_square;
        for (const Span& span : pen.words.rich(group.label)) {
          const TextStyle look = span.bold ? style.note.bold() : style.note;
          pen.write(frame, at, top - kLabelToSquare, Align::left, span.text, look);
          at += pen.width(span.text, look);
        }
      }
      for (std::size_t i = 0; i < piece.count; ++i) {
        const double left = first_square + layout.pitch * static_cast<double>(i);
        state_mark(frame, {pt_at(left, top), {style.tally_square, style.tally_square}}, group.state,
                   style);
        pen.write(frame, left + square / 2.0, top + square + 2.0 + pen.cap(style.tiny) + 1.0,
                  Align::centre, group.ids[piece.from + i], style.tiny);
      }
      x = after(piece, c, layout, x, pen);
    }
    y = top + layout.line;
  }
  frame.set_size({room.width, Length::points(y)});
  frame.set_baseline(Length::points(y));
  return frame;
}

std::optional<std::pair<VerdictTally, VerdictTally>> parted(const VerdictTally& c, Size room,
                                                            const Pen& pen) {
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
