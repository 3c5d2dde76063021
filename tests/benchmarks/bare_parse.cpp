// The least that any reader must spend on a file of readings: look at every "YYYY-MM-DD HH:MM,T.T"
// line once, turn stamp and temperature into numbers, and add both up. No checks beyond the line's
// form, no hours, no measures. What a program spends above this is its own.
//
//   bare_parse FILE.csv
#include <fcntl.h>
#include <sys/mman.h>
#include <sys/stat.h>
#include <unistd.h>

#include <charconv>
#include <cstdint>
#include <cstdio>
#include <cstring>

namespace {

struct Stamp {
  int year = 0, month = 0, day = 0, hour = 0, minute = 0;
};

bool digits(const char*& at, const char* end, int count, int& value) {
  if (end - at < count) return false;
  const auto [stopped, error] = std::from_chars(at, at + count, value);
  if (error != std::errc{} || stopped != at + count) return false;
  at = stopped;
  return true;
}

bool one(const char*& at, const char* end, char c) {
  if (at == end || *at != c) return false;
  ++at;
  return true;
}

bool stamp(const char*& at, const char* end, Stamp& s) {
  return digits(at, end, 4, s.year) && one(at, end, '-') && digits(at, end, 2, s.month) &&
         one(at, end, '-') && digits(at, end, 2, s.day) && one(at, end, ' ') &&
         digits(at, end, 2, s.hour) && one(at, end, ':') && digits(at, end, 2, s.minute);
}

/// Minutes since 1970 by the usual count of days from March.
std::int64_t minutes(const Stamp& s) {
  const int years = s.month <= 2 ? s.year - 1 : s.year;
  const int months = (s.month + 9) % 12;
  const std::int64_t days = 365LL * years + years / 4 - years / 100 + years / 400 +
                            (months * 306 + 5) / 10 + s.day - 719469;
  return (days * 24 + s.hour) * 60 + s.minute;
}

}  // namespace

int main(int argc, char** argv) {
  if (argc != 2) return std::fprintf(stderr, "usage: bare_parse FILE.csv\n"), 2;
  const int file = open(argv[1], O_RDONLY);
  struct stat facts {};
  if (file < 0 || fstat(file, &facts) != 0) return std::perror(argv[1]), 1;
  const auto size = static_cast<std::size_t>(facts.st_size);
  void* mapped = mmap(nullptr, size, PROT_READ, MAP_PRIVATE, file, 0);
  if (mapped == MAP_FAILED) return std::perror("mmap"), 1;
  madvise(mapped, size, MADV_SEQUENTIAL);
  const char* at = static_cast<const char*>(mapped);
  const char* const end = at + size;
  std::int64_t rows = 0, odd = 0, time = 0;
  double sum = 0.0;
  while (at < end) {
    Stamp s;
    double t = 0.0;
    const char* p = at;
    bool good = stamp(p, end, s) && one(p, end, ',');
    if (good) {
      const auto [stopped, error] = std::from_chars(p, end, t);
      good = error == std::errc{};
      p = stopped;
    }
    if (good) {
      ++rows;
      time += minutes(s);
      sum += t;
    } else {
      ++odd;
    }
    if (p == end || *p != '\n') {
      const void* next = std::memchr(p, '\n', static_cast<std::size_t>(end - p));
      p = next ? static_cast<const char*>(next) : end - 1;
    }
    at = p + 1;
  }
  std::printf("rows %lld, other lines %lld, minutes %lld, degrees %.1f\n",
              static_cast<long long>(rows), static_cast<long long>(odd),
              static_cast<long long>(time), sum);
  return 0;
}
