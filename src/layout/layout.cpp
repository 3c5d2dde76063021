#include "layout/layout.h"

#include <fmt/format.h>

#include <algorithm>
#include <map>

#include "layout/blocks.h"
#include "layout/lines.h"
#include "layout/pages.h"

namespace winterfolio {

namespace {

/// Headings of the first level anywhere in the blocks, numbered as set_blocks numbers them.
void find_headings(const Blocks& blocks, int& number, std::vector<ContentsLine>& contents,
                   const Words& words) {
  for (const Block& block : blocks) {
    if (const auto* heading = std::get_if<Heading>(&block.content)) {
      if (heading->level > 2) continue;
      if (heading->level == 1)
        contents.push_back({words.rich(heading->text), heading_anchor(number)});
      ++number;
    } else if (const auto* keep = std::get_if<KeepTogether>(&block.content)) {
      find_headings(keep->blocks, number, contents, words);
    } else if (const auto* boxed = std::get_if<Boxed>(&block.content)) {
      find_headings(boxed->blocks, number, contents, words);
    } else if (const auto* columns = std::get_if<Columns>(&block.content)) {
      for (const Columns::Column& column : columns->columns)
        find_headings(column.blocks, number, contents, words);
    }
  }
}

/// Of a page that is not the last of its sections.
constexpr double kMostVoid = 0.35;

Length air_between_sections(const PageGeometry& page) { return page.half_line() * 5.0; }

/// Sections that follow each other without a new page between them.
struct Run {
  Slices slices;
  std::optional<int> fit_pages;
  std::string id;  ///< of its first section
};

class Typesetter {
 public:
  Typesetter(const Document& document, const PageGeometry& page, const Style& style,
             const FontMetrics& metrics, const Words& words)
      : document_(document), page_(page), tools_{metrics, style,    words,
                                                 page,    remarks_, document.outdoor} {}

  LaidOut set() {
    int number = 0;
    for (const Section& section : document_.sections)
      find_headings(section.blocks, number, contents_, tools_.words);
    for (Run& run : set_runs()) place(run);
    for (std::size_t i = 0; i < pages_.size(); ++i) add_head_and_foot(i);
    resolve_references();
    return {std::move(pages_), remarks_.take()};
  }

 private:
  std::vector<Run> set_runs() {
    std::vector<Run> runs;
    Setting setting{tools_, contents_};
    int block = 0;
    for (const Section& section : document_.sections) {
      Slices slices = set_blocks(section.blocks, {page_.measure()}, setting);
      if (slices.empty()) continue;
      for (Slice& slice : slices) slice.block += block;
      block += static_cast<int>(section.blocks.size());
      if (!runs.empty() && section.new_page == false) {
        join(runs.back(), slices);
      } else if (runs.empty() || section.new_page == true || section.fit_pages ||
                 !joins_well(runs.back(), slices)) {
        runs.push_back({std::move(slices), section.fit_pages, section.id});
      }
    }
    return runs;
  }

  void join(Run& run, Slices& slices) const {
    slices.front().air = air_between_sections(page_);
    run.slices.back().break_cost = 0;
    for (Slice& slice : slices) run.slices.push_back(std::move(slice));
  }

  /// Joins a section to the run before it if that saves a page and leaves no further page but the
  /// last less full than a page should be; else leaves both as they are.
  bool joins_well(Run& run, Slices& slices) const {
    if (run.fit_pages || slices.front().starts_page) return false;
    const auto pages = [&](const Slices& of) { return plan_pages(of, room(), false, tools_); };
    const auto too_empty = [&](const std::vector<PagePlan>& plan) {
      return std::count_if(plan.begin(), std::prev(plan.end()), [&](const PagePlan& page) {
        return page.void_left > room() * kMostVoid;
      });
    };
    const std::vector<PagePlan> alone = pages(run.slices);
    const std::size_t apart = alone.size() + pages(slices).size();
    const auto empty_alone = too_empty(alone);
    const std::size_t before = run.slices.size();
    const Length air = slices.front().air;
    const double break_cost = run.slices.back().break_cost;
    join(run, slices);
    const std::vector<PagePlan> together = pages(run.slices);
    if (too_empty(together) <= empty_alone && together.size() < apart) return true;
    slices.assign(std::make_move_iterator(run.slices.begin() + static_cast<std::ptrdiff_t>(before)),
                  std::make_move_iterator(run.slices.end()));
    run.slices.resize(before);
    slices.front().air = air;
    run.slices.back().break_cost = break_cost;
    return false;
  }

  Length room() const {
    return page_.line * static_cast<double>(page_.last_line - page_.first_line + 1);
  }

  void place(Run& run) {
    bool tight = false;
    std::vector<PagePlan> plan = plan_pages(run.slices, room(), tight, tools_);
    if (run.fit_pages && static_cast<int>(plan.size()) > *run.fit_pages) plan = fit(run, tight);
    const Point origin{page_.left, page_.line * static_cast<double>(page_.first_line - 1)};
    for (const PagePlan& page : plan)
      pages_.push_back(compose_page(run.slices, page, origin, tight, tools_));
  }

  /// Less air first; then extras go, the last one first; then what is useful. The essential stays.
  std::vector<PagePlan> fit(Run& run, bool& tight) {
    tight = true;
    std::vector<PagePlan> plan = plan_pages(run.slices, room(), tight, tools_);
    const auto fits = [&] { return static_cast<int>(plan.size()) <= *run.fit_pages; };
    int dropped = 0;
    for (Importance least : {Importance::extra, Importance::useful}) {
      while (!fits() && drop_last(run.slices, least)) {
        ++dropped;
        plan = plan_pages(run.slices, room(), tight, tools_);
      }
    }
    if (dropped > 0)
      remark("layout.left-out",
             fmt::format("section '{}' leaves out {} of its parts to fit {} page(s)", run.id,
                         dropped, *run.fit_pages));
    if (!fits())
      remark("layout.does-not-fit",
             fmt::format("section '{}' needs {} pages and was told to fit {}", run.id, plan.size(),
                         *run.fit_pages));
    return plan;
  }

  void remark(std::string id, std::string message) {
    remarks_.add({std::move(id), Severity::note, {}, std::move(message), {}, {}, {}, 1});
  }

  /// Takes the last block of an importance out, and a heading that would be left with nothing under
  /// it.
  static bool drop_last(Slices& slices, Importance importance) {
    const auto found = std::find_if(slices.rbegin(), slices.rend(),
                                    [&](const Slice& s) { return s.importance == importance; });
    if (found == slices.rend()) return false;
    const int block = found->block;
    const auto of_block = [&](const Slice& s) { return s.block == block; };
    const auto first = std::find_if(slices.begin(), slices.end(), of_block);
    const bool after_last =
        std::none_of(first, slices.end(), [&](const Slice& s) { return s.block > block; });
    slices.erase(std::remove_if(slices.begin(), slices.end(), of_block), slices.end());
    // A heading asks to stay with what follows; with nothing after it, it asks in vain.
    while (after_last && !slices.empty() && !slices.back().may_break_after &&
           slices.back().importance != Importance::essential)
      slices.pop_back();
    return true;
  }

  bool opens_with_title() const {
    if (document_.sections.empty() || document_.sections.front().blocks.empty()) return false;
    return std::holds_alternative<TitleBlock>(document_.sections.front().blocks.front().content);
  }

  void add_head_and_foot(std::size_t index) {
    Frame& page = pages_[index];
    const TextStyle& style = tools_.style.unit_line;
    const Length left = page_.left, right = page_.paper.width - page_.right;
    if (index > 0 || !opens_with_title()) {
      const Length y = page_.line * static_cast<double>(page_.head_line);
      add_pair(page, y, tools_.words.rich(document_.head_left),
               tools_.words.rich(document_.head_right), style, left, right);
    }
    const Text number = say("page.number", {{"page", count(static_cast<long>(index + 1))},
                                            {"pages", count(static_cast<long>(pages_.size()))}});
    add_pair(page, page_.foot, tools_.words.rich(document_.foot_left), tools_.words.rich(number),
             style, left, right);
  }

  /// One text at the left, one at the right; the left one gives way.
  void add_pair(Frame& page, Length y, const RichText& at_left, const RichText& at_right,
                const TextStyle& style, Length left, Length right) const {
    SetLine end = fit_line(at_right, style, (right - left) * 0.6, tools_);
    const Length room = right - left - end.width - page_.gutter;
    draw_line(page, {left, y}, Align::left, fit_line(at_left, style, room, tools_));
    draw_line(page, {right, y}, Align::right, std::move(end));
  }

  /// Puts page numbers where references stand.
  void resolve_references() {
    std::map<std::string, std::size_t> page_of;
    for (std::size_t i = 0; i < pages_.size(); ++i)
      for (const Placed& placed : pages_[i].items())
        if (const auto* anchor = std::get_if<Anchor>(&placed.item))
          page_of.emplace(anchor->name, i + 1);
    for (Frame& page : pages_) {
      for (Placed& placed : page.items()) {
        auto* run = std::get_if<TextRun>(&placed.item);
        if (!run || run->text.empty() || run->text.front() != '\x1A') continue;
        const auto found = page_of.find(run->text.substr(1));
        run->text = found == page_of.end() ? "–" : fmt::format("{}", found->second);
        run->width = tools_.metrics.advance(run->face, run->size, run->text);
        placed.at.x -= run->width;
      }
    }
  }

  const Document& document_;
  const PageGeometry& page_;
  Remarks remarks_;
  Tools tools_;
  std::vector<ContentsLine> contents_;
  std::vector<Frame> pages_;
};

}  // namespace

LaidOut layout_document(const Document& document, const PageGeometry& page, const Style& style,
                        const FontMetrics& metrics, const Words& words) {
  return Typesetter(document, page, style, metrics, words).set();
}

}  // namespace winterfolio
