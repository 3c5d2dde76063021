// Which hours make a winter: from one day of the year to another, both counted, north or south of
// the equator.
#pragma once

#include <string>

#include "base/dates.h"

namespace winterfolio {

/// The days between which cold is counted, both inclusive. `from` after `to` means that the winter
/// crosses New Year.
struct WinterWindow {
  MonthDay from;
  MonthDay to;
  bool crosses_new_year() const { return to < from; }
};

/// 1 November to the last day of February; 1 May to 31 August south of the equator.
WinterWindow default_winter_window(bool southern);

/// One winter of a window, named by the year in which it begins.
struct Winter {
  int year = 0;
  Date from;
  Date to;  ///< inclusive
  LocalHour begin() const { return LocalHour::at(from, 0); }
  LocalHour end() const { return LocalHour::at(to, 0) + 24; }  ///< one past the last hour
  std::string name() const;  ///< "2026-27", or "2026" where the window lies within one year
};

Winter winter_of(const WinterWindow& window, int year);

/// The winter that holds `day`, or else the one that comes next after it.
int winter_year_at_or_after(const WinterWindow& window, Date day);

}  // namespace winterfolio
