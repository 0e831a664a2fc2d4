#include "commands/run.hpp"

#include <doctest/doctest.h>

#include <sstream>
#include <string>

#include "base/text.hpp"
#include "commands/help_topics.hpp"
#include "commands/table.hpp"
#include "commands_session.hpp"

namespace ballchange {
namespace {

TEST_CASE("every way to end has its exit code") {
  struct Case {
    std::vector<std::string> arguments;
    int code;
  };
  const std::vector<Case> cases{
      {check(kOld, kNew), Exit::done},
      {{}, Exit::done},
      {{"--version"}, Exit::done},
      {{"help", "check"}, Exit::done},
      {{"place", "--help"}, Exit::done},
      {check("@gone.txt", kNew), Exit::file},
      {{"chek"}, Exit::content},
      {{"--yarn", "orchard.yaml"}, Exit::content},
      {{"check"}, Exit::content},
      {check("plim 3", kNew), Exit::content},
      {check(kOld, kNew, {"stray"}), Exit::content},
      {check("navy 20, rust 30", kNew), Exit::settles_nothing},
      {check(kOld, "rust 30, sand 11, plum 15"), Exit::settles_nothing},
      {check(kOld, "moss 50, sand 30, navy 10"), Exit::settles_nothing},
  };
  for (const Case& c : cases) {
    CAPTURE(c.arguments.size());
    if (!c.arguments.empty()) CAPTURE(c.arguments.back());
    const Ran ran = run(c.arguments);
    CHECK(ran.code == c.code);
    CHECK(ran.complaints.empty() == (c.code == Exit::done || c.code == Exit::settles_nothing));
    CHECK(ran.out.empty() == (c.code == Exit::file || c.code == Exit::content));
  }
}

TEST_CASE("no line of any help is wider than 80 columns") {
  std::vector<std::vector<std::string>> screens{{"help"}};
  for (const std::string& name : command_names()) screens.push_back({"help", name});
  for (const HelpTopic& topic : help_topics()) screens.push_back({"help", std::string(topic.name)});
  CHECK(screens.size() > 20);
  for (const std::vector<std::string>& screen : screens) {
    const Ran ran = run(screen);
    CHECK(ran.code == Exit::done);
    std::istringstream lines(ran.out);
    for (std::string line; std::getline(lines, line);) {
      CAPTURE(screen.back());
      CAPTURE(line);
      CHECK(display_width(line) <= 80);
    }
  }
}

TEST_CASE("an option that is told too often is refused before anything is reckoned") {
  struct Case {
    std::vector<std::string> command;
    std::string option, text, said;
    int most;
  };
  const std::vector<Case> cases{
      {{"measure"}, "--strand", "plum 40, sand 11", "--strand: 201 strands are too many; 200 at most\n", 200},
      {{"gauge"}, "--swatch", "4 mm, 20 st over 10 cm", "--swatch: at most 200 of them\n", 200},
      {{"order", "--yarn", "orchard.yaml"},
       "--ends",
       "A: plum 15, sand 11, rust / plum 15, grey 9, navy",
       "1001 balls are too many; 1000 at most\n",
       1000},
  };
  for (const Case& c : cases) {
    CAPTURE(c.option);
    std::vector<std::string> arguments = c.command;
    for (int k = 0; k <= c.most; ++k) arguments.insert(arguments.end(), {c.option, c.text});
    const Ran ran = run(arguments);
    CHECK(ran.code == Exit::content);
    CHECK(ran.complaints == c.said);
  }
}

TEST_CASE("an error stands first, remarks on the profile after it") {
  Session session;
  session.disk.files["orchard.yaml"] += "nmae: x\n";
  const std::string note = "'nmae' is not known here and does nothing; did you mean name?\n";
  const Ran refused = session.run(check("plim 3", kNew));
  CHECK(refused.complaints.starts_with("--old, entry 1: no colour 'plim'"));
  CHECK(refused.complaints.find("\nNote: orchard.yaml:") != std::string::npos);
  CHECK(refused.complaints.ends_with(note));
  const Ran done = session.run(check(kOld, kNew));
  CHECK(done.complaints.starts_with("orchard.yaml:"));
  CHECK(done.complaints.ends_with(note));
}

TEST_CASE("JSON goes out when something was found, settled or not, and never beside a problem") {
  const std::vector<std::string> json{"--format", "json"};
  CHECK(run(check(kOld, kNew, json)).out.starts_with(R"({"format":"ballchange check 1","old":{"format":"ballch)"));
  CHECK(run(check("navy 20, rust 30", kNew, json)).out.find(R"("verdict":"measure-more")") != std::string::npos);
  CHECK(run(check(kOld, "rust 30, sand 11, plum 15", json)).out.find(R"("verdict":"turn-ball")") != std::string::npos);
  CHECK(run(check(kOld, "moss 50, sand 30, navy 10", json)).out.find(R"("verdict":"no-fit")") != std::string::npos);
  CHECK(run(check("plim 3", kNew, json)).out.empty());
}

TEST_CASE("a turned reading works as it is printed") {
  const Ran ran = run(check(kOld, "rust 30, sand 11, plum 15"));
  const std::string wanted = "--new \"plum 15, sand 11, rust 30\"\n";
  CHECK(ran.out.find(wanted) != std::string::npos);
  CHECK(run(check(kOld, "plum 15, sand 11, rust 30")).code == Exit::done);
}

TEST_CASE("balls worked from their other ends are in step when that is told") {
  const char* const turned = "plum 20, sand 11, rust 30";
  const Ran asked = run(check(turned, "rust 30, sand 11, plum"));
  CHECK(asked.code == Exit::settles_nothing);
  CHECK(asked.out.find("--from other") != std::string::npos);
  CHECK(run(check(turned, "rust 30, sand 11, plum", {"--from", "other"})).code == Exit::done);
}

TEST_CASE("readings come from standard input too, but only one of them") {
  CHECK(run(check(kOld, "-"), std::string(kNew) + "\n").code == Exit::done);
  CHECK(run(check("-", "-"), kNew).complaints ==
        "only one of --old and --new can come from standard input; give the other as @FILE\n");
}

TEST_CASE("a signed shift is taken with its sign") {
  const std::vector<std::string> more{"--keep", "from-the-start", "--format", "json", "--out-of-step", "-2.5cm"};
  CHECK(run(check(kOld, kNew, more)).out.find(R"("out_of_step":-2.5)") != std::string::npos);
}

TEST_CASE("nothing set up: three numbers answer") {
  const Ran ran = run({"check", "--whole", "plum 84", "--old", "plum 51, fern", "--new", "plum 61, oat"});
  CHECK(ran.code == Exit::done);
  CHECK(ran.out.find("Mark 43 cm before plum ends (oat begins).") != std::string::npos);  // 51 used + 43 kept - 10 = 84
  CHECK(run({"check", "--whole", "plum", "--old", "plum 51", "--new", "plum 61"}).code == Exit::content);
}

TEST_CASE("what stands after -- is a word, however it begins") {
  Session desk;
  REQUIRE(desk.run({"start", "wrap", "--yarn", "orchard.yaml"}).code == Exit::done);
  CHECK(desk.run({"note", "wrap.yaml", "-5 % after washing"}).complaints ==
        "'-5 % after washing' begins with a dash: if it is no option, write -- before it, as -- \"-5 % after "
        "washing\"\n");
  CHECK(desk.run({"note", "wrap.yaml", "--", "-5 % after washing"}).code == Exit::done);
  CHECK(desk.disk.files["wrap.yaml"].find("text: \"-5 % after washing\"") != std::string::npos);
  CHECK(desk.run({"note", "wrap.yaml", "--", "one", "--dry-run"}).complaints ==
        "'--dry-run' belongs to no option: quote a reading as one word\n");
}

TEST_CASE("every command's help names every option of its own") {
  for (const CommandRow& row : commands()) {
    const std::string text = run({"help", std::string(row.name)}).out;
    for (const OptionGroup& group : row.options()) {
      for (const OptionRow& option : group.rows) {
        CAPTURE(option.name);
        // A word of its own: "--row" doesn't stand in "--rows".
        const std::string word = "--" + std::string(option.name);
        std::size_t at = text.find(word);
        while (at != std::string::npos && at + word.size() < text.size() &&
               std::string_view(" \n,;.)").find(text[at + word.size()]) == std::string_view::npos) {
          at = text.find(word, at + 1);
        }
        CHECK(at != std::string::npos);
        CHECK_FALSE(option.help.empty());
      }
    }
  }
}

}  // namespace
}  // namespace ballchange
