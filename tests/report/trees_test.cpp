// Tree cards of an orchard whose winter is reckoned by hand (tests/support/report_orchard.h).
#include "report/sections.h"
#include "support/blocks.h"
#include "support/catch.h"
#include "support/report_orchard.h"

using namespace winterfolio;
using namespace winterfolio::test;

namespace {

using Ids = std::vector<std::string>;

std::vector<Card> cards_of(const Blocks& blocks) {
  std::vector<Card> cards;
  for (const Cards* group : blocks_of<Cards>(blocks))
    cards.insert(cards.end(), group->cards.begin(), group->cards.end());
  return cards;
}

Card card_of(const std::vector<Card>& cards, const std::string& id) {
  for (const Card& card : cards) {
    if (literals_in(card.id) == Ids{id}) return card;
  }
  FAIL("no card of " << id);
  return {};
}

std::vector<Card> cards_of(const ReportWish& wish = {}) {
  const auto orchard = report_orchard(wish);
  return cards_of(trees_section(orchard->facts()));
}

}  // namespace

TEST_CASE("cards run from worst to best, and other kinds and lost trees have none") {
  Ids order;
  for (const Card& card : cards_of()) order.push_back(literals_in(card.id).front());
  // Short, nearly, undecided, unknown, then met from the smallest share of its need: 1656 of 1400,
  // 1200, 1000, 500, 400, 300.
  CHECK(order == Ids{"A3", "A2", "A4", "B1", "C4", "C2", "A1", "B3", "D1", "C1"});
}

TEST_CASE("a card's verdict says the state, by how much, and when it was met") {
  const auto cards = cards_of();
  const Card short_one = card_of(cards, "A3");
  CHECK(short_one.mark == MarkState::short_so_far);
  const auto* by =
      value_of<NumberRange>(message_in(short_one.verdict, "verdict.short-so-far-and"), "by");
  REQUIRE(by);
  CHECK(by->low == Approx(2500 - 1656));
  CHECK(by->high == Approx(2500 - 1656));
  // None of the four past winters' remainders is enough.
  const Message* share = message_in(short_one.verdict, "verdict.likely-share");
  CHECK(count_of(share, "n") == 0);
  CHECK(count_of(share, "all") == 4);

  const Card nearly = card_of(cards, "A2");
  CHECK(nearly.mark == MarkState::nearly);
  const auto* little =
      value_of<NumberRange>(message_in(nearly.verdict, "verdict.nearly-and"), "by");
  REQUIRE(little);
  CHECK(little->low == Approx(144));

  const Card met = card_of(cards, "A1");
  CHECK(met.mark == MarkState::met);
  const auto* on = value_of<Day>(message_in(met.verdict, "verdict.met"), "day");
  REQUIRE(on);
  CHECK(on->date == date_of(2026, 12, 26));

  const Card undecided = card_of(cards, "A4");
  CHECK(undecided.mark == MarkState::not_known);
  CHECK(says(undecided.verdict, "reason.need_spans"));

  const Card unknown = card_of(cards, "B1");
  CHECK(unknown.mark == MarkState::not_known);
  CHECK(says(unknown.verdict, "verdict.unknown"));
  CHECK(says(unknown.name, "tree.unknown-cultivar"));
}

TEST_CASE("a card's bar holds what the tree has had and what it needs") {
  const auto cards = cards_of();
  const Card card = card_of(cards, "A3");
  const auto* bar = chart_in<NeedBar>(card.body);
  REQUIRE(bar);
  CHECK(bar->has.low == Approx(1656));
  CHECK(bar->has.high == Approx(1656));
  REQUIRE(bar->need);
  CHECK(bar->need->low == 2500);
  CHECK_FALSE(bar->need_from_memory);
  REQUIRE(bar->likely);
  CHECK(bar->likely->low == Approx(1936 + 0.3 * 56));
  CHECK(bar->scale_end >= 2500);
  // One scale for all bars of a measure.
  CHECK(chart_in<NeedBar>(card_of(cards, "C1").body)->scale_end == bar->scale_end);
}

TEST_CASE("a tree of an unknown cultivar is told the span of its kind as said, not as needed") {
  const auto cards = cards_of();
  const Card unknown_card = card_of(cards, "B1");
  const auto* bar = chart_in<NeedBar>(unknown_card.body);
  REQUIRE(bar);
  // src/orchard/tables/species.csv: apples 200 to 1000 hours.
  if (bar->need) CHECK(bar->need_from_memory);
  CHECK_FALSE(says(unknown_card.verdict, "verdict.short-so-far-and"));
}

TEST_CASE("only trees for a crew have cuts to tick, the others say who or when") {
  const auto cards = cards_of();
  const auto boxes = [](const Card& card) {
    for (const List* list : blocks_of<List>(card.body)) {
      if (list->marker == List::Marker::box && !list->items.empty()) return true;
    }
    return false;
  };
  for (const char* id : {"A1", "A2", "A3", "A4", "B1", "D1"}) {
    INFO(id);
    CHECK(boxes(card_of(cards, id)));
  }
  const std::pair<const char*, const char*> kept[] = {
      {"B3", "cuts.arborist"}, {"C1", "cuts.summer"}, {"C2", "cuts.lead-first"}};
  for (const auto& [id, words] : kept) {
    INFO(id);
    CHECK_FALSE(boxes(card_of(cards, id)));
    CHECK(says(card_of(cards, id).body, words));
  }
}

TEST_CASE("without past winters a card speaks of no likely end") {
  ReportWish wish;
  wish.past_winters = false;
  const auto cards = cards_of(wish);
  const Card card = card_of(cards, "A3");
  const auto* bar = chart_in<NeedBar>(card.body);
  REQUIRE(bar);
  CHECK_FALSE(bar->likely);
  CHECK(says(card.verdict, "verdict.short-so-far"));
  CHECK_FALSE(says_any_of(card.body, "past"));
}

TEST_CASE("a winter that is over speaks of no more to come") {
  ReportWish wish;
  wish.last = date_of(2027, 3, 10);
  const auto cards = cards_of(wish);
  // 120 days of 18 hours: 2160, so A2 is met, and A3 short by 340.
  CHECK(card_of(cards, "A2").mark == MarkState::met);
  const Card short_one = card_of(cards, "A3");
  const auto* by = value_of<NumberRange>(message_in(short_one.verdict, "verdict.short"), "by");
  REQUIRE(by);
  CHECK(by->low == Approx(340));
}
