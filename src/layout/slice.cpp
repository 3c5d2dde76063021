#include "layout/slice.h"

#include <algorithm>
#include <cmath>

#include "charts/charts.h"

namespace winterfolio {

Length half_lines_up(Length length, const Tools& tools) {
  const Length half = tools.page.half_line();
  return half * std::ceil(length / half - 1e-6);
}

Length stacked_height(const Slices& slices) {
  Length height;
  for (std::size_t i = 0; i < slices.size(); ++i) {
    height += slices[i].frame.height();
    if (i > 0) height += slices[i].air;
  }
  return height;
}

void draw_elastic(Slice& slice, Length height, const Tools& tools) {
  if (!slice.elastic) return;
  const ElasticChart& elastic = *slice.elastic;
  Frame chart = draw_chart(*elastic.chart, {elastic.width, height}, tools.metrics, tools.style, tools.words);
  slice.frame.place({{}, slice.elastic_top}, std::move(chart));
  slice.elastic.reset();
}

Frame stacked(Slices slices, const Tools& tools) {
  Length width, y;
  for (const Slice& slice : slices) width = std::max(width, slice.frame.width());
  Frame all({width, stacked_height(slices)});
  for (std::size_t i = 0; i < slices.size(); ++i) {
    Slice& slice = slices[i];
    if (i > 0) y += slice.air;
    const Length height = slice.frame.height();
    if (slice.elastic) draw_elastic(slice, height - slice.elastic_top, tools);
    all.place({{}, y}, std::move(slice.frame));
    y += height;
  }
  return all;
}

TextRun page_reference(const std::string& anchor, const TextStyle& style) {
  return {style.face, style.size, style.colour, '\x1A' + anchor, {}};
}

}  // namespace winterfolio
