#include "files/learnt.hpp"

#include <doctest/doctest.h>

#include <string>
#include <vector>

#include "files/profile.hpp"
#include "files_fake_disk.hpp"
#include "session.hpp"

namespace ballchange {
namespace {

const std::string kProfile =
    "# mine\n"
    "format: ballchange yarn 1\n"
    "name: Orchard   # from the market\n"
    "felts: true\n"
    "repeat:\n"
    "  - {colour: plum, shade: \"#5b2a59\", length: 92 cm, plus_minus: 6 cm}  # the long one\n"
    "  - {colour: sand, length: 11 cm, plus_minus: 1.5 cm, dyed: twice}\n"
    "  - {colour: rust, length: 80 cm, plus_minus: 5 cm}\n"
    "\n"
    "# until next year\n"
    "bought: 3\n";

Repeat repeat_of(const std::vector<std::string>& names, const std::vector<double>& lengths) {
  std::vector<Colour> colours;
  std::vector<Section> sections;
  for (std::size_t k = 0; k < names.size(); ++k) {
    colours.push_back({names[k], names[k] == "plum" ? std::optional(Shade{0x5b, 0x2a, 0x59}) : std::nullopt});
    sections.push_back({k, Length::cm(lengths[k]), Length::cm(lengths[k] / 10)});
  }
  return {colours, sections};
}

TEST_CASE("where only lengths changed only they are replaced") {
  const Relearnt learnt = with_learnt(kProfile, "orchard.yaml", repeat_of({"plum", "sand", "rust"}, {90, 12.5, 81}),
                                      {"plum 40, sand 11, rust 80, plum"});
  const std::string& now = learnt.text;
  CHECK(now ==
        "# mine\n"
        "format: ballchange yarn 1\n"
        "name: Orchard   # from the market\n"
        "felts: true\n"
        "repeat:\n"
        "  - {colour: plum, shade: \"#5b2a59\", length: 90 cm, plus_minus: 9 cm}  # the long one\n"
        "  - {colour: sand, length: 12.5 cm, plus_minus: 1.25 cm, dyed: twice}\n"
        "  - {colour: rust, length: 81 cm, plus_minus: 8.1 cm}\n"
        "\n"
        "# until next year\n"
        "bought: 3\n"
        "measured:\n"
        "  strands:\n"
        "    - \"plum 40, sand 11, rust 80, plum\"\n");
  CHECK_FALSE(learnt.left_out);
  CHECK(measured_strands(now, "orchard.yaml").texts == std::vector<std::string>{"plum 40, sand 11, rust 80, plum"});
}

TEST_CASE("where sections changed the repeat alone is written anew, its shades kept") {
  const Relearnt learnt = with_learnt(kProfile, "orchard.yaml",
                                      repeat_of({"plum", "moss", "sand", "rust"}, {90, 4, 12, 81}), {"plum 1, sand"});
  const std::string& now = learnt.text;
  CHECK(now ==
        "# mine\n"
        "format: ballchange yarn 1\n"
        "name: Orchard   # from the market\n"
        "felts: true\n"
        "repeat:\n"
        "  - {colour: plum, shade: \"#5b2a59\", length: 90 cm, plus_minus: 9 cm}\n"
        "  - {colour: moss, length: 4 cm, plus_minus: 0.4 cm}\n"
        "  - {colour: sand, length: 12 cm, plus_minus: 1.2 cm}\n"
        "  - {colour: rust, length: 81 cm, plus_minus: 8.1 cm}\n"
        "\n"
        "# until next year\n"
        "bought: 3\n"
        "measured:\n"
        "  strands:\n"
        "    - \"plum 1, sand\"\n");
  CHECK(learnt.left_out);  // the remark, and when it was dyed
}

TEST_CASE("strands that were there are replaced, what else stood beside them stays") {
  const Repeat repeat = repeat_of({"plum", "sand", "rust"}, {90, 12, 81});
  for (const char* old : {"measured: {strands: [\"plum 1, sand\"], by: Ann}\n",
                          "measured:\n  strands: [\"plum 1, sand\"]\n  by: Ann\n"}) {
    CAPTURE(old);
    const Relearnt learnt = with_learnt(kProfile + old, "orchard.yaml", repeat, {"plum 2, sand", "rust 3, plum"});
    const std::string& now = learnt.text;
    CHECK(
        now.ends_with("bought: 3\nmeasured:\n  strands:\n    - \"plum 2, sand\"\n    - \"rust 3, plum\"\n  by: Ann\n"));
  }
}

// A profile as people write it by hand, each key on a line of its own.
const std::string kByHand =
    "format: ballchange yarn 1\n"
    "name: Back lane\n"
    "repeat:\n"
    "  # the outer end\n"
    "  - colour: plum\n"
    "    length: \"92 cm\"   # the long one\n"
    "    plus_minus: 6 cm\n"
    "    dyed: twice\n"
    "  - colour: sand\n"
    "    length: 11 cm  # a splash\n"
    "  - colour: rust\n"
    "    length: 80 cm\n"
    "    plus_minus: 5 cm\n"
    "measured:\n"
    "  # by the window\n"
    "  strands:\n"
    "    - plum 1, sand  # in March\n"
    "  by: Ann\n";

TEST_CASE("keys on lines of their own stay, with their remarks, and what is new goes below its like") {
  const Relearnt learnt = with_learnt(kByHand, "lane.yaml", repeat_of({"plum", "sand", "rust"}, {90, 11, 80}),
                                      {"plum 1, sand", "rust 3, plum"});
  CHECK_FALSE(learnt.left_out);
  CHECK(learnt.text ==
        "format: ballchange yarn 1\n"
        "name: Back lane\n"
        "repeat:\n"
        "  # the outer end\n"
        "  - colour: plum\n"
        "    length: 90 cm   # the long one\n"
        "    plus_minus: 9 cm\n"
        "    dyed: twice\n"
        "  - colour: sand\n"
        "    length: 11 cm  # a splash\n"
        "    plus_minus: 1.1 cm\n"
        "  - colour: rust\n"
        "    length: 80 cm\n"
        "    plus_minus: 8 cm\n"
        "measured:\n"
        "  # by the window\n"
        "  strands:\n"
        "    - plum 1, sand  # in March\n"
        "    - \"rust 3, plum\"\n"
        "  by: Ann\n");
}

TEST_CASE("within braces a give or take that was not written goes behind its length") {
  const std::string text =
      "format: ballchange yarn 1\nname: A\nrepeat:\n  - {colour: plum, length: 9 cm, x: 1}\n"
      "  - {colour: sand, length: 9 cm}";
  CHECK(with_learnt(text, "a.yaml", repeat_of({"plum", "sand"}, {90, 12}), {"plum 2"}).text ==
        "format: ballchange yarn 1\nname: A\nrepeat:\n  - {colour: plum, length: 90 cm, plus_minus: 9 cm, x: 1}\n"
        "  - {colour: sand, length: 12 cm, plus_minus: 1.2 cm}\nmeasured:\n  strands:\n    - plum 2\n");
}

TEST_CASE("a give or take below the last line of a file comes before the strands") {
  const std::string text =
      "format: ballchange yarn 1\nname: A\nrepeat:\n- colour: plum\n  length: 9 cm\n- length: 9 cm";
  for (const char* end : {"\n  colour: sand", "\n  colour: sand\n"}) {
    CHECK(with_learnt(text + end, "a.yaml", repeat_of({"plum", "sand"}, {90, 12}), {"plum 2"}).text ==
          "format: ballchange yarn 1\nname: A\nrepeat:\n- colour: plum\n  length: 90 cm\n  plus_minus: 9 cm\n"
          "- length: 12 cm\n  plus_minus: 1.2 cm\n  colour: sand\nmeasured:\n  strands:\n    - plum 2\n");
  }
  const std::string last =
      "format: ballchange yarn 1\nname: A\nrepeat:\n- colour: plum\n  length: 9 cm\n- colour: sand\n  length: 9 cm";
  for (const char* end : {"", "\n"}) {
    CHECK(with_learnt(last + end, "a.yaml", repeat_of({"plum", "sand"}, {90, 12}), {"plum 2"}).text ==
          "format: ballchange yarn 1\nname: A\nrepeat:\n- colour: plum\n  length: 90 cm\n  plus_minus: 9 cm\n"
          "- colour: sand\n  length: 12 cm\n  plus_minus: 1.2 cm\nmeasured:\n  strands:\n    - plum 2\n");
  }
}

TEST_CASE("a strand taken out writes the strands anew, and tells of a remark that goes with them") {
  const Repeat repeat = repeat_of({"plum", "sand", "rust"}, {92, 11, 80});
  const Relearnt learnt = with_learnt(kByHand, "lane.yaml", repeat, {"rust 3, plum"});
  CHECK(learnt.left_out);
  CHECK(learnt.text.ends_with("measured:\n  strands:\n    - \"rust 3, plum\"\n  by: Ann\n"));
}

TEST_CASE("line ends, a byte-order mark and a missing last line end are respected") {
  const Repeat repeat = repeat_of({"plum", "sand", "rust"}, {90, 12, 81});
  std::string text = "\xEF\xBB\xBF";
  for (const char c : kProfile) text += c == '\n' ? std::string("\r\n") : std::string(1, c);
  text.resize(text.size() - 2);
  const Relearnt learnt = with_learnt(text, "orchard.yaml", repeat, {"plum 2, sand"});
  const std::string& now = learnt.text;
  CHECK(now.starts_with("\xEF\xBB\xBF# mine\r\n"));
  CHECK(now.find("length: 90 cm, plus_minus: 9 cm}  # the long one\r\n") != std::string::npos);
  CHECK(now.ends_with("bought: 3\r\nmeasured:\r\n  strands:\r\n    - \"plum 2, sand\"\r\n"));
}

TEST_CASE("a file of one line can't be learnt anew in place") {
  const std::string text =
      "{format: ballchange yarn 1, name: A, repeat: [{colour: plum, length: 9}, {colour: sand, length: 9}]}\n";
  CHECK_THROWS_AS(static_cast<void>(with_learnt(text, "a.yaml", repeat_of({"plum", "sand"}, {90, 12}), {"plum 2"})),
                  Problem);
}

struct Shelf {
  Shelf() {
    disk.folders = {".", "/far"};
    disk.files["/far/lane.yaml"] = "old";
    disk.links["lane.yaml"] = "/far/lane.yaml";
  }
  Kept keep(const std::string& path) {
    return replace_and_keep(disk, path, {watch, [] {}}, "old", "new");
  }
  FakeDisk disk;
  FakeWatch watch;
};

TEST_CASE("what a file behind a link held is told where it lies") {
  Shelf shelf;
  CHECK(shelf.keep("lane.yaml").path == "/far/lane.yaml~1");
  CHECK(shelf.disk.files["/far/lane.yaml~1"] == "old");
  CHECK(shelf.disk.files["/far/lane.yaml"] == "new");
}

TEST_CASE("where a file can't be replaced no copy of it stays behind") {
  Shelf shelf;
  shelf.disk.before = [](std::string_view step) {
    if (step == "exchange") throw std::system_error(EIO, std::generic_category());
  };
  CHECK_THROWS_AS(static_cast<void>(shelf.keep("lane.yaml")), Problem);
  CHECK(shelf.disk.files.size() == 1);
  CHECK(shelf.disk.files["/far/lane.yaml"] == "old");
}

TEST_CASE("what can't be kept beside the file leaves it as it was, and says why") {
  struct Row {
    const char* what;
    void (*make)(Shelf&);
    std::string said;
  };
  for (const Row& row : {
           Row{"saved by another", [](Shelf& shelf) { shelf.disk.files["/far/lane.yaml"] = "newer"; },
               "lane.yaml was saved by another program in the meantime and was left as it is; try again"},
           Row{"no room for a copy",
               [](Shelf& shelf) {
                 shelf.disk.before = [](std::string_view step) {
                   if (step == "create") throw std::system_error(ENOSPC, std::generic_category());
                 };
               },
               "cannot keep what lane.yaml holds as /far/lane.yaml~1: No space left on device"},
           Row{"too many copies",
               [](Shelf& shelf) {
                 for (int n = 1; n <= 999; ++n) shelf.disk.files["/far/lane.yaml~" + std::to_string(n)] = "older";
               },
               "lane.yaml has 999 older versions beside it; move some away"},
       }) {
    CAPTURE(row.what);
    Shelf shelf;
    row.make(shelf);
    const auto files = shelf.disk.files;
    std::string said;
    try {
      static_cast<void>(shelf.keep("lane.yaml"));
    } catch (const Problem& problem) {
      CHECK(problem.fault() == Fault::file);
      said = problem.what();
    }
    CHECK(said == row.said);
    CHECK(shelf.disk.files == files);
  }
}

}  // namespace
}  // namespace ballchange
