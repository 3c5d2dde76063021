// Runs the built program as a person would: arguments in, output, errors and exit status out.
#pragma once

#include <sys/wait.h>

#include <cstdio>
#include <cstdlib>
#include <filesystem>
#include <string>

#include "support/files.h"

namespace winterfolio::test {

/// A folder of its own for one test, gone with it.
class ScratchFolder {
 public:
  ScratchFolder() {
    std::string pattern = (std::filesystem::temp_directory_path() / "winterfolio-XXXXXX").string();
    if (mkdtemp(pattern.data()) == nullptr) throw std::runtime_error("no scratch folder");
    path_ = pattern;
  }
  ~ScratchFolder() { std::filesystem::remove_all(path_); }
  ScratchFolder(const ScratchFolder&) = delete;
  ScratchFolder& operator=(const ScratchFolder&) = delete;
  const std::string& path() const { return path_; }
  std::string write(const std::string& name, const std::string& bytes) const {
    const std::string path = path_ + "/" + name;
    std::ofstream(path, std::ios::binary) << bytes;
    return path;
  }

 private:
  std::string path_;
};

struct ProgramRun {
  std::string out;
  std::string err;
  int status = -1;  ///< -1 where it did not end by itself
};

/// `arguments` is put into a shell line as it is; `folder` is where the program runs; `before`
/// stands before its name (environment settings).
inline ProgramRun run_program(const std::string& arguments, const std::string& folder = ".",
                              const std::string& before = "") {
  const ScratchFolder scratch;
  const std::string line = "cd '" + folder + "' && " + before + " '" WINTERFOLIO_PROGRAM "' " +
                           arguments + " >'" + scratch.path() + "/out' 2>'" + scratch.path() +
                           "/err'";
  const int result = std::system(line.c_str());
  return {read_file(scratch.path() + "/out"), read_file(scratch.path() + "/err"),
          WIFEXITED(result) ? WEXITSTATUS(result) : -1};
}

}  // namespace winterfolio::test
