// The list of formats. Narrow ones stand before the general table.
#include "readers/temperature/registry.h"

#include <array>

#include "readers/temperature/formats.h"

namespace winterfolio {
namespace {

constexpr std::array kFormats = {
    TemperatureFormat{"ghcn-daily", "GHCN-Daily, fixed width (.dly): a line an element and month", recognise_ghcn_daily,
                      read_ghcn_daily},
    TemperatureFormat{"isd-lite", "ISD-Lite: hours of one year, fixed width, UTC", recognise_isd_lite, read_isd_lite},
    TemperatureFormat{"table", "plain table of readings, or of days with minimum and maximum", recognise_table,
                      read_table},
};

}  // namespace

std::span<const TemperatureFormat> temperature_formats() { return kFormats; }

}  // namespace winterfolio
