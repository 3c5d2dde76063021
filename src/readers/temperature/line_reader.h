// Lines of a file through one fixed buffer: no line is copied, none is allocated.
#pragma once

#include <cstdint>
#include <cstring>
#include <memory>
#include <string_view>
#include <vector>

#include "readers/temperature/byte_source.h"

namespace winterfolio {

/// Gives out lines one after another. A line's text stays valid until the next call.
///
/// Lines end with LF, CR LF, or (in files without any LF in their head) CR. A line longer than the
/// buffer is given out cut, its rest is skipped, and it is counted.
class LineReader {
 public:
  static constexpr std::size_t kBufferSize = 256 * 1024;
  static constexpr std::size_t kHeadSize = 64 * 1024;
  /// Zero bytes behind the last line, so that a look a few places ahead stays inside the buffer and
  /// finds no digit.
  static constexpr std::size_t kZerosBehind = 64;

  explicit LineReader(std::unique_ptr<ByteSource> source);

  /// The first lines of the file, as bytes, up to about kHeadSize; only whole lines, unless there
  /// is just one. Before the first call of next() only.
  std::string_view head() const { return head_; }

  /// The next line without its end; false at the end of the file.
  bool next(std::string_view& line) {
    const char* const end = static_cast<const char*>(std::memchr(position_, line_end_, left()));
    if (end == nullptr) return next_slowly(line);
    std::size_t length = static_cast<std::size_t>(end - position_);
    const char* const start = position_;
    position_ = end + 1;
    ++number_;
    if (length > 0 && start[length - 1] == '\r') --length;
    line = {start, length};
    return true;
  }

  /// Number of the line given out last, from 1.
  std::int64_t number() const { return number_; }
  bool line_was_cut() const { return cut_line_ == number_; }
  std::int64_t cut_lines() const { return cut_lines_; }
  std::int64_t first_cut_line() const { return first_cut_line_; }

  /// See ByteSource::finish.
  bool finish(Diagnostics& diagnostics) { return source_->finish(diagnostics); }

 private:
  std::size_t left() const { return static_cast<std::size_t>(filled_ - position_); }
  bool next_slowly(std::string_view& line);
  void refill();

  std::unique_ptr<ByteSource> source_;
  std::vector<char> buffer_;
  const char* position_ = nullptr;
  const char* filled_ = nullptr;
  std::string_view head_;
  std::int64_t number_ = 0;
  std::int64_t cut_line_ = 0;
  std::int64_t cut_lines_ = 0;
  std::int64_t first_cut_line_ = 0;
  char line_end_ = '\n';
  bool ended_ = false;
};

}  // namespace winterfolio
