// Whether a tree has had enough cold: met, nearly, short, undecided or unknown, with the reasons.
//
// Like is compared with like: a requirement in portions with portions received. The ends of both
// ranges count: `met` asks that even the least received reaches the most required, `short` and
// `nearly` that even the most received stays under the least required, `nearly` that the least is
// within a tenth of it; what lies between is undecided. No verdict stands on less than nine tenths
// of the hours.
#pragma once

#include <optional>
#include <string_view>
#include <vector>

#include "findings/needs.h"
#include "findings/winter_chill.h"

namespace winterfolio {

enum class VerdictState { met, nearly, short_of, undecided, unknown };
std::string_view id_of(VerdictState state);  ///< "met", "nearly", "short", "undecided", "unknown"

/// What stands behind a verdict, or in its way. Printed with it.
enum class VerdictReason {
  // why there is no verdict
  other_kind,      ///< not a kind the tables know
  no_figure,       ///< no requirement is known
  only_memory,     ///< only figures from memory
  only_set_range,  ///< only spans over a group
  only_constant_temperature,
  only_species_range,
  few_hours,          ///< under nine tenths of the hours are known
  gap_range_unknown,  ///< hours are missing, and no other winter tells what they may have held
  gap_could_turn,     ///< what the gaps may have held spans both sides
  need_spans,         ///< the received amount lies inside the required range
  // what to know about one that stands
  fell_since,            ///< the measure has fallen under the requirement since it was met, or,
                         ///< where undecided, since the least of it was
  counted_from_minimum,  ///< Utah units are counted from their lowest autumn sum
  hours_assumed,         ///< the source does not say which chill hours it means
  sources_differ,        ///< several sources, taken as one range
};
std::string_view id_of(VerdictReason reason);

struct Verdict {
  VerdictState state = VerdictState::unknown;
  std::optional<DecidingNeed> need;  ///< nothing: no figure may decide
  double received = 0.0;             ///< by the need's measure
  WinterDetail basis =
      WinterDetail::hourly;             ///< how `received` was counted: a need that the tree's
                                        ///< own years bracket is met in the making of those
  std::optional<Range> received_range;  ///< with gaps; nothing: unknown, or no need
  std::optional<Range> thermometer;     ///< had the thermometer been half a degree off either way
  /// What may really have been received: what the gaps leave open and what half a degree either way
  /// does, laid end to end. The one range to print beside the need; nothing where the gaps' is
  /// unknown.
  std::optional<Range> received_utmost;
  bool thermometer_could_turn = false;  ///< another state would stand somewhere in that range
  std::optional<Date> counted_from;
  std::optional<Date>
      met_on;  ///< first day at whose end the most required was surely reached; for `met`
  std::optional<Date> low_end_on;  ///< first day at whose end the least required was reached
  bool fell_since = false;
  std::optional<Range>
      short_by;         ///< from the least required to the most; for `short_of` and `nearly`
  bool so_far = false;  ///< the winter is not over: what is short may still come
  std::vector<VerdictReason> reasons;

  /// Received as a share of the least required; nothing without a need.
  std::optional<double> share() const;
};

/// One cultivar of a tree and its verdict.
struct PartVerdict {
  PartNeeds part;
  Verdict verdict;
};

/// A tree's verdicts, and the one that stands for it: the worst of its parts that has one, else the
/// first.
struct TreeVerdict {
  const Tree* tree = nullptr;  ///< in the orchard, which must outlive this
  std::vector<PartVerdict> parts;
  const PartVerdict& leading() const;
};

/// The range of a total with its gaps and a thermometer half a degree off together; nothing where
/// what the gaps held is unknown.
std::optional<Range> received_utmost(const MeasuredChill& chill);

Verdict verdict_on(const PartNeeds& part, const WinterChill& chill, bool other_kind = false);
TreeVerdict verdict_on(const Tree& tree, const Orchard& orchard, const WinterChill& chill);

inline constexpr double kNearly = 0.9;         ///< of the requirement
inline constexpr double kLeastCoverage = 0.9;  ///< of the hours

}  // namespace winterfolio
