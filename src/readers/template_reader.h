// Reads a report template: which sections, in which order, on which paper.
//
//   paper: letter                          # letter | a4; not given: as the orchard asks
//   sections:
//     - front
//     - hours                                  # below the one before it where there is room
//     - {section: cautions, new page: yes}     # always begins a page
//     - {section: trees, new page: no, pages: 6}     # runs on; told to fit six pages
#pragma once

#include <optional>
#include <span>
#include <string>
#include <string_view>

#include "base/diagnostic.h"
#include "document/template.h"

namespace winterfolio {

/// The template in a file's bytes. `name` becomes part of the printed file's name; `sections` are
/// the ids that exist. Adds every fault; nothing is returned if there is one.
std::optional<ReportTemplate> read_template(std::string name, std::string file,
                                            std::string_view bytes,
                                            std::span<const std::string_view> sections,
                                            Diagnostics& diagnostics);

}  // namespace winterfolio
