// Walks over the hours once for each kind of doubt.
#include "weather/quality.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <stdexcept>

#include "base/csv_table.h"

namespace winterfolio {
namespace {

constexpr std::array<std::string_view, kDoubtCount> kDoubtIds = {"step", "flat_line", "daily_extreme",
                                                                 "sensor_in_sun"};
constexpr double kSlack = 1e-6;  // differences of decimals are never exact

QualityThresholds read_thresholds() {
  QualityThresholds limits;
  for (const CsvRow row : CsvTable::embedded("src/weather/tables/quality.csv")) {
    const std::string& id = row.text("id");
    const double limit = row.required_number("limit");
    if (id == "impossible_below") limits.impossible_below = Celsius(limit);
    else if (id == "impossible_above") limits.impossible_above = Celsius(limit);
    else if (id == "spike") limits.spike = CelsiusDelta(limit);
    else if (id == "step") limits.steps.push_back({static_cast<int>(row.required_number("hours")), CelsiusDelta(limit)});
    else if (id == "flat_line") limits.flat_lines.push_back({row.required_number("resolution_c"), static_cast<int>(limit)});
    else if (id == "extreme_below") limits.extreme_below = Celsius(limit);
    else if (id == "extreme_above") limits.extreme_above = Celsius(limit);
    else if (id == "daily_range") limits.daily_range = CelsiusDelta(limit);
    else if (id == "sun_bump") limits.sun_bump = CelsiusDelta(limit);
    else if (id == "sun_days") limits.sun_days = static_cast<int>(limit);
    else throw std::logic_error("quality.csv: no limit is called '" + id + "'");
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

class Marker {
 public:
  Marker(const HourlySeries& series, double resolution, const QualityThresholds& limits)
      : series_(series), resolution_(resolution), limits_(limits) {}

  std::vector<DoubtfulRun> all() {
    if (series_.empty()) return {};
    mark_steps();
    mark_flat_lines();
    mark_daily_extremes();
    mark_sun();
    return std::move(runs_);
  }

 private:
  std::optional<double> mean_at(LocalHour hour) const {
    const auto reading = series_.at(hour);
    if (!reading || reading->origin != HourOrigin::observed) return std::nullopt;
    return reading->mean.degrees();
  }

  void mark_steps() {
    for (LocalHour hour = series_.first(); hour < series_.end(); hour = hour + 1) {
      const auto here = mean_at(hour);
      if (!here) continue;
      for (const auto& step : limits_.steps) {
        const auto then = mean_at(hour - step.hours);
        if (!then || std::abs(*here - *then) <= step.change.degrees() + kSlack) continue;
        extend(runs_, {Doubt::step, hour - step.hours, hour, *here - *then});
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
    LocalHour from = series_.first();
    std::optional<double> value;
    for (LocalHour hour = series_.first(); hour <= series_.end(); hour = hour + 1) {
      const auto here = mean_at(hour);
      if (value && here && std::abs(*here - *value) < kSlack) continue;
      if (value && hour - from >= enough) {
        runs_.push_back({Doubt::flat_line, from, hour - 1, static_cast<double>(hour - from)});
      }
      value = here;
      from = hour;
    }
  }

  void mark_daily_extremes() {
    for (Date day = series_.first().date(); day <= series_.last().date(); day = plus_days(day, 1)) {
      std::optional<double> lowest;
      std::optional<double> highest;
      for (int hour = 0; hour < 24; ++hour) {
        const auto reading = series_.at(LocalHour::at(day, hour));
        if (!reading || reading->origin != HourOrigin::observed) continue;
        lowest = std::min(lowest.value_or(1e9), reading->lowest.degrees());
        highest = std::max(highest.value_or(-1e9), reading->mean.degrees());
      }
      if (!lowest) continue;
      const LocalHour from = LocalHour::at(day, 0);
      if (*lowest < limits_.extreme_below.degrees() - kSlack) {
        extend(runs_, {Doubt::daily_extreme, from, from + 23, *lowest});
      } else if (*highest > limits_.extreme_above.degrees() + kSlack) {
        extend(runs_, {Doubt::daily_extreme, from, from + 23, *highest});
      } else if (*highest - *lowest > limits_.daily_range.degrees() + kSlack) {
        extend(runs_, {Doubt::daily_extreme, from, from + 23, *highest - *lowest});
      }
    }
  }

  /// How far an hour stands over the hours two before and two after it, where it belongs to the day's warm half.
  double bump_at(LocalHour hour) const {
    const auto here = mean_at(hour);
    const auto before = mean_at(hour - 2);
    const auto after = mean_at(hour + 2);
    if (!here || !before || !after) return 0.0;
    const auto opposite = mean_at(hour - 12);
    if (opposite && *opposite > *here) return 0.0;
    return *here - std::max(*before, *after);
  }

  void mark_sun() {
    constexpr int kDaysLookedAt = 5;
    const double enough = limits_.sun_bump.degrees() + kSlack;
    for (LocalHour hour = series_.first(); hour < series_.end(); hour = hour + 1) {
      const double bump = bump_at(hour);
      if (bump <= enough) continue;
      // How many of the days around have it at the same hour, or the one beside it.
      int days = 0;
      for (int day = 1 - kDaysLookedAt; day < kDaysLookedAt; ++day) {
        bool found = false;
        for (int beside = -1; beside <= 1; ++beside) found = found || bump_at(hour + (24 * day + beside)) > enough;
        days += found;
      }
      if (days >= limits_.sun_days) extend(runs_, {Doubt::sensor_in_sun, hour, hour, bump});
    }
  }

  const HourlySeries& series_;
  double resolution_;
  const QualityThresholds& limits_;
  std::vector<DoubtfulRun> runs_;
};

}  // namespace

std::string_view id_of(Doubt doubt) { return kDoubtIds.at(static_cast<std::size_t>(doubt)); }

const QualityThresholds& quality_thresholds() {
  static const QualityThresholds limits = read_thresholds();
  return limits;
}

std::vector<DoubtfulRun> doubtful_runs(const HourlySeries& series, double resolution, const QualityThresholds& limits) {
  return Marker(series, resolution, limits).all();
}

}  // namespace winterfolio
