// Whether figures hold what a document prints.
//
// Every printed value must be found among the figures, to half a unit of the figure's last place,
// in the page's own units. Which figures may stand behind it says a table of rules:
//
//   message,value,figures
//   front.met,met,/verdicts/met
//   figure.likely,value,/cold/measures/*/to_come/at_end
//
// `figures` holds one or more patterns of JSON Pointers, blanks between; `*` is any one key or
// place. For a range a pattern names the map that holds both of its ends. Bare counts and numbers
// must have a rule, since a small number is soon found somewhere. Temperatures, lengths and shares,
// days, hours, winters and names without a rule are sought among all figures of their unit.
// "page-only" stands where a value is of the page itself, with the reason in the column beside it.
#pragma once

#include <cmath>
#include <map>
#include <optional>
#include <set>
#include <string>
#include <vector>

#include "base/csv_table.h"
#include "base/units.h"
#include "pruning/evidence.h"
#include "report/figure_tree.h"
#include "support/printed.h"

namespace winterfolio::test {

class HeldFigures {
 public:
  HeldFigures(const FigureNode& figures, const CsvTable& rules) {
    flatten(figures, "");
    for (const CsvRow row : rules)
      rules_[{row.text("message"), row.text("value")}] = words_of(row.text("figures"));
  }

  /// What of a printed value the figures do not hold; nothing where they hold all.
  std::optional<std::string> missing(const Printed& printed) {
    const std::vector<std::string>* patterns = rule_for(printed);
    if (patterns && patterns->front() == "page-only") return std::nullopt;
    const bool bare = is_bare(printed);
    if (bare && !patterns) return named(printed) + ": no rule says which figure stands behind it";
    const bool held =
        std::visit([&](const auto& value) { return holds(value, patterns); }, printed.value);
    if (held) return std::nullopt;
    return named(printed) + ": " + shown(printed) + " is not among the figures" +
           (patterns ? " " + patterns->front() : std::string());
  }

 private:
  struct Leaf {
    std::string path;
    FigureUnit unit;
    FigureNode::Value value;
  };

  void flatten(const FigureNode& node, const std::string& path) {
    if (node.is_map()) {
      for (const auto& [key, member] : node.members()) flatten(member, path + "/" + key);
    } else if (node.is_list()) {
      std::size_t i = 0;
      for (const FigureNode& item : node.items()) flatten(item, path + "/" + std::to_string(i++));
    } else if (node.known()) {
      leaves_.push_back({path, node.unit(), node.value()});
      if (const auto* text = std::get_if<std::string>(&node.value())) {
        by_text_[std::string(node.unit().id)].insert(*text);
        if (node.unit().id == "text") by_text_["text"].insert(without_codes(*text));
      }
    }
  }

  static std::vector<std::string> words_of(const std::string& text) {
    std::vector<std::string> words;
    for (std::size_t at = 0; at < text.size();) {
      const std::size_t end = std::min(text.find(' ', at), text.size());
      if (end > at) words.push_back(text.substr(at, end - at));
      at = end + 1;
    }
    return words;
  }

  /// A rule for the message itself, else for its family: "front.*" for "front.met".
  const std::vector<std::string>* rule_for(const Printed& printed) const {
    auto found = rules_.find({printed.message, printed.name});
    if (found == rules_.end()) {
      const std::string family = printed.message.substr(0, printed.message.rfind('.'));
      found = rules_.find({family + ".*", printed.name});
    }
    return found == rules_.end() ? nullptr : &found->second;
  }

  static bool is_bare(const Printed& printed) {
    if (const auto* number = std::get_if<Number>(&printed.value)) return number->unit.empty();
    if (const auto* range = std::get_if<NumberRange>(&printed.value)) return range->unit.empty();
    return std::holds_alternative<Count>(printed.value) ||
           std::holds_alternative<Drawn>(printed.value);
  }

  static bool fits(std::string_view pattern, std::string_view path) {
    while (!pattern.empty() && !path.empty()) {
      const auto part = [](std::string_view& text) {
        const std::size_t end = std::min(text.find('/', 1), text.size());
        const std::string_view first = text.substr(0, end);
        text.remove_prefix(end);
        return first;
      };
      const std::string_view wanted = part(pattern);
      const std::string_view there = part(path);
      if (wanted != "/*" && wanted != there) return false;
    }
    return pattern.empty() && path.empty();
  }

  const std::vector<const Leaf*>& leaves_of(const std::string& pattern) {
    const auto known = by_pattern_.find(pattern);
    if (known != by_pattern_.end()) return known->second;
    std::vector<const Leaf*>& found = by_pattern_[pattern];
    for (const Leaf& leaf : leaves_) {
      if (fits(pattern, leaf.path)) found.push_back(&leaf);
    }
    return found;
  }

  /// The leaves a value may be, by its patterns, else all of a unit.
  std::vector<const Leaf*> candidates(const std::vector<std::string>* patterns,
                                      std::string_view unit) {
    std::vector<const Leaf*> found;
    if (patterns) {
      for (const std::string& pattern : *patterns) {
        const auto& more = leaves_of(pattern);
        found.insert(found.end(), more.begin(), more.end());
      }
      return found;
    }
    for (const Leaf& leaf : leaves_) {
      if (leaf.unit.id == unit) found.push_back(&leaf);
    }
    return found;
  }

  static std::optional<double> number_of(const Leaf& leaf) {
    if (const auto* whole = std::get_if<std::int64_t>(&leaf.value))
      return static_cast<double>(*whole);
    if (const auto* amount = std::get_if<double>(&leaf.value)) return *amount;
    return std::nullopt;
  }

  /// A printed number as the figures count it: what one is told in, in what the other is.
  static double in_units_of_figures(double value, const std::string& unit) {
    if (unit == "fahrenheit") return (value - 32.0) / 1.8;
    if (unit == "feet") return Metres::from_feet(value).metres();
    return value;
  }
  static std::string_view unit_of_figures(const std::string& unit) {
    if (unit == "fahrenheit") return "celsius";
    if (unit == "feet") return "metres";
    return unit;
  }

  static bool is(const Leaf& leaf, double value) {
    const auto figure = number_of(leaf);
    const double half = 0.5 * std::pow(10.0, -leaf.unit.decimals);
    return figure && std::abs(*figure - value) <= half * (1.0 + 1e-4) + 1e-9;
  }

  bool holds_number(double value, const std::vector<std::string>* patterns, std::string_view unit) {
    for (const Leaf* leaf : candidates(patterns, unit)) {
      if (is(*leaf, value)) return true;
    }
    return false;
  }

  bool holds(const Count& count, const std::vector<std::string>* patterns) {
    return holds_number(static_cast<double>(count.value), patterns, "");
  }
  bool holds(const Number& number, const std::vector<std::string>* patterns) {
    const double value = in_units_of_figures(number.value, number.unit);
    for (const Leaf* leaf : candidates(patterns, unit_of_figures(number.unit))) {
      if (is(*leaf, value)) return true;
      // A difference knows no 32.
      const bool difference = leaf->unit.id == "celsius_difference";
      if (difference && number.unit == "fahrenheit" && is(*leaf, number.value / 1.8)) return true;
      // On a scale that is named beside it; the day of the month alone, over a calendar.
      // What is told without its sign: "5 fewer".
      if (patterns && number.unit.empty() && value > 0.0 && is(*leaf, -value)) return true;
      const bool degrees = number.unit.empty() && leaf->unit.id == "celsius";
      if (degrees && is(*leaf, in_units_of_figures(value, "fahrenheit"))) return true;
      const auto* text = std::get_if<std::string>(&leaf->value);
      const auto date = text && leaf->unit.id == "date" ? parse_date(*text) : std::nullopt;
      if (date && number.unit.empty() && unsigned{date->day()} == number.value) return true;
    }
    return false;
  }
  bool holds(const NumberRange& range, const std::vector<std::string>* patterns) {
    const double low = in_units_of_figures(range.low, range.unit);
    const double high = in_units_of_figures(range.high, range.unit);
    if (!patterns) {
      return holds_number(low, nullptr, unit_of_figures(range.unit)) &&
             holds_number(high, nullptr, unit_of_figures(range.unit));
    }
    for (const std::string& pattern : *patterns) {
      for (const auto& [from, to] : kEnds) {
        for (const Leaf* least : leaves_of(pattern + from)) {
          if (!is(*least, low)) continue;
          const std::string map = least->path.substr(0, least->path.rfind('/'));
          for (const Leaf* most : leaves_of(pattern + to)) {
            if (most->path == map + to && is(*most, high)) return true;
          }
        }
      }
      // A range whose ends agree may be one figure.
      if (low == high && holds_number(low, patterns, "")) return true;
    }
    return false;
  }
  bool holds_text(const std::string& text, const std::vector<std::string>* patterns,
                  const std::string& unit) {
    if (!patterns) return by_text_[unit].count(text) > 0;
    for (const Leaf* leaf : candidates(patterns, "")) {
      const auto* figure = std::get_if<std::string>(&leaf->value);
      if (figure && *figure == text) return true;
    }
    return false;
  }
  /// A day among dates; by a rule also the day of an hour, or of the hour before it where a span
  /// ends.
  bool holds_day(Date date, const std::vector<std::string>* patterns) {
    if (holds_text(iso_date(date), patterns, "date")) return true;
    if (!patterns) return false;
    for (const Leaf* leaf : candidates(patterns, "")) {
      const auto* hour = std::get_if<std::string>(&leaf->value);
      if (leaf->unit.id != "hour" || !hour) continue;
      const Date on = parse_date(hour->substr(0, 10)).value();
      if (on == date || (hour->ends_with("T00:00") && plus_days(on, -1) == date)) return true;
    }
    return false;
  }
  bool holds(const Day& day, const std::vector<std::string>* patterns) {
    return holds_day(day.date, patterns);
  }
  bool holds(const DayRange& days, const std::vector<std::string>* patterns) {
    return holds_day(days.from, patterns) && holds_day(days.to, patterns);
  }
  bool holds(const HourOfDay& hour, const std::vector<std::string>* patterns) {
    return holds_text(iso_hour(hour.hour), patterns, "hour");
  }
  bool holds(const WinterYears& winter, const std::vector<std::string>* patterns) {
    return holds_number(winter.began, patterns, "year");
  }
  bool holds(const Literal& literal, const std::vector<std::string>* patterns) {
    if (holds_text(literal.text, patterns, "text") || holds_text(literal.text, patterns, "id"))
      return true;
    const auto year = parse_integer(literal.text);
    return year && holds_number(*year, patterns, "year");
  }
  bool holds(const Drawn& drawn, const std::vector<std::string>* patterns) {
    return holds_number(drawn.value, patterns, "") ||
           // Rows of a map without measures count downward.
           (drawn.scale == Drawn::Scale::metres && holds_number(-drawn.value, patterns, ""));
  }

  static std::string named(const Printed& printed) {
    return "'" + printed.message + "', value '" + printed.name + "'";
  }
  static std::string shown(const Printed& printed) {
    struct Show {
      std::string operator()(const Count& v) const { return std::to_string(v.value); }
      std::string operator()(const Number& v) const {
        return std::to_string(v.value) + " " + v.unit;
      }
      std::string operator()(const NumberRange& v) const {
        return std::to_string(v.low) + " to " + std::to_string(v.high) + " " + v.unit;
      }
      std::string operator()(const Day& v) const { return iso_date(v.date); }
      std::string operator()(const DayRange& v) const {
        return iso_date(v.from) + " to " + iso_date(v.to);
      }
      std::string operator()(const HourOfDay& v) const { return iso_hour(v.hour); }
      std::string operator()(const WinterYears& v) const {
        return "winter of " + std::to_string(v.began);
      }
      std::string operator()(const Literal& v) const { return "\"" + v.text + "\""; }
      std::string operator()(const Drawn& v) const { return std::to_string(v.value); }
    };
    return std::visit(Show{}, printed.value);
  }

  /// What the ends of a range are called among the figures.
  static constexpr std::pair<const char*, const char*> kEnds[] = {
      {"/low", "/high"}, {"/first_line", "/last_line"}, {"/rank_at_best", "/rank_at_worst"}};
  std::vector<Leaf> leaves_;
  std::map<std::string, std::set<std::string>> by_text_;
  std::map<std::pair<std::string, std::string>, std::vector<std::string>> rules_;
  std::map<std::string, std::vector<const Leaf*>> by_pattern_;
};

}  // namespace winterfolio::test
