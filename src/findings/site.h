// What suits this place: cultivars that nine winters in ten would have satisfied and whose bloom
// comes after the frosts, as far as that can be known; and the trees here that most winters fail.
//
// Only figures that may decide speak: the keeper's own, or a cultivar's own as read on a page.
// Figures from memory, spans over a group or a species and trials in cold rooms recommend nothing
// and condemn nothing. Amounts are compared in their own measure, all winters of one making; Utah
// units are counted in past winters as they are in verdicts, from their autumn minimum.
#pragma once

#include <optional>
#include <span>
#include <string>
#include <vector>

#include "findings/frost.h"
#include "findings/years.h"

namespace winterfolio {

/// What whole winters brought here by one measure.
struct SiteChill {
  ChillMeasure measure;
  std::vector<double> totals;            ///< of whole winters, by year
  double exceeded_in_nine_of_ten = 0.0;  ///< 10 % quantile, type 7
  WinterDetail basis = WinterDetail::hourly;
  bool few_winters = false;  ///< under ten: then that is little more than the smallest value
};
/// Nothing under five whole winters: so few tell nothing of a place; decided here.
std::optional<SiteChill> site_chill(const YearsFinding& years, const SpringOutlook& outlook);

/// How past springs went after a bloom like this one's.
enum class FrostEscape {
  not_known,  ///< no date of bloom, no published figures, or under five springs
  escapes,    ///< damaged in one spring of ten at most
  at_risk,
};
std::string_view id_of(FrostEscape word);

/// A cultivar whose most required lies under the amount exceeded in nine winters of ten.
struct SuitedCultivar {
  std::string species;
  std::string cultivar;
  DecidingNeed need;
  double to_spare = 0.0;  ///< that amount less the most required
  bool grown_here = false;
  bool kind_grown_here = false;
  FrostEscape frost = FrostEscape::not_known;
  BloomMethod bloom_by = BloomMethod::none;
  std::optional<LaterFrosts> after_bloom{};  ///< from the expected bloom on
};

/// A tree that most winters leave short.
struct FailingTree {
  const Tree* tree = nullptr;
  std::string cultivar;
  DecidingNeed need;
  int winters = 0;  ///< whole ones
  int enough = 0;   ///< of them, that brought the least it needs
  bool few_winters = false;
};

struct SiteFinding {
  std::vector<SiteChill> chill;        ///< of the measures counted that have winters enough
  std::vector<SuitedCultivar> suited;  ///< by species as in the table; those whose bloom is at risk
                                       ///< are named with the rest and told apart by `frost`
  std::vector<FailingTree> failing;    ///< in the order given
  bool few_winters = false;
};

/// One cultivar of a tree that stands here, with what it is judged by.
struct SiteTree {
  const Tree* tree = nullptr;
  const PartVerdict* part = nullptr;
  const BloomFinding* bloom = nullptr;  ///< of this part; nullptr: of another
  const YearsFinding* years = nullptr;  ///< by the measure of its need; nullptr: none
  const SpringOutlook* outlook = nullptr;
};

/// What the orchard's own thermometer tells.
struct SiteWeather {
  std::vector<const YearsFinding*> years;
  const SpringOutlook* outlook = nullptr;
  const WinterChill* chill = nullptr;
  const WinterNights* nights = nullptr;
};

SiteFinding site_of(std::span<const SiteTree> trees, const SiteWeather& weather,
                    const Orchard& orchard);

inline constexpr int kLeastWintersOfSite = 5;

}  // namespace winterfolio
