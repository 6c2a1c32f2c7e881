#include "planner/base/quantity_text.h"

#include <cmath>
#include <cstdint>
#include <string>
#include <vector>

#include <doctest/doctest.h>

namespace planner::base {
namespace {

std::int64_t nm(const std::string& text, Units bare = Units::mm) {
  const Reading<geometry::Length> read = length_from(text, bare);
  CAPTURE(text);
  CAPTURE(read.wrong);
  REQUIRE(read.value.has_value());
  return read.value->nanometres();
}

std::string refusal(const std::string& text, Units bare = Units::mm) {
  const Reading<geometry::Length> read = length_from(text, bare);
  CAPTURE(text);
  CHECK_FALSE(read.value.has_value());
  CHECK_FALSE(read.wrong.empty());
  return read.wrong + "; " + read.remedy;
}

TEST_SUITE("planner/quantity_text") {
  // An inch is 25 400 000 nm, so a sixty-fourth is 396 875 nm.
  TEST_CASE("a length reads the same however the shop writes it") {
    const std::int64_t wanted = (23 * 64 + 52) * std::int64_t{396'875};
    for (const char* text :
         {"23 13/16 in",     "23-13/16\"",       "1' 11 13/16\"", "23 13/16″",
          "23–13/16 inches", "1 ft 11 13/16 in", "23 13⁄16”",     "1’ 11 13/16”",
          "1'-11 13/16\"",   "604.8375mm",       "60.48375 cm",   "0.6048375 m",
          "23.8125 in",      "23\u00a013/16 IN", "23 13/16 in.",  "381/16 in",
          "1' 11 13/16''",   "+23 13/16 in",     " 23 13/16 in ", "604_8375e-4 mm"}) {
      CAPTURE(text);
      CHECK(nm(text) == wanted);
    }
    CHECK(nm("23½\"") == nm("23 1/2 in"));
    CHECK(nm("23-½ in") == nm("23 1/2 in"));
    CHECK(nm("⅞ in") == 56 * 396'875);
  }

  // Outside, definition: international yard and pound (1959): an inch is 25.4 mm
  TEST_CASE("every sixty-fourth of an inch is exact") {
    for (int i = 1; i <= 24 * 64; ++i) {
      CHECK(nm(std::to_string(i) + "/64 in") == i * std::int64_t{396'875});
    }
  }

  TEST_CASE("a length without a unit takes the file's") {
    CHECK(nm("3/4", Units::inch) == 19'050'000);
    CHECK(nm("19", Units::mm) == 19'000'000);
    CHECK(nm("0.1", Units::mm) == 100'000);
    CHECK(nm("-2 1/2", Units::inch) == -63'500'000);
  }

  TEST_CASE("a decimal is the decimal it is, and finer than a nanometre is rounded") {
    CHECK(nm("0.000001 mm") == 1);
    CHECK(nm("0.0000004999999999999999999999999 mm") == 0);
    CHECK(nm("0.0000005 mm") == 1);
    CHECK(nm("-0.0000005 mm") == -1);
    // 17 digits that a double cannot hold apart.
    CHECK(nm("1000.00000149999999999 mm") == 1'000'000'001);
    CHECK(nm("1000.00000150000000000 mm") == 1'000'000'002);
    CHECK(nm("1/3 in") == 8'466'667);
  }

  TEST_CASE("a length written out reads back as itself") {
    CHECK(to_text(geometry::Length::in_64ths(23 * 64 + 52), Units::inch) == "23 13/16 in");
    CHECK(to_text(geometry::Length::in_64ths(-48), Units::inch) == "-3/4 in");
    CHECK(to_text(geometry::Length::nm(18'000'000), Units::mm) == "18 mm");
    CHECK(to_text(geometry::Length::nm(-500'001), Units::mm) == "-0.500001 mm");
    CHECK(to_text(geometry::Length::nm(18'000'000), Units::inch) == "18 mm");
    for (std::int64_t n = 1, step = 1; n < 30'000'000'000; n += step, step = step * 3 / 2 + 1) {
      for (const Units units : {Units::mm, Units::inch}) {
        CHECK(nm(to_text(geometry::Length::nm(n), units)) == n);
        CHECK(nm(to_text(geometry::Length::in_64ths(n % 70'000), units)) == n % 70'000 * 396'875);
      }
    }
  }

  TEST_CASE("what is no length is refused with the reason") {
    CHECK(refusal("1/0 in") ==
          "a fraction over 0 is no number; write the fraction with another denominator");
    CHECK(refusal("604,8 mm") == "a comma is not a decimal point here; write \"604.8 mm\"");
    CHECK(refusal("1,200 mm") ==
          "a comma is not a decimal point here; write \"1.200 mm\" or \"1200 mm\"");
    CHECK(refusal("23 17/16 in").find("write 24 1/16") != std::string::npos);
    CHECK(refusal("31 m") == "it is over 30 m; check the unit");
    CHECK(refusal("-31 m") == "it is over 30 m; check the unit");
    CHECK(refusal("3 thou").find("\"thou\" is not a unit of length") == 0);
    CHECK(refusal("nan").find("it is not a length") == 0);
    CHECK(refusal("") ==
          "it is empty; write a length such as \"19 mm\", \"3/4 in\" or \"23 13/16 in\"");
    CHECK(refusal("1.5' 3\"").find("whole feet") != std::string::npos);
    CHECK(refusal("99999999999999999999 mm").find("far too large") != std::string::npos);
    for (const char* text :
         {"wide", "3 in 4 in",   "1/2/3 in",        "--3",  "3/4 1/2 in",  "1.2.3 mm", "1e99 mm",
          "3;4",  "3\" 4'",      "5' 3 mm",         ".",    "/4",          "3/",       "3/4in/2",
          "\x80", "1e400000000", "1/9999999999 in", "0x10", "200000' 3\"", "½½ in",    "-",
          "mm"}) {
      refusal(text);
    }
  }

  TEST_CASE("every refusal of a length says what to write") {
    for (const char* text : {"wide", "1.2.3 mm", "3;4", ".", "-", "mm", "½½ in"}) {
      CHECK(length_from(text, Units::mm).remedy.find("write") == 0);
    }
  }

  TEST_CASE("times need their unit, or a clock's colon") {
    CHECK(seconds_from("10 min").value == 600.0);
    CHECK(seconds_from("90 s").value == 90.0);
    CHECK(seconds_from("1 h").value == 3600.0);
    CHECK(seconds_from("1 h 30 min").value == 5400.0);
    CHECK(seconds_from("8:30").value == 510.0);
    CHECK(seconds_from("2 ½ min").value == 150.0);
    CHECK(seconds_from("10").wrong == "it has no unit");
    CHECK(seconds_from("8:75").wrong == "it has more than 59 seconds");
    CHECK(seconds_from("8:3").wrong == "it is not minutes and seconds");
    CHECK(seconds_from("10 mi").wrong == "\"mi\" is not a unit of time");
  }

  // Outside, definition: degree Fahrenheit, US fluid ounce 29.5735 ml, pound-force 4.44822 N
  TEST_CASE("temperatures, volumes, masses, angles and forces read in the units of the trade") {
    CHECK(celsius_from("20 C").value == 20.0);
    CHECK(celsius_from("68 F").value == doctest::Approx(20).epsilon(1e-12));
    CHECK(celsius_from("-40 °F").value == doctest::Approx(-40).epsilon(1e-12));
    CHECK(celsius_from("20").wrong == "it has no unit");
    CHECK(millilitres_from("8 fl oz").value == doctest::Approx(236.588));  // US, 29.5735 ml
    CHECK(millilitres_from("1/2 l").value == 500.0);
    CHECK(degrees_from("45 deg").value == 45.0);
    CHECK(degrees_from("22.5°").value == 22.5);
    CHECK(newtons_from("420 lbf").value == doctest::Approx(1868.25));
    CHECK(newtons_from("1 kN").value == 1000.0);
  }

  TEST_CASE("a pace is a time per length or per area") {
    CHECK(*seconds_per_mm_from("15 s per ft").value == doctest::Approx(15 / 304.8));
    CHECK(*seconds_per_mm_from("15 s/ft").value == doctest::Approx(15 / 304.8));
    CHECK(*seconds_per_mm_from("5 s per 10 cm").value == doctest::Approx(0.05));
    CHECK(*seconds_per_mm2_from("60 s per sq ft").value == doctest::Approx(60 / 92903.04));
    CHECK(*seconds_per_mm2_from("60 s/ft²").value == doctest::Approx(60 / 92903.04));
    CHECK(seconds_per_mm_from("15 s").wrong == "it has no \"per\"");
    CHECK(seconds_per_mm_from("0 s per ft").wrong == "a time must be above zero");
    CHECK(seconds_per_mm_from("15 s per sq ft").wrong == "\"sq ft\" is not a unit of length");
    CHECK(seconds_per_mm2_from("1 s per 0 m2").wrong == "it is per nothing");
  }
}

}  // namespace
}  // namespace planner::base
