#include <doctest/doctest.h>

#include <algorithm>
#include <string>
#include <vector>

#include "base/random.hpp"
#include "files/yaml_depth.hpp"
#include "files/yaml_text.hpp"
#include "files/yaml_tree.hpp"

using namespace ballchange;

namespace {

std::string refusal(const std::string& text) {
  try {
    const Tree tree(text, "a.yaml");
  } catch (const Problem& problem) {
    CHECK(problem.fault() == Fault::content);
    return problem.what();
  }
  return "accepted";
}

std::string repeated(const std::string& piece, int times) {
  std::string out;
  for (int i = 0; i < times; ++i) out += piece;
  return out;
}

// A list or mapping in brackets, nested at random; the deepest level it reaches.
std::string random_flow(Random& random, std::size_t level, std::size_t& deepest) {
  static const std::vector<std::string> scalars{"plum", "it's",      "'[{'",      "\"]}\"",
                                                "a 'b", "'it''s ['", "\"\\\"[\"", "-1 # [{ '\n"};
  deepest = std::max(deepest, level);
  const bool mapping = random.below(2) == 0;
  std::string out = mapping ? "{" : "[";
  const std::uint64_t count = random.below(4);
  for (std::uint64_t i = 0; i < count; ++i) {
    if (i > 0) out += random.below(2) == 0 ? ", " : ",\n ";
    if (mapping) out += "k" + std::to_string(i) + ": ";
    out += level < 6 && random.below(2) == 0 ? random_flow(random, level + 1, deepest)
                                             : scalars[random.below(scalars.size())];
  }
  return out + (mapping ? "}" : "]");
}

}  // namespace

TEST_CASE("a tree keeps keys, order, values, quotes and places") {
  const Tree tree("a: one two # remark\nb:\n  - {c: 'it''s', d: \"caf\xC3\xA9\"}\n  - |\n    x\n    y\ne:\n", "t.yaml");
  const Node root = tree.root();
  REQUIRE(root.is(Node::Kind::mapping));
  CHECK(root.size() == 3);
  const Node a = root.find("a").value();
  CHECK(a.text() == "one two");
  CHECK_FALSE(a.quoted());
  CHECK(a.where() == "t.yaml:1:4");
  CHECK(a.key_where() == "t.yaml:1:1");
  const Node b = root.find("b").value();
  REQUIRE(b.is(Node::Kind::sequence));
  std::vector<Node> items;
  for (const Node item : b.children()) items.push_back(item);
  REQUIRE(items.size() == 2);
  CHECK(items[0].find("c")->text() == "it's");
  CHECK(items[0].find("c")->quoted());
  CHECK(items[0].find("d")->text() == "caf\xC3\xA9");
  CHECK_FALSE(items[0].find("x").has_value());
  CHECK(items[1].text() == "x\ny\n");
  CHECK(items[1].where() == "t.yaml:4:5");
  const Node e = root.find("e").value();
  CHECK(e.is(Node::Kind::nothing));
  CHECK(e.where() == "t.yaml:7:1");
}

TEST_CASE("columns count characters, not bytes") {
  CHECK(refusal("{caf\xC3\xA9: \xE2\x82\xAC, b: &x 1}") ==
        "a.yaml:1:14: an anchor (&) is not understood here; write the "
        "text in quotes, or out in full");
}

TEST_CASE("an empty list item stands at its dash") {
  struct Row {
    const char* text;
    const char* where;
  };
  for (const Row& row : {
           Row{"a:\n  - b\n  -\n  - c\n", "t.yaml:3:3"},
           Row{"a:\n  - b\n  -   # remark\n\n  # - another\n  - c\n", "t.yaml:3:3"},
           Row{"a:\n  - b\n  -\nn: c\n", "t.yaml:3:3"},
           Row{"a:\r\n  - b\r\n  -\r\n", "t.yaml:3:3"},
           Row{"a:\n  - b\n  -", "t.yaml:3:3"},
           Row{"a:\n  - b\n  - ~\n  - c\n", "t.yaml:3:5"},
           Row{"a:\n  - b\n  -\n    null\n", "t.yaml:4:5"},
           Row{"a: [b,\n  null, c]\n", "t.yaml:2:3"},
       }) {
    CAPTURE(row.text);
    const Tree tree(row.text, "t.yaml");
    const Node list = tree.root().find("a").value();
    std::vector<Node> items;
    for (const Node item : list.children()) items.push_back(item);
    REQUIRE(items.size() >= 2);
    CHECK(items[1].is(Node::Kind::nothing));
    CHECK(items[1].where() == row.where);
  }
}

TEST_CASE("a byte-order mark and CRLF change nothing but are no part of a value") {
  const Tree tree(
      "\xEF\xBB\xBF"
      "a: one\r\nb: \"two\"\r\nc:\r\n  - three\r\n",
      "t.yaml");
  CHECK(tree.root().find("a")->text() == "one");
  CHECK(tree.root().find("a")->where() == "t.yaml:1:4");
  CHECK(tree.root().find("b")->text() == "two");
  CHECK(tree.root().find("b")->where() == "t.yaml:2:4");
  CHECK(tree.root().find("c")->size() == 1);
}

TEST_CASE("an empty file is an empty tree") {
  for (const char* text : {"", "\n", "# only a remark\n", "\xEF\xBB\xBF", "---\n"}) {
    const Tree tree(text, "t.yaml");
    CHECK(tree.root().is(Node::Kind::nothing));
  }
}

TEST_CASE("what is stricter than YAML is refused with its place") {
  struct Row {
    std::string text, message;
  };
  const std::string second = "a second document begins here; keep one, its keys all at the same indent";
  const std::string anchor = "an anchor (&) is not understood here; write the text in quotes, or out in full";
  const std::string alias = "an alias (*) is not understood here; write the text in quotes, or out in full";
  const std::string tag = "a tag (!) is not understood here; write the text in quotes, or leave the tag out";
  const std::string key = "a key must be plain text; put it in quotes";
  const std::string escape = "an escape that names no character; write a backslash twice, or use single quotes";
  const std::string character = "a text can't begin with this character; put the text in quotes";
  const std::string directive = "a directive (%) is not understood here; remove the line";
  const std::string quote = "this quote is never closed; add the closing one";
  const std::string colon = "a colon out of place; put a text that holds one in quotes, or check the indent";
  const std::vector<Row> rows{
      {"a: 1\nb: 2\na: 3\n", "3:1: 'a' stands here twice (first at 1:1); keep one"},
      {"x: {a: 1, b: 2, \"a\": 3}\n", "1:17: 'a' stands here twice (first at 1:5); keep one"},
      {"a: &b c\n", "1:4: " + anchor},
      {"&b a: c\n", "1:1: " + anchor},
      {"a: *b\n", "1:4: " + alias},
      {"*b : c\n", "1:1: " + alias},
      {"a: !!str c\n", "1:4: " + tag},
      {"a: ! c\n", "1:4: " + tag},
      {"a: !\nb: c\n", "1:4: " + tag},
      {"a: !c [1]\n", "1:4: " + tag},
      {"a: !c {d: 1}\n", "1:4: " + tag},
      {"!c a: 1\n", "1:1: " + tag},
      {"a: b\n---\nc: d\n", "2:1: " + second},
      {"a: b\n---\n", "2:1: " + second},
      {"a: b\n...\nc: d\n", "3:1: " + second},
      {" a: b\nc: d\n", "2:1: " + second},
      {"{a: b} c", "1:8: " + second},
      {"? [a]\n: b\n", "1:3: " + key},
      {"{a: b}: c\n", "1:1: " + key},
      {"\xEF\xBB\xBF\xEF\xBB\xBF\na: b\n", "1:1: two byte-order marks; save the file as UTF-8 without any"},
      {": b\n", "1:1: a key is missing; write one before the colon"},
      {"a: \"b\\\nc", "2:2: a quote is never closed; add it"},
      {"a: \"b\nc: d\n", "1:4: " + quote},
      {"a: 'b''\nc: d\n", "1:4: " + quote},
      {"a: \"b", "1:6: a quote is never closed; add it"},
      {"a: \xFF\n", "1:4: not UTF-8 text; save the file as UTF-8"},
      {"a: \xC3\n", "1:4: not UTF-8 text; save the file as UTF-8"},
      {"a: \xED\xA0\x80\n", "1:4: not UTF-8 text; save the file as UTF-8"},
      {std::string("a: \0b\n", 6), "1:4: a NUL (U+0000), as in UTF-16; save the file as UTF-8"},
      {"a: \x1B[1mb\n", "1:4: a control character (U+001B); remove it"},
      {"a: \x7F\n", "1:4: a control character (U+007F); remove it"},
      {"a: \xC2\x9B\n", "1:4: a control character (U+009B); remove it"},
      {"a: b\rc: d\n", "1:5: a line end that is a bare CR (U+000D); save the file with LF or CRLF line ends"},
      {"a: \"\\e[1m\"\n", "1:4: a control character in this text; remove it"},
      {"a: b: c\n", "1:5: " + colon},
      {"a:\n  - {b: 1}\n  - {c: 2, d: \"e\"",
       "3:5: this { is never closed, or a comma is missing in it; add the '}' or ','"},
      {"a:\n  - {b: 1\n  - {c: 2}\n", "2:5: this { is never closed, or a comma is missing in it; add the '}' or ','"},
      {"a: {b: 1\n", "1:4: this { is never closed, or a comma is missing in it; add the '}' or ','"},
      {"a: [b\n", "1:4: this [ is never closed, or a comma is missing in it; add the ']' or ','"},
      {"a: ]\n", "1:4: a closing bracket with no opening one; remove it"},
      {"a: @b\n", "1:4: " + character},
      {"a:\n\t- b\n", "2:2: a dash out of place; begin a list on a line of its own"},
      {"\ta: b\n", "1:3: " + colon},
      {"a: \"\\q\"\n", "1:7: an unknown escape; write a backslash twice, or use single quotes"},
      {"a: 1\n- b\n", "2:1: this line does not belong to the one above; check its indent and its colon"},
      {"- {shade: #abc, length: 1}\n- b\n",
       "1:11: a # hides the rest of its line; put a shade in quotes, like \"#5b2a59\""},
      {"{length: 60,5 cm}", "1:10: a decimal comma in '60,5 cm'; write '60.5 cm'"},
      {"{length: 60, 5 cm, b: 1}", "1:10: a decimal comma in '60,5 cm'; write '60.5 cm'"},
      {"{length: 1.000,5}", "1:10: a decimal comma in '1.000,5'; write '1000.5'"},
      {"{length: 92,,}", "1:13: a comma too many; remove it"},
      {"{length: 92, : 6}", "1:14: a key is missing; write one before the colon"},
      {"~: 1\n", "1:1: '~' means nothing in YAML, so it can't be a key; put it in quotes"},
      {"- {length: 1}\n- {shade: #abc, length: 1}\n",
       "2:11: a # hides the rest of its line; put a shade in quotes, like \"#5b2a59\""},
      {"a: [{length: 5, shade: #abc}, {length: 6}]\n",
       "1:24: a # hides the rest of its line; put a shade in quotes, like \"#5b2a59\""},
      {"- {colour: rust,\n   shade: #abc}\n- b\n",
       "2:11: a # hides the rest of its line; put a shade in quotes, like \"#5b2a59\""},
      {"- {colour: it's, # the warm one\n   shade: '\n   #', b: \"\\\" #a\",\n   #abc}\n",
       "4:4: a # hides the rest of its line; put a shade in quotes, like \"#5b2a59\""},
      {"a: b {c #d\ne: {f: 1 # of them\ng: [1]\n",
       "2:4: this { is never closed, or a comma is missing in it; add the '}' or ','"},
      {"a: b\n...\n%YAML 1.1\n", "3:1: " + directive},
      {"a: b\n... # end\n\n%YAML 1.1\n", "4:1: " + directive},
      {"%YAML 3.0\n---\na: b\n", "1:1: " + directive},
      {"# remark\n \r\n%TAG ! tag:x,2000:\n---\na: b\n", "3:1: " + directive},
      {"\xEF\xBB\xBF%ELSE", "1:1: " + directive},
      {"a: &c &d e\n", "1:7: " + anchor},
      {"a: & b\n", "1:5: " + anchor},
      {"a: &b{ c\n", "1:6: " + anchor},
      {"a: * b\n", "1:5: " + alias},
      {"a: *b{\n", "1:6: " + alias},
      {"a: !b !c d\n", "1:7: " + tag},
      {"a: !<b\n", "1:7: " + tag},
      {"a: \"\\xZZ\"\n", "1:9: " + escape},
      {"a: \"\\uD800\"\n", "1:11: " + escape},
      {"a: |3x\n",
       "1:6: nothing but a digit or a sign follows a | or > here; put a text that begins with it in quotes"},
      {"a: %b\n", "1:4: " + character},
      {"a: |0\n b\n",
       "1:6: not readable as YAML (cannot set zero indentation for a block scalar); check indent, brackets and quotes"},
      {"- - a\n  b\n - c\n", "2:3: this line does not belong to the list above; check its indent and its dash"},
      {"a: |\n  b\n\tc\n", "3:1: a tab in the indent; use spaces"},
      {"a: `b\n", "1:4: " + character},
      {"a: ? b\n", "1:4: a question mark out of place; put a text that begins with one in quotes"},
  };
  for (const Row& row : rows) {
    CAPTURE(row.text);
    CHECK(refusal(row.text) == "a.yaml:" + row.message);
  }
}

TEST_CASE("nesting is fine to level 32, the document being level 1") {
  CHECK(refusal("a: " + repeated("[", 31) + repeated("]", 31)) == "accepted");
  CHECK(refusal("a: " + repeated("[", 32) + repeated("]", 32)) ==
        "a.yaml:1:35: nested more than 32 deep; use fewer levels");
  CHECK(refusal(repeated("- ", 32) + "a") == "accepted");
  CHECK(refusal(repeated("- ", 33) + "a") == "a.yaml:1:65: nested more than 32 deep; use fewer levels");
  CHECK(refusal(repeated("[", 2'000'000)) == "a.yaml:1:33: nested more than 32 deep; use fewer levels");
  CHECK(refusal(repeated("{a: [\n", 20)) == "a.yaml:17:1: nested more than 32 deep; use fewer levels");
}

TEST_CASE("brackets in quotes, remarks, plain and block texts open nothing") {
  for (const char* text :
       {"a: \"[[[\"", "a: \"\\\"[[[\"", "a: '[[['", "a: 'it''s [[['", "# [[[", "a: b #[[[", "a: b[[[", "a: b [[[",
        "a: b '[[[", "- a: |\n    [[[\n\n    [[[\n  b: '[[['", "- |\n [[[\n- '[[['", ">\n[[[", "[a 'b, \"[[[\"]",
        "{\"a\":\"[[[\"}", "{'a': '[[['}", "- \"[[[\"", "? '[[['", "[a, # [[[\n b]", "a:[[["}) {
    CAPTURE(text);
    CHECK_FALSE(bracket_too_deep(text, 2).has_value());
  }
  for (const char* text : {"[[[", "{a: [{", "- [[", "a: [[", "? [[", "a: [b, 'c', {", "a: |\n  b\nc: [[",
                           "- a: |\n  b: [[", "a: \"b\"\nc: [[", "[b[[", "a: b # [\nc: [[", "[a#[["}) {
    CAPTURE(text);
    CHECK(bracket_too_deep(text, 2) == std::string(text).rfind(text[std::string(text).size() - 1]));
  }
}

TEST_CASE("random lists and mappings are found as deep as they are") {
  const std::uint64_t seed = 43;
  CAPTURE(seed);
  Random random(seed);
  for (int i = 0; i < 2'000; ++i) {
    CAPTURE(i);
    std::size_t deepest = 0;
    const std::string text = random_flow(random, 1, deepest);
    CAPTURE(text);
    CHECK(refusal("a: " + text) == "accepted");
    CHECK_FALSE(bracket_too_deep("a: " + text, deepest + 1).has_value());
    CHECK(bracket_too_deep("a: " + text, deepest).has_value());
  }
}

TEST_CASE("places are found as fast at the end of a long file or line as at its start") {
  std::string lines;
  for (int i = 0; i < 300'000; ++i) lines += "- \xC3\xA9\n";
  const Tree tree(lines, "t.yaml");
  std::size_t line = 0;
  bool right = true;
  for (const Node item : tree.root().children()) {
    right = right && item.where() == "t.yaml:" + std::to_string(++line) + ":3";
  }
  CHECK(right);
  CHECK(line == 300'000);
  std::string wide = "[";
  for (int i = 0; i < 100'000; ++i) wide += "\xC3\xA9,";
  const Tree row(wide + "]", "t.yaml");
  std::size_t column = 0;
  for (const Node item : row.root().children()) {
    right = right && item.where() == "t.yaml:1:" + std::to_string(2 * ++column);
  }
  CHECK(right);
  CHECK(column == 100'000);
}

TEST_CASE("a file may hold 64 MB") {
  std::string text(Tree::kMostBytes, '\n');
  CHECK(refusal(text + "\n") == "a.yaml: larger than 64 MB; split it up");
}

TEST_CASE("hostile repetition is refused or read, never a crash or a long wait") {
  for (const char* piece :
       {"[",    "{",  "- ",  "? ",  "[a,",  "a: {",  "{a: b}, ", "'",      "\"",     "[]",       "{}",
        "{? ",  ": ", "a: ", "-\n", "%A\n", "---\n", "...\n",    "- [a\n", "|\n",    "? a\n: b", "[a: ",
        "\"\\", "!",  "&a ", "[?",  "{:",   "a\n\n", "- - \n",   "#",      "a: |\n", ",",        "\\"}) {
    CAPTURE(piece);
    CHECK_NOTHROW((void)refusal(repeated(piece, 20'000)));
  }
}

TEST_CASE("many keys are checked for duplicates without comparing each with each") {
  std::string text;
  for (int i = 0; i < 100'000; ++i) text += "k" + std::to_string(i) + ": 1\n";
  CHECK(refusal(text) == "accepted");
  CHECK(refusal(text + "k77: 2\n") == "a.yaml:100001:1: 'k77' stands here twice (first at 78:1); keep one");
}

TEST_CASE("a text written as YAML reads back byte for byte") {
  for (const std::string text : {"plum",
                                 "robin's egg",
                                 "",
                                 " ",
                                 "null",
                                 "true",
                                 "No",
                                 "y",
                                 "a: b",
                                 "a #b",
                                 "- a",
                                 "\"q\"",
                                 "back\\slash",
                                 "tab\there",
                                 "two\nlines",
                                 "caf\xC3\xA9",
                                 "\xE2\x80\xAE"
                                 "bidi",
                                 "\xC2\xA0",
                                 "\xF0\x9F\xA7\xB6",
                                 "17",
                                 "1e3",
                                 "a,b",
                                 "{a",
                                 "@a",
                                 "trailing ",
                                 "\xF3\xA0\x80\x81tag",
                                 "\xEF\xBF\xBD"}) {
    CAPTURE(text);
    const Tree tree("k: " + yaml_text(text) + "\nl: [" + yaml_text(text) + "]\n", "t.yaml");
    CHECK(tree.root().find("k")->text() == text);
    CHECK((*tree.root().find("l")->children().begin()).text() == text);
  }
}

TEST_CASE("a text of random characters reads back byte for byte") {
  const std::uint64_t seed = 41;
  CAPTURE(seed);
  Random random(seed);
  const std::string letters = "ab :#-?,[]{}&*!|>'\"%@`\\\n\t~.0";
  for (int i = 0; i < 2'000; ++i) {
    CAPTURE(i);
    std::string text;
    for (std::uint64_t n = random.below(12); n > 0; --n) text += letters[random.below(letters.size())];
    CAPTURE(text);
    const Tree tree("{k: " + yaml_text(text) + "}\n", "t.yaml");
    CHECK(tree.root().find("k")->text() == text);
  }
}
