#include "layout/marks.h"

namespace winterfolio {

MarkFill fill_of(MarkState state) {
  switch (state) {
    case MarkState::met:
      return MarkFill::solid;
    case MarkState::nearly:
      return MarkFill::hatched;
    case MarkState::short_so_far:
      return MarkFill::outlined;
    case MarkState::not_known:
      return MarkFill::dotted;
  }
  return MarkFill::dotted;
}

void draw_state(Frame& frame, Point at, MarkState state, const Tools& tools) {
  const Length side = tools.style.label_square;
  mark_box(frame, {{at.x, at.y - side}, {side, side}}, fill_of(state), tools.style.violet,
           tools.style);
}

}  // namespace winterfolio
