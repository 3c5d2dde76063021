// Charts: a description of what is to be seen (document/chart.h) becomes a frame of lines, areas
// and words.
//
// Every chart is put together from the same few things: a scale for each axis (charts/scale.h),
// round numbers on it (charts/ticks.h), one small function a mark (charts/marks.h), and labels that
// find a place of their own (charts/labels.h). They read without colour: by width of line, hatch,
// position and a word at the thing it names.
//
// To add a kind: its struct in document/chart.h, its file here with one function, and a line in
// charts.cpp.
#pragma once

#include <memory>
#include <optional>
#include <utility>

#include "document/chart.h"
#include "document/words.h"
#include "drawing/frame.h"
#include "drawing/style.h"

namespace winterfolio {

/// Draws a chart.
///
/// room     width: what the frame will be wide. height: what it may be high; 0 lets the chart
/// choose (chart_height).
///          Strips, bars, keys, tallies, ranks and calendars are as high as their content whatever
///          the room.
/// returns  a frame `room.width` wide. Labels that found no place are listed in its last line.
/// errors   none; what a chart lacks is not drawn
Frame draw_chart(const Chart& chart, Size room, const FontMetrics& metrics, const Style& style,
                 const Words& words);

/// Whether a chart takes the height it is given. The others are drawn once: their height is known
/// only then, and nothing changes it.
bool takes_height(const Chart& chart);

/// How high a chart asks to be at this width.
Length chart_height(const Chart& chart, Length width, const FontMetrics& metrics,
                    const Style& style, const Words& words);

/// For charts of rows (calendars, ranks, tallies) that are higher than the room: the part that fits
/// and the rest. Rows are never cut; a species' rows part only where they fill the room alone.
/// Nothing if the chart fits, cannot break, or not even its first row fits.
std::optional<std::pair<std::shared_ptr<const Chart>, std::shared_ptr<const Chart>>> break_chart(
    const Chart& chart, Size room, const FontMetrics& metrics, const Style& style,
    const Words& words);

}  // namespace winterfolio
