// How good the readings are: what was read from which file, what was set aside, what is doubtful
// and used all the same, and which hours are missing.
#include <algorithm>
#include <cmath>
#include <tuple>

#include "report/reckoning.h"
#include "report/sections.h"
#include "report/speak.h"

namespace winterfolio {
namespace {

constexpr int kDaysBefore = 61;  ///< before the winter, whose doubts its autumn may still explain

constexpr std::size_t kMostDoubtsOfAKind = 4;
constexpr std::size_t kMostGaps = 12;

TableCell words_cell(Text text) { return {std::move(text), {}, {}}; }
TableCell number_cell(std::int64_t value) {
  return {value_text(number(static_cast<double>(value))), {}, {}};
}

Table files_table(const SeasonFacts& facts) {
  Table table;
  table.title = say("readings.files-title");
  table.air = Table::Air::dense;
  table.columns = {{say("readings.file"), ColumnKind::words, 0, false, false},
                   {say("readings.format"), ColumnKind::words, 0, false, false},
                   {say("readings.from"), ColumnKind::words, 0, false, false},
                   {say("readings.to"), ColumnKind::words, 0, false, false},
                   {say("readings.readings"), ColumnKind::numbers, 0, false, false},
                   {say("readings.missing-hours"), ColumnKind::numbers, 0, false, false},
                   {say("readings.set-aside"), ColumnKind::numbers, 0, false, false}};
  TableGroup group;
  for (const ReadingsFile& file : facts.files) {
    TableRow row;
    row.cells.push_back(words_cell(literal(file.file)));
    row.cells.push_back(words_cell(say_one_of("format", file.format)));
    row.cells.push_back(
        words_cell(file.first ? value_text(day(*file.first, DateForm::iso)) : Text{}));
    row.cells.push_back(
        words_cell(file.last ? value_text(day(*file.last, DateForm::iso)) : Text{}));
    row.cells.push_back(number_cell(file.readings));
    // Between days of a record that is kept in winter alone nothing is missing.
    row.cells.push_back(file.daily ? TableCell{} : number_cell(file.missing_hours));
    row.cells.push_back(number_cell(file.impossible + file.duplicates + file.spikes + file.flagged +
                                    file.unreadable));
    group.rows.push_back(std::move(row));
  }
  table.groups.push_back(std::move(group));
  return table;
}

/// "house.csv (line 12)", "house.csv (from line 12 on)".
Text place_in(const ReadingsFile& file, std::int64_t readings, std::int64_t line) {
  if (line <= 0) return literal(file.file);
  return say("readings.file-and-line", {{"file", literal(file.file)},
                                        {"n", count(static_cast<long>(readings))},
                                        {"line", count(static_cast<long>(line))}});
}

/// One sentence for each reason for which readings of a file were set aside.
Blocks set_aside_blocks(const SeasonFacts& facts) {
  List list;
  list.role = Role::body;
  for (const ReadingsFile& file : facts.files) {
    const std::tuple<std::int64_t, std::int64_t, const char*> reasons[] = {
        {file.impossible, file.first_impossible, "readings.impossible"},
        {file.duplicates, file.first_duplicate, "readings.duplicates"},
        {file.spikes, file.first_spike, "readings.spikes"},
        {file.flagged, file.first_flagged, "readings.flagged"},
        {file.unreadable, file.first_unreadable, "readings.unreadable"}};
    for (const auto& [number_of, line, words] : reasons) {
      if (number_of == 0) continue;
      list.items.push_back(say(words, {{"n", count(static_cast<long>(number_of))},
                                       {"file", place_in(file, number_of, line)}}));
    }
  }
  Blocks blocks;
  if (list.items.empty()) {
    blocks.emplace_back(Paragraph{Role::body, say("readings.nothing-set-aside")});
  } else {
    blocks.emplace_back(Paragraph{Role::body, say("readings.set-aside-lead")});
    blocks.emplace_back(std::move(list));
  }
  return blocks;
}

/// How a place nearby differs from here, and what it fills: hours, days or both.
void add_nearby(const SeasonFacts& facts, const ReadingsFile& file, Blocks& blocks) {
  const Orchard& orchard = *facts.orchard;
  if (file.nearby) {
    const NearbyFit& fit = file.nearby->fit;
    const double offset = fit.offset.degrees();
    const char* const words =
        file.daily
            ? (offset < 0.0 ? "readings.nearby-drawn-warmer" : "readings.nearby-drawn-colder")
            : (offset < 0.0 ? "readings.nearby-warmer" : "readings.nearby-colder");
    blocks.emplace_back(Paragraph{
        Role::body, say(words, {{"file", literal(file.file)},
                                {"n", count(file.nearby->filled)},
                                {"offset", difference(orchard, CelsiusDelta(std::abs(offset)))},
                                {"shared", count(fit.shared_hours)},
                                {"error", difference(orchard, fit.error)}})});
  }
  if (file.nearby_days) {
    const ExtremesFit& fit = file.nearby_days->fit;
    blocks.emplace_back(Paragraph{
        Role::body, say("readings.nearby-days", {{"file", literal(file.file)},
                                                 {"n", count(file.nearby_days->filled)},
                                                 {"minimum", difference(orchard, fit.minimum)},
                                                 {"maximum", difference(orchard, fit.maximum)},
                                                 {"shared", count(fit.shared_days)},
                                                 {"error", difference(orchard, fit.error)}})});
  }
  if (file.nearby || file.nearby_days) return;
  blocks.emplace_back(Paragraph{
      Role::body, file.daily ? say("readings.nearby-days-unused",
                                   {{"file", literal(file.file)}, {"n", count(kFewestSharedDays)}})
                             : say("readings.nearby-unused",
                                   {{"file", literal(file.file)}, {"n", count(kFewestShared)}})});
}

/// What each file that overlaps an earlier one, or stands in for the orchard's own, gave.
Blocks shared_blocks(const SeasonFacts& facts) {
  Blocks blocks;
  for (const ReadingsFile& file : facts.files) {
    if (file.overlap) {
      const SharedHours& shared = *file.overlap;
      blocks.emplace_back(Paragraph{
          Role::body,
          shared.differing == 0
              ? say("readings.overlap-agrees",
                    {{"file", literal(file.file)}, {"shared", count(shared.shared)}})
              : say("readings.overlap-differs",
                    {{"file", literal(file.file)},
                     {"shared", count(shared.shared)},
                     {"n", count(shared.differing)},
                     {"largest", difference(*facts.orchard, CelsiusDelta(shared.largest))}})});
    }
    if (file.stands_for == StandsFor::nearby) add_nearby(facts, file, blocks);
  }
  return blocks;
}

Blocks gap_blocks(const SeasonFacts& facts) {
  Blocks blocks;
  const HourCounts& counts = facts.chill.counts;
  TextList parts;
  const std::pair<const char*, std::int32_t> kinds[] = {
      {"readings.hours-read", counts.observed},
      {"readings.hours-bridged", counts.by_line},
      {"readings.hours-nearby", counts.nearby},
      {"readings.hours-drawn", counts.by_extremes},
      {"readings.hours-missing", counts.missing}};
  for (const auto& [words, n] : kinds)
    if (n > 0) parts.items.push_back(say(words, {{"n", count(n)}}));
  if (!parts.items.empty())
    blocks.emplace_back(Paragraph{
        Role::body,
        say("readings.hours-of-winter", {{"hours", count(counts.hours)}, {"parts", parts}})});
  if (facts.chill.gaps.empty()) return blocks;
  Table table;
  table.title = say("readings.gaps-title");
  table.air = Table::Air::dense;
  table.full_width = false;
  table.columns = {{say("readings.gap-from"), ColumnKind::words, 0, false, false},
                   {say("readings.gap-to"), ColumnKind::words, 0, false, false},
                   {say("readings.gap-hours"), ColumnKind::numbers, 0, false, false}};
  TableGroup group;
  for (std::size_t i = 0; i < std::min(kMostGaps, facts.chill.gaps.size()); ++i) {
    const Gap& gap = facts.chill.gaps[i];
    TableRow row;
    row.cells.push_back(words_cell(value_text(HourOfDay{gap.from, DateForm::full})));
    row.cells.push_back(words_cell(value_text(HourOfDay{gap.to, DateForm::full})));
    row.cells.push_back(number_cell(gap.hours()));
    group.rows.push_back(std::move(row));
  }
  table.groups.push_back(std::move(group));
  blocks.emplace_back(std::move(table));
  if (facts.chill.gaps.size() > kMostGaps) {
    blocks.emplace_back(Paragraph{
        Role::note, say("readings.more-gaps",
                        {{"n", count(static_cast<long>(facts.chill.gaps.size() - kMostGaps))}})});
  }
  return blocks;
}

Blocks doubt_blocks(const SeasonFacts& facts) {
  Table table;
  table.title = say("readings.doubts-title");
  table.air = Table::Air::dense;
  table.columns = {{say("readings.doubt"), ColumnKind::words, 0, false, false},
                   {say("readings.gap-from"), ColumnKind::words, 0, false, false},
                   {say("readings.gap-to"), ColumnKind::words, 0, false, false},
                   {say("readings.file"), ColumnKind::words, 0, false, false},
                   {say("readings.lines"), ColumnKind::words, 0, false, false}};
  TableGroup group;
  std::size_t all = 0;
  const LocalHour first = LocalHour::at(plus_days(facts.today.winter.from, -kDaysBefore), 0);
  const auto of_this_winter = [&](const ReadingsFile::Doubt& doubt) {
    return doubt.to >= first && doubt.from < facts.today.now;
  };
  for (const ReadingsFile& file : facts.files)
    all += static_cast<std::size_t>(
        std::count_if(file.doubts.begin(), file.doubts.end(), of_this_winter));
  // Steps are many and mostly weather: the rarer kinds come first, and each kind is shown.
  for (const char* kind : {"flat_line", "daily_extreme", "sensor_in_sun", "step"}) {
    std::size_t of_kind = 0;
    for (const ReadingsFile& file : facts.files) {
      for (const ReadingsFile::Doubt& doubt : file.doubts) {
        if (doubt.kind != kind || !of_this_winter(doubt) || ++of_kind > kMostDoubtsOfAKind)
          continue;
        TableRow row;
        row.cells.push_back(words_cell(say_one_of("doubt", doubt.kind)));
        row.cells.push_back(words_cell(value_text(HourOfDay{doubt.from, DateForm::full})));
        row.cells.push_back(words_cell(value_text(HourOfDay{doubt.to, DateForm::full})));
        row.cells.push_back(words_cell(literal(file.file)));
        row.cells.push_back(words_cell(value_text(
            range(static_cast<double>(doubt.first_line), static_cast<double>(doubt.last_line)))));
        group.rows.push_back(std::move(row));
      }
    }
  }
  const std::size_t shown = group.rows.size();
  Blocks blocks;
  if (group.rows.empty()) return blocks;
  table.groups.push_back(std::move(group));
  blocks.emplace_back(std::move(table));
  if (all > shown) {
    blocks.emplace_back(Paragraph{
        Role::note, say("readings.more-doubts", {{"n", count(static_cast<long>(all - shown))}})});
  }
  return blocks;
}

/// What half a degree in the thermometer would do to this winter's amounts, its gaps with it.
Blocks thermometer_blocks(const SeasonFacts& facts) {
  TextList amounts;
  for (const ShownMeasure& shown : facts.shown) {
    if (const auto utmost = received_utmost(facts.chill.of(shown.measure)))
      amounts.items.push_back(
          say("readings.half-degree-amount", {{"amount", range(utmost->low, utmost->high)},
                                              {"measure", measure_text(shown.measure)}}));
  }
  if (amounts.items.empty() || facts.chill.counts.hours == 0) return {};
  return {Block(Paragraph{Role::body, say("readings.half-degree",
                                          {{"error", difference(*facts.orchard, kThermometerError)},
                                           {"amounts", amounts}})})};
}

/// How the orchard's record was moved to stand behind a block's own thermometer.
Text moved_words(const SeasonFacts& facts, const PlaceWeather& place) {
  if (place.by_hour) {
    const double offset = place.by_hour->offset.degrees();
    return say(offset < 0.0 ? "readings.place-colder" : "readings.place-warmer",
               {{"offset", difference(*facts.orchard, CelsiusDelta(std::abs(offset)))},
                {"shared", count(place.by_hour->shared_hours)},
                {"error", difference(*facts.orchard, place.by_hour->error)}});
  }
  if (place.by_extremes)
    return say("readings.place-extremes",
               {{"shared", count(place.by_extremes->shared_days)},
                {"error", difference(*facts.orchard, place.by_extremes->error)}});
  return say("readings.place-alone");
}

/// Which trees are judged by a thermometer of their own block, and what stands behind it.
Blocks place_blocks(const SeasonFacts& facts) {
  Blocks blocks;
  for (const PlaceSeason& place : facts.places) {
    const auto block =
        std::find_if(facts.orchard->blocks.begin(), facts.orchard->blocks.end(),
                     [&](const OrchardBlock& one) { return one.id == place.weather->block; });
    const Text name =
        literal(block == facts.orchard->blocks.end() || block->name.empty() ? place.weather->block
                                                                            : block->name);
    blocks.emplace_back(Paragraph{
        Role::body, say(place.silent ? "readings.place-silent" : "readings.place",
                        {{"block", name},
                         {"file", literal(place.weather->thermometer)},
                         {"n", count(trees_judged_at(facts, place))},
                         {"behind", place.silent ? Text{} : moved_words(facts, *place.weather)}})});
  }
  return blocks;
}

/// What a forecast file is used for.
Blocks forecast_blocks(const SeasonFacts& facts) {
  Blocks blocks;
  const long hours = facts.shown.front().to_come.forecast_hours;
  for (const ReadingsFile& file : facts.files) {
    if (file.stands_for != StandsFor::forecast) continue;
    blocks.emplace_back(
        Paragraph{Role::body, say(hours > 0                     ? "readings.forecast"
                                  : facts.nights.coming.empty() ? "readings.forecast-unused"
                                                                : "readings.forecast-over",
                                  {{"file", literal(file.file)}, {"n", count(hours)}})});
  }
  return blocks;
}

void append(Blocks& to, Blocks from) {
  for (Block& block : from) to.push_back(std::move(block));
}

}  // namespace

Blocks readings_section(const SeasonFacts& facts) {
  Blocks blocks;
  blocks.emplace_back(Heading{1, say("readings.title"), {}}, Importance::essential);
  blocks.emplace_back(files_table(facts), Importance::essential);
  append(blocks, set_aside_blocks(facts));
  append(blocks, shared_blocks(facts));
  append(blocks, gap_blocks(facts));
  append(blocks, forecast_blocks(facts));
  append(blocks, place_blocks(facts));
  append(blocks, thermometer_blocks(facts));
  append(blocks, doubt_blocks(facts));
  return blocks;
}

}  // namespace winterfolio
