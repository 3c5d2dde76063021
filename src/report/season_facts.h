// Everything that the pages of one winter speak of, worked out once: the cold, the years, what is
// still to come, and for every tree its verdict and its plan. Sections read it; none of them
// reckons anything that is not here.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "findings/bloom.h"
#include "findings/own_evidence.h"
#include "findings/past_curves.h"
#include "findings/still_to_come.h"
#include "findings/verdict.h"
#include "findings/winter_chill.h"
#include "findings/years.h"
#include "orchard/orchard.h"
#include "pruning/tree_plan.h"

namespace winterfolio {

/// What reading a temperature file found, told on the page about the readings.
struct ReadingsFile {
  std::string file;
  std::string format;
  StandsFor stands_for = StandsFor::orchard;
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
  std::vector<std::pair<std::string, std::string>> recognised;  ///< what -> where
};

/// A night from noon to noon whose lowest reading was at or below freezing.
struct FrostNight {
  Date evening;
  Celsius lowest{0.0};
  LocalHour at;
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
  TreeDates dates;                        ///< as seen, and for the rest as expected
  TreePlan plan;
};

/// One measure shown on the pages.
struct ShownMeasure {
  ChillMeasure measure;
  YearsFinding years;
  StillToCome to_come;
  PastCurves past;
};

struct SeasonFacts {
  const Orchard* orchard = nullptr;
  const WeatherRecord* record = nullptr;
  Today today;
  WinterChill chill;
  std::optional<WinterChill>
      reduced;  ///< the same by daily extremes, where past winters are known so
  SpringOutlook outlook;
  std::vector<ShownMeasure> shown;  ///< the first one carries the chart
  std::vector<TreeSeason> trees;    ///< in the order of the file; lost ones left out
  std::vector<const Tree*> lost;    ///< in the twelve months before; on the map only
  std::vector<FrostNight> frost_nights;
  std::vector<ReadingsFile> files;
  std::optional<int> utc_offset_minutes;  ///< of standard time; for sunrise and sunset

  bool southern() const { return orchard->southern(); }
  const ShownMeasure* find(ChillMeasure measure) const;
  std::vector<const TreeSeason*> resting()
      const;  ///< those with a verdict: all but the other kinds
};

/// Works everything out. `orchard` and `record` must outlive the result.
SeasonFacts season_facts(const Orchard& orchard, const WeatherRecord& record, const Today& today,
                         std::vector<ReadingsFile> files,
                         std::optional<int> utc_offset_minutes = {});

/// The measures shown: as the orchard asks, else those its trees' requirements use, two at most,
/// and chill hours.
std::vector<ChillMeasure> measures_to_show(const Orchard& orchard);

}  // namespace winterfolio
