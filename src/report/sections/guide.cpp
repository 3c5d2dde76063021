// Where the trees stand, with the state of each, and what is to be found in these pages.
#include "report/sections.h"
#include "report/speak.h"
#include "report/tasks.h"
#include "report/tree_map.h"

namespace winterfolio {
namespace {

constexpr std::size_t kMostTasks = 10;
constexpr std::size_t kFewTrees = 6;  ///< whose map needs no half page

}  // namespace

Blocks guide_section(const SeasonFacts& facts) {
  Blocks blocks;
  blocks.emplace_back(Heading{1, say("guide.title"), {}});
  if (auto map = orchard_map(facts)) {
    Figure figure;
    figure.title = say("guide.map-title");
    figure.subtitle = say(facts.lost.empty() ? "guide.map-subtitle" : "guide.map-subtitle-lost");
    figure.chart = std::make_shared<const Chart>(Chart{std::move(*map)});
    figure.height = facts.trees.size() < kFewTrees ? FigureHeight::own : FigureHeight::half;
    blocks.emplace_back(std::move(figure), Importance::essential);
  }
  Table tasks = tasks_table(facts, kTasksInFront, kMostTasks);
  if (!tasks.groups.front().rows.empty()) {
    blocks.emplace_back(Heading{2, say("guide.also"), {}});
    blocks.emplace_back(std::move(tasks));
  }
  Columns columns;
  Blocks contents;
  contents.emplace_back(Heading{2, say("page.contents"), {}});
  contents.emplace_back(Contents{});
  Blocks reading;
  reading.emplace_back(Heading{2, say("guide.how-to-read"), {}});
  for (const char* id : {"guide.marks", "guide.ranges", "guide.measures", "guide.memory"}) {
    reading.emplace_back(Paragraph{Role::body, say(id)});
  }
  columns.columns.push_back({5, std::move(contents)});
  columns.columns.push_back({7, std::move(reading)});
  blocks.emplace_back(std::move(columns));
  return blocks;
}

}  // namespace winterfolio
