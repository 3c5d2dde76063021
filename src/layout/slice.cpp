#include "layout/slice.h"

#include <algorithm>
#include <cmath>
#include <utility>

#include "charts/charts.h"

namespace winterfolio {

Length half_lines_up(Length length, const Tools& tools) {
  const Length half = tools.page.half_line();
  return half * std::ceil(length / half - 1e-6);
}

Length half_lines_down(Length length, const Tools& tools) {
  const Length half = tools.page.half_line();
  return half * std::floor(length / half + 1e-6);
}

Length bottom_of(const Slice& slice, Length top, const Tools& tools) {
  const Length bottom = top + slice.frame.height();
  return slice.back_to_grid ? half_lines_up(bottom, tools) : bottom;
}

Length stacked_height(const Slices& slices, const Tools& tools) {
  Length y;
  for (std::size_t i = 0; i < slices.size(); ++i)
    y = bottom_of(slices[i], i > 0 ? y + slices[i].air : y, tools);
  return y;
}

void draw_elastic(Slice& slice, Length height, const Tools& tools) {
  if (!slice.elastic) return;
  ElasticChart& elastic = *slice.elastic;
  Frame chart = elastic.drawn ? std::move(*elastic.drawn)
                              : draw_chart(*elastic.chart, {elastic.width, height}, tools.metrics,
                                           tools.style, tools.words);
  slice.frame.place({{}, slice.elastic_top}, std::move(chart));
  slice.elastic.reset();
}

void Placing::add(Point at, Slice& slice) {
  if (!slice.goes_on_beside) place_columns();
  into_.place(at, std::move(slice.frame));
  if (!slice.beside.empty()) waiting_.push_back({at, std::move(slice.beside)});
}

void Placing::place_columns() {
  const std::size_t columns = waiting_.empty() ? 0 : waiting_.front().columns.size();
  for (std::size_t c = 0; c < columns; ++c)
    for (Beside& part : waiting_) into_.place(part.at, std::move(part.columns[c]));
  waiting_.clear();
}

Frame stacked(Slices slices, const Tools& tools) {
  Length width, y;
  for (const Slice& slice : slices) width = std::max(width, slice.frame.width());
  Frame all({width, stacked_height(slices, tools)});
  Placing placing(all);
  for (std::size_t i = 0; i < slices.size(); ++i) {
    Slice& slice = slices[i];
    if (i > 0) y += slice.air;
    const Length bottom = bottom_of(slice, y, tools);
    if (slice.elastic) draw_elastic(slice, slice.frame.height() - slice.elastic_top, tools);
    placing.add({{}, y}, slice);
    y = bottom;
  }
  placing.end();
  return all;
}

TextRun page_reference(const std::string& anchor, const TextStyle& style) {
  return {style.face, style.size, style.colour, '\x1A' + anchor, {}};
}

}  // namespace winterfolio
