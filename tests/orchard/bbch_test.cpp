// The codes by which bloom is recorded, against the published scale.
#include <map>

#include "orchard/growth_stages.h"
#include "orchard/observations.h"
#include "support/catch.h"

using namespace winterfolio;

TEST_CASE("codes of bloom as the BBCH monograph has them") {
  // Source: Meier, U. (ed.) 2001, BBCH Monograph, 2nd ed. (codes seen in public copies of the pome
  // and stone fruit scales; 67 and 69 of stone fruit from memory).
  const std::map<std::string, std::pair<int, int>> expected = {
      {"pink_or_white_bud", {57, 59}},  // petals just seen to balloon
      {"first_bloom", {60, 61}},        // first flowers open, 10 % open
      {"full_bloom", {65, 65}},         // at least 50 % open
      {"petal_fall", {69, 69}},         // all petals down
      {"leaves_fallen", {97, 97}},      // all leaves down
      {"leaf_yellowing", {92, 92}},     // leaves begin to discolour
  };
  for (const auto& [id, codes] : expected) {
    const ObservationRow* row = find_observation(id);
    INFO(id);
    REQUIRE(row != nullptr);
    CHECK(row->bbch_low == codes.first);
    CHECK(row->bbch_high == codes.second);
    CHECK(find_growth_stage(codes.first) != nullptr);
  }
  CHECK(find_growth_stage(61)->pome_fruit.find("10 %") != std::string::npos);
  for (const auto& [code, share] : {std::pair{62, "20 %"}, {63, "30 %"}, {64, "40 %"}}) {
    INFO(code);  // 64 of stone fruit from memory
    CHECK(find_growth_stage(code)->pome_fruit.find(share) != std::string::npos);
    CHECK(find_growth_stage(code)->stone_fruit.find(share) != std::string::npos);
  }
  CHECK(find_growth_stage(93)->pome_fruit.find("leaf fall begins") != std::string::npos);
  CHECK(find_growth_stage(95)->pome_fruit.find("half the leaves") != std::string::npos);
  CHECK(find_growth_stage(65)->stone_fruit.find("at least 50 %") != std::string::npos);
  CHECK(find_growth_stage(67)->pome_fruit.find("most petals down") != std::string::npos);
  CHECK(find_growth_stage(69)->pome_fruit.find("all petals down") != std::string::npos);
}

TEST_CASE("stone fruit has no codes 07 and 52, pome fruit has") {
  // Source: as above.
  for (const int code : {7, 52}) {
    INFO(code);
    REQUIRE(find_growth_stage(code) != nullptr);
    CHECK_FALSE(find_growth_stage(code)->pome_fruit.empty());
    CHECK(find_growth_stage(code)->stone_fruit.empty());
  }
  for (const GrowthStage& stage : growth_stages_table()) {
    INFO(stage.code);
    CHECK(stage.code >= 0);
    CHECK(stage.code <= 97);
    CHECK_FALSE(stage.pome_fruit.empty());
    CHECK(stage.stone_fruit.empty() == (stage.code == 7 || stage.code == 52));
  }
}
