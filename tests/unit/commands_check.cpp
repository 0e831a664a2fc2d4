// Long: what check says, each time with strands of its own.
#include <doctest/doctest.h>

#include <fmt/format.h>

#include <algorithm>
#include <map>
#include <new>
#include <stdexcept>
#include <string>

#include "base/random.hpp"
#include "commands_session.hpp"
#include "show/join_words.hpp"

namespace ballchange {
namespace {

std::vector<std::string> with(std::vector<std::string> arguments, const std::vector<std::string>& more) {
  arguments.insert(arguments.end(), more.begin(), more.end());
  return arguments;
}

// The line to type that stands below the first line with that label and word; empty where there is none.
std::string line_to_type(const std::string& screen, const std::string& label, const std::string& word = {}) {
  for (std::size_t at = 0; (at = screen.find("\n" + label, at)) != std::string::npos; ++at) {
    const std::size_t option = screen.find("\n          --", at);
    if (option == std::string::npos) return {};
    if (screen.substr(at, option - at).find(word) == std::string::npos) continue;
    return screen.substr(option + 11, screen.find('\n', option + 1) - option - 11);
  }
  return {};
}

std::vector<std::string> words(const std::string& line) {
  std::istringstream in(line);
  std::vector<std::string> all;
  for (std::string word; in >> word;) all.push_back(word);
  return all;
}

double number_after(const std::string& json, const std::string& key) {
  const std::size_t at = json.find("\"" + key + "\":");
  REQUIRE(at != std::string::npos);
  return std::stod(json.substr(at + key.size() + 3));
}

std::string refusal(const std::vector<std::string>& arguments) {
  const Ran ran = run(arguments);
  CHECK(ran.code == Exit::content);
  CHECK(ran.out.empty());
  return ran.complaints;
}

TEST_CASE("what is told as cheaper is what comes of typing it") {
  struct Base {
    std::vector<std::string> options;
    double per_unit;  // cm
  };
  const std::vector<Base> bases{{{}, 1},
                                {{"--sparing"}, 1},
                                {{"--method", "felted"}, 1},
                                {{"--yarn-per-stitch", "1.85"}, 1},
                                {{"--out-of-step", "2"}, 1},
                                {{"--units", "in"}, 2.54}};
  Random random(20261125);
  int told = 0;
  for (int n = 0; n < 240; ++n) {
    const Base& base = bases[static_cast<std::size_t>(n) % bases.size()];
    const double used = 20 + 50 * random.uniform();
    const double kept = 80 - used + 16 * random.uniform() - 4;
    const std::string old_text = fmt::format("rust {:.1f}cm, sand 11cm, plum", used);
    const std::string new_text = fmt::format("rust {:.1f}cm, moss 14cm, navy", kept);
    CAPTURE(n);
    CAPTURE(old_text);
    CAPTURE(new_text);
    const auto arguments = with(check(old_text, new_text), base.options);
    const Ran before = run(arguments);
    const std::string line = line_to_type(before.out, "Cheaper");
    if (line.empty()) continue;
    CAPTURE(line);
    ++told;
    // The options replace those of the same name.
    std::vector<std::string> again = check(old_text, new_text);
    const std::vector<std::string> typed = words(line);
    for (std::size_t i = 0; i < base.options.size(); ++i) {
      const bool replaced = std::find(typed.begin(), typed.end(), base.options[i]) != typed.end();
      if (replaced) ++i;
      if (!replaced) again.push_back(base.options[i]);
    }
    const Ran after = run(with(with(again, typed), {"--format", "json"}));
    REQUIRE(after.code == Exit::done);
    const std::size_t cheaper = before.out.find("\nCheaper");
    const bool nothing = before.out.find("nothing to cut off", cheaper) < before.out.find("--allowance", cheaper);
    const double discard = number_after(after.out, "discard");
    if (nothing) {
      CHECK(discard < 0.5 * base.per_unit);
    } else {
      CHECK(discard < number_after(run(with(arguments, {"--format", "json"})).out, "discard") - 10);
    }
  }
  CHECK(told > 100);
}

TEST_CASE("a knot just outside the tolerance may be left as it is told") {
  const auto arguments = check(kOld, "rust 47.5, moss 14, navy", {"--knot"});
  const Ran ran = run(arguments);
  CHECK(ran.out.find("Undo the knot: through it the colours skip 2.5 cm.") != std::string::npos);
  const std::string line = line_to_type(ran.out, "Or ", "leave the knot");
  REQUIRE_FALSE(line.empty());
  CHECK(run(with(arguments, words(line))).out.find("Leave the knot") != std::string::npos);
}

TEST_CASE("a knot that is left says what it skips") {
  const Ran ran = run(check(kOld, "rust 49, moss 14, navy", {"--knot"}));
  CHECK(ran.out.find("Knot      30 cm into rust. The colours skip 1 cm.") != std::string::npos);
}

TEST_CASE("too little loose yarn is said first, in stitches where a stitch is known") {
  const Ran ran =
      run(check("rust 20, hook, rust 6st, sand 6st", kNew, {"--yarn-per-stitch", "1.85", "--colour", "never"}));
  CHECK(ran.out.find("Don't cut yet: ravel back 3 stitches (5 cm) first") != std::string::npos);
}

TEST_CASE("ends that follow each other are told so when something is cut all the same") {
  const Ran ran = run(check(kOld, "rust 49, moss 14, navy"));
  CHECK(ran.out.find("The two ends follow each other as they are") != std::string::npos);
}

TEST_CASE("an overlooked splash is told even where the place is settled") {
  for (const auto& arguments :
       {check(kOld, "plum 15, rust 80, moss"),
        std::vector<std::string>{"place", "--yarn", "orchard.yaml", "--new", "plum 15, rust 80, moss"}}) {
    const Ran ran = run(arguments);
    CHECK(ran.code == Exit::done);
    CHECK(ran.out.find("Mind      On the new strand sand seems passed over in or beside plum") != std::string::npos);
  }
}

TEST_CASE("--verbose repeats nothing") {
  for (const auto& arguments :
       {check(kOld, kNew), check(kOld, "plum 15, rust 30"), check(kOld, "plum 15, rust 80, moss"), check(kNew, kOld),
        check("plum 20, rust 80, sand 11, plum", kNew)}) {
    const Ran ran = run(with(arguments, {"--verbose"}));
    std::map<std::string, int> lines;
    std::istringstream in(ran.out);
    for (std::string line; std::getline(in, line);) {
      CAPTURE(line);
      if (line.find_first_not_of(' ') != std::string::npos) CHECK(++lines[line] == 1);
    }
    CHECK(ran.out.starts_with(run(arguments).out.substr(0, 200)));
  }
}

TEST_CASE("both readings written the wrong way are asked about once") {
  const Ran ran = run(check("plum 20, sand 11, rust 30", "rust 30, sand 11, plum"));
  CHECK(ran.out.find("were both strands") != std::string::npos);
  CHECK(ran.out.find("was the") == std::string::npos);
  // Turned round its first length is missing: that is asked for where it goes.
  CHECK(ran.out.find("if not, type both the other way round") == ran.out.rfind("if not"));
  CHECK(ran.out.find("          --old \"rust 30, sand 11, plum 20\"\n          --new \"plum ?, sand 11, rust 30\"\n") !=
        std::string::npos);
}

TEST_CASE("one reading that only fits the wrong way round: what to do in either case") {
  const Ran ran = run({"place", "--yarn", "orchard.yaml", "--new", "rust 30, sand 11, plum 15"});
  CHECK(ran.out.find("if not, type it the other way round") != std::string::npos);
  CHECK(ran.out.find("if it was, the ball is worked from its other end: add --from other") != std::string::npos);
  const Ran both = run(check("plum 15, sand 11, rust 30", "rust 30, sand 11, plum 15", {"--from", "other"}));
  CHECK(both.code == Exit::done);
}

TEST_CASE("a length that is asked for is asked for whole, so that the answer settles it") {
  Session session;
  Yarn yarn = orchard();
  yarn.repeat = Repeat({{"soot", {}}, {"cream", {}}, {"teal", {}}, {"madder", {}}}, {{0, 34_cm, 2.5_cm},
                                                                                     {1, 8_cm, 1_cm},
                                                                                     {2, 23_cm, 2_cm},
                                                                                     {1, 15_cm, 1.2_cm},
                                                                                     {0, 18_cm, 1.5_cm},
                                                                                     {3, 29_cm, 2_cm},
                                                                                     {1, 8_cm, 1_cm},
                                                                                     {2, 41_cm, 3_cm},
                                                                                     {0, 10_cm, 1_cm},
                                                                                     {3, 21_cm, 2_cm}});
  session.disk.files["rookwalk.yaml"] = write_profile(yarn);
  const auto place = [&](const char* end, const char* reading) {
    return session.run({"place", "--yarn", "rookwalk.yaml", end, reading});
  };
  CHECK(place("--new", "cream 3, teal 20").out.find("--new \"cream 3, teal ? |\"") != std::string::npos);
  CHECK(place("--new", "cream 3, teal 22 |").code == Exit::done);
}

TEST_CASE("a splash that may lie in either of two colours leaves the length of both open") {
  const auto line = [](const char* end, const char* reading) {
    return line_to_type(run({"place", "--yarn", "orchard.yaml", end, reading}).out, "Then");
  };
  CHECK(line("--old", "rust 30, plum 40") == "--old \"rust ?, sand ?, plum\"");
  CHECK(line("--new", "rust 30, plum 40") == "--new \"rust ?, sand ?, plum 40\"");
  CHECK(run({"place", "--yarn", "orchard.yaml", "--old", "rust 30, plum 40"}).out.find("Or        if not, measure") !=
        std::string::npos);
}

TEST_CASE("the hook is not asked for where it stands") {
  const std::vector<std::string> work{"--row", "117", "--stitch", "41", "--yarn-per-stitch", "1.85"};
  const auto said = [&](const char* old_text) {
    std::string flat;
    for (const std::string& word : words(run(check(old_text, kNew, work)).out)) flat += word + " ";
    const std::size_t at = flat.find("To be told row and stitch, ");
    return at == std::string::npos ? flat.substr(0, 0) : flat.substr(at + 27, flat.find('.', at) - at - 27);
  };
  CHECK(said("rust 30, sand 11, plum, hook") == "give the length of plum up to the hook");
  CHECK(said("rust 30, sand 11, plum 20, hook").empty());
  CHECK(said("rust 30, sand 11, plum").substr(0, 8) == "put hook");
}

TEST_CASE("the shift that is left is told as it is typed at the next join") {
  const auto said = [](const char* before) {
    const std::string out = run(check(kOld, kNew, {"--out-of-step", before, "--tolerance", "3.5"})).out;
    const std::size_t at = out.find("--out-of-step");
    return at == std::string::npos ? std::string() : out.substr(at + 14, out.find(' ', at + 14) - at - 14);
  };
  CHECK(said("2.5") == "0.5");
  CHECK(said("-2.5") == "-0.5");
  CHECK(said("2").empty());
  CHECK(run(check(kOld, kNew, {"--out-of-step", "-2.5", "--tolerance", "3.5"})).out.find("0.5 cm repeated") !=
        std::string::npos);
}

TEST_CASE("a worked join tells its stitches, and rounds are called rounds") {
  const Ran ran = run(check("rust 30, sand 11, hook, plum 14st", kNew,
                            {"--row", "118", "--stitch", "30", "--stitches", "60", "--yarn-per-stitch", "1.85",
                             "--method", "doubled", "--worked", "rounds"}));
  const std::size_t stitch = ran.out.find("about stitch ", ran.out.find("Lands"));
  REQUIRE(stitch != std::string::npos);
  const int middle = std::stoi(ran.out.substr(stitch + 13));
  CHECK(ran.out.find(" of round 118") != std::string::npos);
  CHECK(ran.out.find(" row ") == std::string::npos);
  std::string flat;
  for (const std::string& word : words(ran.out)) flat += word + " ";
  CHECK(flat.find(fmt::format("Work 6 stitches with both strands, from about stitch {} of round 118.", middle - 2)) !=
        std::string::npos);
}

TEST_CASE("the same change on both strands is laid one way round only") {
  Join join;
  join.trim_old = join.trim_new = join.discard = Length();
  join.dry_fit = DryFit{"oat", "lagoon", "oat", "lagoon", 1.5_cm};
  CHECK(dry_fit_text(join, Told::centimetres).find("must be 1.5 cm, the new one further from the hook.") !=
        std::string::npos);
  join.dry_fit->to_after = "ink";
  CHECK(dry_fit_text(join, Told::centimetres).find("must be 1.5 cm.") != std::string::npos);
}

TEST_CASE("where no picture can be drawn one line says why") {
  const Ran ran = run({"check", "--whole", "plum 84", "--old", "plum 31, fern", "--new", "plum 61, oat"});
  CHECK(ran.out.find("Picture   none: the yarn up to the mark was not measured.") != std::string::npos);
  CHECK(run(check(kOld, "rust 52, moss 14, navy")).out.find("left out, not measured") != std::string::npos);
  CHECK(run(check(kOld, kNew)).out.find("Picture") == std::string::npos);
}

TEST_CASE("what comes off in sections nobody measured is told no finer than they are known") {
  const Ran ran = run(check(kOld, "rust 52, moss 14, navy"));
  CHECK(ran.out.find("about 2.7 m comes off") != std::string::npos);
  CHECK(ran.out.find("2.7 m cut off") != std::string::npos);
}

TEST_CASE("an answer to a question is told as it is typed, and settles it") {
  struct Case {
    const char *reading, *line, *answered;
  };
  for (const Case& c : {Case{"plum 15, rust 30", "--new \"plum ?, sand ?, rust 30\"", "plum 15, sand 11, rust 30"},
                        {"plum, sand 11", "--new \"plum ?, sand 11\"", "plum 15, sand 11"},
                        {"rust 30, sand 11, plum", "--new \"plum ?, sand 11, rust 30\"", "plum 5, sand 11, rust 30"}}) {
    CAPTURE(c.reading);
    const std::vector<std::string> place{"place", "--yarn", "orchard.yaml", "--new"};
    CHECK(run(with(place, {c.reading})).out.find(c.line) != std::string::npos);
    const Ran answered = run(with(place, {c.answered}));
    CHECK(answered.code == Exit::done);
    CHECK(answered.out.find('?') == std::string::npos);
  }
}

TEST_CASE("once a colour follows, what was seen of the one before it is asked for whole") {
  Session session;
  Yarn yarn = orchard();
  yarn.repeat = Repeat({{"plum", {}}, {"sand", {}}, {"rust", {}}},
                       {{0, 92_cm, 6_cm}, {1, 11_cm, 1.5_cm}, {0, 92_cm, 6_cm}, {1, 11_cm, 1.5_cm}, {2, 80_cm, 5_cm}});
  session.disk.files["orchard.yaml"] = write_profile(yarn);
  const std::string asked = session.run({"place", "--yarn", "orchard.yaml", "--new", "plum 21, sand 2"}).out;
  CHECK(asked.find("which colour follows sand") != std::string::npos);
  CHECK(asked.find("--new \"plum 21, sand ?, ?\"") != std::string::npos);
}

TEST_CASE("whole lengths: the other ball must run the same way, and a stretch longer than a whole is questioned") {
  const auto whole = [](const std::string& old_text) {
    return std::vector<std::string>{"check", "--whole", "plum 84", "--old", old_text, "--new", "plum 61, oat"};
  };
  const Ran usual = run(whole("plum 51, fern"));
  CHECK(usual.out.find("Mind      Both balls must run the same way round") != std::string::npos);
  CHECK(usual.out.find("First") == std::string::npos);
  CHECK(usual.out.find("baby") == std::string::npos);  // no ends that could come loose
  const Ran too_long = run(whole("plum 120, fern"));
  CHECK(too_long.code == 3);
  CHECK(too_long.out.find("Can't tell yet: the old strand shows 1.2 m of plum") == 0);
  CHECK(refusal(check(kOld, kNew, {"--either-way"})) ==
        "--either-way goes with --whole: where the repeat is known, it tells; leave it out\n");
}

TEST_CASE("options that whole lengths make no use of are refused") {
  for (const std::vector<std::string>& option : std::vector<std::vector<std::string>>{
           {"--sure", "90%"}, {"--from", "other"}, {"--new-from", "other"}, {"--wound", "hand"}, {"--edge", "seek"}}) {
    CAPTURE(option.front());
    const std::string said =
        refusal(with({"check", "--whole", "plum 84", "--old", "plum 51, fern", "--new", "plum 61, oat"}, option));
    CHECK(said == option.front() + " needs a yarn: give --yarn PROFILE instead of --whole, or leave " + option.front() +
                      " out\n");
  }
  CHECK(refusal({"check", "--whole", "plum 84", "--whole", "plum 80", "--old", "plum 5, fern", "--new", "plum 61"}) ==
        "--whole: plum is given twice: give each colour once\n");
}

TEST_CASE("what is no whole section is refused, with what would be right") {
  const auto refused = [](const std::string& whole) {
    return refusal({"check", "--whole", whole, "--old", "plum 51, fern", "--new", "plum 61, oat"});
  };
  CHECK(refused("") == "--whole: no whole section: write its colour and length, like \"plum 84\"\n");
  CHECK(refused("hook 3") == "--whole: hook is no whole section: write its colour and length, like \"plum 84\"\n");
  CHECK(refused("plum 0.4") ==
        "--whole: 'plum 0.4' is too short: a section has at least 0.5 cm; check number and unit\n");
}

TEST_CASE("what no work can hold is refused, with what would be right") {
  const auto refused = [](const std::vector<std::string>& more) { return refusal(check(kOld, kNew, more)); };
  CHECK(refused({"--yarn-per-stitch", "0.09 mm"}) ==
        "--yarn-per-stitch: '0.09 mm' is out of reach: a stitch takes from 0.1 mm to 10 m\n");
  CHECK(refused({"--yarn-per-stitch", "10.1m"}).find("from 0.1 mm to 10 m") != std::string::npos);
  CHECK(run(check(kOld, kNew, {"--yarn-per-stitch", "0.1 mm"})).code == Exit::done);
  CHECK(refused({"--row", "3", "--stitch", "61", "--stitches", "60"}) ==
        "--stitch: 61 is more than the 60 of --stitches; for a finished row leave --stitch out\n");
  CHECK(run(check(kOld, kNew, {"--row", "3", "--stitch", "60", "--stitches", "60"})).code == Exit::done);
  CHECK(refused({"--row", "1000001"}) == "--row: '1000001' is not a whole number from 1 to 1000000\n");
  CHECK(refused({"--method", "-h"}) == "--method needs a value: --method METHOD, but the option -h follows it\n");
  CHECK(refused({"--yarn-per-stitch", "3 st"}) ==
        "--yarn-per-stitch: '3 st' is in stitches; write the yarn in one, like 1.85cm\n");
  CHECK(refused({"--tolerance", "3 st"}).find("(--yarn-per-stitch 1.85cm)") != std::string::npos);
  CHECK(refused({"--allowance", "10.1m"}) == "--allowance: '10.1m' is too long: a join takes at most 10 m\n");
  CHECK(refused({"--room", "10.1m"}) == "--room: '10.1m' is too long: leave at most 10 m\n");
  CHECK(run(check(kOld, kNew, {"-v"})).complaints == "there is no option -v, did you mean --verbose?\n");
  // The join is refused before a reading that can't be read.
  CHECK(refusal(check("no such colour 3", kNew, {"--method", "doubled"})).find("counted in stitches") !=
        std::string::npos);
}

TEST_CASE("a minus may be typeset") {
  const std::vector<std::string> json{"--format", "json", "--out-of-step"};
  CHECK(run(with(check(kOld, kNew), with(json, {"\xe2\x88\x92"
                                                "2.5cm"})))
            .out == run(with(check(kOld, kNew), with(json, {"-2.5cm"}))).out);
}

TEST_CASE("nothing hostile reaches the terminal by way of a complaint") {
  for (const char* hostile : {"\x1b[31mred",
                              "\xc2\x9b"
                              "31m",
                              "\xe2\x80\xaelive", "\xff\xfe", "\x07"}) {
    CAPTURE(hostile);
    for (const auto& arguments :
         {check(hostile, kNew), check("@" + std::string(hostile), kNew), with(check(kOld, kNew), {hostile}),
          std::vector<std::string>{hostile}, check(kOld, kNew, {"--method", hostile}),
          std::vector<std::string>{"place", "--yarn", hostile, "--new", kNew}}) {
      const Ran ran = run(arguments);
      CHECK(ran.code != Exit::done);
      CHECK_FALSE(ran.complaints.empty());
      CHECK(ran.complaints.find(hostile) == std::string::npos);
    }
  }
}

TEST_CASE("an error nobody foresaw is one line") {
  struct Row {
    std::string (*fails)();
    std::string said;
  };
  for (const Row& row : {
           Row{[]() -> std::string { throw std::runtime_error("no\nsuch thing"); },
               "this should not have happened: no\\x0Asuch thing\n"},
           Row{[]() -> std::string { throw std::bad_alloc(); }, "out of memory\n"},
       }) {
    std::ostringstream out;
    std::istringstream in;
    FakeDisk disk;
    const FixedClock clock{0};
    FakeWatch watch;
    std::string complaints;
    Context context{out,
                    in,
                    disk,
                    clock,
                    watch,
                    [&](const std::string&) { return row.fails(); },
                    [&](std::string_view text) { complaints += std::string(text) + "\n"; }};
    CHECK(run_command_line(check(kOld, kNew), context) == Exit::file);
    CHECK(complaints == row.said);
  }
}

}  // namespace
}  // namespace ballchange
