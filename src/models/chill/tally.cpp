// Runs every measure of the registry over the same hours.
#include "models/chill/tally.h"

#include <algorithm>

namespace winterfolio {

ChillTally tally_chill(const HourlySeries& series, LocalHour from, LocalHour to,
                       const ChillTally& start) {
  const KnownHours hours(series, from, to);
  ChillTally tally = start;
  tally.hours += hours.hours();
  tally.missing_hours += hours.missing();
  for (const ChillModel& model : chill_models()) {
    model.run_on(hours, tally.states[static_cast<std::size_t>(model.measure)], {});
  }
  return tally;
}

ChillAmount ChillCurve::before(LocalHour hour) const {
  const std::int32_t passed = std::min(hour - from_, static_cast<std::int32_t>(totals_.size()));
  if (passed <= 0) return {measure_, start_.total};
  return {measure_, totals_[static_cast<std::size_t>(passed) - 1]};
}

std::vector<double> ChillCurve::by_day() const {
  std::vector<double> days;
  if (totals_.empty()) return days;
  const Date last = (to() - 1).date();
  for (Date day = from_.date(); day <= last; day = plus_days(day, 1))
    days.push_back(end_of(day).amount());
  return days;
}

ChillCurve chill_curve(ChillMeasure measure, const KnownHours& hours, ChillState start) {
  std::vector<double> totals(static_cast<std::size_t>(hours.hours()));
  ChillState state = start;
  chill_model(measure).run_on(hours, state, totals);
  return {measure, hours.from(), std::move(totals), start, state};
}

ChillCurve chill_curve(ChillMeasure measure, const HourlySeries& series, LocalHour from,
                       LocalHour to, ChillState start) {
  return chill_curve(measure, KnownHours(series, from, to), start);
}

}  // namespace winterfolio
