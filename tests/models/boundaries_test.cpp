// One hour at, just below and just above every edge of every measure, against the published
// definitions.
#include "models/chill/chill_hours.h"
#include "models/chill/chill_hours_32_45.h"
#include "models/chill/chill_hours_less_warm.h"
#include "models/chill/low_chill.h"
#include "models/chill/north_carolina.h"
#include "models/chill/step_table.h"
#include "models/chill/utah.h"
#include "models/chill/utah_smoothed.h"
#include "models/heat/degree_hours.h"
#include "support/catch.h"
#include "support/files.h"

using namespace winterfolio;
using test::published;

TEST_CASE("one hour at every edge in Celsius weighs what the definitions say") {
  int rows = 0;
  for (const CsvRow row : published("chill_boundaries_celsius.csv")) {
    const Celsius t(row.required_number("temp_C"));
    INFO(t.degrees() << " °C");
    CHECK(chill_hours_of_hour(t).amount() == row.required_number("CH_le_7.2"));
    CHECK(chill_hours_32_45_of_hour(t).amount() == row.required_number("CH_0_to_7.2_closed"));
    CHECK(utah_of_hour(t).amount() == row.required_number("Utah_C_table"));
    CHECK_THAT(utah_smoothed_of_hour(t).amount(),
               WithinAbs(row.required_number("Linvill_sine"), 5e-7));
    CHECK(north_carolina_of_hour(t).amount() == row.required_number("NC_step"));
    CHECK(low_chill_of_hour(t).amount() == row.required_number("LowChill_step"));
    CHECK_THAT(linear_degree_hours(t).degree_hours(),
               WithinAbs(row.required_number("GDH_linear_C"), 5e-5));
    CHECK_THAT(curved_degree_hours(t).degree_hours(),
               WithinAbs(row.required_number("GDH_ASYMCUR"), 5e-7));
    ++rows;
  }
  CHECK(rows == 58);
}

TEST_CASE("one hour at every edge in Fahrenheit weighs what the definitions say") {
  int rows = 0;
  for (const CsvRow row : published("chill_boundaries_fahrenheit.csv")) {
    const Celsius t = Celsius::from_fahrenheit(row.required_number("temp_F"));
    INFO(row.text("temp_F") << " °F");
    const double cold = row.required_number("CH_32_to_45F_closed");
    CHECK(chill_hours_of_hour(t).amount() == row.required_number("CH_le_45F"));
    CHECK(chill_hours_32_45_of_hour(t).amount() == cold);
    CHECK(chill_hours_less_warm_of_hour(t).amount() == cold - row.required_number("warm_gt_60F"));
    CHECK(utah_of_hour(t).amount() == row.required_number("Utah_C_table_after_conversion"));
    CHECK(utah_of_hour_by_fahrenheit_table(t).amount() ==
          row.required_number("Utah_F_upper_inclusive"));
    ++rows;
  }
  CHECK(rows == 25);
}

TEST_CASE("7.2 °C, 7.22 °C and 45 °F all count as 45 °F, and a little more does not") {
  // Common practice: the three are written for one another; the line itself is 45 °F exactly.
  for (const double celsius :
       {7.2, 7.22, 7.2222, Celsius::from_fahrenheit(45.0).degrees(), 65.0 / 9.0 + 9e-7}) {
    INFO(celsius);
    CHECK(chill_hours_of_hour(Celsius(celsius)).amount() == 1.0);
  }
  CHECK(chill_hours_of_hour(Celsius(65.0 / 9.0 + 2e-6)).amount() == 0.0);
  CHECK(chill_hours_32_45_of_hour(Celsius(-9e-7)).amount() == 1.0);
  CHECK(chill_hours_32_45_of_hour(Celsius(-2e-6)).amount() == 0.0);
  CHECK(chill_hours_less_warm_of_hour(Celsius(140.0 / 9.0 + 9e-7)).amount() == 0.0);
  CHECK(chill_hours_less_warm_of_hour(Celsius(140.0 / 9.0 + 2e-6)).amount() == -1.0);
}

TEST_CASE("the lines of the tables are the lines of the units") {
  CHECK(kChillLine.degrees() == Approx(65.0 / 9.0).epsilon(1e-15));
  CHECK(kWarmLine.degrees() == Approx(140.0 / 9.0).epsilon(1e-15));
  const CsvTable table = CsvTable::embedded("src/models/chill/tables/chill_hours_less_warm.csv");
  CHECK(Celsius::from_fahrenheit(table.row(1).required_number("from_f")) == kFreezing);
  CHECK(Celsius::from_fahrenheit(table.row(1).required_number("to_f")) == kChillLine);
  CHECK(Celsius::from_fahrenheit(table.row(2).required_number("to_f")) == kWarmLine);
}

TEST_CASE("smoothed Utah units at the nodes of the curve") {
  // Source: Linvill 1990 (formula from memory); nodes 7, 14 and 21 °C seen in a glossary of
  // meteorology. Values: sin(2 pi T/28).
  const std::vector<std::pair<double, double>> nodes = {
      {0.0, 0.0},       {1.0, 0.222521}, {2.0, 0.433884},   {3.5, 0.707107}, {7.0, 1.0},
      {10.5, 0.707107}, {14.0, 0.0},     {17.5, -0.707107}, {21.0, -1.0}};
  for (const auto& [celsius, units] : nodes) {
    INFO(celsius);
    CHECK_THAT(utah_smoothed_of_hour(Celsius(celsius)).amount(), WithinAbs(units, 5e-7));
  }
}

TEST_CASE("degree hours of the straight form at whole temperatures") {
  // Source: Richardson et al. 1975 (from memory); T - 4.5 between the base and 25 °C.
  const std::vector<std::pair<double, double>> cases = {
      {4.5, 0.0}, {10.0, 5.5}, {14.5, 10.0}, {25.0, 20.5}, {30.0, 20.5}};
  for (const auto& [celsius, expected] : cases) {
    CHECK_THAT(linear_degree_hours(Celsius(celsius)).degree_hours(), WithinAbs(expected, 1e-12));
  }
}

TEST_CASE(
    "degree hours of the curved form rise to 21 at the optimum and fall to nought at the critical "
    "temperature") {
  // Source: Anderson, Richardson & Kesner 1986 (formula from memory); values worked out
  // independently.
  const std::vector<std::pair<double, double>> cases = {
      {4.0, 0.0},       {5.0, 0.117276},   {7.2, 1.180349},  {10.0, 3.953357},
      {14.5, 10.5},     {20.0, 18.197045}, {25.0, 21.0},     {28.0, 12.276285},
      {30.5, 6.150758}, {33.0, 1.897728},  {35.0, 0.213750}, {36.0, 0.0}};
  for (const auto& [celsius, expected] : cases) {
    INFO(celsius);
    CHECK_THAT(curved_degree_hours(Celsius(celsius)).degree_hours(), WithinAbs(expected, 5e-7));
  }
  CHECK_THAT(curved_degree_hours(Celsius(25.0 + 1e-9)).degree_hours(), WithinAbs(21.0, 1e-6));
}
