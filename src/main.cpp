// Hands the command line to cli/ and returns its exit status.
#include "cli/run.h"

int main(int argc, char** argv) { return winterfolio::run(argc, argv); }
