// The temperature formats that can be read, as a table for `reference formats`.
#pragma once

#include "base/csv_table.h"

namespace winterfolio {

/// id and what it is, one row a format, in the order in which they are tried.
CsvTable formats_table();

}  // namespace winterfolio
