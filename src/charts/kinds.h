// The chart kinds, one function each. `room.height` 0 means that the chart chooses.
#pragma once

#include <optional>
#include <utility>

#include "charts/pen.h"
#include "document/chart.h"

namespace winterfolio {

Frame draw(const ChillBuildUp& chart, Size room, const Pen& pen);
Frame draw(const RankedWinters& chart, Size room, const Pen& pen);
Frame draw(const WeeklyGain& chart, Size room, const Pen& pen);
Frame draw(const HourRaster& chart, Size room, const Pen& pen);
Frame draw(const DailyRange& chart, Size room, const Pen& pen);
Frame draw(const NeedBar& chart, Size room, const Pen& pen);
Frame draw(const SeasonStrip& chart, Size room, const Pen& pen);
Frame draw(const SeasonCalendar& chart, Size room, const Pen& pen);
Frame draw(const SeasonKey& chart, Size room, const Pen& pen);
Frame draw(const OrchardMap& chart, Size room, const Pen& pen);
Frame draw(const VerdictTally& chart, Size room, const Pen& pen);

/// The height that a chart chooses, where that can be told without drawing it.
Length own_height(const HourRaster& chart);

/// The part of a calendar that fits and the rest; nothing if all fits or nothing does.
std::optional<std::pair<SeasonCalendar, SeasonCalendar>> parted(const SeasonCalendar& chart,
                                                                Size room, const Pen& pen);
std::optional<std::pair<RankedWinters, RankedWinters>> parted(const RankedWinters& chart, Size room,
                                                              const Pen& pen);
std::optional<std::pair<VerdictTally, VerdictTally>> parted(const VerdictTally& chart, Size room,
                                                            const Pen& pen);

/// The part of the page that charts of one winter's days share, so that their days stand under each
/// other [pt].
struct DayAxis {
  static constexpr double kLeft = 42.0;   ///< room for what stands at the left of the plot
  static constexpr double kRight = 46.0;  ///< and at its right
};

}  // namespace winterfolio
