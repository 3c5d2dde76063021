// Numbers as keepers write them: with a unit behind, as a range, as a time of day. Pure reading, no
// messages.
//
//   "3.5 m"  "12 ft"  "-1.5 °C"  "25 min"  "20 %"     a number, then a unit of
//   tables/unit_words.csv "300..400"                                        a range; a single
//   number is a range of no width "09:30"  "-08:00"                                 a time of day,
//   a distance from UTC
#pragma once

#include <optional>
#include <string>
#include <string_view>

#include "base/units.h"
#include "orchard/orchard.h"

namespace winterfolio {

/// A decimal number with a point: "-1.5", "+7", "0". Nothing for "1,5", "012", "1e3" or words.
/// The minus of word processors counts as one.
std::optional<double> parse_decimal(std::string_view text);

/// A whole number; nothing for anything else, leading zeros included.
std::optional<int> parse_whole(std::string_view text);

/// A text cut where its number ends: {"3.5", "m"}, {"12", ""}, {"", "about 3 m"}.
struct WrittenQuantity {
  std::string_view number;
  std::string_view unit;
};
WrittenQuantity split_quantity(std::string_view text);

/// The unit that a word means for a quantity ("length", "temperature_difference", "time", "share",
/// "angle", "heat"); empty if none.
std::string unit_named(std::string_view quantity, std::string_view word);

/// "m, cm, ft or in": the first word of each unit of a quantity.
std::string units_of(std::string_view quantity);

/// Numbers in the units that unit_named() gives; an empty unit is the one the file assumes.
Metres length_in(double number, std::string_view unit);  ///< m where none is written
CelsiusDelta temperature_difference_in(double number,
                                       std::string_view unit);  ///< °C; no 32 is ever added
double minutes_in(double number, std::string_view unit);        ///< min

std::optional<Range> parse_range(std::string_view text);

/// Minutes since midnight of "09:30" or "9:30".
std::optional<int> parse_time_of_day(std::string_view text);

/// Minutes east of UTC of "-08:00", "+5:30" or "Z"; at most 14 hours.
std::optional<int> parse_utc_offset(std::string_view text);

/// yes and true, no and false, in any capitals.
std::optional<bool> parse_yes_no(std::string_view text);

}  // namespace winterfolio
