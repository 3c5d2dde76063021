// Brackets a tree's need by its own years.
#include "findings/own_evidence.h"

#include <algorithm>

namespace winterfolio {
namespace {

/// Notes of the spring and summer after a winter: until the next winter begins.
bool belongs_to(const Observation& seen, const Winter& winter) {
  if (!seen.on.month) return false;
  const Date on = seen.on.earliest();
  return winter.from <= on && on < plus_days(winter.from, 365);
}

EvidenceYear year_of(const Tree& tree, const PastSpring& past, double chill, Date as_of) {
  EvidenceYear year{.year = past.winter.year,
                    .name = past.winter.name(),
                    .chill = chill,
                    .first_bloom = {},
                    .harvest = {}};
  for (const Observation& seen : tree.observed) {
    if (!belongs_to(seen, past.winter) || seen.on.earliest() > as_of) continue;
    if (seen.what == "leafed_unevenly") year.leafing = Leafing::badly;
    if (seen.what == "leafed_out" && year.leafing == Leafing::not_noted)
      year.leafing = Leafing::well;
    if (seen.what == "first_bloom" && seen.on.day && !year.first_bloom)
      year.first_bloom = seen.on.earliest();
    if (seen.what == "harvest" && year.harvest.empty()) year.harvest = seen.amount.value_or("");
  }
  return year;
}

bool anything_noted(const EvidenceYear& year) {
  return year.leafing != Leafing::not_noted || year.first_bloom || !year.harvest.empty();
}

std::optional<double> chill_of(const PastSpring& past, ChillMeasure measure) {
  for (const PastSpring::Chill& chill : past.chill) {
    if (chill.measure == measure && !chill.by_day.empty() && chill.known_enough)
      return chill.by_day.back();
  }
  return std::nullopt;
}

}  // namespace

OwnEvidence own_evidence(const Tree& tree, ChillMeasure measure, const SpringOutlook& outlook) {
  OwnEvidence evidence{
      .measure = measure, .basis = outlook.basis, .years = {}, .too_little = {}, .enough = {}};
  for (const PastSpring& past : outlook.past) {
    const auto chill = chill_of(past, measure);
    if (!chill) continue;
    const EvidenceYear year = year_of(tree, past, *chill, outlook.today.as_of);
    if (!anything_noted(year)) continue;
    if (year.leafing == Leafing::badly)
      evidence.too_little = std::max(evidence.too_little.value_or(*chill), *chill);
    if (year.leafing == Leafing::well)
      evidence.enough = std::min(evidence.enough.value_or(*chill), *chill);
    evidence.years.push_back(year);
  }
  evidence.contradicts_itself =
      evidence.too_little && evidence.enough && *evidence.too_little >= *evidence.enough;
  return evidence;
}

BracketedNeed with_own_evidence(const std::optional<DecidingNeed>& table,
                                const OwnEvidence& evidence) {
  const bool any = evidence.too_little || evidence.enough;
  if (!any || evidence.contradicts_itself) return {table, BracketUse::none};
  const DecidingNeed bracket{
      evidence.measure, evidence.too_little, evidence.enough, NeedKind::own_years, false, {}};
  if (!table) return {bracket, BracketUse::alone};
  if (table->kind == NeedKind::tree || table->measure != evidence.measure)
    return {table, BracketUse::none};
  const bool above = evidence.too_little && table->high && *evidence.too_little >= *table->high;
  const bool below = evidence.enough && table->low && *evidence.enough <= *table->low;
  if (above || below) return {bracket, BracketUse::overrules};
  const bool own_low = evidence.too_little && (!table->low || *evidence.too_little > *table->low);
  const bool own_high = evidence.enough && (!table->high || *evidence.enough < *table->high);
  if (!own_low && !own_high) return {table, BracketUse::agrees};
  if (own_low && own_high) return {bracket, BracketUse::narrows};
  DecidingNeed narrowed = *table;
  narrowed.kind = NeedKind::own_years;
  (own_low ? narrowed.low : narrowed.high) = own_low ? evidence.too_little : evidence.enough;
  return {narrowed, BracketUse::narrows};
}

}  // namespace winterfolio
