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

bool recognise_ghcn_daily_csv(std::string_view head);
std::optional<TemperatureFile> read_ghcn_daily_csv(ReadingJob& job);

bool recognise_isd_full(std::string_view head);
std::optional<TemperatureFile> read_isd_full(ReadingJob& job);

bool recognise_isd_csv(std::string_view head);
std::optional<TemperatureFile> read_isd_csv(ReadingJob& job);

bool recognise_uscrn_hourly(std::string_view head);
std::optional<TemperatureFile> read_uscrn_hourly(ReadingJob& job);

bool recognise_local_climatological(std::string_view head);
std::optional<TemperatureFile> read_local_climatological(ReadingJob& job);

bool recognise_epw(std::string_view head);
std::optional<TemperatureFile> read_epw(ReadingJob& job);

bool recognise_tmy3(std::string_view head);
std::optional<TemperatureFile> read_tmy3(ReadingJob& job);

/// Tables of services whose header is known, so that unit, clock and scale need not be asked for.
/// By place in tables/services.csv.
bool recognise_service(std::string_view head);
std::optional<TemperatureFile> read_service(ReadingJob& job);

/// Rows of a table whose layout is known, from line `layout.first_row` on.
struct TableLayout;
struct SeriesFacts;
std::optional<TemperatureFile> read_rows(ReadingJob& job, const TableLayout& layout,
                                         SeriesFacts facts, std::string_view format);
/// What a layout alone says of the series.
SeriesFacts facts_of(const TableLayout& layout);

}  // namespace winterfolio
