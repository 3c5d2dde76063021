// Plain tables: comma, semicolon, tab, bar or blanks between the columns, a time and an air
// temperature in each row, or a day with its lowest and highest.
//
// Most loggers write "2026-11-01 06:05,7.2". Such rows are read by their fixed places, which is
// several times faster; each row is checked for that shape, and one that has another goes the
// general way.
#include <fmt/format.h>

#include <bit>
#include <cstring>

#include "readers/temperature/fixed_number.h"
#include "readers/temperature/formats.h"
#include "readers/temperature/line_reader.h"
#include "readers/temperature/messages.h"
#include "readers/temperature/plain_words.h"
#include "readers/temperature/series_builder.h"
#include "readers/temperature/table_layout.h"

namespace winterfolio {
namespace {

constexpr std::int32_t kDay = 86400;

inline std::uint64_t load(const char* p) {
  std::uint64_t eight = 0;
  std::memcpy(&eight, p, sizeof eight);
  if constexpr (std::endian::native == std::endian::big) eight = __builtin_bswap64(eight);
  return eight;
}
constexpr std::uint64_t kFiveBytes = 0xFF'FFFF'FFFF;
constexpr std::uint64_t kClockShape = 0x30'303A'3030;  // "00:00", first character lowest
constexpr std::uint64_t kSixes =
    0x06'0600'0606;  // carries a digit beyond 9 into the upper half of its byte
constexpr std::uint64_t kNoDigit = 0xF0'F0FF'F0F0;

inline unsigned digit(char c) { return static_cast<unsigned>(static_cast<unsigned char>(c)) - '0'; }

/// Rows of the shape YYYY-MM-DD HH:MM[:SS] with a temperature of one or two decimals in a later
/// column.
class FixedRows {
 public:
  explicit FixedRows(const TableLayout& layout)
      : possible_(layout.stamp == Column(0) && layout.temperature && *layout.temperature > 0 &&
                  !layout.daily && !layout.station && !layout.quantity &&
                  !layout.comma_everywhere && !layout.half_of_day && layout.orders.count() == 1 &&
                  layout.delimiter != '\0' && !layout.serial && !layout.tenths),
        delimiter_(layout.delimiter),
        decimal_(layout.decimal),
        skipped_columns_(possible_ ? static_cast<int>(*layout.temperature) - 1 : 0) {}

  struct Row {
    std::int64_t stamp;
    std::int64_t parts;
    std::uint32_t value_at;  ///< place of the temperature in the row
  };

  /// True if the row has the shape and is a reading. `line` must have LineReader::kZerosBehind
  /// bytes behind it.
  bool read(std::string_view line, Row& row) {
    constexpr std::size_t kShortest = 18;  // 2026-11-01 06:05,7
    if (!possible_ || line.size() < kShortest) return false;
    const char* p = line.data();
    if ((load(p) != date_front_ || load(p + 2) != date_back_) && !take_date(p)) return false;
    // HH:MM, five bytes at once: digits become 0 to 9 and the colon 0 where they are what they
    // should be.
    const std::uint64_t clock = (load(p + 11) ^ kClockShape) & kFiveBytes;
    if ((p[10] != ' ' && p[10] != 'T') || (((clock + kSixes) | clock) & kNoDigit) != 0)
      return false;
    const auto byte = [clock](int i) { return static_cast<unsigned>(clock >> (8 * i)) & 0xFFU; };
    const unsigned hour = byte(0) * 10 + byte(1);
    const unsigned minute = byte(3) * 10 + byte(4);
    if (hour > 23 || minute > 59) return false;
    std::int64_t stamp = midnight_ + hour * 3600 + minute * 60;
    p += 16;
    if (*p == ':') {
      const unsigned s1 = digit(p[1]), s2 = digit(p[2]);
      if (s1 > 5 || s2 > 9) return false;
      stamp += s1 * 10 + s2;
      p += 3;
    }
    if (*p != delimiter_) return false;
    ++p;
    const char* const end = line.data() + line.size();
    for (int i = 0; i < skipped_columns_; ++i) {
      while (p < end && *p != delimiter_) {
        if (*p == '"') return false;
        ++p;
      }
      if (p >= end) return false;
      ++p;
    }
    row.value_at = static_cast<std::uint32_t>(p - line.data());
    if (!take_temperature(p, end, row.parts)) return false;
    row.stamp = stamp;
    return true;
  }

 private:
  bool take_date(const char* p) {
    static constexpr int kPlaces[] = {0, 1, 2, 3, 5, 6, 8, 9};
    if (p[4] != '-' || p[7] != '-') return false;
    int value = 0;
    for (const int place : kPlaces) {
      if (digit(p[place]) > 9) return false;
      value = value * 10 + static_cast<int>(digit(p[place]));
    }
    const auto day = day_number(value / 10000, value / 100 % 100, value % 100);
    if (!day) return false;
    date_front_ = load(p);
    date_back_ = load(p + 2);
    midnight_ = std::int64_t{*day} * kDay;
    return true;
  }

  /// Sign, one to three digits, at most two decimals, then the end of the cell.
  bool take_temperature(const char* p, const char* end, std::int64_t& parts) const {
    const bool minus = *p == '-';
    p += minus;
    std::int64_t value = digit(*p);
    if (value > 9) return false;
    ++p;
    for (int i = 0; i < 2 && digit(*p) <= 9; ++i) value = value * 10 + digit(*p++);
    std::int64_t scale = kPartsPerDegree;
    if (*p == decimal_ && p < end) {
      ++p;
      for (int i = 0; i < 2 && digit(*p) <= 9; ++i) {
        value = value * 10 + digit(*p++);
        scale /= 10;
      }
    }
    if (p < end && *p != delimiter_) return false;
    parts = (minus ? -value : value) * scale;
    // From here on numbers may be codes for a missing reading.
    constexpr std::int64_t kFewestCode = 99 * kPartsPerDegree;
    return parts < kFewestCode && parts > -kFewestCode;
  }

  bool possible_;
  char delimiter_;
  char decimal_;
  int skipped_columns_;
  std::uint64_t date_front_ =
      0;  ///< of the row before: its first eight characters, and those from the third on
  std::uint64_t date_back_ = 0;
  std::int64_t midnight_ = 0;
};

/// Rows of any other shape.
class GeneralRows {
 public:
  GeneralRows(const TableLayout& layout, SeriesBuilder& builder)
      : layout_(layout), builder_(builder), needed_(layout.columns_needed() + 1) {}

  /// `cut`: the line goes on beyond what is there; that is told elsewhere.
  void read(std::string_view line, std::int64_t number, bool cut) {
    if (trimmed(line).empty()) return;
    cells_.cut(line, layout_.delimiter, needed_);
    ParsedStamp stamp;
    if (!read_time(stamp)) {
      // What begins like a date but is none is a fault; everything else is a line of some other
      // kind.
      const std::string_view cell = time_cell();
      const bool date_like = !cell.empty() && cell.front() >= '0' && cell.front() <= '9' &&
                             cells_.size() >= needed_ - 1;
      if (date_like)
        builder_.note_unreadable(number, line, cell,
                                 fmt::format("'{}' is no date and time", cell.substr(0, 40)));
      else if (!cut)
        builder_.note_other(number, line);
      return;
    }
    if (layout_.station && !builder_.wants_station(trimmed(cells_[*layout_.station]))) return;
    if (layout_.quantity && trimmed(cells_[*layout_.quantity]) != layout_.air_temperature) return;
    if (layout_.daily)
      read_day(line, number, stamp);
    else
      read_reading(line, number, stamp);
  }

 private:
  std::string_view time_cell() const {
    const Column column = layout_.stamp  ? layout_.stamp
                          : layout_.date ? layout_.date
                                         : layout_.year;
    return trimmed(cells_[column.value_or(0)]);
  }

  std::optional<int> integer(const Column& column) const {
    if (!column) return std::nullopt;
    const auto parts = parse_parts(trimmed(cells_[*column]), '.');
    if (!parts || *parts % kPartsPerDegree != 0) return std::nullopt;
    return static_cast<int>(*parts / kPartsPerDegree);
  }

  bool read_time(ParsedStamp& stamp) {
    if (layout_.stamp) {
      const auto parsed = layout_.serial
                              ? parse_spreadsheet_serial(cells_[*layout_.stamp], layout_.decimal)
                              : parse_stamp(cells_[*layout_.stamp]);
      if (!parsed) return false;
      stamp = *parsed;
      return true;
    }
    if (layout_.date) {
      const std::string_view text = cells_[*layout_.date];
      // The date of the row before is mostly the date of this one.
      if (text == last_date_ && !text.empty()) {
        stamp = last_stamp_;
      } else {
        const auto parsed = parse_stamp(text);
        if (!parsed) return false;
        stamp = last_stamp_ = *parsed;
        last_date_ = text;
      }
    } else {
      const auto year = integer(layout_.year);
      if (!year) return false;
      const auto day = layout_.day_of_year
                           ? day_number(*year, integer(layout_.day_of_year).value_or(0))
                           : day_number(*year, integer(layout_.month).value_or(0),
                                        integer(layout_.day).value_or(0));
      if (!day) return false;
      stamp.date = ParsedDate::certain(*day);
    }
    if (layout_.time) {
      stamp.second_of_day = parse_clock_time(with_half_of_day(cells_[*layout_.time]));
      return stamp.second_of_day.has_value();
    }
    if (layout_.hour) {
      const auto hour = integer(layout_.hour);
      const int minute = integer(layout_.minute).value_or(0);
      if (!hour || *hour < 0 || *hour > 2400 || minute < 0 || minute > 60) return false;
      // "1430" in a column of hours
      const int seconds =
          *hour > 24 ? *hour / 100 * 3600 + *hour % 100 * 60 : *hour * 3600 + minute * 60;
      if (seconds > kDay) return false;
      stamp.second_of_day = seconds;
    }
    return true;
  }

  /// The text of a time with the AM or PM that stands in a column of its own.
  std::string_view with_half_of_day(std::string_view time) {
    if (!layout_.half_of_day) return time;
    timed_.assign(time).append(" ").append(cells_[*layout_.half_of_day]);
    return timed_;
  }

  /// The text of a temperature; where commas are everywhere, the rest of the row.
  std::string_view temperature_cell(std::size_t column, std::string_view line) const {
    const std::string_view cell = trimmed(cells_[column]);
    if (!layout_.comma_everywhere || cell.empty()) return cell;
    return trimmed(line.substr(static_cast<std::size_t>(cell.data() - line.data())));
  }

  /// A cell's temperature. False if the row is done with: blank, or no number.
  bool value_of(std::size_t column, std::string_view line, std::int64_t number,
                std::int64_t& parts) {
    const std::string_view cell = temperature_cell(column, line);
    CellValue value = read_temperature_cell(cell, layout_.comma_everywhere ? ',' : layout_.decimal);
    // A unit of its own in a cell must be the column's.
    if (value.unit && layout_.unit && *value.unit != *layout_.unit)
      value.kind = CellKind::unreadable;
    if (value.kind == CellKind::unreadable) {
      builder_.note_unreadable(number, line, cell,
                               fmt::format("'{}' is no temperature", cell.substr(0, 40)));
      return false;
    }
    if (value.kind == CellKind::blank) return false;
    parts = layout_.tenths ? value.parts / 10 : value.parts;
    return true;
  }

  void read_reading(std::string_view line, std::int64_t number, const ParsedStamp& stamp) {
    const std::string_view cell = temperature_cell(*layout_.temperature, line);
    builder_.at_row(line, cell);
    const CellValue value =
        read_temperature_cell(cell, layout_.comma_everywhere ? ',' : layout_.decimal);
    if (value.kind == CellKind::blank) {
      builder_.note_blank();
      return;
    }
    std::int64_t parts = 0;
    if (!value_of(*layout_.temperature, line, number, parts)) return;
    const auto offset = stamp.letters ? builder_.offset_of(*stamp.letters) : stamp.offset;
    if (!builder_.add(stamp.date, stamp.second_of_day.value_or(0), offset, parts, number, line)) {
      builder_.note_unreadable(
          number, line, time_cell(),
          fmt::format("'{}' is no date in the order of the other rows", time_cell().substr(0, 40)));
    }
  }

  void read_day(std::string_view line, std::int64_t number, const ParsedStamp& stamp) {
    builder_.at_row(line, trimmed(cells_[layout_.minimum ? *layout_.minimum : *layout_.maximum]));
    const auto extreme = [&](const Column& column) -> std::optional<std::int64_t> {
      std::int64_t parts = 0;
      if (!column || !value_of(*column, line, number, parts)) return std::nullopt;
      return parts;
    };
    const auto minimum = extreme(layout_.minimum);
    const auto maximum = extreme(layout_.maximum);
    if (!minimum && !maximum) {
      builder_.note_blank();
      return;
    }
    if (!builder_.add_day(stamp.date, minimum, maximum, number, line)) {
      builder_.note_unreadable(
          number, line, time_cell(),
          fmt::format("'{}' is no date in the order of the other rows", time_cell().substr(0, 40)));
    }
  }

  const TableLayout& layout_;
  SeriesBuilder& builder_;
  std::size_t needed_;
  Cells cells_;
  std::string last_date_;
  std::string timed_;
  ParsedStamp last_stamp_;
};

void say_what_was_taken(const TableLayout& layout, SeriesBuilder& builder) {
  const auto say = [&](const char* what, const Column& column) {
    if (column) builder.recognised(what, layout.name_of(*column));
  };
  say("time", layout.stamp ? layout.stamp : layout.date ? layout.date : layout.year);
  say("temperature", layout.temperature);
  if (layout.quantity) builder.recognised("rows of", layout.air_temperature);
  say("minimum", layout.minimum);
  say("maximum", layout.maximum);
  if (layout.other_temperatures.empty()) return;
  std::string list;
  for (const std::string& name : layout.other_temperatures)
    list += (list.empty() ? "" : ", ") + name;
  builder.recognised("other temperatures left aside", list);
}

}  // namespace

SeriesFacts facts_of(const TableLayout& layout) {
  SeriesFacts facts;
  facts.unit = layout.unit;
  facts.clock = layout.clock;
  facts.utc_offset_minutes = layout.utc_offset_minutes;
  facts.zone_letters = layout.zone_letters;
  facts.orders = layout.orders;
  const Column column = layout.temperature ? layout.temperature
                        : layout.minimum   ? layout.minimum
                                           : layout.maximum;
  if (column) facts.temperature_column = layout.name_of(*column);
  return facts;
}

std::optional<TemperatureFile> read_rows(ReadingJob& job, const TableLayout& layout,
                                         SeriesFacts facts, std::string_view format) {
  auto builder = SeriesBuilder::of(job, std::move(facts));
  if (!builder) return std::nullopt;
  say_what_was_taken(layout, *builder);
  FixedRows fixed(layout);
  GeneralRows general(layout, *builder);
  FixedRows::Row row{};
  std::string_view line;
  LineReader& lines = job.lines;
  while (lines.number() + 1 < layout.first_row && lines.next(line)) {
  }
  while (lines.next(line)) {
    if (fixed.read(line, row)) {
      builder->add(row.stamp, row.parts, lines.number(), line, row.value_at);
    } else {
      general.read(line, lines.number(), lines.line_was_cut());
    }
  }
  return builder->finish(format);
}

bool recognise_table(std::string_view head) { return looks_like_table(head); }

std::optional<TemperatureFile> read_table(ReadingJob& job) {
  const int errors_before = job.diagnostics.errors();
  const auto layout = find_table_layout(job.lines.head(), job.file, job.options, job.diagnostics);
  if (!layout) {
    if (job.diagnostics.errors() == errors_before) {
      job.diagnostics.add(about_file(
          Severity::error, "no-table", job.file,
          "no rows with a date and a temperature were found in its first lines",
          "a table with a date and a temperature in each row",
          "look whether this is the right file; or name another format with 'format' or --format"));
    }
    return std::nullopt;
  }
  return read_rows(job, *layout, facts_of(*layout), "table");
}

}  // namespace winterfolio
