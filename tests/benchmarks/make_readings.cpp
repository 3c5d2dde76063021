// Readings for the benchmarks: made-up weather, the same bytes for the same arguments on every
// machine.
//
//   make_readings YEARS MINUTES > FILE.csv
// writes "YYYY-MM-DD HH:MM,T.T" every MINUTES from 1990-01-01, local standard time, °C. The weather
// is a wave over the year, a wave over the day and a slow wander from one hour to the next,
// straight within the hour. It is not field data.
#include <cmath>
#include <cstdint>
#include <cstdio>
#include <cstdlib>
#include <string>

namespace {

/// A small generator of our own (SplitMix64), so that no library's choice changes the file.
class Random {
 public:
  double between(double low, double high) {
    state_ += 0x9E3779B97F4A7C15ULL;
    std::uint64_t z = state_;
    z = (z ^ (z >> 30)) * 0xBF58476D1CE4E5B9ULL;
    z = (z ^ (z >> 27)) * 0x94D049BB133111EBULL;
    z ^= z >> 31;
    return low + (high - low) * static_cast<double>(z >> 11) * 0x1p-53;
  }

 private:
  std::uint64_t state_ = 20260101;
};

int days_of(int year) { return (year % 4 == 0 && year % 100 != 0) || year % 400 == 0 ? 366 : 365; }

int days_of(int year, int month) {
  static const int days[] = {31, 28, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31};
  return days[month - 1] + (month == 2 && days_of(year) == 366 ? 1 : 0);
}

class Weather {
 public:
  /// The knot at the beginning of the next hour.
  double next(int day_of_year, int hour) {
    wander_ = 0.986 * wander_ + random_.between(-1.1, 1.1);
    const double year = std::cos(2.0 * kPi * (day_of_year - 199) / 365.25);
    const double day = std::cos(2.0 * kPi * (hour - 15) / 24.0);
    return 12.5 + 8.5 * year + (4.8 + 1.5 * year) * day + wander_;
  }
  double noise() { return random_.between(-0.2, 0.2); }

 private:
  static constexpr double kPi = 3.14159265358979323846;
  Random random_;
  double wander_ = 0.0;
};

}  // namespace

int main(int argc, char** argv) {
  const int years = argc > 1 ? std::atoi(argv[1]) : 0;
  const int step = argc > 2 ? std::atoi(argv[2]) : 0;
  if (years < 1 || step < 1 || 60 % step != 0) {
    std::fprintf(stderr, "usage: make_readings YEARS MINUTES   (minutes divide the hour)\n");
    return 2;
  }
  std::puts("time,temperature_c");
  Weather weather;
  double knot = weather.next(1, 0);
  for (int year = 1990; year < 1990 + years; ++year) {
    int day_of_year = 1;
    for (int month = 1; month <= 12; ++month) {
      for (int day = 1; day <= days_of(year, month); ++day, ++day_of_year) {
        for (int hour = 0; hour < 24; ++hour) {
          const double next = weather.next(day_of_year, hour);
          for (int minute = 0; minute < 60; minute += step) {
            const double t = knot + (next - knot) * minute / 60.0 + weather.noise();
            const long tenths = std::lround(t * 10.0);
            std::printf("%04d-%02d-%02d %02d:%02d,%s%ld.%ld\n", year, month, day, hour, minute,
                        tenths < 0 ? "-" : "", std::labs(tenths) / 10, std::labs(tenths) % 10);
          }
          knot = next;
        }
      }
    }
  }
  return std::fflush(stdout) == 0 ? 0 : 1;
}
