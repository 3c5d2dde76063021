// Checks a template as strictly as an orchard file.
#include "readers/template_reader.h"

#include <fmt/format.h>

#include <algorithm>
#include <vector>

#include "base/csv_table.h"
#include "readers/yaml_document.h"

namespace winterfolio {
namespace {

constexpr std::string_view kTemplateKeys[] = {"paper", "sections"};
constexpr std::string_view kSectionKeys[] = {"section", "new page", "pages"};
constexpr int kMostPages = 200;

class Reading {
 public:
  Reading(const YamlDocument& document, std::span<const std::string_view> sections,
          Diagnostics& diagnostics)
      : document_(document), sections_(sections), diagnostics_(diagnostics) {}

  ReportTemplate read(std::string name) {
    ReportTemplate report;
    report.name = std::move(name);
    const YamlNode& root = document_.root;
    if (root.kind != YamlKind::map) {
      fault(root.at, make_error("template.no-map", "a template is a map of keys",
                                "the key 'sections' with a list",
                                "begin with 'sections:' and one '- name' a line below it"));
      return report;
    }
    check_keys(root, kTemplateKeys, "template.unknown-key");
    if (const YamlNode* paper = root.find("paper")) report.paper = paper_of(*paper);
    read_sections(root, report);
    return report;
  }

 private:
  void fault(SourceSpan at, Diagnostic what) {
    diagnostics_.add(document_.source.fault(at, std::move(what)));
  }

  void check_keys(const YamlNode& map, std::span<const std::string_view> known, const char* id) {
    for (const YamlEntry& entry : map.entries) {
      if (std::find(known.begin(), known.end(), entry.key) != known.end()) continue;
      fault(entry.key_at,
            make_error(id, fmt::format("unknown key '{}'", entry.key),
                       "one of " + joined(known) + did_you_mean(nearest_name(entry.key, known)),
                       "correct the key or take the line out"));
    }
  }

  static std::string joined(std::span<const std::string_view> words) {
    std::string text;
    for (const std::string_view word : words)
      text += (text.empty() ? "" : ", ") + std::string(word);
    return text;
  }

  std::optional<PaperSize> paper_of(const YamlNode& node) {
    if (node.text == "a4") return PaperSize::a4;
    if (node.text == "letter") return PaperSize::letter;
    if (node.kind != YamlKind::faulty) {
      fault(
          node.at,
          make_error("template.paper", fmt::format("'{}' is no paper", node.text), "a4 or letter",
                     "write 'paper: a4', or take the line out: then the orchard's paper is used"));
    }
    return std::nullopt;
  }

  void read_sections(const YamlNode& root, ReportTemplate& report) {
    const YamlNode* list = root.find("sections");
    if (list == nullptr || list->kind != YamlKind::list || list->items.empty()) {
      if (list != nullptr && list->kind == YamlKind::faulty) return;
      fault(list ? list->at : root.at,
            make_error("template.no-sections", "the template names no sections",
                       "a list of sections: " + joined(sections_),
                       "add 'sections:' with one '- name' a line"));
      return;
    }
    for (const YamlNode& item : list->items) read_section(item, report);
  }

  void read_section(const YamlNode& item, ReportTemplate& report) {
    if (item.kind == YamlKind::faulty) return;
    const YamlNode* id = item.kind == YamlKind::map ? item.find("section") : &item;
    if (id == nullptr || id->kind != YamlKind::text) {
      fault(item.at, make_error("template.section-without-name", "a section without its name",
                                "one of " + joined(sections_),
                                "write '- front', or '- {section: front, new page: no}'"));
      return;
    }
    if (std::find(sections_.begin(), sections_.end(), id->text) == sections_.end()) {
      fault(id->at,
            make_error(
                "template.unknown-section", fmt::format("there is no section '{}'", id->text),
                "one of " + joined(sections_) + did_you_mean(nearest_name(id->text, sections_)),
                "correct the name or take the line out"));
      return;
    }
    TemplateSection section{id->text, true, std::nullopt};
    if (item.kind == YamlKind::map) read_options(item, section);
    report.sections.push_back(std::move(section));
  }

  void read_options(const YamlNode& item, TemplateSection& section) {
    check_keys(item, kSectionKeys, "template.unknown-key");
    if (const YamlNode* new_page = item.find("new page")) {
      if (new_page->text == "no" || new_page->text == "false") {
        section.new_page = false;
      } else if (new_page->text != "yes" && new_page->text != "true") {
        fault(
            new_page->at,
            make_error("template.yes-no", fmt::format("'{}' is neither yes nor no", new_page->text),
                       "yes or no", "write 'new page: no' to let the section run on"));
      }
    }
    if (const YamlNode* pages = item.find("pages")) {
      const auto number = parse_integer(pages->text);
      if (number && *number >= 1 && *number <= kMostPages) {
        section.fit_pages = *number;
      } else {
        fault(pages->at,
              make_error("template.pages", fmt::format("'{}' is no number of pages", pages->text),
                         fmt::format("a whole number from 1 to {}", kMostPages),
                         "write the pages the section may fill, or take the key out"));
      }
    }
  }

  const YamlDocument& document_;
  std::span<const std::string_view> sections_;
  Diagnostics& diagnostics_;
};

}  // namespace

std::optional<ReportTemplate> read_template(std::string name, std::string file,
                                            std::string_view bytes,
                                            std::span<const std::string_view> sections,
                                            Diagnostics& diagnostics) {
  const int errors = diagnostics.errors();
  const auto document = read_yaml(std::move(file), bytes, diagnostics);
  if (!document) return std::nullopt;
  ReportTemplate report = Reading(*document, sections, diagnostics).read(std::move(name));
  if (diagnostics.errors() > errors) return std::nullopt;
  return report;
}

}  // namespace winterfolio
