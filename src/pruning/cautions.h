// Which cautions stand on a page, by what the plan involves: ladders, saws, cold, disinfectant,
// young people, wires.
//
// Those that put local rules, the label and licensed practice first are always there and always
// first. Then the foremost caution of each matter, then what also hurts people most often, then the
// rest.
#pragma once

#include <optional>
#include <span>
#include <string>
#include <string_view>
#include <vector>

#include "pruning/evidence.h"

namespace winterfolio {

/// What a plan can involve; `any` is every plan. Their order is that in which scarce room is given
/// out.
enum class CautionFor {
  any,
  ladder,
  saw,
  cold,
  disinfectant,
  minors,
  power_line,
  chainsaw,
  pole,
  ice,
  wind,
};
std::string_view id_of(CautionFor what);

struct Caution {
  std::string id;
  std::string topic;  ///< "ladder_set_up"
  CautionFor applies_when = CautionFor::any;
  int importance = 4;  ///< 1 = always first, 2 = the foremost of its matter, 3 = what also hurts
                       ///< most often, 4 = the rest
  bool has_figure = false;
  Evidence because;

  std::string text_words() const;    ///< id of the sentence
  std::string figure_words() const;  ///< id of the figure behind it; empty if there is none
};

std::span<const Caution> caution_table();

/// What the plan of a page involves. Nothing set: only what holds for any day.
struct CautionFacts {
  bool ladder = false;
  bool saw = false;
  bool pole = false;
  bool cold = false;
  bool ice = false;
  bool wind = false;
  bool disinfectant = false;
  bool chainsaw = false;
  bool power_line = false;
  bool minors = false;
  bool involves(CautionFor what) const;
};

/// The cautions that apply, the always-first ones first, then by importance, in the order of the
/// table.
///
/// at_most   how many there is room for; the always-first ones stay in any case. What is left of
/// the room goes round
///           the things involved, so that none of them is without its foremost caution while there
///           is room.
std::vector<const Caution*> cautions_for(const CautionFacts& facts,
                                         std::optional<int> at_most = std::nullopt);

}  // namespace winterfolio
