// Opening, reading, unpacking.
#include "readers/temperature/byte_source.h"

#include <fcntl.h>
#include <fmt/format.h>
#include <sys/stat.h>
#include <unistd.h>
#include <zlib.h>

#include <algorithm>
#include <array>
#include <cerrno>
#include <cstring>
#include <utility>
#include <vector>

namespace winterfolio {
namespace {

Diagnostic fault(const std::string& file, std::string id, std::string message, std::string expected,
                 std::string mend) {
  Diagnostic d;
  d.id = "temperature." + std::move(id);
  d.at.file = file;
  d.message = std::move(message);
  d.expected = std::move(expected);
  d.mend = std::move(mend);
  return d;
}

void report_open_fault(const std::string& path, int error, Diagnostics& diagnostics) {
  if (error == ENOENT || error == ENOTDIR) {
    diagnostics.add(fault(path, "no-such-file", "there is no such file",
                          "the path of a temperature file",
                          "correct the path, or put the file there"));
    return;
  }
  diagnostics.add(fault(
      path, "cannot-open", fmt::format("cannot be opened: {}", std::strerror(error)),
      "a temperature file that may be read", "give read permission, or copy the file elsewhere"));
}

/// A descriptor. A regular file is read to the length it had when opened, so that one that grows
/// has an end.
class FileSource final : public ByteSource {
 public:
  FileSource(std::string name, int descriptor, bool owned, std::optional<std::int64_t> length)
      : name_(std::move(name)), descriptor_(descriptor), owned_(owned), length_(length) {}
  FileSource(const FileSource&) = delete;
  FileSource& operator=(const FileSource&) = delete;
  ~FileSource() override {
    if (owned_) ::close(descriptor_);
  }

  std::size_t read(char* into, std::size_t room) override {
    if (length_)
      room = static_cast<std::size_t>(
          std::min<std::int64_t>(static_cast<std::int64_t>(room), *length_ - done_));
    while (room > 0 && error_ == 0) {
      const ssize_t got = ::read(descriptor_, into, room);
      if (got >= 0) {
        done_ += got;
        ended_ = ended_ || got == 0;
        if (length_ && got == static_cast<ssize_t>(room) && is_all_zero(into, room)) skip_hole();
        return static_cast<std::size_t>(got);
      }
      if (errno != EINTR) error_ = errno;
    }
    return 0;
  }

  bool finish(Diagnostics& diagnostics) override {
    if (error_ != 0) {
      diagnostics.add(fault(
          name_, "cannot-read",
          fmt::format("reading failed after {} bytes: {}", done_, std::strerror(error_)),
          "a file that can be read to its end", "copy the file to another disk and read it there"));
      return false;
    }
    struct stat now {};
    // Whoever stopped before the end, because the file cannot be understood, learns nothing of it.
    if (!length_ || (!ended_ && done_ < *length_) || ::fstat(descriptor_, &now) != 0) return true;
    if (done_ < *length_) {
      diagnostics.add(
          fault(name_, "became-shorter",
                fmt::format("became shorter while it was read: {} of {} bytes were there", done_,
                            *length_),
                "a file that nothing writes to meanwhile",
                "wait until the logger or download is done, then run again"));
      return false;
    }
    if (now.st_size > *length_) {
      Diagnostic d = fault(
          name_, "became-longer",
          fmt::format("became longer while it was read; the first {} bytes were used", *length_),
          "a file that nothing writes to meanwhile", "run again for the newest readings");
      d.severity = Severity::warning;
      diagnostics.add(std::move(d));
    }
    return true;
  }

 private:
  static bool is_all_zero(const char* bytes, std::size_t count) {
    return bytes[0] == 0 && std::memcmp(bytes, bytes + 1, count - 1) == 0;
  }

  /// A file with gigabytes of nothing in it: the system knows where its next real bytes are. No row
  /// is lost, for what is left out are zeros behind zeros.
  void skip_hole() {
    off_t next = ::lseek(descriptor_, static_cast<off_t>(done_), SEEK_DATA);
    if (next < 0 && errno == ENXIO) next = static_cast<off_t>(*length_);
    if (next < 0 || next > *length_) next = static_cast<off_t>(done_);
    // Never onto a shrunk file's end: what is missing there must be noticed.
    struct stat now {};
    if (::fstat(descriptor_, &now) != 0 || now.st_size < next) next = static_cast<off_t>(done_);
    if (::lseek(descriptor_, next, SEEK_SET) >= 0) done_ = next;
  }

  std::string name_;
  int descriptor_;
  bool owned_;
  std::optional<std::int64_t> length_;
  std::int64_t done_ = 0;
  bool ended_ = false;
  int error_ = 0;
};

class MemorySource final : public ByteSource {
 public:
  explicit MemorySource(std::string bytes) : bytes_(std::move(bytes)) {}
  std::size_t read(char* into, std::size_t room) override {
    const std::size_t count = std::min(room, bytes_.size() - done_);
    std::memcpy(into, bytes_.data() + done_, count);
    done_ += count;
    return count;
  }
  bool finish(Diagnostics&) override { return true; }

 private:
  std::string bytes_;
  std::size_t done_ = 0;
};

/// The first bytes, looked at and then given out before the rest.
class PeekedSource final : public ByteSource {
 public:
  explicit PeekedSource(std::unique_ptr<ByteSource> inner) : inner_(std::move(inner)) {
    while (held_ < first_.size()) {
      const std::size_t got = inner_->read(first_.data() + held_, first_.size() - held_);
      if (got == 0) break;
      held_ += got;
    }
  }
  std::string_view first() const { return {first_.data(), held_}; }
  void drop(std::size_t count) { given_ += count; }
  std::size_t read(char* into, std::size_t room) override {
    if (given_ == held_) return inner_->read(into, room);
    const std::size_t count = std::min(room, held_ - given_);
    std::memcpy(into, first_.data() + given_, count);
    given_ += count;
    return count;
  }
  bool finish(Diagnostics& diagnostics) override { return inner_->finish(diagnostics); }

 private:
  std::unique_ptr<ByteSource> inner_;
  std::array<char, 4> first_{};
  std::size_t held_ = 0;
  std::size_t given_ = 0;
};

/// Unpacks gzip, also several packed parts one after another.
class GzipSource final : public ByteSource {
 public:
  GzipSource(std::unique_ptr<ByteSource> inner, std::string name)
      : inner_(std::move(inner)), name_(std::move(name)) {
    constexpr int kGzipOnly = 16;
    damaged_ = inflateInit2(&stream_, kGzipOnly + MAX_WBITS) != Z_OK;
  }
  GzipSource(const GzipSource&) = delete;
  GzipSource& operator=(const GzipSource&) = delete;
  ~GzipSource() override { inflateEnd(&stream_); }

  std::size_t read(char* into, std::size_t room) override {
    if (damaged_ || ended_ || room == 0) return 0;
    stream_.next_out = reinterpret_cast<Bytef*>(into);
    stream_.avail_out = static_cast<uInt>(std::min<std::size_t>(room, 1U << 30));
    const uInt asked = stream_.avail_out;
    while (stream_.avail_out == asked && !ended_ && !damaged_) step();
    return asked - stream_.avail_out;
  }

  bool finish(Diagnostics& diagnostics) override {
    if (!inner_->finish(diagnostics)) return false;
    if (!damaged_) return true;
    diagnostics.add(fault(name_, "damaged-gzip", "is compressed by gzip, and damaged or cut short",
                          "a whole gzip file",
                          "download it again, or unpack it by hand and use what comes out"));
    return false;
  }

 private:
  bool refill() {
    if (stream_.avail_in > 0) return true;
    stream_.next_in = reinterpret_cast<Bytef*>(packed_.data());
    stream_.avail_in = static_cast<uInt>(inner_->read(packed_.data(), packed_.size()));
    return stream_.avail_in > 0;
  }

  void step() {
    if (!refill()) {
      damaged_ = !between_parts_;
      ended_ = true;
      return;
    }
    if (between_parts_) {
      // Padding of zeros after the last part is common on tape and harmless.
      if (*stream_.next_in == 0) {
        ++stream_.next_in;
        --stream_.avail_in;
        return;
      }
      between_parts_ = false;
      inflateReset(&stream_);
    }
    const int result = inflate(&stream_, Z_NO_FLUSH);
    if (result == Z_STREAM_END) {
      between_parts_ = true;
    } else if (result != Z_OK && result != Z_BUF_ERROR) {
      damaged_ = true;
    }
  }

  std::unique_ptr<ByteSource> inner_;
  std::string name_;
  z_stream stream_{};
  std::vector<char> packed_ = std::vector<char>(64 * 1024);
  bool between_parts_ = false;
  bool ended_ = false;
  bool damaged_ = false;
};

/// UTF-16 with its mark, as some loggers' programs save, to UTF-8. What is no character becomes
/// U+FFFD.
class Utf16Source final : public ByteSource {
 public:
  Utf16Source(std::unique_ptr<ByteSource> inner, bool big_endian)
      : inner_(std::move(inner)), big_endian_(big_endian) {}

  std::size_t read(char* into, std::size_t room) override {
    constexpr std::size_t kLongest = 4;
    std::size_t count = 0;
    while (count + kLongest <= room) {
      const auto unit = next_unit();
      if (!unit) break;
      count += put(character_from(*unit), into + count);
      if (from_ == held_ && count > 0) break;
    }
    return count;
  }
  bool finish(Diagnostics& diagnostics) override { return inner_->finish(diagnostics); }

 private:
  std::optional<unsigned> next_unit() {
    if (pushed_back_) return std::exchange(pushed_back_, std::nullopt);
    while (held_ - from_ < 2) {
      if (from_ < held_) raw_[0] = raw_[from_];
      held_ -= from_;
      from_ = 0;
      const std::size_t got = inner_->read(raw_.data() + held_, raw_.size() - held_);
      if (got == 0) return std::nullopt;
      held_ += got;
    }
    const auto a = static_cast<unsigned char>(raw_[from_]);
    const auto b = static_cast<unsigned char>(raw_[from_ + 1]);
    from_ += 2;
    return big_endian_ ? a << 8U | b : b << 8U | a;
  }

  unsigned character_from(unsigned unit) {
    constexpr unsigned kReplacement = 0xFFFD;
    if (unit < 0xD800 || unit > 0xDFFF) return unit;
    if (unit > 0xDBFF) return kReplacement;
    const auto low = next_unit();
    if (low && *low >= 0xDC00 && *low <= 0xDFFF)
      return 0x10000U + ((unit - 0xD800U) << 10U) + (*low - 0xDC00U);
    pushed_back_ = low;
    return kReplacement;
  }

  static std::size_t put(unsigned c, char* out) {
    const auto byte = [](unsigned value) {
      return static_cast<char>(static_cast<unsigned char>(value));
    };
    if (c < 0x80) {
      out[0] = byte(c);
      return 1;
    }
    if (c < 0x800) {
      out[0] = byte(0xC0U | c >> 6U);
      out[1] = byte(0x80U | (c & 0x3FU));
      return 2;
    }
    if (c < 0x10000) {
      out[0] = byte(0xE0U | c >> 12U);
      out[1] = byte(0x80U | (c >> 6U & 0x3FU));
      out[2] = byte(0x80U | (c & 0x3FU));
      return 3;
    }
    out[0] = byte(0xF0U | c >> 18U);
    out[1] = byte(0x80U | (c >> 12U & 0x3FU));
    out[2] = byte(0x80U | (c >> 6U & 0x3FU));
    out[3] = byte(0x80U | (c & 0x3FU));
    return 4;
  }

  std::unique_ptr<ByteSource> inner_;
  bool big_endian_;
  std::vector<char> raw_ = std::vector<char>(64 * 1024);
  std::size_t from_ = 0;
  std::size_t held_ = 0;
  std::optional<unsigned> pushed_back_;
};

}  // namespace

std::unique_ptr<ByteSource> ByteSource::open(const std::string& path, Diagnostics& diagnostics) {
  if (path == "-") return std::make_unique<FileSource>("standard input", 0, false, std::nullopt);
  const int descriptor = ::open(path.c_str(), O_RDONLY | O_CLOEXEC);
  if (descriptor < 0) {
    report_open_fault(path, errno, diagnostics);
    return nullptr;
  }
  auto source = std::make_unique<FileSource>(path, descriptor, true, std::nullopt);
  struct stat status {};
  if (::fstat(descriptor, &status) != 0) return source;
  if (S_ISDIR(status.st_mode)) {
    diagnostics.add(fault(path, "is-a-folder", "is a folder, not a file",
                          "the path of one temperature file", "name the file inside the folder"));
    return nullptr;
  }
  if (!S_ISREG(status.st_mode)) return source;
  // Some systems' virtual files claim no length; they are read to their end like pipes.
  if (status.st_size == 0) return source;
  return std::make_unique<FileSource>(path, ::dup(descriptor), true, std::int64_t{status.st_size});
}

std::unique_ptr<ByteSource> ByteSource::of_bytes(std::string, std::string bytes) {
  return std::make_unique<MemorySource>(std::move(bytes));
}

std::unique_ptr<ByteSource> plain_bytes(std::unique_ptr<ByteSource> source,
                                        const std::string& name) {
  auto peeked = std::make_unique<PeekedSource>(std::move(source));
  const std::string_view first = peeked->first();
  if (first.substr(0, 2) == "\x1F\x8B") {
    return plain_bytes(std::make_unique<GzipSource>(std::move(peeked), name), name);
  }
  const bool little = first.substr(0, 2) == "\xFF\xFE";
  const bool big = first.substr(0, 2) == "\xFE\xFF";
  if (!little && !big) return peeked;
  peeked->drop(2);
  return std::make_unique<Utf16Source>(std::move(peeked), big);
}

}  // namespace winterfolio
