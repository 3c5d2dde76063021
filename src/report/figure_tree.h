// A tree of figures: every value under the key by which it is known, with what it is counted in and
// to how many decimals it is told.
//
//   chill                     a map
//     portions                a map
//       total        47.12    a figure, counted in portions
//       by_day       [...]    a list of them
//
// Rounding happens here and nowhere else, so that the same winter gives the same digits on every
// machine. What is not known is a figure of its own, never nought.
#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <string_view>
#include <utility>
#include <variant>
#include <vector>

#include "base/dates.h"
#include "base/units.h"

namespace winterfolio {

/// What a figure is counted in. Words and days have a unit too, so that a reader can tell them
/// apart.
struct FigureUnit {
  std::string_view id;
  int decimals = 0;
};

namespace figure_unit {
inline constexpr FigureUnit kCelsius{"celsius", 2};
inline constexpr FigureUnit kCelsiusDifference{"celsius_difference", 2};
inline constexpr FigureUnit kShare{"share", 4};      ///< of one
inline constexpr FigureUnit kPercent{"percent", 2};  ///< of a hundred
inline constexpr FigureUnit kDegrees{"degrees", 5};  ///< of latitude or longitude
inline constexpr FigureUnit kMetres{"metres", 3};
inline constexpr FigureUnit kDegreeHours{"degree_hours", 1};
inline constexpr FigureUnit kWarmth{"degree_hours_or_days", 1};
inline constexpr FigureUnit kAmountPerYear{"amount_per_year", 4};
inline constexpr FigureUnit kHoursAfterNoon{"hours_after_noon", 2};
inline constexpr FigureUnit kStatistic{"statistic", 4};          ///< has no unit
inline constexpr FigureUnit kFigureOfRule{"figure_of_rule", 3};  ///< in the unit beside it
inline constexpr FigureUnit kMinutes{"minutes", 1};
inline constexpr FigureUnit kSeconds{"seconds", 0};
inline constexpr FigureUnit kHours{"hours", 0};
inline constexpr FigureUnit kDays{"days", 1};
inline constexpr FigureUnit kYear{"year", 0};
inline constexpr FigureUnit kPlace{"place", 0};  ///< in an order: row, rank, line of a file
inline constexpr FigureUnit kTrees{"trees", 0};
inline constexpr FigureUnit kKinds{"kinds", 0};
inline constexpr FigureUnit kWinters{"winters", 0};
inline constexpr FigureUnit kSprings{"springs", 0};
inline constexpr FigureUnit kNights{"nights", 0};
inline constexpr FigureUnit kReadings{"readings", 0};
inline constexpr FigureUnit kWeeks{"weeks", 0};
inline constexpr FigureUnit kPeople{"people", 0};
inline constexpr FigureUnit kCount{"count", 0};
inline constexpr FigureUnit kDate{"date", 0};           ///< 2027-01-16
inline constexpr FigureUnit kHour{"hour", 0};           ///< 2027-01-16T23:00, standard time
inline constexpr FigureUnit kMonthDay{"month_day", 0};  ///< 11-01
inline constexpr FigureUnit kId{"id", 0};               ///< a word out of a fixed list
inline constexpr FigureUnit kText{"text", 0};           ///< as the keeper or a source wrote it
inline constexpr FigureUnit kYesNo{"yes_no", 0};
}  // namespace figure_unit

/// An amount of one measure, in the measure's own units, which bear its name.
inline FigureUnit amount_unit(ChillMeasure measure) { return {id_of(measure), 3}; }

/// Rounds half away from nought. A value within a millionth of the last place of a tie counts as on
/// it, so that the last bits of a processor decide nothing; minus nought becomes nought.
double rounded(double value, int decimals);

/// One place in the tree: a map, a list or a single figure.
class FigureNode {
 public:
  struct NotKnown {};
  using Value = std::variant<NotKnown, bool, std::int64_t, double, std::string>;
  using Map =
      std::vector<std::pair<std::string, FigureNode>>;  ///< in the order in which it was built
  using List = std::vector<FigureNode>;

  /// A single value.
  FigureNode(FigureUnit unit, Value value) : content_(Single{unit, std::move(value)}) {}
  static FigureNode map() { return FigureNode(Map{}); }
  static FigureNode list() { return FigureNode(List{}); }
  /// What stands where a whole map is not known.
  static FigureNode none() { return FigureNode(FigureUnit{"none", 0}, NotKnown{}); }

  bool is_map() const { return std::holds_alternative<Map>(content_); }
  bool is_list() const { return std::holds_alternative<List>(content_); }
  bool is_single() const { return std::holds_alternative<Single>(content_); }
  const Map& members() const { return std::get<Map>(content_); }
  const List& items() const { return std::get<List>(content_); }
  const Value& value() const { return std::get<Single>(content_).value; }
  FigureUnit unit() const { return std::get<Single>(content_).unit; }
  bool known() const { return !is_single() || !std::holds_alternative<NotKnown>(value()); }

  /// Puts a figure under a key. Requires: a map without that key.
  FigureNode& set(std::string key, FigureNode figure) &;
  FigureNode&& set(std::string key, FigureNode figure) && {
    return std::move(set(std::move(key), std::move(figure)));
  }
  /// Appends to a list. Requires: a list.
  FigureNode& append(FigureNode figure);

 private:
  struct Single {
    FigureUnit unit;
    Value value;
  };
  explicit FigureNode(Map map) : content_(std::move(map)) {}
  explicit FigureNode(List list) : content_(std::move(list)) {}
  std::variant<Single, Map, List> content_;
};

// Builders; an optional that holds nothing becomes a figure that is not known.
FigureNode amount_figure(std::optional<double> value, FigureUnit unit);
FigureNode count_figure(std::optional<std::int64_t> value, FigureUnit unit);
FigureNode temperature_figure(std::optional<Celsius> value);
FigureNode date_figure(std::optional<Date> date);
FigureNode hour_figure(std::optional<LocalHour> hour);
FigureNode month_day_figure(std::optional<MonthDay> day);
/// Not known where empty.
FigureNode id_figure(std::string_view id);
FigureNode text_figure(std::string_view text);
FigureNode yes_no_figure(bool yes);
FigureNode series_figure(const std::vector<double>& values, FigureUnit unit);
/// A series in which some values are not known.
FigureNode series_figure(const std::vector<std::optional<double>>& values, FigureUnit unit);
FigureNode ids_figure(const std::vector<std::string>& ids);
FigureNode texts_figure(const std::vector<std::string>& texts);

/// A number as it is told: rounded, without noughts at its end. Requires: a whole number or an
/// amount.
std::string digits_of(const FigureNode& figure);

}  // namespace winterfolio
