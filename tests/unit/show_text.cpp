#include "show/text.hpp"

#include <doctest/doctest.h>

#include <string>

namespace ballchange {
namespace {

TEST_CASE("what a yarn is said to have is told in yards from 4 yd on") {
  CHECK(section_length(365_cm, Told::inches) == "143 3/4 in");
  CHECK(section_length(366_cm, Told::inches) == "4 yd");
  CHECK(section_length(450_cm, Told::inches) == "4.9 yd");
  CHECK(section_length(450_cm, Told::centimetres) == "4.5 m");
}

TEST_CASE("lengths are told as a tape can hold them") {
  struct Case {
    double cm;
    Told told;
    const char* text;
  };
  for (const Case& c : {Case{48, Told::centimetres, "48 cm"},
                        {48.26, Told::centimetres, "48.5 cm"},
                        {48.24, Told::centimetres, "48 cm"},
                        {-3.1, Told::centimetres, "3 cm"},
                        {0.1, Told::centimetres, "0 cm"},
                        {99.7, Told::centimetres, "99.5 cm"},
                        {99.8, Told::centimetres, "1 m"},
                        {160, Told::centimetres, "1.6 m"},
                        {1234.4, Told::centimetres, "12.34 m"},
                        {47.625, Told::inches, "18 3/4 in"},
                        {1.27, Told::inches, "1/2 in"},
                        {25.4, Told::inches, "10 in"},
                        {1000, Told::inches, "10.9 yd"},
                        {14.4, Told::stitches, "14 stitches"},
                        {1, Told::stitches, "1 stitch"}}) {
    CAPTURE(c.cm);
    CHECK(tape(Length::cm(c.cm), c.told) == c.text);
  }
}

TEST_CASE("amounts from a metre on are told in metres") {
  CHECK(amount(186_cm, Told::centimetres) == "1.86 m");
  CHECK(amount(99.5_cm, Told::centimetres) == "99.5 cm");
  CHECK(amount(270_cm, Told::centimetres) == "2.7 m");
  CHECK(amount(192_cm, Told::inches) == "2.1 yd");
}

TEST_CASE("what is known less well than a tape holds is told with fewer digits") {
  struct Case {
    double cm, doubt;
    Told told;
    const char* text;
  };
  for (const Case& c : {Case{9165, 230, Told::centimetres, "92 m"},
                        {263.4, 12, Told::centimetres, "2.6 m"},
                        {263.4, 4, Told::centimetres, "2.63 m"},
                        {77, 12, Told::centimetres, "80 cm"},
                        {77.5, 9, Told::centimetres, "77.5 cm"},
                        {3, 12, Told::centimetres, "3 cm"},  // better than nothing at all
                        {9165, 230, Told::inches, "100 yd"},
                        {263.4, 12, Told::inches, "2.9 yd"},
                        {111, 12, Told::stitches, "110 stitches"}}) {
    CAPTURE(c.cm);
    CAPTURE(c.doubt);
    CHECK(tape(Length::cm(c.cm), c.told, Length::cm(c.doubt)) == c.text);
    CHECK(amount(Length::cm(c.cm), c.told, Length::cm(c.doubt)) == c.text);
  }
  CHECK(tape_range(5_cm, 15_cm, Told::centimetres) == "5 to 15 cm");
  CHECK(tape_range(60_cm, 120_cm, Told::centimetres) == "60 cm to 1.2 m");
}

TEST_CASE("nobody is told that something is certain, or surer than it is") {
  CHECK(percent(1) == "over 99 %");
  CHECK(percent(0.996) == "over 99 %");
  CHECK(percent(0.994) == "99 %");
  CHECK(percent(0.9499) == "94 %");
  CHECK(percent(0.001) == "under 1 %");
}

TEST_CASE("how much further to measure is rounded up, in steps nobody minds") {
  struct Case {
    double cm;
    Told told;
    const char* text;
  };
  for (const Case& c : {Case{0.2, Told::centimetres, "5 cm"},
                        {45, Told::centimetres, "45 cm"},
                        {45.2, Told::centimetres, "50 cm"},
                        {201, Told::centimetres, "2.1 m"},
                        {1001, Told::centimetres, "11 m"},
                        {26, Told::inches, "12 in"},
                        {300, Told::inches, "3 1/2 yd"},
                        {12.4, Told::stitches, "13 stitches"},
                        {31, Told::stitches, "35 stitches"}}) {
    CAPTURE(c.cm);
    CHECK(at_least(Length::cm(c.cm), c.told) == c.text);
  }
}

TEST_CASE("what is typed as an option is a step of the tape, up or down") {
  CHECK(typed_length(rounded_up(4.51_cm, Told::centimetres), Told::centimetres) == "5");
  CHECK(typed_length(rounded_up(4.5_cm, Told::centimetres), Told::centimetres) == "4.5");
  CHECK(typed_length(rounded_down(4.9_cm, Told::centimetres), Told::centimetres) == "4.5");
  CHECK(typed_length(rounded_up(2_cm, Told::inches), Told::inches) == "1");
  CHECK(typed_length(rounded_down(2.6_cm, Told::inches), Told::inches) == "1");
  CHECK(typed_length(rounded_up(1.9_cm, Told::inches), Told::inches) == "0.75");
}

TEST_CASE("give or take is never nothing and never too little") {
  CHECK(give_or_take(0_cm, Told::centimetres) == "0.5 cm");
  CHECK(give_or_take(1.17_cm, Told::centimetres) == "1.5 cm");
  CHECK(give_or_take(1_cm, Told::inches) == "1/2 in");
  CHECK(give_or_take(1.2_cm, Told::stitches) == "2 stitches");
  CHECK(give_or_take(48.5_cm, Told::centimetres) == "50 cm");
  CHECK(give_or_take(380_cm, Told::centimetres) == "4 m");
}

// 10.3 was told as 20.
TEST_CASE("give or take is rounded up by a quarter at most") {
  struct Row {
    double cm;
    Told told;
    const char* text;
  };
  for (const Row& row :
       {Row{10, Told::centimetres, "10 cm"}, Row{10.3, Told::centimetres, "12 cm"}, Row{20, Told::centimetres, "20 cm"},
        Row{20.1, Told::centimetres, "25 cm"}, Row{51, Told::centimetres, "60 cm"},
        Row{101, Told::centimetres, "1.2 m"}, Row{1010, Told::centimetres, "12 m"}, Row{10.3, Told::inches, "5 in"},
        Row{30, Told::inches, "12 in"}, Row{91, Told::inches, "1 yd"}, Row{95, Told::inches, "1.5 yd"},
        Row{11, Told::stitches, "12 stitches"}}) {
    CAPTURE(row.text);
    CHECK(give_or_take(Length::cm(row.cm), row.told) == row.text);
  }
  for (const Told told : {Told::centimetres, Told::inches, Told::stitches}) {
    for (double cm = 11; cm < 1e5; cm *= 1.013) {
      CAPTURE(cm);
      std::string text = give_or_take(Length::cm(cm), told);
      if (told == Told::stitches) text.replace(text.find(' '), std::string::npos, " cm");
      const std::size_t space = text.find(' ');
      const double unit = text.substr(space) == " m"    ? 100
                          : text.substr(space) == " in" ? 2.54
                          : text.substr(space) == " yd" ? 91.44
                                                        : 1;
      const double said = std::stod(text) * unit;
      CHECK(said >= cm * (1 - 1e-9));
      CHECK(said <= cm * (told == Told::inches ? 1.5 : 1.25));
    }
  }
}

TEST_CASE("lines wrap under their label and keep a number with its unit") {
  CHECK(labelled("Old end", "mark it 58 cm before", 21) == "Old end   mark it\n          58 cm\n          before\n");
  CHECK(wrapped("", 10) == "\n");
  CHECK(wrapped("one two", 3) == "one\ntwo\n");
}

TEST_CASE("a reading is told as it can be typed again") {
  const std::vector<Colour> colours{{"plum", {}}, {"pay $1", {}}};
  Reading reading;
  reading.entries = {{0, 25.4_cm, 0, 1}, {1, std::nullopt, 0, 2}};
  reading.bar_at_loose_end = true;
  CHECK(typed_reading(reading, colours, Told::centimetres) == "'| plum 25.4, pay $1'");
  reading.entries.pop_back();
  CHECK(typed_reading(reading, colours, Told::inches) == "\"| plum 10\"");
}

TEST_CASE("what a terminal without UTF-8 gets is ASCII") {
  CHECK(plain_ascii("\xc2\xb7 gr\xc3\xbcn \xe2\x80\xa6") == ". gr?n ...");
}

}  // namespace
}  // namespace ballchange
