// A file is written whole or not at all.
#include "base/file_output.h"

#include <sys/resource.h>
#include <sys/stat.h>
#include <sys/wait.h>
#include <unistd.h>

#include <csignal>
#include <filesystem>
#include <fstream>

#include "support/catch.h"
#include "support/files.h"

namespace fs = std::filesystem;
using namespace winterfolio;

namespace {

struct Folder {
  fs::path path = fs::temp_directory_path() / ("winterfolio-output-" + std::to_string(::getpid()));
  Folder() { fs::create_directories(path); }
  ~Folder() { fs::remove_all(path); }
  std::size_t entries() const {
    return static_cast<std::size_t>(
        std::distance(fs::directory_iterator(path), fs::directory_iterator()));
  }
};

}  // namespace

TEST_CASE("A file is written, and written over, with nothing left beside it") {
  const Folder folder;
  const std::string file = (folder.path / "a.pdf").string();
  write_file_atomically(file, std::string("one\0two", 7));
  CHECK(test::read_file(file) == std::string("one\0two", 7));
  write_file_atomically(file, "three");
  CHECK(test::read_file(file) == "three");
  write_file_atomically(file, "");
  CHECK(test::read_file(file).empty());
  CHECK(folder.entries() == 1);
}

TEST_CASE("The file obeys the person's umask, and its bytes do not depend on it") {
  const Folder folder;
  const std::string file = (folder.path / "a.pdf").string();
  const mode_t before = ::umask(027);
  write_file_atomically(file, "bytes");
  ::umask(before);
  CHECK((fs::status(file).permissions() & fs::perms::mask) == static_cast<fs::perms>(0640));
  CHECK(test::read_file(file) == "bytes");
}

TEST_CASE(
    "A folder that is not there, a name below a file, a folder's own name: one clear message") {
  const Folder folder;
  const std::string missing = (folder.path / "no/such/a.pdf").string();
  try {
    write_file_atomically(missing, "x");
    FAIL("nothing was thrown");
  } catch (const WriteError& e) {
    CHECK(e.path() == missing);
    CHECK(std::string(e.what()) == "cannot write " + missing + ": No such file or directory");
    CHECK(e.mend() == "make the folder first, or correct its name");
  }
  std::ofstream(folder.path / "file") << "x";
  CHECK_THROWS_AS(write_file_atomically((folder.path / "file/a.pdf").string(), "x"), WriteError);
  CHECK_THROWS_AS(write_file_atomically(folder.path.string(), "x"), WriteError);
}

TEST_CASE("An unwritable folder leaves the old file whole") {
  if (::geteuid() == 0) {
    WARN("skipped: root may write everywhere");
    return;
  }
  const Folder folder;
  const std::string file = (folder.path / "a.pdf").string();
  write_file_atomically(file, "old");
  fs::permissions(folder.path, fs::perms::owner_read | fs::perms::owner_exec);
  CHECK_THROWS_AS(write_file_atomically(file, "new"), WriteError);
  fs::permissions(folder.path, fs::perms::owner_all);
  CHECK(test::read_file(file) == "old");
  CHECK(folder.entries() == 1);
}

TEST_CASE("A full disk is told, with its remedy") {
  if (!fs::exists("/dev/full")) {
    WARN("skipped: no /dev/full here");
    return;
  }
  try {
    write_file_atomically("/dev/full", "x");
    FAIL("nothing was thrown");
  } catch (const WriteError& e) {
    CHECK(std::string(e.what()) == "cannot write /dev/full: No space left on device");
    CHECK(e.mend().find("free some space") == 0);
  }
}

TEST_CASE("Writing that stops in the middle leaves the old file whole and nothing beside it") {
  const Folder folder;
  const std::string file = (folder.path / "a.pdf").string();
  write_file_atomically(file, "the old pages");
  // A child that may write no more than 4 KiB into a file: its write stops half way, as on a full
  // disk. It tells by its status whether that was said rightly.
  const pid_t child = ::fork();
  REQUIRE(child >= 0);
  if (child == 0) {
    const rlimit little{4096, 4096};
    std::signal(SIGXFSZ, SIG_IGN);
    if (::setrlimit(RLIMIT_FSIZE, &little) != 0) ::_exit(1);
    try {
      write_file_atomically(file, std::string(100000, 'x'));
    } catch (const WriteError& e) {
      const bool said = std::string(e.what()) == "cannot write " + file + ": File too large";
      ::_exit(said && !e.mend().empty() ? 0 : 2);
    }
    ::_exit(3);
  }
  int status = -1;
  REQUIRE(::waitpid(child, &status, 0) == child);
  REQUIRE(WIFEXITED(status));
  CHECK(WEXITSTATUS(status) == 0);
  CHECK(test::read_file(file) == "the old pages");
  CHECK(folder.entries() == 1);
}
