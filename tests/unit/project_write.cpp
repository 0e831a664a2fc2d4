#include <doctest/doctest.h>

#include <cstdint>
#include <string>
#include <vector>

#include "base/random.hpp"
#include "files/append_text.hpp"
#include "files/entry.hpp"
#include "files/profile.hpp"
#include "files/project.hpp"
#include "ledger/fold.hpp"

using namespace ballchange;

namespace {

// Texts as people write them, and as nobody should.
const std::vector<std::string> kTexts{
    "A",
    "17",
    "017",
    "1e3",
    "0x1F",
    "null",
    "~",
    "true",
    "no",
    "2026-03-02",
    "plum 15, sand 11, rust 30+",
    "|plum, rust|",
    "a: b",
    "a #b",
    "#5b2a59",
    "- a",
    "-",
    "? a",
    "{a: b}",
    "[a, b]",
    "&a",
    "*a",
    "!a",
    "%a",
    "@a",
    "`a`",
    "'a'",
    "\"a\"",
    "it's \"so\"",
    "a\\nb",
    "\\",
    "a, b",
    ":",
    "::",
    ",",
    "}",
    "]",
    "=",
    "<<",
    "---",
    "...",
    "\xC3\xA9t\xC3\xA9",       // UTF-8 of two bytes a letter
    "\xE7\xB4\xAB 3\xC2\xBD",  // three, and a half
    "\xF0\x9F\xA7\xB6",        // a ball of yarn
    std::string(200, 'x'),
};

// No entry may hold these, nor may they reach a file.
const std::vector<std::string> kUnfit{
    "",
    "  ",
    "a\nb",
    "a\rb",
    "\x1B[2J",
    std::string("a\0b", 3),
    "\x7F",
    "\xC2\x85",
    "a\xE2\x80\xAE"
    "b",
    "a\xE2\x80\x8B"
    "b",
    "\xEF\xBB\xBF",
    "\xFF",
    "\xC3",
    "\xED\xA0\x80",
    std::string(70'000, 'x'),
};

// Fills every field of an entry; those that may be left out at random.
class RandomFields {
 public:
  explicit RandomFields(Random& random) : random_(random) {}

  template <typename Value, typename... Kind>
  void operator()(std::string_view, std::optional<Value>& value, Kind... kind) {
    if (random_.below(2) == 0) fill(value.emplace(), kind...);
  }
  void operator()(std::string_view, std::vector<std::string>& values) {
    for (std::uint64_t left = random_.below(4); left > 0; --left) fill(values.emplace_back());
  }
  void operator()(std::string_view, bool& value) { value = random_.below(2) == 0; }
  template <typename Value, typename... Kind>
  void operator()(std::string_view, Value& value, Kind... kind) {
    fill(value, kind...);
  }

  double number() { return static_cast<double>(random_.below(100'000'000)) / 1e4; }
  Amount amount() {
    constexpr std::array units{Unit::mm, Unit::cm, Unit::m, Unit::in, Unit::ft, Unit::yd, Unit::st};
    return {number(), units[random_.below(units.size())]};
  }
  int count(int least) { return least + static_cast<int>(random_.below(1'000'000)); }
  const std::string& text() { return kTexts[random_.below(kTexts.size())]; }

 private:
  void fill(std::string& value, TextSize = TextSize::name) { value = text(); }
  void fill(Amount& value, Sign sign = Sign::none) {
    value = amount();
    if (sign == Sign::either && random_.below(2) == 0) value.number = -value.number;
  }
  void fill(Mass& value) { value = Mass::g(number()); }
  void fill(int& value, CountFrom from = CountFrom::one) { value = count(from == CountFrom::zero ? 0 : 1); }
  void fill(double& value) { value = static_cast<double>(1 + random_.below(100'000'000)) / 1e4; }
  void fill(Method& value) { value = methods()[random_.below(methods().size())].method; }
  void fill(BallEnd& value) { value = random_.below(2) == 0 ? BallEnd::outside : BallEnd::inside; }
  void fill(End& value) { value = random_.below(2) == 0 ? End::old_end : End::new_end; }
  void fill(Winding& value) { value = random_.below(2) == 0 ? Winding::mill : Winding::hand; }

  Random& random_;
};

LogEntry random_entry(Random& random, int n) {
  RandomFields fields(random);
  Did what = *blank_entry(kind_names()[random.below(kind_names().size())]);
  std::visit([&](auto& entry) { entry.fields(entry, fields); }, what);
  constexpr std::uint64_t to_2100 = 4'102'444'800;
  return {n, {static_cast<std::int64_t>(random.below(to_2100))}, what};
}

Project random_project(Random& random) {
  Project project = read_project(
                        "format: ballchange project 1\nyarn: {name: Tally, ball: {mass: 50 g, length: 125 m}, repeat: "
                        "[{colour: plum, length: 92}, {colour: rust, length: 80}]}\nlog: []\n",
                        "p.yaml")
                        .project;
  RandomFields fields(random);
  constexpr std::array units{Unit::cm, Unit::in, Unit::st};
  constexpr std::array workings{Working::rows, Working::rounds, Working::turned_rounds};
  project.units = units[random.below(3)];
  if (random.below(2) == 0) project.name = fields.text();
  project.yarn.name = fields.text();
  project.piece.working = workings[random.below(3)];
  fields("stitches", project.piece.stitches);
  fields("rows", project.piece.rows);
  if (random.below(2) == 0) project.piece.yarn_per_stitch = Amount{1 + fields.number() / 1e3, Unit::cm};
  if (project.piece.yarn_per_stitch) {
    project.piece.yarn_per_stitch->number = std::round(project.piece.yarn_per_stitch->number * 1e4) / 1e4;
  }
  fields("yarn_per_turn", project.piece.yarn_per_turn);
  fields("foundation", project.piece.foundation);
  fields("edging", project.piece.edging);
  fields("method", project.join.method);
  fields("allowance", project.join.allowance);
  fields("tolerance", project.join.tolerance);
  fields("keep", project.join.keep_from_the_start);
  return project;
}

void check_same(const Project& a, const Project& b) {
  CHECK(a.name == b.name);
  CHECK(a.units == b.units);
  CHECK(write_profile(a.yarn) == write_profile(b.yarn));
  CHECK(a.piece.working == b.piece.working);
  CHECK(a.piece.stitches == b.piece.stitches);
  CHECK(a.piece.rows == b.piece.rows);
  CHECK(a.piece.yarn_per_stitch == b.piece.yarn_per_stitch);
  CHECK(a.piece.yarn_per_turn == b.piece.yarn_per_turn);
  CHECK(a.piece.foundation == b.piece.foundation);
  CHECK(a.piece.edging == b.piece.edging);
  CHECK(a.join.method == b.join.method);
  CHECK(a.join.allowance == b.join.allowance);
  CHECK(a.join.tolerance == b.join.tolerance);
  CHECK(a.join.keep_from_the_start == b.join.keep_from_the_start);
}

LogEntry read_back(const std::string& text, int n) {
  const Tree tree(text, "written");
  UnknownKeys unknown;
  LogEntry entry = read_entry(tree.root(), n, Unit::cm, unknown);
  CHECK(unknown.notes.empty());
  return entry;
}

}  // namespace

TEST_CASE("an entry that is written is read back as it was") {
  for (std::uint64_t seed = 1; seed <= 3000; ++seed) {
    CAPTURE(seed);
    Random random(seed);
    const LogEntry entry = random_entry(random, 1 + static_cast<int>(random.below(1000)));
    const std::string text = entry_text(entry);
    CAPTURE(text);
    CHECK(text.find_first_of("\r\n") == std::string::npos);
    CHECK(read_back(text, entry.n) == entry);
    CHECK(entry_text(read_back(text, entry.n)) == text);
  }
}

TEST_CASE("an entry is a line that a person could have written") {
  did::Ball ball;
  ball.ball = "A";
  ball.mass = Mass::g(50.2);
  ball.dye_lot = "17";
  ball.outside = "plum 15, sand 11, rust 30";
  CHECK(entry_text({1, parse_moment("2026-03-02T19:20:00Z", "at"), ball}) ==
        "{n: 1, at: 2026-03-02T19:20:00Z, did: ball, ball: A, mass: 50.2 g, dye_lot: \"17\", outside: \"plum 15, sand "
        "11, "
        "rust 30\"}");
  did::Join join;
  join.ball = "B";
  join.trim_new = {1.0 / 3, Unit::in};
  join.shift = {-0.00001, Unit::cm};
  CHECK(entry_text({2, {}, join}) ==
        "{n: 2, at: 1970-01-01T00:00:00Z, did: join, ball: B, trim_new: 0.3333 in, shift: 0 cm}");
}

TEST_CASE("a text that a log can't hold is refused before it is written") {
  for (const std::string& text : kUnfit) {
    CAPTURE(text);
    did::Note note;
    note.text = text;
    CHECK_THROWS_AS((void)entry_text({1, {}, note}), Problem);
    did::Ball ball;
    ball.ball = "A";
    ball.outside = text;
    CHECK_THROWS_AS((void)entry_text({1, {}, ball}), Problem);
  }
}

TEST_CASE("a project that is written is read back as it was") {
  for (std::uint64_t seed = 1; seed <= 500; ++seed) {
    CAPTURE(seed);
    Random random(seed);
    const Project project = random_project(random);
    const std::string text = write_project(project);
    CAPTURE(text);
    const ProjectRead read = read_project(text, "p.yaml");
    CHECK(read.notes.empty());
    CHECK(read.project.entries.empty());
    check_same(read.project, project);
    CHECK(write_project(read.project) == text);
  }
}

TEST_CASE("entries added one by one to a written project are the entries read back") {
  for (std::uint64_t seed = 1; seed <= 40; ++seed) {
    CAPTURE(seed);
    Random random(seed);
    std::string text = write_project(random_project(random));
    std::vector<LogEntry> entries;
    for (int n = 1; n <= 12; ++n) {
      entries.push_back(random_entry(random, n));
      const std::string before = text;
      text = add_entries(before, Tree(before, "p.yaml"), {entry_text(entries.back())});
      if (n > 1) CHECK(text.starts_with(before));
    }
    CHECK(read_project(text, "p.yaml").project.entries == entries);
  }
}

TEST_CASE("whatever the log looks like, nothing above a new entry changes and it takes the log's own indent") {
  const std::string head =
      "format: ballchange project 1  # by hand\nyarn: {name: Tally, repeat: [{colour: plum, length: 92}, {colour: "
      "rust, "
      "length: 80}]}\n";
  const std::string one = "{n: 1, at: 2026-03-02T19:20:00Z, did: row, row: 3}";
  struct Shape {
    std::string log, kept, line;  // what of `log` stays in front, and the new line's beginning
    int n;
  };
  const std::vector<Shape> shapes{
      {"log: []\n", "log:\n", "  - ", 1},
      {"log: [ ]   # none yet\n", "log:   # none yet\n", "  - ", 1},
      {"log: []", "log:\n", "  - ", 1},
      {"log:\n", "log:\n", "  - ", 1},
      {"log:\n- " + one + "\n", "", "- ", 2},
      {"log:\n  - " + one + "\n", "", "  - ", 2},
      {"log:\n    - " + one + "\n", "", "    - ", 2},
      {"log:\n  - " + one, "log:\n  - " + one + "\n", "  - ", 2},
      {"log:\n  -   n: 1\n      at: 2026-03-02T19:20:00Z   # late\n      did: row\n      row: 3\n\n# the end\n", "",
       "  - ", 2},
      {"log:\n- n: 1\n  at: 2026-03-02T19:20:00Z\n  did: note\n  text: >-\n    two\n    lines\n", "", "- ", 2},
  };
  const auto crlf = [](std::string text) {
    for (std::size_t at = 0; (at = text.find('\n', at)) != std::string::npos; at += 2) text.insert(at, 1, '\r');
    return text;
  };
  for (const Shape& shape : shapes) {
    for (const bool windows : {false, true}) {
      for (const std::string mark : {"", "\xEF\xBB\xBF"}) {
        const auto as = [&](const std::string& text) { return mark + (windows ? crlf(text) : text); };
        const std::string before = as(head + shape.log);
        CAPTURE(before);
        const LogEntry entry{shape.n, {}, did::Row{7, 2, {}}};
        const std::string after = add_entries(before, Tree(before, "p.yaml"), {entry_text(entry)});
        const std::string kept = shape.kept.empty() ? shape.log : shape.kept;
        CHECK(after == as(head + kept + shape.line + entry_text(entry) + "\n"));
        CHECK(read_project(after, "p.yaml").project.entries.back() == entry);
      }
    }
  }
}

TEST_CASE("a project cut at each byte, and with each byte changed, is read and added up, or refused with its place") {
  Random random(1);
  std::string text = write_project(random_project(random));
  for (int n = 1; n <= 10; ++n) {
    Did what = *blank_entry(kind_names()[static_cast<std::size_t>(n - 1)]);
    RandomFields fields(random);
    std::visit([&](auto& entry) { entry.fields(entry, fields); }, what);
    text = add_entries(text, Tree(text, "p.yaml"), {entry_text({n, {}, what})});
  }
  int read = 0;
  const auto look = [&](const std::string& damaged) {
    try {
      const Project project = read_project(damaged, "p.yaml").project;
      CHECK(fold(project).cancelled.size() == project.entries.size());
      ++read;
    } catch (const Problem& problem) {
      CHECK(problem.fault() == Fault::content);
      CHECK(std::string_view(problem.what()).starts_with("p.yaml:"));
    }
  };
  for (std::size_t size = 0; size < text.size(); ++size) {
    CAPTURE(size);
    look(text.substr(0, size));
  }
  CHECK(read > 0);
  for (std::size_t at = 0; at < text.size(); ++at) {
    CAPTURE(at);
    for (unsigned flip = 1; flip < 256; flip *= 2) {
      std::string damaged = text;
      damaged[at] = static_cast<char>(static_cast<unsigned char>(damaged[at]) ^ flip);
      look(damaged);
    }
  }
}

namespace {

// An entry of which one thing is told, about ball A where it is about a ball.
template <typename Entry, typename Field, typename Value>
Did told(Field Entry::*field, const Value& value) {
  Entry entry;
  if constexpr (requires { entry.ball; }) entry.ball = "A";
  entry.*field = value;
  return entry;
}

}  // namespace

TEST_CASE("an entry that its own reader would refuse or read otherwise is never written") {
  struct Row {
    Did what;
    std::string said;
  };
  const std::vector<Row> rows{
      {told(&did::Ball::mass, Mass::g(0.00004)), "--mass: less than 0.0001 can't be written down"},
      {told(&did::Ball::length, Amount{0.00001, Unit::cm}), "--length: less than 0.0001 can't be written down"},
      {told(&did::Ball::mass, Mass::g(2e6)),
       "this ball can't be recorded: mass: '2000000 g' is too heavy: at most 1000 kg"},
      {told(&did::Gauge::stitches_in_10cm, 0.00001), "--stitches-in-10cm: less than 0.0001 can't be written down"},
      {told(&did::Gauge::stitches_in_10cm, -1.0),
       "this gauge can't be recorded: stitches_in_10cm: '-1' is below zero: leave out the minus"},
      {told(&did::Gauge::rows_in_10cm, 1e20),
       "this gauge can't be recorded: rows_in_10cm: '1e+20' has an exponent: write the number out, like 1500 or 0.1"},
      {told(&did::Row::row, 0),
       "this row can't be recorded: row: '0' is not a count; write a whole number from 1 to 1000000"},
      {told(&did::Join::row, 1'000'001),
       "this join can't be recorded: row: '1000001' is not a count; write a whole number from 1 to 1000000"},
  };
  for (const Row& row : rows) {
    CAPTURE(row.said);
    CHECK_THROWS_WITH_AS((void)written_entry({1, {0}, row.what}, Unit::cm), row.said.c_str(), Problem);
  }
}

TEST_CASE("what is recorded is what the file will say") {
  const auto kept = [](const Did& what) { return written_entry({1, {0}, what}, Unit::cm).entry.what; };
  CHECK(kept(told(&did::Weigh::mass, Mass::g(50.00004))) == told(&did::Weigh::mass, Mass::g(50)));
  CHECK(kept(told(&did::Join::shift, Amount{-0.00006, Unit::cm})) ==
        told(&did::Join::shift, Amount{-0.0001, Unit::cm}));
  // A tab is a blank, as it is where a reading is read.
  CHECK(kept(did::Note{" rust 30,\tsand 11 ", {}, {}}) == Did(did::Note{"rust 30, sand 11", {}, {}}));
}
