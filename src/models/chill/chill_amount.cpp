// Keeps amounts of different measures apart while the program runs.
#include "models/chill/chill_amount.h"

#include <fmt/format.h>

#include <stdexcept>

namespace winterfolio {

void ChillAmount::require(ChillMeasure measure) const {
  if (measure == measure_) return;
  throw std::logic_error(fmt::format("{} of cold asked for as {}: measures are never converted",
                                     id_of(measure_), id_of(measure)));
}

}  // namespace winterfolio
