// What happened in the winter besides cold added up: warm hours and what they took, hard freezes
// while leaves were still on, the coldest midwinter nights, and great swings after rest had ended,
// when buds no longer bear them.
#pragma once

#include <optional>
#include <span>
#include <vector>

#include "findings/frost.h"
#include "findings/winter_chill.h"

namespace winterfolio {

/// Hours above 60 °F, and what hours that count against rest took from each measure.
struct WarmHours {
  std::int32_t hours = 0;
  struct Loss {
    ChillMeasure measure;
    double taken = 0.0;  ///< the sum of all falls from hour to hour, as a positive amount
  };
  std::vector<Loss> losses;  ///< of the measures counted that can fall
};
WarmHours warm_hours(const WeatherRecord& record, const WinterChill& chill);

/// Nights at or under the hard-freeze line from the evening of `from` until leaf fall, by date.
std::vector<NightLow> freezes_before_leaf_fall(std::span<const NightLow> nights, Date from,
                                               Date leaf_fall);

/// A midwinter low against what dormant buds of a species bear.
struct DormantCold {
  NightLow night;
  Celsius at_tree;
  DormantHardiness hardiness;
  bool likely =
      false;  ///< at or under the figure from which harm is likely; else only one to watch
};
/// The coldest night from the winter's first day until buds moved (`until`, left out; the winter's
/// end where that is not known) if it reached the watch figure; nothing otherwise or where none is
/// published.
std::optional<DormantCold> dormant_cold(const Tree& tree, const NightsAtTree& at,
                                        const Today& today, std::optional<Date> until = {});

/// A fall or rise of more than 20 °C within 48 hours.
struct Swing {
  LocalHour from;   ///< hour of the first extreme
  LocalHour to;     ///< of the second
  CelsiusDelta by;  ///< positive
};
/// Swings from the day after `rest_ended` until now, none overlapping another: from each stretch of
/// two days that holds one, its lowest and highest reading.
std::vector<Swing> swings_after(const WeatherRecord& record, Date rest_ended, const Today& today);

/// What the keeper saw that is not as it should be at that time of the year, and changes what is
/// advised.
struct OddSigns {
  std::optional<Date> bloom_out_of_season;  ///< the last time flowers were seen before spring's
                                            ///< buds count
  std::optional<Date> leaves_held;  ///< the last time leaves were seen still on after that day
                                    ///< (1 December, south 1 June), with no leaf fall seen since
  bool any() const { return bloom_out_of_season || leaves_held; }
};
OddSigns odd_signs(const Tree& tree, const Today& today, bool southern);

/// -2.2 °C, 28 °F: common practice, no source.
inline constexpr Celsius kHardFreeze = Celsius::from_fahrenheit(28.0);
inline constexpr CelsiusDelta kGreatSwing{20.0};
inline constexpr int kSwingHours = 48;

}  // namespace winterfolio
