// Cuts a stamp into numbers and words, then finds out which of them are the date and which the
// time.
#include "readers/temperature/stamp.h"

#include <algorithm>
#include <map>
#include <string>
#include <vector>

#include "base/csv_table.h"
#include "base/dates.h"
#include "readers/temperature/fixed_number.h"
#include "readers/temperature/plain_words.h"

namespace winterfolio {
namespace {

constexpr int kFirstYear = 1700;
constexpr int kLastYear = 2200;
constexpr std::int32_t kDay = 86400;
constexpr std::size_t kLongestStamp = 64;

bool is_digit(char c) { return c >= '0' && c <= '9'; }
bool is_letter(char c) {
  return (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z') || static_cast<unsigned char>(c) >= 0x80;
}

struct MonthName {
  int month;
  std::string name;
};

const std::vector<MonthName>& month_names() {
  static const std::vector<MonthName> names = [] {
    std::vector<MonthName> list;
    for (const CsvRow row : CsvTable::embedded("src/readers/temperature/tables/month_names.csv")) {
      list.push_back({static_cast<int>(row.required_number("month")), row.text("name")});
    }
    // Longer names first, so that "cervenec" is not taken for "cerven".
    std::stable_sort(list.begin(), list.end(), [](const MonthName& a, const MonthName& b) {
      return a.name.size() > b.name.size();
    });
    return list;
  }();
  return names;
}

/// Signs of other scripts within dates and times, each with what stands for it in ours.
struct StampMark {
  std::string mark;
  std::string plain;
};

const std::vector<StampMark>& stamp_marks() {
  static const std::vector<StampMark> marks = [] {
    static const std::map<std::string, std::string> kPlain = {{"dash", "-"},  {"slash", "/"},
                                                              {"colon", ":"}, {"blank", " "},
                                                              {"am", " am "}, {"pm", " pm "}};
    std::vector<StampMark> list;
    for (const CsvRow row : CsvTable::embedded("src/readers/temperature/tables/stamp_marks.csv"))
      list.push_back({row.text("mark"), kPlain.at(row.text("stands_for"))});
    return list;
  }();
  return marks;
}

/// A stamp as it would be written with dashes, colons and blanks. Most need nothing and are given
/// back as they are.
class PlainStamp {
 public:
  explicit PlainStamp(std::string_view text) : text_(text) {
    const auto other = [](char c) { return static_cast<unsigned char>(c) >= 0x80; };
    if (text.size() > kLongestStamp * 2 || std::none_of(text.begin(), text.end(), other)) return;
    for (std::size_t i = 0; i < text.size();) {
      const StampMark* const mark = other(text[i]) ? mark_at(text.substr(i)) : nullptr;
      changed_ += mark != nullptr ? std::string_view(mark->plain) : text.substr(i, 1);
      i += mark != nullptr ? mark->mark.size() : 1;
      // "6時 30分": what follows belongs to it.
      while (mark != nullptr && mark->plain == ":" && i < text.size() && text[i] == ' ') ++i;
    }
    text_ = trimmed(changed_);
  }
  PlainStamp(const PlainStamp&) = delete;
  PlainStamp& operator=(const PlainStamp&) = delete;
  std::string_view text() const { return text_; }

 private:
  static const StampMark* mark_at(std::string_view text) {
    for (const StampMark& one : stamp_marks()) {
      if (text.substr(0, one.mark.size()) == one.mark) return &one;
    }
    return nullptr;
  }

  std::string changed_;
  std::string_view text_;
};

/// A run of digits or a word of a stamp, with the character just before it.
struct Token {
  bool number = false;
  std::int64_t value = 0;  ///< of a number
  int width = 0;           ///< digits or letters
  std::string_view text;
  char before = 0;  ///< the last separator before it; 0 if there is none
  bool blank_before = false;
};

class Tokens {
 public:
  /// False if there are more than a stamp can have, or a number that no stamp has.
  bool cut(std::string_view text) {
    constexpr std::size_t kLongestNumber = 14;
    if (text.empty() || text.size() > kLongestStamp) return false;
    char before = 0;
    bool blank = false;
    for (std::size_t i = 0; i < text.size();) {
      const char c = text[i];
      if (!is_digit(c) && !is_letter(c)) {
        // Marks that stand between columns, or in other things than dates.
        if (std::string_view(";|=<>&%*#@!?").find(c) != std::string_view::npos) return false;
        if (c == ' ' || c == '\t')
          blank = true;
        else
          before = c;
        ++i;
        continue;
      }
      if (count_ == list_.size()) return false;
      Token& token = list_[count_++];
      token = Token{is_digit(c), 0, 0, {}, before, blank};
      std::size_t end = i;
      while (end < text.size() && (token.number ? is_digit(text[end]) : is_letter(text[end]))) {
        if (token.number) token.value = token.value * 10 + (text[end] - '0');
        ++end;
        if (token.number && end - i > kLongestNumber) return false;
      }
      token.width = static_cast<int>(end - i);
      token.text = text.substr(i, end - i);
      before = 0;
      blank = false;
      i = end;
    }
    trailing_ = before;
    return count_ > 0;
  }
  std::size_t size() const { return count_; }
  const Token& operator[](std::size_t i) const { return list_[i]; }
  char trailing() const { return trailing_; }

 private:
  std::array<Token, 14> list_;
  std::size_t count_ = 0;
  char trailing_ = 0;
};

int full_year(std::int64_t year, int width) {
  if (width <= 2) return static_cast<int>(year < 70 ? 2000 + year : 1900 + year);
  return static_cast<int>(year);
}

ParsedDate in_orders(const Token& a, const Token& b, const Token& c) {
  ParsedDate date;
  const auto offer = [&](DateOrder order, const Token& y, const Token& m, const Token& d) {
    if (m.width > 2 || d.width > 2 || y.width == 3 || y.width > 4) return;
    const auto day = day_number(full_year(y.value, y.width), static_cast<int>(m.value),
                                static_cast<int>(d.value));
    if (!day) return;
    date.orders = date.orders | DateOrders::only(order);
    date.day[static_cast<std::size_t>(order)] = *day;
  };
  if (a.width == 4) {
    if (const auto day = day_number(static_cast<int>(a.value), static_cast<int>(b.value),
                                    static_cast<int>(c.value));
        day && b.width <= 2 && c.width <= 2) {
      return ParsedDate::certain(*day);
    }
    return date;
  }
  if (c.width != 4 && c.before != '.') offer(DateOrder::ymd, a, b, c);
  offer(DateOrder::dmy, c, b, a);
  // A date with points is never written month first.
  if (c.before != '.') offer(DateOrder::mdy, c, a, b);
  std::optional<std::int32_t> first;
  for (const DateOrder order : kDateOrders) {
    if (!date.orders.has(order)) continue;
    if (first && date.in(order) != *first) date.matters = true;
    first = date.in(order);
  }
  return date;
}

/// A number without separators: a date, a date with its time, or seconds since 1970.
std::optional<ParsedStamp> compact(const Token& token) {
  const std::int64_t v = token.value;
  ParsedStamp stamp;
  const auto date_of_digits = [](std::int64_t yyyymmdd) {
    return day_number(static_cast<int>(yyyymmdd / 10000), static_cast<int>(yyyymmdd / 100 % 100),
                      static_cast<int>(yyyymmdd % 100));
  };
  const auto clock = [&](std::int64_t hour, std::int64_t minute, std::int64_t second) {
    const std::int64_t total = hour * 3600 + minute * 60 + second;
    if (minute > 59 || second > 59 || total > kDay) return false;
    stamp.second_of_day = static_cast<std::int32_t>(total);
    return true;
  };
  const auto with_date = [&](std::optional<std::int32_t> day) {
    if (day) stamp.date = ParsedDate::certain(*day);
    return day.has_value();
  };
  switch (token.width) {
    case 7:
      if (with_date(day_number(static_cast<int>(v / 1000), static_cast<int>(v % 1000))))
        return stamp;
      return std::nullopt;
    case 8:
      if (with_date(date_of_digits(v))) return stamp;
      return std::nullopt;
    case 10:
      // Eighteen-hundreds with an hour would be seconds since 1970 of our own days.
      if (v / 1000000 >= 1900 && with_date(date_of_digits(v / 100)) && clock(v % 100, 0, 0))
        return stamp;
      break;
    case 12:
      if (with_date(date_of_digits(v / 10000)) && clock(v / 100 % 100, v % 100, 0)) return stamp;
      return std::nullopt;
    case 14:
      if (with_date(date_of_digits(v / 1000000)) && clock(v / 10000 % 100, v / 100 % 100, v % 100))
        return stamp;
      return std::nullopt;
    default:
      break;
  }
  if (token.width != 9 && token.width != 10 && token.width != 13) return std::nullopt;
  const std::int64_t seconds = token.width == 13 ? v / 1000 : v;
  constexpr std::int64_t kYear2100 = 4102444800;
  if (seconds > kYear2100) return std::nullopt;
  stamp.date = ParsedDate::certain(static_cast<std::int32_t>(seconds / kDay));
  stamp.second_of_day = static_cast<std::int32_t>(seconds % kDay);
  stamp.offset = 0;
  return stamp;
}

enum class HalfDay { unknown, none, morning, afternoon };

/// What a word beside a time says of it; unknown if it is no such word.
HalfDay half_day(std::string_view word) {
  static const std::map<std::string, HalfDay> words = [] {
    std::map<std::string, HalfDay> table;
    for (const CsvRow row :
         CsvTable::embedded("src/readers/temperature/tables/half_day_words.csv")) {
      const std::string half = row.text("half");
      table[row.text("word")] = half == "am"   ? HalfDay::morning
                                : half == "pm" ? HalfDay::afternoon
                                               : HalfDay::none;
    }
    return table;
  }();
  std::string plain = plain_word(word);
  if (plain.substr(0, 1) == "?") plain.erase(0, 1);  // a narrow blank before it
  const auto found = words.find(plain);
  return found == words.end() ? HalfDay::unknown : found->second;
}

bool is_weekday(std::string_view word) {
  static constexpr std::array<std::string_view, 14> kDays = {
      "mon", "tue", "wed", "thu", "fri", "sat", "sun", "mo", "di", "mi", "do", "fr", "sa", "so"};
  const std::string plain = plain_word(word);
  return std::any_of(kDays.begin(), kDays.end(), [&](std::string_view day) {
    return plain == day || (day.size() == 3 && plain.substr(0, 3) == day);
  });
}

/// Hours, minutes and seconds from token `i` on; also the offset from UTC behind them. All tokens
/// must be used up.
bool read_clock(const Tokens& tokens, std::size_t i, ParsedStamp& stamp) {
  if (i == tokens.size()) return true;
  HalfDay half = HalfDay::none;
  // Some languages name the half of the day before the time.
  for (; i < tokens.size() && !tokens[i].number && half == HalfDay::none; ++i) {
    half = half_day(tokens[i].text);
    if (half == HalfDay::unknown) return false;
  }
  if (i == tokens.size()) return false;
  const Token& first = tokens[i];
  if (!first.number) return false;
  std::int64_t hour = first.value;
  std::int64_t minute = 0;
  std::int64_t second = 0;
  ++i;
  if (first.width == 4 || first.width == 6) {
    if (first.width == 6) {
      second = hour % 100;
      hour /= 100;
    }
    minute = hour % 100;
    hour /= 100;
  } else if (first.width <= 2) {
    if (i < tokens.size() && !tokens[i].number && plain_word(tokens[i].text) == "h") ++i;
    const auto continues = [&] {
      return i < tokens.size() && tokens[i].number && tokens[i].width == 2 &&
             !tokens[i].blank_before &&
             (tokens[i].before == ':' || tokens[i].before == '.' || tokens[i].before == 0);
    };
    if (continues()) {
      minute = tokens[i++].value;
      if (continues()) second = tokens[i++].value;
    }
  } else {
    return false;
  }
  // Fractions of a second are dropped.
  if (i < tokens.size() && tokens[i].number &&
      (tokens[i].before == '.' || tokens[i].before == ',') && !tokens[i].blank_before) {
    ++i;
  }
  if (half == HalfDay::none && i < tokens.size() && !tokens[i].number) {
    const HalfDay behind = half_day(tokens[i].text);
    if (behind == HalfDay::morning || behind == HalfDay::afternoon) {
      half = behind;
      ++i;
      // "a.m." comes as two words.
      if (i < tokens.size() && !tokens[i].number && plain_word(tokens[i].text) == "m") ++i;
    }
  }
  if (half != HalfDay::none) {
    if (hour < 1 || hour > 12) return false;
    hour = hour % 12 + (half == HalfDay::afternoon ? 12 : 0);
  }
  const std::int64_t total = hour * 3600 + minute * 60 + second;
  if (minute > 59 || second > 60 || total > kDay) return false;
  stamp.second_of_day = static_cast<std::int32_t>(std::min<std::int64_t>(total, kDay));
  if (i == tokens.size()) return true;
  if (!tokens[i].number) {
    const std::string word = plain_word(tokens[i].text);
    if (const ZoneLetters* const letters = zone_lettered(word)) {
      stamp.offset = letters->meanings.front().minutes * 60;
      stamp.letters = letters->meanings.size() > 1 ? letters : nullptr;
      ++i;
    } else if (word == "uhr" || word == "h") {
      ++i;
    } else {
      return false;
    }
    if (i == tokens.size()) return true;
  }
  const Token& zone = tokens[i];
  if (!zone.number || (zone.before != '+' && zone.before != '-')) return false;
  std::int64_t offset =
      zone.width == 4 ? zone.value / 100 * 60 + zone.value % 100 : zone.value * 60;
  if (zone.width > 4 || zone.width == 3) return false;
  ++i;
  if (i < tokens.size() && tokens[i].number && tokens[i].before == ':') offset += tokens[i++].value;
  if (i != tokens.size() || offset > 15 * 60) return false;
  stamp.offset = static_cast<std::int32_t>(offset * 60) * (zone.before == '-' ? -1 : 1);
  stamp.letters = nullptr;  // "GMT+01:00": figures say it for certain
  return true;
}

/// The date of tokens from `i` on; moves `i` behind it.
bool read_date(const Tokens& tokens, std::size_t& i, ParsedStamp& stamp) {
  while (i < tokens.size() && !tokens[i].number && is_weekday(tokens[i].text) &&
         month_named(tokens[i].text) == 0)
    ++i;
  const std::size_t left = tokens.size() - i;
  if (left == 0) return false;
  const Token& a = tokens[i];
  // "1 January 2026", "01-jan-26"
  const bool word_between = left >= 3 && a.number && !tokens[i + 1].number && tokens[i + 2].number;
  if (const int month = word_between ? month_named(tokens[i + 1].text) : 0; month != 0) {
    if (a.width == 3 || a.width > 4) return false;
    const Token& c = tokens[i + 2];
    const bool year_first = a.width == 4;
    const auto day =
        year_first ? day_number(static_cast<int>(a.value), month, static_cast<int>(c.value))
                   : day_number(full_year(c.value, c.width), month, static_cast<int>(a.value));
    if (!day || (year_first ? c.width > 2 : c.width > 4)) return false;
    stamp.date = ParsedDate::certain(*day);
    i += 3;
    return true;
  }
  // "January 1, 2026"
  if (left >= 3 && !a.number && tokens[i + 1].number && tokens[i + 2].number &&
      tokens[i + 1].width <= 2) {
    const int month = month_named(a.text);
    const Token& year = tokens[i + 2];
    const auto day =
        day_number(full_year(year.value, year.width), month, static_cast<int>(tokens[i + 1].value));
    if (month == 0 || !day || year.width > 4) return false;
    stamp.date = ParsedDate::certain(*day);
    i += 3;
    return true;
  }
  if (!a.number) return false;
  if (a.width >= 7) {
    const auto whole = compact(a);
    if (!whole) return false;
    // Seconds since 1970 may have a fraction.
    const bool fraction =
        left == 2 && whole->offset && tokens[i + 1].number && tokens[i + 1].before == '.';
    if (whole->second_of_day && left > 1 && !fraction) return false;
    stamp = *whole;
    i += fraction ? 2 : 1;
    return true;
  }
  // "2026-032": the day of the year
  if (left >= 2 && a.width == 4 && tokens[i + 1].number && tokens[i + 1].width == 3) {
    const auto day = day_number(static_cast<int>(a.value), static_cast<int>(tokens[i + 1].value));
    if (!day) return false;
    stamp.date = ParsedDate::certain(*day);
    i += 2;
    return true;
  }
  if (left < 3 || !tokens[i + 1].number || !tokens[i + 2].number) return false;
  // A date's numbers hang together by one separator; blanks only where the year comes first and is
  // whole.
  const Token& b = tokens[i + 1];
  const Token& c = tokens[i + 2];
  if (b.before == ':' || c.before == ':' || b.before != c.before) return false;
  if (b.before == 0 && !(a.width == 4 && b.blank_before && c.blank_before)) return false;
  if (b.before == ',' || b.before == '+') return false;
  stamp.date = in_orders(a, b, c);
  i += 3;
  return !stamp.date.orders.empty();
}

}  // namespace

const ZoneLetters* zone_lettered(std::string_view letters) {
  static const std::map<std::string, ZoneLetters> known = [] {
    std::map<std::string, ZoneLetters> table;
    for (const CsvRow row :
         CsvTable::embedded("src/readers/temperature/tables/zone_abbreviations.csv")) {
      ZoneLetters& entry = table[row.text("letters")];
      entry.letters = row.text("letters");
      for (char& c : entry.letters) c = static_cast<char>(c >= 'a' && c <= 'z' ? c - 32 : c);
      entry.meanings.push_back(
          {static_cast<int>(row.required_number("minutes")), row.text("zone")});
    }
    return table;
  }();
  const auto found = known.find(plain_word(letters));
  return found == known.end() ? nullptr : &found->second;
}

std::string_view id_of(DateOrder order) {
  static constexpr std::array<std::string_view, 3> kIds = {"ymd", "dmy", "mdy"};
  return kIds.at(static_cast<std::size_t>(order));
}

ParsedDate ParsedDate::certain(std::int32_t days_since_1970) {
  ParsedDate date;
  date.orders = DateOrders::all();
  date.day = {days_since_1970, days_since_1970, days_since_1970};
  return date;
}

std::optional<std::int32_t> day_number(int year, int month, int day) {
  if (year < kFirstYear || year > kLastYear || month < 1 || month > 12 || day < 1 || day > 31)
    return std::nullopt;
  const Date date = date_of(year, static_cast<unsigned>(month), static_cast<unsigned>(day));
  if (!date.ok()) return std::nullopt;
  return static_cast<std::int32_t>(std::chrono::sys_days{date}.time_since_epoch().count());
}

std::optional<std::int32_t> day_number(int year, int of_year) {
  if (of_year < 1 || of_year > (is_leap_year(year) ? 366 : 365)) return std::nullopt;
  const auto first = day_number(year, 1, 1);
  if (!first) return std::nullopt;
  return *first + of_year - 1;
}

int month_named(std::string_view word) {
  constexpr std::size_t kShortest = 3;
  if (word.size() < kShortest) return 0;
  const std::string plain = plain_word(word);
  for (const MonthName& month : month_names()) {
    if (plain.size() >= month.name.size() && plain.compare(0, month.name.size(), month.name) == 0)
      return month.month;
  }
  return 0;
}

bool is_half_day(std::string_view text) {
  const PlainStamp whole(trimmed(text));
  std::string plain = plain_word(whole.text());
  std::erase(plain, '.');
  return plain == "am" || plain == "pm";
}

std::optional<std::int32_t> parse_clock_time(std::string_view text) {
  Tokens tokens;
  ParsedStamp stamp;
  const PlainStamp plain(trimmed(text));
  text = plain.text();
  // "06:00-07:00": an hour is named by its beginning.
  if (const std::size_t dash = text.find('-'); dash != std::string_view::npos && dash > 0 &&
                                               text.find(':') < dash &&
                                               text.find(':', dash) != std::string_view::npos) {
    text = trimmed(text.substr(0, dash));
  }
  if (!tokens.cut(text) || tokens[0].before != 0) return std::nullopt;
  // "600" and "30" minutes past midnight, as instruments without leading zeros write 06:00 and
  // 00:30.
  if (tokens.size() == 1 && tokens[0].number && tokens[0].width == 3) {
    const std::int64_t v = tokens[0].value;
    if (v % 100 > 59) return std::nullopt;
    return static_cast<std::int32_t>(v / 100 * 3600 + v % 100 * 60);
  }
  if (!read_clock(tokens, 0, stamp)) return std::nullopt;
  return stamp.second_of_day;
}

std::optional<ParsedStamp> parse_stamp(std::string_view text) {
  Tokens tokens;
  const PlainStamp plain(trimmed(text));
  if (!tokens.cut(plain.text()) || tokens[0].before != 0) return std::nullopt;
  ParsedStamp stamp;
  std::size_t i = 0;
  if (!read_date(tokens, i, stamp)) return std::nullopt;
  if (i < tokens.size() && !tokens[i].number && (tokens[i].width == 1) &&
      (tokens[i].text == "T" || tokens[i].text == "t"))
    ++i;
  if (!read_clock(tokens, i, stamp)) return std::nullopt;
  return stamp;
}

std::optional<ParsedStamp> parse_spreadsheet_serial(std::string_view text, char decimal_mark) {
  constexpr std::int64_t kFirst = 10000;
  constexpr std::int64_t kLast = 80000;
  constexpr std::int64_t kDaysTo1970 = 25569;
  const auto parts = parse_parts(trimmed(text), decimal_mark);
  if (!parts || *parts < kFirst * kPartsPerDegree || *parts > kLast * kPartsPerDegree)
    return std::nullopt;
  // Serials carry rounding of about a second; stamps are whole minutes.
  const double days = degrees_of(*parts);
  const auto minutes = static_cast<std::int64_t>(days * 1440.0 + 0.5);
  ParsedStamp stamp;
  stamp.date = ParsedDate::certain(static_cast<std::int32_t>(minutes / 1440 - kDaysTo1970));
  stamp.second_of_day = static_cast<std::int32_t>(minutes % 1440 * 60);
  return stamp;
}

}  // namespace winterfolio
