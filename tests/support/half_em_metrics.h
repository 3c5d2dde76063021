// Letters that can be measured by hand: every one is half its type size wide.
#pragma once

#include "base/utf8.h"
#include "drawing/font_metrics.h"

namespace winterfolio::test {

/// 10 pt type: each letter 5 pt wide, a capital 7 high, a small letter 5. `missing` letters are not
/// covered.
class HalfEmMetrics final : public FontMetrics {
 public:
  HalfEmMetrics() = default;
  explicit HalfEmMetrics(std::u32string missing) : missing_(std::move(missing)) {}

  Length advance(Face, Length size, std::string_view text) const override {
    return size * (0.5 * static_cast<double>(letter_count(text)));
  }
  bool covers(Face, char32_t letter) const override {
    return missing_.find(letter) == std::u32string::npos;
  }
  Length ascent(Face, Length size) const override { return size * 0.9; }
  Length descent(Face, Length size) const override { return size * 0.2; }
  Length cap_height(Face, Length size) const override { return size * 0.7; }
  Length x_height(Face, Length size) const override { return size * 0.5; }

 private:
  std::u32string missing_;
};

}  // namespace winterfolio::test
