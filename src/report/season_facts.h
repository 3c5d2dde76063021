// Everything that the pages of one winter speak of, worked out once: the cold, the years, what is
// still to come, and for every tree its verdict and its plan. Sections read it; none of them
// reckons anything that is not here.
#pragma once

#include <optional>
#include <span>
#include <string>
#include <vector>

#include "findings/bloom.h"
#include "findings/own_evidence.h"
#include "findings/partners.h"
#include "findings/past_curves.h"
#include "findings/places.h"
#include "findings/site.h"
#include "findings/still_to_come.h"
#include "findings/verdict.h"
#include "findings/winter_chill.h"
#include "findings/winter_events.h"
#include "findings/years.h"
#include "orchard/orchard.h"
#include "pruning/shortfall.h"
#include "pruning/tree_plan.h"
#include "weather/gaps.h"
#include "weather/join_series.h"
#include "weather/nearby_days.h"

namespace winterfolio {

/// What reading a temperature file found, told on the page about the readings.
struct ReadingsFile {
  std::string file;
  std::string format;
  StandsFor stands_for = StandsFor::orchard;
  std::string block;  ///< id of the block whose own thermometer it is; empty: the orchard's
  bool daily = false;
  std::int64_t readings = 0;
  std::int64_t missing_hours = 0;
  std::optional<Date> first;
  std::optional<Date> last;
  std::int64_t impossible = 0;
  std::int64_t duplicates = 0;
  std::int64_t spikes = 0;
  std::int64_t flagged = 0;
  std::int64_t unreadable = 0;
  struct Doubt {
    std::string kind;  ///< id, "step"
    LocalHour from;
    LocalHour to;  ///< inclusive
    std::int64_t first_line = 0;
    std::int64_t last_line = 0;
  };
  std::vector<Doubt> doubts;
  /// Line of the first reading set aside for each reason; 0 where it is not known.
  std::int64_t first_impossible = 0;
  std::int64_t first_duplicate = 0;
  std::int64_t first_spike = 0;
  std::int64_t first_flagged = 0;
  std::int64_t first_unreadable = 0;
  std::optional<SharedHours> overlap;  ///< with the files named before it, where hours are shared
  std::optional<NearbyFill> nearby;    ///< of a file that stands for one nearby, where it was used
  std::optional<NearbyDaysFill> nearby_days;  ///< the same, for days of a record kept by the day
  std::vector<std::pair<std::string, std::string>> recognised;  ///< what -> where
};

/// One tree that stands in the orchard this winter.
struct TreeSeason {
  const Tree* tree = nullptr;  ///< in the orchard
  bool other_kind = false;     ///< species "other": on the map, no verdict
  TreeVerdict verdict;         ///< with the tree's own evidence, where it brackets the need
  std::optional<OwnEvidence> evidence;  ///< of a tree of one cultivar that has something noted
  BracketUse bracket = BracketUse::none;
  std::optional<ChanceOfMeeting> chance;  ///< of the part that leads the verdict
  BloomFinding bloom;                     ///< first bloom
  std::vector<BloomFinding> stages;       ///< others seen this spring, or dated by the tree's own
                                          ///< records: bud swell, green tip, full bloom ...
  TreeDates dates;                        ///< as seen, and for the rest as expected
  TreePlan plan;
  TreeFrost frost;                        ///< nights against the stages of its buds
  std::optional<DormantCold> dormant;     ///< a midwinter night that reached the watch figure
  std::vector<NightLow> freezes_in_leaf;  ///< hard freezes before the leaf fall that was seen, or
                                          ///< while leaves were held
  std::vector<Swing> swings;              ///< great ones since its rest ended
  OddSigns odd;
  std::optional<TreeShortfall> shortfall;  ///< what lacking cold does to the part that leads
  TreePartners partners;
};

/// One measure shown on the pages.
struct ShownMeasure {
  ChillMeasure measure;
  YearsFinding years;
  StillToCome to_come;
  std::optional<StillToCome> to_come_by_extremes;  ///< from this winter reduced to daily extremes,
                                                   ///< for trees judged so
  PastCurves past;
  /// How well looking ahead in this way would have done in the place's own past winters; there
  /// while cold is still to come and ten whole winters are known.
  std::optional<HindcastScore> hindcast{};

  /// What is still to come in the making in which a verdict was reached.
  const StillToCome& to_come_for(const Verdict& verdict) const;
};

/// The winter of a block that has its own thermometer: its trees are judged by this, the others by
/// the orchard's.
struct PlaceSeason {
  const PlaceWeather* weather = nullptr;
  /// Nothing of this winter was read there and nothing stands in for it: its trees are judged by
  /// the orchard's thermometer, and the rest of this is empty.
  bool silent = false;
  int own_winters = 0;    ///< past winters mostly read in the block itself
  int moved_winters = 0;  ///< past winters mostly the orchard's, moved by what the two differ
  WinterChill chill;
  std::optional<WinterChill> reduced;  ///< as in SeasonFacts
  SpringOutlook outlook;
  std::vector<ShownMeasure> shown;  ///< as in SeasonFacts
  WinterNights nights;
};

/// What one tree is judged by. Points into the facts, or to what they were worked out from.
struct Standing {
  const PlaceSeason* place = nullptr;  ///< nullptr: the orchard's own thermometer
  const WeatherRecord* record = nullptr;
  const WinterChill* chill = nullptr;
  const WinterChill* reduced = nullptr;  ///< nullptr: none
  const SpringOutlook* outlook = nullptr;
  const std::vector<ShownMeasure>* shown = nullptr;
  const WinterNights* nights = nullptr;

  const ShownMeasure* find(ChillMeasure measure) const;
  /// This winter's cold in the making in which a verdict was reached.
  const WinterChill& chill_for(const Verdict& verdict) const;
};

struct SeasonFacts {
  const Orchard* orchard = nullptr;
  const WeatherRecord* record = nullptr;
  Today today;
  WinterChill chill;
  std::optional<WinterChill>
      reduced;  ///< the same by daily extremes, where past winters are known so
  SpringOutlook outlook;
  std::vector<ShownMeasure> shown;     ///< the first one carries the chart
  std::vector<PlaceSeason> places;     ///< blocks with a thermometer of their own
  std::vector<TreeSeason> trees;       ///< in the order of the file; lost ones left out
  std::vector<const Tree*> lost;       ///< in the twelve months before; on the map only
  std::vector<NightLow> frost_nights;  ///< of the orchard's thermometer
  WinterNights nights;                 ///< of the orchard's thermometer
  LastFrosts last_frosts;              ///< of past springs
  WarmHours warm;                      ///< above 60 °F, and what each measure lost
  SiteFinding site;                    ///< what suits this place, and what most winters fail
  std::vector<ReadingsFile> files;
  std::optional<int> utc_offset_minutes;  ///< of standard time; for sunrise and sunset

  bool southern() const { return orchard->southern(); }
  /// Whether the next winter is at hand, or has been read with nothing between: then the pages are
  /// a record and ask for no work.
  bool looking_back() const;
  const ShownMeasure* find(ChillMeasure measure) const;
  /// By which thermometer a tree is judged, and all that was worked out from it.
  Standing standing_of(const Tree& tree) const;
  std::vector<const TreeSeason*> resting()
      const;  ///< those with a verdict: all but the other kinds
};

/// Works everything out. `orchard`, `record` and `places` must outlive the result.
SeasonFacts season_facts(const Orchard& orchard, const WeatherRecord& record, const Today& today,
                         std::vector<ReadingsFile> files,
                         std::optional<int> utc_offset_minutes = {},
                         std::span<const PlaceWeather> places = {});

/// The measures shown: as the orchard asks, else those its trees' requirements use, two at most,
/// and chill hours.
std::vector<ChillMeasure> measures_to_show(const Orchard& orchard);

}  // namespace winterfolio
