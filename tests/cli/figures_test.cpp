// `figures`, as a person meets it: valid by its schema for orchards at every edge, the same digits
// everywhere, null for what is not known, and a status like every other command's.
#include <nlohmann/json.hpp>
#include <sstream>

#include "cli/figures.h"
#include "report/figure_tree.h"
#include "support/catch.h"
#include "support/edge_orchards.h"
#include "support/program.h"

using namespace winterfolio;
using namespace winterfolio::test;
using nlohmann::json;

namespace {

const std::string kSample = "'" + source_dir() + "/sample-orchard/orchard.yaml'";
const std::string kSeattle = "'" + source_dir() + "/tests/data/seattle/orchard.yaml'";

/// An orchard in a folder of its own, with the figures of its last day.
class Edge {
 public:
  Edge(const std::string& orchard, const std::string& readings) {
    scratch_.write("orchard.yaml", orchard);
    scratch_.write("w.csv", readings);
  }
  const std::string& path() const { return scratch_.path(); }
  json figures(const std::string& more = "") const {
    const ProgramRun run = run_program("figures orchard.yaml " + more, path());
    INFO(run.err);
    REQUIRE(run.status == 0);
    return json::parse(run.out);
  }

 private:
  ScratchFolder scratch_;
};

/// What the validator says of an orchard's figures, in both forms; empty if nothing.
std::string faults_by_schema(const std::string& orchard, const std::string& more = "",
                             const std::string& folder = ".") {
  const ScratchFolder scratch;
  for (const char* form : {"json", "csv"}) {
    const ProgramRun run = run_program("figures " + orchard + " " + more + " --as " + form, folder);
    if (run.status != 0) return run.err;
    scratch.write(form, run.out);
  }
  const std::string line = "python3 '" + source_dir() + "/tests/independent/check_figures.py' '" +
                           source_dir() + "/templates/figures.schema.json' " + scratch.path() +
                           "/json " + scratch.path() + "/csv >" + scratch.path() + "/out 2>&1";
  const int status = std::system(line.c_str());
  const std::string said = read_file(scratch.path() + "/out");
  if (said.find("No module named 'jsonschema'") != std::string::npos)
    return "install python3-jsonschema: without it nothing is proven of the schema";
  return status == 0 ? std::string() : said + " ";
}

std::string digits(double value, FigureUnit unit) { return digits_of(amount_figure(value, unit)); }

}  // namespace

TEST_CASE("figures of the sample and of Seattle are valid by their schema, in JSON and CSV") {
  CHECK(faults_by_schema(kSample) == "");
  CHECK(faults_by_schema(kSample, "--hourly") == "");
  CHECK(faults_by_schema(kSample, "--winter 2020") == "");
  CHECK(faults_by_schema(kSample, "--as-of 2026-11-02") == "");
  CHECK(faults_by_schema(kSeattle, "--hourly") == "");
}

TEST_CASE("figures of orchards at the edge are valid by their schema") {
  for (const EdgeOrchard& one : edge_orchards()) {
    INFO(one.what);
    const Edge edge(one.orchard, one.readings);
    CHECK(faults_by_schema("orchard.yaml", "--hourly", edge.path()) == "");
  }
}

TEST_CASE("a figure that breaks the schema is found by the validator") {
  const ScratchFolder scratch;
  json figures = json::parse(run_program("figures " + kSample).out);
  const auto accepted = [&](const json& changed) {
    const std::string path = scratch.write("changed.json", changed.dump());
    const std::string line = "python3 '" + source_dir() + "/tests/independent/check_figures.py' '" +
                             source_dir() + "/templates/figures.schema.json' " + path +
                             " >/dev/null 2>&1";
    return std::system(line.c_str()) == 0;
  };
  REQUIRE(accepted(figures));
  json extra = figures;
  extra["frost"]["not_described"] = 1;
  CHECK_FALSE(accepted(extra));
  json lacking = figures;
  lacking["trees"][0]["parts"][0]["verdict"].erase("state");
  CHECK_FALSE(accepted(lacking));
  json half = figures;
  half["verdicts"]["met"] = 7.5;
  CHECK_FALSE(accepted(half));
}

TEST_CASE("figures have the same bytes in every locale and time zone, and say nothing else") {
  const ProgramRun plain = run_program("figures " + kSample + " --hourly");
  CHECK(plain.status == 0);
  const ProgramRun elsewhere =
      run_program("figures " + kSample + " --hourly", ".", "LC_ALL=de_DE.UTF-8 TZ=Asia/Tokyo");
  CHECK(elsewhere.out == plain.out);
  CHECK(plain.out.find(" -0,") == std::string::npos);
  CHECK(plain.out.find(" -0\n") == std::string::npos);
}

TEST_CASE("the hourly series end where the totals stand") {
  // Every measure's total is the last of its hours, and tally counts the same of the same files.
  const json figures = json::parse(run_program("figures " + kSample + " --hourly").out);
  const json& hourly = figures["hourly"];
  CHECK(hourly["first"] == "2026-11-01T00:00");
  CHECK(hourly["measures"].size() == 9);
  const std::size_t hours = figures["readings"]["hours"];
  CHECK(hourly["temperature"].size() == hours);
  CHECK(hourly["origin"].size() == hours);
  for (const auto& [measure, totals] : hourly["measures"].items()) {
    INFO(measure);
    CHECK(totals.size() == hours);
    if (figures["cold"]["measures"].contains(measure))
      CHECK(totals.back() == figures["cold"]["measures"][measure]["received"]["total"]);
  }
  const json tally = json::parse(
      run_program("tally '" + source_dir() +
                  "/sample-orchard/temperatures/winter-2026-27.csv' --unit F --clock civil "
                  "--time-zone America/Los_Angeles --columns time='Date and time' "
                  "--columns temperature='Air temperature (F)' --as json")
          .out);
  const json& counted = tally["files"][0]["winters"][0]["measures"];
  for (const auto& [measure, totals] : hourly["measures"].items()) {
    INFO(measure);
    CHECK_THAT(totals.back().get<double>(), WithinAbs(counted[measure].get<double>(), 0.0006));
  }
  CHECK_FALSE(json::parse(run_program("figures " + kSample).out).contains("hourly"));
}

TEST_CASE("what is not known is null, never nought") {
  const Edge edge(orchard_at("latitude: 45"), hours_from(date_of(2026, 11, 1), 1));
  const json figures = edge.figures();
  const json& cold = figures["cold"]["measures"].front();
  CHECK(cold["years"]["same_day_median"].is_null());
  CHECK(cold["years"]["rank"].is_null());
  CHECK(cold["to_come"]["at_end"].is_null());
  CHECK(figures["orchard"]["longitude"].is_null());
  CHECK(figures["frost"]["coldest"].is_null());
  CHECK(figures["frost"]["number_of_nights"] == 0);
  CHECK(figures["days"]["sunset"].empty());
  CHECK(figures["days"]["lowest"] == json::array({3}));
  // 18 of the day's hours are at 7 °C or under: those of 3 to 7 °C, ten before and nine after noon
  // less the hour at 8 °C, counted on the fingers: hours 0-9 and 15-23 of 3 + min(h, 24 - h) / 2.
  CHECK(figures["days"]["cold_hours"] == 19);
}

TEST_CASE("figures: --winter and --as-of choose the day, and a wrong one ends like printing does") {
  const json past = json::parse(run_program("figures " + kSample + " --winter 2020").out);
  CHECK(past["winter"]["name"] == "2020-21");
  CHECK(past["winter"]["over"] == true);
  const json early = json::parse(run_program("figures " + kSample + " --as-of 2026-12-05").out);
  CHECK(early["winter"]["as_of"] == "2026-12-05");
  CHECK(early["winter"]["days_so_far"]["to"] == "2026-12-05");
  const ProgramRun none = run_program("figures " + kSample + " --winter 1990");
  CHECK(none.status == 1);
  CHECK(none.out.empty());
  CHECK(none.err.find("choose another --winter or --as-of") != std::string::npos);
  CHECK(run_program("figures no-such.yaml").status == 1);
  CHECK(run_program("figures").status == 2);
  CHECK(run_program("figures a.yaml --as text").status == 2);
  CHECK(run_program("figures a.yaml --hourli").err.find("did you mean '--hourly'?") !=
        std::string::npos);
  CHECK(run_program("figures --help").out.find("json if not given") != std::string::npos);
}

TEST_CASE("figures are rounded away from nought at a tie, without noughts at their end") {
  using namespace figure_unit;
  CHECK(digits(0.125, kCelsius) == "0.13");
  CHECK(digits(-0.125, kCelsius) == "-0.13");
  CHECK(digits(1.005, kCelsius) == "1.01");  // 1.00499999999999989… in the processor
  CHECK(digits(-0.004, kCelsius) == "0");
  CHECK(digits(-0.0, kCelsius) == "0");
  CHECK(digits(21.5, kCelsius) == "21.5");
  CHECK(digits(100.0, kCelsius) == "100");
  CHECK(digits(47.1234, amount_unit(ChillMeasure::portions)) == "47.123");
  CHECK(digits_of(count_figure(1200, kHours)) == "1200");
}

TEST_CASE("the last bits of a processor decide no digit") {
  // Sums of tenths that ought to be ties, off by a few units of the last place either way.
  for (const double tie : {0.625, 7.125, 44.375, 1234.865}) {
    INFO(tie);
    const double up = tie * (1.0 + 4e-16);
    const double down = tie * (1.0 - 4e-16);
    CHECK(rounded(up, 2) == rounded(down, 2));
    CHECK(rounded(-up, 2) == rounded(-down, 2));
  }
}

TEST_CASE("CSV names a figure by its pointer, quotes what must be and leaves unknown ones empty") {
  FigureNode figures = FigureNode::map();
  FigureNode inner = FigureNode::map();
  inner.set("a/b~c", amount_figure(1.5, figure_unit::kCelsius));
  inner.set("none", date_figure(std::nullopt));
  figures.set("inner", inner);
  FigureNode names = FigureNode::list();
  names.append(text_figure("plain"));
  names.append(text_figure("with, comma and \"quotes\""));
  figures.set("names", names);
  figures.set("yes", yes_no_figure(true));
  // RFC 6901, section 3: "~" is written ~0 and "/" ~1.
  CHECK(figures_as_csv(figures) ==
        "path,value,unit\n"
        "/inner/a~1b~0c,1.5,celsius\n"
        "/inner/none,,date\n"
        "/names/0,plain,text\n"
        "/names/1,\"with, comma and \"\"quotes\"\"\",text\n"
        "/yes,true,yes_no\n");
  CHECK(json::parse(figures_as_json(figures)) ==
        json::parse(R"({"inner": {"a/b~c": 1.5, "none": null},
                        "names": ["plain", "with, comma and \"quotes\""], "yes": true})"));
}

TEST_CASE("a key that stands twice is a fault of the program") {
  FigureNode figures = FigureNode::map();
  figures.set("once", yes_no_figure(true));
  CHECK_THROWS_AS(figures.set("once", yes_no_figure(false)), std::logic_error);
}
