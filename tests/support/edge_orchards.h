// Small orchards at the edges of what can be described, as files: a winter begun yesterday, the
// other hemisphere, no night or no day, no tree that rests, no readings of other winters.
#pragma once

#include <string>
#include <vector>

#include "base/dates.h"

namespace winterfolio::test {

/// Hours of a winter from its first day on: 3 °C at midnight, up and down by a degree an hour.
inline std::string hours_from(Date first, int days) {
  std::string text = "time,temp_c\n";
  for (int day = 0; day < days; ++day) {
    for (int hour = 0; hour < 24; ++hour) {
      const int degrees = 3 + (hour < 12 ? hour : 24 - hour) / 2;
      text += iso_date(plus_days(first, day)) + (hour < 10 ? " 0" : " ") + std::to_string(hour) +
              ":00," + std::to_string(degrees) + "\n";
    }
  }
  return text;
}

inline std::string orchard_at(
    const std::string& place, const std::string& more = "",
    const std::string& trees = "  - {id: A1, species: apple, cultivar: Anna}\n") {
  return "version: 1\norchard: {id: edge, name: Edge, " + place +
         "}\ntemperatures:\n  - {file: w.csv, unit: C}\n" + more + "trees:\n" + trees;
}

struct EdgeOrchard {
  const char* what;
  std::string orchard;   ///< orchard.yaml
  std::string readings;  ///< w.csv beside it
};

inline std::vector<EdgeOrchard> edge_orchards() {
  const std::string no_rest = "  - {id: A1, species: other, other: feijoa}\n";
  return {
      {"one day, no other winter", orchard_at("latitude: 45, longitude: 10"),
       hours_from(date_of(2026, 11, 1), 1)},
      {"south of the equator", orchard_at("latitude: -34, longitude: 20"),
       hours_from(date_of(2026, 5, 1), 60)},
      {"the polar night, no time zone", orchard_at("latitude: 78"),
       hours_from(date_of(2026, 11, 20), 40)},
      {"no tree that rests", orchard_at("latitude: 45", "", no_rest),
       hours_from(date_of(2026, 11, 1), 40)},
      {"bare totals of past winters",
       orchard_at("latitude: 45",
                  "past_winters:\n  - {winter: 2020-21, chill_hours: 600, from_where: notebook}\n"
                  "  - {winter: 2021-22, chill_hours: 700, from_where: notebook}\n"),
       hours_from(date_of(2026, 11, 1), 40)},
      {"a need of which nobody says where it is from",
       orchard_at("latitude: 45", "",
                  "  - {id: A1, species: apple, cultivar: Anna, needs: {chill_hours: 500}}\n"),
       hours_from(date_of(2026, 11, 1), 40)},
      {"a winter that is over", orchard_at("latitude: 45, longitude: 10"),
       hours_from(date_of(2026, 11, 1), 200)}};
}

}  // namespace winterfolio::test
