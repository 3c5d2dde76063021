// What every part of layout works with: the letters' measures, the look, the words, the sheet, and
// a place to say what could not be printed as it was meant.
#pragma once

#include <set>
#include <string>
#include <utility>
#include <vector>

#include "base/diagnostic.h"
#include "document/words.h"
#include "drawing/font_metrics.h"
#include "drawing/style.h"

namespace winterfolio {

/// Things said once however often they are met.
class Remarks {
 public:
  void add(Diagnostic diagnostic);
  std::vector<Diagnostic> take() { return std::move(list_); }

 private:
  std::vector<Diagnostic> list_;
  std::set<std::string> seen_;
};

struct Tools {
  const FontMetrics& metrics;
  const Style& style;
  const Words& words;
  const PageGeometry& page;
  Remarks& remarks;
  bool outdoor = false;
};

/// The width something is set in. Compact is the inside of cards: small type with its own rhythm.
struct Room {
  Length width;
  bool compact = false;
};

/// Text with every letter a face lacks replaced: by its plain neighbour (a no-break hyphen becomes
/// a hyphen), else by a lozenge; said in the remarks. A gap that keeps words together becomes a
/// blank of its width.
std::string drawable(std::string text, Face face, const Tools& tools);

}  // namespace winterfolio
