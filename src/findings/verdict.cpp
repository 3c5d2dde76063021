// Compares what a tree needs with what the winter has given.
#include "findings/verdict.h"

#include <algorithm>
#include <array>
#include <limits>
#include <stdexcept>

#include "orchard/species.h"

namespace winterfolio {
namespace {

constexpr double kSameAmount = 1e-9;
constexpr double kNoLimit = std::numeric_limits<double>::infinity();

/// Why none of the figures decides: the best kind among them.
VerdictReason why_none_decides(const std::vector<Need>& needs) {
  VerdictReason reason = VerdictReason::no_figure;
  NeedKind best = NeedKind::species_range;
  bool any = false;
  for (const Need& need : needs) {
    if (any && best <= need.kind) continue;
    any = true;
    best = need.kind;
  }
  if (!any) return reason;
  switch (best) {
    case NeedKind::set_range:
      return VerdictReason::only_set_range;
    case NeedKind::constant_temperature:
      return VerdictReason::only_constant_temperature;
    case NeedKind::species_range:
      return VerdictReason::only_species_range;
    default:
      return VerdictReason::only_memory;
  }
}

/// Met, nearly or short of a requirement known exactly.
VerdictState against(double received, double required) {
  if (received >= required - kSameAmount) return VerdictState::met;
  return received >= kNearly * required - kSameAmount ? VerdictState::nearly
                                                      : VerdictState::short_of;
}

/// What holds at both ends of what was received; undecided where one reaches the need and the other
/// does not. What falls short at both is short, or nearly where even the least is within a tenth.
VerdictState state_of(Range received, const DecidingNeed& need) {
  const double least = need.low.value_or(-kNoLimit);
  const double most = need.high.value_or(kNoLimit);
  if (received.low >= most - kSameAmount) return VerdictState::met;
  if (received.high >= least - kSameAmount) return VerdictState::undecided;
  return against(received.low, least);
}

/// Once met for certain, met for good: a later fall, or a later gap, is told and not undone.
bool met_before(Verdict& verdict, const MeasuredChill& chill) {
  if (verdict.need->low) verdict.low_end_on = chill.reached_on(*verdict.need->low);
  if (!verdict.need->high) return false;
  if (!chill.surely_reached_on(*verdict.need->high, kLeastCoverage)) return false;
  // Once hours enough are known to say so, the day is the one on which it was reached, however few
  // were known by then.
  verdict.met_on = chill.surely_reached_on(*verdict.need->high, 0.0);
  verdict.state = VerdictState::met;
  verdict.fell_since =
      chill_model(chill.measure).can_fall && verdict.received < *verdict.need->high - kSameAmount;
  if (verdict.fell_since) verdict.reasons.push_back(VerdictReason::fell_since);
  return true;
}

/// What missing hours may have held counts, whether or not another winter narrows it.
void add_shortfall(Verdict& verdict, const MeasuredChill& chill) {
  if (verdict.state != VerdictState::short_of && verdict.state != VerdictState::nearly) return;
  const double low = verdict.need->low.value_or(0.0);
  verdict.short_by = Range{std::max(0.0, low - chill.utmost.high),
                           verdict.need->high.value_or(low) - chill.utmost.low};
}

void add_remarks(Verdict& verdict, const MeasuredChill& chill, const WinterChill& winter) {
  if (chill.measure == ChillMeasure::utah && chill.counted_from != winter.today.winter.from) {
    verdict.reasons.push_back(VerdictReason::counted_from_minimum);
  }
  if (verdict.need->assumed) verdict.reasons.push_back(VerdictReason::hours_assumed);
  if (verdict.need->sources.size() > 1) verdict.reasons.push_back(VerdictReason::sources_differ);
}

/// Whether the least required was reached for certain before warm hours took some of it back:
/// reached counts, so what it has fallen to since makes no tree short.
bool stood_in_span(const Verdict& verdict, const MeasuredChill& chill) {
  const bool lacking =
      verdict.state == VerdictState::short_of || verdict.state == VerdictState::nearly;
  return lacking && chill_model(chill.measure).can_fall &&
         chill.surely_reached_on(*verdict.need->low, kLeastCoverage);
}

/// The state with gaps in mind, and the reason where it is withheld.
void decide(Verdict& verdict, const MeasuredChill& chill) {
  if (met_before(verdict, chill)) return;
  if (chill.coverage() < kLeastCoverage) {
    verdict.state = VerdictState::unknown;
    verdict.reasons.push_back(VerdictReason::few_hours);
    return;
  }
  verdict.state = state_of(chill.utmost, *verdict.need);
  if (stood_in_span(verdict, chill)) {
    verdict.state = VerdictState::undecided;
    verdict.reasons.push_back(VerdictReason::fell_since);
    return;
  }
  if (verdict.state != VerdictState::undecided) return;
  if (state_of({verdict.received, verdict.received}, *verdict.need) == VerdictState::undecided) {
    verdict.reasons.push_back(VerdictReason::need_spans);
  } else if (chill.gaps == GapRange::unknown) {
    verdict.state = VerdictState::unknown;
    verdict.reasons.push_back(VerdictReason::gap_range_unknown);
  } else {
    verdict.reasons.push_back(VerdictReason::gap_could_turn);
  }
}

/// Whether a thermometer half a degree off could have another state stand. What was met and has
/// fallen since, or may have, is not judged by where it has fallen to.
void weigh_thermometer(Verdict& verdict, const MeasuredChill& chill) {
  verdict.thermometer = chill.thermometer;
  verdict.received_utmost = received_utmost(chill);
  if (!verdict.received_utmost || state_of(chill.range, *verdict.need) != verdict.state) return;
  verdict.thermometer_could_turn =
      state_of(*verdict.received_utmost, *verdict.need) != verdict.state;
}

/// How much a state asks for attention, for choosing the part that speaks for a tree.
int urgency(VerdictState state) {
  switch (state) {
    case VerdictState::short_of:
      return 4;
    case VerdictState::undecided:
      return 3;
    case VerdictState::nearly:
      return 2;
    case VerdictState::met:
      return 1;
    case VerdictState::unknown:
      break;
  }
  return 0;
}

}  // namespace

std::string_view id_of(VerdictState state) {
  constexpr std::array<std::string_view, 5> ids = {"met", "nearly", "short", "undecided",
                                                   "unknown"};
  return ids.at(static_cast<std::size_t>(state));
}

std::string_view id_of(VerdictReason reason) {
  constexpr std::array<std::string_view, 14> ids = {"other_kind",
                                                    "no_figure",
                                                    "only_memory",
                                                    "only_set_range",
                                                    "only_constant_temperature",
                                                    "only_species_range",
                                                    "few_hours",
                                                    "gap_range_unknown",
                                                    "gap_could_turn",
                                                    "need_spans",
                                                    "fell_since",
                                                    "counted_from_minimum",
                                                    "hours_assumed",
                                                    "sources_differ"};
  return ids.at(static_cast<std::size_t>(reason));
}

std::optional<double> Verdict::share() const {
  if (!need) return std::nullopt;
  const double least = need->low.value_or(need->high.value_or(0.0));
  if (least <= 0.0) return std::nullopt;
  return received / least;
}

std::optional<Range> received_utmost(const MeasuredChill& chill) {
  if (chill.gaps == GapRange::unknown) return std::nullopt;
  const double total = chill.total().amount();
  Range utmost{chill.range.low - (total - chill.thermometer.low),
               chill.range.high + (chill.thermometer.high - total)};
  if (!chill_model(chill.measure).can_fall) utmost.low = std::max(utmost.low, 0.0);
  return utmost;
}

Verdict verdict_on(const PartNeeds& part, const WinterChill& winter, bool other_kind) {
  Verdict verdict;
  verdict.so_far = !winter.today.winter_over();
  if (!part.deciding) {
    verdict.reasons.push_back(other_kind ? VerdictReason::other_kind
                                         : why_none_decides(part.needs));
    return verdict;
  }
  const MeasuredChill& chill = winter.for_verdict(part.deciding->measure);
  verdict.need = part.deciding;
  verdict.received = chill.total().amount();
  verdict.basis = winter.detail;
  if (chill.gaps != GapRange::unknown) verdict.received_range = chill.range;
  verdict.counted_from = chill.counted_from;
  decide(verdict, chill);
  weigh_thermometer(verdict, chill);
  add_shortfall(verdict, chill);
  add_remarks(verdict, chill, winter);
  return verdict;
}

TreeVerdict verdict_on(const Tree& tree, const Orchard& orchard, const WinterChill& winter) {
  TreeVerdict verdict;
  verdict.tree = &tree;
  const bool other_kind = find_species(tree.species) == nullptr;
  for (PartNeeds& part : needs_of(tree, orchard)) {
    Verdict on_part = verdict_on(part, winter, other_kind);
    verdict.parts.push_back({std::move(part), std::move(on_part)});
  }
  return verdict;
}

const PartVerdict& TreeVerdict::leading() const {
  if (parts.empty()) throw std::logic_error("a tree without parts");
  return *std::max_element(parts.begin(), parts.end(),
                           [](const PartVerdict& a, const PartVerdict& b) {
                             return urgency(a.verdict.state) < urgency(b.verdict.state);
                           });
}

}  // namespace winterfolio
