// From the bytes of an orchard file to an orchard: the YAML, then its keys, then what they say of
// one another, then the records.
#include "readers/orchard/orchard_reader.h"

#include <fmt/format.h>

#include <algorithm>
#include <filesystem>
#include <fstream>

#include "readers/orchard/checks.h"
#include "readers/orchard/keys.h"
#include "readers/orchard/reading.h"
#include "readers/orchard/records_reader.h"
#include "readers/yaml_document.h"

namespace winterfolio {
namespace {

constexpr std::size_t kMostFaults = 200;

/// The bytes of a file, at most `most` and one more; nothing if it is a folder or cannot be read.
std::optional<std::string> bytes_of_file(const std::string& path, std::size_t most) {
  std::error_code no_matter;
  if (std::filesystem::is_directory(path, no_matter)) return std::nullopt;
  std::ifstream in(path, std::ios::binary);
  if (!in) return std::nullopt;
  std::string bytes(most + 1, '\0');
  in.read(bytes.data(), static_cast<std::streamsize>(bytes.size()));
  if (in.bad()) return std::nullopt;
  bytes.resize(static_cast<std::size_t>(in.gcount()));
  return bytes;
}

/// The files of a folder on the disk.
class FilesOnDisk : public FilesBeside {
 public:
  explicit FilesOnDisk(std::string folder) : folder_(std::move(folder)) {}

  bool is_file(const std::string& path) const override {
    std::error_code no_matter;
    const auto status = std::filesystem::status(below(path), no_matter);
    return std::filesystem::exists(status) && !std::filesystem::is_directory(status);
  }

  std::vector<std::string> names_in(const std::string& folder) const override {
    std::vector<std::string> names;
    std::error_code error;
    std::filesystem::directory_iterator entry(below(folder), error);
    for (const std::filesystem::directory_iterator end; !error && entry != end;
         entry.increment(error)) {
      names.push_back(entry->path().filename().string());
    }
    std::sort(names.begin(), names.end());
    return names;
  }

  std::optional<std::string> bytes_of(const std::string& path, std::size_t most) const override {
    return bytes_of_file(below(path), most);
  }

 private:
  std::string below(const std::string& path) const {
    return path.empty() ? folder_ : (std::filesystem::path(folder_) / path).string();
  }

  std::string folder_;
};

std::string folder_of(const std::string& path) {
  const std::string folder = std::filesystem::path(path).parent_path().string();
  return folder.empty() ? "." : folder;
}

Diagnostic whole_file(const std::string& file, Diagnostic fault) {
  fault.at = {file, 0, 0};
  return fault;
}

Diagnostic cannot_read(const std::string& path) {
  std::error_code no_matter;
  if (std::filesystem::is_directory(path, no_matter)) {
    return whole_file(
        path, make_error("orchard.cannot-read", "this is a folder", "an orchard file",
                         fmt::format("name the file in it, such as {}",
                                     (std::filesystem::path(path) / "orchard.yaml").string())));
  }
  if (!std::filesystem::exists(path, no_matter)) {
    const FilesOnDisk beside(folder_of(path));
    const std::string nearest =
        nearest_word(std::filesystem::path(path).filename().string(), beside.names_in(""));
    return whole_file(path, make_error("orchard.cannot-read", "there is no such file",
                                       "an orchard file" + did_you_mean(nearest),
                                       "correct the name, or the folder before it"));
  }
  return whole_file(path, make_error("orchard.cannot-read", "the file cannot be read",
                                     "a file that may be read", "look who may read the file"));
}

/// Hands the faults on in the order of the file, at most 200 of them.
void hand_on(const std::string& file, const Diagnostics& found, Diagnostics& diagnostics) {
  std::vector<Diagnostic> sorted(found.all().begin(), found.all().end());
  std::stable_sort(sorted.begin(), sorted.end(), [](const Diagnostic& a, const Diagnostic& b) {
    return std::pair(a.at.line, a.at.column) < std::pair(b.at.line, b.at.column);
  });
  const std::size_t told = std::min(sorted.size(), kMostFaults);
  bool all_errors_told = true;
  for (std::size_t i = 0; i < sorted.size(); ++i) {
    if (i < told) {
      diagnostics.add(std::move(sorted[i]));
    } else {
      all_errors_told = all_errors_told && sorted[i].severity != Severity::error;
    }
  }
  if (told == sorted.size()) return;
  const std::size_t left = sorted.size() - told;
  Diagnostic more =
      make_fault(all_errors_told ? Severity::warning : Severity::error, "orchard.more-faults",
                 fmt::format("{} more {} not listed", left, left == 1 ? "fault is" : "faults are"),
                 fmt::format("at most {} faults", kMostFaults), "mend those above first");
  diagnostics.add(whole_file(file, std::move(more)));
}

/// Reads the records beside the orchard file, if it names some.
void read_records_beside(const OrchardReadOptions& options, const FilesBeside& files,
                         Diagnostics& diagnostics, Orchard& orchard) {
  if (!orchard.records_file) return;
  const std::string path = path_beside(orchard, *orchard.records_file);
  const auto bytes = files.bytes_of(*orchard.records_file, kMostRecordBytes);
  if (!bytes || bytes->size() > kMostRecordBytes) {
    diagnostics.add(whole_file(
        path, make_error("records.cannot-read",
                         bytes ? "the records have more than 16 MiB" : "the records cannot be read",
                         "a CSV file that may be read, of at most 16 MiB",
                         "look whether 'records:' names the right file")));
    return;
  }
  Diagnostics found;
  read_records(path, *bytes, found, options, orchard);
  hand_on(path, found, diagnostics);
}

void sort_observed(Orchard& orchard) {
  for (Tree& tree : orchard.trees) {
    std::stable_sort(tree.observed.begin(), tree.observed.end(),
                     [](const Observation& a, const Observation& b) {
                       return a.on.earliest() < b.on.earliest();
                     });
  }
}

}  // namespace

std::optional<Orchard> read_orchard_bytes(const std::string& path, std::string_view bytes,
                                          Diagnostics& diagnostics,
                                          const OrchardReadOptions& options,
                                          const FilesBeside* files) {
  const int errors_before = diagnostics.errors();
  Diagnostics found;
  const auto document = read_yaml(path, bytes, found);
  if (!document) {
    hand_on(path, found, diagnostics);
    return std::nullopt;
  }
  Reading reading(document->source, found, options, files);
  Draft draft = read_keys(reading, document->root);
  draft.orchard.file = path;
  draft.orchard.folder = folder_of(path);
  check_draft(reading, draft);
  if (!found.has_errors()) reading.tell_unused_keys();
  hand_on(path, found, diagnostics);
  if (files != nullptr) read_records_beside(options, *files, diagnostics, draft.orchard);
  sort_observed(draft.orchard);
  if (diagnostics.errors() > errors_before) return std::nullopt;
  return std::move(draft.orchard);
}

std::optional<Orchard> read_orchard(const std::string& path, Diagnostics& diagnostics,
                                    const OrchardReadOptions& options) {
  const auto bytes = bytes_of_file(path, kMostYamlBytes);
  if (!bytes) {
    diagnostics.add(cannot_read(path));
    return std::nullopt;
  }
  const FilesOnDisk files(folder_of(path));
  return read_orchard_bytes(path, *bytes, diagnostics, options, &files);
}

}  // namespace winterfolio
