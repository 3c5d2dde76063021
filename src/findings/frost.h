// What cold nights mean for buds: each night's lowest reading against what the tree's stage can
// bear, what is left of a crop, what the next frost could take, and how often past springs brought
// a damaging night after bloom.
//
// A tree's stage is what the keeper saw last, and its age is told; where nothing was seen, an
// expected bloom that has passed stands for "first bloom". A block's frost offset is laid on frosty
// nights here and nowhere else.
//
// The nights of a thermometer are looked up once (winter_nights) and laid against every tree.
#pragma once

#include <optional>
#include <span>
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

/// Every night of which an hour is known, from the evening of `from` to that of `last`; hours from
/// `until` on are not looked at.
std::vector<NightLow> night_lows(const WeatherRecord& record, Date from, Date last,
                                 std::optional<LocalHour> until = {});

/// One thermometer's nights, by date.
struct WinterNights {
  struct Past {
    Winter winter;
    std::vector<NightLow> nights;  ///< nine months from the winter's first day
  };
  std::vector<NightLow> now;     ///< from the first month of autumn to the present hour
  std::vector<Past> past;        ///< by year
  std::vector<NightLow> coming;  ///< of a forecast, whole or in part; empty without one
};
WinterNights winter_nights(const WeatherRecord& record, const Today& today);

/// The nights at or under 0 °C, 32 °F, whose morning lies in the winter spoken of.
std::vector<NightLow> frost_nights(const WinterNights& nights, const Today& today);

/// The nights a tree is judged by.
struct NightsAtTree {
  const WinterNights* nights;  ///< of its thermometer; must outlive this
  CelsiusDelta frost_offset;   ///< none where the thermometer hangs in the tree's own block
  bool southern = false;
};

/// From this day on buds and flowers are those of the coming spring: 1 December, south 1 June. What
/// is seen before is out of season.
Date spring_buds_from(const Winter& winter, bool southern);

/// A stage, and the day from which it counts.
struct StageFrom {
  Date from;
  const CriticalTemperature* stage =
      nullptr;        ///< in the table; nullptr: before its first, or not published
  bool seen = false;  ///< by the keeper; else from the expected bloom
};
/// What was seen of a tree's buds this spring, by date; where nothing was, the expected bloom.
std::vector<StageFrom> stages_of(const Tree& tree, const Winter& winter, bool southern,
                                 const BloomFinding& bloom);

/// A tree's stage on a day.
struct StageOnDay {
  const CriticalTemperature* stage = nullptr;  ///< as above
  bool seen = false;
  int age_days = 0;  ///< since it was seen or expected
};
StageOnDay stage_on(std::span<const StageFrom> stages, Date day);

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
/// Past springs from the place in the winter where `from` stands, with the figure of one stage, for
/// sixty nights. A spring counts if each of its first thirty nights is known. Nothing if none does.
std::optional<LaterFrosts> later_frosts(const CriticalTemperature& stage, Date from,
                                        const NightsAtTree& at, const Today& today);

/// What the nights so far may have left of a crop, by the two published shares: buds killed, and
/// buds needed.
struct CropLeft {
  enum class Word {
    not_touched,  ///< no night reached the 10 % figure
    perhaps,      ///< between the figures: no source says how many buds died
    enough,       ///< even at the worst between them more is left than a full crop needs
    unlikely,     ///< nine in ten or more are dead, and more than that are needed
  };
  Word word = Word::not_touched;
  Range alive{};   ///< of 100 buds; the low end is 0 after two or more damaging nights
  Range needed{};  ///< of 100 for a full crop; high equals 100 where the source gives a bound only
  int damaging_nights = 0;
};
std::string_view id_of(CropLeft::Word word);

struct TreeFrost {
  bool published = false;  ///< the species has figures of 10 and 90 %
  StageOnDay now;
  bool look_again = false;  ///< bloom was expected since the stage was seen: it may be further on
  bool bloom_over = false;  ///< two months have passed since it was in bloom: nights say no more
  std::vector<TreeNight> nights;             ///< of this spring so far, by date
  std::optional<NightLow> coldest;           ///< since the first stage was known
  std::optional<NightLow> coldest_in_stage;  ///< since the stage of today was seen or expected
  std::optional<TreeNight> coming;  ///< the coldest of the forecast's nights that reach at least
                                    ///< the watch margin of today's stage
  std::optional<LaterFrosts> after_bloom;  ///< nothing without a bloom date or past springs
  std::optional<Range>
      buds_needed;  ///< share of buds that makes a full crop [of 100]; high may equal 100
  std::optional<CropLeft> crop;     ///< nothing before the first stage, or where no share is known
  std::optional<Date> damage_seen;  ///< the keeper's own note of frost damage this spring

  /// The night that went furthest against its stage; nullptr without one.
  const TreeNight* worst() const;
};
TreeFrost frost_of(const Tree& tree, const BloomFinding& bloom, const NightsAtTree& at,
                   const Today& today);

/// The frost offset of the tree's block; none without a block.
CelsiusDelta frost_offset_of(const Tree& tree, const Orchard& orchard);

/// The offset, where the night is frosty enough for cold air to gather: at or under 2 °C; decided
/// here.
Celsius at_tree(Celsius low, CelsiusDelta frost_offset);

/// The last frost of one past spring.
struct LastFrost {
  int year = 0;  ///< in which its winter began
  NightLow night;
  Date this_year;  ///< the same place in the spring at hand
};

/// When frost was over in past springs: the last night at or under 0 °C, 32 °F.
struct LastFrosts {
  std::vector<LastFrost> springs;  ///< by year
  int without = 0;    ///< springs known throughout that had none from the winter's first day on
  int not_known = 0;  ///< springs with a night missing after the last known frost, up to 31 May
};
/// A spring is known if every night from its last frost to 31 May (south 30 November) is.
LastFrosts last_frosts(const WinterNights& nights, const Today& today, bool southern);

}  // namespace winterfolio
