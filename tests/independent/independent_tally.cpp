// The cold of every winter in a few open temperature files, worked out a second time and in another
// way, so that the program can be held against it. Shares no line with the program: its own reading
// (sscanf), its own gap filling, its own Linvill curve, hours and unit tables in whole millionths
// of a degree, and the Dynamic Model by numerical integration of dx/dt = k0 - k1 x (Runge-Kutta,
// 200 steps an hour), never by its closed form.
//
//   independent_tally FILE LATITUDE
// prints for each winter: name, hours, missing, filled, then the nine measures in the order of the
// program's list.
//
// Definitions and constants: Weinberger 1950; Xue et al. 2016; Richardson et al. 1974 as tabulated
// by Mouton 2021; Linsley-Noakes et al. 1994; Linvill 1990; Shaltout & Unrath 1983; Gilreath &
// Buchanan 1981 (the last four from memory); Fishman, Erez & Couvillon 1987; day length: FAO
// Irrigation and Drainage Paper 56, ch. 3.
#include <cmath>
#include <cstdio>
#include <cstdlib>
#include <cstring>
#include <map>
#include <string>

namespace {

const double kPi = std::acos(-1.0);

// --- a calendar of its own: days counted by adding up years and months
// -------------------------------------------

bool leap(int y) { return (y % 4 == 0 && y % 100 != 0) || y % 400 == 0; }

int month_days(int y, int m) {
  static const int days[] = {31, 28, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31};
  return days[m - 1] + (m == 2 && leap(y) ? 1 : 0);
}

/// Days since 1 January 1900.
int day_number(int y, int m, int d) {
  int days = 0;
  for (int year = 1900; year < y; ++year) days += leap(year) ? 366 : 365;
  for (int month = 1; month < m; ++month) days += month_days(y, month);
  return days + d - 1;
}

int day_in_year(int day) {
  int year = 1900;
  while (day >= (leap(year) ? 366 : 365)) day -= leap(year) ? 366 : 365, ++year;
  return day + 1;
}

int year_of(int day) {
  int year = 1900;
  while (day >= (leap(year) ? 366 : 365)) day -= leap(year) ? 366 : 365, ++year;
  return year;
}

// --- reading
// -----------------------------------------------------------------------------------------------------

using Hours = std::map<int, double>;  ///< hour since 1900 -> °C

struct Extremes {
  double low = 999.0;
  double high = 999.0;
};
using Days = std::map<int, Extremes>;

const char* kMonths[] = {"jan", "feb", "mar", "apr", "may", "jun",
                         "jul", "aug", "sep", "oct", "nov", "dec"};

void read_dublin(std::FILE* in, Hours& hours) {
  char line[512];
  while (std::fgets(line, sizeof line, in)) {
    int d = 0, y = 0, h = 0, mi = 0;
    char month[4] = "";
    if (std::sscanf(line, "%d-%3s-%d %d:%d", &d, month, &y, &h, &mi) != 5) continue;
    const char* cell = std::strchr(line, ',');
    cell = cell ? std::strchr(cell + 1, ',') : nullptr;
    double t = 0.0;
    char after = 0;
    if (!cell || std::sscanf(cell + 1, "%lf%c", &t, &after) != 2 || after != ',') continue;
    for (int m = 0; m < 12; ++m) {
      if (std::strcmp(month, kMonths[m]) == 0) hours[day_number(y, m + 1, d) * 24 + h] = t;
    }
  }
}

void read_isd_lite(std::FILE* in, Hours& hours) {
  char line[512];
  while (std::fgets(line, sizeof line, in)) {
    int y = 0, m = 0, d = 0, h = 0, tenths = 0;
    if (std::sscanf(line, "%d %d %d %d %d", &y, &m, &d, &h, &tenths) == 5 && tenths != -9999) {
      hours[day_number(y, m, d) * 24 + h] = tenths / 10.0;
    }
  }
}

void read_seattle_hours(std::FILE* in, Hours& hours) {
  char line[512];
  while (std::fgets(line, sizeof line, in)) {
    int y = 0, m = 0, d = 0, h = 0;
    double t = 0.0;
    if (std::sscanf(line, "%d-%d-%dT%d:00:00,%*[^,],%lf", &y, &m, &d, &h, &t) == 5) {
      hours[day_number(y, m, d) * 24 + h] = t;
    }
  }
}

void read_seattle_days(std::FILE* in, Days& days) {
  char line[512];
  while (std::fgets(line, sizeof line, in)) {
    int y = 0, m = 0, d = 0;
    Extremes e;
    if (std::sscanf(line, "%d-%d-%d,%*[^,],%lf,%lf", &y, &m, &d, &e.high, &e.low) == 5)
      days[day_number(y, m, d)] = e;
  }
}

void read_new_york(std::FILE* in, Days& days) {
  char line[512];
  while (std::fgets(line, sizeof line, in)) {
    const bool high = std::strncmp(line + 17, "TMAX", 4) == 0;
    if (!high && std::strncmp(line + 17, "TMIN", 4) != 0) continue;
    int y = 0, m = 0;
    std::sscanf(line + 11, "%4d%2d", &y, &m);
    for (int d = 1; d <= month_days(y, m); ++d) {
      char value[6] = "";
      std::memcpy(value, line + 21 + (d - 1) * 8, 5);
      const char quality = line[21 + (d - 1) * 8 + 6];
      const int tenths = std::atoi(value);
      if (tenths == -9999 || quality != ' ') continue;
      (high ? days[day_number(y, m, d)].high : days[day_number(y, m, d)].low) = tenths / 10.0;
    }
  }
}

// --- daily extremes to hours
// -------------------------------------------------------------------------------------

double day_length(double latitude, int day) {
  const double turn = 2.0 * kPi * day_in_year(day) / 365.0;
  const double declination = 0.409 * std::sin(turn - 1.39);
  const double cosine = -std::tan(latitude * kPi / 180.0) * std::tan(declination);
  return 24.0 / kPi * std::acos(cosine);
}

bool usable(const Extremes& e) { return e.low < 900.0 && e.high < 900.0 && e.low <= e.high; }

const Extremes* find(const Days& days, int day) {
  const auto at = days.find(day);
  return at != days.end() && usable(at->second) ? &at->second : nullptr;
}

double falling(const Extremes& of, double length, double since_sunset, double to) {
  const double at_sunset = of.low + (of.high - of.low) * std::sin(kPi * length / (length + 4.0));
  if (since_sunset < 1.0) return at_sunset;
  return at_sunset - (at_sunset - to) / std::log(24.0 - length) * std::log(since_sunset);
}

void hours_from_days(const Days& days, double latitude, Hours& hours) {
  for (const auto& [day, unchecked] : days) {
    const Extremes* today = find(days, day);
    if (!today) continue;
    const Extremes* before = find(days, day - 1);
    const Extremes* after = find(days, day + 1);
    const double length = day_length(latitude, day);
    const double rise = 12.0 - length / 2.0;
    const double set = 12.0 + length / 2.0;
    const double length_before = before ? day_length(latitude, day - 1) : length;
    for (int h = 0; h < 24; ++h) {
      double t;
      if (h < rise) {
        t = falling(before ? *before : *today, length_before,
                    h + 24.0 - (12.0 + length_before / 2.0), today->low);
      } else if (h <= set) {
        t = today->low + (today->high - today->low) * std::sin(kPi * (h - rise) / (length + 4.0));
      } else {
        t = falling(*today, length, h - set, after ? after->low : today->low);
      }
      hours[day * 24 + h] = t;
    }
  }
}

// --- gaps of up to three hours
// -----------------------------------------------------------------------------------

Hours bridged(const Hours& hours) {
  Hours filled;
  for (auto at = hours.begin(); at != hours.end(); ++at) {
    const auto next = std::next(at);
    if (next == hours.end()) break;
    const int hole = next->first - at->first - 1;
    if (hole < 1 || hole > 3) continue;
    for (int k = 1; k <= hole; ++k) {
      filled[at->first + k] = at->second + (next->second - at->second) * k / (hole + 1);
    }
  }
  return filled;
}

// --- the measures
// ------------------------------------------------------------------------------------------------

/// Millionths of a degree; the lines stand a millionth further out, as wide as the program's slack.
long long micro(double t) { return std::llround(t * 1e6); }

bool at_most(long long t, double line) { return t <= micro(line) + 1; }
bool at_least(long long t, double line) { return t >= micro(line) - 1; }

/// Halves of a unit, so that sums stay whole.
int utah_halves(long long t) {
  if (at_most(t, 1.4)) return 0;
  if (at_most(t, 2.4)) return 1;
  if (at_most(t, 9.1)) return 2;
  if (at_most(t, 12.4)) return 1;
  if (at_most(t, 15.9)) return 0;
  if (at_most(t, 18.0)) return -1;
  return -2;
}

int north_carolina_halves(long long t) {
  static const double edges[] = {1.6, 7.2, 13.0, 16.5, 19.0, 20.7, 22.1, 23.3};
  static const int halves[] = {0, 1, 2, 1, 0, -1, -2, -3, -4};
  int k = 0;
  while (k < 8 && at_least(t, edges[k])) ++k;
  return halves[k];
}

int low_chill_halves(long long t) {
  static const double edges[] = {1.8, 8.0, 14.0, 17.0, 19.5, 21.5};
  static const int halves[] = {0, 1, 2, 1, 0, -1, -2};
  int k = 0;
  while (k < 6 && at_least(t, edges[k])) ++k;
  return halves[k];
}

double smoothed(double t) {
  if (t <= 0.0) return 0.0;
  if (t > 21.0) return -1.0;
  return std::sin(2.0 * kPi * t / 28.0);
}

/// One hour of dx/dt = k0 - k1 x.
double integrate_hour(double x, double kelvin) {
  const double k0 = 139500.0 * std::exp(-4153.5 / kelvin);
  const double k1 = 2.567e18 * std::exp(-12888.8 / kelvin);
  const double h = 1.0 / 200.0;
  for (int step = 0; step < 200; ++step) {
    const double a = k0 - k1 * x;
    const double b = k0 - k1 * (x + h / 2.0 * a);
    const double c = k0 - k1 * (x + h / 2.0 * b);
    const double d = k0 - k1 * (x + h * c);
    x += h / 6.0 * (a + 2.0 * b + 2.0 * c + d);
  }
  return x;
}

void print_winter(int year, int begin_day, int end_day, const Hours& known, const Hours& filled) {
  long hours = 0, missing = 0, line = 0, cold = 0, cold_above_freezing = 0, warm = 0;
  long utah = 0, positive = 0, carolina = 0, low = 0;
  double smooth = 0.0, portions = 0.0, x = 0.0;
  for (int day = begin_day; day < end_day; ++day) {
    long today = 0;
    for (int h = 0; h < 24; ++h, ++hours) {
      const int hour = day * 24 + h;
      const auto here = known.find(hour);
      const auto bridge = filled.find(hour);
      if (here == known.end() && bridge == filled.end()) {
        ++missing;
        continue;
      }
      if (here == known.end()) ++line;
      const double celsius = here != known.end() ? here->second : bridge->second;
      const long long t = micro(celsius);
      cold += t <= 7222223;
      cold_above_freezing += t >= -1 && t <= 7222223;
      warm += t > 15555557;
      today += utah_halves(t);
      carolina += north_carolina_halves(t);
      low += low_chill_halves(t);
      smooth += smoothed(celsius);
      const double kelvin = celsius + 273.0;
      x = integrate_hour(x, kelvin);
      if (x >= 1.0) {
        const double sr = std::exp(1.6 * 277.0 * (kelvin - 277.0) / kelvin);
        const double share = sr / (1.0 + sr);
        portions += share * x;
        x *= 1.0 - share;
      }
    }
    utah += today;
    positive += today > 0 ? today : 0;
  }
  if (missing == hours) return;
  std::printf("%d-%02d %ld %ld %ld %ld %ld %ld %.1f %.1f %.9f %.1f %.1f %.9f\n", year,
              (year + 1) % 100, hours, missing, line, cold, cold_above_freezing,
              cold_above_freezing - warm, static_cast<double>(utah) / 2.0,
              static_cast<double>(positive) / 2.0, smooth, static_cast<double>(carolina) / 2.0,
              static_cast<double>(low) / 2.0, portions);
}

}  // namespace

int main(int argc, char** argv) {
  if (argc != 3) {
    std::fprintf(stderr, "usage: independent_tally FILE LATITUDE\n");
    return 2;
  }
  std::FILE* in = std::fopen(argv[1], "rb");
  if (!in) {
    std::perror(argv[1]);
    return 1;
  }
  const std::string name = argv[1];
  const auto is = [&](const char* file) {
    return name.size() >= std::strlen(file) &&
           name.compare(name.size() - std::strlen(file), std::string::npos, file) == 0;
  };
  Hours hours;
  Days days;
  if (is("hly175.csv")) read_dublin(in, hours);
  if (is("725755-24101-2014")) read_isd_lite(in, hours);
  if (is("seattle-weather-hourly-normals.csv")) read_seattle_hours(in, hours);
  if (is("seattle-weather.csv")) read_seattle_days(in, days);
  if (is("USW00094728.dly")) read_new_york(in, days);
  std::fclose(in);
  hours_from_days(days, std::atof(argv[2]), hours);
  if (hours.empty()) {
    std::fprintf(stderr, "%s: not one of the files known here\n", argv[1]);
    return 1;
  }
  const Hours filled = bridged(hours);
  const int last_year = year_of(hours.rbegin()->first / 24);
  for (int year = year_of(hours.begin()->first / 24) - 1; year <= last_year; ++year) {
    print_winter(year, day_number(year, 11, 1), day_number(year + 1, 3, 1), hours, filled);
  }
  return 0;
}
