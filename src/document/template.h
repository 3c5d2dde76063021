// What a report is made of: its sections in order, as templates/<report>.yaml has them.
#pragma once

#include <optional>
#include <string>
#include <vector>

namespace winterfolio {

enum class PaperSize { a4, letter };

struct TemplateSection {
  std::string id;
  std::optional<bool> new_page;  ///< nothing: unless running on saves one
  std::optional<int> fit_pages;  ///< told to fit so many pages
};

struct ReportTemplate {
  std::string name;  ///< of the file without .yaml: "season"; part of the printed file's name
  std::optional<PaperSize> paper;  ///< nothing: as the orchard asks
  std::vector<TemplateSection> sections;
};

}  // namespace winterfolio
