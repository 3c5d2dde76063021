// Keeps consecutive days, incomplete ones included.
#include "weather/daily_series.h"

namespace winterfolio {

std::optional<DailyExtremes> DailySeries::at(Date day) const {
  if (empty()) return std::nullopt;
  const int offset = days_between(first_, day);
  if (offset < 0 || offset >= size()) return std::nullopt;
  return days_[static_cast<std::size_t>(offset)];
}

void DailySeries::set(Date day, std::optional<DailyExtremes> extremes) {
  if (empty()) first_ = day;
  if (const int before = days_between(day, first_); before > 0) {
    days_.insert(days_.begin(), static_cast<std::size_t>(before), std::nullopt);
    first_ = day;
  }
  const auto i = static_cast<std::size_t>(days_between(first_, day));
  if (i >= days_.size()) days_.resize(i + 1);
  days_[i] = extremes;
}

}  // namespace winterfolio
