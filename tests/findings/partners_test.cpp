// Who pollinates whom: needs, pairs that serve and pairs that do not, days in common, and when
// nothing can be said.
#include "findings/partners.h"

#include <deque>

#include "findings/winters_test.h"
#include "orchard/cultivars.h"
#include "orchard/species.h"
#include "support/catch.h"
#include "support/files.h"
#include "support/trees.h"

using namespace winterfolio;
using namespace winterfolio::test;

namespace {

const WinterWindow kNorth = default_winter_window(false);

Today day_spoken_from(Date day) {
  Today today;
  today.window = kNorth;
  today.winter = winter_of(kNorth, 2024);
  today.as_of = day;
  today.now = LocalHour::at(day, 0) + 24;
  return today;
}

/// A small orchard put together tree by tree.
struct Trees {
  Orchard orchard = northern_orchard();
  std::deque<Tree> trees;
  std::deque<BloomFinding> blooms;
  std::vector<BloomingTree> blooming;

  BloomingTree& plant(const char* id, const char* species, const char* cultivar,
                      std::optional<Date> bloom = {},
                      BloomMethod method = BloomMethod::own_records) {
    trees.push_back(tree_of(species));
    trees.back().id = id;
    trees.back().cultivar = cultivar;
    blooms.emplace_back();
    blooms.back().stage = "first_bloom";
    blooms.back().expected = bloom;
    blooms.back().method = bloom ? method : BloomMethod::none;
    blooming.push_back({.tree = &trees.back(), .bloom = &blooms.back(), .cultivar = cultivar});
    return blooming.back();
  }
  std::vector<TreePartners> found(Date day = date_of(2025, 4, 30)) const {
    return partners_of(blooming, orchard, day_spoken_from(day));
  }
  PartPartners of(std::size_t i) const { return found()[i].parts.at(0); }
};

}  // namespace

TEST_CASE("days in common are counted by hand") {
  Trees here;
  here.plant("A1", "apple", "Fuji", date_of(2025, 4, 1));
  here.plant("A2", "apple", "Liberty", date_of(2025, 4, 7));
  here.trees[0].observed = {seen_on(date_of(2025, 4, 1), "first_bloom"),
                            seen_on(date_of(2025, 4, 12), "petal_fall")};
  here.blooms[0].method = BloomMethod::seen;
  const auto found = here.found();
  CHECK(found[0].span->to == date_of(2025, 4, 12));
  CHECK(found[0].span->length == BloomSpan::Length::seen);
  // Common practice, no source: ten days where nobody noted it.
  CHECK(found[1].span->to == date_of(2025, 4, 16));
  CHECK(found[1].span->length == BloomSpan::Length::common);
  const PartPartners& fuji = found[0].parts.at(0);
  CHECK(fuji.state == PartnerState::served);
  REQUIRE(fuji.best() != nullptr);
  CHECK(fuji.best()->overlap.days == 6);  // 7 to 12 April
  CHECK(fuji.best()->overlap.from == date_of(2025, 4, 7));
  CHECK(fuji.best()->overlap.expected);
}

TEST_CASE("a tree whose cultivar nobody knows still blooms on its own days") {
  Trees here;
  here.plant("A1", "apple", "Fuji", date_of(2025, 2, 17));
  here.plant("A2", "apple", "", date_of(2025, 4, 10));
  const PartPartners known = here.of(0);
  REQUIRE(known.partners.size() == 1);
  CHECK(known.partners[0].bar == PartnerBar::bloom_apart);
  CHECK(here.of(1).partners.at(0).bar == PartnerBar::bloom_apart);
}

TEST_CASE("how long a tree blooms comes from its own past springs, else from its kind's here") {
  Trees here;
  here.plant("A1", "apple", "Fuji", date_of(2025, 4, 1));
  here.plant("A2", "apple", "Liberty", date_of(2025, 4, 1));
  here.plant("P1", "pear", "Moonglow", date_of(2025, 4, 1));
  here.trees[0].observed = {
      seen_on(date_of(2023, 4, 3), "first_bloom"), seen_on(date_of(2023, 4, 16), "petal_fall"),
      seen_on(date_of(2024, 4, 3), "first_bloom"), seen_on(date_of(2024, 4, 16), "petal_fall")};
  const auto found = here.found(date_of(2025, 3, 1));
  CHECK(found[0].span->length == BloomSpan::Length::own_years);
  CHECK(found[0].span->to == date_of(2025, 4, 14));
  CHECK(found[1].span->length == BloomSpan::Length::kind_here);
  CHECK(found[1].span->to == date_of(2025, 4, 14));
  CHECK(found[2].span->length == BloomSpan::Length::common);
}

TEST_CASE("who needs a partner: the keeper's word, then a page, then memory, then the kind") {
  Trees here;
  here.plant("A1", "apple", "Anna");      // LSU AgCenter (seen): no; memory: partly
  here.plant("A2", "apple", "Gordon");    // memory: partly
  here.plant("A3", "apple", "Old Gate");  // in no table: apples need a partner
  here.plant("P1", "peach", "Redhaven");
  here.plant("J1", "peach", "J.H. Hale");            // memory: pollen-sterile, needs another peach
  here.plant("U1", "japanese_plum", "AU-Producer");  // Auburn Circular 240 (seen): self-fruitful
  here.plant("X1", "apple", "");
  auto found = here.found();
  const auto need = [&](std::size_t i) { return found[i].parts.at(0).need; };
  const auto source = [&](std::size_t i) { return found[i].parts.at(0).need_source; };
  CHECK(need(0) == PartnerNeed::needed);
  CHECK(source(0) == PollenSource::published);
  CHECK(found[0].parts.at(0).need_key == "LSU_GILL2019");
  CHECK(need(1) == PartnerNeed::better_with);
  CHECK(source(1) == PollenSource::memory);
  CHECK(need(2) == PartnerNeed::needed);
  CHECK(found[2].parts.at(0).need_key.empty());
  CHECK(need(3) == PartnerNeed::alone);
  CHECK(need(4) == PartnerNeed::needed);
  CHECK(need(5) == PartnerNeed::alone);
  CHECK(need(6) == PartnerNeed::needed);
  OwnCultivar own;
  own.species = "apple";
  own.name = "old gate";
  own.self_fertile = SelfFertile::yes;
  own.from_where = "the keeper's own years";
  here.orchard.cultivars = {own};
  found = here.found();
  CHECK(need(2) == PartnerNeed::alone);
  CHECK(source(2) == PollenSource::keeper);
  CHECK(found[2].parts.at(0).state == PartnerState::sets_alone);
}

TEST_CASE("pairs that sources name as barren, and cultivars without pollen, never serve") {
  const Date bloom = date_of(2025, 4, 1);
  {
    // Source: UC Cooperative Extension Central Sierra (seen): Bing, Royal Ann and Lambert do not
    // pollinate one another.
    Trees here;
    here.plant("C1", "sweet_cherry", "Bing", bloom);
    here.plant("C2", "sweet_cherry", "Royal Ann", bloom);
    here.plant("C3", "sweet_cherry", "Lambert", bloom);
    for (std::size_t i = 0; i < 3; ++i) {
      const PartPartners cherry = here.of(i);
      CHECK(cherry.state == PartnerState::none_here);
      for (const Partner& partner : cherry.partners) {
        CHECK(partner.bar == PartnerBar::does_not_serve);
        CHECK(partner.source_key == "UCCE_SIERRA");
      }
    }
    here.plant("C4", "sweet_cherry", "Van", bloom);
    CHECK(here.of(0).state == PartnerState::served);
    CHECK(here.of(0).best()->named);
  }
  {
    Trees here;  // memory: Gravenstein is a triploid
    here.plant("A1", "apple", "Gravenstein", bloom);
    here.plant("A2", "apple", "Liberty", bloom);
    CHECK(here.of(0).state == PartnerState::served);
    CHECK(here.of(1).state == PartnerState::none_here);
    CHECK(here.of(1).partners.at(0).bar == PartnerBar::no_pollen);
  }
  {
    Trees here;
    here.plant("A1", "apple", "Fuji", bloom);
    here.plant("A2", "apple", "fuji", bloom);
    CHECK(here.of(0).state == PartnerState::none_here);
    CHECK(here.of(0).partners.at(0).bar == PartnerBar::same_cultivar);
  }
}

TEST_CASE(
    "a partner that is lost, too young, short of cold, killed by frost or out of step leaves a "
    "tree alone this year") {
  const Date bloom = date_of(2025, 4, 1);
  const auto left = [&](auto change, Date other = date_of(2025, 4, 1)) {
    Trees here;
    here.plant("A1", "apple", "Fuji", bloom);
    change(here.plant("A2", "apple", "Liberty", other));
    return here.of(0);
  };
  CHECK(left([](BloomingTree&) {}).state == PartnerState::served);
  const auto bar = [&](auto change, Date other = date_of(2025, 4, 1)) {
    const PartPartners part = left(change, other);
    CHECK(part.state == PartnerState::none_this_year);
    CHECK(part.best() == nullptr);
    return part.partners.at(0).bar;
  };
  CHECK(bar([](BloomingTree& tree) { tree.lost = true; }) == PartnerBar::lost);
  CHECK(bar([](BloomingTree& tree) { tree.state = TreeState::formative; }) ==
        PartnerBar::too_young);
  CHECK(bar([](BloomingTree& tree) { tree.chill_short = true; }) == PartnerBar::chill_short);
  CHECK(bar([](BloomingTree& tree) { tree.buds_killed = true; }) == PartnerBar::buds_killed);
  CHECK(bar([](BloomingTree&) {}, date_of(2025, 4, 11)) == PartnerBar::bloom_apart);
  CHECK(left([](BloomingTree&) {}, date_of(2025, 4, 10)).best()->overlap.days == 1);
}

TEST_CASE("flowers seen on both trees outweigh a partner's shortfall of cold") {
  const auto serves = [](BloomMethod own, BloomMethod other) {
    Trees here;
    here.plant("A1", "apple", "Fuji", date_of(2025, 4, 1), own);
    here.plant("A2", "apple", "Liberty", date_of(2025, 4, 1), other).chill_short = true;
    return here.of(0).state;
  };
  CHECK(serves(BloomMethod::seen, BloomMethod::seen) == PartnerState::served);
  CHECK(serves(BloomMethod::own_records, BloomMethod::seen) == PartnerState::none_this_year);
  CHECK(serves(BloomMethod::seen, BloomMethod::own_records) == PartnerState::none_this_year);
}

TEST_CASE("silent where it cannot know") {
  const Date bloom = date_of(2025, 4, 1);
  {
    Trees here;  // one of the two has no name: they may be one cultivar
    here.plant("A1", "apple", "Fuji", bloom);
    here.plant("A2", "apple", "", bloom);
    CHECK(here.of(0).state == PartnerState::not_known);
    CHECK(here.of(1).state == PartnerState::not_known);
  }
  {
    Trees here;  // an estimate for the kind from elsewhere cannot tell two cultivars apart
    here.plant("A1", "apple", "Old Gate", bloom, BloomMethod::species_elsewhere);
    here.plant("A2", "apple", "New Gate", bloom, BloomMethod::species_elsewhere);
    CHECK_FALSE(here.found()[0].span.has_value());
    CHECK(here.of(0).state == PartnerState::not_known);
  }
  {
    Trees here;  // bloom groups from the table: early beside mid, very early beside late
    here.plant("A1", "apple", "Fuji");
    here.plant("A2", "apple", "Gordon");
    CHECK(here.of(0).state == PartnerState::likely);
    Trees apart;
    apart.plant("A1", "apple", "Anna");
    apart.plant("A2", "apple", "Rome Beauty");
    CHECK(apart.of(0).state == PartnerState::none_this_year);
    CHECK(apart.of(0).partners.at(0).bar == PartnerBar::bloom_apart);
  }
  {
    Trees here;
    here.plant("A1", "apple", "Fuji", bloom);
    here.plant("P1", "pear", "Moonglow", bloom);
    CHECK(here.of(0).partners.empty());
    CHECK(here.of(0).state == PartnerState::none_here);
    here.plant("L1", "other", "");
    CHECK(here.found()[2].parts.empty());
    CHECK(here.found()[2].leading() == nullptr);
  }
}

TEST_CASE("nectarines and peaches serve one another, and grafts the tree they stand on") {
  const Date bloom = date_of(2025, 3, 1);
  Trees here;
  here.plant("P1", "peach", "J.H. Hale", bloom);
  here.plant("N1", "nectarine", "Fantasia", bloom);
  CHECK(here.of(0).state == PartnerState::served);
  Trees grafted;
  grafted.plant("A1", "apple", "");
  grafted.trees[0].grafts = {"Fuji", "Gordon"};
  const auto found = grafted.found();
  REQUIRE(found[0].parts.size() == 2);
  CHECK(found[0].parts[0].state == PartnerState::likely);
  CHECK(found[0].parts[0].best()->same_tree);
}

TEST_CASE("the keeper's partners come before what a table says") {
  Trees here;
  here.plant("A1", "apple", "Old Gate", date_of(2025, 4, 1));
  here.plant("A2", "apple", "Liberty", date_of(2025, 4, 2));
  here.plant("A3", "apple", "Jonagold", date_of(2025, 4, 3));
  OwnCultivar own;
  own.species = "apple";
  own.name = "Old Gate";
  own.partners = {"Jonagold"};
  own.from_where = "own crop";
  here.orchard.cultivars = {own};
  const PartPartners gate = here.of(0);
  CHECK(gate.best()->cultivar == "Jonagold");
  CHECK(gate.best()->source == PollenSource::keeper);
  CHECK(gate.best()->source_key == "own crop");
}

TEST_CASE("every row of the pollen table names cultivars and sources that exist") {
  const CsvTable table = CsvTable::embedded("src/findings/tables/pollen.csv");
  for (const CsvRow row : table) {
    INFO(row.text("cultivar"));
    CHECK_FALSE(find_cultivar(row.text("species"), row.text("cultivar")).empty());
    CHECK((row.text("source") == "memory" || find_cultivar_source(row.text("source")) != nullptr));
    const std::string& pollen = row.text("pollen");
    CHECK((pollen.empty() || pollen == "good" || pollen == "poor" || pollen == "none"));
  }
}
