// The functions of every format, gathered for the registry.
#pragma once

#include <optional>
#include <string_view>

#include "readers/temperature/registry.h"

namespace winterfolio {

bool recognise_table(std::string_view head);
std::optional<TemperatureFile> read_table(ReadingJob& job);

bool recognise_ghcn_daily(std::string_view head);
std::optional<TemperatureFile> read_ghcn_daily(ReadingJob& job);

bool recognise_isd_lite(std::string_view head);
std::optional<TemperatureFile> read_isd_lite(ReadingJob& job);

/// Rows of a table whose layout is known, from line `layout.first_row` on.
struct TableLayout;
struct SeriesFacts;
std::optional<TemperatureFile> read_rows(ReadingJob& job, const TableLayout& layout, SeriesFacts facts,
                                         std::string_view format);
/// What a layout alone says of the series.
SeriesFacts facts_of(const TableLayout& layout);

}  // namespace winterfolio
