#include "measure/learn.hpp"

#include <doctest/doctest.h>

#include <string>
#include <utility>
#include <vector>

namespace ballchange {
namespace {

struct Lesson {
  Palette palette{{}, true};
  std::vector<MeasuredStrand> strands;
  LearnOptions options;

  explicit Lesson(const std::vector<std::string>& texts) {
    for (const std::string& text : texts) {
      strands.push_back({parse_reading(text, End::new_end, palette, Ruler{}, "--strand"), {}});
    }
  }
  [[nodiscard]] Learnt learn() const { return ballchange::learn(strands, palette.colours, options); }
  [[nodiscard]] Learnt learn_first() const { return ballchange::learn({strands.front()}, palette.colours, options); }
};

// "plum 92, sand 11": rounded to whole centimetres.
std::string told(const Repeat& repeat) {
  std::string text;
  for (std::size_t k = 0; k < repeat.size(); ++k) {
    if (k > 0) text += ", ";
    text += repeat.name_of(k) + " " + std::to_string(static_cast<int>(repeat.sections()[k].length.cm() + 0.5));
  }
  return text;
}

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

const char* const kTwoRounds =
    "plum 40, sand 11, rust 82, moss 14, plum 94, sand 10, rust 78, moss 15, plum 91, sand 12";

TEST_CASE("two strands that run against each other: which of them to turn is all that is open") {
  for (const bool first_backward : {false, true}) {
    CAPTURE(first_backward);
    const std::string backward = "rust 40, sand 11, plum 90, moss 14, rust 80, sand 12, plum 20";
    Lesson lesson(first_backward ? std::vector<std::string>{backward, kTwoRounds}
                                 : std::vector<std::string>{kTwoRounds, backward});
    const Learnt learnt = lesson.learn();
    CHECK(learnt.verdict == LearnVerdict::turned);
    CHECK(!learnt.measure_more);
    CHECK(learnt.other_way == std::vector<std::size_t>{1});
    REQUIRE(learnt.repeats.size() == 1);
    CHECK(learnt.best().chance > 0.95);
    CHECK(told(learnt.best().repeat) ==
          (first_backward ? "rust 80, sand 11, plum 91, moss 14" : "plum 91, sand 11, rust 80, moss 14"));
  }
}

TEST_CASE("one strand of three that runs the other way is taken so, and named") {
  Lesson lesson({kTwoRounds, "rust 40, sand 11, plum 90, moss 14, rust 80, sand 12, plum 20",
                 "rust 20, moss 15, plum 90, sand 11, rust 81, moss 14, plum 30"});
  const Learnt learnt = lesson.learn();
  CHECK(learnt.verdict == LearnVerdict::found);
  CHECK(learnt.other_way == std::vector<std::size_t>{1});
}

TEST_CASE("of three strands two say which way round it runs, wherever the third stands") {
  const std::string odd = "rust 40, sand 11, plum 90, moss 14, rust 80, sand 12, plum 20";
  const std::string like = "sand 3, rust 81, moss 14, plum 90, sand 10, rust 20";
  const std::string two = std::string(kTwoRounds) + ", rust 30";
  for (std::size_t at = 0; at < 3; ++at) {
    CAPTURE(at);
    std::vector<std::string> strands{two, like};
    strands.insert(strands.begin() + static_cast<std::ptrdiff_t>(at), odd);
    const Learnt learnt = Lesson(strands).learn();
    REQUIRE(learnt.verdict == LearnVerdict::found);
    CHECK(learnt.other_way == std::vector<std::size_t>{at});
    const Repeat& repeat = learnt.best().repeat;
    const std::string round = told(repeat) + ", " + told(repeat);
    CHECK(round.find("sand 11, rust 80, moss 14, plum 91") != std::string::npos);
  }
}

TEST_CASE("two parts of which one is turned go together, and it is asked which") {
  const Learnt learnt = Lesson({"plum 60, sand 11, rust 81, moss 14, navy 70, grey 4",
                                "rust 40, sand 12, plum 90, grey 9, navy 72, moss 3"})
                            .learn();
  CHECK(learnt.verdict == LearnVerdict::turned);
  CHECK(learnt.other_way == std::vector<std::size_t>{1});
  REQUIRE(!learnt.repeats.empty());
  CHECK(told(learnt.best().repeat) == "plum 90, sand 12, rust 81, moss 14, navy 71, grey 9");
}

TEST_CASE("parts of which one in three is turned go together, and it is named") {
  const Learnt learnt = Lesson({"plum 20, sand 11, rust 80, moss 14, navy 33",
                                "sand 3, plum 93, grey 9, navy 71, moss "
                                "13, rust 15",
                                "navy 5, grey 9, plum 91, sand 11, rust 81, moss 3"})
                            .learn();
  CHECK(learnt.verdict == LearnVerdict::found);
  CHECK(learnt.other_way == std::vector<std::size_t>{1});
  REQUIRE(!learnt.repeats.empty());
  CHECK(told(learnt.best().repeat) == "plum 92, sand 11, rust 80, moss 13, navy 71, grey 9");
}

TEST_CASE("parts that each pass over something lead to the whole, or to a question") {
  struct Case {
    const char* what;
    std::vector<std::string> strands;
    LearnVerdict verdict;
    std::size_t sections;
  };
  for (const Case& c : {Case{"two splashes between the same long colour, each its own",
                             {"sand 50, rust 8, sand 84, plum 7, sand 1", "sand 89, plum 4, sand 56",
                              "sand 53, rust 9, sand 83, plum 4, sand 3", "sand 20, rust 9, sand 70, plum 5, sand 45",
                              "sand 8, rust 9, sand 76, plum 4, sand 52"},
                             LearnVerdict::found,
                             4},
                        Case{"one of three splashes in a row passed over, in two strands of five",
                             {"rose 47, oat 36, plum 44, sand 4, rust 6, moss 6, navy 71, grey 4, teal 9, rose 3",
                              "plum 40, sand 3, rust 5, moss 85, grey 4, teal 10, rose 83",
                              "moss 4, navy 72, grey 6, teal 9, rose 77, oat 35, plum 27",
                              "rose 36, oat 35, plum 46, rust 6, moss 4, navy 74, grey 5, teal 9, rose 18",
                              "rose 5, oat 35, plum 48, rust 7, moss 5, navy 84, grey 5, teal 9, rose 34"},
                             LearnVerdict::found,
                             9}}) {
    CAPTURE(c.what);
    const Learnt learnt = Lesson(c.strands).learn();
    CHECK(learnt.verdict == c.verdict);
    REQUIRE(!learnt.repeats.empty());
    CHECK(learnt.best().repeat.size() == c.sections);
  }
}

TEST_CASE("a colour of several strands that is no section's is asked about") {
  Lesson lesson({"plum 12, sand 9, rust 46, sand 8, plum 47", "plum 62, sand 9, rust 49, sand 6",
                 "plum 74, sand 8, rust 42", "plum 5, sand 9, rust 44, sand 9, plum 59",
                 "plum 45, sand 9, rust 45, sand 9, plum 18"});
  const Learnt learnt = lesson.learn();
  CHECK(learnt.verdict == LearnVerdict::misnamed);
  REQUIRE(learnt.taken.size() == 5);
  for (const TakenAs& one : learnt.taken) CHECK(lesson.palette.colours[one.written].name == "rust");
}

TEST_CASE("one of two sightings misnamed: it is asked about, and no more is to be measured") {
  struct Case {
    const char* what;
    std::vector<std::string> strands;
    std::size_t strand, entry;
  };
  for (const Case& c :
       {Case{"the later one",
             {"plum 40, sand 11, rust 82, moss 14, navy 70, grey 9, plum 94, sand 10, teal 78, moss 15, navy 72, grey "
              "9, plum 30"},
             0,
             8},
        Case{"in another strand",
             {"plum 40, sand 11, rust 82, moss 14, navy 70, grey 9, plum 94, sand 5",
              "plum 20, sand 12, teal 79, moss 13, navy 71, grey 9, plum 93, sand 6"},
             1,
             2}}) {
    CAPTURE(c.what);
    Lesson lesson(c.strands);
    const Learnt learnt = lesson.learn();
    CHECK(learnt.verdict == LearnVerdict::misnamed);
    CHECK_FALSE(learnt.measure_more);
    REQUIRE(learnt.taken.size() == 1);
    CHECK(learnt.taken[0].strand == c.strand);
    CHECK(learnt.taken[0].entry == c.entry);
    CHECK(lesson.palette.colours[learnt.taken[0].written].name == "teal");
    CHECK(lesson.palette.colours[learnt.taken[0].taken].name == "rust");
    CHECK(learnt.best().repeat.size() == 6);
    CHECK(learnt.best().chance > 0.95);
  }
}

// Round twice, once in one strand and once in two parts that overlap by a few colours.
const std::vector<std::string> kTwice{"plum 40", "sand 11", "rust 82", "moss 14", "navy 70", "grey 9", "plum 94",
                                      "sand 10", "rust 78", "moss 15", "navy 72", "grey 9",  "plum 30"};
const std::vector<std::string> kParts{"plum 40", "sand 11", "rust 82", "moss 14", "navy 70", "grey 9",  // 6 of the one
                                      "sand 5",  "rust 78", "moss 15", "navy 72", "grey 9",  "plum 90", "sand 10"};

// `entries` from `from` to `to`, one of them called teal.
std::string with_teal(const std::vector<std::string>& entries, std::size_t from, std::size_t to, std::size_t teal) {
  std::string text;
  for (std::size_t n = from; n < to; ++n) {
    if (n > from) text += ", ";
    text += n == teal ? "teal" + entries[n].substr(entries[n].find(' ')) : entries[n];
  }
  return text;
}

TEST_CASE("whichever section was named otherwise once of two times, long or a splash, it is asked about") {
  for (const bool in_parts : {false, true}) {
    const std::vector<std::string>& entries = in_parts ? kParts : kTwice;
    const std::size_t split = in_parts ? 6 : entries.size();
    for (std::size_t n = in_parts ? 6 : 7; n + 1 < entries.size() - (in_parts ? 1 : 0); ++n) {
      const std::string right = entries[n].substr(0, entries[n].find(' '));
      CAPTURE(in_parts);
      CAPTURE(entries[n]);
      std::vector<std::string> strands{with_teal(entries, 0, split, n)};
      if (in_parts) strands.push_back(with_teal(entries, split, entries.size(), n));
      Lesson lesson(strands);
      const Learnt learnt = lesson.learn();
      CHECK(learnt.verdict == LearnVerdict::misnamed);
      CHECK_FALSE(learnt.measure_more);
      REQUIRE(learnt.taken.size() == 1);
      CHECK(learnt.taken[0].strand == (in_parts ? 1 : 0));
      CHECK(learnt.taken[0].entry == n - (in_parts ? split : 0));
      CHECK(lesson.palette.colours[learnt.taken[0].written].name == "teal");
      CHECK(lesson.palette.colours[learnt.taken[0].taken].name == right);
      CHECK(learnt.best().repeat.size() == 6);
    }
  }
}

TEST_CASE("of two sections with two names each both are asked about, whichever circle was likelier") {
  for (const char* strand :
       {"plum 40, sand 11, rust 82, moss 14, navy 70, teal 9, plum 94, sand 10, ochre 78, moss 15, navy 72, grey 9, "
        "plum 30",
        "plum 40, sand 11, ochre 82, moss 14, navy 70, grey 9, plum 94, sand 10, rust 78, moss 15, navy 72, teal 9, "
        "plum 30"}) {
    CAPTURE(strand);
    const Learnt learnt = Lesson({strand}).learn();
    CHECK(learnt.verdict == LearnVerdict::misnamed);
    REQUIRE(learnt.taken.size() == 2);
    CHECK(learnt.taken[0].entry == 8);
    CHECK(learnt.taken[1].entry == 11);
  }
}

const char* const kRightTwice =
    "plum 40, sand 11, rust 82, moss 14, navy 70, grey 9, plum 94, sand 10, rust 78, moss 15, navy 72, grey 9, plum 30";

TEST_CASE("two entries in each other's place are asked about, whatever else would explain them") {
  struct Case {
    const char* what;
    std::vector<std::string> strands;
    std::size_t strand, first, second;
    Exchanged what_of_them;
  };
  const std::vector<Case> cases{
      {"two long ones, so that their lengths are between",
       {kRightTwice, "rust 20, moss 14, plum 92, grey 9, navy 70, sand 11, rust 80, moss 14, navy 20"},
       1,
       2,
       4,
       Exchanged::both},
      {"their names alone",
       {kRightTwice, "rust 20, moss 14, plum 70, grey 9, navy 92, sand 11, rust 80, moss 14, navy 20"},
       1,
       2,
       4,
       Exchanged::names},
      {"neighbours, so that a section seems to be passed over elsewhere",
       {kRightTwice, "rust 20, navy 70, moss 14, grey 9, plum 92, sand 11, rust 80, moss 14, navy 20"},
       1,
       1,
       2,
       Exchanged::both},
      {"neighbours' names alone",
       {kRightTwice, "rust 20, navy 14, moss 70, grey 9, plum 92, sand 11, rust 80, moss 14, navy 20"},
       1,
       1,
       2,
       Exchanged::names},
      {"far apart in the only strand, once of three times",
       {"plum 40, sand 11, rust 82, moss 14, navy 70, grey 9, navy 94, sand 10, rust 78, moss 15, plum 72, grey 9, "
        "plum 90, sand 11, rust 80, moss 14, navy 30"},
       0,
       6,
       10,
       Exchanged::names},
      {"once of two times",
       {"plum 40, sand 11, rust 82, moss 14, navy 70, grey 9, plum 94, rust 78, sand 10, moss 15, navy 72, grey 9, "
        "plum 30"},
       0,
       7,
       8,
       Exchanged::both},
  };
  for (const Case& c : cases) {
    CAPTURE(c.what);
    const Lesson lesson(c.strands);
    const Learnt learnt = lesson.learn();
    CHECK(learnt.verdict == LearnVerdict::exchanged);
    CHECK(learnt.exchanged == c.what_of_them);
    CHECK(learnt.best().repeat.size() == 6);
    CHECK(learnt.best().chance > 0.95);
    REQUIRE(learnt.taken.size() == 2);
    CHECK(learnt.taken[0].strand == c.strand);
    CHECK(learnt.taken[0].entry == c.first);
    CHECK(learnt.taken[1].strand == c.strand);
    CHECK(learnt.taken[1].entry == c.second);
    CHECK(learnt.taken[0].taken == learnt.taken[1].written);
  }
}

TEST_CASE("of a repeat that was known, two entries in each other's place are asked about where they fit nothing") {
  struct Case {
    std::string strand;
    std::size_t first;
    Exchanged what;
  };
  for (const Case& c : {Case{"plum 40, rust 80, sand 11, moss 14, navy 30", 1, Exchanged::both},
                        Case{"plum 40, sand 80, rust 11, moss 14, navy 30", 1, Exchanged::lengths},
                        Case{"rust 40, moss 70, navy 14, grey 9, plum 92, sand 10", 1, Exchanged::lengths}}) {
    CAPTURE(c.strand);
    Lesson lesson({kRightTwice, c.strand});
    lesson.options.believed = lesson.learn_first().best().repeat;
    lesson.strands.erase(lesson.strands.begin());
    const Learnt learnt = lesson.learn();
    CHECK(learnt.verdict == LearnVerdict::exchanged);
    CHECK(learnt.exchanged == c.what);
    REQUIRE(learnt.taken.size() == 2);
    CHECK(learnt.taken[0].entry == c.first);
    CHECK(learnt.taken[1].entry == c.first + 1);
  }
}

TEST_CASE("a section that one strand shows and another passes over is no exchange") {
  const Learnt learnt =
      Lesson({kRightTwice,
              "rust 20, moss 14, navy 70, grey 9, plum 60, teal 4, plum 30, sand 11, rust 80, moss 14, navy 20"})
          .learn();
  CHECK(learnt.verdict == LearnVerdict::found);
  CHECK(learnt.best().repeat.size() == 8);
}

// 100 cm where 70 and 72 were read: 3.7 of the usual deviations.
TEST_CASE(
    "an entry that has neither the name of its section nor its length is asked about, one of its length is named") {
  for (const auto& [text, asked] :
       {std::pair<std::string, bool>{"teal 100", true}, {"plum 100", true}, {"teal 74", false}, {"teal 45", true}}) {
    const std::string typed = text;  // no lambda of clang 14 holds a part of a pair
    CAPTURE(typed);
    const Lesson lesson(
        {kRightTwice, "rust 20, moss 14, " + text + ", grey 9, plum 92, sand 11, rust 80, moss 14, navy 20"});
    const Learnt learnt = lesson.learn();
    CHECK(learnt.verdict == (asked ? LearnVerdict::misnamed : LearnVerdict::found));
    REQUIRE(learnt.taken.size() == 1);
    CHECK(learnt.taken[0].entry == 2);
    CHECK(lesson.palette.colours[learnt.taken[0].taken].name == "navy");
  }
}

// Each name by itself is half as likely as that both are sections.
TEST_CASE("a name is asked about, too, where only both names together are likelier than another circle") {
  Lesson lesson(
      {"rust 1, moss 14, navy 76, grey 8, plum 101, teal 11, rust 72, moss 13, navy 76, grey 9, plum 87, sand "
       "10"});
  const Learnt learnt = lesson.learn();
  CHECK(learnt.verdict == LearnVerdict::misnamed);
  CHECK(learnt.best().repeat.size() == 6);
  REQUIRE(learnt.taken.size() == 1);
  CHECK(learnt.taken[0].entry == 11);
  CHECK(lesson.palette.colours[learnt.taken[0].written].name == "sand");
  CHECK(lesson.palette.colours[learnt.taken[0].taken].name == "teal");
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

TEST_CASE("a colour the yarn does not have is asked about, one misread in a new yarn is named") {
  Lesson lesson({kTwoRounds, "rust 40, moss 14, navy 90, sand 14, rust 80"});
  REQUIRE(lesson.palette.colours.size() == 5);
  for (const std::size_t known : {std::size_t{0}, std::size_t{4}}) {
    CAPTURE(known);
    lesson.options.known_colours = known;
    const Learnt learnt = lesson.learn();
    CHECK(learnt.verdict == (known == 0 ? LearnVerdict::found : LearnVerdict::unknown_colour));
    REQUIRE(learnt.taken.size() == 1);
    CHECK(learnt.taken[0].strand == 1);
    CHECK(learnt.taken[0].entry == 2);
    CHECK(lesson.palette.colours[learnt.taken[0].written].name == "navy");
    CHECK(lesson.palette.colours[learnt.taken[0].taken].name == "plum");
  }
}

TEST_CASE("a new colour that keeps its strand from fitting is asked about, where the others do without it") {
  const char* const whole =
      "plum 40, sand 11, rust 82, moss 14, navy 70, grey 9, plum 94, sand 10, rust 78, moss 15, navy 72, grey 9, plum "
      "95, sand 11, rust 20";
  const char* const once = "plum 50, teal 5, sand 12, rust 79, moss 30";
  for (const bool believed : {false, true}) {
    CAPTURE(believed);
    Lesson lesson({whole, once});
    lesson.options.known_colours = 6;
    if (believed) {
      lesson.options.believed = Lesson({whole}).learn().best().repeat;
      lesson.options.believed = Repeat(lesson.palette.colours, lesson.options.believed->sections());
      lesson.strands.erase(lesson.strands.begin());
    }
    const Learnt learnt = lesson.learn();
    CHECK(learnt.verdict == LearnVerdict::new_colour);
    CHECK(learnt.repeats.empty());
    CHECK_FALSE(learnt.measure_more);
    REQUIRE(learnt.taken.size() == 1);
    CHECK(learnt.taken[0].strand == (believed ? 0 : 1));
    CHECK(learnt.taken[0].entry == 1);
    CHECK(lesson.palette.colours[learnt.taken[0].written].name == "teal");
  }
  // What was asked for: shown twice, with what is beside it.
  Lesson twice(
      {whole, "plum 50, teal 5, sand 12, rust 79, moss 14, navy 70, grey 9, plum 90, teal 5, sand 12, rust 20"});
  twice.options.known_colours = 6;
  CHECK(twice.learn().verdict == LearnVerdict::found);
  // The others tell nothing by themselves.
  Lesson little({"plum 40, sand 11, rust 82", once});
  little.options.known_colours = 3;
  CHECK(little.learn().verdict == LearnVerdict::too_little);
}

// From change to change 141 cm, and the fern between them 15 at least.
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
