#include <doctest/doctest.h>

#include <string>
#include <vector>

#include "base/problem.hpp"
#include "files/append_text.hpp"

using namespace ballchange;

namespace {

const std::string kEntry = "{n: 2, did: row, row: 7}";

std::string added(const std::string& text, const std::vector<std::string>& entries = {kEntry}) {
  const Tree before(text, "wrap.yaml");
  return add_entries(text, before, entries);
}

std::string refusal(const std::string& text) {
  try {
    return added(text);
  } catch (const Problem& problem) {
    CHECK(problem.fault() == Fault::content);
    return problem.what();
  }
}

const std::string kFirst = "{n: 1, did: note, text: begun}";
const std::string kNew = "- " + kEntry;

}  // namespace

TEST_CASE("an entry goes below the last one and nothing above it changes by a byte") {
  struct Row {
    const char* what;
    std::string before, expected;
  };
  const std::string head = "format: ballchange project 1   # kept\n\nname:   Wrap\n";
  const std::vector<Row> rows{
      {"braces", head + "log:\n  - " + kFirst + "\n", head + "log:\n  - " + kFirst + "\n  " + kNew + "\n"},
      {"blocks", head + "log:\n    - n: 1\n      did: note\n",
       head + "log:\n    - n: 1\n      did: note\n    " + kNew + "\n"},
      {"no indent", head + "log:\n- " + kFirst + "\n", head + "log:\n- " + kFirst + "\n" + kNew + "\n"},
      {"CRLF", "a: 1\r\nlog:\r\n  - " + kFirst + "\r\n", "a: 1\r\nlog:\r\n  - " + kFirst + "\r\n  " + kNew + "\r\n"},
      {"last line end missing", "log:\n - " + kFirst, "log:\n - " + kFirst + "\n " + kNew + "\n"},
      {"last CRLF missing", "log:\r\n - " + kFirst, "log:\r\n - " + kFirst + "\r\n " + kNew + "\r\n"},
      {"byte-order mark", "\xEF\xBB\xBFlog:\n  - " + kFirst + "\n",
       "\xEF\xBB\xBFlog:\n  - " + kFirst + "\n  " + kNew + "\n"},
      {"mark and first entry", "\xEF\xBB\xBFlog: []\n", "\xEF\xBB\xBFlog:\n  " + kNew + "\n"},
      {"brackets opened", head + "log: []\n", head + "log:\n  " + kNew + "\n"},
      {"brackets and remark", "log:  [ ]  # none yet\n# so far\n", "log:  # none yet\n# so far\n  " + kNew + "\n"},
      {"brackets at the end", "log: []", "log:\n  " + kNew + "\n"},
      {"brackets, CRLF", "a: 1\r\nlog: []\r\n", "a: 1\r\nlog:\r\n  " + kNew + "\r\n"},
      {"nothing", head + "log:\n", head + "log:\n  " + kNew + "\n"},
      {"nothing but remarks", "log:   # to come\n\n# here\n", "log:   # to come\n\n# here\n  " + kNew + "\n"},
      {"the word quoted", "\"log\": []\n", "\"log\":\n  " + kNew + "\n"},
      {"remarks below", "log:\n  - " + kFirst + "\n  # ripped\n# end\n",
       "log:\n  - " + kFirst + "\n  # ripped\n# end\n  " + kNew + "\n"},
      {"blank lines below", "log:\n  - " + kFirst + "\n\n\n", "log:\n  - " + kFirst + "\n\n\n  " + kNew + "\n"},
      {"remark without line end", "log:\n  - " + kFirst + "\n# end",
       "log:\n  - " + kFirst + "\n# end\n  " + kNew + "\n"},
      {"text over lines", "log:\n  - {n: 1,\n     text: a}\n", "log:\n  - {n: 1,\n     text: a}\n  " + kNew + "\n"},
      {"block text", "log:\n  - text: |\n      a\n      b\n", "log:\n  - text: |\n      a\n      b\n  " + kNew + "\n"},
      {"block text with its blank lines", "log:\n  - text: |+\n      a\n\n\n",
       "log:\n  - text: |+\n      a\n\n\n  " + kNew + "\n"},
      {"empty last item", "log:\n  - " + kFirst + "\n  -\n", "log:\n  - " + kFirst + "\n  -\n  " + kNew + "\n"},
      {"begin mark", "---\nlog:\n  - " + kFirst + "\n", "---\nlog:\n  - " + kFirst + "\n  " + kNew + "\n"},
      {"all indented", "  a: 1\n  log: []\n", "  a: 1\n  log:\n    " + kNew + "\n"},
      {"another log inside", "a: {log: []}\nlog: []\n", "a: {log: []}\nlog:\n  " + kNew + "\n"},
      {"dots in a text", "a: \"... b\"\nlog:\n  - text: |\n      x\n      ...\n",
       "a: \"... b\"\nlog:\n  - text: |\n      x\n      ...\n  " + kNew + "\n"},
  };
  for (const Row& row : rows) {
    CAPTURE(row.what);
    CHECK(refusal(row.before) == row.expected);
  }
}

TEST_CASE("several entries are added together") {
  CHECK(added("log: []\n", {kFirst, kEntry}) == "log:\n  - " + kFirst + "\n  " + kNew + "\n");
}

TEST_CASE("an entry stays what it is, whatever its texts hold") {
  const std::string entry = R"({n: 2, did: note, text: "- {a: 1} # not \"a remark\" \\ \u202E: ]"})";
  CHECK(added("log: []\n", {entry}) == "log:\n  - " + entry + "\n");
}

TEST_CASE("what can't be added to safely is refused with its line") {
  struct Row {
    std::string text, message;
  };
  const std::vector<Row> rows{
      {"", "wrap.yaml:1:1: no project here; it begins 'format: ballchange project 1'"},
      {"- a\n", "wrap.yaml:1:1: no project here; it begins 'format: ballchange project 1'"},
      {"{a: 1, log: []}\n",
       "wrap.yaml:1:1: the project stands in braces, where no entry can be added; write each key on its own line"},
      {"a: 1\nb: 2\n", "wrap.yaml:2:1: no log below here; write 'log: []' as the last line"},
      {"a: 1\nlog:\n  - {n: 1}\njoin: {}\n",
       "wrap.yaml:2:1: the log must be the last key; move it below 'join', with all its entries"},
      {"a: 1\nlog: [{n: 1},\n  {n: 2}]\n",
       "wrap.yaml:2:6: the log stands in brackets, where no entry can be added; write each entry on its own line, with "
       "'- ' before it"},
      {"log: [\n]\n", "wrap.yaml:1:6: an empty log must stand on one line; write 'log: []'"},
      {"log:\n  []\n", "wrap.yaml:2:3: an empty log must stand on one line; write 'log: []'"},
      {"log: [ # none\n ]\n", "wrap.yaml:1:6: an empty log must stand on one line; write 'log: []'"},
      {"log: {n: 1}\n", "wrap.yaml:1:6: the log must be a list of entries; write 'log: []'"},
      {"log: none\n", "wrap.yaml:1:6: the log must be a list of entries; write 'log: []'"},
      {"log: ~\n", "wrap.yaml:1:1: an empty log is written 'log: []'"},
      {"log:\n  null\n", "wrap.yaml:1:1: an empty log is written 'log: []'"},
      {"log:\n  - {n: 1}\n...\n",
       "wrap.yaml:3:1: '...' ends the project, and no entry can be added below it; remove this line"},
      {"log:\n  - n: 1\n    text: |\n      begun",
       "wrap.yaml:2:5: no entry can be added safely below this one; write it in braces on one line, as in '- {n: 1, "
       "did: note}'"},
  };
  for (const Row& row : rows) {
    CAPTURE(row.text);
    CHECK(refusal(row.text) == row.message);
  }
}

TEST_CASE("a project that would grow past 64 MB is refused") {
  std::string text = "name: wrap\n# " + std::string(Tree::kMostBytes - 40, 'x') + "\nlog: []\n";
  CHECK(refusal(text) == "wrap.yaml: with the new entry it would be larger than 64 MB; go on in a new project");
}
