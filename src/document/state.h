// The four things a page can say of a tree's cold, each with its own mark on every page: solid,
// hatched, outlined, dotted.
#pragma once

namespace winterfolio {

enum class MarkState { met, nearly, short_so_far, not_known };

}  // namespace winterfolio
