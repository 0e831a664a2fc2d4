#include <doctest/doctest.h>

#include <string>
#include <utility>
#include <vector>

#include "unit/measure_lesson.hpp"

namespace ballchange {
namespace {

TEST_CASE("the repeat is found, beginning where the strand begins") {
  struct Case {
    const char* what;
    std::vector<std::string> strands;
    std::string repeat;
  };
  const std::vector<Case> cases{
      {"plainly",
       {"plum 40, sand 11, rust 80, plum 92, sand 11, rust 80, plum 92, sand 11, rust 30"},
       "plum 92, sand 11, rust 80"},
      {"a splash passed over in one pass",
       {"plum 40, sand 4, rust 80, moss 14, plum 96, rust 81, moss 14, plum 91, sand 4, rust 79, moss 13, plum 20"},
       "plum 91, sand 4, rust 80, moss 14"},
      {"two splashes, each passed over in another pass",
       {"plum 40, sand 4, rust 84, navy 50, plum 95, rust 80, moss 4, navy 50, plum 92, sand 4, rust 80, moss 4, navy "
        "9"},
       "plum 92, sand 4, rust 80, moss 4, navy 50"},
      {"a colour that comes back with other lengths",
       {"plum 40, sand 11, rust 80, sand 30, plum 92, sand 11, rust 80, sand 31, plum 92, sand 12, rust 30"},
       "plum 92, sand 11, rust 80, sand 30"},
      {"a colour misnamed once in three passes",
       {"plum 40, sand 11, rust 80, plum 92, sand 11, rust 80, plum 92, sand 11, plim 80, plum 92, sand 11, rust 5"},
       "plum 92, sand 11, rust 80"},
      {"equal stripes, the shortest circle",
       {"tar 10, oat 24, tar 25, oat 24, tar 24, oat 23, tar 24, oat 25, tar 24, oat 24, tar 8"},
       "tar 24, oat 24"},
      {"strands that overlap, none of them a whole repeat",
       {"plum 20, sand 11, rust 80, moss 14, navy 33", "rust 15, moss 13, navy 71, grey 9, plum 93, sand 3",
        "navy 5, grey 9, plum 91, sand 11, rust 81, moss 3"},
       "plum 92, sand 11, rust 80, moss 13, navy 71, grey 9"},
      {"a length left out once",
       {"plum 40, sand 11, rust, plum 92, sand, rust 80, plum 92, sand 11, rust 30"},
       "plum 92, sand 11, rust 80"},
      {"ends that stop at a change",
       {"| plum 92, sand 11, rust 80, plum 92, sand 11, rust 80 |"},
       "plum 92, sand 11, rust 80"},
  };
  for (const Case& c : cases) {
    CAPTURE(c.what);
    const Learnt learnt = Lesson(c.strands).learn();
    REQUIRE(!learnt.repeats.empty());
    CHECK(told(learnt.best().repeat) == c.repeat);
    CHECK(learnt.verdict == LearnVerdict::found);
  }
}

TEST_CASE("what was met once has the usual plus-minus, what was met more its own") {
  const Learnt learnt = Lesson({"plum 40, sand 11, rust 80, moss 40, plum 92, sand 11, rust 80, moss 30"}).learn();
  REQUIRE(learnt.verdict == LearnVerdict::found);
  const LearntRepeat& best = learnt.best();
  CHECK(best.times == std::vector<std::size_t>{1, 2, 2, 1});
  CHECK(best.repeat.sections()[0].plus_minus.cm() == doctest::Approx(0.5 + 0.06 * 92).epsilon(0.01));
  CHECK(best.repeat.sections()[2].plus_minus.cm() < 0.5 + 0.06 * 80);
}

TEST_CASE("too little says so, and how much more") {
  struct Case {
    std::vector<std::string> strands;
    LearnVerdict verdict;
    double more;
  };
  const std::vector<Case> cases{
      {{"plum 40, sand 11, rust 80"}, LearnVerdict::too_little, 131},
      {{"plum 40, sand 11, rust 80, moss 14, navy 70"}, LearnVerdict::too_little, 145},
      {{"plum 40, sand 11, rust 80, moss 14", "navy 20, grey 9, teal 30"}, LearnVerdict::too_little, 145},
  };
  for (const Case& c : cases) {
    CAPTURE(c.strands.front());
    const Learnt learnt = Lesson(c.strands).learn();
    CHECK(learnt.verdict == c.verdict);
    CHECK(learnt.repeats.empty());
    REQUIRE(learnt.measure_more.has_value());
    CHECK(learnt.measure_more->cm() == doctest::Approx(c.more).epsilon(1e-9));
  }
  CHECK(Lesson({"plum 40"}).learn().verdict == LearnVerdict::too_little);
}

TEST_CASE("the first colours met again are not yet believed") {
  const Learnt learnt = Lesson({"plum 40, sand 11, rust 80, moss 14, navy 70, plum 90, sand 5"}).learn();
  CHECK(learnt.verdict != LearnVerdict::found);
  CHECK(learnt.measure_more.has_value());
}

TEST_CASE("one badly wrong length in the only strand leaves the best guess, unsure") {
  struct Case {
    const char* what;
    std::string strand, repeat;
  };
  for (const Case& c : {
           Case{"83 written with a nought too many",
                "plum 48, sand 11, rust 830, moss 15, navy 69, grey 9, plum 91, sand 11, rust 77, moss 14, navy 72, "
                "grey 10, plum 100, sand 11, rust 83, moss 7",
                "plum 91, sand 11, rust 83, moss 14, navy 69, grey 9"},
           Case{"30 for 11, in the last of two repeats and a half",
                "plum 47, sand 11, rust 79, moss 13, plum 89, sand 12, rust 82, moss 14, plum 91, sand 30, rust 39",
                "plum 89, sand 12, rust 79, moss 13"},
           Case{"110 for 11: two rounds would fit, if they differed in that alone",
                "plum 40, sand 11, rust 80, moss 14, plum 92, sand 110, rust 80, moss 14, plum 92, sand 11, rust 30",
                "plum 92, sand 11, rust 80, moss 14"},
           Case{"7 for 70 in the middle one of two repeats and a half",
                "plum 40, sand 11, rust 80, moss 14, navy 70, grey 9, plum 92, sand 11, rust 80, moss 14, navy 7, grey "
                "9, plum 92, sand 11, rust 80, moss 5",
                "plum 92, sand 11, rust 80, moss 14, navy 7, grey 9"},
       }) {
    CAPTURE(c.what);
    const Learnt learnt = Lesson({c.strand}).learn();
    CHECK(learnt.verdict == LearnVerdict::unsure);
    CHECK(learnt.misread);
    REQUIRE(learnt.repeats.size() == 1);
    CHECK(told(learnt.best().repeat) == c.repeat);
    CHECK(learnt.best().chance == 0);
  }
}

TEST_CASE("rounds that differ each time by the same length are a repeat of several") {
  const Learnt learnt = Lesson({"plum 40, sand 11, rust 80, moss 14, plum 92, sand 45, rust 81, moss 14, plum 90, sand "
                                "11, rust 79, moss 15, plum 93, sand 46, rust 80, moss 14, plum 92, sand 12, rust 9"})
                            .learn();
  CHECK(learnt.verdict == LearnVerdict::found);
  REQUIRE(!learnt.repeats.empty());
  CHECK(learnt.best().repeat.size() == 8);
}

TEST_CASE("colours that come round with any lengths, or can't but take turns, are no guess") {
  for (const char* strand :
       {"plum 47, sand 11, rust 79, moss 13, plum 20, sand 70, rust 9, moss 60, plum 55, sand 30",
        "tar 12, oat 31, tar 24, oat 30, tar 41, oat 14", "plum 47, sand 11, rust 79, moss 13, plum 89, sand 30"}) {
    CAPTURE(strand);
    const Learnt learnt = Lesson({strand}).learn();
    CHECK_FALSE(learnt.misread);
    CHECK(learnt.verdict != LearnVerdict::found);
  }
}

TEST_CASE("a colour without any length is asked for") {
  Lesson lesson({"plum 40, sand, rust 80, plum 92, sand, rust 80, plum 92, sand, rust 30"});
  const Learnt learnt = lesson.learn();
  CHECK(learnt.verdict == LearnVerdict::unmeasured);
  REQUIRE(learnt.unmeasured.has_value());
  CHECK(lesson.palette.colours[*learnt.unmeasured].name == "sand");
}

TEST_CASE("a total that was told closes the circle and sets its length") {
  Lesson lesson({"plum 40, sand 11, rust 80, moss 14, plum 30"});
  lesson.options.total = 200_cm;
  const Learnt learnt = lesson.learn();
  REQUIRE(!learnt.repeats.empty());
  CHECK(told(learnt.best().repeat) == "plum 95, sand 11, rust 80, moss 14");
  CHECK(learnt.best().repeat.total().cm() == doctest::Approx(200).epsilon(1e-9));
}

TEST_CASE("a total well off what was measured bends the lengths to it, and that is told") {
  constexpr const char* strand =
      "plum 40, sand 11, rust 81, moss 14, navy 71, grey 9, plum 92, sand 11, rust 80, moss 15, navy 70, grey 9, plum "
      "93, sand 12, rust 30";
  struct Case {
    Length total;
    bool worth_a_word;
  };
  for (const Case& one : {Case{278_cm, false}, Case{270_cm, false}, Case{300_cm, true}, Case{260_cm, true}}) {
    CAPTURE(one.total.cm());
    Lesson lesson({strand});
    lesson.options.total = one.total;
    const Learnt learnt = lesson.learn();
    REQUIRE(learnt.verdict == LearnVerdict::found);
    CHECK(learnt.by_itself.has_value() == one.worth_a_word);
    if (learnt.by_itself) CHECK(learnt.by_itself->cm() == doctest::Approx(278).epsilon(0.005));
  }
}

TEST_CASE("a colour that has come again is not taken for all that was not seen of a total that was told") {
  struct Case {
    const char* strand;
    Length total;
    bool mirrored, enough;
    double more;  // cm
  };
  for (const Case& one : {
           Case{"soot 20, cream 8, teal 23, cream 15, soot 10", 207_cm, false, false, 131},
           Case{"plum 60, sand 11, rust 81, plum 5", 500_cm, false, false, 343},
           Case{"plum 60, sand 11, plum 5", 2000_cm, false, false, 1924},
           Case{"madder 20, soot 34, cream 8, teal 23, cream 15, soot 18, madder 5", 207_cm, false, false, 84},
           Case{"plum 60, sand 11, rust 81, moss 14, navy 70, grey 9", 276_cm, false, false, 31},
           // A little may go into it.
           Case{"plum 60, sand 11, rust 81, moss 14, navy 70, grey 9, plum 10", 276_cm, false, true, 0},
           // Half of it turns back, wherever it does.
           Case{"fern 30, oat 40, clay 71, oat 38", 500_cm, true, false, 71},
           Case{"fern 30, oat 40, clay 71, oat 38", 220_cm, true, true, 0},
       }) {
    CAPTURE(one.strand);
    CAPTURE(one.total.cm());
    Lesson lesson({one.strand});
    lesson.options.total = one.total;
    lesson.options.mirrored = one.mirrored;
    const Learnt learnt = lesson.learn();
    CHECK((learnt.verdict == LearnVerdict::found) == one.enough);
    CHECK(learnt.part_unseen == !one.enough);
    if (one.enough) continue;
    REQUIRE(learnt.measure_more.has_value());
    CHECK(learnt.measure_more->cm() == doctest::Approx(one.more).epsilon(1e-9));
  }
}

TEST_CASE("a hank dyed across the loop is known from half of it") {
  Lesson lesson({"plum 10, sand 21, rust 80, moss 14, navy 40, moss 15, rust 20"});
  lesson.options.total = 360_cm;
  lesson.options.mirrored = true;
  const Learnt learnt = lesson.learn();
  REQUIRE(!learnt.repeats.empty());
  const Repeat& repeat = learnt.best().repeat;
  CHECK(repeat.size() == 8);
  CHECK(mirror_axis(repeat).has_value());
  CHECK(repeat.total().cm() == doctest::Approx(360).epsilon(1e-9));
  // 360 less navy 40 and twice 21 + 80 + 14.5.
  CHECK(repeat.sections()[0].length.cm() == doctest::Approx(89).epsilon(0.05));
}

TEST_CASE("a hank whose colours don't read the same backward was not dyed across the loop") {
  // The whole of one, 190 cm round; two thirds of one, where only a teal read for a gold and a teal would mirror.
  struct Hank {
    const char* strand;
    Length round;
  };
  const Hank hanks[] = {{"coral 20, teal 22, gold 39, ink 12, teal 65, cream 6, coral 48, teal 20", 190_cm},
                        {"coral 20, teal 22, gold 39, ink 12, teal 65, cream 6", 200_cm}};
  for (const Hank& hank : hanks) {
    CAPTURE(hank.strand);
    Lesson lesson({hank.strand});
    lesson.options.total = hank.round;
    lesson.options.mirrored = true;
    CHECK(lesson.learn().verdict == LearnVerdict::not_mirrored);
  }
}

TEST_CASE("a total is not believed where the strand comes round after another") {
  struct Case {
    const char* strand;
    Length total;
    bool agrees;
  };
  // Twice round at 47.5 + 22 + 38 + 12.5 + 64.5 + 6 = 190.5, read about 1 cm a section too long or short.
  constexpr const char* twice =
      "coral 20, teal 22, gold 39, ink 12, teal 65, cream 6, coral 48, teal 21, gold 37, ink 13, teal 70, coral 47, "
      "teal 23, gold 10";
  constexpr const char* once = "coral 10, teal 12, gold 21, ink 6, teal 34, cream 3, coral 26, teal 12";  // 102 to 103
  for (const Case& one :
       {Case{twice, 300_cm, false}, Case{twice, 190_cm, true}, Case{once, 147_cm, false}, Case{once, 103_cm, true}}) {
    CAPTURE(one.strand);
    CAPTURE(one.total.cm());
    Lesson lesson({one.strand});
    lesson.options.total = one.total;
    const Learnt learnt = lesson.learn();
    CHECK(learnt.verdict == (one.agrees ? LearnVerdict::found : LearnVerdict::other_total));
    if (!one.agrees) CHECK(learnt.best().repeat.size() == 6);
  }
}

TEST_CASE("a repeat that was known is sharpened by short readings, and kept in its order") {
  Lesson lesson({"plum 15, sand 12, rust 86, moss 5", "sand 3, rust 87, moss 15, plum 20"});
  const std::vector<Section> sections{{1, 11_cm, 1.5_cm}, {2, 80_cm, 5_cm}, {3, 14_cm, 2_cm}, {0, 92_cm, 6_cm}};
  lesson.options.believed = Repeat(lesson.palette.colours, sections);
  const Learnt learnt = lesson.learn();
  REQUIRE(learnt.verdict == LearnVerdict::found);
  const Repeat& repeat = learnt.best().repeat;
  CHECK(repeat.name_of(0) == "sand");
  CHECK(repeat.sections()[1].length.cm() > 81);
  CHECK(repeat.sections()[1].length.cm() < 86);
  CHECK(repeat.sections()[3].length.cm() == doctest::Approx(92).epsilon(0.02));
}

TEST_CASE("a strand that isn't of the yarn that was known is named") {
  Lesson lesson({"plum 15, sand 12, rust 82, moss 5", "rust 9, sand 50, moss 40, sand 7, plum 20, moss 3"});
  const std::vector<Section> sections{{0, 92_cm, 6_cm}, {1, 11_cm, 1.5_cm}, {2, 80_cm, 5_cm}, {3, 14_cm, 2_cm}};
  lesson.options.believed = Repeat(lesson.palette.colours, sections);
  const Learnt learnt = lesson.learn();
  CHECK(learnt.verdict == LearnVerdict::no_fit);
  CHECK(learnt.strand == 1);
}

TEST_CASE("how much more is what it takes until it is found, once the first colours have come again") {
  struct Case {
    const char* strand;
    LearnVerdict verdict;
    double more;  // cm, as told
    const char* until;
    const char* measured;  // the strand measured on by about as much
  };
  for (const Case& c : {Case{"plum 60, sand 11, rust 81, moss 14, navy 71, grey 9, plum 32", LearnVerdict::too_little,
                             71, "sand", "plum 60, sand 11, rust 81, moss 14, navy 71, grey 9, plum 93, sand 5"},
                        Case{"plum 60, sand 11, rust 81, moss 14, navy 71, grey 9, plum", LearnVerdict::too_little, 133,
                             "sand", "plum 60, sand 11, rust 81, moss 14, navy 71, grey 9, plum 130, sand 5"},
                        // However far plum goes, sand is what tells.
                        Case{"plum 60, sand 11, rust 81, moss 14, navy 71, grey 9, plum 92", LearnVerdict::too_little,
                             74.6, "sand", "plum 60, sand 11, rust 81, moss 14, navy 71, grey 9, plum 92, sand"},
                        Case{"plum 40, sand 11, rust 80, moss 14, plum 91, sand 12", LearnVerdict::unsure, 5.2, "rust",
                             "plum 40, sand 11, rust 80, moss 14, plum 91, sand 12, rust 5"}}) {
    CAPTURE(c.strand);
    Lesson lesson({c.strand});
    const Learnt learnt = lesson.learn();
    CHECK(learnt.verdict == c.verdict);
    REQUIRE(learnt.measure_more.has_value());
    CHECK(learnt.measure_more->cm() == doctest::Approx(c.more).epsilon(0.05));
    CHECK(learnt.come_again.has_value() == (c.verdict == LearnVerdict::too_little));
    REQUIRE(learnt.until.has_value());
    CHECK(lesson.palette.colours[*learnt.until].name == c.until);
    CHECK(Lesson({c.measured}).learn().verdict == LearnVerdict::found);
  }
}

TEST_CASE("colours that come round without any length ask for one") {
  Lesson lesson({"plum, sand, plum, sand, plum"});
  const Learnt learnt = lesson.learn();
  CHECK(learnt.verdict == LearnVerdict::unmeasured);
  REQUIRE(learnt.unmeasured.has_value());
  CHECK(lesson.palette.colours[*learnt.unmeasured].name == "plum");
}

TEST_CASE("an end that was expected to run backward is no news") {
  Lesson lesson({kTwoRounds, "rust 40, sand 11, plum 90, moss 14, rust 80, sand 12, plum 20"});
  lesson.strands[1].match.worked = Worked::other_end;
  const Learnt learnt = lesson.learn();
  CHECK(learnt.verdict == LearnVerdict::found);
  CHECK(learnt.other_way.empty());
}

TEST_CASE("colours that turn back, but not within the hank that was told, ask for a longer one") {
  Lesson lesson({"fern 15, salt 12, clay 50, dusk 20, clay 48, salt 11, fern 15"});
  lesson.options.mirrored = true;
  lesson.options.total = 152.4_cm;
  CHECK(lesson.learn().verdict == LearnVerdict::hank_too_short);
  Lesson other({"fern 15, salt 12, clay 50, dusk 20, salt 48, clay 11, fern 15"});
  other.options = lesson.options;
  CHECK(other.learn().verdict == LearnVerdict::not_mirrored);
}

// Round the circle the first may go on where the last ends, and the last where the first does: both are plain.
TEST_CASE("parts that overlap on both sides are laid together, however far each reaches") {
  const std::string first = "fern 20, salt 12, clay 56, salt 29, dusk 40";
  const std::string second = "salt 10, clay 54, salt 31, dusk 82, ink 4, hay 34, fern 30";
  for (const char* third : {"ink 2, hay 32, fern 71, salt 11, clay 57, salt 10",
                            "dusk 10, ink 4, hay 32, fern 71, salt 11, clay 57, salt 10",
                            "salt 3, dusk 80, ink 4, hay 32, fern 71, salt 11, clay 57, salt 10"}) {
    CAPTURE(third);
    const Learnt learnt = Lesson({first, second, third}).learn();
    REQUIRE(learnt.verdict == LearnVerdict::found);
    CHECK(learnt.best().repeat.size() == 7);
  }
  const Learnt two = Lesson({"plum 60, sand 11, rust 81, moss 14, navy 70, grey 4",
                             "moss 3, navy 72, grey 9, plum 90, sand 12, rust 40"})
                         .learn();
  REQUIRE(two.verdict == LearnVerdict::found);
  CHECK(two.best().repeat.size() == 6);
}

}  // namespace
}  // namespace ballchange
