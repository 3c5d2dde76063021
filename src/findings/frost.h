// What cold nights mean for buds: each night's lowest reading against what the tree's stage can
// bear, what the next frost could take, and how often past springs brought a damaging night after
// bloom.
//
// A tree's stage is what the keeper saw last, and its age is told; where nothing was seen, an
// expected bloom that has passed stands for "first bloom". A block's frost offset is laid on frosty
// nights here and nowhere else.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "findings/bloom.h"
#include "findings/weather_record.h"
#include "models/frost/critical_temperatures.h"

namespace winterfolio {

/// The lowest reading from one noon to the next.
struct NightLow {
  Date evening;  ///< the day on whose evening the night begins
  Celsius lowest;
  LocalHour
      at;  ///< the hour of it; for nights known by daily extremes the hour of the curve's lowest
  bool by_extremes = false;
};

/// Every night of which an hour is known, from the evening of `from` to that of `last`.
std::vector<NightLow> night_lows(const WeatherRecord& record, Date from, Date last);

/// A tree's stage on a day.
struct StageOnDay {
  const CriticalTemperature* stage =
      nullptr;        ///< in the table; nullptr: before the first, or not published
  bool seen = false;  ///< by the keeper; else from the expected bloom
  int age_days = 0;   ///< since it was seen or expected
};
StageOnDay stage_on(const Tree& tree, const Winter& winter, const BloomFinding& bloom, Date day);

/// A night that reached at least the watch margin of the stage.
struct TreeNight {
  NightLow night;
  Celsius at_tree;  ///< with the block's frost offset
  StageOnDay stage;
  FrostLevel level = FrostLevel::above;
};

/// Share of past springs with a damaging night from a given day on.
struct LaterFrosts {
  int springs = 0;
  int with_damage = 0;  ///< at or under the 10 % figure
  Date from;            ///< expected bloom, or the day spoken from if that is later
  std::string stage;    ///< whose figure was taken
  Celsius kill10{0.0};
};

struct TreeFrost {
  bool published = false;  ///< the species has figures of 10 and 90 %
  StageOnDay now;
  std::vector<TreeNight> nights;           ///< of this spring so far, by date
  std::optional<LaterFrosts> after_bloom;  ///< nothing without a bloom date or past springs
  std::optional<Range>
      buds_needed;  ///< share of buds that makes a full crop [of 100]; high may equal 100
};
TreeFrost frost_of(const Tree& tree, const Orchard& orchard, const BloomFinding& bloom,
                   const WeatherRecord& record, const Today& today);

/// The block's offset, where the night is frosty enough for cold air to gather: at or under 2 °C;
/// decided here.
Celsius at_tree(const Tree& tree, const Orchard& orchard, Celsius low);

}  // namespace winterfolio
