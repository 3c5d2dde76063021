// From an orchard file to PDF files beside it: load, find, report, lay out, write.
#include "cli/print.h"

#include <fmt/format.h>

#include <algorithm>
#include <filesystem>
#include <fstream>
#include <map>

#include "base/embedded_files.h"
#include "base/file_output.h"
#include "cli/load.h"
#include "cli/standing_day.h"
#include "layout/layout.h"
#include "pdf/pdf_document.h"
#include "pdf/pdf_error.h"
#include "readers/template_reader.h"
#include "readers/words_reader.h"
#include "readers/yaml_document.h"
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

/// The bytes of a template file; nothing if there is none. One byte more than a template may have
/// is enough to say that it is too large, whatever stands behind the name.
std::optional<std::string> template_bytes(const std::string& file) {
  std::error_code ignored;
  std::ifstream in(file, std::ios::binary);
  if (!in || fs::is_directory(file, ignored)) return std::nullopt;
  std::string bytes(kMostYamlBytes + 1, '\0');
  in.read(bytes.data(), static_cast<std::streamsize>(bytes.size()));
  bytes.resize(static_cast<std::size_t>(in.gcount()));
  return bytes;
}

Diagnostic unknown_report(const std::string& name_or_file, const std::vector<std::string>& names) {
  const bool file = name_or_file.ends_with(".yaml") || name_or_file.ends_with(".yml") ||
                    name_or_file.find('/') != std::string::npos;
  std::string known;
  for (const std::string& name : names) known += (known.empty() ? "" : ", ") + name;
  return fault("cli.unknown-report",
               fmt::format("there is no {} '{}'", file ? "template file" : "report", name_or_file),
               fmt::format("the name of a report ({}) or a template file{}", known,
                           did_you_mean(nearest_name(name_or_file, names))),
               "correct the name after --report");
}

/// A report by the name of a built-in template, or from a template file.
std::optional<ReportTemplate> find_template(const std::string& name_or_file,
                                            Diagnostics& diagnostics) {
  const std::vector<std::string_view> sections = section_ids();
  const std::vector<std::string> names = built_in_reports();
  if (std::find(names.begin(), names.end(), name_or_file) != names.end()) {
    const auto bytes = find_embedded_file(fmt::format("{}{}.yaml", kTemplates, name_or_file));
    return read_template(name_or_file, name_or_file + ".yaml", bytes.value(), sections,
                         diagnostics);
  }
  if (const auto bytes = template_bytes(name_or_file)) {
    return read_template(fs::path(name_or_file).stem().string(), name_or_file, *bytes, sections,
                         diagnostics);
  }
  diagnostics.add(unknown_report(name_or_file, names));
  return std::nullopt;
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

bool print_orchard(const PrintCommand& command, const std::string& file,
                   const std::vector<ReportTemplate>& reports, std::vector<Printed>& printed,
                   Diagnostics& diagnostics) {
  const auto loaded = load_orchard(file, diagnostics);
  if (!loaded) return false;
  const Words words = built_in_words(loaded->orchard.language);
  const auto today = today_of(*loaded, command.winter, command.as_of, diagnostics);
  if (!today) return false;
  const SeasonFacts facts = season_facts(loaded->orchard, loaded->record, *today, loaded->files,
                                         loaded->utc_offset_minutes, loaded->places);
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
    const bool same = before->second == one.orchard;
    diagnostics.add(fault(
        "print.same-name",
        same ? fmt::format("{} would be printed twice as {}", one.orchard, one.path)
             : fmt::format("{} and {} would both be printed as {}", before->second, one.orchard,
                           one.path),
        "a name of its own for each printed file",
        same
            ? "name each orchard and each report once; a template file's report is named after the "
              "file"
            : "give one orchard another 'id', or print each into a folder of its own with --into"));
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
    const auto all = outcome.diagnostics.all();
    const bool misspelt = std::any_of(all.begin(), all.end(), [](const Diagnostic& one) {
      return one.id == "cli.unknown-report";
    });
    outcome.status = misspelt ? kWrongCommandLine : kMendInput;
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
                                  "a folder that can be written into, with room on its disk",
                                  error.mend()));
    outcome.status = kCouldNotWrite;
    return outcome;
  } catch (const PdfError& error) {
    outcome.diagnostics.add(
        fault("print.no-pdf", error.what(), "pages that can be drawn",
              error.mend().empty() ? "report this fault of the program" : error.mend()));
    outcome.status = kCouldNotWrite;
    return outcome;
  }
  outcome.status = all_good ? kDone : kMendInput;
  return outcome;
}

}  // namespace winterfolio
