// Reads the records beside an orchard file: one line a thing seen, appended over the years.
//
//   on,tree,what,amount,note
//   2017-02-28,W6,first bloom,,
//   2026-08-14,S5,harvest,12 kg,
#pragma once

#include <string>
#include <string_view>

#include "base/diagnostic.h"
#include "orchard/orchard.h"
#include "readers/orchard/orchard_reader.h"

namespace winterfolio {

inline constexpr std::size_t kMostRecordBytes = std::size_t{16} << 20;

/// Adds the records in `bytes` to the trees of `orchard`. `file` names the records in messages.
/// Every faulty line has its fault and adds nothing.
void read_records(const std::string& file, std::string_view bytes, Diagnostics& diagnostics,
                  const OrchardReadOptions& options, Orchard& orchard);

}  // namespace winterfolio
