// The list of formats. Narrow ones stand before the general table.
#include "readers/temperature/registry.h"

#include <array>

#include "readers/temperature/formats.h"

namespace winterfolio {
namespace {

constexpr std::array kFormats = {
    TemperatureFormat{"ghcn-daily", "GHCN-Daily, fixed width (.dly): a line an element and month",
                      recognise_ghcn_daily, read_ghcn_daily},
    TemperatureFormat{"ghcn-daily-csv",
                      "GHCN-Daily in CSV: a row an element and day, or a row a day",
                      recognise_ghcn_daily_csv, read_ghcn_daily_csv},
    TemperatureFormat{"isd-lite", "ISD-Lite: hours of one year, fixed width, UTC",
                      recognise_isd_lite, read_isd_lite},
    TemperatureFormat{"isd-full", "full hourly record with a control section, fixed places, UTC",
                      recognise_isd_full, read_isd_full},
    TemperatureFormat{"isd-csv",
                      "full hourly record in CSV, temperature and quality in one cell, UTC",
                      recognise_isd_csv, read_isd_csv},
    TemperatureFormat{"uscrn-hourly", "climate reference network, hourly means with their lowest",
                      recognise_uscrn_hourly, read_uscrn_hourly},
    TemperatureFormat{"local-climatological",
                      "local climatological data in CSV: hourly airport reports",
                      recognise_local_climatological, read_local_climatological},
    TemperatureFormat{"epw",
                      "EPW: a year of hours for building work, often put together from several",
                      recognise_epw, read_epw},
    TemperatureFormat{"tmy3", "TMY3: a typical year of hours, put together from several",
                      recognise_tmy3, read_tmy3},
    TemperatureFormat{
        "service", "table of a weather service whose header is known: its unit and clock are too",
        recognise_service, read_service},
    TemperatureFormat{"table", "plain table of readings, or of days with minimum and maximum",
                      recognise_table, read_table},
};

}  // namespace

std::span<const TemperatureFormat> temperature_formats() { return kFormats; }

}  // namespace winterfolio
