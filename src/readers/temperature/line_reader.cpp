// Refills the buffer and deals with lines that do not fit.
#include "readers/temperature/line_reader.h"

#include <algorithm>

namespace winterfolio {

LineReader::LineReader(std::unique_ptr<ByteSource> source)
    : source_(std::move(source)), buffer_(kBufferSize + kZerosBehind) {
  position_ = filled_ = buffer_.data();
  refill();
  std::string_view all(position_, left());
  if (all.substr(0, 3) == "\xEF\xBB\xBF") {
    position_ += 3;
    all.remove_prefix(3);
  }
  head_ = all.substr(0, kHeadSize);
  if (head_.find('\n') == std::string_view::npos && head_.find('\r') != std::string_view::npos)
    line_end_ = '\r';
  if (head_.size() < all.size() || !ended_) {
    const std::size_t last = head_.rfind(line_end_);
    // A line that is cut off here is left out, unless it is so long that it may be all there is;
    // zeros behind the text are no line.
    constexpr std::size_t kLongLine = 16 * 1024;
    if (last != std::string_view::npos &&
        (head_.size() - last < kLongLine || head_[last + 1] == '\0'))
      head_ = head_.substr(0, last + 1);
  }
}

void LineReader::refill() {
  const std::size_t kept = left();
  std::memmove(buffer_.data(), position_, kept);
  position_ = buffer_.data();
  std::size_t held = kept;
  while (held < kBufferSize) {
    const std::size_t got = source_->read(buffer_.data() + held, kBufferSize - held);
    if (got == 0) {
      ended_ = true;
      break;
    }
    held += got;
  }
  filled_ = buffer_.data() + held;
  std::memset(buffer_.data() + held, 0, kZerosBehind);
}

bool LineReader::next_slowly(std::string_view& line) {
  if (!ended_) {
    const std::size_t before = left();
    if (before < kBufferSize) {
      refill();
      if (left() > before) return next(line);
    }
  }
  if (left() == 0) return false;
  // Either the last line, without an end, or one that fills the whole buffer.
  std::size_t length = left();
  const bool cut = !ended_;
  line = {position_, length};
  ++number_;
  if (!cut) {
    position_ = filled_;
    if (length > 0 && line.back() == '\r') line.remove_suffix(1);
    return true;
  }
  cut_line_ = number_;
  if (cut_lines_++ == 0) first_cut_line_ = number_;
  // Give out a short piece from the front, and skip to the line's end through the rest of the
  // buffer.
  constexpr std::size_t kShown = 4096;
  line = line.substr(0, kShown);
  for (;;) {
    const std::size_t got = source_->read(buffer_.data() + kShown, kBufferSize - kShown);
    const char* const from = buffer_.data() + kShown;
    filled_ = from + got;
    std::memset(buffer_.data() + kShown + got, 0, kZerosBehind);
    if (got == 0) {
      ended_ = true;
      position_ = filled_;
      return true;
    }
    if (const void* end = std::memchr(from, line_end_, got)) {
      position_ = static_cast<const char*>(end) + 1;
      return true;
    }
  }
}

}  // namespace winterfolio
