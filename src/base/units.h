// Temperatures, lengths on the ground and on paper, and the nine measures of winter cold, each a
// type of its own so that a chill portion can never be taken for a chill hour, nor a difference of
// temperature for a temperature.
#pragma once

#include <array>
#include <cmath>
#include <compare>
#include <optional>
#include <string_view>

namespace winterfolio {

/// A difference of two temperatures, a step or a tolerance [°C]. 0.5 °C is 0.9 °F: no 32 is ever
/// added.
class CelsiusDelta {
 public:
  constexpr explicit CelsiusDelta(double degrees) : degrees_(degrees) {}
  static constexpr CelsiusDelta from_fahrenheit(double degrees) {
    return CelsiusDelta(degrees / 1.8);
  }
  constexpr double degrees() const { return degrees_; }
  constexpr double fahrenheit() const { return degrees_ * 1.8; }
  constexpr auto operator<=>(const CelsiusDelta&) const = default;

 private:
  double degrees_;
};

/// An air temperature, a point on the scale [°C]. Fahrenheit exists only where files are read and
/// pages printed.
class Celsius {
 public:
  constexpr explicit Celsius(double degrees) : degrees_(degrees) {}
  static constexpr Celsius from_fahrenheit(double degrees) {
    return Celsius((degrees - 32.0) / 1.8);
  }
  static constexpr Celsius from_kelvin(double kelvin) { return Celsius(kelvin - 273.15); }
  constexpr double degrees() const { return degrees_; }
  constexpr double fahrenheit() const { return degrees_ * 1.8 + 32.0; }
  constexpr auto operator<=>(const Celsius&) const = default;

 private:
  double degrees_;
};

constexpr CelsiusDelta operator-(Celsius a, Celsius b) {
  return CelsiusDelta(a.degrees() - b.degrees());
}
constexpr CelsiusDelta operator-(CelsiusDelta d) { return CelsiusDelta(-d.degrees()); }
constexpr Celsius operator+(Celsius t, CelsiusDelta d) {
  return Celsius(t.degrees() + d.degrees());
}
constexpr Celsius operator-(Celsius t, CelsiusDelta d) {
  return Celsius(t.degrees() - d.degrees());
}

/// The trade's three lines, exactly 32, 45 and 60 °F, and the slack within which a reading counts
/// as on the line, so that 7.2, 7.22 and 45 °F are all "45 °F".
constexpr Celsius kFreezing{0.0};
constexpr Celsius kChillLine = Celsius::from_fahrenheit(45.0);
constexpr Celsius kWarmLine = Celsius::from_fahrenheit(60.0);
constexpr CelsiusDelta kLineSlack{1e-6};

/// The measures of winter cold. Order is the order of every table and listing.
enum class ChillMeasure {
  chill_hours,
  chill_hours_32_45,
  chill_hours_less_warm,
  utah,
  utah_daily_positive,
  utah_smoothed,
  north_carolina,
  low_chill,
  portions,
};
constexpr int kChillMeasureCount = 9;

/// The measures in order, for loops.
constexpr std::array<ChillMeasure, kChillMeasureCount> kChillMeasures = {
    ChillMeasure::chill_hours,
    ChillMeasure::chill_hours_32_45,
    ChillMeasure::chill_hours_less_warm,
    ChillMeasure::utah,
    ChillMeasure::utah_daily_positive,
    ChillMeasure::utah_smoothed,
    ChillMeasure::north_carolina,
    ChillMeasure::low_chill,
    ChillMeasure::portions,
};

/// The id used in orchard files, JSON and words ("utah_daily_positive").
std::string_view id_of(ChillMeasure measure);
std::optional<ChillMeasure> chill_measure_named(std::string_view id);

/// An amount of one measure, known when compiling. Amounts of two measures neither add nor compare.
template <ChillMeasure M>
class Chill {
 public:
  static constexpr ChillMeasure measure = M;
  constexpr explicit Chill(double amount) : amount_(amount) {}
  constexpr double amount() const { return amount_; }
  constexpr auto operator<=>(const Chill&) const = default;
  constexpr Chill operator+(Chill other) const { return Chill(amount_ + other.amount_); }
  constexpr Chill operator-(Chill other) const { return Chill(amount_ - other.amount_); }

 private:
  double amount_;
};

using ChillHours = Chill<ChillMeasure::chill_hours>;
using ChillHours32To45 = Chill<ChillMeasure::chill_hours_32_45>;
using ChillHoursLessWarm = Chill<ChillMeasure::chill_hours_less_warm>;
using UtahUnits = Chill<ChillMeasure::utah>;
using UtahDailyPositiveUnits = Chill<ChillMeasure::utah_daily_positive>;
using UtahSmoothedUnits = Chill<ChillMeasure::utah_smoothed>;
using NorthCarolinaUnits = Chill<ChillMeasure::north_carolina>;
using LowChillUnits = Chill<ChillMeasure::low_chill>;
using ChillPortions = Chill<ChillMeasure::portions>;

/// Warmth after rest. The base temperature belongs to the model that made it.
class GrowingDegreeHours {
 public:
  constexpr explicit GrowingDegreeHours(double degree_hours) : degree_hours_(degree_hours) {}
  constexpr double degree_hours() const { return degree_hours_; }  ///< [°C h]
  constexpr auto operator<=>(const GrowingDegreeHours&) const = default;

 private:
  double degree_hours_;
};

class GrowingDegreeDays {
 public:
  constexpr explicit GrowingDegreeDays(double degree_days) : degree_days_(degree_days) {}
  constexpr double degree_days() const { return degree_days_; }  ///< [°C d]
  constexpr auto operator<=>(const GrowingDegreeDays&) const = default;

 private:
  double degree_days_;
};

/// A length on the ground: a tree's height, a place on the map [m].
class Metres {
 public:
  constexpr explicit Metres(double metres) : metres_(metres) {}
  static constexpr Metres from_feet(double feet) { return Metres(feet * 0.3048); }
  constexpr double metres() const { return metres_; }
  constexpr double feet() const { return metres_ / 0.3048; }
  constexpr auto operator<=>(const Metres&) const = default;

 private:
  double metres_;
};

/// A length on paper [pt, 1/72 inch].
class Length {
 public:
  constexpr Length() = default;
  static constexpr Length points(double value) { return Length(value); }
  static constexpr Length millimetres(double value) { return Length(value * 72.0 / 25.4); }
  constexpr double pt() const { return points_; }
  constexpr auto operator<=>(const Length&) const = default;
  constexpr Length operator+(Length other) const { return Length(points_ + other.points_); }
  constexpr Length operator-(Length other) const { return Length(points_ - other.points_); }
  constexpr Length operator-() const { return Length(-points_); }
  constexpr Length operator*(double factor) const { return Length(points_ * factor); }
  constexpr Length operator/(double divisor) const { return Length(points_ / divisor); }
  constexpr double operator/(Length other) const { return points_ / other.points_; }
  constexpr Length& operator+=(Length other) {
    points_ += other.points_;
    return *this;
  }
  constexpr Length& operator-=(Length other) {
    points_ -= other.points_;
    return *this;
  }

 private:
  constexpr explicit Length(double points) : points_(points) {}
  double points_ = 0.0;
};

constexpr Length operator*(double factor, Length length) { return length * factor; }

namespace literals {
constexpr Length operator""_pt(long double value) {
  return Length::points(static_cast<double>(value));
}
constexpr Length operator""_pt(unsigned long long value) {
  return Length::points(static_cast<double>(value));
}
constexpr Length operator""_mm(long double value) {
  return Length::millimetres(static_cast<double>(value));
}
constexpr Length operator""_mm(unsigned long long value) {
  return Length::millimetres(static_cast<double>(value));
}
}  // namespace literals

}  // namespace winterfolio
