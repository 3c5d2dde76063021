// Every section a report template can ask for, in one list, and the report put together from a
// template.
#pragma once

#include <span>
#include <string_view>
#include <vector>

#include "document/template.h"
#include "report/sections.h"

namespace winterfolio {

struct SectionRow {
  std::string_view id;
  Blocks (*blocks)(const SeasonFacts&);
};

std::span<const SectionRow> report_sections();
std::vector<std::string_view> section_ids();

/// The document of a report. Requires: the template's sections are in the registry.
Document report_document(const ReportTemplate& report, const SeasonFacts& facts);

}  // namespace winterfolio
