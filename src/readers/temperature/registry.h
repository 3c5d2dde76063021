// The temperature formats, one row each. A new format is one file beside this one and one line in
// registry.cpp.
//
// Recognising looks at the head of the file only: its first 64 KiB or so, whole lines. Rows are
// asked in order and the first that is sure of itself reads the file, so narrow formats stand
// before the general table.
#pragma once

#include <optional>
#include <span>
#include <string_view>

#include "readers/temperature/temperature_file.h"

namespace winterfolio {

class LineReader;

/// What a format reads from, and where it reports.
struct ReadingJob {
  const std::string& file;  ///< as the person named it
  LineReader& lines;        ///< at the first line
  const TemperatureOptions& options;
  Diagnostics& diagnostics;
};

struct TemperatureFormat {
  std::string_view id;           ///< used by the key `format` and the option --format
  std::string_view description;  ///< printed by `reference formats`
  bool (*recognise)(std::string_view head);
  std::optional<TemperatureFile> (*read)(ReadingJob& job);
};

}  // namespace winterfolio
