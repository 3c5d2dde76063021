// Files that are no temperature files, or not whole, or not files: a clear message each, never a
// crash, never a hang.
#include <fcntl.h>
#include <sys/stat.h>
#include <unistd.h>
#include <zlib.h>

#include <atomic>
#include <filesystem>
#include <fstream>
#include <thread>

#include "readers/temperature/byte_source.h"
#include "readers/temperature/line_reader.h"
#include "readers/temperature/reading.h"
#include "readers/temperature/registry.h"

using namespace winterfolio;
using namespace winterfolio::test;

namespace {

/// A folder of its own that goes away with the test.
class Scratch {
 public:
  Scratch() {
    std::string name = (std::filesystem::temp_directory_path() / "winterfolio-XXXXXX").string();
    REQUIRE(::mkdtemp(name.data()) != nullptr);
    folder_ = name;
  }
  Scratch(const Scratch&) = delete;
  Scratch& operator=(const Scratch&) = delete;
  ~Scratch() { std::filesystem::remove_all(folder_); }
  std::string path(const std::string& name) const { return (folder_ / name).string(); }
  std::string write(const std::string& name, const std::string& bytes) const {
    std::ofstream(path(name), std::ios::binary) << bytes;
    return path(name);
  }

 private:
  std::filesystem::path folder_;
};

Reading read_path(const std::string& path) {
  Reading reading;
  reading.file = read_temperature_file(path, {}, reading.diagnostics);
  return reading;
}

std::string rows(int count) {
  std::string bytes = "time,temp_c\n";
  for (int i = 0; i < count; ++i) {
    const Date day = plus_days(date_of(2020, 1, 1), i / 24);
    bytes += iso_date(day) + (i % 24 < 10 ? " 0" : " ") + std::to_string(i % 24) + ":00," +
             std::to_string(i % 10) + ".5\n";
  }
  return bytes;
}

std::string gzipped(const std::string& bytes) {
  z_stream stream{};
  REQUIRE(deflateInit2(&stream, Z_DEFAULT_COMPRESSION, Z_DEFLATED, 16 + MAX_WBITS, 8,
                       Z_DEFAULT_STRATEGY) == Z_OK);
  std::string packed(deflateBound(&stream, bytes.size()) + 64, '\0');
  stream.next_in = reinterpret_cast<Bytef*>(const_cast<char*>(bytes.data()));
  stream.avail_in = static_cast<uInt>(bytes.size());
  stream.next_out = reinterpret_cast<Bytef*>(packed.data());
  stream.avail_out = static_cast<uInt>(packed.size());
  REQUIRE(deflate(&stream, Z_FINISH) == Z_STREAM_END);
  packed.resize(stream.total_out);
  deflateEnd(&stream);
  return packed;
}

std::string utf16(const std::string& ascii, bool big_endian) {
  std::string bytes = big_endian ? "\xFE\xFF" : "\xFF\xFE";
  for (const char c : ascii) {
    if (big_endian) bytes += '\0';
    bytes += c;
    if (!big_endian) bytes += '\0';
  }
  return bytes;
}

}  // namespace

TEST_CASE("No file, a folder, an empty file: each has its own message") {
  const Scratch scratch;
  CHECK(read_path(scratch.path("none.csv")).says("no-such-file"));
  CHECK(read_path(scratch.path(".")).says("is-a-folder"));
  CHECK(read_path(scratch.write("empty.csv", "")).says("empty-file"));
}

TEST_CASE("Zeros, a PDF, a spreadsheet and random bytes are no text") {
  const Scratch scratch;
  CHECK(read_path(scratch.write("zeros", std::string(100000, '\0'))).says("not-text"));
  CHECK(read_path(scratch.write("a", "%PDF-1.7\n%\xE2\xE3\xCF\xD3\n1 0 obj\n")).says("not-text"));
  CHECK(read_path(
            scratch.write("b", std::string("PK\x03\x04\x14\x00", 6) + std::string(1000, '\x05')))
            .says("not-text"));
  CHECK(read_path(scratch.write("c", "just some words\nand more of them\n"))
            .says("unknown-format-of-file"));
  CHECK(read_path(scratch.write("d", "<html><body>Sign in</body></html>\n")).says("not-text"));
}

TEST_CASE("A sparse file of five gigabytes does not hang, before or behind its readings") {
  const Scratch scratch;
  const std::string zeros = scratch.write("zeros", "");
  REQUIRE(::truncate(zeros.c_str(), off_t{5} << 30) == 0);
  CHECK(read_path(zeros).says("not-text"));
  const std::string tail = scratch.write("tail.csv", rows(48));
  REQUIRE(::truncate(tail.c_str(), off_t{5} << 30) == 0);
  const Reading reading = read_path(tail);
  REQUIRE(reading.file);
  CHECK(reading.file->readings == 48);
  CHECK(reading.says("line-too-long"));
}

TEST_CASE("A named pipe reads like a file") {
  const Scratch scratch;
  const std::string path = scratch.path("pipe");
  REQUIRE(::mkfifo(path.c_str(), 0600) == 0);
  const std::string bytes = rows(20000);
  std::thread writer([&] { std::ofstream(path, std::ios::binary) << bytes; });
  const Reading reading = read_path(path);
  writer.join();
  REQUIRE(reading.file);
  CHECK(reading.file->readings == 20000);
}

TEST_CASE("A file that grows while it is read ends where it ended when it was opened") {
  const Scratch scratch;
  const std::string path = scratch.write("log.csv", rows(40000));
  Diagnostics diagnostics;
  auto source = ByteSource::open(path, diagnostics);
  REQUIRE(source);
  std::ofstream(path, std::ios::binary | std::ios::app) << "2030-01-01 00:00,1.0\n";
  LineReader lines(std::move(source));
  std::string_view line;
  int count = 0;
  while (lines.next(line)) ++count;
  CHECK(count == 40001);
  CHECK(lines.finish(diagnostics));
  REQUIRE(diagnostics.warnings() == 1);
  CHECK(diagnostics.all()[0].id == "temperature.became-longer");
}

TEST_CASE("A file that shrinks while it is read is an error, not a crash") {
  const Scratch scratch;
  const std::string path = scratch.write("log.csv", rows(40000));
  Diagnostics diagnostics;
  auto source = ByteSource::open(path, diagnostics);
  REQUIRE(source);
  LineReader lines(std::move(source));
  REQUIRE(::truncate(path.c_str(), 1000) == 0);
  std::string_view line;
  while (lines.next(line)) {
  }
  CHECK_FALSE(lines.finish(diagnostics));
  CHECK(diagnostics.all()[0].id == "temperature.became-shorter");
}

TEST_CASE("Lines of a megabyte are passed over and named") {
  const std::string long_line(1 << 20, 'x');
  const TemperatureFile before = good("time,temp_c\n2026-11-01 00:00,1.0\n2026-11-01 01:00,2.0\n" +
                                      long_line + "\n2026-11-01 02:00,3.0\n");
  CHECK(before.readings == 3);
  const Reading reading =
      read("time,temp_c\n2026-11-01 00:00,1.0\n" + long_line + "\n2026-11-01 02:00,3.0\n");
  CHECK(reading.says("line-too-long"));
  CHECK_FALSE(read(long_line).file);
  CHECK_FALSE(read(long_line + "\n" + long_line + "\n").file);
  const TemperatureFile digits = good("time,temp_c\n2026-11-01 00:00,1.0\n2026-11-01 01:00," +
                                      std::string(1 << 20, '1') + "\n2026-11-01 02:00,3.0\n");
  CHECK(digits.readings == 2);
}

TEST_CASE("Rows of a megabyte each are read as far as they fit") {
  std::string bytes = "time,temp_c,note\n";
  for (const char* hour : {"00", "01", "02"})
    bytes += std::string("2026-11-01 ") + hour + ":00,5.5," + std::string(1 << 20, 'x') + "\n";
  const Reading reading = read(bytes);
  REQUIRE(reading.file);
  CHECK(reading.file->readings == 3);
  CHECK(reading.says("line-too-long"));
}

TEST_CASE("A large file that cannot be understood is not said to have become shorter") {
  const Scratch scratch;
  std::string bytes;
  while (bytes.size() < 1'000'000) bytes += "2024-01-01 00:00,5\n";
  const Reading reading = read_path(scratch.write("same.csv", bytes));
  CHECK_FALSE(reading.file);
  CHECK_FALSE(reading.says("became-shorter"));
  CHECK(reading.diagnostics.all().size() == 1);
}

TEST_CASE("gzip reads as it is, also in several parts; a damaged one is named") {
  const std::string bytes = rows(3000);
  const TemperatureFile plain = good(bytes);
  const TemperatureFile packed = good(gzipped(bytes));
  CHECK(packed.readings == plain.readings);
  CHECK(packed.last == plain.last);
  const std::size_t half = bytes.find('\n', bytes.size() / 2) + 1;
  const TemperatureFile parts =
      good(gzipped(bytes.substr(0, half)) + gzipped(bytes.substr(half)) + std::string(512, '\0'));
  CHECK(parts.readings == plain.readings);
  const std::string whole = gzipped(bytes);
  CHECK(read(whole.substr(0, whole.size() / 2)).says("damaged-gzip"));
  std::string bent = whole;
  for (std::size_t i = bent.size() / 2; i < bent.size() / 2 + 40; ++i)
    bent[i] = static_cast<char>(bent[i] ^ 0x55);
  const Reading reading = read(bent);
  CHECK_FALSE(reading.file);
  CHECK(reading.says("damaged-gzip"));
}

TEST_CASE("UTF-16 of either order reads like the same text in UTF-8") {
  const std::string bytes = rows(3000);
  CHECK(good(utf16(bytes, false)).readings == 3000);
  CHECK(good(utf16(bytes, true)).readings == 3000);
}

TEST_CASE("Rows across the buffer's edge are whole, whatever their length") {
  for (const int pad : {0, 1, 7, 18, 19, 20, 21}) {
    std::string bytes = "time,temp_c,note\n";
    int count = 0;
    while (bytes.size() < 3 * LineReader::kBufferSize) {
      const Date day = plus_days(date_of(1970, 1, 1), count / 24);
      bytes += iso_date(day) + (count % 24 < 10 ? " 0" : " ") + std::to_string(count % 24) +
               ":00,7.2," + std::string(static_cast<std::size_t>(pad), 'n') + "\n";
      ++count;
    }
    bytes.pop_back();
    const TemperatureFile file = good(bytes);
    CHECK(file.readings == count);
    CHECK(file.missing_hours == 0);
    CHECK(file.set_aside.unreadable == 0);
  }
}

TEST_CASE("A last line without an end is read, and digits behind it are not") {
  const std::string longer = rows(30000);
  // The buffer holds older bytes behind a short last line: they must not become part of it.
  std::string bytes =
      longer.substr(0, longer.rfind('\n', longer.size() - 2) + 1) + "2023-06-03 23:00,7";
  const TemperatureFile file = good(bytes);
  CHECK(mean(file, date_of(2023, 6, 3), 23) == 7.0);
}

TEST_CASE("A named format that does not fit the file says so") {
  TemperatureOptions options;
  options.format = "ghcn-dayly";
  const Reading wrong = read("time,temp_c\n2026-11-01 00:00,1.0\n", options);
  CHECK(wrong.says("unknown-format"));
  CHECK(wrong.text().find("did you mean 'ghcn-daily'?") != std::string::npos);
  for (const TemperatureFormat& format : temperature_formats()) {
    options.format = format.id;
    const Reading reading = read("nothing of the kind\n1,2,3\n", options);
    INFO(format.id);
    CHECK_FALSE(reading.file);
    CHECK(reading.diagnostics.has_errors());
  }
}
