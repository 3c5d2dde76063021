// What the winter and spring mean besides cold added up: frost against buds, harm to dormant wood,
// swings, what a shortfall does, partners, and what suits the place.
#include <set>

#include "report/figure_branches.h"
#include "report/figure_ids.h"
#include "report/reckoning.h"

namespace winterfolio::figures {
namespace {

namespace unit = figure_unit;

FigureNode night(const NightLow& one) {
  return FigureNode::map()
      .set("evening", date_figure(one.evening))
      .set("lowest", temperature_figure(one.lowest))
      .set("at", hour_figure(one.at))
      .set("by_extremes", yes_no_figure(one.by_extremes));
}

FigureNode nights(const std::vector<NightLow>& all) {
  FigureNode list = FigureNode::list();
  for (const NightLow& one : all) list.append(night(one));
  return list;
}

// ---- frost at one tree
// ---------------------------------------------------------------------------------

FigureNode stage(const StageOnDay& one) {
  if (one.stage == nullptr) return FigureNode::none();
  return FigureNode::map()
      .set("stage", id_figure(one.stage->stage))
      .set("kills_a_tenth", temperature_figure(one.stage->kill10))
      .set("kills_nine_tenths", temperature_figure(one.stage->kill90))
      .set("seen", yes_no_figure(one.seen))
      .set("age", amount_figure(one.age_days, unit::kDays))
      .set("source", text_figure(one.stage->source))
      .set("mark", id_figure(name(one.stage->mark)));
}

FigureNode tree_night(const TreeNight& one) {
  return FigureNode::map()
      .set("night", night(one.night))
      .set("at_tree", temperature_figure(one.at_tree))
      .set("stage", stage(one.stage))
      .set("level", id_figure(id_of(one.level)));
}

FigureNode later_frosts(const LaterFrosts& one) {
  return FigureNode::map()
      .set("springs", count_figure(one.springs, unit::kSprings))
      .set("with_damage", count_figure(one.with_damage, unit::kSprings))
      .set("from", date_figure(one.from))
      .set("stage", id_figure(one.stage))
      .set("kills_a_tenth", temperature_figure(one.kill10));
}

FigureNode crop_left(const CropLeft& one) {
  return FigureNode::map()
      .set("word", id_figure(id_of(one.word)))
      .set("alive", range(one.alive, unit::kPercent))
      .set("needed", range(one.needed, unit::kPercent))
      .set("damaging_nights", count_figure(one.damaging_nights, unit::kNights));
}

FigureNode frost_at(const SeasonFacts& facts, const TreeSeason& tree) {
  const TreeFrost& one = tree.frost;
  FigureNode touched = FigureNode::list();
  for (const TreeNight& each : one.nights) touched.append(tree_night(each));
  return FigureNode::map()
      .set("published", yes_no_figure(one.published))
      .set("now", stage(one.now))
      .set("look_again", yes_no_figure(one.look_again))
      .set("bloom_over", yes_no_figure(one.bloom_over))
      .set("nights", std::move(touched))
      .set("coldest", if_known(one.coldest, night))
      .set("coldest_at_tree", temperature_figure(at_the_tree(facts, tree, one.coldest)))
      .set("coldest_in_stage", if_known(one.coldest_in_stage, night))
      .set("coldest_in_stage_at_tree",
           temperature_figure(at_the_tree(facts, tree, one.coldest_in_stage)))
      .set("coming", if_known(one.coming, tree_night))
      .set("after_bloom", if_known(one.after_bloom, later_frosts))
      .set("buds_needed", range(one.buds_needed, unit::kPercent))
      .set("crop", if_known(one.crop, crop_left))
      .set("damage_seen", date_figure(one.damage_seen));
}

FigureNode dormant(const DormantCold& one) {
  return FigureNode::map()
      .set("night", night(one.night))
      .set("at_tree", temperature_figure(one.at_tree))
      .set("watch", temperature_figure(one.hardiness.watch))
      .set("likely_from", temperature_figure(one.hardiness.likely))
      .set("likely", yes_no_figure(one.likely))
      .set("source", text_figure(one.hardiness.source))
      .set("mark", id_figure(name(one.hardiness.mark)));
}

FigureNode swings(const std::vector<Swing>& all) {
  FigureNode list = FigureNode::list();
  for (const Swing& one : all) {
    list.append(FigureNode::map()
                    .set("from", hour_figure(one.from))
                    .set("to", hour_figure(one.to))
                    .set("by", amount_figure(one.by.degrees(), unit::kCelsiusDifference)));
  }
  return list;
}

FigureNode shortfall(const TreeShortfall& one) {
  return FigureNode::map()
      .set("standing", id_figure(id_of(one.standing)))
      .set("share", range(Range{one.share.low * 100.0, one.share.high * 100.0}, unit::kPercent))
      .set("at_least", id_figure(one.at_least->id))
      .set("at_least_because", source(one.at_least->because))
      .set("at_most", id_figure(one.at_most->id))
      .set("at_most_because", source(one.at_most->because));
}

/// What the buds of every kind that stands here bear, stage by stage.
FigureNode stages_here(const SeasonFacts& facts) {
  FigureNode list = FigureNode::list();
  std::set<std::string> told;
  for (const TreeSeason* tree : facts.resting()) {
    if (!told.insert(tree->tree->species).second) continue;
    for (const CriticalTemperature& one : critical_temperatures(tree->tree->species)) {
      list.append(FigureNode::map()
                      .set("species", id_figure(one.species))
                      .set("stage", id_figure(one.stage))
                      .set("kills_a_tenth", temperature_figure(one.kill10))
                      .set("kills_nine_tenths", temperature_figure(one.kill90))
                      .set("source", text_figure(one.source))
                      .set("mark", id_figure(name(one.mark))));
    }
  }
  return list;
}

FigureNode signs(const SpringSigns& one) {
  const auto trees = [](const SpringSigns::Trees& with_it) {
    return count_figure(static_cast<std::int64_t>(with_it.size()), unit::kTrees);
  };
  return FigureNode::map()
      .set("buds_moved", trees(one.buds_moved))
      .set("nights_near", trees(one.nights_near))
      .set("nights_at", trees(one.nights_at))
      .set("coming", trees(one.coming))
      .set("damage_seen", trees(one.damage_seen))
      .set("crop_perhaps", trees(one.crop_perhaps))
      .set("crop_unlikely", trees(one.crop_unlikely))
      .set("look_again", trees(one.look_again))
      .set("leaves_held", trees(one.leaves_held))
      .set("bloom_out_of_season", trees(one.bloom_out_of_season))
      .set("freezes_in_leaf", trees(one.freezes_in_leaf))
      .set("dormant_watch", trees(one.dormant_watch))
      .set("dormant_likely", trees(one.dormant_likely))
      .set("swings", trees(one.swings));
}

FigureNode frost_over(const LastFrostDays& one) {
  return FigureNode::map()
      .set("springs", count_figure(one.springs, unit::kSprings))
      .set("first", date_figure(one.first))
      .set("middle", date_figure(one.middle))
      .set("last", date_figure(one.last));
}

// ---- partners
// ------------------------------------------------------------------------------------------

FigureNode partner(const Partner& one) {
  const BloomOverlap& overlap = one.overlap;
  const bool by_dates = overlap.known_by == BloomOverlap::KnownBy::dates;
  return FigureNode::map()
      .set("tree", id_figure(one.tree != nullptr ? one.tree->id : std::string()))
      .set("cultivar", text_figure(one.cultivar))
      .set("same_tree", yes_no_figure(one.same_tree))
      .set("named", yes_no_figure(one.named))
      .set("source", id_figure(id_of(one.source)))
      .set("key", text_figure(one.source_key))
      .set("bar", id_figure(id_of(one.bar)))
      .set("overlap_known_by", id_figure(name(overlap.known_by)))
      .set("days", amount_figure(by_dates ? std::optional<double>(overlap.days) : std::nullopt,
                                 unit::kDays))
      .set("from", date_figure(overlap.from))
      .set("expected", yes_no_figure(overlap.expected))
      .set("groups_meet", yes_no_figure(overlap.groups_meet));
}

FigureNode part_partners(const PartPartners& one) {
  FigureNode list = FigureNode::list();
  for (const Partner& each : one.partners) list.append(partner(each));
  return FigureNode::map()
      .set("cultivar", text_figure(one.cultivar))
      .set("need", id_figure(id_of(one.need)))
      .set("source", id_figure(id_of(one.need_source)))
      .set("key", text_figure(one.need_key))
      .set("state", id_figure(id_of(one.state)))
      .set("partners", std::move(list));
}

FigureNode partners(const TreePartners& one) {
  FigureNode parts = FigureNode::list();
  for (const PartPartners& part : one.parts) parts.append(part_partners(part));
  return FigureNode::map()
      .set("in_bloom", if_known(one.span,
                                [](const BloomSpan& span) {
                                  return FigureNode::map()
                                      .set("from", date_figure(span.from))
                                      .set("to", date_figure(span.to))
                                      .set("seen", yes_no_figure(span.seen))
                                      .set("length", id_figure(id_of(span.length)));
                                }))
      .set("parts", std::move(parts));
}

// ---- the place
// -----------------------------------------------------------------------------------------

FigureNode site_need(const DecidingNeed& need) {
  const FigureUnit amount = amount_unit(need.measure);
  return FigureNode::map()
      .set("low", amount_figure(need.low, amount))
      .set("high", amount_figure(need.high, amount))
      .set("kind", id_figure(id_of(need.kind)))
      .set("sources", texts_figure(need.sources));
}

FigureNode suited(const SuitedCultivar& one) {
  return FigureNode::map()
      .set("species", id_figure(one.species))
      .set("cultivar", text_figure(one.cultivar))
      .set("measure", id_figure(id_of(one.need.measure)))
      .set("need", site_need(one.need))
      .set("to_spare", amount_figure(one.to_spare, amount_unit(one.need.measure)))
      .set("grown_here", yes_no_figure(one.grown_here))
      .set("kind_grown_here", yes_no_figure(one.kind_grown_here))
      .set("frost", id_figure(id_of(one.frost)))
      .set("bloom_by", id_figure(id_of(one.bloom_by)))
      .set("after_bloom", if_known(one.after_bloom, later_frosts));
}

FigureNode failing(const FailingTree& one) {
  return FigureNode::map()
      .set("tree", id_figure(one.tree->id))
      .set("cultivar", text_figure(one.cultivar))
      .set("measure", id_figure(id_of(one.need.measure)))
      .set("need", site_need(one.need))
      .set("winters", count_figure(one.winters, unit::kWinters))
      .set("enough", count_figure(one.enough, unit::kWinters))
      .set("few_winters", yes_no_figure(one.few_winters));
}

FigureNode site_chill(const SiteChill& one) {
  const FigureUnit amount = amount_unit(one.measure);
  return FigureNode::map()
      .set("measure", id_figure(id_of(one.measure)))
      .set("basis", id_figure(name(one.basis)))
      .set("totals", series_figure(one.totals, amount))
      .set("exceeded_in_nine_of_ten", amount_figure(one.exceeded_in_nine_of_ten, amount))
      .set("few_winters", yes_no_figure(one.few_winters));
}

}  // namespace

FigureNode spring(const SeasonFacts& facts) {
  const LastFrosts& frosts = facts.last_frosts;
  FigureNode springs = FigureNode::list();
  for (const LastFrost& one : frosts.springs) {
    springs.append(FigureNode::map()
                       .set("year", count_figure(one.year, unit::kYear))
                       .set("night", night(one.night))
                       .set("this_year", date_figure(one.this_year)));
  }
  return FigureNode::map()
      .set("last_frosts", std::move(springs))
      .set("frost_over", if_known(last_frost_days(facts), frost_over))
      .set("trees", signs(spring_signs(facts)))
      .set("stages", stages_here(facts))
      .set("springs_without", count_figure(frosts.without, unit::kSprings))
      .set("springs_not_known", count_figure(frosts.not_known, unit::kSprings))
      .set("nights", nights(facts.nights.now));
}

FigureNode warm_hours(const SeasonFacts& facts) {
  FigureNode taken = FigureNode::map();
  for (const WarmHours::Loss& loss : facts.warm.losses)
    taken.set(std::string(id_of(loss.measure)),
              amount_figure(loss.taken, amount_unit(loss.measure)));
  return FigureNode::map()
      .set("hours", count_figure(facts.warm.hours, unit::kHours))
      .set("taken", std::move(taken));
}

FigureNode site(const SeasonFacts& facts) {
  FigureNode chill = FigureNode::list();
  for (const SiteChill& one : facts.site.chill) chill.append(site_chill(one));
  FigureNode cultivars = FigureNode::list();
  for (const SuitedCultivar& one : facts.site.suited) cultivars.append(suited(one));
  FigureNode trees = FigureNode::list();
  for (const FailingTree& one : facts.site.failing) trees.append(failing(one));
  return FigureNode::map()
      .set("few_winters", yes_no_figure(facts.site.few_winters))
      .set("chill", std::move(chill))
      .set("suited", std::move(cultivars))
      .set("failing", std::move(trees));
}

FigureNode harm(const SeasonFacts& facts, const TreeSeason& tree) {
  return FigureNode::map()
      .set("frost", frost_at(facts, tree))
      .set("dormant", if_known(tree.dormant, dormant))
      .set("freezes_in_leaf", nights(tree.freezes_in_leaf))
      .set("swings", swings(tree.swings))
      .set("bloom_out_of_season", date_figure(tree.odd.bloom_out_of_season))
      .set("leaves_held", date_figure(tree.odd.leaves_held))
      .set("shortfall", if_known(tree.shortfall, shortfall));
}

FigureNode pollination(const TreeSeason& tree) { return partners(tree.partners); }

}  // namespace winterfolio::figures
