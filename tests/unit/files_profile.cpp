// Long: what a profile may hold, and where each fault of one is told to be.
#include "files/profile.hpp"

#include <doctest/doctest.h>

#include <algorithm>
#include <cmath>
#include <string>
#include <vector>

#include "base/random.hpp"
#include "files/source.hpp"
#include "show/profile_notes.hpp"

using namespace ballchange;

namespace {

const std::string kHead = "format: ballchange yarn 1\nname: Orchard\n";
const std::string kSand = "colour: sand, length: 11 cm";
const std::string kGood = kHead + "repeat: [{colour: plum, length: 92 cm}, {" + kSand + "}]\n";

std::string with(const std::string& line) {
  return kHead + line + "\nrepeat: [{colour: plum, length: 92}, {" + kSand + "}]\n";
}

std::string repeat_of(const std::vector<std::string>& sections) {
  std::string text = kHead + "repeat:\n";
  for (const std::string& section : sections) text += "  - {" + section + "}\n";
  return text;
}

std::string named(const std::string& colour) { return repeat_of({"colour: " + colour + ", length: 92 cm", kSand}); }

std::string outcome(const std::string& text) {
  try {
    (void)read_profile(text, "a.yaml");
  } catch (const Problem& problem) {
    CHECK(problem.fault() == Fault::content);
    return problem.what();
  }
  return "accepted";
}

Yarn yarn_of(const std::string& text) { return read_profile(text, "a.yaml").yarn; }

std::vector<std::string> many(int sections) {
  std::vector<std::string> all;
  for (int i = 0; i < sections; ++i) all.push_back(i % 2 == 0 ? "colour: plum, length: 20" : "colour: sand, length: 9");
  return all;
}

struct Row {
  std::string text, message;
};

void check_rows(const std::vector<Row>& rows) {
  for (const Row& row : rows) {
    CAPTURE(row.text);
    CHECK(outcome(row.text) == "a.yaml:" + row.message);
  }
}

std::string shipped(const std::string& name) {
  return read_file(RealDisk(), BALLCHANGE_TESTS "/../profiles/" + name + ".yaml", Tree::kMostBytes);
}

}  // namespace

TEST_CASE("a profile is read whole") {
  const Profile profile = read_profile(shipped("orchard"), "orchard.yaml");
  const Yarn& yarn = profile.yarn;
  CHECK(profile.notes.empty());
  CHECK(yarn.name == "Orchard");
  CHECK(yarn.fibre == "wool");
  CHECK(yarn.felts);
  CHECK(yarn.ball_mass == Mass::g(50));
  CHECK(yarn.ball_length == 12500_cm);
  CHECK(std::abs(yarn.ball_plus_minus - 0.02) < 1e-12);
  CHECK(yarn.reckoning == Reckoning::centimetres);
  REQUIRE(yarn.repeat.size() == 6);
  CHECK(yarn.repeat.total() == 276_cm);
  CHECK(yarn.repeat.name_of(5) == "grey");
  CHECK(yarn.repeat.sections()[1].plus_minus == 1.5_cm);
  CHECK(yarn.repeat.colours()[3].shade == Shade{0x5d, 0x6b, 0x3a});
}

TEST_CASE("what is left out has its default") {
  const Yarn yarn = yarn_of(repeat_of({"colour: plum, length: 50 cm", "colour: sand, length: 0.5 cm"}));
  CHECK(yarn.fibre.empty());
  CHECK_FALSE(yarn.felts);
  CHECK_FALSE(yarn.ball_mass.has_value());
  CHECK_FALSE(yarn.ball_length.has_value());
  CHECK(std::abs(yarn.ball_plus_minus - 0.02) < 1e-12);
  CHECK_FALSE(yarn.repeat.colours()[0].shade.has_value());
  CHECK(std::abs(yarn.repeat.sections()[0].plus_minus.cm() - 3.5) < 1e-12);
  // 0.5 cm + 6 % would be more than the third that is allowed.
  CHECK(std::abs(yarn.repeat.sections()[1].plus_minus.cm() - 0.5 / 3) < 1e-12);
}

TEST_CASE("a bare number is in cm, or in what units says") {
  const std::string sections = "repeat: [{colour: plum, length: 10}, {colour: sand, length: 3 1/2}]\n";
  CHECK(yarn_of(kHead + sections).repeat.total() == 13.5_cm);
  CHECK(std::abs(yarn_of(kHead + "units: in\n" + sections).repeat.total().cm() - 34.29) < 1e-9);
  const Yarn counted = yarn_of(kHead + "units: st\n" + sections);
  CHECK(counted.reckoning == Reckoning::stitches);
  CHECK(std::abs(counted.repeat.total().cm() - 13.5) < 1e-12);
  CHECK(std::abs(counted.repeat.sections()[0].plus_minus.cm() - 1.1) < 1e-12);
}

TEST_CASE("a shade given once holds for its colour everywhere") {
  const Yarn yarn =
      yarn_of(repeat_of({"colour: plum, length: 9", "colour: sand, length: 9",
                         "colour: plum, shade: REBECCApurple, length: 7", "colour: rust, length: 9, shade: '#abc'"}));
  CHECK(yarn.repeat.colours().size() == 3);
  // CSS Color Module Level 4, named colours: rebeccapurple #663399.
  CHECK(yarn.repeat.colours()[0].shade == Shade{0x66, 0x33, 0x99});
  CHECK(yarn.repeat.colours()[2].shade == Shade{0xaa, 0xbb, 0xcc});
}

TEST_CASE("both spellings are understood") {
  const Yarn yarn =
      yarn_of(kHead + "fiber: wool\nrepeat: [{color: plum, length: 9}, {colour: sea  green, length: 9}]\n");
  CHECK(yarn.fibre == "wool");
  CHECK(yarn.repeat.name_of(1) == "sea green");
}

TEST_CASE("a profile without the right beginning is refused") {
  const std::string wanted = "write 'format: ballchange yarn 1'";
  check_rows({
      {"", "1:1: nothing in it; begin with 'format: ballchange yarn 1'"},
      {"- a\n", "1:1: the file is not a set of keys; write lines like 'format: ballchange yarn 1'"},
      {"name: X\n", "1:1: the file has no format; add one, like 'format: ballchange yarn 1'"},
      {"format:\n", "1:1: format has no value; write one after the colon"},
      {"format: ballchange yarn 0\n", "1:9: format 'ballchange yarn 0' is not what is wanted here; " + wanted},
      {"format: ballchange yarn 01\n", "1:9: format 'ballchange yarn 01' is not what is wanted here; " + wanted},
      {"format: ballchange yarn one\n", "1:9: format 'ballchange yarn one' is not what is wanted here; " + wanted},
      {"format: ballchange project 1\n", "1:9: format 'ballchange project 1' is not what is wanted here; " + wanted},
      {"format: ballchange yarn 2\nrepeat: new\n",
       "1:9: format 'ballchange yarn 2' is newer than this program, which reads yarn 1; use a newer ballchange"},
      {"format: ballchange yarn 99999999999\n",
       "1:9: format 'ballchange yarn 99999999999' is newer than this program, which reads yarn 1; use a newer "
       "ballchange"},
      {"format: ballchange yarn 1\n", "1:1: the yarn has no name; add one, like 'name: Orchard'"},
      {"format: ballchange yarn 1\nname: ''\n", "2:7: the yarn's name is empty; write one"},
      {"format: ballchange yarn 1\nname: [a]\n",
       "2:7: the yarn's name is a single value; write it without brackets or further lines"},
      {"format: ballchange yarn 1\nname: \"a\\u202eb\"\n",
       "2:7: the yarn's name holds a character that can't be seen (U+202E); remove it"},
      {"format: ballchange yarn 1\nname: " + std::string(201, 'x') + "\n",
       "2:7: the yarn's name is longer than 200 bytes; shorten it"},
      {kHead, "1:1: the yarn has no repeat; add one, like 'repeat: [{colour: plum, length: 92 cm}, ...]'"},
      {kHead + "name: Again\n", "3:1: 'name' stands here twice (first at 2:1); keep one"},
  });
}

TEST_CASE("a section that does not hold is refused") {
  check_rows({
      {kHead + "repeat: 7\n",
       "3:9: repeat is not a list; write a line like '- {colour: plum, length: 92 cm}' for each section"},
      {kHead + "repeat: []\n", "3:9: repeat has 0 sections; write 2 to 200"},
      {repeat_of({kSand}), "4:3: repeat has 1 section; write 2 to 200"},
      {repeat_of(many(202)), "4:3: repeat has 202 sections; write 2 to 200"},
      {kHead + "repeat: [plum 92, sand 11]\n",
       "3:10: a section is not a set of keys; write '- {colour: plum, length: 92 cm}'"},
      {repeat_of({"length: 92 cm", kSand}), "4:5: a section has no colour; add one, like 'colour: plum'"},
      {repeat_of({"colour: plum", kSand}), "4:5: a section has no length; add one, like 'length: 92 cm'"},
      {repeat_of({"colour: plum, lenght: 9", kSand}), "4:20: a section has no length; write 'length' for 'lenght'"},
      {repeat_of({"colour: a, color: a, length: 9", kSand}), "4:17: colour and color are the same; keep one"},
      {repeat_of({"colour: plum, length: sixty", kSand}), "4:28: length: 'sixty' is not a length, like 15 or 3 1/2in"},
      {repeat_of({"colour: plum, length: -5", kSand}), "4:28: length: '-5' is below zero: leave out the minus"},
      {repeat_of({"colour: plum, length: [5]", kSand}),
       "4:28: length is a single value; write it without brackets or further lines"},
      {repeat_of({"colour: plum, length: 0.4 cm", kSand}),
       "4:28: length '0.4 cm' is out of range; write 0.5 cm to 100 m"},
      {repeat_of({"colour: plum, length: 100.1 m", kSand}),
       "4:28: length '100.1 m' is out of range; write 0.5 cm to 100 m"},
      {repeat_of({"colour: plum, length: 0.4 st", kSand}),
       "4:28: length '0.4 st' is out of range; write 0.5 st to 10000 st"},
      {repeat_of({"colour: plum, length: 60,5 cm", kSand}), "4:28: a decimal comma in '60,5 cm'; write '60.5 cm'"},
      {repeat_of({"colour: plum, length: '60,5 cm'", kSand}), "4:28: length: decimals take a point: write 60.5"},
      {repeat_of({"colour: plum, length: 60, plus_minus: 20.1", kSand}),
       "4:44: plus_minus '20.1' is more than a third of the length; measure more strands"},
      {repeat_of({"colour: plum, length: 60, plus_minus: -1", kSand}),
       "4:44: plus_minus: '-1' is below zero: leave out the minus"},
      {repeat_of({"colour: plum, length: 60 st", kSand}),
       "5:28: length is in cm, but the lengths before it are in stitches; write all in st or none"},
      {repeat_of({kSand, "colour: plum, length: 60 st"}),
       "5:28: length is in st, but the lengths before it are not in stitches; write all in st or none"},
      {repeat_of({"colour: plum, length: 60 st, plus_minus: 1 cm", kSand}),
       "4:47: plus_minus is in cm, but the lengths before it are in stitches; write all in st or none"},
      {repeat_of({"colour: plum, length: 9", kSand, kSand, "colour: rust, length: 9"}),
       "6:5: sand follows sand; write the two as one section, their lengths added"},
      {repeat_of({"colour: plum, length: 9", kSand, "colour: plum, length: 8"}),
       "6:5: the last section and the first are both plum, and the repeat is a circle; write the two as one section"},
  });
}

TEST_CASE("a colour that does not hold is refused") {
  const std::string mark = " can't hold a comma, bar, plus or quote: leave it out";
  const std::string digit = " can't have a word that begins with a digit: a length would start there";
  const std::string unseen = " holds a character that can't be seen: write it again without";
  const std::string hook = "4:14: colour: hook tells where the hook is: give the colour another name";
  check_rows({
      {named("''"), "4:14: colour: a colour's name is missing: write one, like plum"},
      {named("'a,b'"), "4:14: colour: the name 'a,b'" + mark},
      {named("a|b"), "4:14: colour: the name 'a|b'" + mark},
      {named("a+b"), "4:14: colour: the name 'a+b'" + mark},
      {named("a\"b"), "4:14: colour: the name 'a\"b'" + mark},
      {named("a'b"), "4:14: colour: the name 'a'b'" + mark},
      {named("7up"), "4:14: colour: the name '7up'" + digit},
      {named("sea 7"), "4:14: colour: the name 'sea 7'" + digit},
      {named("\xC2\xBDmoon"), "4:14: colour: the name '\xC2\xBDmoon'" + digit},
      {named("\"a\\tb\""), "4:14: colour: the name 'a\\x09b'" + unseen},
      {named("\"a\\u200bb\""), "4:14: colour: the name 'a\\u{200B}b'" + unseen},
      {named("\"a\\u202eb\""), "4:14: colour: the name 'a\\u{202E}b'" + unseen},
      {named("'@sea'"), "4:14: colour: the name '@sea' can't begin with @ or -: leave it out"},
      {named("-sea"), "4:14: colour: the name '-sea' can't begin with @ or -: leave it out"},
      {named("hook"), hook},
      {named("Hook"), hook},
      {named(std::string(201, 'x')), "4:14: colour: a colour's name has at most 200 bytes"},
      {named("Sand"),
       "5:14: colours 'Sand' and 'sand' differ only in capitals or in how an accent is typed; write both the same, or "
       "rename one"},
      {named("plum, shade: plumish"),
       "4:27: shade 'plumish' is not known; write it like \"#5b2a59\", or as a CSS colour name"},
      {named("plum, shade: '#12'"),
       "4:27: shade '#12' is not known; write it like \"#5b2a59\", or as a CSS colour name"},
      {named("plum, shade: #5b2a59"), "4:27: a # hides the rest of its line; put a shade in quotes, like \"#5b2a59\""},
      {kHead + "repeat:\n  - colour: plum\n    shade: #5b2a59\n    length: 9\n  - {" + kSand + "}\n",
       "5:5: shade has no value; a # begins a remark, so put the shade in quotes, like \"#5b2a59\""},
      {repeat_of({"colour: plum, shade: red, length: 9", kSand, "colour: plum, shade: blue, length: 7", kSand}),
       "6:27: 'plum' has another shade further up; keep one of them"},
  });
}

TEST_CASE("any other key that does not hold is refused") {
  check_rows({
      {with("units: yd"), "3:8: units 'yd'; write cm, in or st"},
      {with("felts: maybe"), "3:8: felts: 'maybe' is neither true nor false; write one of them"},
      {with("fibre: [a]"), "3:8: fibre is a single value; write it without brackets or further lines"},
      {with("ball: 50 g"), "3:7: ball is not a set of keys; write 'ball: {mass: 50 g, length: 125 m}'"},
      {with("ball: {mass: 0 g}"), "3:14: mass is nothing; write what the ball band says"},
      {with("ball: {mass: 0.0009 g}"), "3:14: mass is nothing; write what the ball band says"},
      {with("ball: {mass: 5.01 kg}"), "3:14: mass is more than 5 kg; write the mass of one ball"},
      {with("ball: {mass: fifty}"), "3:14: mass: 'fifty' is not a mass, like 50 g"},
      {with("ball: {mass: 50,2 g}"), "3:14: a decimal comma in '50,2 g'; write '50.2 g'"},
      {with("ball: {length: 0 m}"), "3:16: length is nothing; write what the ball band says"},
      {with("ball: {length: 0.9mm}"), "3:16: length is nothing; write what the ball band says"},
      {with("ball: {length: 5001 m}"), "3:16: length is more than 5000 m; write the length of one ball"},
      {with("ball: {length: 90 st}"),
       "3:16: length is in st, but the lengths before it are not in stitches; write all in st or none"},
      {with("ball_plus_minus: 15.1 %"), "3:18: ball_plus_minus is more than 15 %; write 0 % to 15 %"},
      {with("ball_plus_minus: 2"), "3:18: ball_plus_minus: '2' is more than the whole: write 0 % to 15 %, like 2 %"},
      {with("ball_plus_minus: x"), "3:18: ball_plus_minus: 'x' is not a share, like 95 % or 0.95"},
      {kHead + "ball: {length: 500001}\nrepeat: [{colour: a, length: 9 st}, {colour: b, length: 9 st}]\nunits: st\n",
       "3:16: length is more than 500 000 st; write the length of one ball"},
  });
}

TEST_CASE("everything up to its limit is accepted") {
  for (const std::string& text :
       {kGood, repeat_of(many(2)), repeat_of(many(200)),
        repeat_of({"colour: plum, length: 0.5 cm", "colour: sand, length: 100 m"}),
        repeat_of({"colour: plum, length: 0.5 st", "colour: sand, length: 10000 st"}),
        repeat_of({"colour: plum, length: 60, plus_minus: 20", kSand}),
        repeat_of({"colour: plum, length: 20, plus_minus: 6.6667", kSand}),
        repeat_of({"colour: plum, length: 60, plus_minus: 0", kSand}), with("ball: {mass: 5 kg, length: 5000 m}"),
        with("ball_plus_minus: 0 %"), with("ball_plus_minus: 15 %"), with("felts: no"), with("fibre: \"\xC3\xB1\""),
        named(std::string(200, 'x')), named("hooked"), named("u2"),
        "format: ballchange yarn 1\nname: " + std::string(200, 'x') + kGood.substr(kHead.size() - 1)}) {
    CAPTURE(text);
    CHECK(outcome(text) == "accepted");
  }
}

TEST_CASE("keys that are not known are told, with the nearest that is, and do no harm") {
  const Profile profile =
      read_profile(with("colours: 3\nball: {mas: 50 g}\nmeasured: {strands: [a]}\nwound: {by: [hand]}"), "a.yaml");
  CHECK(profile.notes ==
        std::vector<std::string>{"a.yaml:4:8: 'mas' is not known here and does nothing; did you mean mass?",
                                 "a.yaml:3:1: 'colours' is not known here and does nothing",
                                 "a.yaml:6:1: 'wound' is not known here and does nothing"});
  CHECK(read_profile(repeat_of({"colour: plum, lenght: 9, length: 8", kSand}), "a.yaml").notes ==
        std::vector<std::string>{"a.yaml:4:20: 'lenght' is not known here and does nothing; did you mean length?"});
}

TEST_CASE("of many keys that are not known ten are told, the rest counted") {
  const auto notes_on = [](int keys) {
    std::string text = "ball: {mass: 50 g";
    for (int i = 0; i < keys; ++i) text += ", key" + std::to_string(i) + ": 1";
    return read_profile(with(text + "}"), "a.yaml").notes;
  };
  CHECK(notes_on(10).size() == 10);
  const std::vector<std::string> notes = notes_on(13);
  REQUIRE(notes.size() == 11);
  CHECK(notes[9].ends_with(": 'key9' is not known here and does nothing"));
  CHECK(notes[10] == "a.yaml: and 3 more keys that are not known here");
  CHECK(notes_on(11).back() == "a.yaml: and 1 more key that is not known here");
}

TEST_CASE("a byte-order mark and CRLF make no difference") {
  std::string text = shipped("orchard");
  const std::string plain = write_profile(yarn_of(text));
  for (std::size_t at = 0; (at = text.find('\n', at)) != std::string::npos; at += 2) text.insert(at, 1, '\r');
  CHECK(write_profile(yarn_of("\xEF\xBB\xBF" + text)) == plain);
}

TEST_CASE("the yarn inside a project is the same mapping without its format") {
  const Tree tree("yarn: {name: Orchard, repeat: [{colour: plum, length: 10}, {colour: sand, length: 5}]}\n", "p.yaml");
  CHECK(std::abs(read_yarn(*tree.root().find("yarn"), Unit::in).yarn.repeat.total().cm() - 38.1) < 1e-9);
}

TEST_CASE("a written profile reads back as the same yarn") {
  for (const char* name : {"orchard", "quickstile", "gatepost", "slowdusk", "rookwalk", "deckplank", "farfurrow",
                           "thumbrope", "tallyrow"}) {
    CAPTURE(name);
    const Yarn yarn = yarn_of(shipped(name));
    const Yarn again = yarn_of(write_profile(yarn));
    CHECK(again.name == yarn.name);
    CHECK(again.fibre == yarn.fibre);
    CHECK(again.felts == yarn.felts);
    CHECK(again.ball_mass == yarn.ball_mass);
    CHECK(again.ball_length == yarn.ball_length);
    CHECK(std::abs(again.ball_plus_minus - yarn.ball_plus_minus) < 1e-6);
    CHECK(again.reckoning == yarn.reckoning);
    REQUIRE(again.repeat.size() == yarn.repeat.size());
    for (std::size_t k = 0; k < yarn.repeat.size(); ++k) {
      CHECK(again.repeat.name_of(k) == yarn.repeat.name_of(k));
      CHECK(abs(again.repeat.sections()[k].length - yarn.repeat.sections()[k].length) < 0.0001_cm);
      CHECK(abs(again.repeat.sections()[k].plus_minus - yarn.repeat.sections()[k].plus_minus) < 0.0001_cm);
    }
    for (std::size_t c = 0; c < yarn.repeat.colours().size(); ++c) {
      CHECK(again.repeat.colours()[c].shade == yarn.repeat.colours()[c].shade);
    }
  }
}

TEST_CASE("what is worth knowing about a yarn is told") {
  const auto notes = [](const char* name) { return profile_notes(yarn_of(shipped(name))); };
  const std::string either =
      "Read from either end this yarn looks the same, so a ball may be worked from its outside or its inside.";
  CHECK(notes("orchard").empty());
  CHECK(notes("tallyrow").empty());
  CHECK(notes("gatepost") == std::vector<std::string>{either});
  CHECK(notes("deckplank") ==
        std::vector<std::string>{
            "The same 2 sections come 4 times over in this repeat, and a tape can't tell one time from the "
            "next: it really repeats every 48 cm. Write only the first 2 sections, or no reading will say "
            "which of the 4 it shows.",
            either});
  CHECK(notes("farfurrow") ==
        std::vector<std::string>{
            "loam runs on for 60.0 m: an end that lies deep inside it shows no change to measure from."});
  CHECK(notes("slowdusk") ==
        std::vector<std::string>{
            "Close shades lie side by side, look for their changes in daylight: mist and haze; haze and dove; "
            "dove and rain; rain and steel; steel and denim; denim and tide; tide and dusk; dusk and midnight."});
  CHECK(profile_notes(yarn_of(with("ball: {length: 80 cm}"))) ==
        std::vector<std::string>{
            either, "A ball holds 80 cm, less than one repeat of 103 cm: no single ball shows every colour."});
}

TEST_CASE("every shipped profile reads without a remark") {
  const std::vector<std::string> names = RealDisk().names_in(BALLCHANGE_TESTS "/../profiles");
  CHECK(names.size() >= 9);
  for (const std::string& name : names) {
    CAPTURE(name);
    CHECK(read_profile(shipped(name.substr(0, name.rfind('.'))), name).notes.empty());
  }
}

TEST_CASE("a profile cut at any byte is read or refused") {
  const std::string text = shipped("orchard");
  std::size_t read = 0;
  for (std::size_t size = 0; size < text.size(); ++size) {
    CAPTURE(size);
    const std::string result = outcome(text.substr(0, size));
    if (result == "accepted") ++read;
    CHECK((result == "accepted" || result.starts_with("a.yaml:")));
  }
  // After each of sand, rust, moss and navy: at once, with the newline, and with the next line's two spaces. After grey
  // at once.
  CHECK(read == 17);
}

TEST_CASE("a profile with any byte changed is read or refused") {
  const std::string text = shipped("orchard");
  const std::uint64_t seed = 7;
  CAPTURE(seed);
  Random random(seed);
  for (std::size_t at = 0; at < text.size(); ++at) {
    for (const unsigned flip : {1U << random.below(8), 0x20U, 1U + static_cast<unsigned>(random.below(255))}) {
      CAPTURE(at);
      CAPTURE(flip);
      std::string hurt = text;
      hurt[at] = static_cast<char>(static_cast<unsigned char>(hurt[at]) ^ flip);
      const std::string result = outcome(hurt);
      CHECK((result == "accepted" || result.starts_with("a.yaml:")));
    }
  }
}
