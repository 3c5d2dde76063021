// Offsets between the extremes of two thermometers, as means of their differences.
#include "weather/nearby_days.h"

#include <algorithm>
#include <cmath>

#include "weather/daily_to_hourly.h"

namespace winterfolio {
namespace {

constexpr int kEnoughOfMonth = 10;

struct Sum {
  double total = 0.0;
  int days = 0;
  void add(double value) {
    total += value;
    ++days;
  }
  double mean() const { return days > 0 ? total / days : 0.0; }
};

std::size_t month_of(Date day) { return unsigned{day.month()} - 1; }

/// Differences of one extreme, by month where there are enough days of it.
class DayOffsets {
 public:
  void add(Date day, double difference) {
    all_.add(difference);
    months_[month_of(day)].add(difference);
  }
  double in(std::size_t month) const {
    return months_[month].days >= kEnoughOfMonth ? months_[month].mean() : all_.mean();
  }
  const Sum& all() const { return all_; }

 private:
  Sum all_;
  std::array<Sum, 12> months_;
};

struct BothOffsets {
  DayOffsets minimum;
  DayOffsets maximum;
  void add(Date day, const DailyExtremes& own, const DailyExtremes& theirs) {
    minimum.add(day, (own.minimum - theirs.minimum).degrees());
    maximum.add(day, (own.maximum - theirs.maximum).degrees());
  }
};

template <typename Visit>
void for_shared_days(const DailySeries& own, const DailySeries& theirs, Visit visit) {
  if (own.empty() || theirs.empty()) return;
  const Date last = std::min(own.last(), theirs.last());
  for (Date day = std::max(own.first(), theirs.first()); day <= last; day = plus_days(day, 1)) {
    const auto a = own.at(day);
    const auto b = theirs.at(day);
    if (a && b) visit(day, *a, *b);
  }
}

/// Weeks are left out in turn, so that a day is never judged by its own neighbours.
std::size_t half_of(Date day) {
  return static_cast<std::size_t>((LocalHour::at(day, 0).hours_since_1970() / (7 * 24)) & 1);
}

double error_of(const DailySeries& own, const DailySeries& theirs, const BothOffsets& whole) {
  std::array<BothOffsets, 2> halves;
  for_shared_days(own, theirs, [&](Date day, const DailyExtremes& a, const DailyExtremes& b) {
    halves[half_of(day)].add(day, a, b);
  });
  Sum squares;
  for_shared_days(own, theirs, [&](Date day, const DailyExtremes& a, const DailyExtremes& b) {
    const BothOffsets& other = halves[1 - half_of(day)];
    const BothOffsets& judge = other.minimum.all().days > 0 ? other : whole;
    const double low = (a.minimum - b.minimum).degrees() - judge.minimum.in(month_of(day));
    const double high = (a.maximum - b.maximum).degrees() - judge.maximum.in(month_of(day));
    squares.add(low * low);
    squares.add(high * high);
  });
  return std::sqrt(squares.mean());
}

}  // namespace

DailyExtremes ExtremesOffsets::moved(Date day, const DailyExtremes& theirs) const {
  const Celsius low = theirs.minimum + CelsiusDelta(minimum[month_of(day)]);
  const Celsius high = theirs.maximum + CelsiusDelta(maximum[month_of(day)]);
  return {std::min(low, high), std::max(low, high)};
}

DailySeries extremes_of(const HourlySeries& hours, const DailySeries& kept) {
  DailySeries extremes = daily_from_hourly(hours);
  if (kept.empty()) return extremes;
  for (Date day = kept.first(); day <= kept.last(); day = plus_days(day, 1)) {
    if (const auto read = kept.at(day)) extremes.set(day, read);
  }
  return extremes;
}

int shared_days(const DailySeries& own, const DailySeries& theirs) {
  int shared = 0;
  for_shared_days(own, theirs, [&](Date, const DailyExtremes&, const DailyExtremes&) { ++shared; });
  return shared;
}

std::optional<ExtremesOffsets> fit_extremes(const DailySeries& own, const DailySeries& theirs) {
  BothOffsets offsets;
  for_shared_days(own, theirs, [&](Date day, const DailyExtremes& a, const DailyExtremes& b) {
    offsets.add(day, a, b);
  });
  if (offsets.minimum.all().days < kFewestSharedDays) return std::nullopt;
  ExtremesOffsets result;
  result.fit = {offsets.minimum.all().days, CelsiusDelta(offsets.minimum.all().mean()),
                CelsiusDelta(offsets.maximum.all().mean()),
                CelsiusDelta(error_of(own, theirs, offsets))};
  for (std::size_t month = 0; month < result.minimum.size(); ++month) {
    result.minimum[month] = offsets.minimum.in(month);
    result.maximum[month] = offsets.maximum.in(month);
  }
  return result;
}

std::optional<NearbyDaysFill> fill_days_from_nearby(DailySeries& days, const DailySeries& own,
                                                    const DailySeries& nearby) {
  const auto offsets = fit_extremes(own, nearby);
  if (!offsets) return std::nullopt;
  NearbyDaysFill result{offsets->fit, 0};
  if (days.empty()) return result;
  for (Date day = days.first(); day <= days.last(); day = plus_days(day, 1)) {
    const auto theirs = nearby.at(day);
    if (!theirs || days.at(day) || own.at(day)) continue;
    days.set(day, offsets->moved(day, *theirs));
    ++result.filled;
  }
  return result;
}

}  // namespace winterfolio
