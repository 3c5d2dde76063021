// Finds which column of a table holds what: by the words over the rows, else by what stands in
// them.
#include "readers/temperature/table_layout.h"

#include <fmt/format.h>

#include <algorithm>

#include "base/csv_table.h"
#include "readers/temperature/column_finder.h"
#include "readers/temperature/messages.h"
#include "readers/temperature/plain_words.h"

namespace winterfolio {

ColumnFinder::ColumnFinder(const std::vector<HeadLine>& lines, const TableCut& table,
                           const std::string& file, const TemperatureOptions& options,
                           Diagnostics& diagnostics)
    : lines_(lines),
      table_(table),
      file_(file),
      options_(options),
      diagnostics_(diagnostics),
      header_(header_over(lines, table)) {
  layout_.delimiter = table.delimiter;
  layout_.decimal = table.decimal;
  layout_.serial = table.serial;
  layout_.first_row = lines[table.rows.front()].number;
  layout_.header = header_.names;
}

std::optional<TableLayout> ColumnFinder::find() {
  if (!take_named_columns()) return std::nullopt;
  find_times();
  if (!has_time()) {
    fail("no-time-column", "no column with dates was found",
         "a column of dates, or of dates and times",
         "name it under 'columns' for this file in the orchard file, or with --columns time=1");
    return std::nullopt;
  }
  find_half_of_day();
  decide_daily();
  if (!find_quantity() || !find_temperatures() || !settle_commas()) return std::nullopt;
  find_unit_elsewhere();
  find_station();
  find_orders();
  return layout_;
}

void ColumnFinder::fail(std::string_view id, std::string message, std::string expected,
                        std::string mend) {
  const HeadLine& shown = header_.line ? *header_.line : lines_[table_.rows.front()];
  diagnostics_.add(about_line(Severity::error, id, file_, shown.number, shown.text, {},
                              std::move(message), std::move(expected), std::move(mend)));
}

bool ColumnFinder::take_named_columns() {
  for (const auto& [role, name] : options_.columns) {
    const Column column = column_named(name);
    if (!column) {
      std::vector<std::string> known = layout_.header;
      if (known.empty()) known.push_back(fmt::format("numbers from 1 to {}", width()));
      std::string list;
      for (const std::string& word : known)
        list += fmt::format("{}{}", list.empty() ? "" : ", ", word);
      fail("unknown-column", fmt::format("has no column '{}', which is named for {}", name, role),
           fmt::format(
               "one of: {}{}", list,
               did_you_mean(nearest_name(name, std::span<const std::string>(layout_.header)))),
           "correct 'columns' for this file in the orchard file, or --columns");
      return false;
    }
    if (role == "time")
      named_time_ = column;
    else if (role == "date")
      layout_.date = column;
    else if (role == "temperature")
      layout_.temperature = column;
    else if (role == "minimum")
      layout_.minimum = column;
    else if (role == "maximum")
      layout_.maximum = column;
  }
  if (named_time_) (layout_.date ? layout_.time : layout_.stamp) = named_time_;
  return true;
}

Column ColumnFinder::column_named(const std::string& name) const {
  for (std::size_t c = 0; c < layout_.header.size(); ++c) {
    if (layout_.header[c] == name) return c;
  }
  for (std::size_t c = 0; c < layout_.header.size(); ++c) {
    if (plain_word(layout_.header[c]) == plain_word(name)) return c;
  }
  const auto number = parse_integer(name);
  if (number && *number >= 1 && static_cast<std::size_t>(*number) <= width())
    return static_cast<std::size_t>(*number - 1);
  return std::nullopt;
}

bool ColumnFinder::is_taken(std::size_t c) const {
  for (const Column& column :
       {layout_.stamp, layout_.date, layout_.time, layout_.year, layout_.month, layout_.day,
        layout_.hour, layout_.minute, layout_.day_of_year, layout_.half_of_day}) {
    if (column && *column == c) return true;
  }
  return false;
}

void ColumnFinder::find_station() {
  int best = -100;
  for (std::size_t c = 0; c < width(); ++c) {
    if (role(c) != ColumnRole::station || is_taken(c) || meaning(c).rank <= best) continue;
    best = meaning(c).rank;
    layout_.station = c;
  }
}

std::size_t TableLayout::columns_needed() const {
  std::size_t needed = 0;
  for (const Column& column : {stamp, date, time, year, month, day, hour, minute, day_of_year,
                               temperature, minimum, maximum, station, quantity}) {
    if (column) needed = std::max(needed, *column + 1);
  }
  return needed;
}

std::string TableLayout::name_of(std::size_t column) const {
  if (column < header.size() && !header[column].empty())
    return fmt::format("column {} ({})", column + 1, header[column]);
  return fmt::format("column {}", column + 1);
}

bool looks_like_table(std::string_view head) {
  const std::vector<HeadLine> lines = lines_of(head);
  const auto best = best_cut(lines, TemperatureOptions());
  return best && !best->rows.empty();
}

std::optional<TableLayout> find_table_layout(std::string_view head, const std::string& file,
                                             const TemperatureOptions& options,
                                             Diagnostics& diagnostics) {
  const std::vector<HeadLine> lines = lines_of(head);
  const auto best = best_cut(lines, options);
  if (!best || best->rows.empty()) return std::nullopt;
  return ColumnFinder(lines, *best, file, options, diagnostics).find();
}

}  // namespace winterfolio
