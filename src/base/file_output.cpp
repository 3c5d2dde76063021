#include "base/file_output.h"

#include <fcntl.h>
#include <fmt/format.h>
#include <sys/stat.h>
#include <unistd.h>

#include <cerrno>
#include <cstdio>
#include <system_error>
#include <utility>

namespace winterfolio {

namespace {

std::string mend_for(int error) {
  switch (error) {
    case ENOSPC:
    case EDQUOT:
      return "free some space, or write into a folder on another disk";
    case EACCES:
    case EPERM:
      return "choose a folder that you may write into, or ask whoever owns this one";
    case EROFS:
      return "choose a folder on a disk that can be written";
    case ENOENT:
    case ENOTDIR:
      return "make the folder first, or correct its name";
    case EISDIR:
      return "choose a name that is not a folder's";
    case ENAMETOOLONG:
      return "choose a shorter name";
    default:
      return "choose another folder";
  }
}

[[noreturn]] void fail(const std::string& path, int error) {
  throw WriteError(path, std::generic_category().message(error), mend_for(error));
}

/// A file being written under a name of its own; removed unless renamed.
class Beside {
 public:
  explicit Beside(const std::string& target) : target_(target) {
    // The process number keeps two runs apart; a name left by a crashed run is passed over.
    for (int attempt = 0; attempt < 100; ++attempt) {
      name_ = fmt::format("{}.{}-{}.part", target, ::getpid(), attempt);
      file_ = ::open(name_.c_str(), O_WRONLY | O_CREAT | O_EXCL | O_CLOEXEC, 0666);
      if (file_ >= 0) return;
      if (errno != EEXIST) break;
    }
    const int error = errno;
    name_.clear();
    fail(target_, error);
  }
  Beside(const Beside&) = delete;
  Beside& operator=(const Beside&) = delete;
  ~Beside() {
    if (file_ >= 0) ::close(file_);
    if (!name_.empty()) ::unlink(name_.c_str());
  }

  void write(std::string_view bytes) {
    while (!bytes.empty()) {
      const ssize_t written = ::write(file_, bytes.data(), bytes.size());
      if (written < 0 && errno == EINTR) continue;
      if (written < 0) fail(target_, errno);
      bytes.remove_prefix(static_cast<std::size_t>(written));
    }
  }

  void finish() {
    // Some file systems cannot sync; they say EINVAL and the close below still tells of a full
    // disk.
    if (::fsync(file_) != 0 && errno != EINVAL && errno != ENOTSUP) fail(target_, errno);
    const int closed = ::close(std::exchange(file_, -1));
    if (closed != 0) fail(target_, errno);
    if (::rename(name_.c_str(), target_.c_str()) != 0) fail(target_, errno);
    name_.clear();
  }

 private:
  const std::string& target_;
  std::string name_;
  int file_ = -1;
};

}  // namespace

WriteError::WriteError(std::string path, const std::string& reason, std::string mend)
    : std::runtime_error(fmt::format("cannot write {}: {}", path, reason)),
      path_(std::move(path)),
      mend_(std::move(mend)) {}

void write_file_atomically(const std::string& path, std::string_view bytes) {
  struct stat existing {};
  // A device or pipe is written straight: renaming over /dev/full would replace the device.
  if (::stat(path.c_str(), &existing) == 0 && !S_ISREG(existing.st_mode)) {
    if (S_ISDIR(existing.st_mode)) fail(path, EISDIR);
    const int file = ::open(path.c_str(), O_WRONLY | O_CLOEXEC);
    if (file < 0) fail(path, errno);
    int error = 0;
    while (!bytes.empty() && error == 0) {
      const ssize_t written = ::write(file, bytes.data(), bytes.size());
      if (written >= 0)
        bytes.remove_prefix(static_cast<std::size_t>(written));
      else if (errno != EINTR)
        error = errno;
    }
    if (::close(file) != 0 && error == 0) error = errno;
    if (error != 0) fail(path, error);
    return;
  }
  Beside beside(path);
  beside.write(bytes);
  beside.finish();
}

}  // namespace winterfolio
