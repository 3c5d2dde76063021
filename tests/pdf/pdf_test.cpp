// The bytes of a PDF: complete, described, searchable and the same every time; judged by libqpdf,
// and by the common command-line tools where they are installed.
#include <clocale>
#include <cmath>
#include <cstdlib>
#include <filesystem>
#include <fstream>
#include <limits>
#include <set>

#define POINTERHOLDER_TRANSITION 4
#include <sys/stat.h>
#include <unistd.h>

#include <qpdf/Buffer.hh>
#include <qpdf/QPDF.hh>
#include <qpdf/QPDFOutlineDocumentHelper.hh>
#include <qpdf/QPDFPageDocumentHelper.hh>

#include "base/file_output.h"
#include "drawing/style.h"
#include "layout/layout.h"
#include "pdf/pdf_document.h"
#include "support/catch.h"
#include "support/sample_document.h"

namespace fs = std::filesystem;
using namespace winterfolio;
using namespace winterfolio::literals;
using namespace winterfolio::test;

namespace {

std::string sample_pdf(const PageGeometry& page = letter_geometry()) {
  PdfDocument pdf(lato_fonts());
  Phrases p;
  const Document document = sample_document(p);
  const Words words = p.words();
  const LaidOut out = layout_document(document, page, Style{}, pdf, words);
  return pdf.write(out.pages, {words.plain(document.title), words.plain(document.subject), "en",
                               "Winterfolio 0.0.0", date_of(2027, 1, 31)});
}

std::string one_page(const Frame& frame,
                     PdfInfo info = {"T", "", "en", "Winterfolio 0.0.0", std::nullopt}) {
  PdfDocument pdf(lato_fonts());
  const Frame pages[] = {frame};
  return pdf.write(pages, info);
}

Frame page_saying(const std::string& text) {
  const PdfDocument pdf(lato_fonts());
  Frame frame(letter_geometry().paper);
  add_text(frame, {72_pt, 72_pt}, Align::left, text, Style{}.body, pdf);
  return frame;
}

struct Opened {
  explicit Opened(std::string pdf_bytes) : bytes(std::move(pdf_bytes)) {
    pdf.setSuppressWarnings(true);
    pdf.processMemoryFile("test", bytes.data(), bytes.size());
  }
  std::string bytes;
  QPDF pdf;
  std::string content(std::size_t page) {
    auto pages = QPDFPageDocumentHelper(pdf).getAllPages();
    const auto buffer = pages.at(page).getObjectHandle().getKey("/Contents").getStreamData();
    return {reinterpret_cast<const char*>(buffer->getBuffer()), buffer->getSize()};
  }
};

/// A folder of its own, removed at the end, with a file in it.
struct Scratch {
  fs::path folder = fs::temp_directory_path() / ("winterfolio-pdf-" + std::to_string(::getpid()));
  Scratch() { fs::create_directories(folder); }
  ~Scratch() { fs::remove_all(folder); }
};

bool installed(const std::string& tool) {
  return std::system(("command -v " + tool + " >/dev/null 2>&1").c_str()) == 0;
}

/// What a command prints, both streams.
std::string printed_by(const std::string& command) {
  std::string out;
  FILE* pipe = ::popen((command + " 2>&1").c_str(), "r");
  if (!pipe) return out;
  char buffer[4096];
  for (std::size_t n; (n = std::fread(buffer, 1, sizeof buffer, pipe)) > 0;) out.append(buffer, n);
  ::pclose(pipe);
  return out;
}

}  // namespace

TEST_CASE("The file opens without a warning and says what it is") {
  Opened file(sample_pdf());
  CHECK(file.pdf.getWarnings().empty());
  CHECK(file.pdf.getPDFVersion() == "1.7");
  QPDFObjectHandle root = file.pdf.getRoot(), info = file.pdf.getTrailer().getKey("/Info");
  CHECK(root.getKey("/Lang").getUTF8Value() == "en");
  CHECK(root.getKey("/ViewerPreferences").getKey("/DisplayDocTitle").getBoolValue());
  CHECK(info.getKey("/Title").getUTF8Value() == "The winter of 2026–27 at Harrow Bottom Orchard");
  CHECK(info.getKey("/Producer").getUTF8Value() == "Winterfolio 0.0.0");
  CHECK(info.getKey("/CreationDate").getUTF8Value() == "D:20270131000000+00'00'");
  const auto buffer = root.getKey("/Metadata").getStreamData();
  const std::string xmp(reinterpret_cast<const char*>(buffer->getBuffer()), buffer->getSize());
  CHECK(xmp.find("The winter of 2026–27 at Harrow Bottom Orchard") != std::string::npos);
  CHECK(xmp.find("<pdf:Producer>Winterfolio 0.0.0</pdf:Producer>") != std::string::npos);
  CHECK(xmp.find("<xmp:CreateDate>2027-01-31T00:00:00+00:00</xmp:CreateDate>") !=
        std::string::npos);
}

TEST_CASE("Without a date from the input the file carries none, and metadata escapes its marks") {
  Opened file(one_page(page_saying("x"), {"A & B < C", "", "en", "W", std::nullopt}));
  CHECK(!file.pdf.getTrailer().getKey("/Info").hasKey("/CreationDate"));
  const auto buffer = file.pdf.getRoot().getKey("/Metadata").getStreamData();
  const std::string xmp(reinterpret_cast<const char*>(buffer->getBuffer()), buffer->getSize());
  CHECK(xmp.find("A &amp; B &lt; C") != std::string::npos);
  CHECK(xmp.find("CreateDate") == std::string::npos);
}

TEST_CASE("Two faces at most are embedded, each with a map of exactly the letters used") {
  Opened file(one_page(page_saying("Ferragnès 3\u2009%")));
  int fonts = 0;
  for (QPDFObjectHandle object : file.pdf.getAllObjects()) {
    if (!object.isDictionary() || !object.getKey("/Subtype").isNameAndEquals("/Type0")) continue;
    ++fonts;
    const auto buffer = object.getKey("/ToUnicode").getStreamData();
    const std::string map(reinterpret_cast<const char*>(buffer->getBuffer()), buffer->getSize());
    CHECK(map.find("<00E8> <00E8>") != std::string::npos);
    CHECK(map.find("<2009> <0020>") != std::string::npos);  // a thin gap is found as a blank
    CHECK(map.find("<0051>") == std::string::npos);         // no Q here
    CHECK(map.find("begincidrange") == std::string::npos);
    QPDFObjectHandle inner = object.getKey("/DescendantFonts").getArrayItem(0);
    CHECK(inner.getKey("/FontDescriptor").hasKey("/FontFile2"));
    CHECK(inner.getKey("/FontDescriptor").getKey("/CapHeight").getIntValue() > 600);
    CHECK(!inner.hasKey("/DW2"));
  }
  CHECK(fonts == 1);  // the bold face is not used, so not embedded
}

TEST_CASE("The y axis is turned over once, and places are hundredths of a point") {
  Frame frame({200_pt, 100_pt});
  frame.line({10.004_pt, 20_pt}, {Length::points(30.0 + 1.0 / 3), 20_pt}, {0.6_pt});
  const std::string content = Opened(one_page(frame)).content(0);
  CHECK(content.find("10 80 m") != std::string::npos);
  CHECK(content.find("30.33 80 l") != std::string::npos);
  CHECK(content.find(".6 w") != std::string::npos);
}

TEST_CASE("Numbers in content keep their value when the library's noise is taken off") {
  Frame frame({600_pt, 800_pt});
  for (int i = 0; i < 400; ++i) {
    const double x = 0.37 + 1.37 * i, y = 799.99 - 1.93 * i;
    if (y > 0) frame.line(pt_at(x, y), pt_at(x + 0.01, y), {0.25_pt});
  }
  const std::string content = Opened(one_page(frame)).content(0);
  std::istringstream in(content);
  std::vector<std::string> last;
  int checked = 0;
  for (std::string token; in >> token;) {
    if (token == "m" && last.size() >= 2) {
      const double x = 0.37 + 1.37 * checked, y = 800 - (799.99 - 1.93 * checked);
      CHECK(std::strtod(last[last.size() - 2].c_str(), nullptr) == Approx(x).margin(0.0051));
      CHECK(std::strtod(last.back().c_str(), nullptr) == Approx(y).margin(0.0051));
      ++checked;
    }
    last.push_back(token);
  }
  CHECK(checked > 350);
}

TEST_CASE("What a clip sets does not leak out of it") {
  const Style style;
  Frame frame({200_pt, 100_pt});
  frame.stroke_rect({{1_pt, 1_pt}, {10_pt, 10_pt}}, {1_pt, style.orange});
  hatch_shape(frame, circle_path({50_pt, 50_pt}, 20_pt), style.area_hatch);
  frame.stroke_rect({{1_pt, 1_pt}, {10_pt, 10_pt}}, {1_pt, style.orange});
  const std::string content = Opened(one_page(frame)).content(0);
  // After Q the orange pen is still set, so the last box sets nothing.
  const std::string after = content.substr(content.rfind("Q\n"));
  CHECK(after.find("RG") == std::string::npos);
  CHECK(after.find(" w") == std::string::npos);
}

TEST_CASE("Bookmarks nest, links lead to their places and keep the reader's zoom") {
  Frame first({600_pt, 800_pt}), second({600_pt, 800_pt});
  first.add({50_pt, 60_pt}, Anchor{"a", "Übersicht – Żółć ½", 0});
  first.add({50_pt, 90_pt}, Link{{100_pt, 13_pt}, "#b"});
  first.add({50_pt, 120_pt}, Link{{100_pt, 13_pt}, "https://example.org/a?b=c"});
  second.add({50_pt, 70_pt}, Anchor{"b", "Below", 1});
  second.add({50_pt, 70_pt}, Anchor{"silent", "", 0});
  PdfDocument pdf(lato_fonts());
  const Frame pages[] = {first, second};
  Opened file(pdf.write(pages, {"T", "", "en", "W", std::nullopt}));
  QPDFOutlineDocumentHelper outlines(file.pdf);
  const auto top = outlines.getTopLevelOutlines();
  REQUIRE(top.size() == 1);
  auto outline = top[0];
  CHECK(outline.getTitle() == "Übersicht – Żółć ½");
  REQUIRE(outline.getKids().size() == 1);
  CHECK(outline.getKids()[0].getTitle() == "Below");
  CHECK(file.pdf.getRoot().getKey("/PageMode").isNameAndEquals("/UseOutlines"));
  QPDFObjectHandle page = QPDFPageDocumentHelper(file.pdf).getAllPages()[0].getObjectHandle();
  QPDFObjectHandle links = page.getKey("/Annots");
  REQUIRE(links.getArrayNItems() == 2);
  QPDFObjectHandle destination = links.getArrayItem(0).getKey("/Dest");
  CHECK(destination.getArrayItem(3).getNumericValue() == Approx(730.0));  // 800 - 70
  CHECK(destination.getArrayItem(4).isNull());
  CHECK(links.getArrayItem(0).getKey("/F").getIntValue() == 4);
  CHECK(links.getArrayItem(1).getKey("/A").getKey("/URI").getUTF8Value() ==
        "https://example.org/a?b=c");
}

TEST_CASE("What cannot be drawn is a fault of the program") {
  Frame nowhere({100_pt, 100_pt});
  nowhere.line({Length::points(std::nan("")), {}}, {1_pt, 1_pt}, {1_pt});
  CHECK_THROWS_AS(one_page(nowhere), std::logic_error);
  Frame far_off({100_pt, 100_pt});
  far_off.line({Length::points(std::numeric_limits<double>::infinity()), {}}, {1_pt, 1_pt}, {1_pt});
  CHECK_THROWS_AS(one_page(far_off), std::logic_error);
  Frame lost({100_pt, 100_pt});
  lost.add({}, Link{{1_pt, 1_pt}, "#nowhere"});
  CHECK_THROWS_AS(one_page(lost), std::logic_error);
  PdfDocument pdf(lato_fonts());
  CHECK_THROWS_AS(pdf.write({}, {}), std::logic_error);
}

TEST_CASE("The same bytes twice, whatever the locale, the time zone and the umask") {
  const std::string first = sample_pdf();
  const char* zone = std::getenv("TZ");
  const std::string zone_before = zone ? zone : "";
  ::setenv("TZ", "Pacific/Kiritimati", 1);
  const char* locale = std::setlocale(LC_ALL, "de_DE.UTF-8");
  const mode_t mask = ::umask(077);
  const std::string second = sample_pdf();
  ::umask(mask);
  std::setlocale(LC_ALL, "C");
  if (zone)
    ::setenv("TZ", zone_before.c_str(), 1);
  else
    ::unsetenv("TZ");
  if (!locale) WARN("the German locale is not installed; tried with the plain one");
  CHECK(first == second);
}

TEST_CASE("The common tools find nothing wrong: qpdf, pdffonts, pdftotext") {
  const Scratch scratch;
  const std::string path = (scratch.folder / "sample.pdf").string();
  write_file_atomically(path, sample_pdf());
  if (installed("qpdf")) {
    const std::string said = printed_by("qpdf --check " + path);
    INFO(said);
    CHECK(said.find("No syntax or stream encoding errors found") != std::string::npos);
    CHECK(said.find("WARNING") == std::string::npos);
  } else {
    WARN("skipped: qpdf is not installed");
  }
  if (!installed("pdffonts") || !installed("pdftotext")) {
    WARN("skipped: poppler-utils are not installed");
    return;
  }
  const std::string fonts = printed_by("pdffonts " + path);
  INFO(fonts);
  CHECK(fonts.find("Warning") == std::string::npos);
  int listed = 0;
  std::istringstream in(fonts);
  for (std::string line; std::getline(in, line);) {
    if (line.find("Lato") == std::string::npos) continue;
    ++listed;
    CHECK(line.find("yes yes yes") != std::string::npos);  // embedded, a subset, with a Unicode map
  }
  CHECK(listed == 2);
  const std::string text = printed_by("pdftotext -raw " + path + " -");
  CHECK(text.find("Warning") == std::string::npos);
  // In the order a person reads: title, verdict, figures, tasks; then the next page.
  std::size_t at = 0;
  for (const char* next :
       {"Harrow Bottom Orchard", "The winter of 2026–27", "Sixteen of the 34 trees",
        "Chill portions", "42–45", "What to do now", "Saturday 6 February", "two sheets",
        "How it was worked out", "Readings and what is missing", "What was set aside",
        "Needs and where they come from"}) {
    const std::size_t found = text.find(next, at);
    INFO(next);
    REQUIRE(found != std::string::npos);
    at = found;
  }
}

TEST_CASE("A page with a letter the font lacks is printed with a lozenge, and said") {
  PdfDocument pdf(lato_fonts());
  Document document;
  document.sections = {
      {"s", {Paragraph{Role::body, literal("Snow ☃ and no\u2011break")}}, true, std::nullopt}};
  const LaidOut out = layout_document(document, a4_geometry(), Style{}, pdf, test_words());
  REQUIRE(out.remarks.size() == 1);
  CHECK(out.remarks[0].id == "layout.missing-letter");
  const auto& run = std::get<TextRun>(out.pages[0].items()[0].item);
  CHECK(run.text == "Snow ◊ and no-break");
}

TEST_CASE("Broken UTF-8 in a name neither stops the pages nor spoils them") {
  PdfDocument pdf(lato_fonts());
  Document document;
  document.sections = {{"s", {Heading{1, literal("A\xFFz \xC3"), {}}}, true, std::nullopt}};
  const LaidOut out = layout_document(document, letter_geometry(), Style{}, pdf, test_words());
  Opened file(pdf.write(out.pages, {"A\xFFz", "", "en", "W", std::nullopt}));
  CHECK(file.pdf.getWarnings().empty());
}
