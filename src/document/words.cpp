#include "document/words.h"

#include <fmt/format.h>

#include <cmath>
#include <stdexcept>
#include <utility>

#include "base/csv_table.h"

namespace winterfolio {

namespace {

[[noreturn]] void fault(std::string_view what, std::string_view where) {
  throw std::logic_error(fmt::format("{} '{}'", what, where));
}

/// Capital of a first letter, for ASCII and the accented letters of Latin-1 (U+00E0 to U+00FE, but
/// ÷).
std::string capitalised(std::string word) {
  if (word.empty()) return word;
  const auto first = static_cast<unsigned char>(word[0]);
  if (first >= 'a' && first <= 'z') word[0] = static_cast<char>(first - 'a' + 'A');
  if (first == 0xC3 && word.size() > 1) {
    const auto second = static_cast<unsigned char>(word[1]);
    if (second >= 0xA0 && second <= 0xBE && second != 0xB7)
      word[1] = static_cast<char>(second - 0x20);
  }
  return word;
}

/// Splits at bars that stand outside braces.
std::vector<std::string_view> split_forms(std::string_view forms) {
  std::vector<std::string_view> parts;
  int depth = 0;
  std::size_t start = 0;
  for (std::size_t i = 0; i <= forms.size(); ++i) {
    if (i == forms.size() || (forms[i] == '|' && depth == 0)) {
      parts.push_back(forms.substr(start, i - start));
      start = i + 1;
    } else if (forms[i] == '{') {
      ++depth;
    } else if (forms[i] == '}') {
      --depth;
    }
  }
  return parts;
}

/// Where the brace that closes the one at `open` stands.
std::size_t closing_brace(std::string_view words, std::size_t open) {
  int depth = 0;
  for (std::size_t i = open; i < words.size(); ++i) {
    if (words[i] == '{') ++depth;
    if (words[i] == '}' && --depth == 0) return i;
  }
  return std::string_view::npos;
}

std::optional<DateForm> date_form_named(std::string_view name) {
  static constexpr std::pair<std::string_view, DateForm> kForms[] = {
      {"full", DateForm::full},
      {"weekday", DateForm::weekday},
      {"day-month", DateForm::day_month},
      {"weekday-month", DateForm::weekday_month},
      {"brief", DateForm::brief},
      {"month-year", DateForm::month_year},
      {"month", DateForm::month},
      {"month-brief", DateForm::month_brief},
      {"iso", DateForm::iso}};
  for (const auto& [id, form] : kForms)
    if (id == name) return form;
  return std::nullopt;
}

std::string_view id_of(DateForm form) {
  switch (form) {
    case DateForm::full:
      return "dates.full";
    case DateForm::weekday:
      return "dates.weekday";
    case DateForm::day_month:
      return "dates.day-month";
    case DateForm::weekday_month:
      return "dates.weekday-month";
    case DateForm::brief:
      return "dates.brief";
    case DateForm::month_year:
      return "dates.month-year";
    case DateForm::month:
      return "dates.month";
    case DateForm::month_brief:
      return "dates.month-brief";
    case DateForm::iso:
      return "dates.iso";
  }
  return "dates.full";
}

DateForm without_year(DateForm form) {
  if (form == DateForm::full) return DateForm::day_month;
  if (form == DateForm::weekday) return DateForm::weekday_month;
  if (form == DateForm::month_year) return DateForm::month;
  return form;
}

Text word_of(std::string text) { return literal(std::move(text)); }

}  // namespace

/// Writes expanded words into spans, keeping track of what is bold and what is quiet.
class Expander {
 public:
  explicit Expander(const Words& words) : words_(words) {}

  void text(const Text& text) {
    if (const auto* l = std::get_if<Literal>(&text.content)) {
      append(l->text);
      return;
    }
    const auto& message = std::get<Message>(text.content);
    if (message.id.empty()) return;
    expand(words_.entry(message.id), message.values, message.id);
  }

  void expand(std::string_view words, const std::vector<NamedValue>& values, std::string_view id) {
    const bool bold_outside = bold_, quiet_outside = quiet_;
    for (std::size_t i = 0; i < words.size(); ++i) {
      const char c = words[i];
      const bool doubled = i + 1 < words.size() && words[i + 1] == c;
      if ((c == '{' || c == '}' || c == '*' || c == '~') && doubled) {
        append(words.substr(i, 1));
        ++i;
      } else if (c == '*') {
        bold_ = bold_ == bold_outside ? true : bold_outside;
      } else if (c == '~') {
        quiet_ = quiet_ == quiet_outside ? true : quiet_outside;
      } else if (c == '{') {
        const std::size_t end = closing_brace(words, i);
        if (end == std::string_view::npos) fault("a brace is not closed in the words of", id);
        placeholder(words.substr(i + 1, end - i - 1), values, id);
        i = end;
      } else {
        std::size_t end = words.find_first_of("{}*~", i);
        if (end == std::string_view::npos) end = words.size();
        if (end == i) fault("a brace is not opened in the words of", id);
        append(words.substr(i, end - i));
        i = end - 1;
      }
    }
    bold_ = bold_outside;
    quiet_ = quiet_outside;
  }

  RichText take() { return std::move(spans_); }

 private:
  void append(std::string_view text) {
    if (text.empty()) return;
    std::string piece(text);
    if (capital_) piece = capitalised(std::move(piece));
    capital_ = false;
    if (!spans_.empty() && spans_.back().bold == bold_ && spans_.back().quiet == quiet_)
      spans_.back().text += piece;
    else
      spans_.push_back({std::move(piece), bold_, quiet_});
  }

  void placeholder(std::string_view inside, const std::vector<NamedValue>& values,
                   std::string_view id) {
    if (!inside.empty() && inside.front() == '^') {
      capital_ = true;
      inside.remove_prefix(1);
    }
    const std::size_t mark = inside.find_first_of(":?");
    const std::string_view name = inside.substr(0, mark);
    const std::string_view rest = mark == std::string_view::npos ? "" : inside.substr(mark + 1);
    for (const NamedValue& value : values) {
      if (value.name != name) continue;
      if (mark != std::string_view::npos && inside[mark] == '?')
        expand(choose(rest, value.value, id), values, id);
      else
        this->value(value.value, rest);
      capital_ = false;
      return;
    }
    fault(fmt::format("no value '{}' was given to the words of", name), id);
  }

  /// The one of the forms that a count asks for: an exact "=3 ..." first, then singular and plural.
  std::string_view choose(std::string_view forms, const Value& value, std::string_view id) const {
    const bool one = is_one(value);
    const auto* count = std::get_if<Count>(&value);
    std::vector<std::string_view> plurals;
    for (std::string_view form : split_forms(forms)) {
      if (!form.starts_with('=')) {
        plurals.push_back(form);
        continue;
      }
      const std::size_t blank = form.find(' ');
      const auto exact = parse_integer(form.substr(1, blank - 1));
      if (!exact) fault("'=' without a number in the words of", id);
      if (count && count->value == *exact)
        return blank == std::string_view::npos ? std::string_view() : form.substr(blank + 1);
    }
    if (plurals.size() != 2) fault("not two plural forms in the words of", id);
    return plurals[one ? 0 : 1];
  }

  /// Whether the value as printed asks for the singular.
  bool is_one(const Value& value) const {
    if (const auto* count = std::get_if<Count>(&value)) return count->value == 1;
    if (const auto* n = std::get_if<Number>(&value))
      return words_.number(n->value, n->decimals) == "1";
    if (const auto* r = std::get_if<NumberRange>(&value))
      return words_.number_range(r->low, r->high, r->decimals) == "1";
    if (const auto* list = std::get_if<TextList>(&value)) return list->items.size() == 1;
    return false;
  }

  void value(const Value& value, std::string_view form) {
    if (const auto* count = std::get_if<Count>(&value)) {
      append(count_text(count->value, form));
    } else if (const auto* n = std::get_if<Number>(&value)) {
      append(words_.number(n->value, n->decimals, n->unit));
    } else if (const auto* r = std::get_if<NumberRange>(&value)) {
      append(words_.number_range(r->low, r->high, r->decimals, r->unit));
    } else if (const auto* d = std::get_if<Day>(&value)) {
      append(words_.date(d->date, date_form(form, d->form)));
    } else if (const auto* dr = std::get_if<DayRange>(&value)) {
      append(words_.date_range(dr->from, dr->to, date_form(form, dr->form)));
    } else if (const auto* h = std::get_if<HourOfDay>(&value)) {
      hour(*h);
    } else if (const auto* w = std::get_if<WinterYears>(&value)) {
      append(words_.winter(*w));
    } else if (const auto* t = std::get_if<Text>(&value)) {
      text(*t);
    } else {
      list(std::get<TextList>(value));
    }
  }

  std::string count_text(long count, std::string_view form) const {
    if (form == "word") return words_.count_word(count);
    if (form == "spelled") return words_.count_spelled(count);
    if (form == "ordinal") return words_.ordinal(count);
    if (!form.empty()) fault("no such form of a count:", form);
    return words_.number(static_cast<double>(count));
  }

  static DateForm date_form(std::string_view name, DateForm otherwise) {
    if (name.empty()) return otherwise;
    const auto form = date_form_named(name);
    if (!form) fault("no such form of a date:", name);
    return *form;
  }

  void hour(const HourOfDay& hour) {
    const std::string time = words_.hour(hour.hour.hour_of_day());
    if (!hour.day) {
      append(time);
      return;
    }
    expand(words_.entry("times.with-day"),
           {{"day", word_of(words_.date(hour.hour.date(), *hour.day))}, {"time", word_of(time)}},
           "times.with-day");
  }

  void list(const TextList& list) {
    for (std::size_t i = 0; i < list.items.size(); ++i) {
      if (i > 0) {
        const bool last = i + 1 == list.items.size();
        const char* joint = !last || list.joined == TextList::Joined::plain ? "lists.comma"
                            : list.joined == TextList::Joined::with_and     ? "lists.and"
                                                                            : "lists.or";
        append(words_.entry(joint));
      }
      text(list.items[i]);
    }
  }

  const Words& words_;
  RichText spans_;
  bool bold_ = false;
  bool quiet_ = false;
  bool capital_ = false;
};

namespace {

std::string joined(const RichText& rich) {
  std::string text;
  for (const Span& span : rich) text += span.text;
  return text;
}

std::string expanded(const Words& words, std::string_view pattern, std::vector<NamedValue> values,
                     std::string_view id) {
  Expander expander(words);
  expander.expand(pattern, values, id);
  return joined(expander.take());
}

}  // namespace

Words::Words(std::string language, Entries entries)
    : language_(std::move(language)), entries_(std::move(entries)) {}

bool Words::has(std::string_view id) const { return entries_.contains(std::string(id)); }

bool Words::has_family(std::string_view family) const {
  for (const auto& [id, words] : entries_)
    if (id.size() > family.size() && id.starts_with(family) && id[family.size()] == '.')
      return true;
  return false;
}

const std::string& Words::entry(std::string_view id) const {
  const auto found = entries_.find(std::string(id));
  if (found == entries_.end()) fault("no words for", id);
  return found->second;
}

const std::string& Words::member(std::string_view family, long index) const {
  return entry(fmt::format("{}.{}", family, index));
}

RichText Words::rich(const Text& text) const {
  Expander expander(*this);
  expander.text(text);
  return expander.take();
}

std::string Words::plain(const Text& text) const { return joined(rich(text)); }

std::string Words::month(unsigned month) const {
  return member("months.long", static_cast<long>(month));
}

std::string Words::month_brief(unsigned month) const {
  return member("months.brief", static_cast<long>(month));
}

std::string Words::date(Date date, DateForm form) const {
  if (!date.ok()) throw std::logic_error("a day that does not exist was to be printed");
  if (form == DateForm::iso) return iso_date(date);
  const unsigned m = static_cast<unsigned>(date.month());
  const unsigned weekday = std::chrono::weekday(std::chrono::sys_days(date)).iso_encoding();
  const std::string_view id = id_of(form);
  return expanded(*this, entry(id),
                  {{"day", word_of(fmt::format("{}", static_cast<unsigned>(date.day())))},
                   {"month", word_of(month(m))},
                   {"mon", word_of(month_brief(m))},
                   {"year", word_of(fmt::format("{}", static_cast<int>(date.year())))},
                   {"weekday", word_of(member("weekdays", static_cast<long>(weekday)))}},
                  id);
}

std::string Words::date_range(Date from, Date to, DateForm form) const {
  const std::string last = date(to, form);
  if (from == to || date(from, form) == last) return last;
  const bool same_year = from.year() == to.year();
  const bool names_day_first =
      form == DateForm::full || form == DateForm::day_month || form == DateForm::brief;
  if (same_year && from.month() == to.month() && names_day_first) {
    const std::string first = fmt::format("{}", static_cast<unsigned>(from.day()));
    return expanded(*this, entry("dates.range-days"),
                    {{"first", word_of(first)}, {"last", word_of(last)}}, "dates.range-days");
  }
  const std::string first = date(from, same_year ? without_year(form) : form);
  const bool brief = form == DateForm::brief || form == DateForm::month_brief;
  const std::string_view id = brief ? "dates.range-brief" : "dates.range";
  return expanded(*this, entry(id), {{"first", word_of(first)}, {"last", word_of(last)}}, id);
}

std::string Words::hour(int hour_of_day) const {
  if (hour_of_day == 0 || hour_of_day == 24) return entry("times.midnight");
  if (hour_of_day == 12) return entry("times.noon");
  const int twelve = hour_of_day % 12;
  const std::string_view id = hour_of_day < 12 ? "times.morning" : "times.afternoon";
  return expanded(*this, entry(id),
                  {{"n", word_of(fmt::format("{}", twelve))},
                   {"hour", word_of(fmt::format("{}", hour_of_day))}},
                  id);
}

std::string Words::winter(WinterYears winter) const {
  if (winter.within_one_year) return fmt::format("{}", winter.began);
  return expanded(*this, entry("dates.winter"),
                  {{"first", word_of(fmt::format("{}", winter.began))},
                   {"last", word_of(fmt::format("{:02}", (winter.began + 1) % 100))}},
                  "dates.winter");
}

namespace {

/// Digits with the language's marks; "-0.0" is 0.
std::string digits(const Words::Entries& entries, double value, int decimals) {
  std::string plain = fmt::format("{:.{}f}", std::fabs(value), decimals);
  const bool zero = plain.find_first_not_of("0.") == std::string::npos;
  const std::size_t point = plain.find('.');
  std::string whole = plain.substr(0, point);
  const std::string& thousands = entries.at("numbers.thousands");
  for (std::size_t i = whole.size(); i > 3; i -= 3) whole.insert(i - 3, thousands);
  std::string text = value < 0 && !zero ? entries.at("numbers.minus") : "";
  text += whole;
  if (point != std::string::npos) text += entries.at("numbers.decimal") + plain.substr(point + 1);
  return text;
}

}  // namespace

std::string Words::number(double value, int decimals, std::string_view unit) const {
  if (!std::isfinite(value))
    throw std::logic_error("a number that is not finite was to be printed");
  const std::string n = digits(entries_, value, decimals);
  if (unit.empty()) return n;
  const std::string id = fmt::format("units.{}", unit);
  std::string text =
      expanded(*this, entry(id), {{"n", Count{n == "1" ? 1 : 2}}, {"amount", word_of(n)}}, id);
  return text;
}

std::string Words::number_range(double low, double high, int decimals,
                                std::string_view unit) const {
  if (!std::isfinite(low) || !std::isfinite(high))
    throw std::logic_error("a number that is not finite was to be printed");
  const std::string first = digits(entries_, low, decimals),
                    last = digits(entries_, high, decimals);
  if (first == last) return number(low, decimals, unit);
  const bool negative = low < 0 || high < 0;
  const std::string_view form = negative ? "numbers.range-negative" : "numbers.range";
  const std::string both =
      expanded(*this, entry(form), {{"low", word_of(first)}, {"high", word_of(last)}}, form);
  if (unit.empty()) return both;
  const std::string id = fmt::format("units.{}", unit);
  return expanded(*this, entry(id), {{"n", Count{2}}, {"amount", word_of(both)}}, id);
}

std::string Words::count_word(long value) const {
  return value >= 0 && value <= 12 ? count_spelled(value) : number(static_cast<double>(value));
}

std::string Words::count_spelled(long value) const {
  if (value < 0 || value > 99) return number(static_cast<double>(value));
  if (value < 20) return member("numbers.words", value + 1);
  const std::string& tens = member("numbers.tens", value / 10 - 1);
  if (value % 10 == 0) return tens;
  return expanded(
      *this, entry("numbers.tens-and-ones"),
      {{"tens", word_of(tens)}, {"ones", word_of(member("numbers.words", value % 10 + 1))}},
      "numbers.tens-and-ones");
}

std::string Words::ordinal(long value) const {
  if (value >= 1 && value <= 12) return member("numbers.ordinals", value);
  const long last = value % 10, last_two = value % 100;
  const bool teen = last_two >= 11 && last_two <= 13;
  const std::string_view id = !teen && last == 1   ? "numbers.ordinal-1"
                              : !teen && last == 2 ? "numbers.ordinal-2"
                              : !teen && last == 3 ? "numbers.ordinal-3"
                                                   : "numbers.ordinal-other";
  return expanded(*this, entry(id), {{"n", word_of(number(static_cast<double>(value)))}}, id);
}

}  // namespace winterfolio
