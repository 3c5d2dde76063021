// From an orchard file to PDF files beside it: load, find, report, lay out, write.
#include "cli/print.h"

#include <fmt/format.h>

#include <filesystem>
#include <fstream>
#include <map>
#include <set>
#include <sstream>

#include "base/embedded_files.h"
#include "base/file_output.h"
#include "cli/load.h"
#include "layout/layout.h"
#include "pdf/pdf_document.h"
#include "pdf/pdf_error.h"
#include "readers/template_reader.h"
#include "readers/words_reader.h"
#include "report/registry.h"

namespace winterfolio {
namespace {

namespace fs = std::filesystem;

constexpr std::string_view kTemplates = "templates/";

Diagnostic fault(std::string id, std::string message, std::string expected, std::string mend) {
  Diagnostic d;
  d.id = std::move(id);
  d.message = std::move(message);
  d.expected = std::move(expected);
  d.mend = std::move(mend);
  return d;
}

std::vector<std::string> built_in_reports() {
  std::vector<std::string> names;
  for (const EmbeddedFile& file : embedded_files()) {
    const std::string_view rest = file.path.starts_with(kTemplates)
                                      ? file.path.substr(kTemplates.size())
                                      : std::string_view();
    if (rest.ends_with(".yaml") && rest.find('/') == std::string_view::npos)
      names.emplace_back(rest.substr(0, rest.size() - 5));
  }
  return names;
}

/// A report by the name of a built-in template, or from a template file.
std::optional<ReportTemplate> find_template(const std::string& name_or_file,
                                            Diagnostics& diagnostics) {
  const std::vector<std::string_view> sections = section_ids();
  if (const auto bytes = find_embedded_file(fmt::format("{}{}.yaml", kTemplates, name_or_file))) {
    return read_template(name_or_file, name_or_file + ".yaml", *bytes, sections, diagnostics);
  }
  std::ifstream in(name_or_file, std::ios::binary);
  std::error_code ignored;
  if (!in || fs::is_directory(name_or_file, ignored)) {
    const std::vector<std::string> names = built_in_reports();
    std::string list;
    for (const std::string& name : names) list += (list.empty() ? "" : ", ") + name;
    diagnostics.add(fault("cli.unknown-report",
                          fmt::format("there is no report '{}'", name_or_file),
                          fmt::format("one of {}, or a template file{}", list,
                                      did_you_mean(nearest_name(name_or_file, names))),
                          "correct the name after --report"));
    return std::nullopt;
  }
  std::ostringstream bytes;
  bytes << in.rdbuf();
  return read_template(fs::path(name_or_file).stem().string(), name_or_file, bytes.str(), sections,
                       diagnostics);
}

/// What is to be written, worked out before the first byte goes to disk.
struct Printed {
  std::string path;
  std::string orchard;
  std::string bytes;
};

PageGeometry geometry_of(const PrintCommand& command, const ReportTemplate& report,
                         const Orchard& orchard) {
  if (command.paper) return *command.paper == PaperSize::letter ? letter_geometry() : a4_geometry();
  if (report.paper) return *report.paper == PaperSize::letter ? letter_geometry() : a4_geometry();
  return orchard.paper == Paper::letter ? letter_geometry() : a4_geometry();
}

std::string pdf_of(const PrintCommand& command, const ReportTemplate& report,
                   const SeasonFacts& facts, const Words& words, Diagnostics& diagnostics) {
  PdfDocument pdf(lato_fonts());
  const Style style;
  const Document document = report_document(report, facts);
  LaidOut laid_out =
      layout_document(document, geometry_of(command, report, *facts.orchard), style, pdf, words);
  for (Diagnostic& remark : laid_out.remarks) {
    if (remark.at.file.empty()) remark.at.file = facts.orchard->file;
    diagnostics.add(std::move(remark));
  }
  PdfInfo info;
  info.title = words.plain(document.title);
  info.subject = words.plain(document.subject);
  info.language = words.language();
  info.producer = "Winterfolio " WINTERFOLIO_VERSION;
  info.created = facts.today.as_of;
  return pdf.write(laid_out.pages, info);
}

/// The day spoken from and the winter, or a fault that says why there is none.
std::optional<Today> today_of(const PrintCommand& command, const LoadedOrchard& loaded,
                              Diagnostics& diagnostics) {
  auto today = stand_at(loaded.record, loaded.window, command.winter, command.as_of);
  if (today) return today;
  Diagnostic none =
      fault("print.no-readings", "no temperature reading is known, so there is no winter to print",
            "a temperature file with readings under 'temperatures:'",
            "name the logger's or the station's file there");
  none.at.file = loaded.orchard.file;
  diagnostics.add(none);
  return std::nullopt;
}

bool print_orchard(const PrintCommand& command, const std::string& file,
                   const std::vector<ReportTemplate>& reports, std::vector<Printed>& printed,
                   Diagnostics& diagnostics) {
  const auto loaded = load_orchard(file, diagnostics);
  if (!loaded) return false;
  const Words words = built_in_words(loaded->orchard.language);
  const auto today = today_of(command, *loaded, diagnostics);
  if (!today) return false;
  const SeasonFacts facts = season_facts(loaded->orchard, loaded->record, *today, loaded->files,
                                         loaded->utc_offset_minutes);
  for (const ReportTemplate& report : reports) {
    const std::string name =
        fmt::format("{}-{}-{}.pdf", loaded->orchard.id, today->winter.name(), report.name);
    printed.push_back({(fs::path(command.into) / name).string(), file,
                       pdf_of(command, report, facts, words, diagnostics)});
  }
  return true;
}

/// Two files of one name would overwrite each other: say so before anything is written.
bool names_collide(const std::vector<Printed>& printed, Diagnostics& diagnostics) {
  std::map<std::string, std::string> taken;
  bool collide = false;
  for (const Printed& one : printed) {
    const auto [before, fresh] = taken.emplace(one.path, one.orchard);
    if (fresh) continue;
    collide = true;
    diagnostics.add(fault(
        "print.same-name",
        fmt::format("{} and {} would both be printed as {}", before->second, one.orchard, one.path),
        "a name of its own for each printed file",
        "give one orchard another 'id', or print them into two folders with --into"));
  }
  return collide;
}

}  // namespace

Outcome run_print(const PrintCommand& command) {
  Outcome outcome;
  std::vector<ReportTemplate> reports;
  for (const std::string& name : command.reports) {
    if (auto report = find_template(name, outcome.diagnostics))
      reports.push_back(std::move(*report));
  }
  if (outcome.diagnostics.has_errors()) {
    outcome.status = reports.empty() && outcome.diagnostics.all().front().id == "cli.unknown-report"
                         ? kWrongCommandLine
                         : kMendInput;
    return outcome;
  }
  bool all_good = true;
  std::vector<Printed> printed;
  try {
    for (const std::string& orchard : command.orchards) {
      all_good = print_orchard(command, orchard, reports, printed, outcome.diagnostics) && all_good;
    }
    if (names_collide(printed, outcome.diagnostics)) {
      outcome.status = kWrongCommandLine;
      return outcome;
    }
    for (const Printed& one : printed) {
      write_file_atomically(one.path, one.bytes);
      outcome.out += one.path + "\n";
    }
  } catch (const WriteError& error) {
    outcome.diagnostics.add(fault("print.not-written", error.what(),
                                  "a folder and a disk that take the file", error.mend()));
    outcome.status = kCouldNotWrite;
    return outcome;
  } catch (const PdfError& error) {
    outcome.diagnostics.add(fault("print.no-pdf", error.what(), "a page that can be made",
                                  error.mend().empty() ? "report this fault" : error.mend()));
    outcome.status = kCouldNotWrite;
    return outcome;
  }
  outcome.status = all_good ? kDone : kMendInput;
  return outcome;
}

}  // namespace winterfolio
