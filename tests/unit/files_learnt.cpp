#include "files/learnt.hpp"

#include <doctest/doctest.h>

#include <string>
#include <vector>

#include "files/profile.hpp"
#include "files_fake_disk.hpp"

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
  const std::string now = with_learnt(kProfile, "orchard.yaml", repeat_of({"plum", "sand", "rust"}, {90, 12.5, 81}),
                                      {"plum 40, sand 11, rust 80, plum"});
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
  CHECK(measured_strands(now, "orchard.yaml").texts == std::vector<std::string>{"plum 40, sand 11, rust 80, plum"});
}

TEST_CASE("where sections changed the repeat alone is written anew, its shades kept") {
  const std::string now = with_learnt(kProfile, "orchard.yaml",
                                      repeat_of({"plum", "moss", "sand", "rust"}, {90, 4, 12, 81}), {"plum 1, sand"});
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
}

TEST_CASE("strands that were there are replaced, what else stood beside them stays") {
  const Repeat repeat = repeat_of({"plum", "sand", "rust"}, {90, 12, 81});
  for (const char* old : {"measured: {strands: [\"plum 1, sand\"], by: Ann}\n",
                          "measured:\n  strands: [\"plum 1, sand\"]\n  by: Ann\n"}) {
    CAPTURE(old);
    const std::string now = with_learnt(kProfile + old, "orchard.yaml", repeat, {"plum 2, sand", "rust 3, plum"});
    CHECK(
        now.ends_with("bought: 3\nmeasured:\n  strands:\n    - \"plum 2, sand\"\n    - \"rust 3, plum\"\n  by: Ann\n"));
  }
}

TEST_CASE("line ends, a byte-order mark and a missing last line end are respected") {
  const Repeat repeat = repeat_of({"plum", "sand", "rust"}, {90, 12, 81});
  std::string text = "\xEF\xBB\xBF";
  for (const char c : kProfile) text += c == '\n' ? std::string("\r\n") : std::string(1, c);
  text.resize(text.size() - 2);
  const std::string now = with_learnt(text, "orchard.yaml", repeat, {"plum 2, sand"});
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

}  // namespace
}  // namespace ballchange
