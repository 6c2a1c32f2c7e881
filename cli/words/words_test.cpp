#include "cli/words/words.h"

#include <doctest/doctest.h>

using namespace cli;
using namespace cli::words;

namespace {
const words::Wording kInch{planner::base::Units::inch, false, false};
const words::Wording kMetric{planner::base::Units::mm, false, false};
}  // namespace

TEST_SUITE("cli/words") {
  TEST_CASE("a length reads as it does on the rule") {
    CHECK(length_text(19.05, kInch) == "3/4 in");
    CHECK(length_text(604.8375, kInch) == "23 13/16 in");
    CHECK(length_text(355.6, kInch) == "14 in");
    CHECK(length_text(25.4 * 2.49, kInch) == "2 1/2 in");  // to the nearest 1/16
    CHECK(length_text(0.2, kInch) == "0 in");
    CHECK(length_text(-19.05, kInch) == "-3/4 in");
    CHECK(length_text(604.8375, kMetric) == "605 mm");
    CHECK(size_text({50.8, 31.75, 19.05}, kInch) == "2 x 1 1/4 x 3/4 in");
  }

  TEST_CASE("amounts to have ready are never rounded down") {
    CHECK(volume_text(29.5735, kInch) == "1 fl oz");
    CHECK(volume_text(30, kInch) == "1 fl oz");
    CHECK(volume_text(30.5, kInch) == "1 1/4 fl oz");
    CHECK(volume_text(473.176, kInch) == "16 fl oz");
    CHECK(volume_text(95.2, kMetric) == "96 ml");
    CHECK(glue_text(30, 33, kInch) == "1 fl oz (30 ml, 33 g)");
    CHECK(glue_text(30, 33, kMetric) == "30 ml (33 g)");
  }

  TEST_CASE("force, pressure and warmth come in the user's own units") {
    // 420 lbf is 1868 N, 25 psi is 0.1724 MPa, 64 F is 17.8 C.
    CHECK(force_text(1868.3, kInch) == "420 lbf");
    CHECK(force_text(305.2 * 4.44822, kInch) == "305 lbf");
    CHECK(force_text(1868.3, kMetric) == "1850 N");
    CHECK(force_text(304, kMetric) == "300 N");
    CHECK(force_text(9974, kMetric) == "9950 N");
    CHECK(force_text(9976, kMetric) == "10.0 kN");
    CHECK(moment_text(13558, kInch) == "10 lbf ft");
    CHECK(moment_text(13558, kMetric) == "14 N m");
    CHECK(pressure_text(0.17237, kInch) == "25 psi");
    CHECK(pressure_text(0.17237, kMetric) == "0.17 MPa");
    CHECK(temperature_text(17.78, kInch) == "64 F");
    CHECK(temperature_text(17.78, kMetric) == "18 C");
    CHECK(area_text(25.4 * 25.4 * 127.24, kInch) == "127.2 sq in");
  }

  TEST_CASE("the clock counts minutes and seconds, and hours when there are any") {
    CHECK(words::clock_text(0) == "0:00");
    CHECK(words::clock_text(425.4) == "7:05");
    CHECK(words::clock_text(59.6) == "1:00");
    CHECK(words::clock_text(3661) == "1:01:01");
    CHECK(words::clock_text(-9) == "-0:09");
    CHECK(words::duration_text(45) == "45 s");
    CHECK(words::duration_text(125) == "2 min 5 s");
    CHECK(words::duration_text(3600) == "1 h");
    CHECK(words::duration_text(5400) == "1 h 30 min");
    CHECK(words::duration_text(86400) == "24 h");
  }

  TEST_CASE("clamps that come off after midnight say so") {
    CHECK(words::time_of_day_text(14 * 60 + 30, 3600) == "15:30");
    CHECK(words::time_of_day_text(23 * 60 + 30, 3600) == "0:30 next day");
    CHECK(words::time_of_day_text(0, 49 * 3600.0) == "1:00, 2 days on");
  }

  TEST_CASE("lists and numbers are said as one says them") {
    CHECK(words::list_text({}) == "");
    CHECK(words::list_text({"front"}) == "front");
    CHECK(words::list_text({"front", "back", "left"}) == "front, back and left");
    CHECK(words::numbers_text({1, 2, 3, 4, 7}) == "1-4 and 7");
    CHECK(words::numbers_text({1, 2}) == "1 and 2");
    CHECK(words::numbers_text({3, 1, 4, 5, 6}) == "3, 1 and 4-6");  // an order is kept
    CHECK(words::count_text(0, "clamp") == "no clamps");
    CHECK(words::count_text(1, "clamp") == "1 clamp");
    CHECK(words::count_text(2, "batch") == "2 batches");
    CHECK(words::plural("dado") == "dadoes");
  }

  TEST_CASE("a name with control characters can't drive the terminal") {
    CHECK(words::printable("\x1b[2Jlid\n") == "?[2Jlid?");
    CHECK(words::printable("T\xC3\xBCr") == "T\xC3\xBCr");
    CHECK(words::printable("T\xFCr \xE4") == "T?r ?");  // another character set
    CHECK(words::printable("a\xE2\x80\xAE"
                           "b") == "a?b");  // right-to-left override
  }

  TEST_CASE("columns are what the eye counts, not bytes") {
    CHECK(words::columns("T\xC3\xBCr") == 3);
    CHECK(words::columns("\xE6\x9D\xBF") == 2);  // a CJK letter takes two
    CHECK(words::columns("e\xCC\x81") == 1);     // a combining accent takes none
    CHECK(words::padded("T\xC3\xBCr", 5) == "T\xC3\xBCr  ");
    CHECK(words::right_aligned("7", 3) == "  7");
    CHECK(words::columns("\xFF\xC3") == 2);  // broken bytes count as themselves
  }

  TEST_CASE("text is broken at blanks, and inside a word only when it must") {
    CHECK(words::wrapped("lower the top onto the walls", 12) ==
          std::vector<std::string>{"lower the", "top onto the", "walls"});
    CHECK(words::wrapped("abcdefgh ij", 4) == std::vector<std::string>{"abcd", "efgh", "ij"});
    CHECK(words::wrapped("", 10) == std::vector<std::string>{""});
  }

  TEST_CASE("a matter is told as fully as its line allows") {
    CHECK(words::fullest_that_fits({"ten heavy F clamps, have six", "10 heavy F"}, 30) ==
          "ten heavy F clamps, have six");
    CHECK(words::fullest_that_fits({"ten heavy F clamps, have six", "10 heavy F"}, 12) ==
          "10 heavy F");
    CHECK(words::fullest_that_fits({"ten heavy F clamps"}, 10) == "ten hea...");
  }

  TEST_CASE("a note becomes a sentence") {
    CHECK(words::as_sentence("fingers out of joints") == "Fingers out of joints.");
    CHECK(words::as_sentence("Already one.") == "Already one.");
    CHECK(words::as_sentence("") == "");
  }
}
