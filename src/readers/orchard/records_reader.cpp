// Reads the records line by line and gives each to its tree.
#include "readers/orchard/records_reader.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <map>

#include "base/csv_table.h"
#include "readers/orchard/checks.h"
#include "readers/orchard/keys.h"
#include "readers/orchard/reading.h"

namespace winterfolio {
namespace {

enum Column { kOn, kTree, kWhat, kAmount, kNote };
constexpr std::array<std::string_view, 5> kColumns = {"on", "tree", "what", "amount", "note"};
constexpr std::array<std::string_view, 5> kExpected = {
    "a day as YYYY-MM-DD", "the id of a tree of the orchard file", "what was seen",
    "how much: what was picked, or the minutes of pruning", "free text"};
constexpr std::array<std::string_view, 5> kExamples = {"2026-12-20", "A1", "first bloom", "25 min",
                                                       "north side only"};
constexpr std::size_t kMostFaults = 1000;
constexpr std::string_view kHead = "on,tree,what,amount,note";

std::string trimmed(std::string text) {
  const std::size_t first = text.find_first_not_of(" \t");
  if (first == std::string::npos) return {};
  return text.substr(first, text.find_last_not_of(" \t") - first + 1);
}

/// The cells of a line as YAML texts, each with its place, so that they are read like the values of
/// the orchard file.
std::vector<YamlNode> cells_of(const SourceText& source, int line,
                               const std::vector<std::string>& cells) {
  std::vector<YamlNode> nodes;
  const std::string_view text = source.line(line);
  std::size_t byte = 0;
  for (const std::string& cell : cells) {
    YamlNode node;
    node.text = trimmed(cell);
    node.kind = node.text.empty() ? YamlKind::nothing : YamlKind::text;
    // Cells come in order, so each is found behind the one before; a quoted cell with marks inside
    // shows its place.
    const bool quoted = byte < text.size() && text[byte] == '"';
    const std::size_t found = text.find(node.text, std::min(byte, text.size()));
    const std::size_t start = found == std::string_view::npos ? byte : found;
    node.at = source.span_of_bytes(line, start, std::max<std::size_t>(1, node.text.size()));
    nodes.push_back(std::move(node));
    byte = std::min(text.size(), start + nodes.back().text.size());
    byte = text.find(',', byte + (quoted ? 1U : 0U));
    byte = byte == std::string_view::npos ? text.size() : byte + 1;
  }
  return nodes;
}

class RecordsReader {
 public:
  RecordsReader(const SourceText& source, Diagnostics& diagnostics,
                const OrchardReadOptions& options, Orchard& orchard)
      : source_(source),
        diagnostics_(diagnostics),
        reading_(source, diagnostics, options, nullptr, Layout::cells),
        orchard_(orchard) {
    for (Tree& tree : orchard_.trees) {
      ids_.push_back(tree.id);
      trees_.emplace(tree.id, &tree);
    }
  }

  void read() {
    std::size_t position = 0;
    int line = 1;
    const std::string_view bytes = source_.bytes();
    bool head = true;
    // A file of nothing but faults is the wrong file; a thousand of them say so.
    while (position < bytes.size() && diagnostics_.all().size() < kMostFaults) {
      const int starts = line;
      bool open_quote = false;
      const std::vector<std::string> cells = read_csv_record(bytes, position, line, &open_quote);
      // What it would swallow are the keeper's later notes.
      if (open_quote) return refuse_open_quote(starts);
      if (cells.size() == 1 && trimmed(cells[0]).empty()) continue;
      if (head) {
        if (!check_head(starts, cells)) return;
        head = false;
      } else {
        read_row(starts, cells);
      }
    }
  }

 private:
  bool check_head(int line, const std::vector<std::string>& cells) {
    const bool same = cells.size() == kColumns.size() &&
                      std::equal(cells.begin(), cells.end(), kColumns.begin(),
                                 [](const std::string& cell, std::string_view name) {
                                   return trimmed(cell) == name;
                                 });
    if (same) return true;
    reading_.error(whole_line(line), "records.head",
                   "the first line is not the head of a records file", std::string(kHead),
                   fmt::format("write '{}' as the first line", kHead));
    return false;
  }

  void refuse_open_quote(int line) {
    reading_.error(
        whole_line(line), "records.open-quote", "a quote opens in this line and is never closed",
        "a double quote at both ends of a cell, or at neither", "close the quote, or take it out");
  }

  void read_row(int line, const std::vector<std::string>& cells) {
    if (cells.size() > kColumns.size() || cells.size() <= kWhat) {
      reading_.error(
          whole_line(line), "records.cells",
          fmt::format("this line has {} {}", cells.size(), cells.size() == 1 ? "cell" : "cells"),
          fmt::format("{} cells: {}", kColumns.size(), kHead),
          cells.size() > kColumns.size() ? "put a cell that has commas in it in double quotes"
                                         : "add the cells that are missing");
      return;
    }
    const std::vector<YamlNode> nodes = cells_of(source_, line, cells);
    Observation seen;
    seen.at = source_.position(nodes[kOn].at);
    const auto day = reading_.date(given(nodes, kOn));
    Tree* tree = tree_of(nodes[kTree], given(nodes, kTree));
    const bool known = read_what(reading_, given(nodes, kWhat), seen);
    read_rest(nodes, known, seen);
    if (!day || tree == nullptr || !known) return;
    seen.on = {int{day->year()}, unsigned{day->month()}, unsigned{day->day()}};
    check_observed_date(reading_, *tree, seen, nodes[kOn].at);
    tree->observed.push_back(std::move(seen));
  }

  void read_rest(const std::vector<YamlNode>& nodes, bool known, Observation& seen) {
    if (nodes.size() > kAmount && nodes[kAmount].kind == YamlKind::text) {
      seen.amount = reading_.text(given(nodes, kAmount), 40);
      if (known && seen.amount) read_amount(reading_, given(nodes, kAmount), seen);
    }
    if (nodes.size() > kNote && nodes[kNote].kind == YamlKind::text) {
      seen.note = reading_.text(given(nodes, kNote), 1000).value_or("");
    }
  }

  Tree* tree_of(const YamlNode& node, const Given& given) {
    const auto id = reading_.text(given);
    if (!id) return nullptr;
    const auto found = trees_.find(*id);
    if (found != trees_.end()) return found->second;
    const std::string nearest = nearest_word(*id, ids_);
    reading_.error(node.at, "records.unknown-tree",
                   fmt::format("there is no tree '{}' in the orchard file", *id),
                   std::string(given.expected) + did_you_mean(nearest),
                   nearest.empty()
                       ? "correct the id; a tree that is gone stays in the orchard file as 'lost'"
                       : fmt::format("write '{}'", nearest));
    return nullptr;
  }

  static Given given(const std::vector<YamlNode>& nodes, Column column) {
    return {kColumns[column], kExpected[column], kExamples[column], nodes[column].at,
            nodes[column]};
  }

  SourceSpan whole_line(int line) const {
    return source_.span_of_bytes(line, 0, source_.line(line).size());
  }

  const SourceText& source_;
  const Diagnostics& diagnostics_;
  Reading reading_;
  Orchard& orchard_;
  std::vector<std::string> ids_;
  std::map<std::string, Tree*> trees_;
};

}  // namespace

void read_records(const std::string& file, std::string_view bytes, Diagnostics& diagnostics,
                  const OrchardReadOptions& options, Orchard& orchard) {
  const SourceText source(file, bytes);
  if (!check_encoding(source, diagnostics)) return;
  RecordsReader(source, diagnostics, options, orchard).read();
}

}  // namespace winterfolio
