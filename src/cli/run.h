// The whole program from the command line to the exit status.
#pragma once

namespace winterfolio {

/// 0 done, 1 an input must be mended, 2 wrong command line, 3 a fault of the program, 4 could not
/// write.
int run(int argc, char** argv);

}  // namespace winterfolio
