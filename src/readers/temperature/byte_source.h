// The bytes of a temperature file, from wherever they come: a regular file, a pipe, standard input;
// compressed or not.
#pragma once

#include <cstddef>
#include <cstdint>
#include <memory>
#include <optional>
#include <string>

#include "base/diagnostic.h"

namespace winterfolio {

/// Reads forward only, once. Owns the descriptor (not that of standard input).
class ByteSource {
 public:
  /// Opens `path` ("-": standard input). A fault is reported and nothing returned.
  static std::unique_ptr<ByteSource> open(const std::string& path, Diagnostics& diagnostics);
  /// Bytes already in memory, for tests and for the fuzzer.
  static std::unique_ptr<ByteSource> of_bytes(std::string name, std::string bytes);

  virtual ~ByteSource() = default;
  /// Up to `room` bytes; 0 at the end, and after a fault.
  virtual std::size_t read(char* into, std::size_t room) = 0;
  /// Once the end is reached: reports a fault that came on the way, or a file that changed
  /// meanwhile. False where what was read cannot be trusted.
  virtual bool finish(Diagnostics& diagnostics) = 0;
};

/// Wraps a source so that gzip-compressed and UTF-16 content comes out as plain bytes; looks at its
/// first bytes only. Others pass unchanged.
std::unique_ptr<ByteSource> plain_bytes(std::unique_ptr<ByteSource> source,
                                        const std::string& name);

}  // namespace winterfolio
