// When a tree will bloom, or when its buds will swell: warmth after rest, run on through past
// springs.
//
// What speaks, in this order: the keeper's note of this spring; the tree's own records of past
// springs, turned into the warmth it needed; a figure of the keeper's or a published one for the
// cultivar; and, where the chill is met and none of these is known, the species' degree days as
// found at another place, said to be an estimate from elsewhere. A tree whose chill is not met
// blooms late and drawn out: then there is no date.
//
//   rest ends ----- warmth [degree hours] -----> bloom
//   (chill met)     this spring so far, then each past spring
#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "findings/still_to_come.h"
#include "findings/verdict.h"

namespace winterfolio {

/// Warmth of one spring, day by day from the winter's first day, over nine months.
struct SpringWarmth {
  int year = 0;  ///< in which its winter began
  Date first;
  std::vector<double>
      heat_before;  ///< degree hours passed when each day begins; one more than there are days
  std::vector<std::optional<double>>
      mean;  ///< daily means [°C]; nothing where an hour of the day is missing
  std::vector<std::int32_t> missing_before;  ///< missing hours passed when each day begins

  int days() const { return static_cast<int>(mean.size()); }
};

/// One past winter by the measures that trees need, and its spring.
struct PastSpring {
  Winter winter;
  SpringWarmth warmth;
  struct Chill {
    ChillMeasure measure;
    Date counted_from;
    std::vector<double> by_day;
    bool known_enough = true;  ///< 95 in 100 of the winter's hours are known
  };
  std::vector<Chill> chill;
};

/// The springs that bloom is judged by, worked out once for all trees.
struct SpringOutlook {
  Today today;
  bool southern = false;
  WinterDetail basis = WinterDetail::hourly;  ///< how all springs were taken
  std::vector<PastSpring> past;               ///< as they were
  std::vector<SpringWarmth>
      to_come;  ///< this spring so far, then as each past one; alone if there is none
  std::vector<StillToCome>
      chill_to_come;  ///< of the measures counted, for trees whose chill is still to be met
  std::vector<StillToCome>
      chill_to_come_by_extremes{};  ///< the same from this winter reduced to daily extremes, for
                                    ///< trees judged so; empty where it is known no other way

  /// What is still to come for a need judged on that basis; nullptr for a measure not counted.
  const StillToCome* still_to_come_of(ChillMeasure measure, WinterDetail basis) const;
};
/// reduced   the same winter by daily extremes (see reduced_to_extremes()), where past winters are
///           known by them and this one is not; nullptr else
SpringOutlook spring_outlook(const WeatherRecord& record, const WinterChill& chill,
                             const WinterChill* reduced = nullptr);

enum class BloomMethod {
  none,
  seen,               ///< the keeper's note of this spring
  own_records,        ///< warmth that this tree needed in past springs
  own_figure,         ///< the keeper's figure for the cultivar
  published_figure,   ///< a published figure for the cultivar
  species_elsewhere,  ///< degree days of the species at another place
};
std::string_view id_of(BloomMethod method);

/// Why there is no date.
enum class NoBloomDate {
  there_is_one,
  other_kind,
  chill_not_met,  ///< and the winter is over, or past winters do not meet it either
  chill_unknown,  ///< no verdict, so nobody knows when rest ends
  no_figure,      ///< nothing tells how much warmth it needs
  no_springs,     ///< no past spring to run on through, and the warmth has not come yet
};
std::string_view id_of(NoBloomDate reason);

/// The last stage of the buds, flowers or fruitlets that the keeper noted this spring.
struct SeenStage {
  std::string what;  ///< id of the observations table
  int bbch = 0;      ///< the first code it stands for
  Date on;
  int age_days = 0;  ///< on the day spoken from
};

/// One past spring of the tree's own records.
struct OwnBloomYear {
  int year = 0;
  Date bloomed;
  double heat = 0.0;  ///< degree hours from the end of rest (or from the fixed date) to that day
  std::optional<int>
      error_days;  ///< by the mean of the other years, later is positive; nothing with one year
};

struct BloomFinding {
  std::string stage;  ///< id of the observations table: "first_bloom", "full_bloom", "bud_swell"
  BloomMethod method = BloomMethod::none;
  NoBloomDate why_none = NoBloomDate::there_is_one;
  std::optional<Date> expected;    ///< the middle of what may come
  std::optional<Date> early;       ///< 10 %
  std::optional<Date> late;        ///< 90 %
  bool passed = false;             ///< expected on or before the day spoken from
  std::optional<Date> rest_ended;  ///< where chill is met
  bool from_fixed_date =
      false;  ///< own records without a known requirement: warmth is counted from midwinter
  std::optional<Range> heat_needed;  ///< degree hours; degree days for `species_elsewhere`
  std::optional<double> heat_so_far;
  std::vector<OwnBloomYear> own_years;
  std::optional<double>
      error_days;      ///< mean of the own years' errors, signs off; or as the source states it
  std::string source;  ///< the keeper's words, a key of the cultivar sources, or the reference
  std::string place;   ///< where an estimate from elsewhere was made
  std::string stage_there;             ///< what the source calls the stage, where it says
  std::optional<SeenStage> last_seen;  ///< of any stage; from its day on it overrides the reckoning
  /// The reckoning had this stage on another side of what was seen, and its dates were moved: not
  /// before the day after an earlier stage was seen, not after the day on which a later one was.
  bool moved_by_seen = false;
  std::optional<Date>
      seen_by{};  ///< only a later stage was seen, on that day: it was in bloom by then
};

/// The bloom, or another stage, of one part of a tree.
BloomFinding bloom_of(const Tree& tree, const Orchard& orchard, const PartVerdict& part,
                      const SpringOutlook& outlook, std::string_view stage = "first_bloom");

/// The other stages of this spring that can be told: those that the keeper noted, and those that
/// the tree's own records of past springs date. In the order in which they come; first bloom is not
/// among them.
std::vector<BloomFinding> other_stages(const Tree& tree, const Orchard& orchard,
                                       const PartVerdict& part, const SpringOutlook& outlook);

}  // namespace winterfolio
