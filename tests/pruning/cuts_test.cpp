// Cut lists: which line wins for every tree, at most four in working order, and a stop rule that
// can be counted.
#include "pruning/cuts.h"

#include <map>
#include <set>

#include "base/csv_table.h"
#include "orchard/species.h"
#include "orchard/tree_words.h"
#include "pruning/window_rules.h"
#include "support/catch.h"
#include "support/trees.h"

using namespace winterfolio;
using namespace winterfolio::test;

namespace {

std::vector<std::string> ids_of(const std::vector<WordRow>& table) {
  std::vector<std::string> ids;
  for (const WordRow& row : table) ids.push_back(row.id);
  return ids;
}

std::vector<std::string> rules_in(const std::vector<CutLine>& lines) {
  std::vector<std::string> rules;
  for (const CutLine& line : lines) rules.push_back(line.rule);
  return rules;
}

CutList cuts(const Tree& tree, VerdictState chill = VerdictState::unknown) {
  return cuts_for(tree, *tree.state, {chill, std::nullopt});
}

Tree flagged(std::string species, TreeState state, std::vector<std::string> see_to,
             std::string disease = "") {
  Tree tree = tree_of(std::move(species), state);
  tree.see_to = std::move(see_to);
  tree.disease = std::move(disease);
  return tree;
}

const CutLine* line_for(const CutList& list, std::string_view wood) {
  for (const auto* lines : {&list.lines, &list.later})
    for (const CutLine& line : *lines)
      if (line.wood == wood) return &line;
  return nullptr;
}

}  // namespace

TEST_CASE("for every wood and tree exactly one line wins, and every line wins somewhere") {
  const CsvTable table = CsvTable::embedded("src/pruning/tables/cuts.csv");
  std::map<std::string, std::vector<CsvRow>> by_wood;
  for (const CsvRow row : table) by_wood[row.text("wood")].push_back(row);

  std::vector<std::string> species = species_ids();
  species.push_back("medlar");
  std::vector<std::string> forms = ids_of(forms_table());
  forms.push_back("");
  std::vector<std::string> diseases = ids_of(diseases_table());
  diseases.push_back("");
  std::set<std::string> reached;
  for (const auto& [wood, rows] : by_wood) {
    for (const std::string& kind : species) {
      for (const std::string& form : forms) {
        for (TreeState state : tree_states()) {
          for (const std::string& disease : diseases) {
            int best = -1;
            std::vector<std::string> winners;
            for (const CsvRow& row : rows) {
              // Place by place, as the table's header says it: 8 for disease, 4, 2, 1.
              int score = 0;
              int worth = 8;
              bool fits = true;
              const std::pair<const char*, std::string> places[] = {
                  {"disease", disease},
                  {"species", kind},
                  {"form", form},
                  {"state", std::string(id_of(state))}};
              for (const auto& [column, value] : places) {
                if (row.text(column) != "any") {
                  fits = fits && row.text(column) == value;
                  score += worth;
                }
                worth /= 2;
              }
              if (!fits || score < best) continue;
              if (score > best) winners.clear();
              best = score;
              winners.push_back(row.text("id"));
            }
            const CutRule* rule = cut_rule_for(wood, kind, form, state, disease);
            if (winners.size() != 1 || !rule || rule->id != winners[0]) {
              INFO(wood << " " << kind << " " << form << " " << id_of(state) << " " << disease);
              REQUIRE(winners.size() == 1);
              REQUIRE(rule);
              REQUIRE(rule->id == winners[0]);
            }
            reached.insert(rule->id);
          }
        }
      }
    }
  }
  for (const CutRule& rule : cut_rules()) {
    INFO(rule.id);
    CHECK(reached.count(rule.id) == 1);
  }
  CHECK(cut_rule_for("bark", "apple", "", TreeState::bearing, "") == nullptr);
}

TEST_CASE("every wood that a keeper can flag has a line, and all lines of a wood one rank") {
  for (const WordRow& wood : see_to_table()) {
    INFO(wood.id);
    CHECK(cut_rule_for(wood.id, "apple", "", TreeState::bearing, "fire_blight"));
  }
  std::map<std::string, int> ranks;
  for (const CutRule& rule : cut_rules()) {
    INFO(rule.id);
    CHECK(ranks.emplace(rule.wood, rule.rank).first->second == rule.rank);
    CHECK((rule.limit.of == "none") == !rule.limit.figure.has_value());
  }
  // First dead, diseased, damaged, then crowded, crossing, narrow, then inward, upright, from the
  // root, then the form: common practice, no source; dead, damaged and diseased first: Napa [S5],
  // Solano [S22], seen.
  const char* order[] = {"dead",     "diseased",    "damaged",      "crowded",
                         "crossing", "narrow",      "inward",       "water_sprouts",
                         "suckers",  "aim_of_form", "fruiting_wood"};
  for (std::size_t i = 1; i < std::size(order); ++i)
    CHECK(ranks.at(order[i - 1]) < ranks.at(order[i]));
}

TEST_CASE("a list has at most four lines in working order; the rest is named for later") {
  const CutList list = cuts(flagged("apple", TreeState::bearing,
                                    {"suckers", "crossing", "dead", "water_sprouts", "damaged"}));
  CHECK(rules_in(list.lines) ==
        std::vector<std::string>{"dead", "damaged", "crossing", "water_sprouts"});
  CHECK(rules_in(list.later) ==
        std::vector<std::string>{"suckers", "aim_of_form-bearing", "fruiting_wood-apple-bearing"});
  for (const std::string& kind : species_ids()) {
    for (TreeState state : tree_states()) {
      Tree tree = flagged(kind, state, ids_of(see_to_table()), "virus");
      for (const WordRow& form : forms_table()) {
        tree.form = form.id;
        const CutList full = cuts(tree);
        CHECK(full.lines.size() == 4);
        CHECK(full.lines[0].wood == "dead");
        for (std::size_t i = 1; i < full.lines.size(); ++i)
          CHECK(full.lines[i - 1].rank <= full.lines[i].rank);
      }
    }
  }
}

TEST_CASE("a tree with nothing flagged still gets its form, and its fruiting wood if it bears") {
  Tree peach = tree_of("peach");
  peach.form = "open_centre";
  CHECK(rules_in(cuts(peach).lines) ==
        std::vector<std::string>{"aim_of_form-open_centre-bearing", "fruiting_wood-peach-bearing"});
  peach.state = TreeState::formative;
  CHECK(rules_in(cuts(peach).lines) ==
        std::vector<std::string>{"aim_of_form-open_centre-formative"});
  CHECK(cuts(tree_of("other")).lines.empty());
}

TEST_CASE("a disease that nobody has named stops every cut until the lead has looked") {
  const auto only_ribbon = [](const Tree& tree) {
    const CutList list = cuts(tree);
    CHECK(list.wait_for_lead);
    CHECK(list.later.empty());
    REQUIRE(list.lines.size() == 1);
    CHECK(list.lines[0].rule == "diseased-unknown");
    CHECK(list.lines[0].limit.figure == Range{0, 0});
  };
  only_ribbon(flagged("apple", TreeState::bearing, {"dead", "diseased", "crowded"}));
  only_ribbon(flagged("apple", TreeState::bearing, {"dead"}, "unknown"));
  only_ribbon(flagged("apple", TreeState::bearing, {"dead"}, "purple wilt"));
  const CutList named = cuts(flagged("pear", TreeState::bearing, {"diseased"}, "fire_blight"));
  CHECK_FALSE(named.wait_for_lead);
  CHECK(named.lines[0].rule == "diseased-fire_blight");
  // A disease named is a flag, even where no wood is.
  CHECK(cuts(flagged("pear", TreeState::bearing, {}, "fire_blight")).lines[0].wood == "diseased");
}

TEST_CASE("cuts below disease keep the published distance") {
  const auto distance = [](const char* disease) {
    return cut_rule_for("diseased", "apple", "", TreeState::bearing, disease)->limit.figure->high;
  };
  // Illinois 6 to 12 in, ATTRA 8 to 12 in growing [S35], [S36]: seen, careful end.
  CHECK(distance("fire_blight") >= 12 * 2.5);
  // UC IPM: at least 12 in [S3], seen.
  CHECK(distance("eutypa") >= 30);
  // WSU: found in 18 % of samples at 3 in, in none at 5 in (12.7 cm) [S38], seen.
  CHECK(distance("bacterial_canker") >= 12.7);
  // City of Bismarck: 6 in [S144], seen.
  CHECK(distance("black_knot") >= 15);
}

TEST_CASE("after poor chill living wood is cut lightly and fruiting wood waits") {
  const Tree tree = flagged("apple", TreeState::bearing, {"dead", "crowded", "narrow"});
  for (VerdictState state : {VerdictState::short_of, VerdictState::undecided}) {
    const CutList list = cuts(tree, state);
    CHECK_FALSE(line_for(list, "fruiting_wood"));
    CHECK(line_for(list, "after_poor_chill"));
    const CutLine* crowded = line_for(list, "crowded");
    REQUIRE(crowded);
    CHECK(crowded->what == "cut.crowded.do");
    CHECK(crowded->stop == "cut.after_poor_chill.stop");
    CHECK(crowded->limit.figure == Range{0, 0});
    REQUIRE(crowded->capped_by);
    CHECK(crowded->capped_by->rule == "after_poor_chill");
    CHECK(line_for(list, "aim_of_form")->stop == "cut.after_poor_chill.stop");
    // Dead wood is not living wood, and an old fork keeps its own stricter rule.
    CHECK(line_for(list, "dead")->stop == "cut.dead.stop");
    CHECK(line_for(list, "narrow")->stop == "cut.narrow.stop");
  }
  for (VerdictState state : {VerdictState::met, VerdictState::nearly, VerdictState::unknown}) {
    const CutList list = cuts(tree, state);
    CHECK(line_for(list, "fruiting_wood"));
    CHECK_FALSE(line_for(list, "after_poor_chill"));
    CHECK_FALSE(line_for(list, "crowded")->capped_by);
  }
  // No line in the four lets a thick living limb go, even where the line that says so found no
  // room.
  const CutList full =
      cuts(flagged("apple", TreeState::neglected, {"dead", "crowded", "crossing", "inward"}),
           VerdictState::short_of);
  CHECK(rules_in(full.later).back() == "after_poor_chill");
  for (const CutLine& line : full.lines)
    if (line.wood != "dead") CHECK(line.stop == "cut.after_poor_chill.stop");
  // Suckers are none of the crown, and a bush's count of stems stays.
  CHECK(line_for(
            cuts(flagged("pomegranate", TreeState::bearing, {"suckers"}), VerdictState::short_of),
            "suckers")
            ->stop == "cut.suckers-pomegranate.stop");
  // A tree just planted has one thin cut to make, and keeps its count.
  const CutList planted = cuts(tree_of("apple", TreeState::planted), VerdictState::short_of);
  CHECK(line_for(planted, "aim_of_form")->stop == "cut.aim_of_form-planted.stop");
}

TEST_CASE("a lower share for the species outranks the rule's, in figures and in words") {
  // A quarter at most: UW-Madison [S9], seen; a fifth for kinds that need little: memory.
  Tree apple = tree_of("apple", TreeState::neglected);
  Tree apricot = tree_of("apricot", TreeState::neglected);
  CHECK(line_for(cuts(apple), "aim_of_form")->limit.figure == Range{25, 25});
  CHECK(line_for(cuts(apple), "aim_of_form")->stop == "cut.aim_of_form-neglected.stop");
  CHECK(line_for(cuts(apricot), "aim_of_form")->limit.figure == Range{20, 20});
  CHECK(line_for(cuts(apricot), "aim_of_form")->stop == "cut.aim_of_form-neglected.stop_fifth");
  apricot.state = TreeState::bearing;
  CHECK(line_for(cuts(apricot), "aim_of_form")->limit.figure == Range{20, 20});
  CHECK(line_for(cuts(apricot), "aim_of_form")->stop == "cut.aim_of_form-bearing.stop");
  // A higher one does not.
  CHECK(line_for(cuts(tree_of("fig", TreeState::neglected)), "aim_of_form")->limit.figure ==
        Range{25, 25});
  apricot.form = "natural";
  CHECK(line_for(cuts(apricot), "aim_of_form")->limit.figure == Range{10, 10});
  for (const std::string& kind : species_ids()) {
    INFO(kind);
    REQUIRE(max_canopy_share(kind));
    CHECK(*max_canopy_share(kind) <= 100.0 / 3.0);  // never more than a third: [S28], [S29], seen
  }
  CHECK_FALSE(max_canopy_share("medlar"));
}

TEST_CASE("the share of a peach's shoots is never a share of its crown") {
  // About half of the one-year shoots: Solano [S22], seen; the crown's cap is a quarter: [S9],
  // seen.
  const CutList list = cuts(tree_of("peach"));
  const CutLine* shoots = line_for(list, "fruiting_wood");
  CHECK(shoots->limit.of == "one_year_shoots_share_pct");
  CHECK(shoots->limit.figure == Range{40, 60});
  CHECK(line_for(list, "aim_of_form")->limit.of == "canopy_share_pct");
  CHECK(*max_canopy_share("peach") == 25.0);
}

TEST_CASE(
    "a tree that still holds its leaves gets no thick cut into living wood, and no less else") {
  // Common practice, no source: thick cuts wait until the tree has gone to rest.
  const Tree tree = flagged("apple", TreeState::neglected, {"dead", "crowded"});
  CutFacts facts;
  facts.leaves_held = Evidence{"leaves-held", "source", RuleMark::seen};
  const CutList list = cuts_for(tree, TreeState::neglected, facts);
  CHECK(line_for(list, "crowded")->stop == "cut.leaves_held.stop");
  CHECK(line_for(list, "crowded")->limit.figure == Range{0, 0});
  CHECK(line_for(list, "crowded")->capped_by->rule == "leaves-held");
  CHECK(line_for(list, "dead")->stop == line_for(cuts(tree), "dead")->stop);
  facts.chill = VerdictState::short_of;  // the stricter of the two
  CHECK(line_for(cuts_for(tree, TreeState::neglected, facts), "crowded")->stop ==
        "cut.after_poor_chill.stop");
}

TEST_CASE("a window without heavy cuts tightens the lines that count them") {
  const Tree tree = flagged("quince", TreeState::neglected, {"crowded", "crossing"});
  CutFacts facts;
  facts.no_heavy_cuts = Evidence{"quince", "source", RuleMark::seen};
  const CutList list = cuts_for(tree, TreeState::neglected, facts);
  CHECK(line_for(list, "crowded")->stop == "cut.no_heavy_cut.stop");
  CHECK(line_for(list, "crowded")->capped_by->rule == "quince");
  CHECK(line_for(list, "aim_of_form")->stop == "cut.no_heavy_cut.stop");
  CHECK(line_for(list, "crossing")->stop == "cut.crossing-neglected.stop");
  facts.chill = VerdictState::short_of;  // the stricter of the two
  CHECK(line_for(cuts_for(tree, TreeState::neglected, facts), "crowded")->stop ==
        "cut.after_poor_chill.stop");
}
