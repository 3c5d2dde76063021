// The marks charts are made of, one small function each. Places are in points of the frame they
// draw into.
#pragma once

#include <string>
#include <vector>

#include "charts/pen.h"
#include "charts/scale.h"
#include "charts/ticks.h"

namespace winterfolio {

/// A line through points; fewer than two draw nothing.
void line_mark(Frame& frame, const std::vector<Point>& points, const Stroke& stroke);

/// The area between two lines that run side by side.
void band_mark(Frame& frame, const std::vector<Point>& upper, const std::vector<Point>& lower,
               Colour ink);

/// A filled box from one corner to the other.
void bar_mark(Frame& frame, double x0, double y0, double x1, double y1, Colour ink);
/// A hatched box with an outline.
void hatched_bar(Frame& frame, double x0, double y0, double x1, double y1, Colour ink,
                 const Style& style);
/// An empty box; the outline lies inside.
void outlined_bar(Frame& frame, double x0, double y0, double x1, double y1, const Stroke& stroke);
/// A tinted box with its outline.
void tinted_bar(Frame& frame, double x0, double y0, double x1, double y1, const Style& style);

/// An upright line with strokes across its ends: what an amount may be.
void whisker_mark(Frame& frame, double x, double y0, double y1, double half_width,
                  const Stroke& stroke);
/// The same lying down, as for a span of days.
void span_mark(Frame& frame, double x0, double x1, double y, double half_height,
               const Stroke& stroke);
/// A bracket hung over a range: up from both ends and across the top.
void bracket_mark(Frame& frame, double x0, double x1, double top, double foot,
                  const Stroke& stroke);

/// A range around a value, as in measurements: a thin line with ends, cased in white.
void error_mark(Frame& frame, double x0, double x1, double y, const Style& style);

/// A small ring, white inside.
void ring_mark(Frame& frame, double x, double y, const Style& style);
void dot_mark(Frame& frame, double x, double y, double radius, Colour ink);

/// An upright axis at its left: line, ticks outward, numbers.
void value_axis(Frame& frame, double x, const Scale& y, const Ticks& ticks, const Pen& pen);
/// How wide the numbers and ticks of a value axis are.
double value_axis_width(const Ticks& ticks, const Pen& pen);

/// An axis of days: months named at their middles, month ends as long ticks, every seventh day as a
/// short one. Drawn from `y` down; it takes kTimeAxisHeight.
void time_axis(Frame& frame, double y, const TimeScale& x, const Pen& pen);
constexpr double kTimeAxisHeight = 16.0;

/// One stretch of an axis that lies within one month.
struct MonthPart {
  Date first{};
  Date last{};
};
std::vector<MonthPart> months_of(Date first, Date last);

/// The month's name as long as the room allows: whole, brief, or nothing.
std::string month_label(const MonthPart& part, double room, const TextStyle& look, const Pen& pen);

}  // namespace winterfolio
