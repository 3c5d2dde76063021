// Looks each word of a header up and weighs what they say together.
#include "readers/temperature/header_words.h"

#include <algorithm>
#include <map>
#include <set>
#include <stdexcept>

#include "base/csv_table.h"
#include "readers/temperature/plain_words.h"

namespace winterfolio {
namespace {

/// word -> roles, as in the table.
const std::map<std::string, std::set<std::string>, std::less<>>& words() {
  static const auto map = [] {
    std::map<std::string, std::set<std::string>, std::less<>> all;
    for (const CsvRow row : CsvTable::embedded("src/readers/temperature/tables/header_words.csv")) {
      all[row.text("word")].insert(row.text("role"));
    }
    return all;
  }();
  return map;
}

bool is(const std::string& token, std::string_view role) {
  const auto found = words().find(token);
  return found != words().end() && found->second.count(std::string(role)) > 0;
}

bool is_word_character(char c) {
  return (c >= 'a' && c <= 'z') || (c >= '0' && c <= '9') || c == '*';
}
bool is_digit(char c) { return c >= '0' && c <= '9'; }

/// Before lower case hides them, capitals inside a word mark where a new one starts:
/// "HourlyDryBulbTemperature".
std::string with_camel_case_cut(std::string_view text) {
  std::string cut;
  for (std::size_t i = 0; i < text.size(); ++i) {
    const auto upper = [&](std::size_t k) {
      return k < text.size() && text[k] >= 'A' && text[k] <= 'Z';
    };
    const auto lower = [&](std::size_t k) {
      return k < text.size() && text[k] >= 'a' && text[k] <= 'z';
    };
    if (i > 1 && upper(i) && lower(i - 1) && lower(i - 2)) cut += ' ';
    cut += text[i];
  }
  return cut;
}

struct Counts {
  int temperature = 0, air = 0, minimum = 0, maximum = 0, whole_minimum = 0, whole_maximum = 0,
      other = 0, date = 0, time = 0, year = 0, month = 0, day = 0, hour = 0, minute = 0,
      day_of_year = 0, station = 0, flag = 0, utc = 0, local_standard = 0, known = 0, unknown = 0;
};

/// Languages that write words together: "Höchsttemperatur", "Bodentemperatur", "Mitteltemperatur".
/// What stands before the temperature is looked up by its beginning. False if the word is no such
/// one.
bool count_compound(const std::string& token, Counts& n) {
  constexpr std::string_view kStem = "temperat";
  const std::size_t at = token.find(kStem);
  if (at == std::string::npos || at == 0 || words().count(token) > 0) return false;
  const std::string before = token.substr(0, at);
  constexpr std::size_t kShortest = 3;
  const auto begins_with_a = [&](std::string_view role) {
    for (std::size_t length = kShortest; length <= before.size(); ++length) {
      if (is(before.substr(0, length), role)) return true;
    }
    return false;
  };
  ++n.temperature;
  ++n.known;
  n.other += begins_with_a("other");
  n.minimum += begins_with_a("minimum");
  n.maximum += begins_with_a("maximum");
  n.air += begins_with_a("air");
  return true;
}

Counts count(const std::vector<std::string>& tokens) {
  Counts n;
  for (const std::string& token : tokens) {
    if (count_compound(token, n)) continue;
    n.temperature += is(token, "temperature");
    n.air += is(token, "air");
    n.minimum += is(token, "minimum");
    n.maximum += is(token, "maximum");
    n.whole_minimum += is(token, "minimum_temperature");
    n.whole_maximum += is(token, "maximum_temperature");
    n.other += is(token, "other");
    n.date += is(token, "date");
    n.time += is(token, "time");
    n.year += is(token, "year");
    n.month += is(token, "month");
    n.day += is(token, "day");
    n.hour += is(token, "hour");
    n.minute += is(token, "minute");
    n.day_of_year += is(token, "day_of_year");
    n.station += is(token, "station");
    n.flag += is(token, "flag");
    n.utc += is(token, "utc");
    n.local_standard += is(token, "local_standard");
    (words().count(token) > 0 ? n.known : n.unknown) += 1;
  }
  return n;
}

std::optional<TemperatureUnit> unit_of_token(const std::string& token) {
  if (is(token, "celsius")) return TemperatureUnit::celsius;
  if (is(token, "fahrenheit")) return TemperatureUnit::fahrenheit;
  if (is(token, "kelvin")) return TemperatureUnit::kelvin;
  return std::nullopt;
}

/// The unit a temperature's header names: behind its words, or at the end of a code ("tmpf").
std::optional<TemperatureUnit> unit_in(const std::vector<std::string>& tokens) {
  for (std::size_t i = tokens.size(); i-- > 0;) {
    if (is(tokens[i], "celsius_code")) return TemperatureUnit::celsius;
    if (is(tokens[i], "fahrenheit_code")) return TemperatureUnit::fahrenheit;
    if (i == 0) break;  // a lone letter at the start is a symbol, not a unit
    if (const auto unit = unit_of_token(tokens[i])) return unit;
  }
  return std::nullopt;
}

std::optional<int> offset_in(const std::string& plain) {
  for (const std::string_view name : {"gmt", "utc"}) {
    std::size_t at = plain.find(name);
    if (at == std::string::npos) continue;
    at += name.size();
    while (at < plain.size() && plain[at] == ' ') ++at;
    if (at + 1 >= plain.size() || (plain[at] != '+' && plain[at] != '-') ||
        !is_digit(plain[at + 1]))
      continue;
    const int sign = plain[at] == '-' ? -1 : 1;
    int hours = 0;
    int minutes = 0;
    for (++at; at < plain.size() && is_digit(plain[at]) && hours < 10; ++at)
      hours = hours * 10 + (plain[at] - '0');
    if (at < plain.size() && plain[at] == ':') {
      for (++at; at < plain.size() && is_digit(plain[at]) && minutes < 10; ++at)
        minutes = minutes * 10 + (plain[at] - '0');
    }
    if (hours > 14 || minutes > 59) continue;
    return sign * (hours * 60 + minutes);
  }
  return std::nullopt;
}

std::optional<DateOrder> order_in(const std::string& plain) {
  std::string letters;
  for (const char c : plain) {
    if (c >= 'a' && c <= 'z') letters += c;
  }
  const auto has = [&](std::string_view order) { return letters.find(order) != std::string::npos; };
  if (has("yyyymmdd") || has("yymmdd") || has("jjjjmmtt") || has("aaaammjj")) return DateOrder::ymd;
  if (has("mmddyy")) return DateOrder::mdy;
  if (has("ddmmyy") || has("ttmmjj") || has("jjmmaa")) return DateOrder::dmy;
  return std::nullopt;
}

void weigh_temperature(const Counts& n, const std::vector<std::string>& tokens,
                       HeaderMeaning& meaning) {
  const bool minimum = n.whole_minimum > 0 || n.minimum > 0;
  const bool maximum = n.whole_maximum > 0 || n.maximum > 0;
  meaning.unit = unit_in(tokens);
  if (n.flag > 0 && !meaning.unit) {
    meaning.role = ColumnRole::flag;
    return;
  }
  if (n.other > 0 || (minimum && maximum)) {
    meaning.role = ColumnRole::other;
    return;
  }
  meaning.role = minimum   ? ColumnRole::minimum
                 : maximum ? ColumnRole::maximum
                           : ColumnRole::temperature;
  // Plain words beat one-letter codes; "air" beats none; words of unknown meaning make a column
  // less sure.
  const bool code = tokens.size() == 1 && tokens[0].size() == 1;
  meaning.rank = 10 + (n.air > 0 ? 5 : 0) - 3 * std::min(n.unknown, 2) - (code ? 4 : 0);
}

}  // namespace

std::vector<std::string> header_tokens(std::string_view cell) {
  const std::string plain = plain_word(with_camel_case_cut(cell));
  // Codes with an underscore inside stand in the table without it.
  std::vector<std::string> tokens;
  std::string token;
  for (const char c : plain) {
    if (is_word_character(c)) {
      token += c;
      continue;
    }
    if (!token.empty()) tokens.push_back(token);
    token.clear();
  }
  if (!token.empty()) tokens.push_back(token);
  return tokens;
}

std::optional<TemperatureUnit> unit_named(std::string_view cell) {
  std::vector<std::string> tokens = header_tokens(cell);
  std::erase_if(tokens, [](const std::string& token) {
    return is(token, "filler") && !unit_of_token(token);
  });
  if (tokens.size() != 1) return std::nullopt;
  return unit_of_token(tokens[0]);
}

bool names_units(std::string_view header_cell) {
  const std::vector<std::string> tokens = header_tokens(header_cell);
  return std::any_of(tokens.begin(), tokens.end(),
                     [](const std::string& token) { return is(token, "unit"); });
}

HeaderMeaning meaning_of(std::string_view header_cell) {
  HeaderMeaning meaning;
  const std::vector<std::string> tokens = header_tokens(header_cell);
  if (tokens.empty()) return meaning;
  const std::string plain = plain_word(header_cell);
  std::string joined;
  for (const std::string& token : tokens) joined += token;
  std::vector<std::string> looked_up = tokens;
  if (tokens.size() > 1 && words().count(joined) > 0) looked_up = {joined};
  const Counts n = count(looked_up);
  meaning.utc = n.utc > 0;
  meaning.local_standard = n.local_standard > 0;
  meaning.utc_offset_minutes = offset_in(plain);
  meaning.date_order = order_in(plain);
  meaning.tenths = plain.find("0.1 ") != std::string::npos ||
                   plain.find("1/10") != std::string::npos ||
                   plain.find("tenth") != std::string::npos;
  const bool temperature = n.temperature > 0 || n.whole_minimum > 0 || n.whole_maximum > 0;
  if (n.station > 0 && n.temperature == 0 && n.date == 0) {
    meaning.role = ColumnRole::station;
    meaning.rank = 10 - n.unknown;
  } else if (n.date > 0 && !temperature) {
    meaning.role = ColumnRole::date;
    meaning.rank = 10 + n.time - n.unknown;
  } else if (n.time > 0 && !temperature) {
    meaning.role = ColumnRole::time;
    meaning.rank = 10 - n.unknown;
  } else if (temperature) {
    weigh_temperature(n, looked_up, meaning);
  } else if (n.other > 0) {
    meaning.role = ColumnRole::other;
  } else if (n.day_of_year > 0) {
    meaning.role = ColumnRole::day_of_year;
  } else if (n.year > 0) {
    meaning.role = n.day > 0 ? ColumnRole::day_of_year : ColumnRole::year;
  } else if (n.minimum > 0 && n.maximum == 0) {
    meaning.role = ColumnRole::minimum;
    meaning.unit = unit_in(looked_up);
    meaning.rank = 4 - n.unknown;
  } else if (n.maximum > 0 && n.minimum == 0) {
    meaning.role = ColumnRole::maximum;
    meaning.unit = unit_in(looked_up);
    meaning.rank = 4 - n.unknown;
  } else if (looked_up.size() <= 2 && n.unknown == 0 && n.month > 0) {
    meaning.role = ColumnRole::month;
  } else if (looked_up.size() <= 2 && n.unknown == 0 && n.day > 0) {
    meaning.role = ColumnRole::day;
  } else if (looked_up.size() <= 3 && n.unknown == 0 && n.hour > 0) {
    meaning.role = ColumnRole::hour;
  } else if (looked_up.size() <= 2 && n.unknown == 0 && n.minute > 0) {
    meaning.role = ColumnRole::minute;
  } else if (n.flag > 0) {
    meaning.role = ColumnRole::flag;
  } else if (n.air > 0 && n.unknown == 0) {
    meaning.role = ColumnRole::temperature;
    meaning.unit = unit_in(looked_up);
    meaning.rank = meaning.unit ? 6 : 2;
  }
  return meaning;
}

}  // namespace winterfolio
