#include "layout/lines.h"

#include <algorithm>
#include <limits>

#include "base/utf8.h"

namespace winterfolio {

namespace {

/// How letters look beside their neighbours in one text.
struct Ink {
  Face face = Face::regular;
  bool quiet = false;  ///< in the grey of what stands beside the main thing
  bool operator==(const Ink&) const = default;
};

/// Letters of one look within an atom.
struct Piece {
  std::string text;
  Ink ink;
  Length width;
};

/// What never breaks: a word, or a part of one up to its hyphen.
struct Atom {
  std::vector<Piece> pieces;
  Length width;
  Length space_after;  ///< the blank that follows it within a line; nothing inside a word
  Ink space_ink;
  bool blank_after = false;
};

bool is_letter_byte(char c) {
  const auto b = static_cast<unsigned char>(c);
  return (b >= 'a' && b <= 'z') || (b >= 'A' && b <= 'Z') || b >= 0x80;
}

/// Whether a line may end after text[i] within a word.
bool breaks_after(const std::string& text, std::size_t i) {
  if (i == 0 || i + 1 >= text.size()) return false;
  if (text[i] == '-') return is_letter_byte(text[i - 1]) && is_letter_byte(text[i + 1]);
  if (text[i] != '/') return false;
  const auto letters = [&](std::size_t from, int step) {
    int n = 0;
    for (std::size_t k = from; k < text.size() && is_letter_byte(text[k]) && n < 3;
         k += static_cast<std::size_t>(step))
      ++n;
    return n;
  };
  return letters(i - 1, -1) >= 3 && letters(i + 1, 1) >= 3;
}

class Atoms {
 public:
  Atoms(const TextStyle& style, const Tools& tools) : style_(style), tools_(tools) {}

  void add(const Span& span) {
    const Ink ink{span.bold || style_.face == Face::bold ? Face::bold : Face::regular, span.quiet};
    const std::string& text = span.text;
    std::size_t start = 0;
    for (std::size_t i = 0; i < text.size(); ++i) {
      if (text[i] == ' ' || text[i] == '\n' || text[i] == '\t') {
        add_piece(text.substr(start, i - start), ink);
        end_atom(true, ink);
        start = i + 1;
      } else if (breaks_after(text, i)) {
        add_piece(text.substr(start, i + 1 - start), ink);
        end_atom(false, ink);
        start = i + 1;
      }
    }
    add_piece(text.substr(start), ink);
  }

  std::vector<Atom> take() {
    end_atom(false, {style_.face});
    if (!atoms_.empty()) atoms_.back().space_after = Length{};
    return std::move(atoms_);
  }

 private:
  void add_piece(std::string text, Ink ink) {
    if (text.empty()) return;
    text = drawable(std::move(text), ink.face, tools_);
    if (text.empty()) return;
    const Length width = tools_.metrics.advance(ink.face, style_.size, text);
    open_.width += width;
    if (!open_.pieces.empty() && open_.pieces.back().ink == ink) {
      open_.pieces.back().text += text;
      open_.pieces.back().width += width;
    } else {
      open_.pieces.push_back({std::move(text), ink, width});
    }
  }

  void end_atom(bool blank, Ink ink) {
    if (open_.pieces.empty()) return;  // blanks at the start, or several in a row
    open_.blank_after = blank;
    open_.space_ink = ink;
    open_.space_after = blank ? space(ink.face) : Length{};
    atoms_.push_back(std::move(open_));
    open_ = {};
  }

  Length space(Face face) {
    Length& known = spaces_[face == Face::bold ? 1 : 0];
    if (known == Length{}) known = tools_.metrics.advance(face, style_.size, " ");
    return known;
  }

  const TextStyle& style_;
  const Tools& tools_;
  std::vector<Atom> atoms_;
  Atom open_;
  Length spaces_[2];
};

std::vector<Atom> atoms_of(const RichText& text, const TextStyle& style, const Tools& tools) {
  Atoms atoms(style, tools);
  for (const Span& span : text) atoms.add(span);
  return atoms.take();
}

/// Whether an atom is a word of letters only: cut, it takes a hyphen. File names, numbers and
/// addresses do not.
bool is_word(const Atom& atom) {
  return std::all_of(atom.pieces.begin(), atom.pieces.end(), [](const Piece& piece) {
    return std::all_of(piece.text.begin(), piece.text.end(), is_letter_byte);
  });
}

/// Cuts an atom wider than the measure into atoms that fit, letter by letter, at least one letter
/// each.
void cut_atom(const Atom& atom, const TextStyle& style, Length measure, const Tools& tools,
              std::vector<Atom>& out) {
  const bool word = is_word(atom);
  Atom part;
  std::size_t letters_left = 0, letters_in_part = 0;
  for (const Piece& piece : atom.pieces) letters_left += letter_count(piece.text);
  const auto append = [&](std::string_view text, Ink ink, Length width) {
    if (part.pieces.empty() || part.pieces.back().ink != ink) part.pieces.push_back({{}, ink, {}});
    part.pieces.back().text += text;
    part.pieces.back().width += width;
    part.width += width;
  };
  const auto finish = [&] {
    out.push_back(std::move(part));
    part = {};
    letters_in_part = 0;
  };
  for (const Piece& piece : atom.pieces) {
    const Length hyphen = word ? tools.metrics.advance(piece.ink.face, style.size, "-") : Length{};
    for (std::size_t i = 0; i < piece.text.size();) {
      const std::size_t from = i;
      next_letter(piece.text, i);
      const std::string_view letter = std::string_view(piece.text).substr(from, i - from);
      const Length width = tools.metrics.advance(piece.ink.face, style.size, letter);
      // Room for the hyphen is kept unless this letter is the last.
      const Length sign = letters_left > 1 ? hyphen : Length{};
      if (part.width + width + sign > measure && letters_in_part > 0) {
        if (word && letters_in_part > 1) append("-", piece.ink, hyphen);
        finish();
      }
      append(letter, piece.ink, width);
      ++letters_in_part;
      --letters_left;
    }
  }
  part.space_after = atom.space_after;
  part.space_ink = atom.space_ink;
  part.blank_after = atom.blank_after;
  finish();
}

std::vector<Atom> cut_to(std::vector<Atom> atoms, const TextStyle& style, Length measure,
                         const Tools& tools) {
  const bool fits =
      std::all_of(atoms.begin(), atoms.end(), [&](const Atom& a) { return a.width <= measure; });
  if (fits) return atoms;
  std::vector<Atom> out;
  for (Atom& atom : atoms) {
    if (atom.width <= measure)
      out.push_back(std::move(atom));
    else
      cut_atom(atom, style, measure, tools, out);
  }
  return out;
}

Length width_of(const std::vector<Atom>& atoms) {
  Length width;
  for (std::size_t i = 0; i < atoms.size(); ++i) {
    width += atoms[i].width;
    if (i + 1 < atoms.size()) width += atoms[i].space_after;
  }
  return width;
}

/// First atoms of the lines, by the cheapest way through the breaks.
std::vector<std::size_t> best_breaks(const std::vector<Atom>& atoms, Length measure, Rag rag) {
  constexpr double kLine = 1e6;       // a line more costs more than any unevenness
  constexpr double kLoneWord = 60.0;  // a last line of one short word
  const std::size_t n = atoms.size();
  const double full = measure.pt();
  // The even share of a balanced text, found from the fewest lines that hold it.
  double share = full;
  if (rag == Rag::balanced) {
    double total = 0, line = 0, lines = 1;
    for (const Atom& atom : atoms) {
      if (line > 0 && line + atom.width.pt() > full) {
        lines += 1;
        line = 0;
      }
      line += atom.width.pt() + atom.space_after.pt();
      total += atom.width.pt() + atom.space_after.pt();
    }
    share = std::min(full, total / lines);
  }
  std::vector<double> cost(n + 1, std::numeric_limits<double>::infinity());
  std::vector<std::size_t> next(n + 1, n);
  cost[n] = 0;
  for (std::size_t start = n; start-- > 0;) {
    double width = 0;
    for (std::size_t end = start + 1; end <= n; ++end) {
      width += atoms[end - 1].width.pt();
      if (width > full + 1e-6 && end > start + 1) break;
      const double short_by = (share - width) / full;
      double here = kLine + 100 * short_by * short_by;
      if (end == n) {
        const bool lone = end == start + 1 && start > 0 && width < 0.25 * full;
        if (rag == Rag::ragged) here = kLine + (width < 0.2 * full && start > 0 ? 10 : 0);
        if (lone) here += kLoneWord;
      }
      if (!atoms[end - 1].blank_after && end < n)
        here += 15;  // rather at a blank than inside a word
      if (here + cost[end] < cost[start]) {
        cost[start] = here + cost[end];
        next[start] = end;
      }
      width += atoms[end - 1].space_after.pt();
    }
  }
  std::vector<std::size_t> starts;
  for (std::size_t start = 0; start < n; start = next[start]) starts.push_back(start);
  return starts;
}

/// Atoms first..last-1 as one line: neighbours of one look become one run.
SetLine line_of(const std::vector<Atom>& atoms, std::size_t first, std::size_t last,
                const TextStyle& style, Colour quiet) {
  SetLine line;
  const auto append = [&](std::string_view text, Ink ink, Length width) {
    const Colour colour = ink.quiet ? quiet : style.colour;
    if (line.runs.empty() || line.runs.back().face != ink.face || line.runs.back().colour != colour)
      line.runs.push_back({ink.face, style.size, colour, {}, {}});
    line.runs.back().text += text;
    line.runs.back().width += width;
    line.width += width;
  };
  for (std::size_t i = first; i < last; ++i) {
    for (const Piece& piece : atoms[i].pieces) append(piece.text, piece.ink, piece.width);
    if (i + 1 < last && atoms[i].blank_after) append(" ", atoms[i].space_ink, atoms[i].space_after);
  }
  return line;
}

}  // namespace

std::vector<SetLine> break_lines(const RichText& text, const TextStyle& style, Length measure,
                                 Rag rag, const Tools& tools) {
  std::vector<Atom> atoms = cut_to(atoms_of(text, style, tools), style, measure, tools);
  std::vector<SetLine> lines;
  if (atoms.empty()) return lines;
  if (width_of(atoms) <= measure) {
    lines.push_back(line_of(atoms, 0, atoms.size(), style, tools.style.secondary));
    return lines;
  }
  const std::vector<std::size_t> starts = best_breaks(atoms, measure, rag);
  for (std::size_t i = 0; i < starts.size(); ++i)
    lines.push_back(line_of(atoms, starts[i], i + 1 < starts.size() ? starts[i + 1] : atoms.size(),
                            style, tools.style.secondary));
  return lines;
}

SetLine fit_line(const RichText& text, const TextStyle& style, Length measure, const Tools& tools) {
  TextStyle fitted = style;
  std::vector<Atom> atoms = atoms_of(text, fitted, tools);
  const Length width = width_of(atoms);
  if (width > measure) {
    const Length wanted = style.size * (measure / width);
    // Down to a tenth of a point, so that neighbours do not differ by a hair.
    const Length tenth =
        Length::points(static_cast<double>(static_cast<long>(wanted.pt() * 10)) / 10);
    fitted.size = std::max(tenth, std::min(style.size, tools.style.smallest));
    atoms = atoms_of(text, fitted, tools);
  }
  SetLine line =
      atoms.empty() ? SetLine{} : line_of(atoms, 0, atoms.size(), fitted, tools.style.secondary);
  if (line.width <= measure) return line;
  // Still too long: whole letters as far as they go, and a sign that there is more.
  const std::string ellipsis = "…";
  SetLine cut;
  for (TextRun& run : line.runs) {
    const Length sign = tools.metrics.advance(run.face, run.size, ellipsis);
    TextRun kept{run.face, run.size, run.colour, {}, {}};
    for (std::size_t i = 0; i < run.text.size();) {
      const std::size_t from = i;
      next_letter(run.text, i);
      const std::string letter = run.text.substr(from, i - from);
      const Length step = tools.metrics.advance(run.face, run.size, letter);
      if (cut.width + step + sign > measure) {
        while (!kept.text.empty() && kept.text.back() == ' ') kept.text.pop_back();
        kept.text += ellipsis;
        const Length before = cut.width - kept.width;
        kept.width = tools.metrics.advance(run.face, run.size, kept.text);
        cut.width = before + kept.width;
        cut.runs.push_back(std::move(kept));
        return cut;
      }
      kept.text += letter;
      kept.width += step;
      cut.width += step;
    }
    cut.runs.push_back(std::move(kept));
  }
  return cut;
}

Length natural_width(const RichText& text, const TextStyle& style, const Tools& tools) {
  return width_of(atoms_of(text, style, tools));
}

Length widest_word(const RichText& text, const TextStyle& style, const Tools& tools) {
  Length widest;
  for (const Atom& atom : atoms_of(text, style, tools)) widest = std::max(widest, atom.width);
  return widest;
}

void draw_line(Frame& frame, Point at, Align align, SetLine line) {
  if (align == Align::centre) at.x -= line.width / 2.0;
  if (align == Align::right) at.x -= line.width;
  for (TextRun& run : line.runs) {
    const Length width = run.width;
    frame.add(at, std::move(run));
    at.x += width;
  }
}

Length draw_lines(Frame& frame, Length x, Length first_baseline, Length leading,
                  std::vector<SetLine> lines) {
  Length y = first_baseline;
  for (std::size_t i = 0; i < lines.size(); ++i) {
    if (i > 0) y += leading;
    draw_line(frame, {x, y}, Align::left, std::move(lines[i]));
  }
  return y;
}

}  // namespace winterfolio
