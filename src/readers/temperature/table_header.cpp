// Finds the line of words over a table's rows, and the lines that belong to it.
#include "readers/temperature/table_header.h"

#include <algorithm>
#include <cstdlib>

#include "readers/temperature/fixed_number.h"
#include "readers/temperature/plain_words.h"

namespace winterfolio {
namespace {

class HeaderFinder {
 public:
  HeaderFinder(const std::vector<HeadLine>& lines, const TableCut& table)
      : lines_(lines), table_(table) {}

  TableHeader find() {
    find_header();
    return std::move(header_);
  }

 private:
  /// How much a word says that its line is the header: a line of "min" and "avg" may stand under
  /// the real one.
  static int words_worth(ColumnRole role) {
    switch (role) {
      case ColumnRole::unknown:
        return 0;
      case ColumnRole::date:
      case ColumnRole::time:
      case ColumnRole::year:
      case ColumnRole::temperature:
        return 3;
      case ColumnRole::minimum:
      case ColumnRole::maximum:
        return 2;
      default:
        return 1;
    }
  }

  /// The line over the first row that has words of times or temperatures; a line of units may stand
  /// between.
  void find_header() {
    const std::size_t first = table_.rows.front();
    Cells cells;
    int best = 0;
    std::size_t best_back = 0;
    for (std::size_t back = 1; back <= 4 && back <= first; ++back) {
      std::string_view text = lines_[first - back].text;
      while (!text.empty() && (text.front() == '#' || text.front() == '%' || text.front() == '!'))
        text.remove_prefix(1);
      cells.cut(trimmed(text), table_.delimiter);
      int worth = 0;
      std::vector<HeaderMeaning> meanings;
      for (std::size_t c = 0; c < cells.size(); ++c) {
        meanings.push_back(meaning_of(cells[c]));
        worth += words_worth(meanings.back().role);
        worth -= unit_named(cells[c]).has_value();
      }
      if (worth <= best || cells.size() < 2) continue;
      best = worth;
      best_back = back;
      header_.line = lines_[first - back];
      header_.meanings = std::move(meanings);
      header_.names.clear();
      for (std::size_t c = 0; c < cells.size(); ++c) header_.names.emplace_back(trimmed(cells[c]));
    }
    if (best > 0) {
      take_line_above(first, best_back);
      take_units_line(first, best_back);
      return;
    }
    // No known word: a line of as many texts as the rows have cells still gives the columns their
    // names.
    if (first == 0) return;
    cells.cut(lines_[first - 1].text, table_.delimiter);
    if (cells.size() != table_.width) return;
    for (std::size_t c = 0; c < cells.size(); ++c) {
      if (parse_parts(trimmed(cells[c]), table_.decimal)) return;
    }
    header_.line = lines_[first - 1];
    for (std::size_t c = 0; c < cells.size(); ++c) header_.names.emplace_back(trimmed(cells[c]));
  }

  /// Headers of two lines: "Temp" over "Out". Words of the upper line go before those they stand
  /// over.
  void take_line_above(std::size_t first, std::size_t back) {
    if (back + 1 > first) return;
    const HeadLine& upper = lines_[first - back - 1];
    if (has_digit(upper.text) || trimmed(upper.text).empty()) return;
    Cells cells;
    std::vector<std::string> above(header_.names.size());
    if (table_.delimiter != '\0') {
      cells.cut(upper.text, table_.delimiter);
      if (cells.size() != header_.names.size() || cells.size() < 3) return;
      for (std::size_t c = 0; c < cells.size(); ++c) above[c] = trimmed(cells[c]);
    } else {
      // Between blanks only the place on the line tells: a word belongs to the lower word whose end
      // is nearest.
      const std::string_view lower = header_.line->text;
      cells.cut(upper.text, '\0');
      Cells below;
      below.cut(lower, '\0');
      for (std::size_t u = 0; u < cells.size(); ++u) {
        const auto end_of = [](std::string_view line, std::string_view cell) {
          return cell.data() + cell.size() - line.data();
        };
        std::size_t nearest = 0;
        for (std::size_t c = 0; c < below.size() && c < above.size(); ++c) {
          const auto gap = [&](std::size_t k) {
            return std::abs(end_of(lower, below[k]) - end_of(upper.text, cells[u]));
          };
          if (gap(c) < gap(nearest)) nearest = c;
        }
        above[nearest] += (above[nearest].empty() ? "" : " ") + std::string(cells[u]);
      }
    }
    const bool thermal = std::any_of(above.begin(), above.end(), [](const std::string& word) {
      const ColumnRole r = meaning_of(word).role;
      return r == ColumnRole::temperature || r == ColumnRole::minimum || r == ColumnRole::maximum;
    });
    if (!thermal) return;
    for (std::size_t c = 0; c < above.size(); ++c) {
      if (above[c].empty()) continue;
      header_.names[c] = above[c] + " " + header_.names[c];
      header_.meanings[c] = meaning_of(header_.names[c]);
    }
  }

  void take_units_line(std::size_t first, std::size_t back) {
    Cells cells;
    for (std::size_t between = 1; between < back; ++between) {
      cells.cut(lines_[first - between].text, table_.delimiter);
      for (std::size_t c = 0; c < cells.size() && c < header_.meanings.size(); ++c) {
        if (const auto unit = unit_named(cells[c])) header_.meanings[c].unit = unit;
        if (const auto order = meaning_of(cells[c]).date_order;
            order && !header_.meanings[c].date_order)
          header_.meanings[c].date_order = order;
      }
    }
  }

  const std::vector<HeadLine>& lines_;
  const TableCut& table_;
  TableHeader header_;
};

}  // namespace

ColumnRole TableHeader::role(std::size_t column) const {
  return column < meanings.size() ? meanings[column].role : ColumnRole::unknown;
}

const HeaderMeaning& TableHeader::meaning(std::size_t column) const {
  static const HeaderMeaning kNothing;
  return column < meanings.size() ? meanings[column] : kNothing;
}

TableHeader header_over(const std::vector<HeadLine>& lines, const TableCut& table) {
  return HeaderFinder(lines, table).find();
}

std::optional<HeadLine> header_without_rows(std::string_view head) {
  constexpr std::size_t kMostLines = 60;
  const std::vector<HeadLine> lines = lines_of(head);
  if (lines.size() > kMostLines) return std::nullopt;
  Cells cells;
  for (const HeadLine& line : lines) {
    for (const char delimiter : {',', ';', '\t', '|'}) {
      cells.cut(line.text, delimiter);
      bool time = false;
      bool temperature = false;
      for (std::size_t c = 0; c < cells.size(); ++c) {
        const ColumnRole role = meaning_of(cells[c]).role;
        time = time || role == ColumnRole::date || role == ColumnRole::time ||
               role == ColumnRole::year;
        temperature = temperature || role == ColumnRole::temperature ||
                      role == ColumnRole::minimum || role == ColumnRole::maximum;
      }
      if (time && temperature) return line;
    }
  }
  return std::nullopt;
}

}  // namespace winterfolio
