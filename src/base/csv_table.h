// A table of published facts as it stands in the project: a few lines that say what it is and where
// it comes from, then comma-separated rows. Embedded when the program is built; read once where it
// is used.
//
//   # what:    weight of one hour by its mean temperature, Utah model
//   # source:  Richardson, Seeley & Walker 1974 ...
//   # units:   from_c, to_c [°C]; weight [Utah units per hour]
//   from_c,to_c,weight
//   ,1.4,0
#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace winterfolio {

/// One row of a table; cells are looked up by column name. Refers to its table, which must outlive
/// it.
class CsvRow;

/// A parsed table. Cells follow RFC 4180 (quotes, doubled quotes, either line end).
class CsvTable {
 public:
  /// Parses `bytes`; `path` is used in messages. Throws std::logic_error on a malformed table (a
  /// table is ours).
  CsvTable(std::string path, std::string_view bytes);

  /// The embedded table at `path`.
  static CsvTable embedded(std::string_view path);

  const std::string& path() const { return path_; }
  /// The text of "# key: ..." lines, continued over lines that start with "#" and blanks; empty if
  /// there is none.
  std::string header(std::string_view key) const;
  const std::string& comment() const { return comment_; }  ///< every header line, as it stands
  const std::vector<std::string>& columns() const { return columns_; }
  std::size_t size() const { return rows_.size(); }
  CsvRow row(std::size_t index) const;

  class Iterator;
  Iterator begin() const;
  Iterator end() const;

 private:
  friend class CsvRow;
  std::string path_;
  std::string comment_;
  std::vector<std::string> columns_;
  std::vector<std::vector<std::string>> rows_;
  std::vector<int> lines_;
};

class CsvRow {
 public:
  CsvRow(const CsvTable& table, std::size_t index) : table_(&table), index_(index) {}
  /// The cell's text. Throws std::logic_error if the table has no such column.
  const std::string& text(std::string_view column) const;
  /// The cell as a number, nothing if it is empty. Throws std::logic_error if it is neither.
  std::optional<double> number(std::string_view column) const;
  /// A number that must be there.
  double required_number(std::string_view column) const;
  int line() const;  ///< 1-based line in the file
  const std::vector<std::string>& cells() const;

 private:
  const CsvTable* table_;
  std::size_t index_;
};

class CsvTable::Iterator {
 public:
  Iterator(const CsvTable& table, std::size_t index) : table_(&table), index_(index) {}
  CsvRow operator*() const { return CsvRow(*table_, index_); }
  Iterator& operator++() {
    ++index_;
    return *this;
  }
  bool operator!=(const Iterator& other) const { return index_ != other.index_; }

 private:
  const CsvTable* table_;
  std::size_t index_;
};

/// Splits one CSV record that starts at `position` into cells and moves `position` past its line
/// end. Quoted cells may hold line breaks; `lines` grows by the line ends passed. `open_quote` is
/// set where a quote is never closed, so that the cell holds the rest of the text. For tables,
/// records and templates; temperature files have a reader of their own.
std::vector<std::string> read_csv_record(std::string_view bytes, std::size_t& position, int& lines,
                                         bool* open_quote = nullptr);

/// A number written with a point, the whole text; nothing otherwise. No locale, no leading or
/// trailing blanks, finite.
std::optional<double> parse_number(std::string_view text);
std::optional<int> parse_integer(std::string_view text);

}  // namespace winterfolio
