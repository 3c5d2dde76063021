// Reads temperature files, cuts their hours into winters, and counts the cold of each by every
// measure.
#include "cli/tally.h"

#include <fmt/format.h>

#include <cmath>
#include <nlohmann/json.hpp>

#include "cli/reading_keys.h"
#include "models/chill/tally.h"
#include "readers/temperature/temperature_file.h"
#include "weather/daily_to_hourly.h"
#include "weather/join_series.h"
#include "weather/season.h"

namespace winterfolio {
namespace {

/// One winter of one series.
struct WinterTally {
  Winter winter;
  ChillTally chill;
  std::int32_t filled_hours = 0;
};

/// What is told of one file, or of several joined.
struct SeriesTally {
  std::string file;
  std::string format;
  std::int64_t readings = 0;
  std::int64_t missing_hours = 0;
  std::optional<std::string> first;
  std::optional<std::string> last;
  std::vector<WinterTally> winters;
};

/// A file's hours on its own clock, short gaps not yet bridged.
struct HourlyFile {
  TemperatureFile file;
  HourlySeries hours;
};

std::vector<WinterTally> winters_of(const HourlySeries& hours, const WinterWindow& window) {
  std::vector<WinterTally> winters;
  if (hours.empty()) return winters;
  for (int year = winter_year_at_or_after(window, hours.first().date());; ++year) {
    const Winter winter = winter_of(window, year);
    if (winter.begin() > hours.last()) break;
    WinterTally tally{winter, tally_chill(hours, winter.begin(), winter.end()),
                      hours.count_in(winter.begin(), winter.end(), HourOrigin::line)};
    if (tally.chill.missing_hours < tally.chill.hours) winters.push_back(std::move(tally));
  }
  return winters;
}

std::string stamp_of(const TemperatureFile& file, ReadingTime time) {
  return file.is_daily() ? iso_date(time.hour().date()) : iso_time(time);
}

SeriesTally tally_series(const HourlyFile& one, const WinterWindow& window) {
  SeriesTally tally;
  tally.file = one.file.file;
  tally.format = one.file.format;
  tally.readings = one.file.readings;
  tally.missing_hours = one.file.missing_hours;
  if (!one.hours.empty()) {
    tally.first = stamp_of(one.file, one.file.first);
    tally.last = stamp_of(one.file, one.file.last);
  }
  HourlySeries hours = one.hours;
  fill_short_gaps(hours);
  tally.winters = winters_of(hours, window);
  return tally;
}

/// The files as one series under their joined names. Says how many shared hours differ.
HourlyFile joined(std::vector<HourlyFile> files, Diagnostics& diagnostics) {
  HourlyFile whole = std::move(files.front());
  for (std::size_t i = 1; i < files.size(); ++i) {
    const SharedHours shared = join_series(whole.hours, files[i].hours);
    if (shared.differing > 0) {
      Diagnostic note;
      note.id = "tally.files-differ";
      note.severity = Severity::note;
      note.at.file = files[i].file.file;
      note.message = fmt::format(
          "{} of the {} hours that this file shares with an earlier one differ, by up to {:.1f} "
          "°C; "
          "the file named first is used",
          shared.differing, shared.shared, shared.largest);
      diagnostics.add(note);
    }
    whole.file.file += " + " + files[i].file.file;
    if (files[i].file.format != whole.file.format)
      whole.file.format += " + " + files[i].file.format;
    whole.file.readings += files[i].file.readings;
    whole.file.first = std::min(whole.file.first, files[i].file.first);
    whole.file.last = std::max(whole.file.last, files[i].file.last);
  }
  whole.file.missing_hours =
      whole.hours.empty() ? 0 : whole.hours.missing_in(whole.hours.first(), whole.hours.end());
  return whole;
}

double rounded(double amount) { return std::round(amount * 1e8) / 1e8; }

nlohmann::ordered_json json_of(const WinterTally& tally) {
  nlohmann::ordered_json measures;
  for (const ChillModel& model : chill_models()) {
    const double amount = tally.chill.total(model.measure).amount();
    nlohmann::ordered_json& value = measures[std::string(id_of(model.measure))];
    if (model.whole_numbers) {
      value = std::llround(amount);
    } else {
      value = rounded(amount);
    }
  }
  return {{"winter", tally.winter.name()},
          {"from", iso_date(tally.winter.from)},
          {"to", iso_date(tally.winter.to)},
          {"hours", tally.chill.hours},
          {"missing_hours", tally.chill.missing_hours},
          {"filled_hours", tally.filled_hours},
          {"measures", measures}};
}

nlohmann::ordered_json text_or_null(const std::optional<std::string>& text) {
  return text ? nlohmann::ordered_json(*text) : nlohmann::ordered_json(nullptr);
}

std::string as_json(const std::vector<SeriesTally>& tallies) {
  nlohmann::ordered_json files = nlohmann::ordered_json::array();
  for (const SeriesTally& tally : tallies) {
    nlohmann::ordered_json winters = nlohmann::ordered_json::array();
    for (const WinterTally& winter : tally.winters) winters.push_back(json_of(winter));
    files.push_back({{"file", tally.file},
                     {"format", tally.format},
                     {"readings", tally.readings},
                     {"missing_hours", tally.missing_hours},
                     {"first", text_or_null(tally.first)},
                     {"last", text_or_null(tally.last)},
                     {"winters", winters}});
  }
  const nlohmann::ordered_json all = {{"files", files}};
  return all.dump(1, ' ', false, nlohmann::ordered_json::error_handler_t::replace) + "\n";
}

std::string amount_text(const ChillModel& model, const ChillTally& chill) {
  const double amount = chill.total(model.measure).amount();
  return model.whole_numbers ? fmt::format("{:.0f}", amount) : fmt::format("{:.1f}", amount);
}

std::string quoted(const std::string& text) {
  if (text.find_first_of(",\"\n") == std::string::npos) return text;
  std::string cell = "\"";
  for (const char c : text) cell += c == '"' ? std::string("\"\"") : std::string(1, c);
  return cell + "\"";
}

std::string as_csv(const std::vector<SeriesTally>& tallies) {
  std::string out = "file,winter,from,to,hours,missing_hours,filled_hours";
  for (const ChillModel& model : chill_models()) out += fmt::format(",{}", id_of(model.measure));
  out += "\n";
  for (const SeriesTally& tally : tallies) {
    for (const WinterTally& winter : tally.winters) {
      out += fmt::format("{},{},{},{},{},{},{}", quoted(tally.file), winter.winter.name(),
                         iso_date(winter.winter.from), iso_date(winter.winter.to),
                         winter.chill.hours, winter.chill.missing_hours, winter.filled_hours);
      for (const ChillModel& model : chill_models()) {
        const double amount = winter.chill.total(model.measure).amount();
        out += model.whole_numbers ? fmt::format(",{:.0f}", amount)
                                   : fmt::format(",{}", rounded(amount));
      }
      out += "\n";
    }
  }
  return out;
}

/// Column heads of the text form, short enough for a terminal, in the order of the measures.
constexpr std::array<std::string_view, kChillMeasureCount> kHeads = {
    "<=45F", "32-45F", "less>60", "Utah", "Utah+", "Utah~", "NCarol", "lowch", "portions"};
constexpr std::string_view kLegend =
    "Hours at or below 45 °F; from 32 to 45 °F; the same less the hours above 60 °F. Utah units: "
    "plain, daily positive,\n"
    "smoothed. North Carolina and low-chill units. Chill portions. Missing hours add nothing.\n";

std::string as_text(const std::vector<SeriesTally>& tallies) {
  std::string out;
  for (const SeriesTally& tally : tallies) {
    out += fmt::format("{}\n  {}, {} readings", tally.file, tally.format, tally.readings);
    if (tally.first) out += fmt::format(" from {} to {}", *tally.first, *tally.last);
    out += fmt::format(", {} hours missing\n", tally.missing_hours);
    if (tally.winters.empty()) {
      out += "  no winter in it: no reading between the days that begin and end one\n\n";
      continue;
    }
    out += fmt::format("  {:<8} {:>6} {:>7}", "winter", "hours", "missing");
    for (const std::string_view head : kHeads) out += fmt::format(" {:>8}", head);
    out += "\n";
    for (const WinterTally& winter : tally.winters) {
      out += fmt::format("  {:<8} {:>6} {:>7}", winter.winter.name(), winter.chill.hours,
                         winter.chill.missing_hours);
      for (const ChillModel& model : chill_models())
        out += fmt::format(" {:>8}", amount_text(model, winter.chill));
      out += "\n";
    }
    out += "\n";
  }
  return out + std::string(kLegend);
}

/// The file's hours; a daily file's by the curve between its extremes, which needs the latitude.
std::optional<HourlyFile> hours_of(TemperatureFile file, const std::optional<double>& latitude,
                                   Diagnostics& diagnostics) {
  if (!file.is_daily()) {
    HourlySeries hours = std::move(file.hours);
    return HourlyFile{std::move(file), std::move(hours)};
  }
  if (!latitude) {
    Diagnostic fault;
    fault.id = "tally.latitude-missing";
    fault.at.file = file.file;
    fault.message =
        "this file holds a minimum and a maximum a day; the hours between them follow the length "
        "of the day";
    fault.expected = "the latitude of the thermometer";
    fault.mend = "add --latitude with degrees, south negative, as --latitude 38.75";
    diagnostics.add(fault);
    return std::nullopt;
  }
  HourlySeries hours = hourly_from_daily(file.days, *latitude);
  return HourlyFile{std::move(file), std::move(hours)};
}

std::string written(const std::vector<SeriesTally>& tallies, OutputAs as) {
  switch (as) {
    case OutputAs::json:
      return as_json(tallies);
    case OutputAs::csv:
      return as_csv(tallies);
    case OutputAs::text:
      break;
  }
  return as_text(tallies);
}

std::vector<HourlyFile> read_all(const TallyCommand& command, const TemperatureOptions& options,
                                 Diagnostics& diagnostics) {
  std::vector<TemperatureFile> read;
  for (const std::string& path : command.files) {
    if (auto file = read_temperature_file(path, options, diagnostics))
      read.push_back(std::move(*file));
  }
  pair_daily_halves(read, diagnostics);
  std::vector<HourlyFile> files;
  for (TemperatureFile& file : read) {
    if (auto hours = hours_of(std::move(file), command.latitude, diagnostics))
      files.push_back(std::move(*hours));
  }
  return files;
}

}  // namespace

Outcome run_tally(const TallyCommand& command) {
  Outcome outcome;
  const auto options = options_of(command.keys, outcome.diagnostics);
  if (!options) {
    outcome.status = kWrongCommandLine;
    return outcome;
  }
  WinterWindow window = default_winter_window(command.latitude.value_or(0.0) < 0.0);
  window.from = command.from.value_or(window.from);
  window.to = command.to.value_or(window.to);

  std::vector<HourlyFile> files = read_all(command, *options, outcome.diagnostics);
  std::vector<SeriesTally> tallies;
  if (command.together && files.size() > 1) {
    tallies.push_back(tally_series(joined(std::move(files), outcome.diagnostics), window));
  } else {
    for (const HourlyFile& file : files) tallies.push_back(tally_series(file, window));
  }
  if (!tallies.empty()) outcome.out = written(tallies, command.as);
  outcome.status = outcome.diagnostics.has_errors() ? kMendInput : kDone;
  return outcome;
}

}  // namespace winterfolio
