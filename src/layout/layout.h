// A document becomes pages: blocks are set, broken into pages section by section, then head, foot,
// page numbers and the contents are filled in, once it is known how many pages there are.
#pragma once

#include <vector>

#include "base/diagnostic.h"
#include "document/block.h"
#include "document/words.h"
#include "drawing/frame.h"
#include "drawing/style.h"

namespace winterfolio {

struct LaidOut {
  std::vector<Frame> pages;         ///< each as large as the paper
  std::vector<Diagnostic> remarks;  ///< letters the font lacks, sections that did not fit
};

/// The pages of a document.
///
/// Sections start on new pages or run on; a section told to fit loses what matters least until it
/// does. Links and bookmarks are items of the frames. The same document gives the same pages.
LaidOut layout_document(const Document& document, const PageGeometry& page, const Style& style,
                        const FontMetrics& metrics, const Words& words);

}  // namespace winterfolio
