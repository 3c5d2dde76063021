// Hours, days and winters: holes keep their length, short ones are bridged, windows fall on the
// right days.
#include <random>

#include "support/catch.h"
#include "weather/daily_series.h"
#include "weather/hourly_series.h"
#include "weather/join_series.h"
#include "weather/season.h"

using namespace winterfolio;

namespace {

HourReading observed(double mean) { return {Celsius(mean), Celsius(mean), HourOrigin::observed}; }

HourlySeries hours_of(std::vector<std::optional<double>> means) {
  HourlySeries series;
  for (std::size_t i = 0; i < means.size(); ++i) {
    if (means[i]) series.set(LocalHour(static_cast<std::int32_t>(i)), observed(*means[i]));
  }
  return series;
}

}  // namespace

TEST_CASE("An hourly series grows at either end and keeps its holes") {
  HourlySeries series;
  CHECK(series.empty());
  CHECK_FALSE(series.at(LocalHour(0)));
  series.set(LocalHour(100), observed(4.1));
  series.set(LocalHour(103), {Celsius(5.0), Celsius(3.5), HourOrigin::observed});
  series.set(LocalHour(98), observed(-1.2));
  CHECK(series.first() == LocalHour(98));
  CHECK(series.last() == LocalHour(103));
  CHECK(series.size() == 6);
  CHECK(series.at(LocalHour(100))->mean == Celsius(4.1));
  CHECK(series.at(LocalHour(100))->lowest == Celsius(4.1));
  CHECK_THAT(series.at(LocalHour(103))->lowest.degrees(), WithinAbs(3.5, 1e-6));
  CHECK_FALSE(series.at(LocalHour(101)));
  CHECK(series.missing_in(LocalHour(98), LocalHour(104)) == 3);
  CHECK(series.missing_in(LocalHour(90), LocalHour(110)) == 17);
  CHECK(series.missing_in(LocalHour(110), LocalHour(120)) == 10);
  CHECK(series.missing_in(LocalHour(104), LocalHour(104)) == 0);
  CHECK(series.count_in(LocalHour(0), LocalHour(200), HourOrigin::observed) == 3);
  series.clear(LocalHour(100));
  CHECK_FALSE(series.at(LocalHour(100)));
  CHECK(series.size() == 6);
}

TEST_CASE("Holes of up to three hours are bridged by a line, longer ones and open ends are not") {
  HourlySeries series =
      hours_of({std::nullopt, 1.0, std::nullopt, 3.0, std::nullopt, std::nullopt, std::nullopt, 7.0,
                std::nullopt, std::nullopt, std::nullopt, std::nullopt, 2.0});
  CHECK(fill_short_gaps(series) == 4);
  CHECK(series.at(LocalHour(2))->mean == Celsius(2.0));
  CHECK(series.at(LocalHour(2))->origin == HourOrigin::line);
  CHECK(series.at(LocalHour(4))->mean == Celsius(4.0));
  CHECK(series.at(LocalHour(6))->mean == Celsius(6.0));
  CHECK_FALSE(series.at(LocalHour(8)));
  CHECK_FALSE(series.at(LocalHour(0)));
  CHECK(fill_short_gaps(series) == 0);
  HourlySeries none;
  CHECK(fill_short_gaps(none) == 0);
}

TEST_CASE("A daily series grows at either end") {
  DailySeries days;
  CHECK_FALSE(days.at(date_of(2024, 1, 1)));
  days.set(date_of(2024, 3, 1), DailyExtremes{Celsius(1), Celsius(2)});
  days.set(date_of(2024, 2, 28), DailyExtremes{Celsius(0), Celsius(5)});
  CHECK(days.size() == 3);
  CHECK(days.first() == date_of(2024, 2, 28));
  CHECK(days.last() == date_of(2024, 3, 1));
  CHECK_FALSE(days.at(date_of(2024, 2, 29)));
  days.set(date_of(2024, 3, 1), std::nullopt);
  CHECK_FALSE(days.at(date_of(2024, 3, 1)));
}

TEST_CASE("The northern winter ends with February, the southern lies in one year") {
  // Source: chill hours are counted from 1 November in California (University of California
  // Cooperative Extension, seen; to 1 March at Yuba City), from 1 May to 31 August in South Africa
  // (Mouton 2021, seen).
  const WinterWindow north = default_winter_window(false);
  const Winter leap = winter_of(north, 2023);
  CHECK(leap.from == date_of(2023, 11, 1));
  CHECK(leap.to == date_of(2024, 2, 29));
  CHECK(leap.end() - leap.begin() == 121 * 24);
  CHECK(leap.name() == "2023-24");
  CHECK(winter_of(north, 2024).to == date_of(2025, 2, 28));
  CHECK(winter_of(north, 1999).name() == "1999-00");
  const Winter south = winter_of(default_winter_window(true), 2024);
  CHECK(south.from == date_of(2024, 5, 1));
  CHECK(south.to == date_of(2024, 8, 31));
  CHECK(south.name() == "2024");
  const WinterWindow whole_year{{1, 1}, {12, 31}};
  CHECK(winter_of(whole_year, 2024).end() - winter_of(whole_year, 2024).begin() == 366 * 24);
  const WinterWindow one_day{{2, 29}, {2, 29}};
  CHECK(winter_of(one_day, 2023).from == date_of(2023, 2, 28));
}

TEST_CASE("A day belongs to its winter or to the next one") {
  const WinterWindow north = default_winter_window(false);
  CHECK(winter_year_at_or_after(north, date_of(2024, 2, 29)) == 2023);
  CHECK(winter_year_at_or_after(north, date_of(2024, 3, 1)) == 2024);
  CHECK(winter_year_at_or_after(north, date_of(2024, 12, 1)) == 2024);
  CHECK(winter_year_at_or_after(default_winter_window(true), date_of(2024, 9, 1)) == 2025);
}

TEST_CASE("Joined series: the first named wins, differences are counted") {
  HourlySeries first = hours_of({1.0, 2.0, std::nullopt, 4.0});
  HourlySeries second;
  for (int h = 1; h < 6; ++h) second.set(LocalHour(h), observed(h + 1 + (h == 3 ? 0.5 : 0.0)));
  const SharedHours shared = join_series(first, second);
  CHECK(shared.shared == 2);
  CHECK(shared.differing == 1);
  CHECK_THAT(shared.largest, WithinAbs(0.5, 1e-12));
  CHECK(shared.added == 3);
  CHECK(first.at(LocalHour(3))->mean == Celsius(4.0));
  CHECK(first.at(LocalHour(2))->mean == Celsius(3.0));
  CHECK(first.size() == 6);
}
