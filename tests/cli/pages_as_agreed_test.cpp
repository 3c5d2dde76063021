// The season report of a small orchard as a person last agreed to it: every page as text, with
// letters half an em wide, and three pages as pictures. Steadiness, not truth; what the pages say
// is held to hand-reckoned figures in tests/report.
#include <filesystem>

#include "layout/layout.h"
#include "pdf/pdf_document.h"
#include "readers/words_reader.h"
#include "report/registry.h"
#include "support/catch.h"
#include "support/frame_text.h"
#include "support/golden.h"
#include "support/half_em_metrics.h"
#include "support/picture.h"
#include "support/program.h"
#include "support/report_orchard.h"

using namespace winterfolio;
using namespace winterfolio::test;
namespace fs = std::filesystem;

namespace {

/// A section as a report of its own, and what is to be seen on its pages.
struct AgreedSection {
  std::string id;
  std::string to_be_seen;
};

/// What every page of a kept report has.
const char* const kEveryPage =
    "A running head with the orchard's name, but not over a title; a foot with the last reading "
    "and "
    "the page's number. ";

const std::vector<AgreedSection>& agreed_sections() {
  static const std::vector<AgreedSection> sections = {
      {"front",
       "The title; one sentence that counts ten trees by their states; a square for each of them, "
       "met first; this winter's line among four past ones with needs at the right; figures under "
       "one rule; what to do now, dated."},
      {"guide",
       "A map of four rows with a square a tree, a plain ring for the feijoa and a cross for the "
       "lost tree; what else to do this winter; contents beside how to read the pages."},
      {"hours",
       "A raster of 92 columns, dark for 18 hours a day and one darker hour in January; each day's "
       "range; thirteen bars of 126 hours; a sentence on the readings."},
      {"years", "This winter among four others, by place and by figure; no trend from so few."},
      {"trees",
       "Ten cards, two across, from A3, short, to C1, met: bar, season, cuts to tick or why there "
       "are none, a sentence or two."},
      {"calendar",
       "A row for each of eleven trees, by kinds: rest, cold met, time to prune, the workday; a "
       "key under it."},
      {"frost", "The one frost night against the buds, or that it took nothing."},
      {"explained", "Every cut in use with its stop rule, its trees and its source."},
      {"cautions",
       "Local rules, the label and licensed practice first; then ladder, saw, cold, disinfectant "
       "and minors, each line with its source."},
      {"readings",
       "One file with its counts; what was set aside; one doubt; no gap, so no table of gaps."},
      {"method",
       "How figures were reached, in short; measures, needs and windows with their sources; the "
       "sources once, in a list."}};
  return sections;
}

Document document_of(const SeasonFacts& facts, const std::string& section) {
  ReportTemplate report;
  report.name = "season";
  report.sections = {{section, true, std::nullopt}};
  return report_document(report, facts);
}

bool is_section(const std::string& id) {
  const auto ids = section_ids();
  return std::find(ids.begin(), ids.end(), id) != ids.end();
}

}  // namespace

TEST_CASE("every section of the season report has its pages kept") {
  for (const std::string_view id : section_ids()) {
    INFO(id);
    CHECK(std::any_of(agreed_sections().begin(), agreed_sections().end(),
                      [&](const AgreedSection& one) { return one.id == id; }));
  }
}

TEST_CASE("the pages of a small orchard are as agreed") {
  const auto orchard = report_orchard();
  const SeasonFacts facts = orchard->facts();
  const Words words = built_in_words("en");
  const HalfEmMetrics metrics;
  for (const AgreedSection& section : agreed_sections()) {
    if (!is_section(section.id)) continue;
    std::string text = "# " + (kEveryPage + section.to_be_seen) + "\n";
    const LaidOut out =
        layout_document(document_of(facts, section.id), letter_geometry(), Style{}, metrics, words);
    for (std::size_t i = 0; i < out.pages.size(); ++i)
      text += "page " + std::to_string(i + 1) + "\n" + frame_text(out.pages[i]);
    for (const Diagnostic& remark : out.remarks) text += "remark " + remark.message + "\n";
    check_golden("report/" + section.id + ".txt", text);
  }
}

TEST_CASE("three pages look as agreed on Debian 12") {
  if (!on_debian_12()) {
    WARN("skipped: pictures are kept for Debian 12 only, whose tools draw them the same each time");
    return;
  }
  if (std::system("command -v pdftoppm >/dev/null 2>&1") != 0) {
    WARN("skipped: pdftoppm is not installed");
    return;
  }
  const auto orchard = report_orchard();
  const SeasonFacts facts = orchard->facts();
  const Words words = built_in_words("en");
  const char* approve = std::getenv("WINTERFOLIO_APPROVE");
  const bool approving = approve && std::string(approve) == "1";
  const ScratchFolder scratch;
  for (const char* section : {"front", "hours", "calendar"}) {
    INFO(section);
    PdfDocument pdf(lato_fonts());
    const LaidOut out =
        layout_document(document_of(facts, section), letter_geometry(), Style{}, pdf, words);
    PdfInfo info;
    info.title = section;
    const std::string file =
        scratch.write(std::string(section) + ".pdf", pdf.write(out.pages, info));
    const auto drawn = draw_first_page(file, scratch.path());
    REQUIRE(drawn);
    const fs::path kept =
        fs::path(source_dir()) / "tests/goldens/pictures" / (std::string(section) + ".png");
    const fs::path now = fs::path(kept).concat(".now");
    if (approving) {
      fs::create_directories(kept.parent_path());
      write_grey_png(kept.string(), *drawn);
      fs::remove(now);
      continue;
    }
    const double differing =
        fs::exists(kept) ? share_differing(read_grey_png(kept.string()), *drawn) : 1.0;
    if (differing <= 0.001) {
      fs::remove(now);
      continue;
    }
    write_grey_png(now.string(), *drawn);
    FAIL_CHECK(differing * 100 << " % of the dots differ: look at " << kept.string() << " and "
                               << now.filename().string());
  }
}
