// The orchard as its keeper describes it: the place, its trees, what was seen of them, and the
// planned workdays. Valid once built: readers check, everything after them may trust.
//
// Shapes and defaults are those of the orchard file, version 1. Where the file gives a default, it
// is filled in here; where "not given" means something, the field is optional.
#pragma once

#include <map>
#include <optional>
#include <string>
#include <vector>

#include "base/dates.h"
#include "base/diagnostic.h"
#include "base/units.h"

namespace winterfolio {

struct Range {
  double low = 0.0;
  double high = 0.0;
  auto operator<=>(const Range&) const = default;
};

/// What one tree needs, by measure, each compared only with its own kind.
using ChillNeeds = std::map<ChillMeasure, Range>;

enum class TemperatureUnits { celsius, fahrenheit };
enum class LengthUnits { metres, feet };
enum class Paper { a4, letter };
enum class District { yes, no, unknown };  ///< unknown is treated as yes
enum class SelfFertile { yes, no, partly };
enum class StandsFor { orchard, nearby, forecast };
enum class Clock { standard, civil, utc };
enum class DateOrder { ymd, dmy, mdy };
enum class DecimalMark { point, comma };
enum class HourStamp { begins, ends };
enum class TemperatureUnit { celsius, fahrenheit, kelvin };
enum class TreeState { planted, formative, bearing, neglected };

/// How one temperature file is to be read, where its content cannot tell. Everything not given is
/// found out.
struct TemperatureSource {
  std::string file;  ///< as written; below the folder of the orchard file
  StandsFor stands_for = StandsFor::orchard;
  std::optional<std::string> format;
  std::optional<TemperatureUnit> unit;
  std::optional<Clock> clock;
  std::optional<int> utc_offset_minutes;
  /// role ("time", "date", "temperature", "minimum", "maximum") -> column name or number from 1
  std::map<std::string, std::string> columns;
  std::optional<DateOrder> date_order;
  std::optional<DecimalMark> decimal;
  std::optional<std::string> station;
  std::optional<HourStamp> hour_stamp;  ///< not given: as the format fixes it, else begins
  SourcePosition at;                    ///< of the file name in the orchard file, for messages
};

struct PastWinterTotal {
  std::string winter;  ///< as written: "2019-20", south "2019"
  int year = 0;        ///< in which it began
  ChillNeeds totals;   ///< low equals high
  std::string from_where;
  SourcePosition at;
};

struct OrchardBlock {
  std::string id;
  std::string name;
  CelsiusDelta frost_offset{0.0};  ///< calm frosty nights only
  std::optional<TemperatureSource> thermometer;
};

/// A keeper's own cultivar row, beside or over the built-in table.
struct OwnCultivar {
  std::string species;
  std::string name;
  ChillNeeds needs;
  std::optional<Range> heat_to_bloom;  ///< [°C h] from the day rest ends
  std::optional<SelfFertile> self_fertile;
  std::vector<std::string> partners;
  std::string from_where;
  SourcePosition at;
};

/// Something seen on a tree on a day. `what` is an id of the observations table ("first_bloom").
struct Observation {
  PartialDate on;
  std::string what;
  std::optional<std::string> amount;  ///< as written
  std::optional<double> minutes;      ///< the amount of what is counted in minutes (pruned) [min]
  std::string note;
  SourcePosition at;
};

struct RowPlace {
  int row = 1;
  int place = 1;
};
struct MeasuredPlace {
  Metres east{0.0};
  Metres north{0.0};
};

struct Tree {
  std::string id;
  std::string tag;
  std::string species;   ///< id of the species table, or "other"
  std::string other;     ///< what it is, where species is "other"
  std::string cultivar;  ///< empty: unknown
  std::vector<std::string> grafts;
  std::string rootstock;
  std::string origin;
  std::optional<PartialDate> planted;
  std::optional<PartialDate> lost;
  std::string lost_to;
  std::optional<std::string> block;
  std::optional<RowPlace> row_place;
  std::optional<MeasuredPlace> measured_place;
  std::string landmark;
  std::string form;  ///< id of the forms table ("open_centre"); empty: not given
  std::optional<Metres> height;
  std::optional<TreeState>
      state;  ///< as written; state_on() gives the one that follows from `planted`
  ChillNeeds needs;
  std::string from_where;
  std::vector<std::string> see_to;  ///< ids: dead, diseased, ... water_sprouts
  std::string disease;  ///< id of the diseases table, "unknown" for one that is not in it; empty:
                        ///< none named
  std::string disease_named;          ///< as the keeper wrote it
  std::vector<std::string> hazards;   ///< ids: wires, hollow_trunk, ...
  std::vector<Observation> observed;  ///< from the file and the records, by date
  std::string note;
  SourcePosition at;
};

struct Workday {
  Date on;
  int from_minute = 0;  ///< of the day
  int to_minute = 0;
  int adults = 0;
  int minors = 0;  ///< under 18
  int skilled = 0;
  int saw_hands = 0;
  int ladders = 0;
  int tool_sets = 0;
  double no_show = 0.2;  ///< share of 1
  SourcePosition at;
};

/// Disease pressure where the trees stand.
struct DistrictPressures {
  District wet_winters = District::unknown;
  District silver_leaf = District::unknown;
  District eutypa = District::unknown;
  District bacterial_canker = District::unknown;
  District fire_blight = District::unknown;
};

struct Orchard {
  std::string file;  ///< as the person named it
  std::string
      folder;  ///< paths in the file stand below it; "." where the file was named without a folder
  std::string id;
  std::string name;
  double latitude = 0.0;            ///< degrees, south negative
  std::optional<double> longitude;  ///< degrees, west negative
  std::optional<Metres> elevation;
  std::string time_zone;  ///< IANA name; empty: not given
  TemperatureUnits units = TemperatureUnits::celsius;
  LengthUnits lengths = LengthUnits::metres;
  Paper paper = Paper::a4;
  std::string language = "en";
  std::string meeting_point;
  DistrictPressures district;
  std::optional<MonthDay>
      winter_from;  ///< always there once read: as written, else the default of the hemisphere
  std::optional<MonthDay> winter_to;
  std::vector<ChillMeasure> measures;  ///< empty: those the trees' requirements use
  std::vector<TemperatureSource> temperatures;
  std::vector<PastWinterTotal> past_winters;
  std::vector<OrchardBlock> blocks;
  std::vector<OwnCultivar> cultivars;
  std::vector<Tree> trees;
  std::optional<std::string> records_file;
  std::vector<Workday> workdays;

  bool southern() const { return latitude < 0.0; }  ///< the equator itself counts as north
};

/// Where a file that the orchard names is found from the folder the program was started in.
std::string path_beside(const Orchard& orchard, const std::string& file);

}  // namespace winterfolio
