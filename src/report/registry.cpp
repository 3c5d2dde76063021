// The list of sections.
#include "report/registry.h"

#include <array>
#include <stdexcept>

#include "report/reckoning.h"
#include "report/speak.h"

namespace winterfolio {
namespace {

constexpr std::array<SectionRow, 11> kSections = {{
    {"front", front_section},
    {"guide", guide_section},
    {"hours", hours_section},
    {"years", years_section},
    {"trees", trees_section},
    {"calendar", calendar_section},
    {"frost", frost_section},
    {"explained", explained_section},
    {"cautions", cautions_section},
    {"readings", readings_section},
    {"method", method_section},
}};

const SectionRow& section(std::string_view id) {
  for (const SectionRow& row : kSections) {
    if (row.id == id) return row;
  }
  throw std::logic_error("no section " + std::string(id));
}

/// Reports of the program's own have a name in words; a keeper's template is called by its file.
Text name_of(const ReportTemplate& report) {
  return report.name == "season" ? say("report.season") : literal(report.name);
}

Text foot_of(const SeasonFacts& facts) {
  const LocalHour last = last_reading(facts);
  if (facts.today.as_of > plus_days(last.date(), 1))
    return say("page.foot-as-of", {{"day", day(facts.today.as_of, DateForm::full)},
                                   {"last", HourOfDay{last, DateForm::full}}});
  return say("page.foot", {{"last", HourOfDay{last_reading(facts), DateForm::weekday}}});
}

}  // namespace

std::span<const SectionRow> report_sections() { return kSections; }

std::vector<std::string_view> section_ids() {
  std::vector<std::string_view> ids;
  for (const SectionRow& row : kSections) ids.push_back(row.id);
  return ids;
}

Document report_document(const ReportTemplate& report, const SeasonFacts& facts) {
  const WinterYears winter =
      winter_years(facts.today.winter.year, !facts.today.window.crosses_new_year());
  Document document;
  document.title =
      say("page.title", {{"orchard", literal(facts.orchard->name)}, {"winter", winter}});
  document.subject = name_of(report);
  document.language = facts.orchard->language;
  document.head_left = literal(facts.orchard->name);
  document.head_right = say("page.head", {{"report", name_of(report)}, {"winter", winter}});
  document.foot_left = foot_of(facts);
  for (const TemplateSection& wanted : report.sections) {
    Section made;
    made.id = wanted.id;
    made.blocks = section(wanted.id).blocks(facts);
    made.new_page = wanted.new_page;
    made.fit_pages = wanted.fit_pages;
    if (!made.blocks.empty()) document.sections.push_back(std::move(made));
  }
  return document;
}

}  // namespace winterfolio
