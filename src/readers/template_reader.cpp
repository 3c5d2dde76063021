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
    report.paper = paper_of(root);
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
                       "correct the key or take it out"));
    }
  }

  static std::string joined(std::span<const std::string_view> words) {
    std::string text;
    for (const std::string_view word : words)
      text += (text.empty() ? "" : ", ") + std::string(word);
    return text;
  }

  /// Where a key's value stands; the key itself where there is no value.
  static SourceSpan place_of(const YamlNode& map, std::string_view key) {
    for (const YamlEntry& entry : map.entries) {
      if (entry.key != key) continue;
      return entry.value.kind == YamlKind::nothing ? entry.key_at : entry.value.at;
    }
    return map.at;
  }

  /// "'A5' is no paper", for any kind of value.
  static std::string wrong_value(const YamlNode& value, std::string_view key,
                                 std::string_view what) {
    switch (value.kind) {
      case YamlKind::nothing:
        return fmt::format("'{}' has no value", key);
      case YamlKind::list:
        return fmt::format("a list is {}", what);
      case YamlKind::map:
        return fmt::format("a map of keys is {}", what);
      case YamlKind::text:
      case YamlKind::faulty:
        break;
    }
    return fmt::format("'{}' is {}", value.text, what);
  }

  /// "yes" and "no" in any letters, and what other programs write for them.
  static std::optional<bool> yes_or_no(const YamlNode& node) {
    std::string small = node.text;
    for (char& c : small) c = c >= 'A' && c <= 'Z' ? static_cast<char>(c + 32) : c;
    if (small == "yes" || small == "true") return true;
    if (small == "no" || small == "false") return false;
    return std::nullopt;
  }

  std::optional<PaperSize> paper_of(const YamlNode& root) {
    const YamlNode* given = root.find("paper");
    if (given == nullptr || given->kind == YamlKind::faulty) return std::nullopt;
    if (given->text == "a4") return PaperSize::a4;
    if (given->text == "letter") return PaperSize::letter;
    fault(place_of(root, "paper"),
          make_error("template.paper", wrong_value(*given, "paper", "no paper"), "a4 or letter",
                     "write 'paper: a4', or take the line out: then the orchard's paper is used"));
    return std::nullopt;
  }

  void read_sections(const YamlNode& root, ReportTemplate& report) {
    const YamlNode* list = root.find("sections");
    if (list == nullptr || list->kind != YamlKind::list || list->items.empty()) {
      if (list != nullptr && list->kind == YamlKind::faulty) return;
      fault(place_of(root, "sections"),
            make_error("template.no-sections", "the template names no sections",
                       "a list of sections: " + joined(sections_),
                       list ? "write one '- name' a line below 'sections:'"
                            : "add 'sections:' with one '- name' a line below it"));
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
    TemplateSection section{id->text, std::nullopt, std::nullopt};
    if (item.kind == YamlKind::map) read_options(item, section);
    report.sections.push_back(std::move(section));
  }

  void read_options(const YamlNode& item, TemplateSection& section) {
    check_keys(item, kSectionKeys, "template.unknown-key");
    if (const YamlNode* new_page = item.find("new page")) {
      if (const auto given = yes_or_no(*new_page)) {
        section.new_page = *given;
      } else if (new_page->kind != YamlKind::faulty) {
        fault(
            place_of(item, "new page"),
            make_error("template.yes-no", wrong_value(*new_page, "new page", "neither yes nor no"),
                       "yes or no", "write 'new page: no' to let the section run on"));
      }
    }
    if (const YamlNode* pages = item.find("pages")) {
      const auto number = parse_integer(pages->text);
      if (number && *number >= 1 && *number <= kMostPages) {
        section.fit_pages = *number;
      } else if (pages->kind != YamlKind::faulty) {
        fault(place_of(item, "pages"),
              make_error("template.pages", wrong_value(*pages, "pages", "no number of pages"),
                         fmt::format("a whole number from 1 to {}", kMostPages),
                         "write how many pages the section may fill, or take the key out"));
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
