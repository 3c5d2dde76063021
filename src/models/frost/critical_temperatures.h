// How cold flower buds can bear it, stage by stage: the published temperatures that kill a tenth
// and nine tenths of them within half an hour. Between the two no source gives a curve, so none is
// drawn; above the first nothing is called safe.
//
//   low reading   above 10 % + 1 °C   above
//                 above 10 %          watch: on a clear night buds can be colder than the air
//                 above 90 %          ten_percent
//                 at or below 90 %    ninety_percent
#pragma once

#include <optional>
#include <span>
#include <string>
#include <string_view>

#include "base/units.h"
#include "models/chill/registry.h"

namespace winterfolio {

/// One stage of one species. Source: frost/tables/critical_bud_temperatures.csv.
struct CriticalTemperature {
  std::string species;  ///< id of the species table
  std::string stage;    ///< as frost tables name it: "tight cluster"
  int order = 0;        ///< 1: first swelling
  Celsius kill10{0.0};
  std::optional<Celsius> kill90;
  std::string source;
  SourceMark mark = SourceMark::seen;
};

/// The stages of a species in order; empty where no pair is published (almond, quince, persimmon,
/// fig, pomegranate ...).
std::span<const CriticalTemperature> critical_temperatures(std::string_view species);
/// nullptr where the species has no such stage.
const CriticalTemperature* critical_temperature(std::string_view species, std::string_view stage);
/// The figures of first bloom; nullptr where none are published.
const CriticalTemperature* first_bloom_temperature(std::string_view species);

enum class FrostLevel { above, watch, ten_percent, ninety_percent };
std::string_view id_of(FrostLevel level);

/// Where a low reading stands; both lines count as reached when they are met.
FrostLevel frost_level(Celsius low, const CriticalTemperature& stage);

inline constexpr CelsiusDelta kClearNightMargin{1.0};

/// Winter lows for dormant buds. Source: frost/tables/dormant_hardiness.csv.
struct DormantHardiness {
  Celsius watch{0.0};
  std::optional<Celsius> likely;
  std::string source;
  SourceMark mark = SourceMark::seen;
};
std::optional<DormantHardiness> dormant_hardiness(std::string_view species);

}  // namespace winterfolio
