// Writes the invented weather of the sample orchard: twelve past winters of daily extremes, as someone would read them
// from a thermometer with two pointers, and the present winter as a logger on a post would keep it.
//
//   sample_generator write DIR    writes DIR/temperatures/past-winters.csv and DIR/temperatures/winter-2026-27.csv
//   sample_generator check DIR    compares what it would write with what stands there, byte for byte
//
// Nothing here was measured anywhere. The weather is put together day by day from five kinds of day that an inland
// valley knows (clear and still, fog under an inversion, a passing front, a warm ridge, a cold outbreak) around a yearly
// course of normal temperatures that is made up too. The past winters come from the dice alone, each with a lean of its
// own; the present winter follows a short story (kStory), so that its pages have something to tell.
//
// The same bytes everywhere: the engine is the standard's mersenne twister, whose output the standard fixes; the
// transforms are our own, and use only + - * / and comparisons, which IEEE arithmetic fixes too. No sin, no exp.
#include <algorithm>
#include <array>
#include <chrono>
#include <cstdio>
#include <fstream>
#include <iostream>
#include <iterator>
#include <random>
#include <string>
#include <string_view>
#include <vector>

namespace {

using std::chrono::days;
using std::chrono::sys_days;
using std::chrono::year_month_day;

constexpr std::uint64_t kSeed = 20270207;

sys_days day_of(int year, unsigned month, unsigned day) {
  return sys_days{std::chrono::year{year} / std::chrono::month{month} / std::chrono::day{day}};
}

/// The dice: uniform numbers from the top 53 bits, bell-shaped ones as twelve uniforms less six (nothing past ±6, and
/// no logarithm whose last digit differs between machines).
class Dice {
 public:
  explicit Dice(std::uint64_t seed) : engine_(seed) {}
  double uniform() { return static_cast<double>(engine_() >> 11) * (1.0 / 9007199254740992.0); }
  double bell() {
    double sum = -6.0;
    for (int i = 0; i < 12; ++i) sum += uniform();
    return sum;
  }

 private:
  std::mt19937_64 engine_;
};

/// A course through the season, straight lines between knots; days are counted from 1 October.
struct Knot {
  int day;
  double value;
};
double along(const Knot* knots, std::size_t count, double day) {
  if (day <= knots[0].day) return knots[0].value;
  for (std::size_t i = 1; i < count; ++i) {
    if (day > knots[i].day) continue;
    const double part = (day - knots[i - 1].day) / (knots[i].day - knots[i - 1].day);
    return knots[i - 1].value + part * (knots[i].value - knots[i - 1].value);
  }
  return knots[count - 1].value;
}
template <std::size_t N>
double along(const std::array<Knot, N>& knots, double day) {
  return along(knots.data(), N, day);
}

// Normal lowest and highest temperature [°F], and the clock hours of sunrise and sunset in standard time. Invented, for
// an open valley floor near 37° north.
constexpr std::array<Knot, 10> kNormalLow = {{{0, 54}, {31, 46}, {50, 41}, {65, 38}, {92, 36.5}, {110, 37.5}, {130, 40.5}, {150, 43.5}, {182, 47}, {243, 58}}};
constexpr std::array<Knot, 10> kNormalHigh = {{{0, 85}, {31, 73}, {50, 65}, {65, 59}, {85, 54}, {100, 54.5}, {120, 59.5}, {150, 66}, {182, 72}, {243, 88}}};
constexpr std::array<Knot, 7> kSunrise = {{{0, 5.9}, {31, 6.4}, {61, 6.9}, {97, 7.2}, {123, 7.0}, {151, 6.5}, {243, 4.7}}};

enum class Kind { clear, fog, front, ridge, outbreak };

/// How a kind of day departs from the normal [°F], and how fast it swings within the day.
struct KindOfDay {
  double low;
  double high;
  double spread;  ///< of the day-to-day noise
};
KindOfDay kind_of_day(Kind kind) {
  switch (kind) {
    case Kind::clear: return {-3.0, 1.5, 1.0};
    case Kind::fog: return {1.5, -6.5, 0.6};
    case Kind::front: return {6.5, -3.5, 1.1};
    case Kind::ridge: return {3.5, 8.5, 1.0};
    case Kind::outbreak: return {-7.5, -6.5, 0.9};
  }
  return {};
}

/// The chance of each kind on a day, by the season: fog needs long nights, outbreaks come around New Year.
Kind next_kind(Dice& dice, Kind now, int day) {
  if (dice.uniform() < 0.68) return now;  // weather lasts
  const bool fog_season = day > 50 && day < 128;
  const bool cold_season = day > 45 && day < 170;
  const double pick = dice.uniform();
  if (pick < 0.34) return Kind::clear;
  if (pick < 0.60) return Kind::front;
  if (pick < 0.78) return fog_season ? Kind::fog : Kind::clear;
  if (pick < 0.92) return Kind::ridge;
  return cold_season ? Kind::outbreak : Kind::clear;
}

struct Day {
  sys_days date;
  double low = 0.0;
  double high = 0.0;
  Kind kind = Kind::clear;
};

/// A stretch of days that the story of the present winter settles.
struct Spell {
  sys_days from;
  sys_days to;
  Kind kind;
  double low_shift;
  double high_shift;
};

/// The present winter: a long warm autumn, a late and hard freeze, two weeks of fog that bring most of the cold, a warm
/// ridge that wakes the first buds, then still frosty nights.
std::vector<Spell> story() {
  return {
      {day_of(2026, 10, 16), day_of(2026, 11, 9), Kind::ridge, 0.5, -1.5},
      {day_of(2026, 11, 10), day_of(2026, 11, 14), Kind::front, 2.0, 3.0},
      {day_of(2026, 11, 15), day_of(2026, 11, 19), Kind::clear, -3.5, 0.0},
      {day_of(2026, 11, 20), day_of(2026, 11, 29), Kind::ridge, 0.5, -1.0},
      {day_of(2026, 11, 30), day_of(2026, 12, 6), Kind::front, -0.5, 2.0},
      {day_of(2026, 12, 7), day_of(2026, 12, 12), Kind::fog, 0.5, 1.0},
      {day_of(2026, 12, 13), day_of(2026, 12, 21), Kind::clear, 4.0, 3.0},
      {day_of(2026, 12, 22), day_of(2026, 12, 24), Kind::outbreak, -0.5, 1.0},
      {day_of(2026, 12, 25), day_of(2026, 12, 28), Kind::outbreak, -3.5, -2.5},
      {day_of(2026, 12, 29), day_of(2026, 12, 31), Kind::clear, 0.0, -1.0},
      {day_of(2027, 1, 1), day_of(2027, 1, 13), Kind::fog, 2.0, 1.5},
      {day_of(2027, 1, 14), day_of(2027, 1, 16), Kind::front, 0.0, 0.0},
      {day_of(2027, 1, 17), day_of(2027, 1, 24), Kind::ridge, 3.0, 3.5},
      {day_of(2027, 1, 25), day_of(2027, 1, 29), Kind::front, 0.5, 3.0},
      {day_of(2027, 1, 30), day_of(2027, 2, 1), Kind::clear, -1.0, 0.0},
      {day_of(2027, 2, 2), day_of(2027, 2, 5), Kind::clear, -8.0, -1.0},
      {day_of(2027, 2, 6), day_of(2027, 2, 8), Kind::clear, -1.0, 1.0},
  };
}

/// Days from 1 October on. `lean` is how much warmer or colder than normal the whole winter is; `told` may settle spells.
std::vector<Day> weather(Dice& dice, sys_days first, int count, double lean, const std::vector<Spell>& told) {
  std::vector<Day> out;
  Kind kind = Kind::clear;
  double low_noise = 0.0;
  double high_noise = 0.0;
  double month_lean = 0.0;
  for (int i = 0; i < count; ++i) {
    Day day;
    day.date = first + days{i};
    kind = next_kind(dice, kind, i);
    if (i % 30 == 0) month_lean = 1.3 * dice.bell();
    KindOfDay departs = kind_of_day(kind);
    double shift = lean + month_lean;
    for (const Spell& spell : told) {
      if (day.date < spell.from || day.date > spell.to) continue;
      kind = spell.kind;
      departs = kind_of_day(kind);
      departs.low += spell.low_shift;
      departs.high += spell.high_shift;
      shift = 0.0;
    }
    low_noise = 0.55 * low_noise + 1.9 * departs.spread * dice.bell();
    high_noise = 0.55 * high_noise + 2.3 * departs.spread * dice.bell();
    day.kind = kind;
    day.low = along(kNormalLow, i) + shift + departs.low + low_noise;
    day.high = std::max(along(kNormalHigh, i) + shift + departs.high + high_noise, day.low + 3.5);
    out.push_back(day);
  }
  return out;
}

int whole(double value) { return static_cast<int>(value < 0 ? value - 0.5 : value + 0.5); }

std::string two(int n) { return {static_cast<char>('0' + n / 10), static_cast<char>('0' + n % 10)}; }

/// One decimal, from whole tenths, so that no printing routine has a say.
std::string tenths(int n) {
  const std::string sign = n < 0 ? "-" : "";
  const int size = n < 0 ? -n : n;
  return sign + std::to_string(size / 10) + "." + std::to_string(size % 10);
}

std::string iso(sys_days date) {
  const year_month_day d{date};
  return std::to_string(static_cast<int>(d.year())) + "-" + two(static_cast<int>(static_cast<unsigned>(d.month()))) +
         "-" + two(static_cast<int>(static_cast<unsigned>(d.day())));
}

/// "11/30/2026 04:30", as loggers sold for one country write it.
std::string stamp(sys_days date, int minute) {
  const year_month_day d{date};
  return two(static_cast<int>(static_cast<unsigned>(d.month()))) + "/" +
         two(static_cast<int>(static_cast<unsigned>(d.day()))) + "/" +
         std::to_string(static_cast<int>(d.year())) + " " + two(minute / 60) + ":" + two(minute % 60);
}

// ---- the past winters ----------------------------------------------------------------------------------------------

/// How each winter from 2014-15 on leans [°F]. The last ones are the milder, as keepers say of theirs; whether the years
/// really show a trend is for the pages to work out.
constexpr std::array<double, 12> kLean = {1.6, -0.7, -1.6, 0.4, -0.9, 0.3, -1.1, -0.2, -1.9, 1.0, 2.3, 0.5};

/// October to May of each winter, whole degrees, a few mornings nobody came.
std::string past_winters(Dice& dice) {
  std::string out =
      "# Lowest and highest temperature of the day, read each morning from October to May, degrees F\n"
      "date,lowest,highest\n";
  for (std::size_t w = 0; w < kLean.size(); ++w) {
    const int year = 2014 + static_cast<int>(w);
    const sys_days first = day_of(year, 10, 1);
    const int count = static_cast<int>((day_of(year + 1, 6, 1) - first).count());
    for (const Day& day : weather(dice, first, count, kLean[w], {})) {
      out += iso(day.date);
      if (dice.uniform() < 0.004) {
        out += ",,\n";
        continue;
      }
      out += "," + std::to_string(whole(day.low)) + "," + std::to_string(whole(day.high)) + "\n";
    }
  }
  return out;
}

// ---- the present winter --------------------------------------------------------------------------------------------

double smooth(double part) { return part * part * (3.0 - 2.0 * part); }

/// Cooling slows as the night goes on: 1 at its start, 0 at its end, hanging below the straight line.
double cooling(double part, Kind kind) {
  const double bend = kind == Kind::fog || kind == Kind::front ? 0.8 : 2.6;
  return ((1.0 + bend) / (1.0 + bend * part) - 1.0) / bend;
}

/// The air [°F] at an hour of a day, from its extremes and its neighbours'.
double air(const std::vector<Day>& all, std::size_t index, double hour) {
  const Day& today = all[index];
  const double sunrise = along(kSunrise, static_cast<double>(index));
  const double warmest = today.kind == Kind::fog ? 14.0 : 14.75;
  if (hour < sunrise) {
    const Day& before = all[index == 0 ? 0 : index - 1];
    const double part = (hour + 24.0 - warmest) / (sunrise + 24.0 - warmest);
    return today.low + (before.high - today.low) * cooling(part, today.kind);
  }
  if (hour < warmest) {
    return today.low + (today.high - today.low) * smooth((hour - sunrise) / (warmest - sunrise));
  }
  const Day& after = all[std::min(index + 1, all.size() - 1)];
  const double next_sunrise = along(kSunrise, static_cast<double>(index + 1)) + 24.0;
  return after.low + (today.high - after.low) * cooling((hour - warmest) / (next_sunrise - warmest), after.kind);
}

/// Every half hour from 25 October to 7 February, on a clock that is set back on 1 November.
std::string present_winter(Dice& dice) {
  const sys_days october = day_of(2026, 10, 1);
  const std::vector<Day> all = weather(dice, october, 140, 0.0, story());
  const sys_days first = day_of(2026, 10, 25);
  const sys_days last = day_of(2027, 2, 7);
  const sys_days set_back = day_of(2026, 11, 1);

  std::string out =
      "Post by the bench row,,\r\n"
      "Every 30 minutes; clock as on the kitchen wall,,\r\n"
      "Date and time,Air temperature (F),Battery (V)\r\n";
  double gust = 0.0;
  for (sys_days date = first; date <= last; date += days{1}) {
    const std::size_t index = static_cast<std::size_t>((date - october).count());
    for (int minute = 0; minute < 24 * 60; minute += 30) {
      const double hour = minute / 60.0;
      const Kind kind = all[index].kind;
      gust = 0.7 * gust + (kind == Kind::fog ? 0.15 : kind == Kind::front ? 0.55 : 0.4) * dice.bell();
      int reading = whole(10.0 * (air(all, index, hour) + gust));
      const double age = static_cast<double>((date - first).count()) + hour / 24.0;
      double battery = 3.02 - 0.0022 * age;

      // The clock on the wall: an hour ahead until 02:00 standard is 01:00 again on 1 November.
      sys_days shown = date;
      int shown_minute = minute;
      if (date < set_back || (date == set_back && minute < 60)) {
        shown_minute += 60;
        if (shown_minute >= 24 * 60) {
          shown_minute -= 24 * 60;
          shown += days{1};
        }
      }

      // What happens to loggers. A spike: a hand on the sensor, or the sun through the shield.
      if (date == day_of(2026, 11, 22) && minute == 11 * 60) reading = 1184;
      // The battery fades, then is dead for a week until someone comes.
      if (date >= day_of(2026, 12, 4) && date <= day_of(2026, 12, 8)) battery = 2.6 - 0.06 * (age - 40.0);
      const bool dead = (date == day_of(2026, 12, 8) && minute >= 16 * 60 + 30) ||
                        (date > day_of(2026, 12, 8) && date < day_of(2026, 12, 15)) ||
                        (date == day_of(2026, 12, 15) && minute < 10 * 60);
      if (dead) continue;
      if (date >= day_of(2026, 12, 15)) battery = 3.08 - 0.0022 * (age - 51.0);

      const std::string row = stamp(shown, shown_minute) + "," + tenths(reading) + "," +
                              tenths(whole(battery * 10.0)) + "\r\n";
      out += row;
      // One row that the logger wrote twice.
      if (date == day_of(2027, 1, 19) && minute == 9 * 60 + 30) out += row;
      // Two readings lost one by one: short enough to bridge.
      if (date == day_of(2027, 1, 28) && minute == 3 * 60) minute += 60;
    }
  }
  return out;
}

// ---- the two commands ----------------------------------------------------------------------------------------------

std::string contents(const std::string& path) {
  std::ifstream in(path, std::ios::binary);
  return {std::istreambuf_iterator<char>(in), {}};
}

bool write(const std::string& path, const std::string& bytes) {
  std::ofstream out(path, std::ios::binary);
  out << bytes;
  return static_cast<bool>(out);
}

bool check(const std::string& path, const std::string& bytes) {
  const std::string there = contents(path);
  if (there == bytes) return true;
  const auto differs = std::mismatch(there.begin(), there.end(), bytes.begin(), bytes.end()).first;
  std::cerr << path << ":" << 1 + std::count(there.begin(), differs, '\n')
            << ": not what the generator writes\n";
  return false;
}

}  // namespace

int main(int argc, char** argv) {
  const std::string_view verb = argc == 3 ? argv[1] : "";
  if (verb != "write" && verb != "check") {
    std::cerr << "usage: sample_generator write|check DIR\n";
    return 2;
  }
  // One set of dice a file, so that a change in one leaves the other as it is.
  Dice past_dice(kSeed);
  Dice present_dice(kSeed + 1);
  const std::string folder = std::string(argv[2]) + "/temperatures/";
  const auto act = verb == "write" ? write : check;
  const bool past = act(folder + "past-winters.csv", past_winters(past_dice));
  const bool present = act(folder + "winter-2026-27.csv", present_winter(present_dice));
  return past && present ? 0 : 1;
}
