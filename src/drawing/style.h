// Every measure of the page's look, in one place: grid, type, inks, lines, hatches. Nothing that
// draws holds a number of its own that belongs here.
#pragma once

#include <array>

#include "drawing/frame.h"
#include "drawing/hatch.h"

namespace winterfolio {

/// The sheet and the part of it that carries text. Twelve columns; text on a baseline counted from
/// the top edge.
struct PageGeometry {
  Size paper;
  Length left = Length::millimetres(22);  ///< room for punch holes
  Length right = Length::millimetres(16);
  Length line = Length::points(13);  ///< from baseline to baseline
  int columns = 12;
  Length gutter = Length::millimetres(4);
  int head_line = 3;  ///< baselines counted from the top edge
  int first_line = 5;
  int last_line = 57;
  Length foot;  ///< baseline of the foot

  constexpr Length half_line() const { return line / 2.0; }
  constexpr Length measure() const { return paper.width - left - right; }
  /// Width of `span` neighbouring columns with the gutters between them.
  constexpr Length width_of(int span) const {
    const Length one = (measure() - gutter * (columns - 1)) / columns;
    return one * span + gutter * (span - 1);
  }
  /// Left edge, from the left of the measure, of the column after `before` columns.
  constexpr Length offset_of(int before) const { return width_of(before) + gutter; }
};

/// US Letter, 612 x 792 pt, and ISO 216 A4, 210 x 297 mm.
constexpr PageGeometry letter_geometry() {
  PageGeometry g;
  g.paper = {Length::points(612), Length::points(792)};
  g.last_line = 57;
  g.foot = Length::points(760.5);
  return g;
}
constexpr PageGeometry a4_geometry() {
  PageGeometry g;
  g.paper = {Length::millimetres(210), Length::millimetres(297)};
  g.last_line = 60;
  g.foot = Length::points(799.5);
  return g;
}

struct Style {
  // Inks. Colour is a courtesy: violet, orange, tint and white stay four steps apart on a grey
  // copy.
  Colour black = grey(0);
  Colour white = grey(255);
  Colour violet{43, 38, 110};   ///< cold, and this winter
  Colour orange{176, 82, 20};   ///< warmth, bloom, frost harm
  Colour tint{240, 212, 184};   ///< light orange, always outlined in orange
  Colour secondary = grey(82);  ///< text beside the main thing
  Colour hairline = grey(150);  ///< month lines, thumbnails
  Colour band = grey(226);      ///< the middle of past winters
  Colour past = grey(190);      ///< bars of past winters
  Colour stem = grey(150);      ///< a day's range where it says nothing

  // Type, size on leading.
  TextStyle body = text(9.5, 13);
  TextStyle note = text(8.5, 11);            ///< notes, dense tables, chart labels
  TextStyle unit_line = grey_text(8.5, 11);  ///< under a chart's title; running head and foot
  TextStyle tiny = text(8, 10);              ///< map ids, key words, bar labels; the floor
  TextStyle lead = text(12, 16);
  TextStyle verdict = text(15, 19.5);
  TextStyle chart_title = bold_text(12, 13);
  TextStyle subheading = bold_text(9.5, 13);
  TextStyle section = bold_text(15, 19.5);
  TextStyle title = bold_text(24, 28);
  TextStyle over_title = text(12, 13);
  TextStyle big_figure = bold_text(22, 26);
  TextStyle big_figure_narrow = bold_text(19.5, 26);
  TextStyle card_id = bold_text(15, 19.5);
  TextStyle card_name = bold_text(12, 13);
  TextStyle outdoor = text(11.5, 17);  ///< sheets read at arm's length
  TextStyle outdoor_id = bold_text(16, 19.5);
  Length smallest = Length::points(8);

  // Lines.
  Stroke rule = line(0.6);  ///< tables, cards, blocks of figures
  Stroke axis = line(0.5);
  Stroke grid = line_in(0.25, grey(150));
  Stroke month_line = line_in(0.4, grey(190));
  Stroke this_winter = line_in(1.6, Colour{43, 38, 110});
  Stroke median = dashed(0.8, 4, 2);
  Stroke extreme = line(0.4);
  Stroke forecast_middle = dashed(1.0, 1, 2, Colour{43, 38, 110});
  Stroke forecast_edge = dashed(0.5, 1, 2, Colour{43, 38, 110});
  Stroke leader = line_in(0.3, grey(82));
  Stroke last_reading = line(0.8);
  Stroke unknown_outline = dashed(0.7, 1, 1);
  Stroke blank = line(0.6);     ///< a line to write on
  Stroke tick_box = line(0.9);  ///< a box to tick outdoors
  Stroke tick_box_indoors = line(0.6);
  Length tick = Length::points(3);
  Length month_tick = Length::points(5);
  Length week_tick = Length::points(2);
  Stroke outline(Colour ink) const { return line_in(0.6, ink); }

  // Hatches at 45°: in areas, and in bars and squares under 9 pt, where thinner lines vanish.
  Hatch area_hatch{Length::points(2.2), line(0.4)};
  Hatch small_hatch{Length::points(1.8), line(0.7)};

  // Marks.
  Length tally_square = Length::points(11.5);
  Length tally_pitch = Length::points(14.1);
  Length label_square = Length::points(6.6);
  Length verdict_square = Length::points(7.6);
  Length indoor_box = Length::points(7);
  Length outdoor_box = Length::millimetres(5);
  Length writing_gap = Length::millimetres(9);

  // Charts. Eight classes of hourly temperature, coldest first, even steps of luminance; the lines
  // between them.
  std::array<Colour, 8> cold_classes{{{22, 18, 66},
                                      {46, 41, 112},
                                      {84, 80, 146},
                                      {122, 118, 172},
                                      {172, 165, 192},
                                      {214, 204, 208},
                                      {243, 226, 206},
                                      {255, 246, 232}}};
  Stroke freezing_border = line_in(1.1, grey(255));
  Stroke chill_border = line_in(0.6, grey(255));
  Stroke warm_border = line_in(0.35, Colour{150, 120, 90});
  Stroke sun_case = line_in(2.2, grey(255));
  Stroke sun_line = line(0.9);
  Stroke week_mark = line(0.35);
  Stroke workday_line = dashed(0.5, 1, 2, grey(120));
  Stroke last_frost_line = dashed(0.8, 3, 3, Colour{176, 82, 20});
  Stroke no_date = dashed(0.8, 1, 2, Colour{43, 38, 110});
  Stroke frost_possible = dashed(0.8, 1, 2, Colour{176, 82, 20});
  Stroke bracket = line(1.0);                 ///< the time to prune, a need
  Stroke bracket_unsure = dashed(1.0, 2, 1);  ///< a need from memory
  Length label_gap = Length::points(12.2);    ///< between labels pooled in a column, at least
  Length ring = Length::points(1.9);          ///< radius of the ring where a need was met

 private:
  static constexpr TextStyle text(double size, double leading) {
    return {Face::regular, Length::points(size), Length::points(leading), Colour{}};
  }
  static constexpr TextStyle grey_text(double size, double leading) {
    return {Face::regular, Length::points(size), Length::points(leading), Colour{82, 82, 82}};
  }
  static constexpr TextStyle bold_text(double size, double leading) {
    return {Face::bold, Length::points(size), Length::points(leading), Colour{}};
  }
  static constexpr Stroke line(double width) { return {Length::points(width)}; }
  static constexpr Stroke line_in(double width, Colour ink) { return {Length::points(width), ink}; }
  static constexpr Stroke dashed(double width, std::uint16_t on, std::uint16_t off,
                                 Colour ink = {}) {
    return {Length::points(width), ink, Dash{on, off}};
  }
};

}  // namespace winterfolio
