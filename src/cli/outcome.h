// What a command leaves behind: text for standard output, faults for standard error, and the exit
// status.
#pragma once

#include <string>

#include "base/diagnostic.h"

namespace winterfolio {

constexpr int kDone = 0;
constexpr int kMendInput = 1;
constexpr int kWrongCommandLine = 2;
constexpr int kProgramFault = 3;
constexpr int kCouldNotWrite = 4;

struct Outcome {
  std::string out;
  Diagnostics diagnostics;
  int status = kDone;
};

}  // namespace winterfolio
