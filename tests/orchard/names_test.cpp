// Names are the same whatever keyboard they were written on.
#include "orchard/names.h"

#include "support/catch.h"

using namespace winterfolio;

TEST_CASE("capitals, accents, apostrophes, hyphens and blanks make no other name") {
  CHECK(same_name("Cox's Orange Pippin", "COX\u2019S orange-pippin"));
  CHECK(same_name("Cox's Orange Pippin", "Coxs  Orange Pippin"));
  CHECK(same_name("Búlida", "bulida"));
  CHECK(same_name("Bu\u0301lida", "Búlida"));  // the accent as a character of its own
  CHECK(same_name("Ferragnès", "FERRAGNES"));
  CHECK(same_name("Straße", "strasse"));
  CHECK(same_name("Łódź", "lodz"));
  CHECK(same_name("St. Julien", "St Julien"));
  CHECK(same_name("M\u00A0106", "m 106"));
  CHECK(same_name("open_centre", "Open centre"));
}

TEST_CASE("other letters, figures and order make another name") {
  CHECK_FALSE(same_name("Anna", "Hanna"));
  CHECK_FALSE(same_name("M106", "M 106"));
  CHECK_FALSE(same_name("Old Gate", "Gate Old"));
  CHECK_FALSE(same_name("", "Anna"));
}

TEST_CASE("folding keeps what it does not know, and ends have no blanks") {
  CHECK(folded_name("  Anna  ") == "anna");
  CHECK(folded_name("梨") == "梨");
  CHECK(folded_name("'") == "");
  CHECK(folded_name("\xFF") == "\xFF");
}
