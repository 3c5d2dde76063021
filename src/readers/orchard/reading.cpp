// Checks single values and words their faults.
#include "readers/orchard/reading.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "base/csv_table.h"
#include "readers/orchard/quantities.h"

namespace winterfolio {
namespace {

constexpr std::size_t kLongestName = 64;
constexpr std::size_t kMostShown = 40;
constexpr std::size_t kFewWords = 6;
constexpr int kFirstYear = 1800;
constexpr int kLastYear = 2200;

bool is_digit(char c) { return c >= '0' && c <= '9'; }
bool is_letter_or_digit(char c) {
  return is_digit(c) || (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z');
}

/// What was written, short enough for one line of a message.
std::string shown(std::string_view text) {
  std::string begin;
  std::size_t characters = 0;
  while (!text.empty()) {
    if (characters++ == kMostShown) return begin + "…";
    const std::size_t length = std::max<std::size_t>(1, utf8_length(text));
    begin += text[0] == '\n' ? " " : text.substr(0, length);
    text.remove_prefix(length);
  }
  return begin;
}

/// Line breaks and runs of blanks become one blank, none at the ends.
std::string one_line(std::string_view text) {
  std::string line;
  for (const char c : text) {
    const bool blank = c == ' ' || c == '\n' || c == '\t';
    if (!blank) {
      line += c;
    } else if (!line.empty() && line.back() != ' ') {
      line += ' ';
    }
  }
  while (!line.empty() && line.back() == ' ') line.pop_back();
  return line;
}

bool has_control_character(std::string_view text) {
  for (std::size_t i = 0; i < text.size(); ++i) {
    const auto byte = static_cast<unsigned char>(text[i]);
    if (byte < 0x20U || byte == 0x7FU) return true;
    if (byte == 0xC2U && i + 1 < text.size() && static_cast<unsigned char>(text[i + 1]) < 0xA0U)
      return true;
  }
  return false;
}

/// "2027-02-30": figures where a date has them.
bool looks_like_a_date(std::string_view text) {
  if (text.size() != 10) return false;
  for (std::size_t i = 0; i < text.size(); ++i) {
    if (i == 4 || i == 7 ? text[i] != '-' : !is_digit(text[i])) return false;
  }
  return true;
}

/// Whether a text holds something like an e-mail address.
bool holds_address(std::string_view text) {
  const std::size_t at = text.find('@');
  if (at == 0 || at == std::string_view::npos || !is_letter_or_digit(text[at - 1])) return false;
  const std::string_view host = text.substr(at + 1, text.substr(at + 1).find(' '));
  const std::size_t point = host.find('.');
  return point != std::string_view::npos && point > 0 && point + 2 < host.size();
}

/// Whether a text holds something like a telephone number: a plus and at least nine figures, or
/// groups of three, three and four. Dates, which have groups of four, two and two, are none.
bool holds_telephone_number(std::string_view text) {
  std::vector<std::size_t> groups;
  bool plus = false;
  std::size_t figures = 0;
  for (std::size_t i = 0; i <= text.size(); ++i) {
    const char c = i < text.size() ? text[i] : '\n';
    if (is_digit(c)) {
      if (figures == 0 && groups.empty()) plus = i > 0 && text[i - 1] == '+';
      ++figures;
      continue;
    }
    if (figures > 0) groups.push_back(figures);
    figures = 0;
    const bool joins = c == ' ' || c == '-' || c == '(' || c == ')' || c == '/' || c == '.';
    if (joins) continue;
    std::size_t all = 0;
    for (const std::size_t group : groups) all += group;
    if (plus && all >= 9) return true;
    for (std::size_t g = 0; g + 2 < groups.size(); ++g) {
      if (groups[g] == 3 && groups[g + 1] == 3 && groups[g + 2] == 4) return true;
    }
    groups.clear();
  }
  return false;
}

std::string_view kind_word(YamlKind kind) {
  return kind == YamlKind::list  ? "a list"
         : kind == YamlKind::map ? "keys of its own"
                                 : "one value";
}

}  // namespace

std::string either(const std::vector<std::string>& words) {
  std::string list;
  for (std::size_t i = 0; i < words.size(); ++i) {
    if (i > 0) list += i + 1 == words.size() ? " or " : ", ";
    list += words[i];
  }
  return list;
}

std::string one_of(std::string_view expected, const std::vector<std::string>& words,
                   const std::string& nearest) {
  const bool few = words.size() <= kFewWords;
  return (few || nearest.empty() ? either(words) : std::string(expected)) + did_you_mean(nearest);
}

std::string nearest_word(std::string_view word, const std::vector<std::string>& candidates) {
  if (word.size() > kLongestName) return {};
  return nearest_name(word, std::span<const std::string>(candidates));
}

void Reading::error(SourceSpan at, std::string id, std::string message, std::string expected,
                    std::string mend) {
  diagnostics_.add(source_.fault(
      at, make_error(std::move(id), std::move(message), std::move(expected), std::move(mend))));
}

void Reading::warning(SourceSpan at, std::string id, std::string message, std::string expected,
                      std::string mend) {
  diagnostics_.add(
      source_.fault(at, make_fault(Severity::warning, std::move(id), std::move(message),
                                   std::move(expected), std::move(mend))));
}

void Reading::note(SourceSpan at, std::string id, std::string message) {
  diagnostics_.add(
      source_.fault(at, make_fault(Severity::note, std::move(id), std::move(message), {}, {})));
}

std::string Reading::as_in(const Given& given) const {
  if (layout_ == Layout::cells) return fmt::format("write it as in '{}'", given.example);
  return fmt::format("write it as in '{}: {}'", given.key, given.example);
}

void Reading::saw_key(std::string_view section, const YamlEntry& entry) {
  static const CsvTable waiting =
      CsvTable::embedded("src/readers/orchard/tables/keys_not_used_yet.csv");
  for (const CsvRow row : waiting) {
    if (row.text("section") != section || row.text("key") != entry.key) continue;
    auto seen = std::find_if(unused_.begin(), unused_.end(),
                             [&](const UnusedKeys& one) { return one.section == section; });
    if (seen == unused_.end())
      seen = unused_.insert(unused_.end(), {std::string(section), entry.key_at, {}});
    if (std::find(seen->keys.begin(), seen->keys.end(), entry.key) == seen->keys.end())
      seen->keys.push_back(entry.key);
  }
}

void Reading::tell_unused_keys() {
  for (const UnusedKeys& unused : unused_) {
    note(
        unused.first, "orchard.unused-key",
        unused.keys.size() == 1
            ? fmt::format("'{}' is read and checked, but nothing is made of it yet", unused.keys[0])
            : fmt::format("these keys are read and checked, but nothing is made of them yet: {}",
                          fmt::join(unused.keys, ", ")));
  }
}

std::optional<bool> Reading::as_yes_no(std::string_view text) { return parse_yes_no(text); }

const YamlNode* Reading::text_node(const Given& given) {
  const YamlNode& node = given.node;
  if (node.kind == YamlKind::faulty) return nullptr;
  if (node.kind == YamlKind::nothing ||
      (node.kind == YamlKind::text && one_line(node.text).empty())) {
    error(given.key_at, "orchard.empty-value", fmt::format("'{}' has no value", given.key),
          std::string(given.expected),
          layout_ == Layout::cells ? as_in(given)
                                   : fmt::format("write one as in '{}: {}', or delete the line",
                                                 given.key, given.example));
    return nullptr;
  }
  if (node.kind != YamlKind::text) {
    error(node.at, "orchard.wrong-kind",
          fmt::format("'{}' has {} where one value belongs", given.key, kind_word(node.kind)),
          std::string(given.expected), as_in(given));
    return nullptr;
  }
  return &node;
}

bool Reading::is_map(const Given& given) {
  const YamlNode& node = given.node;
  if (node.kind == YamlKind::map) return true;
  if (node.kind == YamlKind::faulty) return false;
  const bool nothing = node.kind == YamlKind::nothing;
  error(nothing ? given.key_at : node.at, nothing ? "orchard.empty-value" : "orchard.wrong-kind",
        nothing ? fmt::format("'{}' has no keys below it", given.key)
                : fmt::format("'{}' has {} where keys with values belong", given.key,
                              kind_word(node.kind)),
        std::string(given.expected),
        nothing ? as_in(given) + ", or delete the line" : as_in(given));
  return false;
}

std::vector<Given> Reading::list(const Given& given) {
  const YamlNode& node = given.node;
  std::vector<Given> items;
  if (node.kind == YamlKind::list) {
    for (const YamlNode& item : node.items) {
      const SourceSpan at = item.kind == YamlKind::nothing ? given.key_at : item.at;
      items.push_back({given.key, given.expected, given.example, at, item});
    }
  } else if (node.kind != YamlKind::faulty) {
    const bool nothing = node.kind == YamlKind::nothing;
    error(nothing ? given.key_at : node.at, nothing ? "orchard.empty-value" : "orchard.wrong-kind",
          nothing
              ? fmt::format("'{}' has no list below it", given.key)
              : fmt::format("'{}' has {} where a list belongs", given.key, kind_word(node.kind)),
          std::string(given.expected),
          nothing ? as_in(given) + ", or delete the line" : as_in(given));
  }
  return items;
}

std::optional<std::string> Reading::text(const Given& given, int longest) {
  const YamlNode* node = text_node(given);
  if (node == nullptr) return std::nullopt;
  std::string line = one_line(node->text);
  if (has_control_character(line)) {
    error(node->at, "orchard.bad-text", fmt::format("'{}' holds a control character", given.key),
          "letters, digits and signs only",
          "take the backslash and what follows it out of the text");
    return std::nullopt;
  }
  const int characters = character_count(line);
  if (characters > longest) {
    error(node->at, "orchard.bad-text",
          fmt::format("'{}' has {} characters, and there is room for {}", given.key, characters,
                      longest),
          std::string(given.expected), "shorten the text");
    return std::nullopt;
  }
  look_for_personal_data(given);
  return line;
}

void Reading::look_for_personal_data(const Given& given) {
  const bool address = holds_address(given.node.text);
  if (!address && !holds_telephone_number(given.node.text)) return;
  warning(given.node.at, "orchard.personal-data",
          fmt::format("'{}' seems to hold {}", given.key,
                      address ? "an e-mail address" : "a telephone number"),
          "nothing by which a person can be reached: pages are handed round and kept",
          "take it out; the sheets have lines on which it can be written by hand");
}

void Reading::not_a_number(const Given& given, std::string_view number) {
  std::string with_point(number);
  std::replace(with_point.begin(), with_point.end(), ',', '.');
  const bool comma = number.find(',') != std::string_view::npos && parse_decimal(with_point);
  const bool zeros = !comma && number.size() > 1 && number[0] == '0' && parse_number(number);
  if (comma) {
    error(given.node.at, "orchard.not-a-number",
          fmt::format("'{}' has a comma in its number", shown(given.node.text)),
          std::string(given.expected), fmt::format("write a point: '{}'", with_point));
  } else if (zeros) {
    error(given.node.at, "orchard.not-a-number",
          fmt::format("'{}' begins with a zero too many", shown(given.node.text)),
          std::string(given.expected), as_in(given));
  } else {
    error(given.node.at, "orchard.not-a-number",
          fmt::format("'{}' is no number", shown(given.node.text)), std::string(given.expected),
          as_in(given));
  }
}

std::optional<double> Reading::in_limits(const Given& given, double value, Limits limits,
                                         double written, std::string_view unit) {
  if (value >= limits.low && value <= limits.high) return value;
  const std::string in_unit = unit.empty() ? "" : fmt::format(" {}", unit);
  const std::string converted = value == written ? "" : fmt::format(" ({:.4g}{})", value, in_unit);
  error(given.node.at, "orchard.out-of-range",
        fmt::format("'{}'{} lies outside {:g} to {:g}{}", shown(given.node.text), converted,
                    limits.low, limits.high, in_unit),
        std::string(given.expected),
        unit.empty() ? "correct the number" : "correct the number, or its unit");
  return std::nullopt;
}

std::optional<double> Reading::number(const Given& given, Limits limits) {
  const YamlNode* node = text_node(given);
  if (node == nullptr) return std::nullopt;
  const auto value = parse_decimal(node->text);
  if (!value) {
    not_a_number(given, node->text);
    return std::nullopt;
  }
  return in_limits(given, *value, limits, *value, {});
}

std::optional<int> Reading::whole(const Given& given, Limits limits) {
  const YamlNode* node = text_node(given);
  if (node == nullptr) return std::nullopt;
  const auto value = parse_whole(node->text);
  if (!value) {
    if (parse_decimal(node->text)) {
      error(node->at, "orchard.not-a-number",
            fmt::format("'{}' is no whole number", shown(node->text)), std::string(given.expected),
            as_in(given));
    } else {
      not_a_number(given, node->text);
    }
    return std::nullopt;
  }
  if (!in_limits(given, *value, limits, *value, {})) return std::nullopt;
  return value;
}

std::optional<std::pair<double, std::string>> Reading::quantity(const Given& given,
                                                                std::string_view kind) {
  const YamlNode* node = text_node(given);
  if (node == nullptr) return std::nullopt;
  const WrittenQuantity written = split_quantity(node->text);
  const auto value = parse_decimal(written.number);
  if (!value) {
    not_a_number(given, written.number.empty() ? std::string_view(node->text) : written.number);
    return std::nullopt;
  }
  if (written.unit.empty()) return std::pair(*value, std::string());
  std::string unit = unit_named(kind, written.unit);
  if (unit.empty()) {
    error(node->at, "orchard.unknown-unit",
          fmt::format("'{}' has a unit that does not go here: '{}'", shown(node->text),
                      shown(written.unit)),
          fmt::format("{}; units: {}", given.expected, units_of(kind)), as_in(given));
    return std::nullopt;
  }
  return std::pair(*value, std::move(unit));
}

std::optional<double> Reading::degrees(const Given& given, Limits limits) {
  const auto found = quantity(given, "angle");
  if (!found) return std::nullopt;
  return in_limits(given, found->first, limits, found->first, {});
}

std::optional<Metres> Reading::length(const Given& given, Limits metres) {
  const auto found = quantity(given, "length");
  if (!found) return std::nullopt;
  const Metres length = length_in(found->first, found->second);
  if (!in_limits(given, length.metres(), metres, found->first, "m")) return std::nullopt;
  return length;
}

std::optional<CelsiusDelta> Reading::temperature_difference(const Given& given, Limits celsius) {
  const auto found = quantity(given, "temperature_difference");
  if (!found) return std::nullopt;
  const CelsiusDelta difference = temperature_difference_in(found->first, found->second);
  if (!in_limits(given, difference.degrees(), celsius, found->first, "°C")) return std::nullopt;
  return difference;
}

std::optional<double> Reading::minutes(const Given& given, Limits limits) {
  const auto found = quantity(given, "time");
  if (!found) return std::nullopt;
  return in_limits(given, minutes_in(found->first, found->second), limits, found->first, "min");
}

std::optional<double> Reading::percent_as_share(const Given& given) {
  const auto found = quantity(given, "share");
  if (!found) return std::nullopt;
  const double percent = found->first;
  if (found->second.empty() && percent > 0.0 && percent < 1.0) {
    error(given.node.at, "orchard.out-of-range",
          fmt::format("'{}' could be {:g} % or {:g} %", shown(given.node.text), percent,
                      percent * 100.0),
          std::string(given.expected),
          fmt::format("write '{}: {:g} %'", given.key, percent * 100.0));
    return std::nullopt;
  }
  if (!in_limits(given, percent, {0.0, 100.0}, percent, "%")) return std::nullopt;
  return percent / 100.0;
}

std::optional<Range> Reading::range(const Given& given, Limits limits, std::string_view kind) {
  const YamlNode* node = text_node(given);
  if (node == nullptr) return std::nullopt;
  std::string_view written = node->text;
  // A unit may stand behind the whole range: "6500..7500 °C h".
  const std::size_t last_figure = written.find_last_of("0123456789");
  const std::string_view unit =
      last_figure == std::string_view::npos ? "" : split_quantity(written.substr(last_figure)).unit;
  if (!kind.empty() && !unit.empty() && !unit_named(kind, unit).empty())
    written = written.substr(0, last_figure + 1);
  const auto range = parse_range(written);
  if (!range) {
    error(node->at, "orchard.bad-range", fmt::format("'{}' is no range", shown(node->text)),
          std::string(given.expected), as_in(given));
    return std::nullopt;
  }
  if (range->low > range->high) {
    error(node->at, "orchard.bad-range",
          fmt::format("the range '{}' begins above its end", shown(node->text)),
          std::string(given.expected), fmt::format("write '{:g}..{:g}'", range->high, range->low));
    return std::nullopt;
  }
  const double outside = range->low < limits.low ? range->low : range->high;
  if (!in_limits(given, outside, limits, outside, {})) return std::nullopt;
  return range;
}

void Reading::bad_date(const Given& given, std::string_view kind) {
  const bool no_such_day = looks_like_a_date(given.node.text);
  error(given.node.at, "orchard.bad-date",
        fmt::format("'{}' is no {}", shown(given.node.text),
                    no_such_day ? "day of the calendar" : kind),
        std::string(given.expected), as_in(given));
}

std::optional<PartialDate> Reading::partial_date(const Given& given) {
  const YamlNode* node = text_node(given);
  if (node == nullptr) return std::nullopt;
  const auto date = parse_partial_date(node->text);
  if (!date) {
    bad_date(given, "date");
    return std::nullopt;
  }
  if (date->year < kFirstYear || date->year > kLastYear) {
    error(node->at, "orchard.bad-date",
          fmt::format("the year {:04} lies outside {} to {}", date->year, kFirstYear, kLastYear),
          std::string(given.expected), "correct the year");
    return std::nullopt;
  }
  return date;
}

std::optional<Date> Reading::date(const Given& given) {
  const auto date = partial_date(given);
  if (!date) return std::nullopt;
  if (!date->day) {
    error(given.node.at, "orchard.bad-date",
          fmt::format("'{}' names no day", shown(given.node.text)), std::string(given.expected),
          as_in(given));
    return std::nullopt;
  }
  return date->earliest();
}

std::optional<MonthDay> Reading::month_day(const Given& given) {
  const YamlNode* node = text_node(given);
  if (node == nullptr) return std::nullopt;
  const auto day = parse_month_day(node->text);
  if (!day) bad_date(given, "day of the year");
  return day;
}

std::optional<int> Reading::time_of_day(const Given& given) {
  const YamlNode* node = text_node(given);
  if (node == nullptr) return std::nullopt;
  const auto time = parse_time_of_day(node->text);
  if (!time) {
    error(node->at, "orchard.bad-time", fmt::format("'{}' is no time of day", shown(node->text)),
          std::string(given.expected), as_in(given));
  }
  return time;
}

std::optional<int> Reading::utc_offset(const Given& given) {
  const YamlNode* node = text_node(given);
  if (node == nullptr) return std::nullopt;
  const auto offset = parse_utc_offset(node->text);
  if (!offset) {
    error(node->at, "orchard.bad-offset",
          fmt::format("'{}' is no distance from UTC", shown(node->text)),
          std::string(given.expected), as_in(given));
  }
  return offset;
}

std::optional<std::string> Reading::id(const Given& given, int longest, std::string_view also) {
  const YamlNode* node = text_node(given);
  if (node == nullptr) return std::nullopt;
  const std::string& id = node->text;
  const auto fits = [also](char c) {
    return is_letter_or_digit(c) || c == '-' || also.find(c) != std::string_view::npos;
  };
  const auto odd = std::find_if_not(id.begin(), id.end(), fits);
  if (odd != id.end()) {
    const std::string_view rest =
        std::string_view(id).substr(static_cast<std::size_t>(odd - id.begin()));
    const std::string_view sign = rest.substr(0, std::max<std::size_t>(1, utf8_length(rest)));
    error(node->at, "orchard.bad-id",
          sign == " "
              ? fmt::format("'{}' has a space in it", shown(id))
              : fmt::format("'{}' has '{}' in it, which cannot stand in an id", shown(id), sign),
          std::string(given.expected), as_in(given));
    return std::nullopt;
  }
  if (static_cast<int>(id.size()) > longest || id[0] == '-') {
    error(node->at, "orchard.bad-id",
          id[0] == '-' ? fmt::format("'{}' begins with a hyphen", shown(id))
                       : fmt::format("'{}' has {} characters, and there is room for {}", shown(id),
                                     id.size(), longest),
          std::string(given.expected), as_in(given));
    return std::nullopt;
  }
  return id;
}

std::optional<std::string> Reading::file(const Given& given) {
  const auto path = text(given, 200);
  if (!path) return std::nullopt;
  const bool drive = path->size() > 1 && (*path)[1] == ':';
  const bool leaves = *path == ".." || path->starts_with("../") || path->ends_with("/..") ||
                      path->find("/../") != std::string::npos;
  const bool backslash = path->find('\\') != std::string::npos;
  if (path->starts_with('/') || path->starts_with('~') || drive || leaves || backslash) {
    error(given.node.at, "orchard.bad-path",
          backslash ? fmt::format("'{}' is written with backslashes", shown(*path))
                    : fmt::format("'{}' leads out of the folder of this file", shown(*path)),
          "a file in this file's folder or below it, with '/' between folders",
          backslash ? "write '/' for each backslash"
                    : "put the file beside this one and name it from here");
    return std::nullopt;
  }
  if (files_ != nullptr && !files_->is_file(*path)) {
    missing_file(given);
    return std::nullopt;
  }
  return path;
}

void Reading::missing_file(const Given& given) {
  const std::string& path = given.node.text;
  const std::size_t slash = path.rfind('/');
  const std::string folder = slash == std::string::npos ? "" : path.substr(0, slash);
  const std::string nearest = nearest_word(path.substr(slash + 1), files_->names_in(folder));
  const std::string there =
      nearest.empty() ? "" : (folder.empty() ? nearest : folder + "/" + nearest);
  if (there == path) {
    error(given.node.at, "orchard.no-such-file",
          fmt::format("'{}' is a folder, or a link that leads nowhere", shown(path)),
          "the name of a file, from this file's folder",
          "name a file in that folder, or mend the link");
    return;
  }
  error(given.node.at, "orchard.no-such-file",
        fmt::format("there is no file '{}' beside this one", shown(path)),
        "the name of a file that is there, from this file's folder" + did_you_mean(there),
        there.empty() ? "correct the name, or put the file there"
                      : fmt::format("write '{}: {}', or put the file there", given.key, there));
}

void Reading::unknown_word(const Given& given, const std::vector<std::string>& words) {
  const std::string nearest = nearest_word(given.node.text, words);
  error(given.node.at, "orchard.unknown-word",
        fmt::format("'{}' is not one of the words for '{}'", shown(given.node.text), given.key),
        one_of(given.expected, words, nearest),
        nearest.empty() ? as_in(given) : fmt::format("write '{}'", nearest));
}

const WordRow* Reading::word_of(const Given& given, const std::vector<WordRow>& table) {
  const YamlNode* node = text_node(given);
  if (node == nullptr) return nullptr;
  const WordRow* row = find_word(table, node->text);
  if (row == nullptr) unknown_word(given, first_words(table));
  return row;
}

}  // namespace winterfolio
