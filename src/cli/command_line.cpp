// Reads the command line. The only file that includes the option parser, which is slow to compile.
#include "cli/command_line.h"

#include <fmt/format.h>

#include <CLI/CLI.hpp>
#include <array>
#include <span>
#include <string_view>

#include "base/csv_table.h"
#include "base/diagnostic.h"

namespace winterfolio {
namespace {

constexpr std::string_view kVersion = "winterfolio " WINTERFOLIO_VERSION "\n";
constexpr std::string_view kPurpose =
    "Prints the winter of a small fruit orchard: how much cold, which trees, what to do.";
constexpr std::string_view kExitStatus =
    "Exit status: 0 done, 1 an input must be mended, 2 wrong command line, 3 a fault of the "
    "program, "
    "4 could not write.";

/// A value out of a short list of words.
struct Choice {
  std::string_view word;
  OutputAs as;
};

/// The first of the choices is the one taken where none is named.
void add_as(CLI::App& command, OutputAs& as, std::vector<Choice> choices) {
  as = choices.front().as;
  std::string words;
  for (const Choice& choice : choices)
    words += (words.empty() ? "" : "|") + std::string(choice.word);
  command
      .add_option_function<std::string>(
          "--as",
          [&as, choices](const std::string& given) {
            for (const Choice& choice : choices) {
              if (choice.word == given) as = choice.as;
            }
          },
          fmt::format("how the result is written, {} if not given", choices.front().word))
      ->option_text(words)
      ->check(CLI::Validator(
          [choices, words](std::string& given) {
            for (const Choice& choice : choices) {
              if (choice.word == given) return std::string();
            }
            return fmt::format("'{}' is not one of {}", given, words);
          },
          ""));
}

void add_month_day(CLI::App& command, const std::string& name, std::optional<MonthDay>& day,
                   const std::string& what) {
  command
      .add_option_function<std::string>(
          name, [&day](const std::string& given) { day = parse_month_day(given); }, what)
      ->option_text("MM-DD")
      ->check(CLI::Validator(
          [](std::string& given) {
            return parse_month_day(given)
                       ? std::string()
                       : fmt::format("'{}' is no day of the year; write it MM-DD, as 11-01", given);
          },
          ""));
}

void add_as_of(CLI::App& command, std::optional<Date>& as_of) {
  command
      .add_option_function<std::string>(
          "--as-of", [&as_of](const std::string& given) { as_of = parse_date(given); },
          "the day to speak from, the last reading's if not given")
      ->option_text("DATE")
      ->check(CLI::Validator(
          [](std::string& given) {
            return parse_date(given)
                       ? std::string()
                       : fmt::format("'{}' is no date; write it as 2027-01-31", given);
          },
          ""));
}

void add_winter(CLI::App& command, std::optional<int>& winter) {
  command
      .add_option_function<std::string>(
          "--winter", [&winter](const std::string& given) { winter = parse_integer(given); },
          "the year in which the winter begins, the latest if not given")
      ->option_text("YEAR")
      ->check(CLI::Validator(
          [](std::string& given) {
            const auto year = parse_integer(given);
            return given.size() == 4 && year && *year >= 1800
                       ? std::string()
                       : fmt::format(
                             "'{}' is no year; write the one in which the winter begins, as 2026",
                             given);
          },
          ""));
}

void add_paper(CLI::App& command, std::optional<PaperSize>& paper) {
  command
      .add_option_function<std::string>(
          "--paper",
          [&paper](const std::string& given) {
            paper = given == "a4" ? PaperSize::a4 : PaperSize::letter;
          },
          "the paper, as the report or the orchard has it if not given")
      ->option_text("a4|letter")
      ->check(CLI::Validator(
          [](std::string& given) {
            return given == "a4" || given == "letter"
                       ? std::string()
                       : fmt::format("'{}' is not one of a4|letter", given);
          },
          ""));
}

void add_latitude(CLI::App& command, std::optional<double>& latitude) {
  command
      .add_option_function<std::string>(
          "--latitude", [&latitude](const std::string& given) { latitude = parse_number(given); },
          "where the thermometer stood, south negative; daily files need it")
      ->option_text("DEG")
      ->check(CLI::Validator(
          [](std::string& given) {
            const auto degrees = parse_number(given);
            return degrees && *degrees >= -90.0 && *degrees <= 90.0
                       ? std::string()
                       : fmt::format("'{}' is no latitude; write degrees from -90 to 90, as 38.75",
                                     given);
          },
          ""));
}

void add_key(CLI::App& command, const std::string& name, std::string& value,
             const std::string& form, const std::string& what) {
  command.add_option(name, value, what)->option_text(form);
}

void add_reading_keys(CLI::App& command, ReadingKeys& keys) {
  add_key(command, "--unit", keys.unit, "F|C|K",
          "unit of the readings, where the file does not say");
  add_key(command, "--clock", keys.clock, "standard|civil|utc", "the clock of the stamps");
  add_key(command, "--time-zone", keys.time_zone, "ZONE",
          "IANA name, as Europe/Dublin; civil clocks need it");
  add_key(command, "--utc-offset", keys.utc_offset, "+HH:MM",
          "standard time against UTC, where no zone tells");
  command
      .add_option("--columns", keys.columns,
                  "where the columns are, as time=1 temperature=Temp; may be repeated")
      ->option_text("ROLE=NAME ...")
      ->expected(1)
      ->take_all();
  add_key(command, "--date-order", keys.date_order, "ymd|dmy|mdy",
          "order of the date, where the file cannot tell");
  add_key(command, "--decimal", keys.decimal, "point|comma",
          "decimal mark, where the file cannot tell");
  add_key(command, "--station", keys.station, "ID", "which station, where a file holds several");
  add_key(command, "--hour-stamp", keys.hour_stamp, "begins|ends",
          "which end of the hour a stamp names");
  add_key(command, "--format", keys.format, "NAME",
          "a name of 'winterfolio reference formats'; recognised if not given");
}

/// The words a person could have meant in place of one that is not known.
std::vector<std::string> known_words(const CLI::App& command, bool options) {
  std::vector<std::string> words;
  if (options) {
    for (const CLI::Option* option : command.get_options()) {
      for (const std::string& name : option->get_lnames()) words.push_back("--" + name);
    }
  } else {
    for (const CLI::App* sub : command.get_subcommands(nullptr)) words.push_back(sub->get_name());
  }
  return words;
}

TextOnly wrong(const std::string& message, const std::string& command) {
  const std::string help =
      command.empty() ? "winterfolio --help" : fmt::format("winterfolio {} --help", command);
  return {2, fmt::format("winterfolio: {}\n  see '{}'\n", message, help)};
}

std::string unexpected(const std::vector<std::string>& extras, const CLI::App& command) {
  for (const std::string& extra : extras) {
    const bool option = extra.starts_with("-");
    const std::string nearest =
        nearest_name(extra.substr(0, extra.find('=')), known_words(command, option));
    if (option || !nearest.empty()) {
      return fmt::format("unknown {} '{}'{}", option ? "option" : "command", extra,
                         did_you_mean(nearest));
    }
  }
  return fmt::format("'{}' was not expected", extras.empty() ? "" : extras.front());
}

/// The first word must be a command; the parser's own message for a misspelt one says nothing.
std::optional<TextOnly> missing_command(const CLI::App& app, int argc, const char* const* argv) {
  if (argc < 2) return TextOnly{2, app.help()};
  const std::string first = argv[1];
  if (first.starts_with("-")) return std::nullopt;
  const std::vector<std::string> commands = known_words(app, false);
  for (const std::string& command : commands) {
    if (command == first) return std::nullopt;
  }
  return wrong(
      fmt::format("unknown command '{}'{}", first, did_you_mean(nearest_name(first, commands))),
      "");
}

}  // namespace

CommandLine read_command_line(int argc, const char* const* argv) {
  CLI::App app{std::string(kPurpose), "winterfolio"};
  app.footer(std::string(kExitStatus));
  app.set_help_flag("-h,--help", "this text");
  bool version = false;
  app.add_flag("--version", version, "the version");
  app.require_subcommand(0, 1);

  PrintCommand print;
  CLI::App* print_app = app.add_subcommand("print", "an orchard's reports as PDF files");
  print_app->add_option("ORCHARD", print.orchards, "orchard files (YAML)")
      ->required()
      ->option_text("...");
  print_app
      ->add_option("--report", print.reports,
                   "a report's name or a template file; season if not given; may be repeated")
      ->option_text("NAME_OR_FILE")
      ->expected(1)
      ->take_all();
  print_app->add_option("--into", print.into, "the folder to print into, this one if not given")
      ->option_text("DIR");
  add_as_of(*print_app, print.as_of);
  add_winter(*print_app, print.winter);
  add_paper(*print_app, print.paper);

  CheckCommand check;
  CLI::App* check_app = app.add_subcommand(
      "check", "every fault and doubt in the inputs, and how much data there is");
  check_app->add_option("ORCHARD", check.orchards, "orchard files (YAML)")
      ->required()
      ->option_text("...");
  add_as(*check_app, check.as, {{"text", OutputAs::text}, {"json", OutputAs::json}});

  TallyCommand tally;
  CLI::App* tally_app = app.add_subcommand(
      "tally", "chill of each winter in bare temperature files, by every measure; no orchard");
  tally_app->add_option("FILE", tally.files, "temperature files; - is standard input")
      ->required()
      ->option_text("...");
  tally_app->add_flag("--together", tally.together,
                      "join the files to one series; the first named wins");
  add_month_day(*tally_app, "--from", tally.from,
                "first day of the winter, 11-01 if not given (south: 05-01)");
  add_month_day(*tally_app, "--to", tally.to,
                "last day of the winter, 02-29 if not given (south: 08-31)");
  add_latitude(*tally_app, tally.latitude);
  add_as(*tally_app, tally.as,
         {{"text", OutputAs::text}, {"json", OutputAs::json}, {"csv", OutputAs::csv}});
  add_reading_keys(*tally_app, tally.keys);

  FiguresCommand figures;
  CLI::App* figures_app = app.add_subcommand(
      "figures", "every number behind an orchard's pages, with its key and unit");
  figures_app->add_option("ORCHARD", figures.orchard, "an orchard file (YAML)")
      ->required()
      ->option_text(" ");
  add_as(*figures_app, figures.as, {{"json", OutputAs::json}, {"csv", OutputAs::csv}});
  add_as_of(*figures_app, figures.as_of);
  add_winter(*figures_app, figures.winter);
  figures_app->add_flag("--hourly", figures.hourly,
                        "also every hour's temperature and the running total of every measure");

  ReferenceCommand reference;
  CLI::App* reference_app = app.add_subcommand(
      "reference", "the built-in tables, each row with its source; without a name, their list");
  reference_app->add_option("TABLE", reference.table, "a table's name")->option_text(" ");
  reference_app->add_option("WORD", reference.word, "only rows that hold this word")
      ->option_text(" ");
  add_as(*reference_app, reference.as, {{"text", OutputAs::text}, {"csv", OutputAs::csv}});

  if (const auto fault = missing_command(app, argc, argv)) return *fault;
  std::string name;
  try {
    app.parse(argc, argv);
  } catch (const CLI::CallForHelp&) {
    return TextOnly{0, app.help()};
  } catch (const CLI::ExtrasError&) {
    const auto chosen = app.get_subcommands();
    const CLI::App& command = chosen.empty() ? app : *chosen.front();
    return wrong(unexpected(app.remaining(true), command),
                 chosen.empty() ? "" : command.get_name());
  } catch (const CLI::ArgumentMismatch& fault) {
    // The parser's own words, "--into: 1 required TEXT missing", say little beyond the name.
    const std::string said = fault.what();
    const auto chosen = app.get_subcommands();
    const bool again = said.find("At Most") != std::string::npos;
    return wrong(fmt::format("{} {}", said.substr(0, said.find(':')),
                             again ? "is given more than once" : "stands without its value"),
                 chosen.empty() ? "" : chosen.front()->get_name());
  } catch (const CLI::ParseError& fault) {
    const auto chosen = app.get_subcommands();
    return wrong(fault.what(), chosen.empty() ? "" : chosen.front()->get_name());
  }
  if (version) return TextOnly{0, std::string(kVersion)};
  if (print_app->parsed()) return print;
  if (check_app->parsed()) return check;
  if (tally_app->parsed()) return tally;
  if (figures_app->parsed()) return figures;
  if (reference_app->parsed()) return reference;
  return TextOnly{2, app.help()};
}

}  // namespace winterfolio
