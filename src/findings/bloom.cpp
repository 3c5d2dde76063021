// Runs warmth on to bloom.
#include "findings/bloom.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <numeric>

#include "base/csv_table.h"
#include "findings/frost.h"
#include "findings/statistics.h"
#include "models/heat/degree_hours.h"
#include "orchard/cultivars.h"
#include "orchard/names.h"
#include "orchard/observations.h"
#include "orchard/species.h"

namespace winterfolio {
namespace {

constexpr int kSpringDays = 273;  ///< nine months from the winter's first day
constexpr double kLeastKnown =
    0.95;  ///< of a winter's hours, and of those between the end of rest and bloom
constexpr int kLeastOwnYears = 2;
constexpr int kElsewhereDays =
    7;  ///< an estimate from elsewhere is a week wider either way; decided here
constexpr double kSameAmount = 1e-9;
constexpr int kNever = kSpringDays + 1;  ///< a day that does not come

// --- springs
// -----------------------------------------------------------------------------------------------------

/// The hours that a spring consists of: its own, or this winter's until `now` and another's from
/// then on.
class SpringHours {
 public:
  SpringHours(const HourlySeries& series, const Winter& winter)
      : series_(series), own_(winter), other_(winter), now_(LocalHour(INT32_MAX)) {}
  SpringHours(const HourlySeries& series, const Winter& winter, const Winter& other, LocalHour now)
      : series_(series), own_(winter), other_(other), now_(now) {}
  std::optional<HourReading> at(LocalHour hour) const {
    return series_.at(hour < now_ ? hour : same_place(hour, own_, other_));
  }

 private:
  const HourlySeries& series_;
  Winter own_;
  Winter other_;
  LocalHour now_;
};

SpringWarmth warmth_of(const SpringHours& hours, const Winter& winter, int year) {
  SpringWarmth warmth{
      .year = year, .first = winter.from, .heat_before = {0.0}, .mean = {}, .missing_before = {0}};
  for (int day = 0; day < kSpringDays; ++day) {
    double heat = warmth.heat_before.back();
    double sum = 0.0;
    int known = 0;
    for (int hour = 0; hour < 24; ++hour) {
      const auto reading = hours.at(winter.begin() + 24 * day + hour);
      if (!reading) continue;
      heat += linear_degree_hours(reading->mean).degree_hours();
      sum += reading->mean.degrees();
      ++known;
    }
    warmth.heat_before.push_back(heat);
    warmth.missing_before.push_back(warmth.missing_before.back() + 24 - known);
    warmth.mean.push_back(known == 24 ? std::optional(sum / 24.0) : std::nullopt);
  }
  return warmth;
}

/// Days of the spring on which enough hours are known between two days of it.
bool known_enough(const SpringWarmth& spring, int from, int to) {
  if (to <= from) return true;
  const int missing = spring.missing_before[static_cast<std::size_t>(to)] -
                      spring.missing_before[static_cast<std::size_t>(from)];
  return missing <= (1.0 - kLeastKnown) * 24.0 * (to - from);
}

/// The first day, counted from the spring's first, in which the warmth since `from` reaches `heat`;
/// kNever if none does.
int day_of_heat(const SpringWarmth& spring, int from, double heat) {
  if (from >= spring.days()) return kNever;
  const double until =
      spring.heat_before[static_cast<std::size_t>(std::max(from, 0))] + heat - kSameAmount;
  for (int day = std::max(from, 0); day < spring.days(); ++day) {
    if (spring.heat_before[static_cast<std::size_t>(day) + 1] < until) continue;
    return known_enough(spring, std::max(from, 0), day + 1) ? day : kNever;
  }
  return kNever;
}

/// The same with degree days above a base.
int day_of_degree_days(const SpringWarmth& spring, int from, double base, double degree_days) {
  double sum = 0.0;
  for (int day = std::max(from, 0); day < spring.days(); ++day) {
    if (const auto mean = spring.mean[static_cast<std::size_t>(day)])
      sum += std::max(0.0, *mean - base);
    if (sum < degree_days - kSameAmount) continue;
    return known_enough(spring, std::max(from, 0), day + 1) ? day : kNever;
  }
  return kNever;
}

// --- when rest ends
// ----------------------------------------------------------------------------------------------

double most_needed(const DecidingNeed& need) { return need.high.value_or(need.low.value_or(0.0)); }

/// A day as warmth counts it. Utah units can end rest before the winter's first day; the warmth of
/// a spring is kept, and counts, from that day on.
int day_of_warmth(const Winter& winter, Date day) {
  return std::max(0, days_between(winter.from, day));
}

/// The day after which warmth counts in a past winter; nothing if the requirement was not met in
/// it.
std::optional<int> rest_end_in(const PastSpring& past, const DecidingNeed& need) {
  for (const PastSpring::Chill& chill : past.chill) {
    if (chill.measure != need.measure) continue;
    for (std::size_t day = 0; day < chill.by_day.size(); ++day) {
      if (chill.by_day[day] < most_needed(need) - kSameAmount) continue;
      return day_of_warmth(past.winter, plus_days(chill.counted_from, static_cast<int>(day) + 1));
    }
  }
  return std::nullopt;
}

/// The same for this winter, in each spring to come; kNever where the requirement is not met.
/// Empty: not known at all.
std::vector<int> rest_ends(const Verdict& verdict, const SpringOutlook& outlook) {
  std::vector<int> ends;
  if (verdict.state == VerdictState::met && verdict.met_on) {
    const int day = day_of_warmth(outlook.today.winter, plus_days(*verdict.met_on, 1));
    return std::vector<int>(outlook.to_come.size(), day);
  }
  if (!verdict.need || verdict.state == VerdictState::unknown || outlook.today.winter_over())
    return ends;
  const StillToCome* to_come = outlook.still_to_come_of(verdict.need->measure, verdict.basis);
  if (!to_come) return ends;
  for (const SpringWarmth& spring : outlook.to_come) {
    int end = kNever;
    for (const WinterPath& path : to_come->paths) {
      if (path.year != spring.year) continue;
      const auto at = std::find_if(path.by_day.begin(), path.by_day.end(), [&](double total) {
        return total + to_come->middle_of_gaps() >= most_needed(*verdict.need) - kSameAmount;
      });
      if (at != path.by_day.end()) {
        const auto days_on = static_cast<int>(at - path.by_day.begin()) + 1;
        end = day_of_warmth(outlook.today.winter, plus_days(to_come->first_day, days_on));
      }
    }
    ends.push_back(end);
  }
  return ends;
}

/// Midwinter, from which warmth is counted where no requirement is known: 1 January, south 1 July;
/// by convention.
int fixed_day(const Winter& winter, bool southern, MonthDay north = {1, 1}) {
  const unsigned month = southern ? (north.month + 5) % 12 + 1 : north.month;
  constexpr int kHalfYear = 183;
  Date day = MonthDay{month, north.day}.in_year(winter.year);
  if (day < winter.from) day = MonthDay{month, north.day}.in_year(winter.year + 1);
  const int from_first = days_between(winter.from, day);
  // A winter that begins after midwinter has it behind it.
  return from_first > kHalfYear ? 0 : from_first;
}

// --- turning days of many springs into a date
// --------------------------------------------------------------------

/// Tenth, middle and ninetieth of a hundred among days; nothing where so many never come.
void set_dates(BloomFinding& finding, std::vector<int> days, const SpringOutlook& outlook,
               int wider = 0) {
  if (days.empty()) return;
  std::sort(days.begin(), days.end());
  const auto at = [&](double share, int shift) -> std::optional<Date> {
    const auto n = static_cast<double>(days.size());
    const int day = days[static_cast<std::size_t>(std::max(1.0, std::ceil(share * n - 1e-9))) - 1];
    if (day >= kNever) return std::nullopt;
    return plus_days(outlook.today.winter.from, day + shift);
  };
  finding.early = at(0.1, -wider);
  finding.expected = at(0.5, 0);
  finding.late = at(0.9, wider);
  finding.passed = finding.expected && *finding.expected <= outlook.today.as_of;
}

/// Days on which any of the requirements is met in any of the springs.
std::vector<int> days_of(const std::vector<double>& heats, const std::vector<int>& rest,
                         const SpringOutlook& outlook) {
  std::vector<int> days;
  for (std::size_t spring = 0; spring < outlook.to_come.size(); ++spring) {
    for (const double heat : heats) {
      days.push_back(rest[spring] >= kNever
                         ? kNever
                         : day_of_heat(outlook.to_come[spring], rest[spring], heat));
    }
  }
  return days;
}

void set_heat_so_far(BloomFinding& finding, const std::vector<int>& rest,
                     const SpringOutlook& outlook) {
  if (outlook.to_come.empty() || rest.empty()) return;
  const int now = days_between(outlook.today.winter.from, outlook.today.now.date());
  if (rest.front() > now || now > outlook.to_come.front().days()) return;
  const std::vector<double>& heat = outlook.to_come.front().heat_before;
  finding.heat_so_far =
      heat[static_cast<std::size_t>(now)] - heat[static_cast<std::size_t>(rest.front())];
}

// --- own records
// -------------------------------------------------------------------------------------------------

/// The first day on which a stage was seen in the spring of one winter, as far as it is known to
/// the day.
std::optional<Date> seen_in(const Tree& tree, std::string_view stage, const Winter& winter,
                            bool southern, Date last) {
  const Date from = spring_buds_from(winter, southern);
  for (const Observation& seen : tree.observed) {
    if (seen.what != stage || !seen.on.day) continue;
    const Date on = seen.on.earliest();
    if (from <= on && on <= last) return on;
  }
  return std::nullopt;
}

struct OwnYear {
  const PastSpring* past;
  Date bloomed;
  int from;  ///< the day from which warmth counts
  int day;   ///< of bloom
  double heat;
};

std::vector<OwnYear> own_years(const Tree& tree, std::string_view stage,
                               const std::optional<DecidingNeed>& need,
                               const SpringOutlook& outlook) {
  std::vector<OwnYear> years;
  for (const PastSpring& past : outlook.past) {
    const auto bloomed = seen_in(tree, stage, past.winter, outlook.southern,
                                 plus_days(past.winter.from, kSpringDays - 1));
    if (!bloomed) continue;
    const std::optional<int> from =
        need ? rest_end_in(past, *need) : std::optional(fixed_day(past.winter, outlook.southern));
    const int day = days_between(past.winter.from, *bloomed);
    if (!from || day < *from || !known_enough(past.warmth, *from, day + 1)) continue;
    // By the evening of the day on which it was seen.
    const double heat = past.warmth.heat_before[static_cast<std::size_t>(day) + 1] -
                        past.warmth.heat_before[static_cast<std::size_t>(*from)];
    years.push_back({&past, *bloomed, *from, day, heat});
  }
  return years;
}

/// How far off the mean of the other years would have been, year by year.
void add_own_years(BloomFinding& finding, const std::vector<OwnYear>& years) {
  double sum = 0.0;
  for (const OwnYear& year : years) sum += year.heat;
  double errors = 0.0;
  int counted = 0;
  for (const OwnYear& year : years) {
    OwnBloomYear own{year.past->winter.year, year.bloomed, year.heat, {}};
    if (years.size() > 1) {
      const double others = (sum - year.heat) / static_cast<double>(years.size() - 1);
      const int day = day_of_heat(year.past->warmth, year.from, others);
      if (day < kNever) {
        own.error_days = day - year.day;
        errors += std::abs(*own.error_days);
        ++counted;
      }
    }
    finding.own_years.push_back(own);
  }
  if (counted > 0) finding.error_days = errors / counted;
}

// --- figures
// -----------------------------------------------------------------------------------------------------

struct HeatFigure {
  BloomMethod method;
  Range heat;
  std::string source;
  std::string stage;  ///< to which it was counted, where the source says
};

/// The stage named in a remark such as "base 4C, to start of flowering".
std::string stage_in(const std::string& note) {
  for (const std::string_view stage : {"full bloom", "start of flowering", "50% flowering"}) {
    if (note.find("to " + std::string(stage)) != std::string::npos) return std::string(stage);
  }
  return {};
}

/// The keeper's figure for the cultivar, else a published one that is the cultivar's own.
std::optional<HeatFigure> heat_figure(const Tree& tree, const std::string& cultivar,
                                      const Orchard& orchard) {
  if (cultivar.empty()) return std::nullopt;
  for (const OwnCultivar& own : orchard.cultivars) {
    if (own.heat_to_bloom && own.species == tree.species && same_name(own.name, cultivar)) {
      return HeatFigure{BloomMethod::own_figure, *own.heat_to_bloom, own.from_where, {}};
    }
  }
  for (const CultivarRow* row : find_cultivar(tree.species, cultivar)) {
    if (!row->heat || row->mark != CultivarMark::seen || row->from_memory) continue;
    const double low = row->heat->low.value_or(row->heat->high.value_or(0.0));
    return HeatFigure{BloomMethod::published_figure,
                      {low, row->heat->high.value_or(low)},
                      row->source,
                      stage_in(row->note)};
  }
  return std::nullopt;
}

bool set_by_species(BloomFinding& finding, const Tree& tree, const SpringOutlook& outlook) {
  const CsvTable table = CsvTable::embedded("src/findings/tables/degree_days_to_bloom.csv");
  for (const CsvRow row : table) {
    if (row.text("species") != tree.species || row.text("start").empty()) continue;
    const auto start = parse_month_day(row.text("start"));
    const auto mean = row.number("gdd_mean");
    const double low = row.number("gdd_low").value_or(mean.value_or(0.0));
    const double high = row.number("gdd_high").value_or(mean.value_or(low));
    const double middle = mean.value_or((low + high) / 2.0);
    const double base = row.required_number("base_c");
    const int from = fixed_day(outlook.today.winter, outlook.southern, start.value());
    std::vector<int> days;
    for (const SpringWarmth& spring : outlook.to_come) {
      for (const double degree_days : {low, middle, high})
        days.push_back(day_of_degree_days(spring, from, base, degree_days));
    }
    finding.method = BloomMethod::species_elsewhere;
    finding.heat_needed = Range{low, high};
    finding.source = row.text("source");
    finding.place = row.text("place");
    finding.stage_there = row.text("stage");
    finding.error_days = row.number("error_days");
    set_dates(finding, days, outlook, kElsewhereDays);
    return true;
  }
  return false;
}

BloomFinding& without_date(BloomFinding& finding, NoBloomDate reason) {
  finding.method = BloomMethod::none;
  finding.why_none = reason;
  return finding;
}

/// After days were worked out: no date where too many springs never bring the stage.
BloomFinding settled(BloomFinding finding, const SpringOutlook& outlook,
                     const std::vector<int>& rest) {
  if (finding.expected) return finding;
  const auto never = std::count_if(rest.begin(), rest.end(), [](int day) { return day >= kNever; });
  const bool not_met = 2 * never > static_cast<std::ptrdiff_t>(rest.size());
  finding.early.reset();
  finding.late.reset();
  return without_date(finding, not_met && !outlook.past.empty() ? NoBloomDate::chill_not_met
                                                                : NoBloomDate::no_springs);
}

/// Why it is not known when rest ends.
NoBloomDate why_no_rest(const Verdict& verdict, bool other_kind) {
  if (other_kind) return NoBloomDate::other_kind;
  const bool lacking =
      verdict.state == VerdictState::short_of || verdict.state == VerdictState::nearly;
  return lacking ? NoBloomDate::chill_not_met : NoBloomDate::chill_unknown;
}

/// What is known of a stage without looking at other stages that were seen.
BloomFinding reckoned(const Tree& tree, const Orchard& orchard, const PartVerdict& part,
                      const SpringOutlook& outlook, std::string_view stage) {
  BloomFinding finding;
  finding.stage = stage;
  const Verdict& verdict = part.verdict;
  if (verdict.state == VerdictState::met) finding.rest_ended = verdict.met_on;
  if (const auto seen =
          seen_in(tree, stage, outlook.today.winter, outlook.southern, outlook.today.as_of)) {
    finding.method = BloomMethod::seen;
    finding.expected = finding.early = finding.late = *seen;
    finding.passed = true;
    return finding;
  }
  const bool other_kind = find_species(tree.species) == nullptr;
  const std::vector<OwnYear> years = own_years(tree, stage, verdict.need, outlook);
  if (static_cast<int>(years.size()) >= kLeastOwnYears) {
    std::vector<int> rest = rest_ends(verdict, outlook);
    finding.from_fixed_date = !verdict.need;
    if (!verdict.need)
      rest.assign(outlook.to_come.size(), fixed_day(outlook.today.winter, outlook.southern));
    if (rest.empty()) return without_date(finding, why_no_rest(verdict, other_kind));
    add_own_years(finding, years);
    std::vector<double> heats;
    for (const OwnYear& year : years) heats.push_back(year.heat);
    finding.method = BloomMethod::own_records;
    finding.heat_needed = Range{*std::min_element(heats.begin(), heats.end()),
                                *std::max_element(heats.begin(), heats.end())};
    set_heat_so_far(finding, rest, outlook);
    set_dates(finding, days_of(heats, rest, outlook), outlook);
    return settled(std::move(finding), outlook, rest);
  }
  const std::vector<int> rest = rest_ends(verdict, outlook);
  if (rest.empty()) return without_date(finding, why_no_rest(verdict, other_kind));
  if (stage != "first_bloom" && stage != "full_bloom")
    return without_date(finding, NoBloomDate::no_figure);
  if (const auto figure = heat_figure(tree, part.part.cultivar, orchard)) {
    finding.method = figure->method;
    finding.heat_needed = figure->heat;
    finding.source = figure->source;
    finding.stage_there = figure->stage;
    set_heat_so_far(finding, rest, outlook);
    const std::vector<double> heats = {
        figure->heat.low, (figure->heat.low + figure->heat.high) / 2.0, figure->heat.high};
    set_dates(finding, days_of(heats, rest, outlook), outlook);
    return settled(std::move(finding), outlook, rest);
  }
  if (verdict.state != VerdictState::met)
    return without_date(finding, why_no_rest(verdict, other_kind));
  if (set_by_species(finding, tree, outlook)) return settled(std::move(finding), outlook, rest);
  return without_date(finding, NoBloomDate::no_figure);
}

const ObservationRow* observation_named(std::string_view id) {
  for (const ObservationRow& row : observations_table()) {
    if (row.name.id == id) return &row;
  }
  return nullptr;
}

/// Stages of flower buds, flowers and fruitlets; leaves tell of no bloom.
bool is_stage(const ObservationRow& row) {
  return row.bbch_low &&
         (row.kind == ObservationKind::bud_stage || row.kind == ObservationKind::fruit);
}

std::optional<SeenStage> last_seen_stage(const Tree& tree, const Today& today, bool southern) {
  const Date from = spring_buds_from(today.winter, southern);
  std::optional<SeenStage> last;
  for (const Observation& seen : tree.observed) {
    if (!seen.on.day || seen.on.earliest() < from || seen.on.earliest() > today.as_of) continue;
    const ObservationRow* row = observation_named(seen.what);
    if (!row || !is_stage(*row)) continue;
    const Date on = seen.on.earliest();
    if (!last || on > last->on || (on == last->on && *row->bbch_low > last->bbch))
      last = SeenStage{seen.what, *row->bbch_low, on, days_between(on, today.as_of)};
  }
  return last;
}

/// Lets what the keeper saw of other stages stand above the reckoning.
void heed_seen(BloomFinding& finding, Date as_of) {
  const ObservationRow* asked = observation_named(finding.stage);
  if (!finding.last_seen || !asked || !asked->bbch_low || finding.method == BloomMethod::seen)
    return;
  const SeenStage& seen = *finding.last_seen;
  const bool has_come = seen.bbch >= *asked->bbch_low;
  // In flower or past it: when it began is known no better than that, and nothing is foretold.
  if (has_come) {
    finding.expected = std::min(finding.expected.value_or(seen.on), seen.on);
    finding.early = finding.late = std::nullopt;
    finding.moved_by_seen = true;
    finding.seen_by = seen.on;
    finding.method = BloomMethod::seen;
    finding.why_none = NoBloomDate::there_is_one;
    finding.passed = true;
    return;
  }
  // A figure from elsewhere whose whole span lies before a stage that was still to come is no date.
  if (finding.method == BloomMethod::species_elsewhere && finding.late &&
      *finding.late <= seen.on) {
    finding.early = finding.expected = finding.late = std::nullopt;
    finding.passed = false;
    without_date(finding, NoBloomDate::no_figure);
    return;
  }
  for (std::optional<Date>* day : {&finding.early, &finding.expected, &finding.late}) {
    if (!*day) continue;
    const Date held = std::max(**day, plus_days(seen.on, 1));
    finding.moved_by_seen = finding.moved_by_seen || held != **day;
    *day = held;
  }
  finding.passed = finding.expected && *finding.expected <= as_of;
}

}  // namespace

std::string_view id_of(BloomMethod method) {
  constexpr std::array<std::string_view, 6> ids = {
      "none", "seen", "own_records", "own_figure", "published_figure", "species_elsewhere"};
  return ids.at(static_cast<std::size_t>(method));
}

std::string_view id_of(NoBloomDate reason) {
  constexpr std::array<std::string_view, 6> ids = {"there_is_one",  "other_kind", "chill_not_met",
                                                   "chill_unknown", "no_figure",  "no_springs"};
  return ids.at(static_cast<std::size_t>(reason));
}

const StillToCome* SpringOutlook::still_to_come_of(ChillMeasure measure, WinterDetail as) const {
  const bool reduced = as == WinterDetail::daily_extremes && !chill_to_come_by_extremes.empty();
  for (const StillToCome& one : reduced ? chill_to_come_by_extremes : chill_to_come) {
    if (one.measure == measure) return &one;
  }
  return nullptr;
}

SpringOutlook spring_outlook(const WeatherRecord& record, const WinterChill& chill,
                             const WinterChill* reduced) {
  const Today& today = chill.today;
  SpringOutlook outlook{.today = today,
                        .southern = record.latitude < 0.0,
                        .past = {},
                        .to_come = {},
                        .chill_to_come = {},
                        .chill_to_come_by_extremes = {}};
  const ComparisonBasis basis = comparison_basis(record, today);
  outlook.basis = basis.detail;
  const LocalHour now =
      basis.detail == WinterDetail::hourly ? today.now : LocalHour::at(today.now.date(), 0);
  for (const Winter& past : winters_on_record(record, today.window, today.winter.year)) {
    PastSpring spring{past, warmth_of(SpringHours(*basis.series, past), past, past.year), {}};
    for (const MeasuredChill& measured : chill.measures) {
      const Today then{today.window, past, past.to, past.end()};
      const Date from =
          counted_from_in_verdict(measured.measure, *basis.series, record.latitude < 0.0, then);
      const ChillCurve curve =
          chill_curve(measured.measure, *basis.series, LocalHour::at(from, 0), past.end());
      const std::int32_t missing = basis.series->missing_in(past.begin(), past.end());
      spring.chill.push_back({measured.measure, from, curve.by_day(),
                              missing <= (1.0 - kLeastKnown) * (past.end() - past.begin())});
    }
    outlook.past.push_back(std::move(spring));
    outlook.to_come.push_back(
        warmth_of(SpringHours(*basis.series, today.winter, past, now), today.winter, past.year));
  }
  if (outlook.to_come.empty())
    outlook.to_come.push_back(
        warmth_of(SpringHours(*basis.series, today.winter), today.winter, today.winter.year));
  for (const MeasuredChill& measured : chill.measures) {
    outlook.chill_to_come.push_back(
        still_to_come(chill.for_verdict(measured.measure), record, today));
  }
  if (!reduced) return outlook;
  const WeatherRecord by_extremes = reduced_to_extremes(record);
  for (const MeasuredChill& measured : reduced->measures) {
    outlook.chill_to_come_by_extremes.push_back(
        still_to_come(reduced->for_verdict(measured.measure), by_extremes, reduced->today));
  }
  return outlook;
}

BloomFinding bloom_of(const Tree& tree, const Orchard& orchard, const PartVerdict& part,
                      const SpringOutlook& outlook, std::string_view stage) {
  BloomFinding finding = reckoned(tree, orchard, part, outlook, stage);
  // Where the cold may have been enough already, nobody knows that it was not.
  if (finding.why_none == NoBloomDate::chill_not_met &&
      part.verdict.state == VerdictState::undecided)
    finding.why_none = NoBloomDate::chill_unknown;
  finding.last_seen = last_seen_stage(tree, outlook.today, outlook.southern);
  heed_seen(finding, outlook.today.as_of);
  return finding;
}

std::vector<BloomFinding> other_stages(const Tree& tree, const Orchard& orchard,
                                       const PartVerdict& part, const SpringOutlook& outlook) {
  std::vector<BloomFinding> stages;
  for (const ObservationRow& row : observations_table()) {
    const std::string& id = row.name.id;
    if (row.kind != ObservationKind::bud_stage || !row.bbch_low || id == "first_bloom") continue;
    const bool noted = std::any_of(tree.observed.begin(), tree.observed.end(),
                                   [&](const Observation& seen) { return seen.what == id; });
    if (!noted) continue;
    BloomFinding finding = bloom_of(tree, orchard, part, outlook, id);
    if (finding.method == BloomMethod::seen || finding.method == BloomMethod::own_records)
      stages.push_back(std::move(finding));
  }
  return stages;
}

}  // namespace winterfolio
