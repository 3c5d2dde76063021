// Who pollinates whom: which trees need another cultivar beside them, which of their neighbours can
// serve, for how many days both are in bloom, and which trees are left without a partner this year.
//
// A partner is another cultivar of the same kind (nectarines and peaches are one kind) that stands
// here, is old enough to bloom, has good pollen, and blooms at the same time. The keeper's own word
// comes first, then published rows, then what is commonly known of the kind; each says where it is
// from. What grows over the fence is not known here, and nothing is said of it.
//
//   tree     first bloom |#########|
//   partner          first bloom |#########|
//                                |###|  both in bloom: 4 days
#pragma once

#include <optional>
#include <span>
#include <string>
#include <string_view>
#include <vector>

#include "findings/bloom.h"
#include "orchard/tree_dates.h"

namespace winterfolio {

/// What is known of one tree for this question.
struct BloomingTree {
  const Tree* tree = nullptr;
  const BloomFinding* bloom = nullptr;  ///< first bloom of the part that `cultivar` names
  std::string cultivar;                 ///< of the tree's part that the bloom speaks of
  TreeState state = TreeState::bearing;
  bool lost = false;         ///< in the twelve months before
  bool chill_short = false;  ///< its chill was not met and will not be: late and drawn out, or
                             ///< hardly any bloom
  bool buds_killed = false;  ///< nine tenths of them or more, by the published figures
};

/// The days a tree is in bloom.
struct BloomSpan {
  Date from;
  Date to;
  bool seen = false;  ///< its first day; else it is expected
  enum class Length {
    seen,       ///< to the petal fall that was seen
    own_years,  ///< the middle of the tree's own past springs
    kind_here,  ///< the middle of its kind's past springs in this orchard
    common,     ///< ten days: common practice, no source
  };
  Length length = Length::common;
};
std::string_view id_of(BloomSpan::Length length);

enum class PartnerNeed { alone, better_with, needed, not_known };
std::string_view id_of(PartnerNeed need);

/// Where a statement comes from.
enum class PollenSource { keeper, published, memory };
std::string_view id_of(PollenSource source);

/// Why a neighbour does not serve.
enum class PartnerBar {
  none,
  same_cultivar,   ///< its pollen is the tree's own
  no_pollen,       ///< triploid or pollen-sterile
  does_not_serve,  ///< a source names the pair as barren
  lost,
  too_young,
  chill_short,
  buds_killed,
  bloom_apart,  ///< no day in common, or bloom groups that do not meet
};
std::string_view id_of(PartnerBar bar);

/// How far two blooms meet.
struct BloomOverlap {
  enum class KnownBy { nothing, dates, groups };
  KnownBy known_by = KnownBy::nothing;
  int days = 0;              ///< by dates: days on which both are in bloom
  std::optional<Date> from;  ///< the first of them
  bool expected = false;     ///< by dates of which one at least is not seen
  bool groups_meet = false;  ///< by groups: the same or neighbouring ones
  bool meets() const {
    return known_by == KnownBy::dates ? days > 0 : known_by == KnownBy::groups && groups_meet;
  }
};

struct Partner {
  const Tree* tree = nullptr;
  std::string cultivar;                        ///< empty: unknown
  bool same_tree = false;                      ///< a graft beside it
  bool named = false;                          ///< by the keeper or a source, as a partner
  PollenSource source = PollenSource::memory;  ///< of `named`, or of a bar by pollen
  std::string source_key;                      ///< of the cultivar sources; the keeper's words
  PartnerBar bar = PartnerBar::none;
  BloomOverlap overlap;
};

enum class PartnerState {
  sets_alone,
  not_bearing,  ///< too young itself for the question
  served,       ///< days in common by dates
  likely,       ///< by bloom groups
  not_known,    ///< there may be one; the dates or the cultivars are not known
  none_this_year,
  none_here,
};
std::string_view id_of(PartnerState state);

/// One cultivar of a tree.
struct PartPartners {
  std::string cultivar;
  PartnerNeed need = PartnerNeed::not_known;
  PollenSource need_source = PollenSource::memory;
  std::string need_key;  ///< of the cultivar sources; the keeper's words; empty: of the kind
  std::vector<Partner> partners;  ///< best first; those with a bar last
  PartnerState state = PartnerState::not_known;
  const Partner* best() const;  ///< nullptr: none without a bar
};

struct TreePartners {
  std::optional<BloomSpan> span;    ///< of the part the bloom finding speaks of
  std::vector<PartPartners> parts;  ///< one a cultivar; empty for kinds that are not in the table
  /// The part that fares worst; nullptr without parts.
  const PartPartners* leading() const;
};

/// One finding for each tree, in the same order; lost ones have none of their own.
std::vector<TreePartners> partners_of(std::span<const BloomingTree> trees, const Orchard& orchard,
                                      const Today& today);

/// Common practice, no source: how long a tree blooms where nobody noted it.
inline constexpr int kDaysInBloom = 10;

}  // namespace winterfolio
