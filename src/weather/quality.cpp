// Walks over the hours once for each kind of doubt.
#include "weather/quality.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <limits>
#include <optional>
#include <stdexcept>

#include "base/csv_table.h"

namespace winterfolio {
namespace {

constexpr std::array<std::string_view, kDoubtCount> kDoubtIds = {"step", "flat_line",
                                                                 "daily_extreme", "sensor_in_sun"};
constexpr double kSlack = 1e-6;  // differences of decimals are never exact

QualityThresholds read_thresholds() {
  QualityThresholds limits;
  for (const CsvRow row : CsvTable::embedded("src/weather/tables/quality.csv")) {
    const std::string& id = row.text("test");
    const double limit = row.required_number("limit");
    if (id == "impossible_below")
      limits.impossible_below = Celsius(limit);
    else if (id == "impossible_above")
      limits.impossible_above = Celsius(limit);
    else if (id == "spike")
      limits.spike = CelsiusDelta(limit);
    else if (id == "step")
      limits.steps.push_back({static_cast<int>(row.required_number("hours")), CelsiusDelta(limit)});
    else if (id == "flat_line")
      limits.flat_lines.push_back({row.required_number("resolution_c"), static_cast<int>(limit)});
    else if (id == "extreme_below")
      limits.extreme_below = Celsius(limit);
    else if (id == "extreme_above")
      limits.extreme_above = Celsius(limit);
    else if (id == "daily_range")
      limits.daily_range = CelsiusDelta(limit);
    else if (id == "sun_bump")
      limits.sun_bump = CelsiusDelta(limit);
    else if (id == "sun_days")
      limits.sun_days = static_cast<int>(limit);
    else
      throw std::logic_error("quality.csv: no limit is called '" + id + "'");
  }
  return limits;
}

/// Adds [from, to] to the last run where they touch, else opens a new one.
void extend(std::vector<DoubtfulRun>& runs, DoubtfulRun run) {
  if (!runs.empty() && runs.back().doubt == run.doubt && run.from <= runs.back().to + 1) {
    runs.back().to = std::max(runs.back().to, run.to);
    if (std::abs(run.amount) > std::abs(runs.back().amount)) runs.back().amount = run.amount;
    return;
  }
  runs.push_back(run);
}

/// What of a day's extremes is beyond plausible: the cold, the heat or the range; nothing if none
/// is.
std::optional<double> implausible(double lowest, double highest, const QualityThresholds& limits) {
  if (lowest < limits.extreme_below.degrees() - kSlack) return lowest;
  if (highest > limits.extreme_above.degrees() + kSlack) return highest;
  if (highest - lowest > limits.daily_range.degrees() + kSlack) return highest - lowest;
  return std::nullopt;
}

/// Works on the observed means laid out side by side: index 0 is the first hour, missing ones are
/// not a number. That stays inside this class.
class Marker {
 public:
  Marker(const HourlySeries& series, double resolution, const QualityThresholds& limits)
      : series_(series), resolution_(resolution), limits_(limits) {
    means_.reserve(static_cast<std::size_t>(series.size()));
    for (LocalHour hour = series.first(); hour < series.end(); hour = hour + 1) {
      const auto reading = series.at(hour);
      const bool observed = reading && reading->origin == HourOrigin::observed;
      means_.push_back(observed ? reading->mean.degrees()
                                : std::numeric_limits<double>::quiet_NaN());
    }
  }

  std::vector<DoubtfulRun> all() {
    mark_steps();
    mark_flat_lines();
    mark_daily_extremes();
    mark_sun();
    return std::move(runs_);
  }

 private:
  int size() const { return static_cast<int>(means_.size()); }
  LocalHour hour(int index) const { return series_.first() + index; }
  /// Not a number outside the series too. Comparisons with it are false, so a missing hour raises
  /// no doubt.
  double mean(int index) const {
    return index >= 0 && index < size() ? means_[static_cast<std::size_t>(index)]
                                        : std::numeric_limits<double>::quiet_NaN();
  }

  void mark_steps() {
    std::vector<std::pair<int, double>> steps(limits_.steps.size());
    for (std::size_t s = 0; s < steps.size(); ++s) {
      steps[s] = {limits_.steps[s].hours, limits_.steps[s].change.degrees() + kSlack};
    }
    for (int i = 0; i < size(); ++i) {
      const double here = means_[static_cast<std::size_t>(i)];
      for (const auto& [hours, limit] : steps) {
        if (hours > i) continue;
        const double change = here - means_[static_cast<std::size_t>(i - hours)];
        if (change > limit || change < -limit)
          extend(runs_, {Doubt::step, hour(i - hours), hour(i), change});
      }
    }
  }

  int hours_to_be_flat() const {
    int hours = 0;
    for (const auto& limit : limits_.flat_lines) {
      hours = limit.hours;
      if (resolution_ <= limit.resolution + kSlack) break;
    }
    return hours;
  }

  void mark_flat_lines() {
    const int enough = hours_to_be_flat();
    int from = 0;
    for (int i = 1; i <= size(); ++i) {
      if (std::abs(mean(i) - means_[static_cast<std::size_t>(from)]) < kSlack) continue;
      if (i - from >= enough)
        runs_.push_back({Doubt::flat_line, hour(from), hour(i - 1), static_cast<double>(i - from)});
      from = i;
    }
  }

  void mark_daily_extremes() {
    int i = 0;
    while (i < size()) {
      const int next_day = i + 24 - hour(i).hour_of_day();
      double lowest = std::numeric_limits<double>::infinity();
      double highest = -lowest;
      for (; i < next_day && i < size(); ++i) {
        if (std::isnan(means_[static_cast<std::size_t>(i)])) continue;
        highest = std::max(highest, means_[static_cast<std::size_t>(i)]);
        lowest = std::min(lowest, series_.at(hour(i))->lowest.degrees());
      }
      if (highest < lowest) continue;
      const LocalHour midnight = hour(next_day - 24);
      if (const auto amount = implausible(lowest, highest, limits_)) {
        extend(runs_, {Doubt::daily_extreme, midnight, midnight + 23, *amount});
      }
    }
  }

  /// Whether an hour stands well over the hours two before and two after it, and belongs to the
  /// day's warm half.
  bool is_bump(int i) const {
    const double over = mean(i) - (limits_.sun_bump.degrees() + kSlack);
    return over > mean(i - 2) && over > mean(i + 2) && !(mean(i - 12) > mean(i));
  }

  void mark_sun() {
    constexpr int kDaysLookedAt = 5;
    for (int i = 0; i < size(); ++i) {
      if (!is_bump(i)) continue;
      // How many of the days around have it at the same hour, or the one beside it.
      int days = 0;
      for (int day = 1 - kDaysLookedAt; day < kDaysLookedAt; ++day) {
        const int there = i + 24 * day;
        days += is_bump(there - 1) || is_bump(there) || is_bump(there + 1);
      }
      if (days < limits_.sun_days) continue;
      extend(runs_, {Doubt::sensor_in_sun, hour(i), hour(i),
                     mean(i) - std::max(mean(i - 2), mean(i + 2))});
    }
  }

  const HourlySeries& series_;
  double resolution_;
  const QualityThresholds& limits_;
  std::vector<double> means_;
  std::vector<DoubtfulRun> runs_;
};

}  // namespace

std::string_view id_of(Doubt doubt) { return kDoubtIds.at(static_cast<std::size_t>(doubt)); }

const QualityThresholds& quality_thresholds() {
  static const QualityThresholds limits = read_thresholds();
  return limits;
}

std::vector<DoubtfulRun> doubtful_runs(const HourlySeries& series, double resolution,
                                       const QualityThresholds& limits) {
  return Marker(series, resolution, limits).all();
}

std::vector<DoubtfulRun> doubtful_days(const DailySeries& days, const QualityThresholds& limits) {
  std::vector<DoubtfulRun> runs;
  for (int i = 0; i < days.size(); ++i) {
    const Date date = plus_days(days.first(), i);
    const auto day = days.at(date);
    if (!day) continue;
    const auto amount = implausible(day->minimum.degrees(), day->maximum.degrees(), limits);
    const LocalHour midnight = LocalHour::at(date, 0);
    if (amount) extend(runs, {Doubt::daily_extreme, midnight, midnight + 23, *amount});
  }
  return runs;
}

}  // namespace winterfolio
