// What a person may type, as values: the command line read and checked, nothing done yet.
#pragma once

#include <optional>
#include <string>
#include <variant>
#include <vector>

#include "base/dates.h"
#include "document/template.h"

namespace winterfolio {

enum class OutputAs { text, json, csv };

struct CheckCommand {
  std::vector<std::string> orchards;
  OutputAs as = OutputAs::text;
};

/// How bare temperature files are to be read: the orchard file's keys, as written on the command
/// line.
struct ReadingKeys {
  std::string format;
  std::string unit;
  std::string clock;
  std::string time_zone;
  std::string utc_offset;
  std::vector<std::string> columns;  ///< "role=name"
  std::string date_order;
  std::string decimal;
  std::string station;
  std::string hour_stamp;
};

struct TallyCommand {
  std::vector<std::string> files;
  bool together = false;
  std::optional<MonthDay> from;
  std::optional<MonthDay> to;
  std::optional<double> latitude;
  OutputAs as = OutputAs::text;
  ReadingKeys keys;
};

struct PrintCommand {
  std::vector<std::string> orchards;
  std::vector<std::string> reports = {"season"};
  std::string into = ".";
  std::optional<Date> as_of;
  std::optional<int> winter;  ///< the year in which it begins
  std::optional<PaperSize> paper;
};

struct FiguresCommand {
  std::string orchard;
  OutputAs as = OutputAs::json;
  std::optional<Date> as_of;
  std::optional<int> winter;  ///< the year in which it begins
  bool hourly = false;
};

struct ReferenceCommand {
  std::string table;
  std::string word;
  OutputAs as = OutputAs::text;
};

/// A command line that asks for nothing but a text: help, the version, or a fault in what was
/// typed.
struct TextOnly {
  int status = 0;  ///< 0 goes to stdout, 2 to stderr
  std::string text;
};

using CommandLine = std::variant<TextOnly, PrintCommand, CheckCommand, TallyCommand, FiguresCommand,
                                 ReferenceCommand>;

CommandLine read_command_line(int argc, const char* const* argv);

}  // namespace winterfolio
