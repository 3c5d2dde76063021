// Finds the winter and the day spoken from, or says why there is none.
#include "cli/standing_day.h"

#include <fmt/format.h>

namespace winterfolio {
namespace {

/// Why there is no winter to speak of although a file may hold readings.
Diagnostic no_readings(const LoadedOrchard& loaded, bool chosen,
                       const std::optional<Today>& today) {
  Diagnostic none;
  none.id = "print.no-readings";
  none.at.file = loaded.orchard.file;
  const HourlySeries& hours = loaded.record.hours;
  if (hours.empty()) {
    none.message =
        "no temperature of the orchard itself is known, so there is no winter to speak of";
    none.expected = "a file of the orchard's own thermometer under 'temperatures:'";
    none.mend = "name the logger's or the nearest station's file there, without 'stands_for'";
    return none;
  }
  const std::string first = iso_date(hours.first().date());
  const std::string last = iso_date(hours.last().date());
  none.message = today ? fmt::format("no temperature of the winter {} up to {} is known",
                                     today->winter.name(), iso_date(today->as_of))
                       : fmt::format("no temperature is known so early; the first is of {}", first);
  none.expected =
      fmt::format("a winter and a day that the readings reach: they go from {} to {}", first, last);
  none.mend = chosen ? "choose another --winter or --as-of, or name the file that holds this one"
                     : "name the file that holds it under 'temperatures:', or choose a winter with "
                       "--winter";
  return none;
}

bool has_readings(const HourlySeries& hours, const Today& today) {
  const LocalHour from = today.winter.begin();
  const LocalHour to = today.counted_to();
  return from < to && hours.missing_in(from, to) < to - from;
}

}  // namespace

std::optional<Today> today_of(const LoadedOrchard& loaded, std::optional<int> winter,
                              std::optional<Date> as_of, Diagnostics& diagnostics) {
  auto today = stand_at(loaded.record, loaded.window, winter, as_of);
  if (today && has_readings(loaded.record.hours, *today)) return today;
  diagnostics.add(no_readings(loaded, winter || as_of, today));
  return std::nullopt;
}

}  // namespace winterfolio
