// The laws of the page (tests/support/page_laws.h), held on the season report of 200 orchards made
// by a seeded generator: real words, real letters, every section.
#include <set>

#include "base/embedded_files.h"
#include "layout/layout.h"
#include "orchard/tree_dates.h"
#include "pdf/pdf_document.h"
#include "readers/template_reader.h"
#include "readers/words_reader.h"
#include "report/registry.h"
#include "support/catch.h"
#include "support/page_laws.h"
#include "support/random_orchard.h"

using namespace winterfolio;
using namespace winterfolio::test;

namespace {

ReportTemplate season_template() {
  Diagnostics diagnostics;
  return read_template("season", "season.yaml", find_embedded_file("templates/season.yaml").value(),
                       section_ids(), diagnostics)
      .value();
}

/// What every orchard's pages are made with.
struct Press {
  PdfDocument lato{lato_fonts()};
  Words words = built_in_words("en");
  Style style;
  ReportTemplate report = season_template();

  LaidOut pages(const RandomSeason& season, const PageGeometry& page) const {
    const SeasonFacts facts = season_facts(season.orchard, season.record, season.today,
                                           season.files, season.utc_offset_minutes);
    return layout_document(report_document(report, facts), page, style, lato, words);
  }
};

PageGeometry paper_of(const Orchard& orchard) {
  return orchard.paper == Paper::letter ? letter_geometry() : a4_geometry();
}

std::string words_of(const std::vector<Frame>& pages) {
  std::string all;
  for (const Frame& page : pages) {
    for (const Ink& ink : inks_of(page)) all += ink.text + "\n";
  }
  return all;
}

/// Each tree that stands is named with its id, each page with its number.
Breaches left_unsaid(const RandomSeason& season, const std::vector<Frame>& pages) {
  const std::string all = words_of(pages);
  Breaches breaches;
  for (const Tree* tree : trees_standing_on(season.orchard, season.today.as_of)) {
    if (all.find(tree->id) == std::string::npos) breaches.push_back(tree->id + " is nowhere");
  }
  for (std::size_t i = 1; i <= pages.size(); ++i) {
    const std::string number = fmt::format("page {} of {}", i, pages.size());
    if (all.find(number) == std::string::npos) breaches.push_back("no '" + number + "'");
  }
  return breaches;
}

}  // namespace

TEST_CASE("the pages of 200 random orchards obey the laws of the page") {
  const Press press;
  std::size_t pages = 0;
  for (std::uint64_t seed = 1; seed <= 200; ++seed) {
    const auto season = random_season(seed);
    const PageGeometry page = paper_of(season->orchard);
    const LaidOut out = press.pages(*season, page);
    pages += out.pages.size();
    Breaches breaches = pages_with_voids(out.pages, page);
    for (std::size_t i = 0; i < out.pages.size(); ++i) {
      for (const std::string& one : breaches_of_page(out.pages[i], page, press.style))
        breaches.push_back(fmt::format("page {}: {}", i + 1, one));
    }
    for (std::string& one : left_unsaid(*season, out.pages)) breaches.push_back(std::move(one));
    for (const Diagnostic& remark : out.remarks) breaches.push_back(remark.message);
    for (const std::string& one : breaches) FAIL_CHECK("seed " << seed << ": " << one);
  }
  CHECK(pages > 200 * 6);
}
