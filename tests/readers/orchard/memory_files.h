// Files that stand beside an orchard file in memory, so that its reader is tested without a disk.
#pragma once

#include <map>
#include <optional>
#include <string>
#include <vector>

#include "readers/orchard/orchard_reader.h"

namespace winterfolio::test {

class MemoryFiles : public FilesBeside {
 public:
  explicit MemoryFiles(std::map<std::string, std::string> files) : files_(std::move(files)) {}

  bool is_file(const std::string& path) const override { return files_.count(path) > 0; }

  std::vector<std::string> names_in(const std::string& folder) const override {
    std::vector<std::string> names;
    const std::string begin = folder.empty() ? "" : folder + "/";
    for (const auto& [path, bytes] : files_) {
      if (path.starts_with(begin)) names.push_back(path.substr(begin.size()));
    }
    return names;
  }

  std::optional<std::string> bytes_of(const std::string& path, std::size_t most) const override {
    const auto found = files_.find(path);
    if (found == files_.end()) return std::nullopt;
    return found->second.substr(0, most + 1);
  }

 private:
  std::map<std::string, std::string> files_;
};

}  // namespace winterfolio::test
