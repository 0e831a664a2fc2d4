#include "base/measure.hpp"

#include <doctest/doctest.h>

#include <cmath>
#include <string>
#include <utility>
#include <vector>

#include "base/problem.hpp"

namespace ballchange {
namespace {

template <typename Call>
std::string message_of(Call call) {
  try {
    (void)call();
  } catch (const Problem& problem) {
    CHECK(problem.fault() == Fault::content);
    return problem.what();
  }
  return "no problem";
}

TEST_CASE("lengths are read exactly") {
  // Factors: NIST Handbook 44, Appendix C: 1 in = 2.54 cm, 1 yd = 0.9144 m, exact.
  struct Case {
    const char* text;
    double cm;
  };
  const std::vector<Case> cases = {{"15", 15},
                                   {"15 cm", 15},
                                   {"15cm", 15},
                                   {" 15.25 CM ", 15.25},
                                   {"150 mm", 15},
                                   {"1.5 m", 150},
                                   {"1 in", 2.54},
                                   {"1ft", 30.48},
                                   {"1 yd", 91.44},
                                   {"3 1/2in", 8.89},
                                   {"3½ in", 8.89},
                                   {"3 ½in", 8.89},
                                   {"½ in", 1.27},
                                   {"1/2 in", 1.27},
                                   {"1yd 6in", 106.68},
                                   {"1 yd 6 in", 106.68},
                                   {"1yd6in", 106.68},
                                   {"1yd 1ft 1/2in", 123.19},
                                   {"2m 5cm 5mm", 205.5},
                                   {"0 m", 0},
                                   {"3 3/8 in", 8.5725},
                                   {"⅞in", 2.2225},
                                   {"1 m 50", -1},
                                   {"15\u00a0cm", 15}};
  for (const Case& c : cases) {
    CAPTURE(c.text);
    if (c.cm < 0) {
      CHECK_THROWS_AS((void)parse_length(c.text, {}, "allowance"), Problem);
      continue;
    }
    CHECK(std::abs(parse_length(c.text, {}, "allowance").cm() - c.cm) < 1e-12 * (1 + c.cm));
  }
}

TEST_CASE("a compound is held in its finest unit") {
  const Written written = parse_written("1yd 6in", Unit::cm, "length");
  CHECK(written.unit == Unit::in);
  CHECK(written.number == 42);
  CHECK(parse_written("2 ft", Unit::cm, "length").unit == Unit::ft);
  CHECK(parse_written("12", Unit::in, "length").unit == Unit::in);
}

TEST_CASE("a length that does not hold is refused with what would be right") {
  struct Case {
    const char* text;
    const char* message;
  };
  const std::vector<Case> cases = {
      {"60,5 cm", "allowance: decimals take a point: write 60.5"},
      {"1,234.5", "allowance: decimals take a point: write 1.234"},
      {"", "allowance: nothing written: write a length, like 15 or 3 1/2in"},
      {"  ", "allowance: nothing written: write a length, like 15 or 3 1/2in"},
      {"-5 cm", "allowance: '-5 cm' is below zero: leave out the minus"},
      {"−5", "allowance: '−5' is below zero: leave out the minus"},
      {"long", "allowance: 'long' is not a length, like 15 or 3 1/2in"},
      {"inf", "allowance: 'inf' is not a length, like 15 or 3 1/2in"},
      {"nan", "allowance: 'nan' is not a length, like 15 or 3 1/2in"},
      {".5 cm", "allowance: '.5 cm' has no digit before the point: write 0.5 cm"},
      {"1yd .5 in", "allowance: '1yd .5 in' has no digit before the point: write 0.5 in"},
      {". cm", "allowance: '. cm' is not a length, like 15 or 3 1/2in"},
      {"-.5", "allowance: '-.5' is below zero: leave out the minus"},
      {"–5 cm", "allowance: '–5 cm' is below zero: leave out the minus"},
      {"10-12 cm", "allowance: '10-12 cm' has a dash in it: write one number, like 15 or 3 1/2"},
      {"3-1/2 in", "allowance: '3-1/2 in' has a dash in it: write one number, like 15 or 3 1/2"},
      {"15,", "allowance: '15,' is not a length, like 15 or 3 1/2in"},
      {"1yd 1ft 1in 1in 1in", "allowance: '1yd 1ft 1in 1in 1in' is not a length, like 15 or 3 1/2in"},
      {"5. cm", "allowance: '5.' breaks off after the point: write 5.0"},
      {"1.0.2", "allowance: '1.0.2' has two points in it: write it with one"},
      {"1..2 cm", "allowance: '1..2 cm' has two points in it: write it with one"},
      {"1e3", "allowance: '1e3' has an exponent: write the number out, like 1500 or 0.1"},
      {"1e-1", "allowance: '1e-1' has an exponent: write the number out, like 1500 or 0.1"},
      {"2.5E+2 cm", "allowance: '2.5E+2 cm' has an exponent: write the number out, like 1500 or 0.1"},
      {"1e", "allowance: no unit 'e': write mm, cm, m, in, ft, yd or st"},
      {"1 ell", "allowance: no unit 'ell': write mm, cm, m, in, ft, yd or st"},
      {"5 furlong", "allowance: no unit 'furlong': write mm, cm, m, in, ft, yd or st"},
      {"1234567890123", "allowance: a number has at most 12 digits"},
      {"1234567.123456", "allowance: a number has at most 12 digits"},
      {"101 km", "allowance: no unit 'km': write mm, cm, m, in, ft, yd or st"},
      {"100001 m", "allowance: '100001 m' is too long: at most 100 000 m, or 10 million st"},
      {"10000001 st", "allowance: '10000001 st' is too long: at most 100 000 m, or 10 million st"},
      {"6in 1yd", "allowance: yd after in: write the longer unit first, like 1yd 6in"},
      {"1in 1in", "allowance: in after in: write the longer unit first, like 1yd 6in"},
      {"1m 6in", "allowance: m and in don't add up: write the whole length in one of them"},
      {"1in 5st", "allowance: in and st don't add up: write the whole length in one of them"},
      {"1yd 6", "allowance: '1yd 6' has a number without a unit: write each, like 1yd 6in"},
      {"15 16", "allowance: '15 16' has a number without a unit: write each, like 1yd 6in"},
      {"3 5/2 in", "allowance: 3 and a fraction of one or more: write a plain number"},
      {"1/0 in", "allowance: '1/0 in' is not a length, like 15 or 3 1/2in"},
      {"15 cm.", "allowance: '15 cm.' is not a length, like 15 or 3 1/2in"},
      {"5 cm \x1B[0m", "allowance: '5 cm \\x1B[0m' is not a length, like 15 or 3 1/2in"}};
  for (const Case& c : cases) {
    CAPTURE(c.text);
    CHECK(message_of([&] { return parse_written(c.text, Unit::cm, "allowance"); }) == c.message);
  }
}

TEST_CASE("stitches become yarn by the yarn per stitch, or stay as they are") {
  Ruler ruler;
  CHECK(message_of([&] { return parse_length("2 st", ruler, "tolerance"); }) ==
        "tolerance: stitches, but the yarn per stitch is not known: write cm or in, or tell the yarn per stitch");
  ruler.ask_for_stitch = "knit";
  CHECK(message_of([&] { return parse_length("2 st", ruler, "tolerance"); }) ==
        "tolerance: stitches, but the yarn per stitch is not known: write cm or in, or knit");
  ruler.yarn_per_stitch = 1.85_cm;
  CHECK(std::abs(parse_length("2 st", ruler, "tolerance").cm() - 3.7) < 1e-12);
  const Ruler stitches{Unit::st, std::nullopt, true};
  CHECK(parse_length("14", stitches, "length").cm() == 14);
  CHECK(parse_length("14 st", stitches, "length").cm() == 14);
  CHECK(message_of([&] { return parse_length("14 cm", stitches, "length"); }) ==
        "length: cm for a yarn that is reckoned in stitches: write st, or tell the yarn per stitch");
}

TEST_CASE("masses are read exactly") {
  // 1 lb = 453.59237 g, 1 oz = 1/16 lb (NIST Handbook 44, Appendix C).
  CHECK(parse_mass("50.2 g", "mass").g() == 50.2);
  CHECK(parse_mass("50", "mass").g() == 50);
  CHECK(parse_mass("1.5kg", "mass").g() == 1500);
  CHECK(std::abs(parse_mass("1 lb", "mass").g() - 453.59237) < 1e-12);
  CHECK(std::abs(parse_mass("3 1/2 oz", "mass").g() - 99.2233309375) < 1e-12);
  CHECK(std::abs(parse_mass("1lb 4oz", "mass").g() - 566.9904625) < 1e-12);
  CHECK(message_of([] { return parse_mass("50,2 g", "mass"); }) == "mass: decimals take a point: write 50.2");
  CHECK(message_of([] { return parse_mass("50 cm", "mass"); }) == "mass: no unit 'cm': write g, kg, oz or lb");
  CHECK(message_of([] { return parse_mass("-1 g", "mass"); }) == "mass: '-1 g' is below zero: leave out the minus");
  CHECK(message_of([] { return parse_mass("4oz 1lb", "mass"); }) == "mass: write the larger unit first, like 1lb 4oz");
  CHECK(message_of([] { return parse_mass("1001 kg", "mass"); }) == "mass: '1001 kg' is too heavy: at most 1000 kg");
}

TEST_CASE("a share is per cent or a part of one") {
  CHECK(std::abs(parse_share("95 %", "sure") - 0.95) < 1e-15);
  CHECK(std::abs(parse_share("95%", "sure") - 0.95) < 1e-15);
  CHECK(parse_share("0.95", "sure") == 0.95);
  CHECK(parse_share("100%", "sure") == 1);
  CHECK(message_of([] { return parse_share("95", "sure"); }) ==
        "sure: '95' is more than the whole: write 0 % to 100 %, like 95 % or 0.95");
  CHECK(message_of([] { return parse_share("101 %", "sure"); }) ==
        "sure: '101 %' is more than the whole: write 0 % to 100 %, like 95 % or 0.95");
  CHECK(message_of([] { return parse_share("5 cm", "sure"); }) ==
        "sure: '5 cm' is not a share: write it like 95 % or 0.95");
  CHECK(message_of([] { return parse_share("200%", "sure", "50 % to 99 %"); }) ==
        "sure: '200%' is more than the whole: write 50 % to 99 %");
  CHECK(message_of([] { return parse_share("95,5%", "sure"); }) == "sure: decimals take a point: write 95.5 %");
  CHECK(message_of([] { return parse_share("95 %%", "sure"); }) ==
        "sure: '95 %%' is not a share: write it like 95 % or 0.95");
  CHECK(message_of([] { return parse_share("%", "sure"); }) ==
        "sure: nothing written: write a share, like 95 % or 0.95");
}

TEST_CASE("a tape's error has a fixed part, a share, or both") {
  const auto tape = [](std::string_view text) { return parse_tape(text, {}, "tape"); };
  CHECK(std::abs(tape("0.5 cm + 1 %").fixed.cm() - 0.5) < 1e-15);
  CHECK(std::abs(tape("0.5 cm + 1 %").share - 0.01) < 1e-15);
  CHECK(std::abs(tape("2% + 1/4in").fixed.cm() - 0.635) < 1e-15);
  CHECK(tape("0.5cm").share == 0);
  CHECK(tape("2 %").fixed.cm() == 0);
  const std::string nothing = "tape: nothing written: write a length, like 15 or 3 1/2in";
  const auto once = [](const std::string& text) {
    return "tape: '" + text + "': write one length and one share, like 0.5 cm + 1 %";
  };
  const std::vector<std::pair<std::string, std::string>> wrong{
      {"", nothing},
      {"+", nothing},
      {"1 % + 2 %", once("1 % + 2 %")},
      {"1cm + 2cm", once("1cm + 2cm")},
      {"1cm +", once("1cm +")},
      {"0.5 cm 1 %", "tape: '0.5 cm 1 %' needs a + between length and share: write 0.5 cm + 1 %"},
      {"1 cm + 1 % + 1 %", once("1 cm + 1 % + 1 %")}};
  for (const auto& row : wrong) CHECK(message_of([&] { return tape(row.first); }) == row.second);
}

TEST_CASE("the step is the largest that divides every number written") {
  const auto step = [](const std::vector<double>& numbers) { return written_step(numbers, Unit::in); };
  CHECK(step({15, 11, 30}) == 1);
  CHECK(step({15, 11.5}) == 0.5);
  CHECK(step({15.25, 11.5}) == 0.25);
  CHECK(step({3.375}) == 0.125);
  CHECK(step({15.1, 11.5}) == 0.1);
  CHECK(step({0.3, 60.7, 1234.9}) == 0.1);
  CHECK(step({15.1, 11.25}) == 0);
  CHECK(step({1.0 / 3}) == 0);
  CHECK(written_step(std::vector<double>{14, 3}, Unit::st) == 1);
}

TEST_CASE("units are known by name, case ignored, and by length") {
  for (const Unit unit : {Unit::mm, Unit::cm, Unit::m, Unit::in, Unit::ft, Unit::yd, Unit::st}) {
    CHECK(unit_named(unit_name(unit)) == unit);
  }
  CHECK(unit_named("IN") == Unit::in);
  CHECK_FALSE(unit_named("inch"));
  CHECK_FALSE(unit_named(""));
  CHECK(std::abs(unit_length(Unit::ft, {}).cm() - 30.48) < 1e-15);
  CHECK(unit_length(Unit::st, {Unit::st, std::nullopt, true}).cm() == 1);
}

TEST_CASE("a ball band gives tex") {
  // ISO 1144: tex = g per 1000 m; 125 m in 50 g is 400 tex.
  const double metres = parse_length("125 m", {}, "ball").cm() / 100;
  CHECK(std::abs(parse_mass("50 g", "ball").g() / metres * 1000 - 400) < 1e-9);
}

}  // namespace
}  // namespace ballchange
