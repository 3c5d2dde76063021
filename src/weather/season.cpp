// Turns a window of the year into winters of given years.
#include "weather/season.h"

#include <fmt/format.h>

namespace winterfolio {

WinterWindow default_winter_window(bool southern) {
  return southern ? WinterWindow{{5, 1}, {8, 31}} : WinterWindow{{11, 1}, {2, 29}};
}

std::string Winter::name() const {
  const int ends = int{to.year()};
  return ends == year ? fmt::format("{}", year) : fmt::format("{}-{:02}", year, ends % 100);
}

Winter winter_of(const WinterWindow& window, int year) {
  return {year, window.from.in_year(year),
          window.to.in_year(year + (window.crosses_new_year() ? 1 : 0))};
}

int winter_year_at_or_after(const WinterWindow& window, Date day) {
  int year = int{day.year()} - 1;
  while (winter_of(window, year).to < day) ++year;
  return year;
}

}  // namespace winterfolio
