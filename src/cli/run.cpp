// Runs the command that was asked for and prints what it leaves behind: results to standard output,
// the rest to standard error.
#include "cli/run.h"

#include <fmt/format.h>
#include <unistd.h>

#include <cstdio>
#include <cstdlib>
#include <exception>
#include <string>

#include "cli/check.h"
#include "cli/command_line.h"
#include "cli/figures.h"
#include "cli/outcome.h"
#include "cli/print.h"
#include "cli/reference.h"
#include "cli/tally.h"

namespace winterfolio {
namespace {

bool colour_wanted() {
  const char* no_colour = std::getenv("NO_COLOR");
  return isatty(STDERR_FILENO) == 1 && (no_colour == nullptr || *no_colour == '\0');
}

/// Puts the severity of the first line in bold; the words stay the same.
std::string coloured(std::string text, Severity severity) {
  const std::string word = severity == Severity::error     ? "error:"
                           : severity == Severity::warning ? "warning:"
                                                           : "note:";
  const std::size_t at = text.find(word);
  if (at == std::string::npos) return text;
  return text.replace(at, word.size(), "\x1b[1m" + word + "\x1b[0m");
}

void print_diagnostics(const Diagnostics& diagnostics) {
  const bool colour = colour_wanted();
  for (const Diagnostic& diagnostic : diagnostics.all()) {
    std::string text = to_text(diagnostic);
    if (colour) text = coloured(std::move(text), diagnostic.severity);
    std::fwrite(text.data(), 1, text.size(), stderr);
  }
}

/// Whether all of it went out; a full disk behind a redirection shows only when flushed.
bool print_result(const std::string& text) {
  const bool written = std::fwrite(text.data(), 1, text.size(), stdout) == text.size();
  return std::fflush(stdout) == 0 && written;
}

struct Runner {
  Outcome operator()(const TextOnly& only) const {
    Outcome outcome;
    outcome.status = only.status;
    if (only.status == kDone) {
      outcome.out = only.text;
    } else {
      std::fwrite(only.text.data(), 1, only.text.size(), stderr);
    }
    return outcome;
  }
  Outcome operator()(const PrintCommand& command) const { return run_print(command); }
  Outcome operator()(const CheckCommand& command) const { return run_check(command); }
  Outcome operator()(const TallyCommand& command) const { return run_tally(command); }
  Outcome operator()(const FiguresCommand& command) const { return run_figures(command); }
  Outcome operator()(const ReferenceCommand& command) const { return run_reference(command); }
};

}  // namespace

int run(int argc, char** argv) {
  try {
    const Outcome outcome = std::visit(Runner{}, read_command_line(argc, argv));
    print_diagnostics(outcome.diagnostics);
    if (!print_result(outcome.out)) {
      std::fputs("winterfolio: could not write to standard output\n", stderr);
      return kCouldNotWrite;
    }
    return outcome.status;
  } catch (const std::exception& fault) {
    std::string line = "winterfolio";
    for (int i = 1; i < argc; ++i) line += fmt::format(" {}", argv[i]);
    std::fputs(
        fmt::format(
            "winterfolio: a fault of the program, not of your files: {}\n  while running: {}\n",
            fault.what(), line)
            .c_str(),
        stderr);
    return kProgramFault;
  }
}

}  // namespace winterfolio
