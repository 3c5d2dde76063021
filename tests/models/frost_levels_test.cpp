// Every published figure of frost on buds, from both sides.
#include <set>

#include "models/frost/critical_temperatures.h"
#include "support/catch.h"
#include "support/files.h"

using namespace winterfolio;
using namespace winterfolio::test;

namespace {

constexpr double kJustOver = 0.05;  ///< [°F]: half of the last digit a logger shows

FrostLevel level_at(const CriticalTemperature& stage, double fahrenheit) {
  return frost_level(Celsius::from_fahrenheit(fahrenheit), stage);
}

}  // namespace

TEST_CASE("each stage of each species turns at its two published temperatures") {
  const CsvTable table = published("critical_bud_temperatures.csv");
  int rows = 0;
  for (const CsvRow row : table) {
    ++rows;
    INFO(row.text("species") << ", " << row.text("stage"));
    const CriticalTemperature* stage = critical_temperature(row.text("species"), row.text("stage"));
    REQUIRE(stage != nullptr);
    CHECK((stage->mark == SourceMark::seen) == (row.text("mark") == "seen"));
    const double ten = row.required_number("kill10_f");
    CHECK(level_at(*stage, ten + kJustOver) == FrostLevel::watch);
    CHECK(level_at(*stage, ten) == FrostLevel::ten_percent);
    // One degree Celsius, 1.8 °F, over the figure: on clear nights buds can be colder than the air.
    CHECK(level_at(*stage, ten + 1.8) == FrostLevel::watch);
    CHECK(level_at(*stage, ten + 1.8 + kJustOver) == FrostLevel::above);
    const auto ninety = row.number("kill90_f");
    REQUIRE(stage->kill90.has_value() == ninety.has_value());
    if (!ninety) {
      CHECK(level_at(*stage, -60.0) == FrostLevel::ten_percent);
      continue;
    }
    CHECK(level_at(*stage, *ninety + kJustOver) == FrostLevel::ten_percent);
    CHECK(level_at(*stage, *ninety) == FrostLevel::ninety_percent);
  }
  int held = 0;
  for (const char* species : {"apple", "pear", "peach", "nectarine", "apricot", "european_plum",
                              "sweet_cherry", "tart_cherry"})
    held += static_cast<int>(critical_temperatures(species).size());
  CHECK(held == rows);
}

TEST_CASE("no figures of 10 and 90 % are used where none was found") {
  // Source: none was found on a public page for almond, quince, persimmon, fig or pomegranate.
  for (const char* species : {"almond", "quince", "persimmon", "fig", "pomegranate", "walnut",
                              "pecan", "mulberry", "blueberry", "japanese_plum", "asian_pear"})
    CHECK(critical_temperatures(species).empty());
}

TEST_CASE("figures that several bulletins print in Celsius") {
  // 28, 25, 24, 15 and 2 °F are -2.22, -3.89, -4.44, -9.44 and -16.67 °C.
  const CriticalTemperature& bloom = *critical_temperature("apple", "full bloom");
  CHECK_THAT(bloom.kill10.degrees(), WithinAbs(-2.22, 0.005));
  CHECK_THAT(bloom.kill90->degrees(), WithinAbs(-3.89, 0.005));
  const CriticalTemperature& silver = *critical_temperature("apple", "silver tip");
  CHECK_THAT(silver.kill10.degrees(), WithinAbs(-9.44, 0.005));
  CHECK_THAT(silver.kill90->degrees(), WithinAbs(-16.67, 0.005));
  CHECK_THAT(critical_temperature("peach", "full bloom")->kill90->degrees(),
             WithinAbs(-4.44, 0.005));
}

TEST_CASE("dormant buds: where harm is watched for, and where it is likely") {
  // Source: Evans, North Carolina State University (seen): peach buds, some killed at 0 °F, many
  // under -10 °F. Goshen News, 15 January 2022 (seen): cherry and plum from about -20 °F, apple to
  // -25 °F.
  const auto peach = dormant_hardiness("peach").value();
  CHECK(peach.watch == Celsius::from_fahrenheit(0));
  CHECK(peach.likely == Celsius::from_fahrenheit(-10));
  for (const char* species : {"sweet_cherry", "tart_cherry", "european_plum", "japanese_plum"}) {
    CHECK(dormant_hardiness(species)->watch == Celsius::from_fahrenheit(-20));
    CHECK_FALSE(dormant_hardiness(species)->likely.has_value());
  }
  CHECK(dormant_hardiness("apple")->watch == Celsius::from_fahrenheit(-25));
  CHECK(dormant_hardiness("nectarine")->mark == SourceMark::memory);
  CHECK_FALSE(dormant_hardiness("fig").has_value());
}

TEST_CASE("what half kills a tart cherry in full bloom lies between its two figures") {
  // Source: tart cherry 'Montmorency', HortScience 10:529-531 (abstract seen; Dennis et al. 1975
  // from memory): half the flowers killed at -3 °C in full bloom; protect from -2 °C on.
  const CriticalTemperature& bloom = *critical_temperature("tart_cherry", "full bloom");
  CHECK(bloom.kill10.degrees() > -3.0);
  CHECK(bloom.kill90->degrees() < -3.0);
  CHECK(frost_level(Celsius(-3.0), bloom) == FrostLevel::ten_percent);
  CHECK(frost_level(Celsius(-2.0), bloom) == FrostLevel::watch);
}
