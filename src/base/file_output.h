// Writing a whole file or none: beside the target first, then renamed over it, so that a failed run
// leaves the old file as it was and nobody ever opens half a report.
#pragma once

#include <stdexcept>
#include <string>
#include <string_view>

namespace winterfolio {

/// A file that could not be written, why, and what to do about it.
class WriteError : public std::runtime_error {
 public:
  WriteError(std::string path, const std::string& reason, std::string mend);
  const std::string& path() const { return path_; }
  const std::string& mend() const { return mend_; }

 private:
  std::string path_;
  std::string mend_;
};

/// Writes `bytes` to `path`. Throws WriteError; then the old file is whole and nothing is left
/// beside it. The bytes are on the disk, not in a cache, before the old file goes.
void write_file_atomically(const std::string& path, std::string_view bytes);

}  // namespace winterfolio
