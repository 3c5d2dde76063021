// Lays nights against stages.
#include "findings/frost.h"

#include <algorithm>
#include <array>
#include <map>

#include "base/csv_table.h"
#include "orchard/growth_stages.h"
#include "orchard/observations.h"

namespace winterfolio {
namespace {

constexpr Celsius kFrosty{2.0};
constexpr int kNightsAfterBloom = 60;
constexpr int kLeastNightsKnown = 30;  ///< after bloom, for a spring to count
constexpr int kSpringDays = 273;       ///< nine months from the winter's first day
constexpr int kHalfYear = 183;
constexpr double kWholeCrop = 100.0;
constexpr double kTenth = 10.0;
constexpr double kNineTenths = 90.0;

std::optional<NightLow> night_low(const HourlySeries& hours, const DailySeries& days, Date evening,
                                  LocalHour until) {
  const LocalHour noon = LocalHour::at(evening, 12);
  std::optional<NightLow> low;
  for (LocalHour hour = noon; hour < std::min(noon + 24, until); hour = hour + 1) {
    const auto reading = hours.at(hour);
    if (reading && (!low || reading->lowest < low->lowest)) {
      low = NightLow{evening, reading->lowest, hour, reading->origin == HourOrigin::daily_extremes};
    }
  }
  // The curve is read at whole hours and may pass its lowest between two: the day's own minimum
  // stands.
  if (low && low->by_extremes) {
    if (const auto day = days.at(low->at.date())) low->lowest = std::min(low->lowest, day->minimum);
  }
  return low;
}

using BudsNeeded = std::map<std::string, Range, std::less<>>;

std::optional<Range> buds_needed(const std::string& species) {
  static const BudsNeeded shares = [] {
    BudsNeeded read;
    const CsvTable table = CsvTable::embedded("src/findings/tables/crop_shares.csv");
    for (const CsvRow row : table) {
      read.emplace(row.text("species"), Range{row.required_number("share_low"),
                                              row.number("share_high").value_or(kWholeCrop)});
    }
    return read;
  }();
  const auto at = shares.find(species);
  return at == shares.end() ? std::nullopt : std::optional(at->second);
}

/// The row of what was noted; what an observation holds is the row's id.
const ObservationRow* observation_of(const Observation& seen) {
  for (const ObservationRow& row : observations_table()) {
    if (row.name.id == seen.what) return &row;
  }
  return nullptr;
}

/// Past first bloom the stage at hand is as tender or more; before it first bloom is what comes.
const CriticalTemperature* stage_to_fear(const Tree& tree, const StageOnDay& now) {
  const CriticalTemperature* bloom = first_bloom_temperature(tree.species);
  return now.stage && bloom && now.stage->order > bloom->order ? now.stage : bloom;
}

std::optional<Date> damage_seen(const Tree& tree, Date from, Date as_of) {
  std::optional<Date> seen;
  for (const Observation& noted : tree.observed) {
    if (noted.what != "frost_damage" || !noted.on.day) continue;
    const Date on = noted.on.earliest();
    if (from <= on && on <= as_of) seen = on;
  }
  return seen;
}

CropLeft crop_left(const std::vector<TreeNight>& nights, Range needed) {
  CropLeft crop;
  crop.needed = needed;
  FrostLevel worst = FrostLevel::above;
  for (const TreeNight& night : nights) {
    worst = std::max(worst, night.level);
    crop.damaging_nights += night.level >= FrostLevel::ten_percent ? 1 : 0;
  }
  if (crop.damaging_nights == 0) {
    crop.alive = {kNineTenths, kWholeCrop};
    return crop;
  }
  const bool ninety = worst == FrostLevel::ninety_percent;
  crop.alive = {ninety || crop.damaging_nights > 1 ? 0.0 : kTenth, ninety ? kTenth : kNineTenths};
  crop.word = crop.alive.low >= needed.high  ? CropLeft::Word::enough
              : crop.alive.high > needed.low ? CropLeft::Word::perhaps
                                             : CropLeft::Word::unlikely;
  return crop;
}

std::optional<LaterFrosts> frosts_after_bloom(const Tree& tree, const StageOnDay& now,
                                              const BloomFinding& bloom, const NightsAtTree& at,
                                              const Today& today) {
  const CriticalTemperature* stage = stage_to_fear(tree, now);
  if (!stage) return std::nullopt;
  const CriticalTemperature* first = first_bloom_temperature(tree.species);
  const bool in_bloom = now.stage && now.stage->order >= first->order;
  if (!bloom.expected && !in_bloom) return std::nullopt;
  const Date from = in_bloom ? today.as_of : std::max(*bloom.expected, today.as_of);
  return later_frosts(*stage, from, at, today);
}

/// The last evening of which these stages can speak: two months after the first that is in bloom
/// or past it there is neither bud nor blossom.
Date last_evening(const std::vector<StageFrom>& stages, const CriticalTemperature* first_bloom) {
  for (const StageFrom& stage : stages) {
    const bool in_bloom = stage.stage && first_bloom && stage.stage->order >= first_bloom->order;
    if (in_bloom) return plus_days(stage.from, kNightsAfterBloom - 1);
  }
  return plus_days(stages.back().from, kHalfYear);
}

/// The nights of this spring against the stages. A night belongs to the morning after: that is when
/// it was coldest.
void lay_nights(TreeFrost& frost, const std::vector<StageFrom>& stages,
                std::span<const CriticalTemperature> figures, const NightsAtTree& at, Date last,
                Date as_of) {
  Celsius tenderest = figures.front().kill10;
  for (const CriticalTemperature& figure : figures) tenderest = std::max(tenderest, figure.kill10);
  const LocalHour first = LocalHour::at(stages.front().from, 0);
  const LocalHour in_stage = LocalHour::at(plus_days(as_of, -frost.now.age_days), 0);
  for (const NightLow& night : at.nights->now) {
    if (night.at < first) continue;
    if (night.evening > last) break;
    if (!frost.coldest || night.lowest < frost.coldest->lowest) frost.coldest = night;
    if (night.at >= in_stage &&
        (!frost.coldest_in_stage || night.lowest < frost.coldest_in_stage->lowest))
      frost.coldest_in_stage = night;
    const Celsius low = at_tree(night.lowest, at.frost_offset);
    if (low > tenderest + kClearNightMargin + kLineSlack) continue;
    const StageOnDay stage = stage_on(stages, night.at.date());
    if (!stage.stage) continue;
    const FrostLevel level = frost_level(low, *stage.stage);
    if (level != FrostLevel::above) frost.nights.push_back({night, low, stage, level});
  }
}

/// The forecast's nights against the stage of today: buds do not wait for them.
void lay_coming_nights(TreeFrost& frost, const NightsAtTree& at) {
  if (!frost.now.stage || frost.bloom_over) return;
  for (const NightLow& night : at.nights->coming) {
    const Celsius low = at_tree(night.lowest, at.frost_offset);
    const FrostLevel level = frost_level(low, *frost.now.stage);
    if (level == FrostLevel::above) continue;
    if (!frost.coming || low < frost.coming->at_tree)
      frost.coming = TreeNight{night, low, frost.now, level};
  }
}

}  // namespace

std::vector<NightLow> night_lows(const WeatherRecord& record, Date from, Date last,
                                 std::optional<LocalHour> until) {
  std::vector<NightLow> nights;
  const LocalHour end = until.value_or(LocalHour::at(last, 36));
  for (Date evening = from; evening <= last; evening = plus_days(evening, 1)) {
    if (const auto low = night_low(record.hours, record.days, evening, end)) nights.push_back(*low);
  }
  return nights;
}

Date spring_buds_from(const Winter& winter, bool southern) {
  const MonthDay day{southern ? 6U : 12U, 1};
  const Date same_year = day.in_year(int{winter.from.year()});
  // A keeper may let the winter begin after New Year; its buds have been seen before it all the
  // same.
  return days_between(winter.from, same_year) > kHalfYear ? day.in_year(int{winter.from.year()} - 1)
                                                          : same_year;
}

WinterNights winter_nights(const WeatherRecord& record, const Today& today) {
  WinterNights nights;
  if (record.hours.empty()) return nights;
  // Autumn begins three months before the spring's buds count.
  const Date buds = spring_buds_from(today.winter, record.latitude < 0.0);
  const Date autumn = MonthDay{unsigned{buds.month()} - 3U, 1}.in_year(int{buds.year()});
  nights.now = night_lows(record, std::max(autumn, plus_days(record.hours.first().date(), -1)),
                          today.now.date(), today.now);
  if (!record.forecast.empty()) {
    const Date last = plus_days(record.forecast.end().date(), 1);
    for (Date evening = plus_days(today.now.date(), -1); evening <= last;
         evening = plus_days(evening, 1)) {
      if (const auto low = night_low(record.forecast, {}, evening, record.forecast.end()))
        nights.coming.push_back(*low);
    }
  }
  for (const Winter& past : winters_on_record(record, today.window, today.winter.year)) {
    const Date last = plus_days(past.from, kSpringDays - 1);
    nights.past.push_back({past, night_lows(record, past.from, last, LocalHour::at(last, 36))});
  }
  return nights;
}

std::vector<NightLow> frost_nights(const WinterNights& nights, const Today& today) {
  std::vector<NightLow> frosts;
  for (const NightLow& night : nights.now) {
    const bool in_winter =
        night.evening >= plus_days(today.winter.from, -1) && night.evening < today.winter.to;
    if (in_winter && night.lowest <= kFreezing + kLineSlack) frosts.push_back(night);
  }
  return frosts;
}

CelsiusDelta frost_offset_of(const Tree& tree, const Orchard& orchard) {
  if (tree.block) {
    for (const auto& block : orchard.blocks) {
      if (block.id == *tree.block) return block.frost_offset;
    }
  }
  return CelsiusDelta(0.0);
}

Celsius at_tree(Celsius low, CelsiusDelta frost_offset) {
  return low > kFrosty ? low : low + frost_offset;
}

std::vector<StageFrom> stages_of(const Tree& tree, const Winter& winter, bool southern,
                                 const BloomFinding& bloom) {
  std::vector<StageFrom> stages;
  const Date first = spring_buds_from(winter, southern);
  const Date last = plus_days(winter.from, kSpringDays - 1);
  for (const Observation& seen : tree.observed) {
    if (!seen.on.day || seen.on.earliest() < first || seen.on.earliest() > last) continue;
    const ObservationRow* row = observation_of(seen);
    if (!row || !row->bbch_low) continue;
    if (row->kind != ObservationKind::bud_stage && row->kind != ObservationKind::fruit) continue;
    const BudStage* bud = bud_stage_at(tree.species, *row->bbch_low);
    stages.push_back(
        {seen.on.earliest(), bud ? critical_temperature(tree.species, bud->stage) : nullptr, true});
  }
  std::stable_sort(stages.begin(), stages.end(),
                   [](const StageFrom& a, const StageFrom& b) { return a.from < b.from; });
  if (bloom.stage == "first_bloom" && bloom.expected && bloom.method != BloomMethod::seen &&
      (stages.empty() || *bloom.expected < stages.front().from)) {
    stages.insert(stages.begin(), {*bloom.expected, first_bloom_temperature(tree.species), false});
  }
  return stages;
}

StageOnDay stage_on(std::span<const StageFrom> stages, Date day) {
  StageOnDay found;
  for (const StageFrom& stage : stages) {
    if (stage.from > day) break;
    found = {stage.stage, stage.seen, days_between(stage.from, day)};
  }
  return found;
}

std::string_view id_of(CropLeft::Word word) {
  constexpr std::array<std::string_view, 4> ids = {"not_touched", "perhaps", "enough", "unlikely"};
  return ids.at(static_cast<std::size_t>(word));
}

const TreeNight* TreeFrost::worst() const {
  const TreeNight* worst = nullptr;
  const auto over = [](const TreeNight& night) {
    return night.stage.stage->kill10 - night.at_tree;
  };
  for (const TreeNight& night : nights) {
    if (!worst || night.level > worst->level ||
        (night.level == worst->level && over(night) > over(*worst)))
      worst = &night;
  }
  return worst;
}

std::optional<LaterFrosts> later_frosts(const CriticalTemperature& stage, Date from,
                                        const NightsAtTree& at, const Today& today) {
  LaterFrosts later;
  later.from = from;
  later.stage = stage.stage;
  later.kill10 = stage.kill10;
  const int into_winter = days_between(today.winter.from, from);
  for (const WinterNights::Past& past : at.nights->past) {
    const Date first = plus_days(past.winter.from, into_winter);
    auto night = std::lower_bound(
        past.nights.begin(), past.nights.end(), first,
        [](const NightLow& known, Date evening) { return known.evening < evening; });
    // A night that is not known may have been the one.
    if (past.nights.end() - night < kLeastNightsKnown ||
        (night + kLeastNightsKnown - 1)->evening != plus_days(first, kLeastNightsKnown - 1))
      continue;
    const Date last = plus_days(first, kNightsAfterBloom - 1);
    bool damage = false;
    for (; night != past.nights.end() && night->evening <= last && !damage; ++night) {
      damage =
          frost_level(at_tree(night->lowest, at.frost_offset), stage) >= FrostLevel::ten_percent;
    }
    ++later.springs;
    later.with_damage += damage ? 1 : 0;
  }
  if (later.springs == 0) return std::nullopt;
  return later;
}

TreeFrost frost_of(const Tree& tree, const BloomFinding& bloom, const NightsAtTree& at,
                   const Today& today) {
  TreeFrost frost;
  const auto figures = critical_temperatures(tree.species);
  frost.published = !figures.empty();
  frost.damage_seen = damage_seen(tree, spring_buds_from(today.winter, at.southern), today.as_of);
  if (!frost.published) return frost;
  frost.buds_needed = buds_needed(tree.species);
  const std::vector<StageFrom> stages = stages_of(tree, today.winter, at.southern, bloom);
  frost.now = stage_on(stages, today.as_of);
  if (const CriticalTemperature* first = first_bloom_temperature(tree.species)) {
    frost.look_again = frost.now.seen && bloom.expected && *bloom.expected <= today.as_of &&
                       days_between(*bloom.expected, today.as_of) < frost.now.age_days &&
                       (!frost.now.stage || frost.now.stage->order < first->order);
  }
  const CriticalTemperature* in_bloom = first_bloom_temperature(tree.species);
  if (!stages.empty()) {
    const Date last = last_evening(stages, in_bloom);
    lay_nights(frost, stages, figures, at, last, today.as_of);
    frost.bloom_over = frost.now.stage && in_bloom && frost.now.stage->order >= in_bloom->order &&
                       today.as_of > last;
  }
  lay_coming_nights(frost, at);
  if (frost.buds_needed && frost.coldest) frost.crop = crop_left(frost.nights, *frost.buds_needed);
  frost.after_bloom = frosts_after_bloom(tree, frost.now, bloom, at, today);
  return frost;
}

LastFrosts last_frosts(const WinterNights& nights, const Today& today, bool southern) {
  LastFrosts last;
  for (const WinterNights::Past& past : nights.past) {
    Date spring_over =
        MonthDay{southern ? 11U : 5U, southern ? 30U : 31U}.in_year(int{past.winter.from.year()});
    if (spring_over < past.winter.to)
      spring_over = MonthDay{southern ? 11U : 5U, southern ? 30U : 31U}.in_year(
          int{past.winter.from.year()} + 1);
    const NightLow* frost = nullptr;
    int known_since = 0;
    for (const NightLow& night : past.nights) {
      if (night.evening >= spring_over) break;
      ++known_since;
      if (night.lowest > kFreezing + kLineSlack) continue;
      frost = &night;
      known_since = 0;
    }
    const Date since = frost ? plus_days(frost->evening, 1) : past.winter.from;
    if (known_since < days_between(since, spring_over)) {
      ++last.not_known;
    } else if (!frost) {
      ++last.without;
    } else {
      const Date day = frost->at.date();
      const int years_on = int{today.winter.from.year()} - int{past.winter.from.year()};
      const Date this_year =
          MonthDay{unsigned{day.month()}, unsigned{day.day()}}.in_year(int{day.year()} + years_on);
      last.springs.push_back({past.winter.year, *frost, this_year});
    }
  }
  return last;
}

}  // namespace winterfolio
