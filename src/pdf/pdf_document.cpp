#include "pdf/pdf_document.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <fstream>
#include <map>
#include <sstream>
#include <stdexcept>
#include <utility>
#include <vector>

#include "base/utf8.h"
#include "pdf/finish.h"
#include "pdf/haru.h"
#include "pdf/pdf_error.h"

namespace winterfolio {

namespace {

TrueTypeFont read_font(const std::string& file) {
  std::ifstream in(file, std::ios::binary);
  std::ostringstream copy;
  if (in) copy << in.rdbuf();
  std::string bytes = std::move(copy).str();
  if (!in || bytes.empty())
    throw PdfError(fmt::format("the font file {} cannot be read", file),
                   "install the package fonts-lato");
  return TrueTypeFont(std::move(bytes), file);
}

/// "/usr/share/.../Lato-Bold.ttf" -> "Lato-Bold", which is also what the font calls itself.
std::string stem(const std::string& file) {
  const std::size_t slash = file.find_last_of('/');
  const std::string name = slash == std::string::npos ? file : file.substr(slash + 1);
  return name.substr(0, name.find_last_of('.'));
}

/// A place that links and bookmarks lead to.
struct Place {
  std::size_t page = 0;
  Point at;
  const Anchor* anchor = nullptr;
};

struct FoundLink {
  std::size_t page = 0;
  Point at;
  const Link* link = nullptr;
};

/// Everything on the pages that is led to or leads away, in reading order.
struct Jumps {
  std::vector<Place> places;
  std::vector<FoundLink> links;

  void find(const std::vector<Placed>& items, std::size_t page, Point at) {
    for (const Placed& placed : items) {
      const Point here = at + placed.at;
      if (const auto* anchor = std::get_if<Anchor>(&placed.item))
        places.push_back({page, here, anchor});
      if (const auto* link = std::get_if<Link>(&placed.item)) links.push_back({page, here, link});
      if (const auto* group = std::get_if<Group>(&placed.item)) find(group->items, page, here);
    }
  }
};

}  // namespace

FontFiles lato_fonts(const std::string& folder) {
  return {folder + "/Lato-Regular.ttf", folder + "/Lato-Bold.ttf"};
}

/// The library's document with its pages.
struct PdfDocument::Library {
  explicit Library(FontFiles font_files) : files(std::move(font_files)) {}

  /// A page, empty as far as the library knows.
  struct Page {
    HPDF_Page page;
    Length height;
    HPDF_REAL y(Length from_top) const { return rounded(height - from_top); }
  };

  static HPDF_REAL rounded(Length length) {
    if (!std::isfinite(length.pt())) throw std::logic_error("a link's place is not a number");
    return static_cast<HPDF_REAL>(std::round(length.pt() * 100.0) / 100.0);
  }

  HPDF_Destination destination(const Place& place) {
    const Page& page = pages.at(place.page);
    HPDF_Destination destination = HPDF_Page_CreateDestination(page.page);
    HPDF_Destination_SetXYZ(destination, 0, std::max(page.y(place.at.y), 0.0F),
                            1);  // the second pass drops the zoom
    document.check("setting a bookmark");
    return destination;
  }

  void add_bookmarks(const Jumps& jumps) {
    HPDF_Encoder utf8 = HPDF_GetEncoder(document.get(), "UTF-8");
    std::vector<HPDF_Outline> open;  // the last bookmark of each level so far
    for (const Place& place : jumps.places) {
      if (place.anchor->title.empty()) continue;
      const auto level =
          std::min(static_cast<std::size_t>(std::max(0, place.anchor->level)), open.size());
      open.resize(level);
      HPDF_Outline bookmark = HPDF_CreateOutline(document.get(), level == 0 ? nullptr : open.back(),
                                                 place.anchor->title.c_str(), utf8);
      document.check("adding a bookmark");
      HPDF_Outline_SetDestination(bookmark, destination(place));
      HPDF_Outline_SetOpened(bookmark, level == 0 ? HPDF_TRUE : HPDF_FALSE);
      document.check("adding a bookmark");
      open.push_back(bookmark);
    }
  }

  void add_links(const Jumps& jumps) {
    std::map<std::string, const Place*, std::less<>> by_name;
    for (const Place& place : jumps.places) by_name.emplace(place.anchor->name, &place);
    for (const FoundLink& found : jumps.links) add_link(found, by_name);
  }

  void add_link(const FoundLink& found,
                const std::map<std::string, const Place*, std::less<>>& by_name) {
    const Page& page = pages.at(found.page);
    const Length right = found.at.x + found.link->size.width,
                 bottom = found.at.y + found.link->size.height;
    const HPDF_Rect box = {rounded(found.at.x), page.y(bottom), rounded(right), page.y(found.at.y)};
    const std::string& target = found.link->target;
    HPDF_Annotation annotation;
    if (target.starts_with('#')) {
      const auto place = by_name.find(std::string_view(target).substr(1));
      if (place == by_name.end())
        throw std::logic_error("a link leads to '" + target + "', which is nowhere");
      annotation = HPDF_Page_CreateLinkAnnot(page.page, box, destination(*place->second));
    } else {
      annotation = HPDF_Page_CreateURILinkAnnot(page.page, box, target.c_str());
    }
    document.check("adding a link");
    HPDF_LinkAnnot_SetBorderStyle(annotation, 0, 0, 0);
    document.check("adding a link");
  }

  FontFiles files;
  HaruDocument document;
  std::vector<Page> pages;
};

PdfDocument::PdfDocument(const FontFiles& fonts)
    : fonts_{read_font(fonts.regular), read_font(fonts.bold)},
      library_(std::make_unique<Library>(fonts)) {}

PdfDocument::~PdfDocument() = default;

Length PdfDocument::advance(Face face, Length size, std::string_view text) const {
  const TrueTypeFont& font = this->font(face);
  long thousandths = 0;
  for (std::size_t i = 0; i < text.size();) thousandths += font.advance(next_letter(text, i));
  return size * (static_cast<double>(thousandths) / 1000.0);
}

bool PdfDocument::covers(Face face, char32_t letter) const { return font(face).covers(letter); }
Length PdfDocument::ascent(Face face, Length size) const {
  return size * (font(face).ascent() / 1000.0);
}
Length PdfDocument::descent(Face face, Length size) const {
  return size * (font(face).descent() / 1000.0);
}
Length PdfDocument::cap_height(Face face, Length size) const {
  return size * (font(face).cap_height() / 1000.0);
}
Length PdfDocument::x_height(Face face, Length size) const {
  return size * (font(face).x_height() / 1000.0);
}

std::string PdfDocument::write(std::span<const Frame> pages, const PdfInfo& info) {
  if (pages.empty()) throw std::logic_error("a report without pages was to be written");
  if (!library_->pages.empty()) throw std::logic_error("a document was to be written twice");
  Jumps jumps;
  UsedLetters used;
  std::vector<std::string> contents;
  for (std::size_t i = 0; i < pages.size(); ++i) {
    const Size paper = pages[i].size();
    PageContent content(paper.height, used);
    content.draw(pages[i]);
    contents.push_back(content.take());
    library_->pages.push_back(
        {library_->document.add_page(paper.width.pt(), paper.height.pt()), paper.height});
    jumps.find(pages[i].items(), i, {});
  }
  library_->add_bookmarks(jumps);
  library_->add_links(jumps);
  bool has_bookmarks = false;
  for (const Place& place : jumps.places)
    has_bookmarks = has_bookmarks || !place.anchor->title.empty();
  const std::array<FinishedFace, 2> faces = {
      FinishedFace{stem(library_->files.regular), &fonts_[0]},
      FinishedFace{stem(library_->files.bold), &fonts_[1]}};
  return finish_pdf(library_->document.save(), contents, info, used, faces, has_bookmarks);
}

}  // namespace winterfolio
