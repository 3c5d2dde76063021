// Lays nights against stages.
#include "findings/frost.h"

#include <algorithm>

#include "base/csv_table.h"
#include "orchard/growth_stages.h"
#include "orchard/observations.h"

namespace winterfolio {
namespace {

constexpr Celsius kFrosty{2.0};
constexpr int kDaysAfterBloom = 60;
constexpr double kWholeCrop = 100.0;

std::optional<NightLow> night_low(const WeatherRecord& record, Date evening) {
  const LocalHour noon = LocalHour::at(evening, 12);
  std::optional<NightLow> low;
  for (LocalHour hour = noon; hour < noon + 24; hour = hour + 1) {
    const auto reading = record.hours.at(hour);
    if (reading && (!low || reading->lowest < low->lowest)) {
      low = NightLow{evening, reading->lowest, hour, reading->origin == HourOrigin::daily_extremes};
    }
  }
  // The curve is read at whole hours and may pass its lowest between two: the day's own minimum
  // stands.
  if (low && low->by_extremes) {
    if (const auto day = record.days.at(low->at.date()))
      low->lowest = std::min(low->lowest, day->minimum);
  }
  return low;
}

/// A month into the winter, 1 December by default: stages seen before are out of season.
Date in_season_from(const Winter& winter) { return plus_days(winter.from, 30); }

std::optional<LaterFrosts> later_frosts(const Tree& tree, const Orchard& orchard,
                                        const BloomFinding& bloom, const WeatherRecord& record,
                                        const Today& today) {
  const CriticalTemperature* stage = critical_temperature(tree.species, "first bloom");
  if (!stage || !bloom.expected) return std::nullopt;
  LaterFrosts later;
  later.from = std::max(*bloom.expected, today.as_of);
  later.stage = stage->stage;
  later.kill10 = stage->kill10;
  const int into_winter = days_between(today.winter.from, later.from);
  for (const Winter& past : winters_on_record(record, today.window, today.winter.year)) {
    const Date from = plus_days(past.from, into_winter);
    const Date last = plus_days(
        past.from,
        std::max(into_winter, days_between(today.winter.from, *bloom.expected) + kDaysAfterBloom));
    const std::vector<NightLow> nights = night_lows(record, from, last);
    if (static_cast<int>(nights.size()) < days_between(from, last))
      continue;  // a night that is not known may have been the one
    ++later.springs;
    later.with_damage += std::any_of(nights.begin(), nights.end(), [&](const NightLow& night) {
      return frost_level(at_tree(tree, orchard, night.lowest), *stage) >= FrostLevel::ten_percent;
    });
  }
  if (later.springs == 0) return std::nullopt;
  return later;
}

std::optional<Range> buds_needed(const std::string& species) {
  const CsvTable table = CsvTable::embedded("src/findings/tables/crop_shares.csv");
  for (const CsvRow row : table) {
    if (row.text("species") == species)
      return Range{row.required_number("share_low"), row.number("share_high").value_or(kWholeCrop)};
  }
  return std::nullopt;
}

}  // namespace

std::vector<NightLow> night_lows(const WeatherRecord& record, Date from, Date last) {
  std::vector<NightLow> nights;
  for (Date evening = from; evening <= last; evening = plus_days(evening, 1)) {
    if (const auto low = night_low(record, evening)) nights.push_back(*low);
  }
  return nights;
}

Celsius at_tree(const Tree& tree, const Orchard& orchard, Celsius low) {
  if (!tree.block || low > kFrosty) return low;
  for (const auto& block : orchard.blocks) {
    if (block.id == *tree.block) return low + block.frost_offset;
  }
  return low;
}

StageOnDay stage_on(const Tree& tree, const Winter& winter, const BloomFinding& bloom, Date day) {
  StageOnDay found;
  std::optional<Date> since;
  for (const Observation& seen : tree.observed) {
    const ObservationRow* row = find_observation(seen.what);
    if (!row || !row->bbch_low || !seen.on.day) continue;
    if (row->kind != ObservationKind::bud_stage && row->kind != ObservationKind::fruit) continue;
    const Date on = seen.on.earliest();
    if (on < in_season_from(winter) || on > day || (since && on < *since)) continue;
    const BudStage* bud = bud_stage_at(tree.species, *row->bbch_low);
    found.stage = bud ? critical_temperature(tree.species, bud->stage) : nullptr;
    found.seen = true;
    since = on;
  }
  if (!since && bloom.stage == "first_bloom" && bloom.expected && *bloom.expected <= day) {
    found.stage = critical_temperature(tree.species, "first bloom");
    since = bloom.expected;
  }
  if (since) found.age_days = days_between(*since, day);
  return found;
}

TreeFrost frost_of(const Tree& tree, const Orchard& orchard, const BloomFinding& bloom,
                   const WeatherRecord& record, const Today& today) {
  TreeFrost frost;
  frost.published = !critical_temperatures(tree.species).empty();
  if (!frost.published) return frost;
  frost.buds_needed = buds_needed(tree.species);
  frost.now = stage_on(tree, today.winter, bloom, today.as_of);
  for (const NightLow& night :
       night_lows(record, in_season_from(today.winter), plus_days(today.now.date(), -1))) {
    // The night belongs to the morning after: that is when it was coldest.
    const StageOnDay stage = stage_on(tree, today.winter, bloom, night.at.date());
    if (!stage.stage || night.at >= today.now) continue;
    const Celsius low = at_tree(tree, orchard, night.lowest);
    const FrostLevel level = frost_level(low, *stage.stage);
    if (level != FrostLevel::above) frost.nights.push_back({night, low, stage, level});
  }
  frost.after_bloom = later_frosts(tree, orchard, bloom, record, today);
  return frost;
}

}  // namespace winterfolio
